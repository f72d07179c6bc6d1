/** Planning workers of a page: started with the first plan, kept for the next one. */
import { Problem } from '../engine/problems.js';
import type { Answer, Ask } from './plan-worker.js';
import { PlanPool, type SeasonPlanner, type WorkerLine } from './pool.js';

/** Where the build puts the worker, beside the page. */
const WORKER_FILE = 'plan-worker.js';

function pageWorker(): WorkerLine {
  const worker = new Worker(WORKER_FILE);
  return {
    post: (ask: Ask) => worker.postMessage(ask),
    listen: (onAnswer, onBreakdown) => {
      worker.onmessage = ({ data }: MessageEvent<Answer>) => onAnswer(data);
      worker.onerror = ({ message }) =>
        onBreakdown(new Error(message || `${WORKER_FILE} could not be started`));
    },
    end: () => worker.terminate(),
  };
}

/** Plans in a worker, so that the page stays awake. A worker that broke down is replaced for the next plan. */
export function browserPlanner(): SeasonPlanner {
  let pool: PlanPool | undefined;
  return async (input) => {
    pool ??= new PlanPool([pageWorker()]);
    try {
      return await pool.plan(input);
    } catch (error) {
      if (!(error instanceof Problem)) {
        pool.end();
        pool = undefined;
      }
      throw error;
    }
  };
}
