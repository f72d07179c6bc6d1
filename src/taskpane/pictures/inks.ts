/** Colours of the pictures, by the panel's names, so that they follow light and dark. */
export const INKS = {
  bark: 'var(--bark, #3b2f2a)',
  loam: 'var(--loam, #6b4f3a)',
  water: 'var(--water, #0b5c8f)',
  tint: 'color-mix(in srgb, var(--water, #0b5c8f) 45%, var(--paper, #fff))',
  clay: 'var(--clay, #b0431e)',
  rule: 'var(--rule, #d9cfbf)',
  paper: 'var(--paper, #fff)',
} as const;

const SVG = 'http://www.w3.org/2000/svg';

/** An SVG element with attributes. */
export function svgElement(
  name: string,
  attributes: Readonly<Record<string, string | number>> = {},
  ...children: Element[]
): SVGElement {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.append(...children);
  return element;
}

export interface Hatch {
  ink: string;
  /** of the lines [deg]; 0 is level */
  angle: number;
  /** between two lines, and width of a line [px] */
  apart: number;
  wide: number;
  /** under the lines; none: what is there shows through */
  ground?: string;
}

let made = 0;

/** A hatch to fill with: the definition for the drawing, and how a fill names it. */
export function hatch({ ink, angle, apart, wide, ground }: Hatch): { node: SVGElement; fill: string } {
  const id = `picture-hatch-${++made}`;
  const node = svgElement(
    'pattern',
    { id, width: apart, height: apart, patternUnits: 'userSpaceOnUse', patternTransform: `rotate(${angle})` },
    ...(ground ? [svgElement('rect', { width: apart, height: apart, fill: ground })] : []),
    svgElement('rect', { width: apart, height: wide, fill: ink }),
  );
  return { node, fill: `url(#${id})` };
} // prettier-ignore
