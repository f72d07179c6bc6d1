/**
 * A soaker hose coiled round a tree, to scale, seen from above: stem, ball, coil, wetted ground. A pure function from
 * sizes to SVG, for the panel and for paper; it works in black and white.
 */
import { COIL_SPACING, coilDiameter } from '../engine/means/soaker-hose.js';
import { Problem } from '../engine/problems.js';
import { M_PER_FOOT, MM_PER_INCH, type Units } from '../engine/units.js';

export interface CoilSizes {
  /** trunk [mm] */
  stem: number;
  /** ball diameter [mm] */
  ball: number;
  /** diameter of the irrigated root zone [m] */
  ring: number;
  /** hose of one coil [m], and diameter where it begins [m] */
  length: number;
  inner: number;
  /** between turns [m]; default as the planner takes it */
  spacing?: number;
}

export interface CoilDrawing {
  /** a whole SVG element, with title and description inside */
  svg: string;
  /** diameter of the coil [m], its turns [-] */
  outer: number;
  turns: number;
  /** the main numbers in words */
  alt: string;
}

const INK = { bark: '#3b2f2a', water: '#0b5c8f', mist: '#e6eef3', loam: '#6b4f3a' } as const;
/** Width and height of the drawing without its words [px], and of a line of words. */
const SIDE = 320;
const LINE = 18;
/** Points of the spiral on a turn. */
const POINTS = 72;

const escape = (text: string): string =>
  text.replace(/[&<>"]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c]!);

/**
 * @param title - what the drawing shows, e.g. the name of the hose; data, never markup
 * @throws Problem if a size is no positive number, or the ball is narrower than the stem
 */
export function coilDrawing(title: string, sizes: CoilSizes, units: Units): CoilDrawing {
  const { stem, ball, ring, length, inner, spacing = COIL_SPACING } = sizes;
  for (const [name, value] of Object.entries({ stem, ball, ring, length, inner, spacing }))
    if (!(value > 0 && Number.isFinite(value)))
      throw new Problem(`coil drawing: ${name} is ${value}; a number above 0 is accepted`);
  if (stem > ball)
    throw new Problem(`coil drawing: the stem is ${stem} mm, the ball ${ball} mm; a ball is wider`);
  const outer = coilDiameter(length, inner, spacing);
  const turns = (outer - inner) / 2 / spacing;
  const widest = Math.max(ring, outer + spacing, ball / 1000);
  const scale = (SIDE - 20) / widest;
  const middle = SIDE / 2;
  const circle = (diameter: number, style: string): string =>
    `<circle cx="${middle}" cy="${middle}" r="${px((diameter / 2) * scale)}" ${style}/>`;
  const far = (metres: number): string =>
    units === 'US' ? `${(metres / M_PER_FOOT).toFixed(1)} ft` : `${metres.toFixed(2)} m`;
  const near = (mm: number): string =>
    units === 'US' ? `${(mm / MM_PER_INCH).toFixed(1)} in` : `${(mm / 10).toFixed(0)} cm`;
  const words = [
    `hose ${far(length)}, ${turns.toFixed(1)} turns ${near(spacing * 1000)} apart`,
    `coil from ${far(inner)} to ${far(outer)} across`,
    `ball ${near(ball)} (solid line), root zone ${far(ring)} (dashed), stem ${near(stem)}`,
  ];
  const alt = `${title}, seen from above, to scale: ${words.join('; ')}.`;
  const height = SIDE + LINE * (words.length + 1);
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${SIDE} ${height}" role="img">`,
    `<title>${escape(title)}</title><desc>${escape(alt)}</desc>`,
    band(middle, inner, outer, spacing, scale),
    circle(ring, `fill="none" stroke="${INK.loam}" stroke-width="1.5" stroke-dasharray="6 4"`),
    circle(ball / 1000, `fill="none" stroke="${INK.loam}" stroke-width="2"`),
    `<path fill="none" stroke="${INK.water}" stroke-width="3" d="M${spiral(inner, outer, spacing, scale, middle)}"/>`,
    circle(stem / 1000, `fill="${INK.bark}"`),
    ...[title, ...words].map(
      (line, i) =>
        `<text x="8" y="${SIDE + LINE * (i + 0.7)}" font-family="sans-serif" font-size="${i === 0 ? 13 : 11}" font-weight="${i === 0 ? 'bold' : 'normal'}" fill="${INK.bark}">${escape(line)}</text>`,
    ),
    '</svg>',
  ].join('');
  return { svg, outer, turns, alt };
}

const px = (value: number): string => String(Math.round(value * 100) / 100);

/** Ground the coil wets: a band half a spacing wider on both sides. */
function band(
  middle: number,
  inner: number,
  outer: number,
  spacing: number,
  scale: number,
): string {
  const least = Math.max(0, inner - spacing);
  const width = (outer + spacing - least) / 2;
  return `<circle cx="${middle}" cy="${middle}" r="${px(((outer + spacing + least) / 4) * scale)}" fill="none" stroke="${INK.mist}" stroke-width="${px(width * scale)}"/>`;
}

/** The hose as points of the spiral r = r0 + spacing·θ/2π. */
function spiral(
  inner: number,
  outer: number,
  spacing: number,
  scale: number,
  middle: number,
): string {
  const end = ((outer - inner) / 2 / spacing) * 2 * Math.PI;
  const steps = Math.max(2, Math.ceil((end / (2 * Math.PI)) * POINTS));
  return Array.from({ length: steps + 1 }, (_, i) => {
    const angle = (end * i) / steps;
    const r = (inner / 2 + (spacing * angle) / (2 * Math.PI)) * scale;
    return `${px(middle + r * Math.cos(angle))},${px(middle + r * Math.sin(angle))}`;
  }).join(' L');
}
