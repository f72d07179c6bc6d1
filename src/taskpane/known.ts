/** What is known and what is missing of each step, in a line. */
import { builtOf } from './built.js';
import { leftOut } from './left-out.js';
import type { Session, Step } from './session.js';

export interface Known {
  line: string;
  state: 'fine' | 'look' | 'missing' | 'example' | 'quiet';
}

function trees(session: Session): Known {
  const { words: w, formats: f, reading, troubles } = session;
  if (troubles.trees !== '' || !reading || reading.rows === 0)
    return { line: w.known.noTrees, state: 'missing' };
  const line = w.known.trees(f, reading.usable, reading.rows);
  const asks = reading.columns.some(({ ask }) => ask);
  // a row that is left out on purpose is nothing to look at
  const out = new Set(leftOut(session)?.rows.map((r) => r + 1));
  const look = reading.look.some(({ row }) => !out.has(row));
  if (reading.usable === 0) return { line, state: 'missing' };
  return { line, state: asks || look ? 'look' : 'fine' };
}

function site({ words: w, formats: f, setup, troubles }: Session): Known {
  if (troubles.setup !== '' || !setup) return { line: w.known.unread, state: 'missing' };
  const wrong = setup.site.filter(({ trouble }) => trouble !== '').length;
  if (wrong > 0) return { line: w.known.siteWrong(f, wrong), state: 'look' };
  const typed = setup.site.filter(({ from }) => from === 'typed').length;
  if (setup.weather.problems.length > 0) return { line: w.known.site(f, typed), state: 'look' };
  const example = setup.weather.kind === 'example' || typed === 0;
  return { line: w.known.site(f, typed), state: example ? 'example' : 'fine' };
}

function rules({ words: w, formats: f, rules: report, troubles }: Session): Known {
  if (troubles.rules !== '' || !report) return { line: w.known.unread, state: 'missing' };
  const broken = report.problems.filter((p) => p.broken).length;
  if (broken > 0) return { line: w.known.rulesBroken(f, broken), state: 'look' };
  if (report.example) return { line: w.known.rulesExample, state: 'example' };
  const line = w.known.rules(f, report.sentences.length);
  return { line, state: report.problems.length > 0 ? 'look' : 'fine' };
}

function kit({ words: w, formats: f, setup, troubles }: Session): Known {
  if (troubles.setup !== '' || !setup) return { line: w.known.unread, state: 'missing' };
  const { devices, example, problems } = setup.kit;
  if (devices.length === 0) return { line: w.known.kitNone, state: 'missing' };
  if (example) return { line: w.known.kitExample, state: 'example' };
  const line = w.known.kit(f, devices.length);
  if (problems.length > 0) return { line, state: 'look' };
  return { line, state: setup.kit.invented.length > 0 ? 'example' : 'fine' };
}

function planned({ words: w, formats: f, plan, outdated }: Session): Known {
  if (!plan && outdated !== '') return { line: w.known.planAgain, state: 'look' };
  if (!plan) return { line: w.known.notPlanned, state: 'quiet' };
  if (plan.over) return { line: w.known.over(f, plan.over.days), state: 'look' };
  const line = w.known.planned(f, plan.planned);
  return { line, state: plan.cannotBeKept > 0 ? 'look' : 'fine' };
}

/** Sheets of an earlier plan are worth a look, whatever the plan itself is like. */
function build(session: Session): Known {
  const own = planned(session);
  if (builtOf(session).outdated.length === 0) return own;
  return { line: `${own.line}; ${session.words.known.sheetsOld}`, state: 'look' };
}

const KNOWN: Readonly<Record<Step, (session: Session) => Known>> = {
  trees,
  site,
  rules,
  kit,
  build,
};

export const known = (step: Step, session: Session): Known => KNOWN[step](session);
