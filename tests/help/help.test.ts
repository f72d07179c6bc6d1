import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { helpData, writeHelp } from '../../scripts/build-help.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import { casesOf, noteOf, patternsOf, relatedTo, type HelpData } from '../../src/help/data.js';
import { equationHtml } from '../../src/help/equation.js';
import { exampleOf } from '../../src/help/example.js';
import { syntaxOf } from '../../src/help/function-page.js';
import { escapeText, markup } from '../../src/help/html.js';
import { partsOf } from '../../src/functions/parameter-words.js';
import { helpPages } from '../../src/help/site.js';
import { formulaOf, shown } from '../../src/help/values.js';
import { TWIN_IDS } from '../../src/workbook/native-twins.js';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const data = helpData();
const folder = mkdtempSync(join(tmpdir(), 'soakbook-help-'));
writeHelp(folder);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const read = (file: string): string => readFileSync(join(folder, file), 'utf8');
const files = readdirSync(folder).filter((name) => name.endsWith('.html'));
/** Shared with the panel and the desk, which the build puts one folder up. */
const BESIDE: Record<string, string> = {
  '../panel.css': 'src/taskpane/panel.css',
  '../mark.svg': 'assets/mark.svg',
};

/** The text a person reads: no tags, no entities. */
const textOf = (page: string): string =>
  page
    .replace(/<[^>]*>/g, '')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&')
    .replace(/\s+/g, ' ');
const words = (text: string): string => text.replace(/\s+/g, ' ');

describe('the set of pages', () => {
  it('has a page at every address functions.json gives to the host', () => {
    for (const { id, helpUrl } of data.functions) {
      expect(new URL(helpUrl).pathname).toBe(`/help/${id}.html`);
      expect(existsSync(join(folder, `${id}.html`)), id).toBe(true);
    }
    expect(files).toHaveLength(data.functions.length + 3);
  });

  it.each(files)('%s: every link leads to a page and a place in it', (file) => {
    const targets = [...read(file).matchAll(/(?:href|src)="([^"]*)"/g)].map((found) => found[1]!);
    expect(targets.length).toBeGreaterThan(5);
    for (const target of targets) {
      const shared = BESIDE[target];
      if (shared !== undefined) {
        expect(existsSync(join(root, shared)), target).toBe(true);
        continue;
      }
      const [path, place] = target.split('#');
      const page = path === '' ? file : path!;
      expect(existsSync(join(folder, page)), `${file} → ${target}`).toBe(true);
      if (place !== undefined) expect(read(page), target).toContain(`id="${place}"`);
    }
  });

  it.each(files)('%s: one language, one title, no style or script in the text', (file) => {
    const page = read(file);
    expect(page).toContain('<html lang="en">');
    expect(page.match(/<h1>/g)).toHaveLength(1);
    expect(page.replaceAll('&#39;', "'")).toContain(
      `http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'self';`,
    );
    expect(page).not.toMatch(/unsafe|\sstyle=|\son[a-z]+=|<style|<script>/);
    expect(page).not.toMatch(/undefined|\[object|NaN/);
    expect(page).not.toMatch(/(?:href|src)="(?:https?:)?\/\//);
    const ids = [...page.matchAll(/\sid="([^"]*)"/g)].map((found) => found[1]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('the index lists every function once', () => {
    const listed = [
      ...read('index.html').matchAll(/<li data-search="[^"]*">\s*<a href="(\w+)\.html"/g),
    ];
    expect(listed.map((found) => found[1]).sort()).toEqual(
      data.functions.map(({ id }) => id).sort(),
    );
  });
});

describe.each(data.functions.map((fn) => [fn.id, fn] as const))('the page of %s', (id, fn) => {
  const page = read(`${id}.html`);
  const text = textOf(page);

  it('gives syntax, every parameter, equation, range, errors and source', () => {
    expect(text).toContain(syntaxOf(fn));
    const note = noteOf(data, id);
    for (const parameter of fn.parameters) {
      expect(text).toContain(parameter.name);
      const { what, us, si } = partsOf(parameter);
      if (parameter.customEnumId === undefined) expect(text).toContain(words(what));
      expect(text).toContain(us);
      expect(text).toContain(si);
    }
    expect(text).toContain(words(note.source));
    expect(text.toLowerCase()).toContain(words(note.range).toLowerCase());
    expect(text.replace(/[\^()]/g, '')).toContain(words(note.equation).replace(/[\^()]/g, ''));
    for (const code of note.errors.match(/#[A-Z/]+!?/g) ?? []) expect(text).toContain(code);
  });

  it('names every check with its source, or says that it has none of its own', () => {
    const checks = [...casesOf(data, id), ...patternsOf(data, fn)];
    for (const each of casesOf(data, id)) expect(text).toContain(words(each.source));
    if (checks.length === 0) {
      expect(fn.parameters, 'only what reads nothing but tables').toEqual(
        fn.parameters.filter(({ dimensionality }) => dimensionality === 'matrix'),
      );
      expect(text).toContain('No case of the reference data calls this function');
    }
  });

  it('shows a worked example whose result is the function’s own', () => {
    const example = exampleOf(data, fn);
    if (example === undefined) {
      expect(casesOf(data, id)).toEqual([]);
      return;
    }
    const run = FUNCTIONS[id]!;
    const result: unknown = run(...fn.parameters.map((_, i) => example.inputs[i] ?? null));
    const isDate = /\bdate\b/.test(noteOf(data, id).result) && typeof result === 'number';
    expect(text).toContain(example.formula);
    expect(text).toContain(words(shown(result, isDate)));
    expect(text).toContain(words(example.published));
  });

  it('has the formula that stands in for it exactly where there is one', () => {
    expect(page.includes('<details>')).toBe((TWIN_IDS as string[]).includes(id));
  });
});

describe('text from the data', () => {
  it('never becomes markup', () => {
    const bad = '<img src=x onerror="alert(1)"> & \'';
    const hostile: HelpData = {
      ...data,
      functions: data.functions.map((fn) => ({
        ...fn,
        description: bad,
        parameters: fn.parameters.map((each) => ({ ...each, description: bad })),
      })),
      notes: Object.fromEntries(
        Object.entries(data.notes).map(([id, { family }]) => [
          id,
          { family, result: bad, equation: `x = ${bad}`, range: bad, errors: bad, source: bad },
        ]),
      ),
      cases: data.cases.map((each) => ({ ...each, name: bad, source: bad })),
      tables: {
        ET0: [
          {
            title: bad,
            columns: [bad],
            rows: [{ cells: [bad], certainty: 'memory', source: bad }],
          },
        ],
      },
    };
    for (const [file, page] of helpPages(hostile)) {
      expect(page, file).not.toContain('<img');
      expect(page, file).not.toContain('onerror="');
    }
    expect(helpPages(hostile).get('ET0.html')).toContain(escapeText(bad));
    expect(markup`<p title="${bad}">${[bad]}</p>`.text).toBe(
      `<p title="${escapeText(bad)}">${escapeText(bad)}</p>`,
    );
  });

  it('a value from memory is marked where it stands', () => {
    const tables: HelpData['tables'] = {
      ET0: [
        {
          title: 'Invented',
          columns: ['kind', 'value'],
          rows: [
            { cells: ['one', 1], certainty: 'memory', source: 'a book' },
            { cells: ['two', 2], certainty: 'seen', source: 'a book' },
          ],
        },
      ],
    };
    const page = helpPages({ ...data, tables }).get('ET0.html')!;
    const [, rows] = page.split('aria-label="Invented"');
    const [, one, two] = rows!.split('</table>')[0]!.split('<tr role="row">').slice(1);
    expect(textOf(one!)).toContain('▲ from memory, to be confirmed');
    expect(one).toContain('<mark');
    expect(two).not.toContain('<mark');
    expect(textOf(two!)).toContain('seen in the publication');
  });
});

describe('descriptions taken apart', () => {
  it.each([
    ['water in the bag, gal | L', 'water in the bag', 'gal', 'L', ''],
    [
      'a coefficient, no unit; default 0.62, a sharp edge',
      'a coefficient',
      '–',
      '–',
      '0.62, a sharp edge',
    ],
    ['measured time, hours', 'measured time', 'hours', 'hours', ''],
    [
      'dew point, °F | °C; default: the lowest (or 0, if so)',
      'dew point',
      '°F',
      '°C',
      'the lowest (or 0, if so)',
    ],
    [
      'each day, one number; gal | L as volume',
      'each day, one number',
      'gal as volume',
      'L as volume',
      '',
    ],
    ['used up, gal | L or in | mm', 'used up', 'gal or in', 'L or mm', ''],
    ['radiation, MJ/m² in both systems', 'radiation', 'MJ/m²', 'MJ/m²', ''],
  ])('%s', (description, what, us, si, fallback) => {
    expect(partsOf({ name: 'x', description })).toEqual({ what, us, si, default: fallback });
  });

  it('writes formulas as they are typed', () => {
    const names = [{ name: 'a' }, { name: 'b' }, { name: 'c' }];
    expect(formulaOf('X', [1.5, null, 'say "so"'], names)).toBe('=SOAK.X(1.5, , "say ""so""")');
    expect(
      formulaOf(
        'X',
        [
          [
            [1, 2],
            [3, 4],
          ],
          null,
        ],
        names,
      ),
    ).toBe('=SOAK.X({1,2;3,4})');
    expect(formulaOf('X', [[['', 2]]], names)).toBe('=SOAK.X(a)');
  });

  it('sets indices and powers of equations', () => {
    expect(equationHtml('q = k h1^x · ET0', []).text).toBe(
      'q = k h<sub>1</sub><sup>x</sup> · ET<sub>0</sub>',
    );
    expect(equationHtml('FAO-56 Eq. 6', []).text).toBe('FAO-56 Eq. 6');
  });

  it('relates a function to the one that gives its argument, both ways', () => {
    const of = (id: string): string[] =>
      relatedTo(
        data,
        data.functions.find((fn) => fn.id === id)!,
      ).map((fn) => fn.id);
    expect(of('TREE_DEMAND')).toContain('ET0');
    expect(of('ET0')).toContain('TREE_DEMAND');
    expect(of('BAG_HOURS')).not.toContain('ET0');
  });
});
