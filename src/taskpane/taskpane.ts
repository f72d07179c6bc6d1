/** The panel inside the spreadsheet program. */
import { officeHost } from './office-host.js';
import { mountPanel } from './panel.js';
import { browserPlanner } from '../workers/browser-pool.js';
import { plannerWith } from './planning.js';

async function start(): Promise<void> {
  const root = document.getElementById('panel');
  if (root === null) throw new Error('The page lacks its panel.');
  try {
    await Office.onReady();
    await mountPanel(root, await officeHost(), plannerWith(browserPlanner()));
  } catch (error) {
    const line = document.createElement('p');
    line.setAttribute('role', 'alert');
    line.textContent = `The panel could not start: ${error instanceof Error ? error.message : String(error)}`;
    root.replaceChildren(line);
  }
}

void start();
