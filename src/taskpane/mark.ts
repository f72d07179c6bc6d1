/**
 * The mark: a hose coil seen from above, one spiral round a small filled dot (the stem).
 *
 * The hose lies at a steady spacing, so its distance from the stem grows evenly with the angle:
 *   r(a) = inner + spacing * a / 2pi
 * Each eighth of a turn becomes one cubic curve whose ends have the spiral's own direction.
 */
export interface Coil {
  /** radius where the hose starts and the distance between turns, in units of the drawing */
  inner: number;
  spacing: number;
  turns: number;
  centre: number;
}

/** The coil as the `d` of an SVG path. */
export function coilPath({ inner, spacing, turns, centre }: Coil): string {
  const growth = spacing / (2 * Math.PI);
  const steps = Math.round(turns * 8);
  const step = Math.PI / 4;
  const at = (angle: number): { x: number; y: number; dx: number; dy: number } => {
    const r = inner + growth * angle;
    const [cos, sin] = [Math.cos(angle - Math.PI / 2), Math.sin(angle - Math.PI / 2)];
    return {
      x: centre + r * cos,
      y: centre + r * sin,
      dx: growth * cos - r * sin,
      dy: growth * sin + r * cos,
    };
  };
  const n = (value: number): string => String(Math.round(value * 100) / 100);
  const start = at(0);
  const parts = [`M${n(start.x)} ${n(start.y)}`];
  for (let i = 0; i < steps; i++) {
    const a = at(i * step);
    const b = at((i + 1) * step);
    const third = step / 3;
    parts.push(
      `C${n(a.x + a.dx * third)} ${n(a.y + a.dy * third)} ` +
        `${n(b.x - b.dx * third)} ${n(b.y - b.dy * third)} ${n(b.x)} ${n(b.y)}`,
    );
  }
  return parts.join('');
}

export const MARK = {
  /** two and a half turns, for 32 px and up, in a 64-unit square */
  full: { coil: { inner: 9, spacing: 8.2, turns: 2.5, centre: 32 }, stroke: 4.4, dot: 4.4 },
  /** one and a half turns, for 16 px */
  small: { coil: { inner: 12, spacing: 10.4, turns: 1.5, centre: 32 }, stroke: 7, dot: 6.4 },
} as const;

/** The mark as a standalone SVG file's text. */
export function markSvg(size: keyof typeof MARK, water: string, stem: string): string {
  const { coil, stroke, dot } = MARK[size];
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64">` +
    `<path d="${coilPath(coil)}" fill="none" stroke="${water}" stroke-width="${stroke}" stroke-linecap="round"/>` +
    `<circle cx="32" cy="32" r="${dot}" fill="${stem}"/></svg>\n`
  );
}

/** The mark as an element for a page; decorative, the name stands beside it. */
export function markElement(page: Document, size: keyof typeof MARK = 'full'): SVGSVGElement {
  const ns = 'http://www.w3.org/2000/svg';
  const { coil, stroke, dot } = MARK[size];
  const svg = page.createElementNS(ns, 'svg');
  svg.setAttribute('viewBox', '0 0 64 64');
  svg.setAttribute('class', 'mark');
  svg.setAttribute('aria-hidden', 'true');
  const path = page.createElementNS(ns, 'path');
  path.setAttribute('d', coilPath(coil));
  path.setAttribute('class', 'mark-hose');
  path.setAttribute('stroke-width', String(stroke));
  const stem = page.createElementNS(ns, 'circle');
  for (const [name, value] of [
    ['cx', 32],
    ['cy', 32],
    ['r', dot],
  ] as const)
    stem.setAttribute(name, String(value));
  stem.setAttribute('class', 'mark-stem');
  svg.append(path, stem);
  return svg;
}
