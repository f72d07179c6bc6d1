/** The page that says how the numbers are checked, with counts from the reference data. */
import { casesOf, CERTAINTY_WORDS, patternsOf, valuesIn, type HelpData } from './data.js';
import { certaintyMark, links } from './function-page.js';
import { markup, table } from './html.js';
import { PAGES, type Page } from './layout.js';

const CHECKS = PAGES[2];

/** What each certainty means; the words are those on the functions' pages. */
const LEGEND: Readonly<Record<string, string>> = {
  seen: 'The value was read in the publication itself.',
  secondary: 'The value was read in a copy, an extract or another work that prints it.',
  memory:
    'The value is believed to stand in the named publication but was not read there. Confirm it before you rely on it.',
  computed:
    'The value was worked out from the named equation by other means than this program: by hand, by a separate script or from a definition.',
  assumption: 'The value is a choice of this model, and an input you can change.',
  'common practice, no source':
    'The value is what the trade uses; no publication was found for it.',
};

export function checksPage(data: HelpData): Page {
  const kinds = Object.keys(CERTAINTY_WORDS);
  const used = kinds.filter((kind) => data.cases.some((each) => each.certainty === kind));
  const heads = used.map((kind) => ({
    head: CERTAINTY_WORDS[kind] ?? kind,
    number: true as const,
  }));
  const rows = data.functions.map((fn) => {
    const cases = casesOf(data, fn.id);
    const moments = patternsOf(data, fn).reduce((sum, each) => sum + each.moments.length, 0);
    return [
      links([fn.id]),
      ...countsBy(cases, used),
      total(cases),
      moments === 0 ? '' : String(moments),
    ];
  });
  const parts = data.cases.filter((each) => each.function === undefined);
  const partNames = [...new Set(parts.map(({ engine = '' }) => engine))].sort();
  const partRows = partNames.map((name) => {
    const cases = parts.filter(({ engine }) => engine === name);
    const sources = [...new Set(cases.map(({ source }) => source))];
    return [
      markup`<code>${name}</code>`,
      ...countsBy(cases, used),
      total(cases),
      sources.join('; '),
    ];
  });
  const body = markup`<p class="lead">
The functions are compared with values from outside this program each time the tests run. A test
fails if one value leaves its tolerance.
</p>
<h2 id="legend">How sure a value is</h2>
<dl class="facts legend">
${kinds.map(
  (kind) =>
    markup`<div>
<dt>${certaintyMark(kind)}</dt>
<dd>${LEGEND[kind] ?? ''}</dd>
</div> `,
)}
</dl>
<h2 id="functions">Values compared, by function</h2>
${table('Values compared, by function', [{ head: 'Function', title: true }, ...heads, { head: 'All', number: true }, { head: 'Rule moments', number: true }], rows)}
<p class="quiet">
Rule moments: times at which a published restriction says open or closed, for functions that
read a rules table. A formula of the spreadsheet’s own functions, where a page has one, must
give the same number to 1e-9 relative in two independent spreadsheet programs.
</p>
<h2 id="parts">Values compared, by part of the engine</h2>
<p>The functions are made of these parts, which have checks of their own.</p>
${table('Values compared, by part', [{ head: 'Part', title: true }, ...heads, { head: 'All', number: true }, { head: 'Sources', long: true }], partRows)}`;
  return {
    file: CHECKS.file,
    title: CHECKS.title,
    description: 'Counts of the values each function is compared with, and how sure they are.',
    body,
  };
}

const sum = (cases: HelpData['cases']): number =>
  cases.reduce((all, each) => all + valuesIn(each), 0);
const total = (cases: HelpData['cases']): string => String(sum(cases));
const countsBy = (cases: HelpData['cases'], kinds: readonly string[]): string[] =>
  kinds.map((kind) => {
    const count = sum(cases.filter(({ certainty }) => certainty === kind));
    return count === 0 ? '' : String(count);
  });
