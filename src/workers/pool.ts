/** A season planned by several workers: batches go to whoever is free, and come back in any order. */
import type { PlanColumns } from '../engine/plan/columns.js';
import type { SeasonPlan } from '../engine/plan/model.js';
import {
  batchCount,
  batchOf,
  beginSeason,
  finishSeason,
  STOPPED,
  treesOf,
  type SeasonInput,
  type SeasonJob,
} from '../engine/plan/season.js';
import { Problem } from '../engine/problems.js';
import type { Answer, Ask } from './plan-worker.js';

/** A worker of any kind. */
export interface WorkerLine {
  post(ask: Ask): void;
  /** who is told of answers, and of a worker that broke down; the last one named */
  listen(onAnswer: (answer: Answer) => void, onBreakdown: (error: Error) => void): void;
  end(): void;
}

/** Batches a worker is given ahead, so that it need not wait for the next one. */
const AHEAD = 2;

/** How a season is planned: here, or by workers. */
export type SeasonPlanner = (input: SeasonInput) => Promise<SeasonPlan>;

export class PlanPool {
  private job = 0;
  /** settles when the planning under way, if any, is over */
  private running: Promise<void> = Promise.resolve();

  constructor(private readonly lines: readonly WorkerLine[]) {}

  /**
   * Plans a season; a second one waits for the first. The result is that of `planSeason`.
   *
   * @throws Problem as `planSeason`, also when its signal stops it
   */
  readonly plan: SeasonPlanner = async (input) => this.planJob(beginSeason(input));

  /** Plans what `beginSeason` has prepared. */
  async planJob(season: SeasonJob): Promise<SeasonPlan> {
    const before = this.running;
    const planned = (async () => {
      await before;
      return finishSeason(season, await this.share(season, ++this.job));
    })();
    this.running = planned.then(
      () => undefined,
      () => undefined,
    );
    return planned;
  }

  /** Ends the workers. A planning under way is never answered. */
  end(): void {
    for (const line of this.lines) line.end();
  }

  private share(season: SeasonJob, job: number): Promise<PlanColumns[]> {
    const count = batchCount(season);
    const { onProgress, signal, trees } = season.input;
    const columns: PlanColumns[] = new Array<PlanColumns>(count);
    let next = 0;
    let left = count;
    let done = 0;
    return new Promise((resolve, reject) => {
      if (count === 0) return resolve([]);
      const give = (line: WorkerLine): void => {
        if (next === count) return;
        const batch = next++;
        line.post({ kind: 'batch', job, batch, tasks: batchOf(season, batch) });
      };
      const stop = (error: Error): void => {
        next = count;
        reject(error);
      };
      for (const line of this.lines) {
        line.listen((answer) => {
          if (answer.job !== job) return;
          if (signal?.aborted) return stop(new Problem(STOPPED));
          if (answer.kind === 'failed')
            return stop(answer.problem ? new Problem(answer.sentence) : new Error(answer.sentence));
          columns[answer.batch] = answer.columns;
          done += treesOf(season, answer.batch);
          onProgress?.(done, trees.length);
          give(line);
          if (--left === 0) resolve(columns);
        }, stop);
        line.post({ kind: 'setting', job, setting: season.setting });
        for (let ahead = 0; ahead < AHEAD; ahead++) give(line);
      }
    });
  }
}
