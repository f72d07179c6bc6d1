import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { FIELD_CARD_SOURCE, PROBES } from '../../src/engine/contract/field-card.js';
import { run } from '../../src/cli/plan.js';
import {
  CREW_CAUTIONS,
  CREW_WORDS,
  FAMILY_NAMES,
  MONTH_WORDS,
  TO_DO,
  UNREAD,
  WATERS,
  WEEKDAY_WORDS,
  type Language,
  type Words,
} from '../../src/workbook/crew-words.js';
import { rich, tablesOf, type Sheet, type TableBlock, type WorkbookModel } from '../../src/workbook/model.js'; // prettier-ignore
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { readWorkbookSheets } from '../../src/workbook/readers/open.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { crewSheet, spell } from '../../src/workbook/sheets/crew.js';
import { cellsOf, column } from './cells.js';
import { sampleContext } from './exports/samples.js';
import { INVENTORY, sampleJob } from './job.js';
import { inFolder, PROGRAMS, skipWithout } from './programs.js';

const ALL: Words[] = [
  ...Object.values(CREW_WORDS),
  ...Object.values(TO_DO),
  ...Object.values(FAMILY_NAMES),
  ...Object.values(WATERS),
  ...CREW_CAUTIONS,
  ...WEEKDAY_WORDS,
  ...MONTH_WORDS,
];

let job: PlanJob;
beforeAll(async () => {
  job = await sampleJob({ crewLanguage: 'both' });
});

const sheetOf = (model: WorkbookModel, name: string): Sheet =>
  model.sheets.find((s) => s.name === name)!;
const tableOf = (sheet: Sheet): TableBlock => tablesOf(sheet)[0]!;
const textsOf = (sheet: Sheet): string[] => [
  sheet.title,
  ...tablesOf(sheet).flatMap((t) => t.columns.map((c) => c.header)),
  ...cellsOf(sheet).flatMap(({ cell }) => (typeof cell.value === 'string' ? [cell.value] : [])),
  ...Object.values(sheet.pageWords ?? {}),
];

/** Names, of devices, sites, streets, kinds, trees and publishers. Longest first. */
const data = (): string[] =>
  [
    job.plan.site.name,
    ...job.setup.kit.map((d) => d.name),
    ...[FIELD_CARD_SOURCE, ...PROBES].map(({ publisher }) => publisher),
    ...job.plan.trees.flatMap(({ tree }) => [tree.site, tree.address, tree.species, tree.id]),
  ]
    .filter(Boolean)
    .sort((a, b) => b.length - a.length);

const without = (text: string, words: readonly string[]): string =>
  words.reduce((left, word) => left.replaceAll(word, ' '), text);

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

describe('crew sheets in two languages', () => {
  it('have every word in both, and Spanish with the words of the trade', () => {
    for (const { en, es } of ALL) {
      expect(en.trim()).not.toBe('');
      expect(es.trim()).not.toBe('');
    }
    const spanish = ALL.map(({ es }) => es).join(' ').toLowerCase();
    for (const word of ['alcorque', 'cepellón', 'manguera exudante', 'bolsa de riego', 'almohadilla de hidrogel', 'boca de riego', 'cuba'])
      expect(spanish).toContain(word);
  }); // prettier-ignore

  it('leave no English word of the table on the Spanish sheet', () => {
    const own = data();
    const footer = UNREAD.es!;
    const texts = textsOf(sheetOf(job.model, 'Cuadrilla')).filter((t) => !footer.includes(t));
    expect(texts.length).toBeGreaterThan(500);
    const english = ALL.filter(({ en, es }) => en !== es).map(({ en }) => en);
    expect(english.length).toBeGreaterThan(50);
    const found = new Set<string>();
    for (const text of texts)
      for (const en of english)
        if (new RegExp(`(?<![\\p{L}])${escaped(en)}(?![\\p{L}])`, 'u').test(without(text, own)))
          found.add(`"${en}" in "${text}"`);
    expect([...found]).toEqual([]);
    // the same search does find them on the English sheet
    const there = textsOf(sheetOf(job.model, 'Crew')).join('\n');
    for (const en of ['Done', 'What to do', 'stop', 'Water']) expect(there).toContain(en);
  });

  it('hold the same stops and numbers', () => {
    const [en, es] = ['Crew', 'Cuadrilla'].map((name) => tableOf(sheetOf(job.model, name)));
    const numbers = (t: TableBlock): unknown[][] =>
      t.rows.map((row) => row.map((c) => rich(c).value).filter((v) => typeof v === 'number'));
    const stops = (t: TableBlock): unknown[] =>
      t.rows.filter((row) => rich(row[0]!).style === 'field').map((row) => [
        /^\d+/.exec(String(rich(row[1]!).value))![0], /\d+$/.exec(String(rich(row[1]!).value))![0], rich(row[2]!).value,
      ]);
    const work = (t: TableBlock): unknown[][] => numbers(t).filter((row) => row.length > 0);
    expect(work(es!)).toEqual(work(en!));
    expect(stops(es!)).toEqual(stops(en!));
    expect(stops(es!).length).toBeGreaterThan(100);
    const days = job.plan.crewDays.length;
    for (const name of ['Crew', 'Cuadrilla'])
      expect(sheetOf(job.model, name).print.breaks).toHaveLength(days);
  }); // prettier-ignore

  it('agree on Checks, and each language alone makes a whole workbook', async () => {
    const what = column(job.model, 'Totals', 'what') as string[];
    const at = what.findIndex((text) => text.includes('the same in Spanish'));
    expect(at).toBeGreaterThan(0);
    expect(column(job.model, 'Totals', 'wrong')[at]).toBe(0);
    const spanish = (await sampleJob({ crewLanguage: 'es' })).model;
    const names = spanish.sheets.map((s) => s.name);
    expect(names).toContain('Cuadrilla');
    expect(names).not.toContain('Crew');
    expect((column(spanish, 'Totals', 'wrong') as number[]).every((v) => v === 0)).toBe(true);
    const english = (await sampleJob()).model.sheets.map((s) => s.name);
    expect(english).toContain('Crew');
    expect(english).not.toContain('Cuadrilla');
  });

  it('say what to do when the bag is still full, where water comes from, and the hours, in both', () => {
    for (const [name, language] of [['Crew', 'en'], ['Cuadrilla', 'es']] as const) {
      const sheet = sheetOf(job.model, name);
      const frame = cellsOf(sheet).filter(({ cell }) => cell.style === 'frame').map(({ cell }) => cell.value).join(' ');
      expect(frame.replace(/\s+/g, ' ')).toContain(CREW_WORDS.stillFull[language]);
      const lines = cellsOf(sheet).flatMap(({ cell }) => (cell.style === 'heading' ? [String(cell.value)] : []));
      const sources = lines.filter((text) => text.startsWith(`${CREW_WORDS.water[language]}: `));
      expect(sources).toHaveLength(job.plan.crewDays.length);
      for (const text of sources) expect(text).toMatch(new RegExp(`${CREW_WORDS.hours[language]}: (\\d\\d:\\d\\d|${CREW_WORDS.anyHour[language]}|\\p{L})`, 'u'));
    }
  }); // prettier-ignore

  it('start every caution on a line of its own, or beside a whole one', () => {
    for (const [name, language] of [['Crew', 'en'], ['Cuadrilla', 'es']] as const) {
      const frame = cellsOf(sheetOf(job.model, name)).flatMap(({ cell }) =>
        cell.style === 'frame' && cell.value !== null ? [String(cell.value)] : [],
      );
      for (const caution of CREW_CAUTIONS)
        expect(frame.filter((line) => line.includes(caution[language]))).toHaveLength(1);
    }
  }); // prettier-ignore

  it('leave a drawn box to tick and a drawn field for the reading at every tree', () => {
    const t = tableOf(sheetOf(job.model, 'Crew'));
    const [box, reading] = ['box', 'reading'].map((key) => t.columns.findIndex((c) => c.key === key)); // prettier-ignore
    const waters = ([, , , , , , volume]: (typeof t.rows)[number]) =>
      typeof rich(volume!).value === 'number';
    const work = t.rows.filter(waters);
    expect(work.length).toBeGreaterThan(100);
    for (const row of work)
      for (const at of [box!, reading!])
        expect(row[at]).toMatchObject({ value: null, style: 'field' });
  });

  it('say when the tank is filled, in a line without box and gallons before the trees it is for', () => {
    for (const [name, language] of [['Crew', 'en'], ['Cuadrilla', 'es']] as const) {
      const t = tableOf(sheetOf(job.model, name));
      const at = (key: string): number => t.columns.findIndex((c) => c.key === key);
      const value = (row: TableBlock['rows'][number] | undefined, key: string) => rich(row?.[at(key)] ?? null).value;
      const fills = t.rows.flatMap((row, i) => (String(value(row, 'what')).startsWith(CREW_WORDS.fillTank[language]) ? [i] : []));
      const loads = (i: number): number => Number(/(\d+) /.exec(String(value(t.rows[i], 'what')))?.[1] ?? 1);
      expect(fills.reduce((sum, i) => sum + loads(i), 0)).toBe(job.plan.crewDays.reduce((sum, d) => sum + d.tankLoads, 0));
      expect(fills.length).toBeGreaterThan(50);
      const names = { en: [/^before stop (\d+)$/, /^before (HR-\d+)$/], es: [/^antes de la parada (\d+)$/, /^antes de (HR-\d+)$/] }[language];
      let stopsNamed = 0;
      for (const i of fills) {
        const row = t.rows[i];
        expect(['each', 'volume'].map((key) => value(row, key))).toEqual([null, null]);
        expect(rich(row![at('box')]!).style).toBe('text');
        expect(value(row, 'where')).toBe(CREW_WORDS.waterPoint[language]);
        expect(value(row, 'minutes')).toBe(loads(i) * job.plan.site.tankRefillMinutes);
        // what follows is watered from the truck, and is what the line says it is for
        const next = t.rows[i + 1];
        expect(String(value(next, 'what'))).toMatch(/500 gal truck|15 gal bag/);
        const when = String(value(row, 'trees'));
        const [stop, tree] = names.map((name) => name.exec(when)?.[1]);
        if (stop !== undefined) {
          stopsNamed += 1;
          expect(String(value(next, 'stop'))).toMatch(new RegExp(` · ${stop}$`));
        } else expect(String(value(next, 'trees')).split(' · ')[0]).toBe(tree);
      }
      expect(stopsNamed).toBeGreaterThan(20);
      expect(fills.length - stopsNamed).toBeGreaterThan(20);
    }
  }); // prettier-ignore

  it('print lines whose minutes add up to the hours at the head of their round, the way back among them', () => {
    for (const [name, language] of [['Crew', 'en'], ['Cuadrilla', 'es']] as const) {
      const t = tableOf(sheetOf(job.model, name));
      const at = (key: string): number => t.columns.findIndex((c) => c.key === key);
      const value = (row: TableBlock['rows'][number], key: string) => rich(row[at(key)] ?? null).value;
      const rounds: { hours: string; minutes: number; back: number }[] = [];
      for (const row of t.rows) {
        const text = String(value(row, 'box') ?? '');
        const hours = isHead(text, language) ? / · ((?:\d+ h)?(?: ?\d+ min)?)(?: · \d+ \D+)?$/.exec(text)?.[1] : undefined;
        if (hours !== undefined) rounds.push({ hours, minutes: 0, back: 0 });
        const minutes = value(row, 'minutes');
        if (typeof minutes !== 'number') continue;
        expect(Number.isInteger(minutes)).toBe(true);
        rounds.at(-1)!.minutes += minutes;
        if (value(row, 'what') === CREW_WORDS.wayBack[language]) rounds.at(-1)!.back += minutes;
      }
      const planned = job.plan.crewDays.flatMap((d) => d.rounds!);
      expect(rounds).toHaveLength(planned.length);
      rounds.forEach(({ hours, minutes, back }, r) => {
        expect(hours).toBe(spell(minutes / 60));
        expect(minutes).toBe(Math.round(planned[r]!.hours * 60));
        expect(back).toBeGreaterThan(0);
      });
    }
  }); // prettier-ignore

  it('name the trees that timers water on every day with a round, and none on others', () => {
    const { kit } = job.setup;
    const timed = new Set(kit.filter((d) => d.automatic).map((d) => d.name));
    for (const [name, language] of [['Crew', 'en'], ['Cuadrilla', 'es']] as const) {
      const said = new Map<number, string>();
      const days = job.plan.crewDays.map((d) => d.day);
      let round = -1;
      let timers = false;
      for (const row of tableOf(sheetOf(job.model, name)).rows) {
        const { value, style } = rich(row[0]!);
        const text = String(value);
        const head = isHead(text, language);
        if (head) round += 1;
        // its own line begins it; words without a column follow
        timers = text.startsWith(CREW_WORDS.byTimer[language]) || (timers && style !== 'field' && value !== null && !head);
        if (timers) said.set(days[round]!, `${said.get(days[round]!) ?? ''} ${text}`);
      }
      let most = 0;
      for (const day of days) {
        const rows = job.plan.trees.filter(({ chosen }) => chosen.plan.some((w) => w.day === day && timed.has(w.device)));
        const text = said.get(day);
        if (rows.length === 0) expect(text).toBeUndefined();
        else {
          const trees = rows.reduce((sum, { tree }) => sum + tree.count, 0);
          most = Math.max(most, rows.length);
          expect(text).toContain(`${CREW_WORDS.byTimer[language]}: ${trees} ${CREW_WORDS[trees === 1 ? 'tree' : 'trees'][language]}. ${CREW_WORDS.byTimerTell[language]}`);
          for (const { tree } of rows) expect(text).toContain(`${tree.site} · `);
          const hours = rows[0]!.chosen.plan.find((w) => w.day === day)!.hours;
          expect(text).toContain(hours.replaceAll('-', '–'));
        }
      }
      expect(most).toBeGreaterThan(10);
      expect(said.size).toBeGreaterThan(50);
    }
  }); // prettier-ignore

  it('give every crew of a day a page of its own that names it', async () => {
    const { crewDays } = job.plan;
    const day = crewDays.find((d) => d.stops.length > 1)!;
    const stops = day.stops.map((stop, i) => ({ ...stop, crew: i === 0 ? 1 : 2 }));
    const round = { hours: 3, litres: 100, tankLoads: 0 };
    const rounds = [{ ...round, crew: 1 }, { ...round, crew: 2 }]; // prettier-ignore
    const ctx = await sampleContext();
    const two = { ...ctx.plan, crewDays: [{ ...day, stops, rounds }] } as typeof ctx.plan;
    const { sheet } = crewSheet({ ...ctx, plan: two }, 'es');
    // one between the crews, one before the field card
    expect(sheet.print.breaks).toHaveLength(2);
    const heads = cellsOf(sheet).map(({ cell }) => String(cell.value));
    for (const crew of ['cuadrilla 1 de 2', 'cuadrilla 2 de 2'])
      expect(heads.filter((text) => text.includes(crew))).toHaveLength(1);
  });

  it('mark the translation at the foot of every page and below the table', () => {
    const spanish = sheetOf(job.model, 'Cuadrilla');
    expect(spanish.pageWords?.footer).toBe(UNREAD.es);
    expect(UNREAD.es).toContain('ranslation from memory, have it read by a speaker');
    const last = cellsOf(spanish).at(-1)!.cell.value;
    expect(UNREAD.es).toContain(String(last));
    expect(sheetOf(job.model, 'Crew').pageWords?.footer).toBe('A planning aid · made 2027-03-15');
  });

  it('say once a page that local code decides: among the cautions that every page repeats', () => {
    for (const [name, language] of [['Crew', 'en'], ['Cuadrilla', 'es']] as const) {
      const sheet = sheetOf(job.model, name);
      const code = /local code|norma local/i;
      const at = cellsOf(sheet).filter(({ cell }) => code.test(String(cell.value ?? '')));
      expect(at).toHaveLength(1);
      const [first, last] = sheet.print.titleRows!;
      const row = Number(/\d+/.exec(at[0]!.at)![0]);
      expect(row).toBeGreaterThanOrEqual(first);
      expect(row).toBeLessThanOrEqual(last);
      expect(Object.values(sheet.pageWords!).join(' ')).not.toMatch(code);
      expect(at[0]!.cell.value).toContain(CREW_CAUTIONS.at(-1)![language]);
    }
  }); // prettier-ignore

  for (const paper of ['letter', 'a4'] as const)
    it.skipIf(skipWithout('LibreOffice'))(
      `fit the width of ${paper} in both languages`,
      async () => {
        // one crew day each: a sheet wider than the paper would take a second page for its right part
        const sheets = ['Crew', 'Cuadrilla'].map((name) => secondDay(sheetOf(job.model, name)));
        const bytes = await writeXlsx({ ...job.model, paper, sheets, names: {} });
        expect(pagesOf(bytes)).toBe(2);
      },
    );
});

/** The line above a round: it says when the crew starts. */
const isHead = (text: string, language: Language): boolean =>
  text.includes(` · ${CREW_WORDS.startsAt[language]} `);

/** A crew sheet with its second day alone: with the first stand the timers of all days before it. */
function secondDay(sheet: Sheet): Sheet {
  const t = tableOf(sheet);
  const [from, to] = sheet.print.breaks;
  const rows = t.rows.slice(from! - t.top, to! - t.top);
  return {
    ...sheet,
    blocks: sheet.blocks.filter((b) => b.top <= t.top).map((b) => (b === t ? { ...t, rows } : b)),
    print: { ...sheet.print, breaks: [] },
  };
}

/** Pages LibreOffice prints, counted in its PDF. */
function pagesOf(bytes: Uint8Array): number {
  return inFolder((folder) => {
    const path = join(folder, 'book.xlsx');
    writeFileSync(path, bytes);
    execFileSync(
      PROGRAMS.LibreOffice!,
      [`-env:UserInstallation=file://${join(folder, 'profile')}`, '--headless', '--convert-to', 'pdf', '--outdir', folder, path],
      { stdio: 'ignore' },
    ); // prettier-ignore
    return pagesInPdf(readFileSync(join(folder, 'book.pdf')));
  });
}

/** Page objects, also those in packed object streams. */
function pagesInPdf(pdf: Buffer): number {
  let text = pdf.toString('latin1');
  for (const found of text.matchAll(/\/FlateDecode[^]*?stream\r?\n/g)) {
    const start = found.index + found[0].length;
    try {
      text += inflateSync(pdf.subarray(start), { finishFlush: 2 }).toString('latin1');
    } catch {
      // not a packed stream of objects
    }
  }
  return text.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}

describe('--crew-language', () => {
  const quiet = { out: () => undefined, today: 46461 };

  it('takes en, es and both, and says so when it is given another', async () => {
    let said = '';
    const code = await run([INVENTORY, '--crew-language', 'fr'], { ...quiet, err: (t) => (said += t) }); // prettier-ignore
    expect(code).toBe(2);
    expect(said).toContain('--crew-language must be one of en, es, both');
  });

  it('writes the sheets asked for', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'soak-test-'));
    try {
      const out = join(folder, 'plan.xlsx');
      const code = await run([INVENTORY, '--crew-language', 'both', '--out', out], { ...quiet, err: () => undefined }); // prettier-ignore
      expect(code).toBeLessThan(2);
      expect(existsSync(out)).toBe(true);
      const names = (await readWorkbookSheets(readFileSync(out))).map((s) => s.name);
      expect(names).toEqual(expect.arrayContaining(['Crew', 'Cuadrilla']));
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }, 60_000);
});
