/** The panel inside the spreadsheet program. */
import { roomLine } from '../workers/room-line.js';
import { mountPanel } from './mount.js';
import { officeHost } from './office-host.js';
import { rasterise } from './rasterise.js';
import { Session } from './session.js';

/** The program's own theme, where it says it; else the panel follows the system's. */
function followTheme(): void {
  const dark = Office.context.officeTheme?.isDarkTheme;
  if (typeof dark === 'boolean')
    document.documentElement.dataset['theme'] = dark ? 'dark' : 'light';
}

async function start(): Promise<void> {
  const root = document.getElementById('panel');
  if (root === null) throw new Error('The page lacks its panel.');
  try {
    await Office.onReady();
    followTheme();
    const host = await officeHost(rasterise);
    const room = roomLine({ rasterise });
    const language = Office.context.displayLanguage ?? navigator.language;
    await mountPanel(root, (spoken) => new Session(host, room, spoken), { language });
  } catch (error) {
    const line = document.createElement('p');
    line.setAttribute('role', 'alert');
    line.className = 'start-trouble';
    line.textContent = `The panel could not start: ${error instanceof Error ? error.message : String(error)}`;
    root.replaceChildren(line);
  }
}

void start();
