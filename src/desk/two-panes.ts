/**
 * F6 goes between the grid and the panel: inside the grid Tab goes from cell to cell, so it leads nobody out. Each side gets
 * the focus back where it had it.
 */
const FOCUSABLE = 'h2[tabindex], button, select, input, [contenteditable], [tabindex]';

/** The element that has the focus, through all shadow roots. */
function focusedElement(): Element | null {
  let at = document.activeElement;
  while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
  return at;
}

/** The first element inside that can take the focus, through all shadow roots. */
function firstFocusable(within: Element | ShadowRoot): HTMLElement | undefined {
  for (const child of within.children) {
    const own = child.matches(FOCUSABLE) ? (child as HTMLElement) : undefined;
    const found = own ?? (child.shadowRoot && firstFocusable(child.shadowRoot)) ?? firstFocusable(child); // prettier-ignore
    if (found) return found;
  }
  return undefined;
}

/** @param panes - in the order F6 goes through them */
export function switchPanes(panes: readonly HTMLElement[]): void {
  const last = new Map<HTMLElement, Element>();
  for (const pane of panes) pane.setAttribute('aria-keyshortcuts', 'F6');
  const paneOf = (element: Element | null): number =>
    panes.findIndex((pane) => element !== null && pane.contains(element));
  window.addEventListener(
    'keydown',
    (event) => {
      if (event.key !== 'F6' || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      const from = paneOf(document.activeElement);
      const at = focusedElement();
      if (from >= 0 && at) last.set(panes[from]!, at);
      const to = panes[(from + 1) % panes.length]!;
      const before = last.get(to);
      const target = before?.isConnected ? (before as HTMLElement) : firstFocusable(to);
      target?.focus();
    },
    { capture: true },
  );
}
