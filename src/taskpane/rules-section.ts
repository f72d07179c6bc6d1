/** The panel's Rules section: which rules are in use, what they say, and six weeks of open and closed days. */
import { civil, MONTHS, WEEKDAYS, weekday, type Day } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import { plainLabel, type Grid } from '../tables/cells.js';
import type { RuleStrip, StripKind } from '../workbook/rules-strip.js';
import { counted, el } from './dom.js';
import type { Host } from './host.js';
import type { Planner, RulesForPlan, RulesReport } from './planner.js';

const WEEK = 7;
const SHEETS: ReadonlySet<string> = new Set(['rules', 'stages']);

/** A sheet that holds rules and no trees, by its name. */
export const isRulesSheet = (name: string): boolean => SHEETS.has(plainLabel(name));

export interface RulesSection {
  element: HTMLElement;
  /** reads the rules again; without trees there is no strip */
  refresh(trees: Grid | undefined): Promise<void>;
  /**
   * Rules for the next plan.
   * @throws Problem while something cannot be read and the person has not said to go on without it
   */
  forPlan(): RulesForPlan;
  /** what the rules are now, to be compared later */
  state(): string;
}

/** @param onChoice - the person has chosen other rules, or to go on without broken ones */
export function rulesSection(host: Host, planner: Planner, onChoice: () => void): RulesSection {
  const select = el(
    'select',
    { id: 'starter' },
    el('option', { value: '' }, 'none: rules of this workbook'),
    ...planner.starters.map((name) => el('option', { value: name }, name)),
  );
  const said = el('div', { id: 'rules-said' });
  const element = el(
    'section',
    { 'aria-labelledby': 'rules-title', id: 'rules' },
    el('h2', { id: 'rules-title' }, 'Rules'),
    el('label', { for: 'starter', class: 'quiet' }, 'Rules: start from an example'),
    select,
    said,
  );
  const skip = el('input', { type: 'checkbox', id: 'skip-broken' });
  let trees: Grid | undefined;
  let report: RulesReport | undefined;

  async function sheets(): Promise<{ name: string; cells: Grid['cells'] }[]> {
    const names = (await host.openSheets()).filter(isRulesSheet);
    return Promise.all(names.map(async (name) => ({ name, ...(await host.readTable(name)) })));
  }

  async function show(): Promise<void> {
    report = undefined;
    try {
      report = planner.rules(trees ?? { cells: [] }, await sheets(), select.value);
      said.replaceChildren(...parts(report, skip));
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      said.replaceChildren(
        el('p', { class: 'says-trouble gap' }, `The rules cannot be read: ${why}`),
      );
    }
  }

  select.addEventListener('change', () => {
    skip.checked = false;
    void show().then(onChoice);
  });
  skip.addEventListener('change', onChoice);

  return {
    element,
    async refresh(now) {
      trees = now ?? trees;
      await show();
    },
    forPlan() {
      if (report === undefined) throw new Problem('the rules could not be read, see Rules');
      const broken = report.problems.filter((p) => p.broken).length;
      if (broken > 0 && !skip.checked)
        throw new Problem(
          `the rules have ${counted(broken, 'place')} that cannot be read: mend them under Rules, or tick “Plan without what cannot be read” there`,
        );
      return report.forPlan;
    },
    state: () => JSON.stringify([report?.origin, report?.forPlan]),
  };
}

function parts(report: RulesReport, skip: HTMLInputElement): Node[] {
  const { origin, example, sentences, problems, strip } = report;
  const made: Node[] = [el('p', { class: 'gap' }, `In use: ${origin}, ${counted(sentences.length, 'row')} understood.`)];
  if (example)
    made.push(el('p', { class: 'says-trouble gap' }, 'Example: replace by your ordinance.'));
  if (problems.length > 0) made.push(...troubles(problems));
  if (problems.some((p) => p.broken))
    made.push(el('p', { class: 'gap check' }, skip, el('label', { for: skip.id }, 'Plan without what cannot be read')));
  if (sentences.length > 0) {
    const items = sentences.map(({ row, sentence }) => el('li', {}, el('span', { class: 'quiet' }, `Row ${row}`), el('span', {}, sentence)));
    made.push(el('details', { class: 'gap', id: 'rules-words' }, el('summary', {}, 'What the rules say'), el('ul', { class: 'rows' }, ...items)));
  }
  if (strip) made.push(stripPart(strip));
  return made;
} // prettier-ignore

function troubles(problems: RulesReport['problems']): Node[] {
  const item = ({ broken, sentence }: RulesReport['problems'][number]): HTMLElement =>
    el('li', {}, el('strong', {}, broken ? 'Not used' : 'Look here'), el('span', {}, sentence));
  return [
    el('h3', {}, 'Look here'),
    el('ul', { class: 'rows problems', id: 'rules-problems' }, ...problems.map(item)),
  ];
}

const dayName = (day: Day): string => {
  const { month, date } = civil(day);
  return `${WEEKDAYS[weekday(day)] ?? ''} ${date} ${MONTHS[month - 1] ?? ''}`;
};

/** `00:00-10:00, 19:00-24:00` as lines "0–10" and "19–24": a narrow column holds no more. */
export function shortHours(hours: string): string[] {
  if (hours === '') return ['closed'];
  if (hours === 'any') return ['any'];
  const time = (text: string): string => text.replace(/^0(?=\d)/, '').replace(/:00$/, '');
  return hours.split(', ').map((window) => window.split('-').map(time).join('–'));
}

function stripPart(strip: RuleStrip): HTMLElement {
  const { kinds, more, from } = strip;
  const made = kinds.map((kind, k) => kindPart(strip, kind, k, kinds.length + more.kinds));
  if (more.kinds > 0)
    made.push(
      el('p', { class: 'quiet' }, `${counted(more.kinds, 'more kind')} with ${counted(more.trees, 'tree')} not shown.`),
    );
  return el(
    'details',
    { id: 'strip' },
    el('summary', {}, `Six weeks from ${dayName(from)}: open and closed`),
    ...made,
  );
} // prettier-ignore

function kindPart(strip: RuleStrip, kind: StripKind, k: number, kinds: number): HTMLElement {
  const title = kinds === 1 ? `All trees, as ${kind.example}` : `${counted(kind.trees, 'tree')}, as ${kind.example}`;
  const digest = kind.means.map(({ means, hours, remarks }) => {
    const open = hours.filter((h) => h !== '').length;
    const more = remarks.length > 0 ? `; ${remarks.join('; ')}` : '';
    return el('li', {}, el('strong', {}, means), el('span', {}, `open ${open} of ${hours.length} days${more}`));
  });
  const table = el(
    'table',
    { class: 'strip' },
    el('caption', {}, `${title}: open hours, 24 h clock`),
    el(
      'thead',
      {},
      el('tr', {}, el('th', { scope: 'col' }, 'Day'), ...kind.means.map(({ means }) => el('th', { scope: 'col' }, means))),
    ),
    ...weeks(strip, kind),
  );
  return el('details', k === 0 ? { open: '' } : {}, el('summary', {}, title), el('ul', { class: 'rows' }, ...digest), table);
} // prettier-ignore

/** A body for each week; a line where a stage begins. */
function weeks(strip: RuleStrip, kind: StripKind): HTMLElement[] {
  const bodies: HTMLElement[] = [];
  for (let first = 0; first < strip.days; first += WEEK) {
    const rows: HTMLElement[] = [];
    for (let i = first; i < Math.min(first + WEEK, strip.days); i++) {
      const stage = strip.stages[i] ?? '';
      if (stage !== (i === 0 ? '' : (strip.stages[i - 1] ?? '')))
        rows.push(stageRow(stage === '' ? 'no stage in force' : `stage ${stage} in force`, kind));
      rows.push(dayRow(strip, kind, i));
    }
    bodies.push(el('tbody', {}, ...rows));
  }
  return bodies;
}

const stageRow = (text: string, kind: StripKind): HTMLElement =>
  el(
    'tr',
    { class: 'stage' },
    el('th', { scope: 'rowgroup', colspan: String(kind.means.length + 1) }, text),
  );

function dayRow(strip: RuleStrip, kind: StripKind, i: number): HTMLElement {
  const banned = kind.bans[i] ?? '';
  const cells = kind.means.map(({ means, hours }) => {
    const shown = hours[i] ?? '';
    if (shown === '' && banned.split(', ').some((ban) => ban.startsWith(`${means} (`)))
      return el('td', { class: 'closed' }, 'banned');
    const lines = shortHours(shown).map((line) => el('div', {}, line));
    return el('td', { class: shown === '' ? 'closed' : 'open' }, ...lines);
  });
  return el('tr', {}, el('th', { scope: 'row' }, dayName(strip.from + i)), ...cells);
}
