/** Small helpers to build a page without markup strings: text from cells can never become HTML. */

type Child = Node | string | undefined;

/** An element with a class, attributes and children; strings become text. */
export function el<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Record<string, string> = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children.filter((child) => child !== undefined));
  return made;
}

/** A button that says what it does. */
export function button(
  label: string,
  onClick: () => void,
  attributes: Record<string, string> = {},
): HTMLButtonElement {
  const made = el('button', { type: 'button', ...attributes }, label);
  made.addEventListener('click', onClick);
  return made;
}

const whole = new Intl.NumberFormat('en-US', { maximumFractionDigits: 0 });
const tenths = new Intl.NumberFormat('en-US', { maximumFractionDigits: 1 });

/** Whole above 10, one decimal below: as many digits as a decision needs. */
export function amount(value: number): string {
  return (Math.abs(value) >= 10 || Number.isInteger(value) ? whole : tenths).format(value);
}

/** "1 tree", "2 trees". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${whole.format(count)} ${count === 1 ? one : many}`;
}
