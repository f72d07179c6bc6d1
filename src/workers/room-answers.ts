/** What the plan room's worker does with each message; it knows no worker itself, so tests run it as it is. */
import { Problem } from '../engine/problems.js';
import type { Grid } from '../tables/cells.js';
import type { Rasterise } from '../workbook/model.js';
import type { PlanRoom } from './plan-room.js';
import { roomHere, type RoomParts } from './room-here.js';
import {
  WITH_TREES,
  type FromRoom,
  type HandedOver,
  type Question,
  type ToRoom,
} from './room-messages.js';

type Send = (message: FromRoom, handedOver: ArrayBuffer[]) => void;
type Drawn = Extract<ToRoom, { kind: 'drawn' }>;

/** Questions whose planning can be watched and stopped; the watch comes last. */
const WATCHED: ReadonlySet<Question> = new Set(['plan', 'whatIf']);

/** Images made by the page, each waited for. */
class Drawings {
  private readonly waiting = new Map<number, (drawn: Drawn) => void>();
  private last = 0;

  constructor(private readonly send: Send) {}

  readonly rasterise: Rasterise = (svg, pixelsWide) =>
    new Promise((resolve, reject) => {
      const drawing = ++this.last;
      this.waiting.set(drawing, ({ image, trouble }) =>
        image ? resolve(image) : reject(new Problem(trouble)),
      );
      this.send({ kind: 'draw', drawing, svg, pixelsWide }, []);
    });

  drawn(message: Drawn): void {
    this.waiting.get(message.drawing)?.(message);
    this.waiting.delete(message.drawing);
  }
}

/** The bytes of a file are handed over, everything else is copied. */
function buffersIn(answer: unknown): ArrayBuffer[] {
  const bytes = (answer as { bytes?: unknown } | null)?.bytes;
  return bytes instanceof Uint8Array && bytes.buffer instanceof ArrayBuffer ? [bytes.buffer] : [];
}

/** Answers the messages of one page. */
export function roomAnswers(
  parts: Omit<RoomParts, 'rasterise'>,
  send: Send,
): (message: ToRoom) => void {
  const drawings = new Drawings(send);
  const room: PlanRoom = roomHere({ ...parts, rasterise: drawings.rasterise });
  const cells = new Map<number, Grid>();
  const stops = new Map<number, AbortController>();

  const gridOf = ({ handed }: HandedOver): Grid => {
    const grid = cells.get(handed);
    if (!grid) throw new Error(`cells number ${handed} were not handed over`);
    return grid;
  };
  /** Arguments with grids in the place of their numbers. */
  const whole = (question: Question, asked: readonly unknown[]): unknown[] => {
    const [first, ...more] = asked;
    if (question === 'read' || question === 'setup') return [gridOf(first as HandedOver), ...more];
    if (!WITH_TREES.has(question)) return [...asked];
    const ask = first as { trees: HandedOver };
    return [{ ...ask, trees: gridOf(ask.trees) }, ...more];
  };

  async function answer(id: number, question: Question, asked: readonly unknown[]): Promise<void> {
    try {
      const stop = new AbortController();
      const watch = {
        signal: stop.signal,
        onProgress: (done: number, total: number) =>
          send({ kind: 'progress', id, done, total }, []),
      };
      const ready = whole(question, asked);
      if (WATCHED.has(question)) {
        stops.set(id, stop);
        ready.push(watch);
      }
      const ask = room[question] as (...all: unknown[]) => Promise<unknown>;
      const said = await ask.apply(room, ready);
      send({ kind: 'answer', id, answer: said }, buffersIn(said));
    } catch (error) {
      const sentence = error instanceof Error ? error.message : String(error);
      send(
        { kind: 'failed', id, sentence, problem: error instanceof Problem ? error.kind : '' },
        [],
      );
    } finally {
      stops.delete(id);
    }
  }

  return (message) => {
    switch (message.kind) {
      case 'ask':
        return void answer(message.id, message.question, message.asked);
      case 'cells':
        for (const old of message.forget) cells.delete(old);
        cells.set(message.handed, message.grid);
        return;
      case 'stop':
        return stops.get(message.id)?.abort();
      case 'drawn':
        return drawings.drawn(message);
    }
  };
}
