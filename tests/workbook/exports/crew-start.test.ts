/** What leaves the office says when a crew starts, the hours left to water in and the rules' own. */
import ICAL from 'ical.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { CrewSpeech } from '../../../src/workbook/crew-speech.js';
import { crewCopy } from '../../../src/workbook/exports/crew-copy.js';
import { crewRounds } from '../../../src/workbook/exports/rounds.js';
import { layOut } from '../../../src/workbook/writers/laid-out.js';
import { crewSheet } from '../../../src/workbook/sheets/crew.js';
import { planSheet } from '../../../src/workbook/sheets/plan.js';
import { planCsv } from '../../../src/workbook/exports/csv.js';
import { planIcs } from '../../../src/workbook/exports/ics.js';
import { crewPages } from '../../../src/workbook/exports/crew-pdf.js';
import type { Context } from '../../../src/workbook/sheets/context.js';
import { sampleInput } from '../job.js';
import { sampleContext } from './samples.js';

let ctx: Context;
beforeAll(async () => {
  const { site } = await sampleInput();
  ctx = await sampleContext('US', { site: { ...site!, crewStart: 5.5 } });
});
/** All text of a sheet, or of pages, in one. */
const textOf = (of: unknown): string => JSON.stringify(of);

describe('a crew’s page', () => {
  it('has the start in its head, the hours to water and those of the rules, in both languages', () => {
    const english = textOf(crewSheet(ctx, 'en').sheet);
    expect(english).toContain('start 05:30');
    expect(english).toMatch(/Hours to water: [^"]*05:30-10:00/);
    expect(english).toMatch(/Allowed by the rules: [^"]*00:00-10:00, 18:00-24:00/);
    const spanish = textOf(crewSheet(ctx, 'es').sheet);
    expect(spanish).toContain('inicio 05:30');
    expect(spanish).toMatch(/Horas de riego: [^"]*05:30-10:00/);
    expect(spanish).toMatch(/Permitido por las reglas: [^"]*00:00-10:00, 18:00-24:00/);
  });
  it('on paper says the same', () => {
    const pages = textOf(crewPages(ctx));
    expect(pages).toContain('start 05:30');
    expect(pages).toContain('05:30–10:00');
    expect(pages).toContain('00:00–10:00, 18:00–24:00');
  });
});

describe('elsewhere', () => {
  it('the plan keeps the hours of the rules beside the part in the crew’s day; a timer has none', () => {
    const [header = '', ...rows] = planCsv(ctx).split('\r\n');
    expect(header).toContain('Allowed hours,Within crew day');
    const crew = rows.filter((row) => row.includes(',crew,'));
    const timer = rows.filter((row) => row.includes(',timer,'));
    expect(crew.length).toBeGreaterThan(20);
    expect(timer.length).toBeGreaterThan(20);
    expect(crew.some((row) => row.includes('"00:00-10:00, 18:00-24:00",05:30-10:00'))).toBe(true);
    for (const row of timer) expect(row).not.toMatch(/05:30-/);
    expect(textOf(planSheet(ctx).sheet)).toContain('05:30-10:00');
  });
  it('the calendar begins a round with the crew’s day where it is open then, and later where it is not', () => {
    const events = new ICAL.Component(ICAL.parse(planIcs(ctx)) as unknown[])
      .getAllSubcomponents('vevent')
      .map((part) => new ICAL.Event(part));
    expect(events.length).toBeGreaterThan(20);
    for (const { startDate } of events) expect([startDate.hour, startDate.minute]).toEqual([5, 30]);
    expect(events.some((e) => e.description.includes('Hours to water: 05:30-10:00'))).toBe(true);
    expect(events.some((e) => e.description.includes('Allowed by the rules:'))).toBe(true);
  });
});

describe('a day with more work than the open hours hold', () => {
  const LANGUAGES = [
    ['en', 'More work than the open hours hold: tell the office before you start.', 'start 08:00'],
    ['es', 'Más trabajo del que cabe en las horas permitidas: avise a la oficina antes de empezar.', 'inicio 08:00'],
  ] as const; // prettier-ignore
  let late: Context;
  beforeAll(async () => {
    // the rules close at 10:00, so that a crew that starts at 8:00 has two hours for what it waters
    const { site } = await sampleInput();
    late = await sampleContext('US', { site: { ...site!, crewStart: 8 } });
  });
  const over = () => crewRounds(late.plan).filter(({ overload }) => overload);

  it.each(LANGUAGES)('keeps its day in the head, and warns in a framed line below, %s', (language, warning, start) => {
    const { sheet } = crewSheet(late, language);
    const laid = layOut(sheet, { ...crewCopy(late), sheets: [sheet] });
    const [table] = laid.tables;
    const first = Array.from({ length: table!.rows }, (_, r) => laid.cells(table!.top + r, 0)!);
    const warned = first.flatMap((cell, r) => (cell.value === `▲ ${warning}` ? [r] : []));
    expect(over().length).toBeGreaterThan(3);
    expect(warned).toHaveLength(over().length);
    warned.forEach((r, i) => {
      const head = first[r - 1]!;
      expect(head.value).toContain(new CrewSpeech(language).fullDay(over()[i]!.day));
      expect(head.value).toContain(start);
      expect(first[r]!.look.frame).toBe(true);
    });
    // what runs over the columns begins at the left: in the middle it would lose its beginning
    for (const cell of first) if (cell.value !== null) expect(cell).toMatchObject({ align: 'left', wrap: false });
  }); // prettier-ignore

  it('says so on paper too', () => {
    const pages = textOf(crewPages({ ...late, crewLanguage: 'both' }));
    for (const [, warning] of LANGUAGES)
      expect(pages.split(`▲ ${warning}`)).toHaveLength(over().length + 1);
  });
});
