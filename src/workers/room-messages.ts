/** What goes between a page and the worker that is its plan room: plain data, numbered. */
import type { ProblemKind } from '../engine/problems.js';
import type { Grid } from '../tables/cells.js';
import type { PlanRoom } from './plan-room.js';

/** What a room is asked and answers once. */
export type Question = Exclude<keyof PlanRoom, 'starters' | 'end'>;

/** Questions that hold the trees among other things, as `trees`. */
export const WITH_TREES: ReadonlySet<Question> = new Set([
  'rules',
  'plan',
  'log',
  'blanks',
  'fill',
  'takeBack',
]);

/** Cells that were handed over before, by their number. */
export interface HandedOver {
  handed: number;
}

export type ToRoom =
  /** `asked`: what the room's own function takes, grids as `HandedOver`, without the watch */
  | { kind: 'ask'; id: number; question: Question; asked: unknown[] }
  | { kind: 'cells'; handed: number; grid: Grid; forget: number[] }
  | { kind: 'stop'; id: number }
  /** the answer to `draw`: an image, or why there is none */
  | { kind: 'drawn'; drawing: number; image?: Uint8Array; trouble: string };

export type FromRoom =
  | { kind: 'answer'; id: number; answer: unknown }
  /** `problem` is "" for what is no fault of the input */
  | { kind: 'failed'; id: number; sentence: string; problem: ProblemKind | '' }
  | { kind: 'progress'; id: number; done: number; total: number }
  /** only the page can make an image of a drawing */
  | { kind: 'draw'; drawing: number; svg: string; pixelsWide: number };

/** Said when somebody stops a planning; as the engine says it, which a page does not load. */
export const STOPPED = 'the planning was stopped';
