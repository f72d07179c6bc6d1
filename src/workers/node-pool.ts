/** Planning workers as threads of Node. */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { batchCount, beginSeason, planHere } from '../engine/plan/season.js';
import type { Answer, Ask } from './plan-worker.js';
import { PlanPool, type SeasonPlanner, type WorkerLine } from './pool.js';

const USUAL_THREADS = 2;

/** Threads started when nobody says how many: two, or one where the machine has no more. */
export const usualThreads = (): number => Math.min(USUAL_THREADS, availableParallelism());

function thread(): WorkerLine {
  const worker = new Worker(new URL('./node-start.mjs', import.meta.url));
  let told: (answer: Answer) => void = () => undefined;
  let broken: Error | undefined;
  let warned: (error: Error) => void = () => undefined;
  worker.on('message', (answer: Answer) => told(answer));
  worker.on('error', (error: Error) => {
    broken = error;
    warned(error);
  });
  return {
    post: (ask: Ask) => worker.postMessage(ask),
    listen: (onAnswer, onBreakdown) => {
      told = onAnswer;
      warned = onBreakdown;
      if (broken) onBreakdown(broken);
    },
    end: () => void worker.terminate(),
  };
}

/** Batches from which on threads are worth their start of about half a second. */
const WORTH_THREADS = 12;

/** Plans in threads where there is much to plan, else in this one. */
export const planInThreads: SeasonPlanner = async (input) => {
  const job = beginSeason(input);
  if (batchCount(job) < WORTH_THREADS) return planHere(job);
  const pool = nodePool();
  try {
    return await pool.planJob(job);
  } finally {
    pool.end();
  }
};

/** A pool of threads; end it when the plan is there, or the process stays. */
export const nodePool = (threads = usualThreads()): PlanPool =>
  new PlanPool(Array.from({ length: threads }, thread));
