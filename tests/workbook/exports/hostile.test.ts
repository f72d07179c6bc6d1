import ICAL from 'ical.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { clientCopy } from '../../../src/workbook/exports/client-copy.js';
import { clientPages } from '../../../src/workbook/exports/client-pdf.js';
import { crewCopy } from '../../../src/workbook/exports/crew-copy.js';
import { crewPages } from '../../../src/workbook/exports/crew-pdf.js';
import { planCsv } from '../../../src/workbook/exports/csv.js';
import { planIcs } from '../../../src/workbook/exports/ics.js';
import { makePdf } from '../../../src/workbook/exports/pdf.js';
import { oneLine, short, writable } from '../../../src/workbook/exports/text.js';
import { planFromTables, type PlanJob } from '../../../src/workbook/plan-job.js';
import type { Context } from '../../../src/workbook/sheets/context.js';
import type { WorkbookModel } from '../../../src/workbook/model.js';
import { writeXlsx } from '../../../src/workbook/writers/file.js';
import { cellsOf } from '../cells.js';
import { sampleInput } from '../job.js';
import { recalculate, skipWithout } from '../programs.js';
import { HOSTILE, marked } from './hostile.js';
import {
  asBook,
  contextOf,
  FONTS,
  kindsOf,
  readCsv,
  readPdf,
  skipWithoutPoppler,
} from './samples.js';

/** A row a text: as id, species, site, address and note; all of them as headers of further columns. */
let job: PlanJob;
let ctx: Context;
beforeAll(async () => {
  const sample = await sampleInput();
  const header = [
    'Tree id',
    'Species',
    'Caliper (in)',
    'Planted',
    'Site',
    'Address',
    'Note',
    'Tap',
  ];
  const rows = HOSTILE.map((text, i) => {
    const m = marked(text, i);
    return [
      m,
      text,
      2,
      '2027-02-01',
      m,
      text,
      text,
      'no',
      ...HOSTILE.map((_, k) => (k === i ? text : null)),
    ];
  });
  job = planFromTables({
    ...sample,
    inventory: [
      [...header, ...HOSTILE.map((_, i) => HOSTILE[(i + 1) % 60]!.slice(0, 200))],
      ...rows,
    ],
    fileName: '=1+1.csv',
    title: `Plan ${HOSTILE[30]!} ${HOSTILE[47]!}`,
  });
  ctx = contextOf(job, 'US');
});

it('there are sixty of them', () => {
  expect(HOSTILE.length).toBe(60);
  expect(new Set(HOSTILE).size).toBe(60);
  expect(job.plan.trees.length).toBe(60);
});

const formulasOf = (model: WorkbookModel): string[] =>
  model.sheets.flatMap((sheet) =>
    cellsOf(sheet).flatMap(({ at, cell }) =>
      cell.formula === undefined ? [] : [`${sheet.name}!${at}`],
    ),
  );

describe.skipIf(skipWithout('openpyxl', 'LibreOffice'))('in workbooks', () => {
  it.each([
    ['the office’s', () => job.model],
    ['the crew’s', () => crewCopy(ctx)],
    ['the client’s', () => clientCopy(ctx)],
  ])('%s: only the model’s own formulas are formulas, and LibreOffice opens it', async (_, make) => {
    const model = make();
    const book = await writeXlsx(model);
    const kinds = kindsOf(book);
    expect([...kinds.formulas].sort()).toEqual(formulasOf(model).sort());
    const opened = recalculate('LibreOffice', book);
    expect(Object.keys(opened)).toEqual(model.sheets.map((s) => s.name));
  }, 240_000); // prettier-ignore

  it('keep every text as it is, but for what no file can hold', async () => {
    const { texts } = kindsOf(await writeXlsx(job.model, { pictures: false }));
    // a carriage return stands as _x000D_ in the file (ECMA-376, ST_Xstring), which openpyxl leaves so
    const plain = (text: string): string =>
      text.replaceAll('_x000D_', '\r').replace(/\r\n?/g, '\n');
    const held = new Set(texts.map(plain));
    const missing = HOSTILE.filter((text) => {
      const whole = plain(writable(text));
      const cut = whole.length > 32_767 ? `${whole.slice(0, 32_766)}…` : whole;
      return !held.has(cut) && !held.has(cut.trim());
    });
    expect(missing).toEqual([]);
  }, 120_000);
});

describe.skipIf(skipWithout('openpyxl', 'LibreOffice'))('in the table of the plan', () => {
  it('no text cell can be taken for a formula, and columns stay columns', () => {
    const [head, ...rows] = readCsv(planCsv(ctx, { bom: true }));
    const numbers = new Set(['Trees', 'Each (gal)', 'All (gal)', 'Runs (min)', 'Cycles']);
    expect(rows.length).toBe(job.plan.trees.reduce((n, t) => n + t.chosen.plan.length, 0));
    for (const row of rows) {
      expect(row.length).toBe(head!.length);
      row.forEach((text, i) => {
        if (numbers.has(head![i]!)) expect(Number.isFinite(Number(text))).toBe(true);
        else expect(text).not.toMatch(/^\s*[=+\-@\t\r\u0000＝＋－＠]/); // eslint-disable-line no-control-regex
      });
    }
  });

  it('opens in LibreOffice without a formula', () => {
    const kinds = kindsOf(asBook(planCsv(ctx)));
    expect(kinds.formulas).toEqual([]);
    expect(kinds.texts).toContain("'=1+1");
  }, 120_000);

  it('keeps the text behind the apostrophe', () => {
    const [, ...rows] = readCsv(planCsv(ctx));
    const names = new Set(rows.map((row) => row[6]!));
    for (const { tree } of job.plan.trees) {
      const plain = writable(tree.id);
      expect(names.has(plain) || names.has(`'${plain}`), tree.id.slice(0, 40)).toBe(true);
    }
  });
});

describe('in the calendar', () => {
  it('lines stay folded and escaped, events stay the plan’s own', () => {
    const text = planIcs(ctx);
    for (const line of text.split('\r\n'))
      expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    expect(text.replace(/\r\n/g, '')).not.toMatch(/[\u0000-\u0008\u000a-\u001f\u202a-\u202e]/); // eslint-disable-line no-control-regex
    const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
    const events = calendar.getAllSubcomponents('vevent');
    expect(events.length).toBe(ctx.plan.crewDays.reduce((n, d) => n + (d.rounds?.length ?? 1), 0));
    for (const event of events) {
      expect(event.getAllProperties('dtstart').length).toBe(1);
      expect(new ICAL.Event(event).startDate.year).toBe(2027);
    }
    // a description names forty stops: those left out come first the other way round
    const back = ctx.plan.crewDays.map((day) => ({ ...day, stops: [...day.stops].reverse() }));
    const other = planIcs({ ...ctx, plan: { ...ctx.plan, crewDays: back } });
    const said = new ICAL.Component(ICAL.parse(other) as unknown[])
      .getAllSubcomponents('vevent')
      .map((e) => new ICAL.Event(e).description)
      .join('\n');
    expect(said).toContain('END:VEVENT BEGIN:VEVENTZq44');
    expect(said).toContain('a;b,c:d\\n\\eZq45');
  });
});

describe.skipIf(skipWithoutPoppler())('on paper', () => {
  it('pages are made, texts of any length are cut, and marks of direction are gone', async () => {
    const days: [number, number] = [ctx.plan.crewDays[0]!.day, ctx.plan.crewDays[3]!.day];
    const crew = readPdf(await makePdf(crewPages(ctx, { days }), FONTS));
    const client = readPdf(await makePdf(clientPages(ctx), FONTS));
    for (const { text, pages } of [crew, client]) {
      expect(pages).toBeGreaterThan(2);
      expect(pages).toBeLessThan(60);
      expect(text).toContain('=1+1');
      expect(text).not.toMatch(/[\u0000\u202a-\u202e]/); // eslint-disable-line no-control-regex
      expect(text).not.toContain('x'.repeat(200));
    }
  }, 120_000);
});

describe('text on its way out', () => {
  it('loses controls and marks halves of pairs', () => {
    expect(writable('a\u0000b\u0007c\td\r\n')).toBe('abc\td\r\n');
    expect(writable('\ud800x\udc00 🌳')).toBe('\ufffdx\ufffd 🌳');
    expect(oneLine(' a\r\n\u202eb\tc ')).toBe('a b c');
  });
  it('is cut by whole characters', () => {
    expect(short('🌳🌳🌳🌳', 3)).toBe('🌳🌳…');
    expect(short('🌳🌳🌳', 3)).toBe('🌳🌳🌳');
    expect(short('abc', 3)).toBe('abc');
    expect(short('abcd', 3)).toBe('ab…');
  });
});
