/**
 * What a planning worker does, in browsers and in threads of Node alike: it is told a season's setting, then given
 * batches of trees, and answers each with its columns. One message at a time; it knows nothing of other workers.
 */
import { buffersOf, type PlanColumns } from '../engine/plan/columns.js';
import { TreePlanner, type SeasonSetting, type TreeTask } from '../engine/plan/plan-trees.js';
import { Problem } from '../engine/problems.js';

/** To a worker. `job` tells one planning from the next. */
export type Ask =
  | { kind: 'setting'; job: number; setting: SeasonSetting }
  | { kind: 'batch'; job: number; batch: number; tasks: TreeTask[] };

/** From a worker. */
export type Answer =
  | { kind: 'columns'; job: number; batch: number; columns: PlanColumns }
  | { kind: 'failed'; job: number; sentence: string; problem: boolean };

/** Answers the messages of one worker. `send` hands the buffers over instead of copying them. */
export function planAnswers(
  send: (answer: Answer, handedOver: ArrayBuffer[]) => void,
): (ask: Ask) => void {
  let planner: TreePlanner | undefined;
  return (ask) => {
    try {
      if (ask.kind === 'setting') {
        planner = new TreePlanner(ask.setting);
        return;
      }
      if (!planner) throw new Error('a batch came before the setting of its season');
      const columns = planner.plan(ask.tasks);
      const { job, batch } = ask;
      send({ kind: 'columns', job, batch, columns }, buffersOf(columns));
    } catch (error) {
      const sentence = error instanceof Error ? error.message : String(error);
      send({ kind: 'failed', job: ask.job, sentence, problem: error instanceof Problem }, []);
    }
  };
}
