/**
 * Names of devices. One that only describes the device ("15 gal bag") goes with its numbers; one that a person thought of
 * stays. A description is a name the program itself would give, in either language, with the numbers the device has.
 */
import { FAMILIES, type Family } from '../../engine/plan/model.js';
import { convert, text, yesNo, type Cell } from '../../tables/cells.js';
import type { DeviceCells } from '../kit-table.js';
import type { Language } from '../parts/format.js';
import { columnOf, SIZE_OF } from './kit-cells.js';

/** `*` is the size with its unit. The first of a language is what a new device is called; the others are read as well. */
const FORMS: Readonly<Record<Language, Readonly<Record<Family, readonly string[]>>>> = {
  en: {
    bag: ['* bag', '* slow-release bag'],
    pad: ['* pad', '* gel pad'],
    soaker: ['* soaker hose', 'soaker, *', '* soaker'],
    hand: ['hand hose', '* hand hose'],
    tanker: ['* tanker', '* truck', '* water truck', 'tanker, *'],
  },
  es: {
    bag: ['bolsa de *'],
    pad: ['almohadilla de *'],
    soaker: ['manguera porosa de *'],
    hand: ['manguera de mano', 'manguera de mano de *'],
    tanker: ['cisterna de *', 'camión de *'],
  },
};
const ON_A_TIMER: Readonly<Record<Language, string>> = {
  en: ' on a timer',
  es: ' con temporizador',
};
/** Names of the example's kit. */
const EXAMPLE = /^example (bag|pad|soaker on a timer|hand hose|tanker)$/;
/** What tells a second device of one description. */
const SECOND = / \(\d+\)$/;
/** Digits a size may be written with in a name. */
const DIGITS = [3, 4, 6] as const;
const LANGUAGES: readonly Language[] = ['en', 'es'];

/** A device in words of its numbers. */
export interface Described {
  family: Family | undefined;
  cells: DeviceCells;
  /** unit of the size cell, "" where it is not known */
  unit: string;
}

/** "15 gal", as the size may stand in a name: in both systems of units, with few digits or more. */
function sizesIn({ family, cells, unit }: Described): string[] {
  if (family === undefined) return [];
  const cell = cells[SIZE_OF[family]] ?? null;
  if (typeof cell !== 'number') return text(cell) === '' ? [] : [text(cell)];
  const { unitUS, unitSI } = columnOf(SIZE_OF[family]);
  return [unitUS, unitSI].flatMap((to) => {
    const value = to === unit ? cell : convert(cell, unit, to);
    if (value === undefined) return [];
    return DIGITS.map((digits) => `${Number(value.toPrecision(digits))} ${to}`);
  });
}

const filled = (form: string, size: string): string => form.replace('*', size);
const isTimed = ({ family, cells }: Described): boolean =>
  family === 'soaker' && yesNo(cells.automatic) === true;

interface Form {
  language: Language;
  /** among those of the family */
  at: number;
}

/** The form a name has, undefined where it is a name of a person's own. */
function formOf(name: string, device: Described): Form | undefined {
  const plain = name.replace(SECOND, '');
  const sizes = sizesIn(device);
  for (const language of LANGUAGES)
    for (const [at, form] of (device.family ? FORMS[language][device.family] : []).entries()) {
      const names = form.includes('*') ? sizes.map((size) => filled(form, size)) : [form];
      const ends = isTimed(device) ? ON_A_TIMER[language] : '';
      if (names.some((n) => n + ends === plain)) return { language, at };
    }
  return undefined;
}

/** Whether a name says nothing but what the device is. */
export const isDescription = (name: string, device: Described): boolean =>
  EXAMPLE.test(name) || formOf(name, device) !== undefined;

/** The size as a name has it, in the unit given. */
function sizeIn({ family, cells, unit }: Described, wanted: string): string {
  const cell = family === undefined ? null : (cells[SIZE_OF[family]] ?? null);
  if (typeof cell !== 'number') return text(cell);
  const value = convert(cell, unit, wanted);
  const said = value === undefined ? cell : value;
  return `${Number(said.toPrecision(DIGITS[1]))} ${value === undefined ? unit : wanted}`.trim();
}

/** No two devices of a kit have one name. */
function unlike(name: string, others: readonly string[]): string {
  if (!others.includes(name)) return name;
  for (let n = 2; ; n++) if (!others.includes(`${name} (${n})`)) return `${name} (${n})`;
}

/**
 * What a device is called by its numbers.
 *
 * @param wanted - unit its size is said in
 * @param others - names of the other devices
 */
export function description(
  device: Described,
  wanted: string,
  language: Language,
  others: readonly string[],
  at = 0,
): string {
  const { family } = device;
  if (family === undefined || !FAMILIES.includes(family)) return '';
  const form = FORMS[language][family][at] ?? FORMS[language][family][0]!;
  const ends = isTimed(device) ? ON_A_TIMER[language] : '';
  // without a size nothing is left of "bolsa de"
  const name = filled(form, sizeIn(device, wanted)).replace(/,? (de )?$|^[ ,]+/g, '');
  return unlike(name + ends, others);
}

/**
 * The name a device has once its numbers are others: a description goes with them, any other name stays.
 *
 * @param others - names of the other devices
 */
export function nameAfter(
  name: Cell | undefined,
  before: Described,
  after: Described,
  wanted: string,
  language: Language,
  others: readonly string[],
): string {
  const old = text(name);
  if (EXAMPLE.test(old)) return description(after, wanted, language, others);
  const form = formOf(old, before);
  if (form === undefined) return old;
  const at = before.family === after.family ? form.at : 0;
  // "hand hose (2)" stays as long as nothing of it changed
  const still = formOf(old, after);
  if (still?.at === at && still.language === form.language && !others.includes(old)) return old;
  return description(after, wanted, form.language, others, at);
}
