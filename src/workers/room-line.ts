/**
 * The plan room through a worker, so that the page stays awake. The worker is started with the first question. What it
 * was last asked to plan is kept here, and what it holds: a worker that had to be ended, because it did not stop when it
 * was told to or broke down, is replaced, and plans that again when something is asked about it.
 */
import { Problem } from '../engine/problems.js';
import { STARTER_TABLES } from '../engine/rules/starter-tables.js';
import type { Grid } from '../tables/cells.js';
import type { Rasterise, WorkbookModel } from '../workbook/model.js';
import type { LivingPapers } from '../workbook/service-papers.js';
import type { ContractAsk, LogAsk, ShortageWish } from './contract-types.js';
import type { BlanksAsk, FillAsk, TakeBackAsk } from './fill-types.js';
import type { FunctionAsk } from './room-function.js';
import type { Draft, ExportWish, PlanAsk, PlanRoom, PlanSummary, PlanWatch } from './plan-room.js';
import {
  STOPPED,
  WITH_TREES,
  type FromRoom,
  type HandedOver,
  type Question,
  type ToRoom,
} from './room-messages.js';

/** A worker of any kind. */
export interface RoomWorker {
  post(message: ToRoom, handedOver: ArrayBuffer[]): void;
  listen(onMessage: (message: FromRoom) => void, onBreakdown: (why: string) => void): void;
  end(): void;
}

export interface LineParts {
  /** turns drawings into images, which a worker cannot */
  rasterise: Rasterise;
  /** default: the build's own worker, beside the page */
  start?: () => RoomWorker;
  /** how long a worker is given to stop before it is ended [ms] */
  patience?: number;
}

/** Where the build puts the worker, beside the page. */
const WORKER_FILE = 'plan-room.js';
/** A batch of trees takes less; what takes longer is not going to look [ms]. */
const PATIENCE = 400;
/** Questions about the last plan. */
const OF_A_PLAN: ReadonlySet<Question> = new Set([
  'whatIf', 'tree', 'contract', 'shortage', 'log', 'model', 'file',
]); // prettier-ignore
/** Inventories the worker keeps. */
const GRIDS_KEPT = 3;

function pageWorker(): RoomWorker {
  const worker = new Worker(WORKER_FILE);
  return {
    post: (message, handedOver) => worker.postMessage(message, handedOver),
    listen(onMessage, onBreakdown) {
      worker.onmessage = ({ data }: MessageEvent<FromRoom>) => onMessage(data);
      worker.onmessageerror = () => onBreakdown('a message could not be read');
      worker.onerror = (event) => {
        event.preventDefault();
        onBreakdown(event.message || `${WORKER_FILE} could not be started`);
      };
    },
    end: () => worker.terminate(),
  };
}

/** A plan the worker has made, to be made again by another one. */
interface Planned {
  ask: PlanAsk;
  /** its what-if answers are part of it */
  whatIf: boolean;
}

interface Waiting {
  question: Question;
  asked: unknown[];
  watch: PlanWatch | undefined;
  resolve(answer: unknown): void;
  reject(error: Error): void;
}

/** Grids the worker of the moment has. */
class Handed {
  private readonly kept: { cells: Grid['cells']; handed: number }[] = [];
  private last = 0;

  /** The number of a grid; `send` hands it over if it is not there yet. */
  of(grid: Grid, send: (message: ToRoom) => void): HandedOver {
    const known = this.kept.find(({ cells }) => cells === grid.cells);
    if (known) return { handed: known.handed };
    const handed = ++this.last;
    this.kept.push({ cells: grid.cells, handed });
    const forget = this.kept.splice(0, this.kept.length - GRIDS_KEPT).map((old) => old.handed);
    const { cells, dateCells } = grid;
    send({ kind: 'cells', handed, grid: { cells, ...(dateCells && { dateCells }) }, forget });
    return { handed };
  }
}

class RoomLine implements PlanRoom {
  readonly starters = STARTER_TABLES.map(({ name }) => name);
  private worker: RoomWorker | undefined;
  private handed = new Handed();
  private readonly waiting = new Map<number, Waiting>();
  private last = 0;
  /** the plan that questions are asked about */
  private planned: Planned | undefined;
  /** the worker of the moment has made that plan */
  private there = false;
  /** the plan that can be gone back to */
  private held: Planned | undefined;
  /** the worker is going back to it */
  private going: Promise<void> | undefined;
  /** counts how often: a plan that was asked for before is not the plan any more */
  private backs = 0;
  /** it is being made again */
  private bringing: Promise<void> | undefined;

  constructor(private readonly parts: LineParts) {}

  open(name: string, bytes: Uint8Array): ReturnType<PlanRoom['open']> {
    return this.ask('open', [name, bytes]);
  }

  read(trees: Grid, draft: Draft): ReturnType<PlanRoom['read']> {
    return this.ask('read', [trees, draft]);
  }

  setup(trees: Grid, draft: Draft): ReturnType<PlanRoom['setup']> {
    return this.ask('setup', [trees, draft]);
  }

  rules(ask: PlanAsk): ReturnType<PlanRoom['rules']> {
    return this.ask('rules', [ask]);
  }

  async plan(ask: PlanAsk, watch?: PlanWatch): Promise<PlanSummary> {
    const { backs } = this;
    const summary = await this.ask<PlanSummary>('plan', [ask], watch);
    if (backs !== this.backs) return summary;
    this.planned = { ask, whatIf: false };
    this.there = true;
    return summary;
  }

  async hold(): Promise<void> {
    await this.going;
    this.held = this.planned;
    // what this worker has not made it cannot hold; it is planned again when somebody goes back to it
    await this.ask(this.there ? 'hold' : 'release', []);
  }

  async back(): Promise<boolean> {
    const { held } = this;
    if (!held) return false;
    this.backs++;
    [this.planned, this.held, this.there] = [held, undefined, false];
    // a worker that is not the one it was held by plans it again when something is asked about it
    const going = this.ask<boolean>('back', []).then(
      (had) => void (this.there = had),
      () => undefined,
    );
    this.going = going;
    await going;
    if (this.going === going) this.going = undefined;
    return true;
  }

  async release(): Promise<void> {
    this.held = undefined;
    if (this.worker) await this.ask('release', []);
  }

  async whatIf(watch?: PlanWatch): ReturnType<PlanRoom['whatIf']> {
    await this.planThere();
    const { planned } = this;
    const lines = await this.ask<Awaited<ReturnType<PlanRoom['whatIf']>>>('whatIf', [], watch);
    if (planned) planned.whatIf = true;
    return lines;
  }

  async tree(row: number): ReturnType<PlanRoom['tree']> {
    await this.planThere();
    return this.ask('tree', [row]);
  }

  async contract(ask: ContractAsk): ReturnType<PlanRoom['contract']> {
    if (ask.judge) await this.planThere();
    return this.ask('contract', [ask]);
  }

  async shortage(wish: ShortageWish): ReturnType<PlanRoom['shortage']> {
    await this.planThere();
    return this.ask('shortage', [wish]);
  }

  async log(ask: LogAsk): ReturnType<PlanRoom['log']> {
    if (ask.planned) await this.planThere();
    return this.ask('log', [ask]);
  }

  answer(ask: FunctionAsk): ReturnType<PlanRoom['answer']> {
    return this.ask('answer', [ask]);
  }

  blanks(ask: BlanksAsk): ReturnType<PlanRoom['blanks']> {
    return this.ask('blanks', [ask]);
  }

  fill(ask: FillAsk): ReturnType<PlanRoom['fill']> {
    return this.ask('fill', [ask]);
  }

  takeBack(ask: TakeBackAsk): ReturnType<PlanRoom['takeBack']> {
    return this.ask('takeBack', [ask]);
  }

  async model(fresh?: LivingPapers): Promise<WorkbookModel> {
    await this.planThere();
    return this.ask('model', [fresh]);
  }

  async file(wish: ExportWish, fresh?: LivingPapers): ReturnType<PlanRoom['file']> {
    await this.planThere();
    return this.ask('file', [wish, fresh]);
  }

  end(): void {
    this.drop();
    this.rejectAll(new Problem('the planner was ended'));
    this.planned = undefined;
    this.held = undefined;
  }

  /** A fresh worker plans again what the one before had planned. */
  private async planThere(): Promise<void> {
    await this.going;
    while (!this.there && this.planned) {
      this.bringing ??= this.bring(this.planned).finally(() => (this.bringing = undefined));
      await this.bringing;
    }
  }

  private async bring({ ask, whatIf }: Planned): Promise<void> {
    const { backs } = this;
    await this.ask('plan', [ask]);
    if (whatIf) await this.ask('whatIf', []);
    this.there = backs === this.backs;
  }

  private ask<T>(question: Question, asked: unknown[], watch?: PlanWatch): Promise<T> {
    if (watch?.signal.aborted) return Promise.reject(new Problem(STOPPED));
    const id = ++this.last;
    const answered = new Promise<T>((resolve, reject) => {
      this.waiting.set(id, {
        question,
        asked,
        watch,
        resolve: resolve as (answer: unknown) => void,
        reject,
      });
    });
    try {
      this.post(id);
    } catch (error) {
      // what cannot be copied cannot be asked
      this.waiting.delete(id);
      return Promise.reject(error instanceof Error ? error : new Error(String(error)));
    }
    if (!watch) return answered;
    const stop = (): void => this.stop(id);
    watch.signal.addEventListener('abort', stop, { once: true });
    return answered.finally(() => watch.signal.removeEventListener('abort', stop));
  }

  /** Sends a question that is waited for. */
  private post(id: number): void {
    const entry = this.waiting.get(id);
    if (!entry) return;
    const { question, asked } = entry;
    const worker = this.started();
    const send = (message: ToRoom): void => worker.post(message, []);
    send({ kind: 'ask', id, question, asked: this.packed(question, asked, send) });
  }

  /** Arguments with numbers in the place of grids that are handed over once. */
  private packed(
    question: Question,
    asked: readonly unknown[],
    send: (message: ToRoom) => void,
  ): unknown[] {
    const [first, ...more] = asked;
    if (question === 'read' || question === 'setup')
      return [this.handed.of(first as Grid, send), ...more];
    if (!WITH_TREES.has(question)) return [...asked];
    const ask = first as { trees: Grid };
    return [{ ...ask, trees: this.handed.of(ask.trees, send) }, ...more];
  }

  private started(): RoomWorker {
    if (this.worker) return this.worker;
    const worker = (this.parts.start ?? pageWorker)();
    worker.listen(
      (message) => this.hear(worker, message),
      (why) => this.brokenDown(worker, why),
    );
    this.worker = worker;
    this.handed = new Handed();
    this.there = false;
    return worker;
  }

  private hear(from: RoomWorker, message: FromRoom): void {
    if (from !== this.worker) return;
    if (message.kind === 'draw') return void this.draw(from, message);
    const entry = this.waiting.get(message.id);
    if (!entry) return;
    if (message.kind === 'progress') return entry.watch?.onProgress(message.done, message.total);
    this.waiting.delete(message.id);
    if (message.kind === 'answer') return entry.resolve(message.answer);
    const { sentence, problem } = message;
    entry.reject(problem === '' ? new Error(sentence) : new Problem(sentence, problem));
  }

  private async draw(
    worker: RoomWorker,
    { drawing, svg, pixelsWide }: Extract<FromRoom, { kind: 'draw' }>,
  ): Promise<void> {
    try {
      const image = await this.parts.rasterise(svg, pixelsWide);
      worker.post({ kind: 'drawn', drawing, image, trouble: '' }, []);
    } catch (error) {
      const trouble = error instanceof Error ? error.message : String(error);
      worker.post({ kind: 'drawn', drawing, trouble }, []);
    }
  }

  /** Tells the worker to stop; ends it if it does not listen. What others asked is asked again. */
  private stop(id: number): void {
    this.worker?.post({ kind: 'stop', id }, []);
    setTimeout(() => {
      const entry = this.waiting.get(id);
      if (!entry) return;
      this.drop();
      this.waiting.delete(id);
      entry.reject(new Problem(STOPPED));
      for (const other of [...this.waiting.keys()]) void this.askAgain(other);
    }, this.parts.patience ?? PATIENCE);
  }

  private async askAgain(id: number): Promise<void> {
    const entry = this.waiting.get(id);
    if (!entry) return;
    try {
      if (OF_A_PLAN.has(entry.question)) await this.planThere();
      this.post(id);
    } catch (error) {
      this.waiting.delete(id);
      entry.reject(error instanceof Error ? error : new Error(String(error)));
    }
  }

  private brokenDown(worker: RoomWorker, why: string): void {
    if (worker !== this.worker) return;
    this.drop();
    this.rejectAll(
      new Problem(
        `the planner broke down and nothing was written (${why}); it starts afresh with the next step, so try again`,
      ),
    );
  }

  private drop(): void {
    this.worker?.end();
    this.worker = undefined;
    this.there = false;
  }

  private rejectAll(error: Error): void {
    const entries = [...this.waiting.values()];
    this.waiting.clear();
    for (const { reject } of entries) reject(error);
  }
}

/** A plan room in a worker of this page. */
export const roomLine = (parts: LineParts): PlanRoom => new RoomLine(parts);
