/**
 * What one is in stays where it is on the screen. A field that is left may change what stands above the next one: a name that
 * follows its numbers grows by a line, a warning goes. Without this the next click would meet another field.
 */

/** What has the focus, and what moves it up and down. */
interface Focused {
  element: Element;
  scroller: HTMLElement;
}
/** How far down the window it stood [px], and how far its page was scrolled then [px]. */
interface Stood {
  top: number;
  scrolled: number;
}

const CONTROLS = 'input, select, textarea, button, summary, a';

/** The element that has the focus, through all shadow roots. */
export function focusedElement(): Element | null {
  let at = document.activeElement;
  while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
  return at;
}

/**
 * An element's inside says when the focus comes to something in it: where the focus stays within one shadow root, its events
 * do not leave it.
 */
export function tellFocus(element: HTMLElement, inside: Node): void {
  inside.addEventListener('focusin', () =>
    element.dispatchEvent(new Event('focus-here', { bubbles: true, composed: true })),
  );
}

const parentOf = (element: Element): Element | null => {
  if (element.parentElement) return element.parentElement;
  const root = element.getRootNode();
  return root instanceof ShadowRoot ? root.host : null;
};

const scrolls = (element: Element): boolean =>
  element.scrollHeight > element.clientHeight &&
  ['auto', 'scroll'].includes(getComputedStyle(element).overflowY);

/** Undefined where an element keeps its place by itself, as in a bar that stays in view. */
function scrollerOf(element: Element): HTMLElement | undefined {
  for (let at: Element | null = element; at; at = parentOf(at)) {
    if (getComputedStyle(at).position === 'sticky') return undefined;
    if (at instanceof HTMLElement && scrolls(at)) return at;
  }
  return document.documentElement;
}

function inView(element: Element): boolean {
  const { top, bottom } = element.getBoundingClientRect();
  return bottom > 0 && top < window.innerHeight;
}

/**
 * Scrolls by as much as what has the focus was moved by anything but scrolling, before that is drawn. What is out of view is
 * left to the browser, which holds the first line in view; only one of the two may do so at a time.
 *
 * @param panel - grows and shrinks with what stands in it; nothing outside it is held
 * @returns ends it
 */
export function holdInPlace(panel: HTMLElement): () => void {
  let focused: Focused | undefined;
  let stood: Stood | undefined;

  const hold = ({ element, scroller }: Focused): void => {
    scroller.style.setProperty('overflow-anchor', 'none');
    stood = { top: element.getBoundingClientRect().top, scrolled: scroller.scrollTop };
  };
  const letGo = (): void => {
    focused?.scroller.style.removeProperty('overflow-anchor');
    stood = undefined;
  };
  const scrollBack = ({ element, scroller }: Focused, { top }: Stood): void => {
    scroller.scrollTop += element.getBoundingClientRect().top - top;
  };
  /** By a person or a program, not by the end of a page that got shorter: that is left out where a page is laid out anew. */
  const scrolledOn = (): void => {
    if (!focused || !stood) return;
    const { scrollTop } = focused.scroller;
    stood = { top: stood.top - (scrollTop - stood.scrolled), scrolled: scrollTop };
  };
  const take = (element: Element | null): void => {
    letGo();
    const scroller = element && scrollerOf(element);
    focused = scroller ? { element, scroller } : undefined;
    if (focused) hold(focused);
  };
  /** Where it is seen as it is pressed: leaving another field may move it before it has the focus. */
  const pressed = (event: PointerEvent): void => {
    const at = event
      .composedPath()
      .find((each) => each instanceof Element && each.matches(CONTROLS));
    if (at) take(at as Element);
  };
  const entered = (): void => {
    const element = focusedElement();
    // pressed, or told by another element around it
    if (stood && focused?.element === element) return;
    // what was left a moment ago may have changed the page already; who is led to a heading is to see that
    const isControl = element?.matches(CONTROLS) === true;
    scrolledOn();
    if (focused?.element.isConnected && stood && isControl) scrollBack(focused, stood);
    take(element);
  };
  const scrolled = (): void => {
    if (!focused || focused.element !== focusedElement() || !inView(focused.element)) letGo();
    else if (stood) scrolledOn();
    else hold(focused);
  };
  const resized = (): void => {
    if (!focused || !stood) return;
    if (focused.element !== focusedElement()) return letGo();
    scrollBack(focused, stood);
    hold(focused);
  };

  const observer = new ResizeObserver(resized);
  observer.observe(panel);
  panel.addEventListener('pointerdown', pressed, { capture: true });
  panel.addEventListener('focus-here', entered);
  window.addEventListener('scroll', scrolled, { capture: true, passive: true });
  return () => {
    observer.disconnect();
    panel.removeEventListener('pointerdown', pressed, { capture: true });
    panel.removeEventListener('focus-here', entered);
    window.removeEventListener('scroll', scrolled, { capture: true });
    letGo();
  };
}
