/** When a crew reaches its stops, and from where on the work no longer falls into its hours. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { CrewStop } from '../../../src/engine/plan/model.js';
import { CrewSpeech } from '../../../src/workbook/crew-speech.js';
import { about, roundClock } from '../../../src/workbook/exports/round-clock.js';
import { crewRounds } from '../../../src/workbook/exports/rounds.js';
import { crewSheet } from '../../../src/workbook/sheets/crew.js';
import type { Context } from '../../../src/workbook/sheets/context.js';
import { sampleInput } from '../job.js';
import { sampleContext } from './samples.js';

let ctx: Context;
let full: Context;
beforeAll(async () => {
  const { site } = await sampleInput();
  ctx = await sampleContext();
  full = await sampleContext('US', { site: { ...site!, crewStart: 6, crewHours: 2, crews: 1 } });
});

/** A stop with one tree a task, `[minutes, hours]` each. */
function stopOf(legMinutes: number, tasks: [minutes: number, within: string][], filled = 0): CrewStop {
  const [task] = ctx.plan.crewDays[0]!.stops[0]!.tasks;
  return {
    site: 'Invented Court',
    address: '',
    litres: 1,
    minutes: 0,
    legMinutes,
    tasks: tasks.map(([minutes, within]) => ({
      ...task!,
      minutes,
      tree: { ...task!.tree, count: 1 },
      watering: { ...task!.watering, within },
    })),
    ...(filled > 0 && { fillings: [{ before: 0, loads: 1, minutes: filled }] }),
  };
} // prettier-ignore

const SITE = { crewStart: 6, crewHours: 4 };
const english = new CrewSpeech('en');

describe('a round by the clock', () => {
  it('counts the drive, the filling and the work before, and the way back', () => {
    const stops = [stopOf(12, [[30, '06:00-10:00']]), stopOf(8, [[20, '06:00-10:00']], 25)];
    const clock = roundClock({ stops, driveMinutes: 35 }, SITE);
    expect(clock.stops).toEqual([372, 372 + 30 + 8 + 25]);
    expect(clock.back).toBe(435 + 20 + 15);
    expect(clock.late).toEqual([]);
    expect(clock.backAfter).toBeUndefined();
  });

  it('begins a stop when it opens, where the crew is there before', () => {
    const clock = roundClock({ stops: [stopOf(10, [[30, '08:00-10:00']])], driveMinutes: 20 }, SITE); // prettier-ignore
    expect(clock.stops[0]).toBeCloseTo(480);
    expect(clock.back).toBeCloseTo(520);
  });

  it('draws its line before the first work that would end after the hours', () => {
    const hours = '06:00-10:00';
    const stops = [stopOf(10, [[120, hours]]), stopOf(10, [[90, hours], [20, hours], [5, hours]]), stopOf(10, [[5, hours]])]; // prettier-ignore
    const { late } = roundClock({ stops, driveMinutes: 40 }, SITE);
    expect(late).toEqual([{ stop: 1, task: 1, trees: 3, fromHere: true, until: 600 }]);
    expect(english.lateFrom(late[0]!)).toBe(
      '▲ After this nothing more fits the hours until 10:00.',
    );
    expect(new CrewSpeech('es').lateFrom(late[0]!)).toBe(
      '▲ Después de esto no cabe nada más en las horas hasta las 10:00.',
    );
  });

  it('does not say that nothing fits where a later stop does', () => {
    const stops = [stopOf(60, [[30, '06:00-07:00']]), stopOf(10, [[30, '06:00-10:00']])];
    const { late } = roundClock({ stops, driveMinutes: 80 }, SITE);
    expect(late).toEqual([{ stop: 0, task: 0, trees: 1, fromHere: false, until: 420 }]);
    expect(english.lateFrom(late[0]!)).toBe('▲ The next tree does not fit the hours until 07:00.');
  });

  it('says that only the way back is too late', () => {
    const clock = roundClock({ stops: [stopOf(30, [[200, '06:00-10:00']])], driveMinutes: 60 }, SITE); // prettier-ignore
    expect(english.backLate(clock)).toBe('▲ All stops fit their hours; the way back ends after 10:00.'); // prettier-ignore
  });

  it('prints five minutes, and no clock time from midnight on', () => {
    expect([about(372), about(373), about(1438)]).toEqual(['06:10', '06:15', undefined]);
    expect(english.about(1500)).toBe('after midnight');
  });

  it('agrees with the planner: a line or a late way back on full days, none on the others', () => {
    const overfull = crewRounds(full.plan).filter(({ overload }) => overload);
    expect(overfull.length).toBeGreaterThan(10);
    for (const round of overfull) {
      const { late, backAfter } = roundClock(round, full.plan.site);
      expect(late.length > 0 || backAfter !== undefined, String(round.day)).toBe(true);
    }
    for (const context of [ctx, full])
      for (const round of crewRounds(context.plan).filter(({ overload }) => !overload))
        expect(roundClock(round, context.plan.site)).toMatchObject({ late: [] });
  });

  it('has a time at the first line of every stop of the sheet, and frames the line', () => {
    const { sheet } = crewSheet(full, 'en');
    const text = JSON.stringify(sheet);
    expect(text).toContain('Time, about');
    const lines = crewRounds(full.plan).filter(
      (r) => roundClock(r, full.plan.site).late.length > 0,
    );
    expect(text.split('▲ After this nothing more fits the hours until 08:00.').length - 1).toBe(lines.length); // prettier-ignore
  });
});
