/**
 * F6 goes between the grid and the panel: inside the grid Tab goes from cell to cell, so it leads nobody out. Each side gets
 * the focus back where it had it. The grid also takes the focus by itself, whenever a workbook is drawn or a cell chosen by
 * a program; who is in the panel then stays there.
 */
import { focusedElement } from '../taskpane/parts/hold-in-place.js';

const FOCUSABLE = 'h2[tabindex], button, select, input, [contenteditable], [tabindex]';

/** The first element inside that can take the focus, through all shadow roots. */
function firstFocusable(within: Element | ShadowRoot): HTMLElement | undefined {
  for (const child of within.children) {
    const own = child.matches(FOCUSABLE) ? (child as HTMLElement) : undefined;
    const found = own ?? (child.shadowRoot && firstFocusable(child.shadowRoot)) ?? firstFocusable(child); // prettier-ignore
    if (found) return found;
  }
  return undefined;
}

/** How long after something was asked for the grid may take the focus for it [ms]. */
const ASKED_MS = 2000;

export interface Panes {
  /** the grid is about to be shown a cell that a person asked for: it may take the focus */
  mayTakeFocus(): void;
}

export function switchPanes(grid: HTMLElement, panel: HTMLElement): Panes {
  const panes = [grid, panel];
  const last = new Map<HTMLElement, Element>();
  let askedUntil = 0;
  let tabbing = false;
  const mayTakeFocus = (): void => void (askedUntil = performance.now() + ASKED_MS);
  grid.addEventListener('pointerdown', mayTakeFocus, { capture: true });
  document.addEventListener('focusin', ({ target, relatedTarget }) => {
    const from = relatedTarget instanceof Element ? relatedTarget : null;
    if (!grid.contains(target as Element) || !panel.contains(from)) return;
    if (tabbing || performance.now() < askedUntil) return;
    const before = last.get(panel);
    if (before?.isConnected) (before as HTMLElement).focus();
  });
  panel.addEventListener('focusin', (event) => last.set(panel, event.composedPath()[0] as Element));
  for (const pane of panes) pane.setAttribute('aria-keyshortcuts', 'F6');
  const paneOf = (element: Element | null): number =>
    panes.findIndex((pane) => element !== null && pane.contains(element));
  window.addEventListener(
    'keydown',
    (event) => {
      if (event.key === 'Tab') {
        // the focus moves before the next task
        tabbing = true;
        setTimeout(() => (tabbing = false), 0);
      }
      if (event.key !== 'F6' || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      const from = paneOf(document.activeElement);
      const at = focusedElement();
      if (from >= 0 && at) last.set(panes[from]!, at);
      const to = panes[(from + 1) % panes.length]!;
      const before = last.get(to);
      const target = before?.isConnected ? (before as HTMLElement) : firstFocusable(to);
      mayTakeFocus();
      target?.focus();
    },
    { capture: true },
  );
  return { mayTakeFocus };
}
