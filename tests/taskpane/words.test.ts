/** Every word of the panel in both languages, every input of the site in one place. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { SITE_INPUTS } from '../../src/tables/site-inputs.js';
import { formats, typedValue } from '../../src/taskpane/parts/format.js';
import { BUYING, CREW, CREW_MONEY, FIRST, MORE } from '../../src/taskpane/site-groups.js';
import { en } from '../../src/taskpane/words/en.js';
import { es } from '../../src/taskpane/words/es.js';
import { kitEn } from '../../src/taskpane/words/kit-en.js';
import { kitEs } from '../../src/taskpane/words/kit-es.js';
import { SITE_NAMES } from '../../src/taskpane/words/site-es.js';

type Table = { [key: string]: unknown };

/** Leaves of a table as "panel.help", with what stands there. */
function leaves(table: Table, path = ''): [string, unknown][] {
  return Object.entries(table).flatMap(([key, value]) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? leaves(value as Table, `${path}${key}.`)
      : [[`${path}${key}`, value] as [string, unknown]],
  );
}

describe('the words', () => {
  const english = leaves({ ...en, kit: kitEn });
  const spanish = new Map(leaves({ ...es, kit: kitEs }));
  it('have a Spanish for every English, of the same kind', () => {
    for (const [key, value] of english) expect(typeof spanish.get(key), key).toBe(typeof value);
    expect(spanish.size).toBe(english.length);
  });
  it('are never blank; only the foot that speaks of the translation is', () => {
    const blank = (table: Iterable<[string, unknown]>) => [...table].filter(([, v]) => v === '').map(([key]) => key); // prettier-ignore
    expect(blank(english)).toEqual(['panel.foot']);
    expect(blank(spanish)).toEqual([]);
    expect(es.panel.foot).toContain('de memoria');
  });
  it('differ between the languages', () => {
    const alike = english.filter(([key, v]) => typeof v === 'string' && spanish.get(key) === v);
    expect(alike.map(([key]) => key)).toEqual([]);
  });
  it('hold no exclamation mark', () => {
    for (const [key, value] of [...english, ...spanish])
      expect(String(value).replace(/!==|!=|!\w/g, ''), key).not.toMatch(/[!¡]/);
  });
});

describe('the inputs of the site', () => {
  const placed = [...FIRST, ...Object.values(MORE).flat(), ...BUYING, ...CREW];
  it('stand in one place of the panel each', () => {
    expect([...placed].sort()).toEqual(SITE_INPUTS.map(({ key }) => key).sort());
  });
  it('stand in a second one where they are prices of the crew and its water, which are among the money', () => {
    expect(MORE.money).toEqual(expect.arrayContaining([...CREW_MONEY]));
  });
  it('have a Spanish name each, no two alike', () => {
    expect(new Set(Object.values(SITE_NAMES)).size).toBe(SITE_INPUTS.length);
  });
});

describe('numbers and days', () => {
  it('show as many digits as a decision needs', () => {
    const f = formats('en');
    expect([1234.56, 12.34, 9.87, 3, 0].map((n) => f.amount(n))).toEqual(['1,235', '12', '9.9', '3', '0']); // prettier-ignore
    expect(f.plain(15.534278)).toBe('15.5343');
  });
  it('name the day in the chosen language', () => {
    expect(formats('en').day('2026-07-07')).toBe('Tue 7 Jul');
    expect(formats('es').day('2026-07-07')).toBe('Mar 7 Jul');
  });
  it('are read with point or comma; what is no number stays text for the planner to judge', () => {
    expect(['0.25', '0,25', ' 7 ', '2 1/2 in', 'x', '  '].map(typedValue)).toEqual([0.25, 0.25, 7, '2 1/2 in', 'x', null]); // prettier-ignore
  });
});
