/** What an export is made from: a finished plan job, in the units of the person who asked. */
import type { Units } from '../../engine/units.js';
import { context, type Context } from '../sheets/context.js';
import type { CrewLanguage } from '../crew-words.js';
import type { PlanJob } from '../plan-job.js';

export interface ExportOptions {
  units: Units;
  /** name of the inventory file */
  source: string;
  /** language of the crew's sheets and pages; 'both': one after the other; default English */
  crewLanguage?: CrewLanguage;
}

/** The job as sheets and exports read it; title, paper and day of making are those of its workbook. */
export function exportContext(
  job: PlanJob,
  { units, source, crewLanguage }: ExportOptions,
): Context {
  const { plan, reading, setup, model } = job;
  return context({
    plan,
    reading,
    kit: setup.kit,
    ruleRows: setup.rules,
    stageRows: setup.stages,
    weatherRows: setup.weather,
    units,
    source,
    madeOn: model.madeOn,
    title: model.title,
    notes: job.notes,
    paper: model.paper,
    ...(crewLanguage && { crewLanguage }),
  });
}
