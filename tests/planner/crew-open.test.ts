/** What the rules leave of the crew's hours, against days worked out one by one by the planner's own calendars. Invented trees. */
import { describe, expect, it } from 'vitest';
import { lengthOf } from '../../src/engine/crew/shift.js';
import { dayOf } from '../../src/engine/dates.js';
import { Calendars } from '../../src/engine/plan/calendars.js';
import { crewOpen } from '../../src/engine/plan/crew-open.js';
import type { Site } from '../../src/engine/plan/model.js';
import { parseRules } from '../../src/engine/rules/rule-table.js';
import { windowsIn } from '../../src/engine/rules/rule-words.js';
import { formats } from '../../src/taskpane/parts/format.js';
import { openLine } from '../../src/taskpane/kit/open-hours.js';
import { words } from '../../src/taskpane/words/index.js';
import { kitWords } from '../../src/taskpane/words/kit.js';
import { ANY_DAY, BAG, DAYS, HOSE, NOZZLE, PAD, rulesOf, site, STAGED, tree, TRUCK } from './invented-season.js'; // prettier-ignore

const TREES = [tree('1'), tree('2', { count: 4 })];
const KIT = [BAG, NOZZLE, TRUCK, HOSE];
const WEEKDAYS = 'Mon-Fri';

const said = (
  table: ReturnType<typeof rulesOf>,
  more: Partial<Site> = {},
  language: 'en' | 'es' = 'en',
  { kit = KIT, trees = TREES } = {},
): string[] => {
  const crew = crewOpen(table, trees, kit, site({ workDays: WEEKDAYS, crewStart: 6, crewHours: 8, ...more })); // prettier-ignore
  const speech = { k: kitWords(language), w: words(language), f: formats(language) };
  return crew.lines.map((line) => openLine(line, crew, speech));
};

describe('the crew’s hours that are open', () => {
  const MORNING = rulesOf(['', 'any', 'any', 'any', '00:00-10:00', 'allow']);

  it('are said once for means with the same answer, in both languages', () => {
    expect(said(MORNING)).toEqual([
      'Bag, by hand, tanker: Mon to Fri 4 of the crew’s 8 hours are open (06:00 to 10:00).',
    ]);
    expect(said(MORNING, {}, 'es')).toEqual([
      'Bolsa, a mano, cisterna: Lun a Vie están abiertas 4 de las 8 horas de la cuadrilla (06:00 a 10:00).',
    ]);
  });

  it('are not said where all of them are open', () => {
    expect(said(ANY_DAY)).toEqual([]);
    expect(said(MORNING, { crewStart: 2 })).toEqual([]);
  });

  it('follow the crew’s start, its hours and its days', () => {
    expect(said(MORNING, { crewStart: 7.5, workDays: 'Mon Tue Sat' })).toEqual([
      'Bag, by hand, tanker: Mon, Tue and Sat 2.5 of the crew’s 8 hours are open (07:30 to 10:00).',
    ]);
    expect(said(MORNING, { crewStart: 10 })).toEqual([
      'Bag, by hand, tanker: Mon to Fri none of the crew’s 8 hours is open (the rules open 00:00 to 10:00).',
    ]);
    const night = rulesOf(['', 'any', 'any', 'any', '22:00-23:00', 'allow']);
    expect(said(night, { crewStart: 20 })).toEqual([
      'Bag, by hand, tanker: Mon to Fri 1 of the crew’s 4 hours before midnight are open (22:00 to 23:00).',
    ]);
  });

  it('tell days of the week apart, and a means that has its own', () => {
    const table = rulesOf(
      ['', 'bag', 'any', 'Tue Sat', '00:00-24:00', 'allow'],
      ['', 'hand', 'any', 'any', 'one of 04:00-08:00, 12:00-18:00', 'allow'],
      ['', 'tanker', 'any', 'any', '00:00-08:00, 12:00-18:00', 'allow'],
    );
    expect(said(table)).toEqual([
      'Bag: Tue all of the crew’s 8 hours are open; Mon and Wed to Fri none.',
      'By hand: Mon to Fri 2 of the crew’s 8 hours are open (06:00 to 08:00 or 12:00 to 14:00).',
      'Tanker: Mon to Fri 4 of the crew’s 8 hours are open (06:00 to 08:00 and 12:00 to 14:00).',
    ]);
    expect(said(table, {}, 'es')[0]).toBe('Bolsa: Mar están abiertas todas las horas de la cuadrilla; Lun y Mié a Vie ninguna.'); // prettier-ignore
  });

  it('tell stretches of the season and kinds of trees apart', () => {
    const lines = said(STAGED, { workDays: 'Mon-Sat' }, 'en', { kit: [NOZZLE], trees: TREES });
    const june = 'From Thu 1 Apr: Mon, Wed and Sat 4 of the crew’s 8 hours are open (06:00 to 10:00); Tue, Thu and Fri none.';
    const july = (open: string, shut: string) => `From Thu 1 Jul: ${open} 4 of the crew’s 8 hours are open (06:00 to 10:00); ${shut} none.`;
    expect(lines).toEqual([
      `By hand, 4 trees such as at 2 Invented Way. ${june} ${july('Wed', 'Mon, Tue and Thu to Sat')}`,
      `By hand, 1 tree such as at 1 Invented Way. ${june} ${july('Tue and Sat', 'Mon and Wed to Fri')}`,
    ]);
  }); // prettier-ignore

  it('are counted where the rules follow dates', () => {
    const table = rulesOf(['', 'any', 'any', 'odd dates', '00:00-10:00', 'allow']);
    const [line] = said(table, { workDays: 'any' });
    // April to September: 4 · 15 odd dates and 16 in May, July, August
    expect(line).toBe(`Bag, by hand, tanker: on 93 of ${DAYS} work days 4 of the crew’s 8 hours are open (06:00 to 10:00); on 90 of ${DAYS} work days none.`); // prettier-ignore
  });

  it('leave out what no person comes for, and trees that cannot have it', () => {
    expect(said(MORNING, {}, 'en', { kit: [HOSE], trees: TREES })).toEqual([]);
    const dry = [tree('1', { tap: false }), tree('2', { meansWanted: ['pad'] })];
    expect(said(MORNING, {}, 'en', { kit: [NOZZLE, PAD], trees: dry }).map((line) => line.split(':')[0])).toEqual(['Pad']); // prettier-ignore
    expect(said(MORNING, {}, 'en', { kit: [NOZZLE], trees: dry })).toEqual([]);
  });

  it('are the minutes the planner counts on each work day', () => {
    const own = site({ workDays: 'Mon-Sat', crewStart: 5, crewHours: 9 });
    const tables = [
      MORNING,
      STAGED,
      rulesOf(['', 'any', 'odd', 'Mon Thu', '18:00-09:00', 'allow']),
    ];
    for (const table of tables)
      for (const one of TREES) {
        const { lines, minutes } = crewOpen(table, [one], [NOZZLE], own);
        const allowed = new Calendars(table, own).allowed(one, NOZZLE);
        const planned = [...allowed.open].reduce((sum, open, i) => sum + (open ? allowed.minutes(i) : 0), 0); // prettier-ignore
        const parts = lines.flatMap(({ spells }) => spells.flatMap((spell) => spell.parts));
        expect(parts.reduce((sum, part) => sum + part.days * part.minutes, 0)).toBe(planned);
        for (const { hours, minutes: open } of parts) {
          expect(lengthOf(windowsIn(hours))).toBe(open);
          expect(open).toBeLessThanOrEqual(minutes);
        }
      }
  });

  it('are said for six answers at most; the others are counted', () => {
    const rows = [...'0123456789'].map((d, i) => ['', 'any', `ends ${d}`, 'any', `00:00-${7 + i}:00`.replace(/-(\d):/, '-0$1:'), 'allow']); // prettier-ignore
    const table = parseRules([['Stage', 'Means', 'Address', 'Days', 'Hours', 'Verdict'], ...rows]);
    const trees = [...'0123456'].map((d) => tree(d));
    const crew = crewOpen(table, trees, [NOZZLE], site({ seasonTo: dayOf(2027, 5, 1) }));
    expect([crew.lines.length, crew.more]).toEqual([6, 1]);
  });
});
