/** A plan room to collect the planner's sentences from, and what is asked of it. */
import { Problem } from '../../../src/engine/problems.js';
import type { Cell, Grid } from '../../../src/tables/cells.js';
import type { Draft } from '../../../src/workers/plan-room.js';
import { roomHere, type RoomParts } from '../../../src/workers/room-here.js';

const never = () => Promise.reject(new Error('no file is asked for here'));
export const freshRoom = (more: Partial<RoomParts> = {}) =>
  roomHere({ fonts: never, rasterise: never, ...more });

export const DRAFT: Draft = {
  units: 'US',
  crewLanguage: 'en',
  corrections: {},
  site: {},
  starter: '',
};
export const TODAY = '2027-03-15';

/** Cells of a table written with bars: numbers are numbers, "…" keeps text that looks like one. */
export const table = (text: string): Cell[][] =>
  text
    .trim()
    .split('\n')
    .map((line) =>
      line.split('|').map((each): Cell => {
        const said = each.trim();
        if (said === '') return null;
        if (/^'.*'$/.test(said)) return said.slice(1, -1);
        return /^-?\d+(\.\d+)?$/.test(said) ? Number(said) : said;
      }),
    );
export const grid = (text: string): Grid => ({ cells: table(text) });

/** The sentence of what goes wrong. */
export async function refusal(work: () => Promise<unknown>): Promise<string> {
  try {
    await work();
  } catch (error) {
    if (error instanceof Problem) return error.message;
    throw error;
  }
  throw new Error(`this was to be refused, and was not: ${String(work)}`);
}
