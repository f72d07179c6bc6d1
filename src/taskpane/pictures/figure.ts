/** What every picture has around it: a title that says what it shows, a key, and the numbers behind it as a table. */
import { svgElement } from './inks.js';

export interface KeyEntry {
  /** drawn in a box of SAMPLE_WIDTH × SAMPLE_HEIGHT */
  sample: SVGElement[];
  words: string;
}

export interface NumbersTable {
  head: readonly string[];
  /** called when somebody opens the table */
  rows: () => readonly (readonly string[])[];
}

export interface FigureParts {
  /** of the kind of picture, as a class */
  name: string;
  title: string;
  /** for people who do not see it: what is shown, with the main numbers */
  alt: string;
  drawing: SVGElement;
  key: readonly KeyEntry[];
  /** on the button that opens the table; no table without it */
  numbers?: { words: string; table: NumbersTable } | undefined;
}

export const SAMPLE_WIDTH = 24;
export const SAMPLE_HEIGHT = 12;

export function element<K extends keyof HTMLElementTagNameMap>(
  name: K,
  className: string,
  ...children: (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  if (className !== '') made.className = className;
  made.append(...children);
  return made;
}

function keyOf(entries: readonly KeyEntry[]): HTMLElement {
  const items = entries.map(({ sample, words }) =>
    element(
      'li',
      '',
      svgElement('svg', { width: SAMPLE_WIDTH, height: SAMPLE_HEIGHT, viewBox: `0 0 ${SAMPLE_WIDTH} ${SAMPLE_HEIGHT}`, 'aria-hidden': 'true' }, ...sample),
      element('span', '', words),
    ),
  ); // prettier-ignore
  return element('ul', 'picture-key', ...items);
}

function tableOf({ head, rows }: NumbersTable): HTMLTableElement {
  const cell = (tag: 'th' | 'td', text: string, scope?: 'col' | 'row'): HTMLTableCellElement => {
    const made = element(tag, '', text);
    if (scope) made.setAttribute('scope', scope);
    return made;
  };
  return element(
    'table',
    '',
    element('thead', '', element('tr', '', ...head.map((text) => cell('th', text, 'col')))),
    element(
      'tbody',
      '',
      ...rows().map(([first = '', ...rest]) =>
        element('tr', '', cell('th', first, 'row'), ...rest.map((text) => cell('td', text))),
      ),
    ),
  );
}

/** The table is made when it is opened first: a season has hundreds of rows. */
function numbersOf({ words, table }: NonNullable<FigureParts['numbers']>, title: string): HTMLElement {
  const room = element('div', 'picture-numbers');
  // a box that scrolls must be reachable by keyboard, and have a name
  room.tabIndex = 0;
  room.setAttribute('role', 'region');
  room.setAttribute('aria-label', `${words}: ${title}`);
  const details = element('details', '', element('summary', '', words), room);
  details.addEventListener('toggle', () => {
    if (details.open && room.childElementCount === 0) room.append(tableOf(table));
  });
  return details;
} // prettier-ignore

export function figure(parts: FigureParts): HTMLElement {
  const { name, title, alt, drawing, key, numbers } = parts;
  drawing.setAttribute('role', 'img');
  drawing.setAttribute('aria-label', alt);
  drawing.classList.add('drawing');
  const made = element('figure', `picture ${name}`, element('figcaption', '', title), drawing);
  if (key.length > 0) made.append(keyOf(key));
  if (numbers) made.append(numbersOf(numbers, title));
  return made;
}

/** Samples for keys. */
export const sampleLine = (ink: string, width: number, dash = ''): SVGElement[] => [
  svgElement('path', {
    d: `M0,${SAMPLE_HEIGHT / 2} L${SAMPLE_WIDTH},${SAMPLE_HEIGHT / 2}`,
    fill: 'none',
    stroke: ink,
    'stroke-width': width,
    ...(dash && { 'stroke-dasharray': dash }),
  }),
];
export const sampleBox = (fill: string, stroke: string, dash = ''): SVGElement[] => [
  svgElement('rect', {
    x: 3,
    y: 0.5,
    width: SAMPLE_WIDTH - 6,
    height: SAMPLE_HEIGHT - 1,
    fill,
    stroke,
    ...(dash && { 'stroke-dasharray': dash }),
  }),
];
