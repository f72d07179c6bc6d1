/**
 * The panel: what the open sheet says, what it does not, and the plan made from it. It knows a Host and a
 * Planner, and neither the grid nor the spreadsheet program.
 */
import { Problem } from '../engine/problems.js';
import type { Grid } from '../tables/cells.js';
import { amount, button, counted, el } from './dom.js';
import type { ChosenCell, Host } from './host.js';
import { markElement } from './mark.js';
import type { LookRow, MatchedColumn, Planner, PlanSummary, SheetReading } from './planner.js';
import { isRulesSheet, rulesSection } from './rules-section.js';

const ROWS_SHOWN = 4;
const PROBLEMS_SHOWN = 8;
const NOTHING_TO_PLAN = 'There is no row that can be planned on this sheet.';

/**
 * Puts the panel into `root`. Resolves when the sheet in front has been read once, and planned if asked.
 *
 * @param planAtOnce - plan the sheet as soon as it is read: the desk's sample opens planned
 */
export async function mountPanel(
  root: HTMLElement,
  host: Host,
  planner: Planner,
  planAtOnce = false,
): Promise<void> {
  const sheetLine = el('p', {}, 'Reading the sheet …');
  const trees = el('section', { 'aria-labelledby': 'trees-title', id: 'trees' });
  const columns = el('section', { 'aria-label': 'Columns', id: 'columns' });
  const plan = el('section', { 'aria-labelledby': 'plan-title', id: 'plan' });
  const cell = el('section', { 'aria-labelledby': 'cell-title', id: 'cell' });
  const live = el('p', { role: 'status', class: 'quiet gap' });
  const result = el('div', { id: 'result' });
  let sheetName = '';
  let plannedFrom = '';
  let plannedUnder = '';

  const say = (sentence: string, kind = 'quiet gap'): void => {
    live.className = kind;
    live.textContent = sentence;
  };
  const jump = (row: number): void => void host.showCell(row - 1, 0, sheetName);

  /** The sheet in front; while rules are edited, the inventory that was in front before. */
  async function inventory(): Promise<Grid> {
    const front = await host.sheetName();
    if (isRulesSheet(front) && sheetName !== '' && !isRulesSheet(sheetName)) {
      const table = await host.readTable(sheetName);
      if (table.cells.length > 0) return table;
    }
    sheetName = front;
    return host.readActiveTable();
  }

  const planButton = button('Plan this sheet', () => void makePlan(), { class: 'main' });
  planButton.disabled = true;
  let planning: AbortController | undefined;
  let changedMeanwhile = false;
  const stopButton = button('Stop', () => planning?.abort(), { id: 'stop', hidden: '' });
  plan.append(el('h2', { id: 'plan-title' }, 'Plan'), planButton, stopButton, live, result);
  const rules = rulesSection(host, planner, () => withdraw('Other rules are chosen. Plan'));
  root.replaceChildren(head(host, sheetLine, say), trees, rules.element, plan, cell, columns);
  showCell(cell, undefined);

  async function read(): Promise<void> {
    try {
      const table = await inventory();
      sheetLine.textContent = `Sheet “${sheetName}”`;
      const reading = planner.read(table);
      await rules.refresh(reading.usable > 0 ? table : undefined);
      trees.replaceChildren(...readingParts(reading, jump));
      columns.replaceChildren(...columnParts(reading));
      planButton.disabled = reading.usable === 0;
      if (reading.usable === 0) say(NOTHING_TO_PLAN);
      else if (live.textContent === NOTHING_TO_PLAN) say('');
    } catch (error) {
      sheetLine.textContent = `Sheet “${sheetName}”`;
      trees.replaceChildren(
        el('h2', { id: 'trees-title' }, 'Trees'),
        el('p', { class: 'says-trouble' }, sentenceOf(error)),
      );
      columns.replaceChildren();
      planButton.disabled = true;
      await rules.refresh(undefined);
    }
  }

  async function makePlan(): Promise<void> {
    if (planning) return;
    planButton.disabled = true;
    stopButton.hidden = false;
    planning = new AbortController();
    changedMeanwhile = false;
    const watch = {
      signal: planning.signal,
      onProgress: (done: number, total: number) =>
        say(`Planning … ${amount(done)} of ${amount(total)} rows.`),
    };
    result.replaceChildren();
    say('Planning …');
    await nextFrame();
    try {
      const started = performance.now();
      const table = await inventory();
      plannedFrom = fingerprint(table);
      plannedUnder = rules.state();
      const summary = await planner.plan(table, sheetName, rules.forPlan(), watch);
      const seconds = (performance.now() - started) / 1000;
      result.replaceChildren(...summaryParts(summary, jump, () => void download(summary)));
      say(
        `${summary.season}. Planned in ${seconds < 0.1 ? 'less than 0.1' : seconds.toFixed(1)} s.`,
      );
    } catch (error) {
      say(sentenceOf(error), 'says-trouble gap');
    } finally {
      planButton.disabled = false;
      stopButton.hidden = true;
      planning = undefined;
    }
    if (changedMeanwhile) await changed();
  }

  /** A plan stays as long as the cells it was made from stay; a recalculation alone does not count. */
  async function changed(): Promise<void> {
    changedMeanwhile = true;
    if (result.childElementCount > 0) {
      const now = await inventory().then(fingerprint, () => '');
      if (now !== plannedFrom) withdraw('The sheet has changed. Plan');
    }
    await read();
    if (rules.state() !== plannedUnder) withdraw('The rules have changed. Plan');
  }

  function withdraw(why: string): void {
    changedMeanwhile = true;
    if (result.childElementCount === 0) return;
    result.replaceChildren();
    say(`${why} it again to see the effect.`);
  }

  async function download(summary: PlanSummary): Promise<void> {
    say('Writing the workbook …');
    try {
      const name = `${sheetName.replace(/[^\p{L}\p{N}]+/gu, '-').toLowerCase()}-plan.xlsx`;
      await host.saveFile(name, await summary.file());
      say(`The plan is saved as ${name}.`, 'says-fine gap');
    } catch (error) {
      say(sentenceOf(error), 'says-trouble gap');
    }
  }

  host.onChange(() => void changed());
  host.onChoose((chosen) => showCell(cell, chosen));
  await read();
  if (planAtOnce && !planButton.disabled) await makePlan();
}

const fingerprint = (table: unknown): string => JSON.stringify(table);

function sentenceOf(error: unknown): string {
  if (error instanceof Problem) return upperFirst(error.message);
  const message = error instanceof Error ? error.message : String(error);
  return `Something went wrong in this program: ${message}`;
}

const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const nextFrame = (): Promise<void> =>
  new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));

function head(host: Host, sheetLine: HTMLElement, say: (sentence: string, kind?: string) => void) {
  const help = el(
    'a',
    { href: 'help/index.html', target: '_blank', rel: 'noopener' },
    'Function help',
  );
  const name = el('div', { class: 'name-and-help' }, el('h1', {}, 'Soakbook'), help);
  const title = el('div', { class: 'grow' }, name, sheetLine);
  const made = el('header', { class: 'panel-head' });
  made.append(markElement(document), title);
  const { openFile } = host;
  if (openFile !== undefined) {
    const input = el('input', { type: 'file', accept: '.csv,.tsv,.txt,.xlsx', id: 'open-file' });
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      if (file === undefined) return;
      file
        .arrayBuffer()
        .then((buffer) => openFile(file.name, new Uint8Array(buffer)))
        .catch((error: unknown) => say(sentenceOf(error), 'says-trouble gap'));
      input.value = '';
    });
    made.append(el('label', { class: 'file-button' }, 'Open a file', input));
  }
  return made;
}

function number(label: string, value: string, unit = '', kind = ''): HTMLElement {
  const shown = el('dd', {}, value);
  if (unit !== '') shown.append(el('small', {}, unit));
  return el('div', { class: `number ${kind}`.trim() }, el('dt', {}, label), shown);
}

function readingParts(reading: SheetReading, jump: (row: number) => void): Node[] {
  const { usable, rows, look, notes } = reading;
  const parts: Node[] = [
    el('h2', { id: 'trees-title' }, 'Trees'),
    el(
      'dl',
      { class: 'numbers' },
      number('rows read', amount(rows)),
      number('can be planned', amount(usable), '', 'is-fine'),
      number('look here', amount(look.length), '', look.length > 0 ? 'is-trouble' : ''),
    ),
  ];
  for (const note of notes) parts.push(el('p', { class: 'quiet gap' }, note));
  if (look.length > 0) parts.push(el('h3', {}, 'Look here'), ...lookList(look, jump));
  return parts;
}

function columnParts({ columns, unmatched }: SheetReading): Node[] {
  if (unmatched.length === 0) return [columnTable(columns)];
  return [
    columnTable(columns),
    el('p', { class: 'quiet gap' }, `Not used: ${unmatched.join(', ')}`),
  ];
}

function columnTable(columns: readonly MatchedColumn[]): HTMLElement {
  const rows = columns.map(({ header, label, unit, samples, doubt }) => {
    const taken = el('td', {}, unit === '' ? label : `${label}, ${unit}`);
    if (doubt !== '') taken.append(el('div', { class: 'quiet' }, `estimated: ${doubt}`));
    return el(
      'tr',
      {},
      el('td', {}, header),
      taken,
      el('td', { class: 'samples', title: samples.join(', ') }, samples.join(', ')),
    );
  });
  const summary = el('summary', {}, `${counted(columns.length, 'column')} matched`);
  const table = el(
    'table',
    { class: 'columns' },
    el(
      'thead',
      {},
      el(
        'tr',
        {},
        el('th', { scope: 'col' }, 'Header'),
        el('th', { scope: 'col' }, 'Read as'),
        el('th', { scope: 'col' }, 'First cells'),
      ),
    ),
    el('tbody', {}, ...rows),
  );
  return el('details', { open: '' }, summary, table);
}

function lookList(look: readonly LookRow[], jump: (row: number) => void): Node[] {
  const item = ({ row, id, reason }: LookRow): HTMLElement =>
    el(
      'li',
      {},
      button(`Row ${row}`, () => jump(row), { class: 'jump' }),
      el('span', {}, id === '' ? upperFirst(reason) : `${id}: ${reason}`),
    );
  const first = el('ul', { class: 'rows' }, ...look.slice(0, ROWS_SHOWN).map(item));
  if (look.length <= ROWS_SHOWN) return [first];
  const more = look.slice(ROWS_SHOWN);
  return [
    first,
    el(
      'details',
      {},
      el('summary', {}, `${counted(more.length, 'more row')}`),
      el('ul', { class: 'rows' }, ...more.map(item)),
    ),
  ];
}

function summaryParts(
  summary: PlanSummary,
  jump: (row: number) => void,
  download: () => void,
): Node[] {
  const { cannotBeKept, lost, remarks, problems } = summary;
  const parts: Node[] = [
    el(
      'dl',
      { class: 'numbers gap' },
      number('trees planned', amount(summary.planned), '', 'is-fine'),
      number('cannot be kept', amount(cannotBeKept), '', cannotBeKept > 0 ? 'is-trouble' : ''),
      number('rows not planned', amount(summary.notPlanned)),
      number('water in the season', amount(summary.gallons), 'gal'),
      number('stress days', amount(summary.stressDays), 'days'),
      number('crew days', amount(summary.crewDays), 'days'),
    ),
    ...remarks.map((sentence) => el('p', { class: 'quiet gap' }, sentence)),
    el('p', { class: 'gap' }, button('Download the plan (.xlsx)', download, { id: 'download' })),
  ];
  if (lost.length > 0) parts.push(el('h3', {}, 'Cannot be kept'), ...lookList(lost, jump));
  if (problems.length > 0) {
    const shown = problems.slice(0, PROBLEMS_SHOWN);
    parts.push(
      el('h3', {}, 'Look here'),
      el('ul', { class: 'rows problems' }, ...shown.map((text) => el('li', {}, text))),
    );
    if (problems.length > shown.length) {
      const rest = counted(problems.length - shown.length, 'more line');
      parts.push(el('p', { class: 'quiet' }, `${rest} on the Checks sheet of the plan.`));
    }
  }
  return parts;
}

function showCell(section: HTMLElement, chosen: ChosenCell | undefined): void {
  const parts: Node[] = [el('h2', { id: 'cell-title' }, 'Chosen cell')];
  if (chosen === undefined) {
    parts.push(
      el('p', { class: 'quiet' }, 'Choose a cell to see its formula, and why it shows an error.'),
    );
  } else {
    parts.push(el('p', {}, `${chosen.address}: ${chosen.shown === '' ? 'blank' : chosen.shown}`));
    if (chosen.formula !== '')
      parts.push(el('p', { class: 'gap' }, el('code', {}, chosen.formula)));
    if (chosen.trouble !== '') {
      parts.push(
        el('p', { class: 'says-trouble gap', role: 'status' }, upperFirst(chosen.trouble)),
      );
    }
  }
  section.replaceChildren(...parts);
}
