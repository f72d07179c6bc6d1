/** Puts the panel into a page. */
import './panel-shell.js';
import type { Language } from './parts/format.js';
import type { PanelShell } from './panel-shell.js';
import { Session } from './session.js';

/** The language the program around the panel speaks, where we speak it too; else English. */
export const languageOf = (tag: string): Language =>
  tag.toLowerCase().startsWith('es') ? 'es' : 'en';

export interface Mount {
  /** of the program around the panel: "es-MX" */
  language: string;
  /** show the panel when the sheet has been read, where that takes no longer than a moment */
  readFirst?: boolean;
  /** plan the sheet as soon as it is read: the desk's sample opens planned */
  planAtOnce?: boolean;
}

/** Resolves when the sheet in front has been read once, and planned if asked. */
export async function mountPanel(
  root: HTMLElement,
  makeSession: (language: Language) => Session,
  { language, readFirst = false, planAtOnce = false }: Mount,
): Promise<Session> {
  const session = makeSession(languageOf(language));
  const panel = document.createElement('sb-panel') as PanelShell;
  panel.session = session;
  const label = (): void => {
    root.lang = session.language;
    root.setAttribute('aria-label', session.words.panel.label);
  };
  session.listen(label);
  label();
  const show = (): void => root.replaceChildren(panel);
  if (!readFirst) show();
  await session.start();
  if (readFirst) show();
  if (planAtOnce && session.canPlan) await session.makePlan(true);
  return session;
}
