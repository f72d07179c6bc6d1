/**
 * A soaker hose coiled round a tree, to scale, seen from above: stem, ball edge, dripline, hose, ground it wets. A pure
 * function from sizes to SVG, for the panel and for paper. Lines differ in weight and dash, so it works in black and
 * white; classes let a page give them its own colours.
 */
import { COIL_SPACING, coilDiameter, coiledArea } from '../engine/means/soaker-hose.js';
import { Problem } from '../engine/problems.js';
import { M_PER_FOOT, MM_PER_INCH } from '../engine/units.js';
import type { CoilWords } from './coil-words.js';
import type { CoilFacts } from './series-types.js';
import { lines } from './model.js';

export { COIL_WORDS, type CoilWords } from './coil-words.js';

export interface CoilDrawing {
  /** a whole SVG document, with its size, title and description */
  svg: string;
  /** [px] */
  width: number;
  height: number;
  /** diameter of the coil where it begins and ends [m], its turns [-] */
  inner: number;
  outer: number;
  turns: number;
  /** the main numbers in words */
  alt: string;
}

const INK = {
  bark: '#3b2f2a',
  water: '#0b5c8f',
  wet: '#cfe0ea',
  loam: '#6b4f3a',
  rim: '#7fa9c4',
} as const;
/** Width of the drawing, and height of its part that is to scale [px]. */
const SIDE = 360;
const MARGIN = 12;
/** Height of a line of words, and of a title [px]. */
const LINE = 19;
const TITLE_LINE = 20;
/** Letters of a title that fit into the width. */
const TITLE_LETTERS = 42;
/** Points of the spiral on a turn. */
const POINTS = 72;
/** Face of the words: one that a rasteriser without system fonts is given. */
const FACE = 'DejaVu Sans, sans-serif';

const escape = (text: string): string =>
  text.replace(/[&<>"]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c]!);
const px = (value: number): string => String(Math.round(value * 100) / 100);

/** Where the spiral runs. A hose begins half a spacing from the bark, so that the ground it wets begins at the stem. */
export interface CoilShape {
  inner: number; // [m]
  outer: number; // [m]
  turns: number;
  spacing: number; // [m]
  wet: number; // [m²]
}

/** @throws Problem if a size is no positive number, or the ball is narrower than the stem */
export function coilShape({ stem, ball, canopy, length, joined }: CoilFacts): CoilShape {
  for (const [name, value] of Object.entries({ stem, ball, canopy, length, joined }))
    if (!(value > 0 && Number.isFinite(value)))
      throw new Problem(`coil drawing: ${name} is ${value}; a number above 0 is accepted`);
  if (stem > ball)
    throw new Problem(`coil drawing: the stem is ${stem} mm, the ball ${ball} mm; a ball is wider`);
  const spacing = COIL_SPACING;
  const inner = stem / 1000 + spacing;
  const outer = coilDiameter(length, inner, spacing);
  return { inner, outer, spacing, turns: (outer - inner) / 2 / spacing, wet: coiledArea(length) };
}

/** Sizes as people of the unit system say them. */
function sizesIn({ units }: CoilFacts, { locale }: CoilWords) {
  const US = units === 'US';
  const number = (value: number, digits: number): string =>
    value.toLocaleString(locale, { maximumFractionDigits: digits });
  return {
    far: (metres: number): string =>
      US ? `${number(metres / M_PER_FOOT, 1)} ft` : `${number(metres, metres < 10 ? 2 : 1)} m`,
    near: (mm: number): string =>
      US ? `${number(mm / MM_PER_INCH, 1)} in` : `${number(mm / 10, mm < 200 ? 1 : 0)} cm`,
    area: (m2: number): string => {
      const value = US ? m2 / M_PER_FOOT ** 2 : m2;
      return `${number(value, value < 10 ? 1 : 0)} ${US ? 'ft²' : 'm²'}`;
    },
    number,
  };
}

/** What the drawing shows: "2 hoses of 40 ft wet 80 ft² of the 177 ft² under the dripline". */
export function coilTitle(facts: CoilFacts, words: CoilWords): string {
  const { outer, spacing, wet } = coilShape(facts);
  const { far, area } = sizesIn(facts, words);
  const { joined, canopy } = facts;
  const one = far(facts.length / joined);
  const past = (outer + spacing - canopy) / 2;
  return past > 0
    ? words.beyond(joined, one, area(wet), far(past))
    : words.within(joined, one, area(wet), area((Math.PI / 4) * canopy ** 2));
}

/**
 * @param facts - names in them are data, never markup
 * @param titled - the title stands in the picture itself, as on a sheet; default true
 * @throws Problem as `coilShape`
 */
export function coilDrawing(facts: CoilFacts, words: CoilWords, titled = true): CoilDrawing {
  const shape = coilShape(facts);
  const { inner, outer, spacing, turns, wet } = shape;
  const { far, near, area, number } = sizesIn(facts, words);
  const title = coilTitle(facts, words);
  const key: [sample: string, words: string][] = [
    [`<circle cx="15" cy="0" r="4" class="coil-stem" fill="${INK.bark}"/>`, `${words.stem}, ${near(facts.stem)} ${words.across}`],
    [sampleLine(BALL), `${words.ball}, ${near(facts.ball)} ${words.across}`],
    [sampleLine(DRIPLINE), `${words.dripline}, ${far(facts.canopy)} ${words.across}`],
    [sampleLine(HOSE), words.hose(facts.joined, far(facts.length / facts.joined), near(spacing * 1000))],
    [`<rect x="3" y="-6" width="24" height="12" class="coil-wet-key" fill="${INK.wet}" stroke="${INK.rim}"/>`, `${words.wetted}, ${area(wet)}`],
    ...(facts.joined > 1 ? [[`<circle cx="15" cy="0" ${JOINT}/>`, words.joint] as [string, string]] : []),
  ]; // prettier-ignore
  const seen = words.seen(number(turns, 1), far(inner), far(outer));
  const alt = `${title}. ${words.tree(facts.id, facts.trees)}. ${seen}; ${key.map(([, line]) => line).join('; ')}.`;
  const headed = titled ? lines(title, TITLE_LETTERS) : [];
  const top = headed.length * TITLE_LINE + (titled ? 6 : 0);
  const height = top + SIDE + 8 + key.length * LINE + 6;
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${SIDE}" height="${height}" viewBox="0 0 ${SIDE} ${height}" role="img" class="coil" font-family="${FACE}" font-size="12">`,
    `<title>${escape(title)}</title><desc>${escape(alt)}</desc>`,
    ...headed.map((line, i) => text(line, 8, TITLE_LINE * (i + 0.8), 'font-weight="bold" font-size="14"')),
    `<g transform="translate(0 ${top})">`,
    plan(facts, shape),
    scaleBar(facts, shape, words),
    '</g>',
    ...key.map(([sample, line], i) => {
      const y = top + SIDE + 8 + LINE * (i + 0.5);
      return `<g transform="translate(8 ${px(y)})">${sample}</g>${text(line, 44, y + 4)}`;
    }),
    '</svg>',
  ].join(''); // prettier-ignore
  return { svg, width: SIDE, height, inner, outer, turns, alt };
}

const text = (words: string, x: number, y: number, more = ''): string =>
  `<text x="${px(x)}" y="${px(y)}" class="coil-words" fill="${INK.bark}" ${more}>${escape(words)}</text>`;

const BALL = `class="coil-ball" fill="none" stroke="${INK.loam}" stroke-width="2"`;
const DRIPLINE = `class="coil-dripline" fill="none" stroke="${INK.bark}" stroke-width="1.5" stroke-dasharray="7 4"`;
const HOSE = `class="coil-hose" fill="none" stroke="${INK.water}" stroke-width="3"`;
const JOINT = `r="4" class="coil-joint" fill="#ffffff" stroke="${INK.water}" stroke-width="2"`;
const sampleLine = (style: string): string => `<path d="M0,0 L30,0" ${style}/>`;

/** Pixels on a metre: what reaches farthest fills the square. */
const scaleOf = ({ canopy, ball }: CoilFacts, { outer, spacing }: CoilShape): number =>
  (SIDE - 2 * MARGIN) / Math.max(canopy, outer + spacing, ball / 1000);

function plan(facts: CoilFacts, shape: CoilShape): string {
  const scale = scaleOf(facts, shape);
  const middle = SIDE / 2;
  const circle = (diameter: number, style: string): string =>
    `<circle cx="${middle}" cy="${middle}" r="${px((diameter / 2) * scale)}" ${style}/>`;
  const path = spiral(shape, scale, middle);
  const strip = shape.spacing * scale;
  // every metre of hose wets a strip as wide as the spacing: drawn twice, so that only its rim shows a line
  const stroke = (name: string, ink: string, width: number): string =>
    `<path class="${name}" fill="none" stroke="${ink}" stroke-width="${px(width)}" d="M${path}"/>`;
  return [
    stroke('coil-rim', INK.rim, strip + 2),
    stroke('coil-wet', INK.wet, strip + 0.4),
    circle(facts.canopy, DRIPLINE),
    circle(facts.ball / 1000, BALL),
    `<path ${HOSE} d="M${path}"/>`,
    ...joints(facts, shape).map((angle) => {
      const [x, y] = point(shape, angle, scale, middle);
      return `<circle cx="${px(x)}" cy="${px(y)}" ${JOINT}/>`;
    }),
    circle(facts.stem / 1000, `class="coil-stem" fill="${INK.bark}"`),
  ].join('');
}

/** A point of the spiral r = r0 + spacing·θ/2π [px]. */
function point(
  { inner, spacing }: CoilShape,
  angle: number,
  scale: number,
  middle: number,
): [number, number] {
  const r = (inner / 2 + (spacing * angle) / (2 * Math.PI)) * scale;
  return [middle + r * Math.cos(angle), middle + r * Math.sin(angle)];
}

function spiral(shape: CoilShape, scale: number, middle: number): string {
  const end = shape.turns * 2 * Math.PI;
  const steps = Math.max(2, Math.ceil(shape.turns * POINTS));
  return Array.from({ length: steps + 1 }, (_, i) =>
    point(shape, (end * i) / steps, scale, middle)
      .map(px)
      .join(','),
  ).join(' L');
}

/** Angles at which one hose ends and the next begins. */
const joints = ({ joined, length }: CoilFacts, { inner, spacing }: CoilShape): number[] =>
  Array.from({ length: joined - 1 }, (_, i) => {
    const reached = coilDiameter((length * (i + 1)) / joined, inner, spacing);
    return ((reached - inner) / 2 / spacing) * 2 * Math.PI;
  });

/** Lengths a scale bar may have, in feet or metres. */
const BARS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50] as const;

/** A bar in the lower left corner: the longest round length below a quarter of the width. */
function scaleBar(facts: CoilFacts, shape: CoilShape, words: CoilWords): string {
  const unit = facts.units === 'US' ? M_PER_FOOT : 1;
  const pixels = scaleOf(facts, shape) * unit;
  const bar = BARS.filter((length) => length * pixels <= SIDE / 4).at(-1) ?? BARS[0];
  const { far } = sizesIn(facts, words);
  const [x, y, end] = [8, SIDE - 6, 8 + bar * pixels];
  return (
    `<path class="coil-scale" fill="none" stroke="${INK.bark}" stroke-width="1.5" d="M${x},${y - 5} L${x},${y} L${px(end)},${y} L${px(end)},${y - 5}"/>` +
    text(far(bar * unit), x + 3, y - 5)
  );
}
