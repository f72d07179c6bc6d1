/** Equations in plain text with subscripts, superscripts and the parameters' names set apart. */
import { markup, type Html } from './html.js';

const PARTS = /([A-Za-z_][A-Za-z_0-9]*)|\^(\([^)]*\)|[A-Za-z0-9_.]+)|([^A-Za-z_^]+|\^)/g;
/** A letter with a number, or a known symbol with a letter: h1, ET0, Cd. */
const INDEXED = /^(ET|[A-Za-z])(\d)$|^(C)(d)$/;

/** An equation's text as HTML. Names of parameters are marked only where there is an equals sign: else it is prose. */
export function equationHtml(text: string, parameters: readonly string[] = []): Html {
  const isFormula = text.includes('=');
  const pieces = [...text.matchAll(PARTS)].map(([all, word, power]) => {
    if (power !== undefined) return markup`<sup>${power.replace(/^\((.*)\)$/, '$1')}</sup>`;
    if (word === undefined) return markup`${all}`;
    const index = INDEXED.exec(word);
    const [base, below] = [index?.[1] ?? index?.[3], index?.[2] ?? index?.[4]];
    if (base !== undefined && below !== undefined) return markup`${base}<sub>${below}</sub>`;
    return isFormula && word.length > 1 && parameters.includes(word)
      ? markup`<var>${word}</var>`
      : markup`${word}`;
  });
  return markup`${pieces}`;
}

interface Symbol {
  symbol: string;
  means: string;
  /** where the symbol has this meaning; everywhere if left out */
  families?: readonly string[];
}

/** What symbols mean. A line is shown only where an equation uses it. */
const SYMBOLS: readonly Symbol[] = [
  { symbol: 'ET0', means: 'reference evapotranspiration, grass' },
  { symbol: 'PF', means: 'plant factor, share of ET0' },
  { symbol: 'ks', means: 'site factor: reflected heat, wind, shade' },
  { symbol: 'Ks', means: 'stress coefficient, 0 to 1' },
  { symbol: 'RAW', means: 'readily available water' },
  { symbol: 'p', means: 'share that may be used before stress', families: ['soil'] },
  { symbol: 'd', means: 'diameter', families: ['tree', 'soil', 'bag'] },
  { symbol: 'D', means: 'demand, water used a day', families: ['tree'] },
  { symbol: 'SF', means: 'factor for the water the soil can hold', families: ['weather'] },
  { symbol: 'φ', means: 'latitude', families: ['weather'] },
  { symbol: 'δ', means: 'declination of the sun', families: ['weather'] },
  { symbol: 't', means: 'time' },
  { symbol: 'T', means: 'time of a full drain', families: ['bag'] },
  { symbol: 'g', means: 'gravity, 9.81 m/s²', families: ['bag'] },
  { symbol: 'Cd', means: 'discharge coefficient of a hole', families: ['bag'] },
  { symbol: 'n', means: 'number of open holes', families: ['bag'] },
  { symbol: 'A', means: 'floor area of the bag, volume ÷ depth', families: ['bag'] },
  { symbol: 'a', means: 'area of one hole', families: ['bag'] },
  { symbol: 'h', means: 'depth of water above the holes', families: ['bag'] },
  { symbol: 'h1', means: 'depth of water above the holes at the start', families: ['bag'] },
  { symbol: 'h2', means: 'depth of water above the holes at the end', families: ['bag'] },
  { symbol: 'V', means: 'volume of water', families: ['bag', 'gel-pad'] },
  { symbol: 'V0', means: 'volume of water at the start', families: ['bag'] },
  { symbol: 'Q', means: 'flow', families: ['hose', 'pipe'] },
  { symbol: 'q', means: 'outflow of a length of hose, or flow', families: ['pipe'] },
  { symbol: 'P', means: 'pressure at a point', families: ['pipe'] },
  { symbol: 's', means: 'distance along the hose', families: ['pipe'] },
  { symbol: 'F', means: 'share of the friction of undivided flow', families: ['pipe'] },
  { symbol: 'N', means: 'outlets', families: ['pipe'] },
  { symbol: 'h', means: 'friction loss, head', families: ['pipe'] },
  { symbol: 'd', means: 'inside diameter', families: ['pipe'] },
  { symbol: 'L', means: 'length of hose', families: ['hose'] },
  { symbol: 'r', means: 'radius of a turn', families: ['hose'] },
  { symbol: 'r1', means: 'radius where the spiral begins', families: ['hose'] },
  { symbol: 'r2', means: 'radius where it ends', families: ['hose'] },
  { symbol: 'b', means: 'spacing of the turns ÷ 2π', families: ['hose'] },
];

/** The symbols an equation of a family uses, in the order of the table. */
export function symbolsIn(equation: string, family: string): readonly Symbol[] {
  if (!equation.includes('=')) return [];
  const words = new Set(equation.match(/[A-Za-zα-ω_]+[0-9]*/g) ?? []);
  return SYMBOLS.filter(
    ({ symbol, families }) => words.has(symbol) && (families?.includes(family) ?? true),
  );
}
