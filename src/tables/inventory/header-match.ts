/** From a header, and the cells under it, to what the column means. */
import {
  isBlank,
  isMissing,
  isUnit,
  plainLabel,
  plainNumber,
  text,
  unitWord,
  type Cell,
  yesNo,
} from '../cells.js';
import { readDate } from './dates.js';
import { magnitude, readCoordinate, speaksOfContainers } from './measures.js';
import type { Confidence } from './columns.js';
import type { Language } from './english-headers.js';
import { OTHER_THINGS, WORDINGS } from './synonyms.js';
import { OWN_HEADERS, SOURCE_WORDS, WATER_USE_WORDS, type Meaning } from './vocabulary.js';

export interface HeaderParts {
  /** words of the name without unit, year, question number */
  words: string[];
  compact: string;
  /** unit named in the header, '' for none */
  unit: string;
  /** survey year named in the header */
  year: number | undefined;
  /** characters of the header as written */
  length: number;
}

export interface Candidate {
  meaning: Meaning;
  confidence: Confidence;
  /** 0 the surest word of its list */
  rank: number;
  factor: number;
  loose: boolean;
  language: Language | undefined;
  word: string;
}

const squeeze = (s: string): string => plainLabel(s).replace(/ /g, '');

/** What OTHER_THINGS says of dates that are not planting dates. */
export const SURVEY_DAY = OTHER_THINGS[0]?.[0] ?? '';

const OWN = new Map(Object.entries(OWN_HEADERS).map(([h, m]) => [squeeze(h), m]));
const OTHERS = new Map(
  OTHER_THINGS.flatMap(([why, words]) => words.map((w) => [squeeze(w), why] as const)),
);
const KNOWN = new Map<string, Candidate[]>();
for (const w of WORDINGS)
  w.words.forEach((word, rank) => {
    const key = squeeze(word);
    const list = KNOWN.get(key) ?? [];
    if (list.some((c) => c.meaning === w.meaning)) return;
    list.push({ meaning: w.meaning, confidence: 'synonym', rank, factor: w.factor ?? 1, loose: w.loose ?? false, language: w.language, word });
    KNOWN.set(key, list);
  }); // prettier-ignore
const KNOWN_KEYS = [...KNOWN.keys()];
const OTHER_KEYS = [...OTHERS.keys()];
/** Own signs for "number", which leave nothing when signs are dropped. */
const NUMBER_SIGNS: ReadonlySet<string> = new Set(['#', '№', 'nº', 'n°', 'no.', '##']);
const INNER_UNITS: ReadonlySet<string> = new Set(['cm', 'mm', 'ft', 'feet', 'inches', 'inch']);
/** Unit words taken from the end of a name; single letters such as h or l are too often part of it. */
const END_UNITS =
  /^(mm|cm|m|in|inch|inches|ft|foot|feet|gal|gals|gallons|gpm|lpm|centimeters|meters|metres)$/;
/** Unit letters that may be glued to the end of a name. */
const GLUED = /^(.{3,}?)(inches|inch|feet|in|cm|mm|ft)$/;

/** Meanings whose header may end in a unit without a gap. */
const SIZED: ReadonlySet<Meaning> = new Set<Meaning>([
  'caliper',
  'circumference',
  'diameterClass',
  'ballDiameter',
  'ballDepth',
  'canopy',
  'height',
  'mulchDepth',
]);

/** Takes a header apart. */
export function headerParts(header: string): HeaderParts {
  let s = text(header);
  const length = s.length;
  let unit = '';
  let year: number | undefined;
  s = s.replace(/[([]([^()[\]]*)[)\]]/g, (whole: string, inner: string) => {
    if (isUnit(inner)) {
      unit = unitWord(inner);
      return ' ';
    }
    return whole;
  });
  s = s.replace(/(^|[^\d])((?:18|19|20)\d\d)(?=[^\d]|$)/, (_, before: string, y: string) => {
    year = Number(y);
    return `${before} `;
  });
  s = s.replace(/([a-z])([A-Z])/g, '$1 $2').replace(/([A-Z]{2,})([A-Z][a-z])/g, '$1 $2');
  let words = plainLabel(s).split(' ').filter((w) => w !== '');
  if (words.length > 1 && /^\d{1,2}$/.test(words[0] ?? '') && /^\s*\d{1,2}[_.)\s-]/.test(header)) words.shift();
  const last = words.at(-1) ?? '';
  if (unit === '' && words.length > 1 && END_UNITS.test(last)) {
    unit = last;
    words.pop();
  }
  if (words.length > 1)
    words = words.filter((w) => {
      if (!INNER_UNITS.has(w)) return !/^\d+$/.test(w);
      if (unit === '') unit = w;
      return false;
    });
  return { words, compact: words.join(''), unit, year, length };
} // prettier-ignore

/** Edit distance of two words, given up above `most`. */
export function editDistance(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  let above: number[] = [];
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let d = Math.min(
        (row[j] ?? 0) + 1,
        (next[j - 1] ?? 0) + 1,
        (row[j - 1] ?? 0) + (same ? 0 : 1),
      );
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        d = Math.min(d, (above[j - 2] ?? 0) + 1);
      next.push(d);
      least = Math.min(least, d);
    }
    if (least > most) return most + 1;
    above = row;
    row = next;
  }
  return row[b.length] ?? most + 1;
}

/** What a header that is not ours says instead, or undefined. */
export function otherThing(parts: HeaderParts): string | undefined {
  const exact = OTHERS.get(parts.compact);
  if (exact !== undefined) return exact;
  if (KNOWN.has(parts.compact) || OWN.has(parts.compact)) return undefined;
  if (/(^|[a-z])(date|datum|fecha|dt|yr|year)$|^(date|fecha)/.test(parts.compact) && /inv|survey|edit|creat|updat|insp|modif|collec|measur|remov|upload/.test(parts.compact))
    return SURVEY_DAY;
  if (parts.length >= 8 && parts.compact.length >= 6)
    for (const key of OTHER_KEYS) if (key.startsWith(parts.compact)) return OTHERS.get(key);
  return undefined;
} // prettier-ignore

/** All meanings a header may have by its name, surest first; none for names we know to be something else. */
export function candidates(parts: HeaderParts, header: string): Candidate[] {
  if (NUMBER_SIGNS.has(text(header).toLowerCase())) return KNOWN.get('no') ?? [];
  const { compact } = parts;
  if (compact === '') return [];
  const own = OWN.get(compact);
  const known = KNOWN.get(compact) ?? [];
  if (own !== undefined)
    return [
      { meaning: own, confidence: 'exact', rank: 0, factor: 1, loose: false, language: undefined, word: header },
      ...known.filter((c) => c.meaning !== own),
    ];
  if (known.length > 0) return known;
  if (otherThing(parts) !== undefined) return [];
  const bare = KNOWN.get(compact.replace(/^tree(?=.{2})|\d+$/g, ''));
  if (bare) return bare;
  const glued = GLUED.exec(compact);
  const measures = glued ? (KNOWN.get(glued[1] ?? '') ?? []).filter((c) => SIZED.has(c.meaning)) : [];
  if (measures.length > 0) {
    if (parts.unit === '') parts.unit = glued?.[2] ?? '';
    return measures;
  }
  return nearCandidates(parts);
} // prettier-ignore

function nearCandidates(parts: HeaderParts): Candidate[] {
  const { compact, words } = parts;
  const out: Candidate[] = [];
  const add = (key: string): void => {
    for (const c of KNOWN.get(key) ?? [])
      if (!c.loose && c.meaning !== 'epithet' && !out.some((o) => o.meaning === c.meaning)) out.push({ ...c, confidence: 'near' });
  };
  if (parts.length >= 8 && compact.length >= 6)
    for (const key of KNOWN_KEYS) if (key.startsWith(compact)) add(key);
  if (out.length > 0) return out;
  const most = compact.length >= 9 ? 2 : compact.length >= 5 ? 1 : 0;
  if (most > 0) {
    let least = most;
    let found: string[] = [];
    for (const key of KNOWN_KEYS) {
      if (key.length < 5 || key[0] !== compact[0]) continue;
      const d = editDistance(compact, key, least);
      if (d < least) found = [];
      if (d <= least) {
        least = d;
        found.push(key);
      }
    }
    found.forEach(add);
    if (out.length > 0) return out;
  }
  // a known name of two words or more, or a long one, among other words
  let longest = '';
  for (let i = 0; i < words.length; i++)
    for (let j = i + 1; j <= Math.min(words.length, i + 4); j++) {
      const part = words.slice(i, j).join('');
      if (part.length > longest.length && part.length >= 3 && part.length * 2 >= compact.length && KNOWN.has(part) && !OTHERS.has(part)) longest = part;
    }
  if (longest !== '') add(longest);
  return out;
} // prettier-ignore

const LETTERS = /\p{L}{2}/u;
const numeric = (c: Cell): number | undefined => plainNumber(c) ?? plainNumber(c, true);
const wordy = (c: Cell): boolean =>
  typeof c === 'string' &&
  LETTERS.test(c) &&
  numeric(c) === undefined &&
  !/^https?:|^[0-9a-f]{20,}$/i.test(c);
const measured = (c: Cell): boolean => {
  const n = magnitude(c, false);
  return (
    n !== undefined && n >= 0 && n < 100_000 && (typeof c === 'number' || text(c).length <= 24)
  );
};
const name = (c: Cell): number => {
  if (!wordy(c)) return 0;
  const t = text(c);
  return /^[A-Z]{2,8}[a-z]{0,4}$/.test(t) || (t.length <= 4 && !/ /.test(t)) ? 0.3 : 1;
};
const degree = (c: Cell, most: number): number => {
  const d = readCoordinate(c);
  if (d === undefined || Math.abs(d) > most || d === 0) return 0;
  return typeof c === 'string' && /[NSEWO]/i.test(c) ? 1 : Number.isInteger(d) ? 0.3 : typeof c === 'string' && /\s/.test(c.trim()) ? 0.8 : 1;
}; // prettier-ignore
const asDate = (c: Cell): number => {
  if (typeof c === 'boolean') return 0;
  const r = readDate(c, { order: 'day first', pivotYear: 2030 });
  return r.day !== undefined || r.note === undefined || /zero|does not exist/.test(r.note) ? 1 : 0;
};
const anything = (c: Cell): number => (typeof c === 'boolean' ? 0.2 : 1);
const length = (c: Cell): number => (measured(c) && !/^\d{4}-\d\d/.test(text(c)) ? 1 : 0);

/** How well one cell reads as each meaning, 0 to 1. */
const FITS: Readonly<Record<Meaning, (c: Cell) => number>> = {
  id: (c) => (typeof c === 'boolean' || text(c).length > 60 ? 0 : 1),
  species: name,
  commonName: name,
  genus: (c) => (name(c) === 1 ? 1 : 0),
  epithet: (c) => (name(c) === 1 ? 1 : 0),
  count: (c) => {
    const n = numeric(c);
    return n !== undefined && Number.isInteger(n) && n >= 0 ? 1 : 0;
  },
  caliper: (c) => (speaksOfContainers(c) ? 0 : length(c)),
  circumference: length,
  diameterClass: (c) => (speaksOfContainers(c) ? 0 : length(c)),
  container: (c) => (speaksOfContainers(c) ? 1.1 : (numeric(c) ?? -1) >= 0 ? 0.6 : 0),
  ballDiameter: length,
  ballDepth: length,
  planted: asDate,
  plantedYear: asDate,
  canopy: length,
  height: length,
  waterNeed: (c) => (WATER_USE_WORDS[plainLabel(text(c))] !== undefined || (numeric(c) ?? 9) <= 1.2 ? 1 : 0),
  texture: (c) => (wordy(c) ? 1 : 0),
  mulchDepth: length,
  site: anything,
  address: (c) => (wordy(c) ? 1 : 0.2),
  houseNumber: (c) => (/\d/.test(text(c)) && text(c).length <= 20 ? 1 : 0.3),
  street: (c) => (wordy(c) || /\d(st|nd|rd|th)\b/i.test(text(c)) ? 1 : 0.2),
  latitude: (c) => degree(c, 90),
  longitude: (c) => degree(c, 180),
  tap: (c) => (text(c).length <= 20 ? 1 : 0),
  tapFlow: length,
  source: (c) => (SOURCE_WORDS[plainLabel(text(c))] !== undefined ? 1 : 0),
  meansWanted: (c) => (wordy(c) ? 1 : 0),
  status: anything,
  served: (c) => (yesNo(c) === undefined ? 0 : 1),
  note: anything,
  assumed: (c) => (wordy(c) ? 1 : 0),
}; // prettier-ignore

/** Share of the filled sample cells that read as the meaning; NaN when the sample is empty. */
export function fit(meaning: Meaning, sample: readonly Cell[]): number {
  let sum = 0;
  let filled = 0;
  for (const c of sample) {
    if (isMissing(c)) continue;
    filled++;
    sum += FITS[meaning](c);
  }
  return filled === 0 ? NaN : sum / filled;
}

const LATIN = /^\p{Lu}\p{Ll}{2,}(?: [x×])? (?:\p{Ll}{3,}|sp\.|spp\.)/u;

/** What an unnamed column holds, judged by its cells alone. */
export function byContent(sample: readonly Cell[], taken: ReadonlySet<Meaning>): Meaning | undefined {
  const filled = sample.filter((c) => !isMissing(c));
  if (filled.length < 2) return undefined;
  const share = (test: (c: Cell) => boolean): number => filled.filter(test).length / filled.length;
  const lettered = (set: RegExp) => (c: Cell): boolean =>
    typeof c === 'string' && set.test(c) && readCoordinate(c) !== undefined;
  const fine = (c: Cell): boolean => {
    const d = readCoordinate(c);
    return d !== undefined && !Number.isInteger(d) && /[.,]\d{3,}/.test(text(c)) && Math.abs(d) <= 180;
  };
  const tests: readonly (readonly [Meaning, () => boolean])[] = [
    ['latitude', () => share(lettered(/[NS]/i)) > 0.6],
    ['longitude', () => share(lettered(/[EW]/i)) > 0.6],
    ['latitude', () => share((c) => fine(c) && Math.abs(readCoordinate(c) ?? 99) <= 90) > 0.9 && !filled.some((c) => typeof c === 'string' && / /.test(c.trim()))],
    ['longitude', () => share(fine) > 0.9 && !filled.some((c) => typeof c === 'string' && / /.test(c.trim()))],
    ['container', () => share(speaksOfContainers) > 0.6],
    ['species', () => share((c) => LATIN.test(text(c))) > 0.6],
    ['planted', () => share((c) => typeof c === 'string' && /^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}/.test(text(c)) && asDate(c) === 1) > 0.8],
    ['caliper', () => share((c) => typeof c === 'string' && /^\d+(?:[.,]\d+)?\s*(?:in\b|"|cm\b|inch)/i.test(text(c))) > 0.8],
    ['commonName', () => share((c) => wordy(c) && /^[^\d:/]{3,40}$/.test(text(c))) > 0.8],
  ];
  return tests.find(([m, test]) => !taken.has(m) && test())?.[0];
} // prettier-ignore

const HEADER_SCAN = 40;

/** The row that names the columns, 0-based; -1 for a sheet without one. */
export function findHeader(cells: readonly Cell[][]): number {
  const scores: { row: number; named: number; filled: number; texty: boolean }[] = [];
  for (let r = 0; r < Math.min(cells.length, HEADER_SCAN); r++) {
    const row = cells[r] ?? [];
    const filledCells = row.filter((c) => !isBlank(c));
    if (filledCells.length === 0) continue;
    const words = filledCells.filter((c) => typeof c === 'string' && numeric(c) === undefined);
    const texty = words.length >= 0.7 * filledCells.length;
    const meanings = new Set<string>();
    for (const c of words) {
      const t = text(c);
      if (t.length > 60) continue;
      const parts = headerParts(t);
      const first = texty ? candidates(parts, t)[0] : undefined;
      if (first) meanings.add(first.meaning + String(parts.year ?? '') + (first.confidence === 'near' ? '~' : ''));
      else if (texty && OTHERS.has(parts.compact)) meanings.add(parts.compact);
    }
    let named = 0;
    for (const m of meanings) named += m.endsWith('~') ? 0.5 : 1;
    scores.push({ row: r, named, filled: filledCells.length, texty });
  }
  const most = Math.max(0, ...scores.map((s) => s.named));
  const first = scores.find((s) => s.named >= Math.max(1.5, 0.6 * most));
  if (first) return first.row;
  // one known name only: believe it where the row holds words alone and numbers follow
  const single = scores.find((s) => s.named >= 0.5 && s.texty && s.filled >= 1);
  const lead = single ?? scores[0];
  if (!lead || !lead.texty) return -1;
  const row = cells[lead.row] ?? [];
  const below = cells.slice(lead.row + 1, lead.row + 60);
  const turns = row.some(
    (c, i) =>
      typeof c === 'string' && numeric(c) === undefined && below.length > 0 &&
      below.filter((b) => numeric(b[i] ?? null) !== undefined).length > below.length / 2,
  );
  return turns || (single !== undefined && !row.some((c) => LATIN.test(text(c)))) ? lead.row : -1;
} // prettier-ignore
