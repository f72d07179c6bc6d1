/** The page of one function. */
import { upperFirst } from '../engine/first-letter.js';
import type { ReferenceTable } from '../engine/reference-tables.js';
import {
  casesOf,
  certaintyWords,
  noteOf,
  patternsOf,
  patternSource,
  relatedTo,
  valuesIn,
  type FunctionData,
  type HelpData,
  type ParameterData,
} from './data.js';
import { equationHtml, symbolsIn } from './equation.js';
import { exampleOf, resultOf, withinWords } from './example.js';
import { markup, joined, NOTHING, table, type Html } from './html.js';
import type { Page } from './layout.js';
import { partsOf } from '../functions/parameter-words.js';
import { formulaOf, NAMESPACE, shown } from './values.js';

export const fileOf = (id: string): string => `${id}.html`;

/** Links to the pages of functions, in a row. */
export const links = (ids: readonly string[]): Html =>
  joined(
    ids.map((id) => markup`<a href="${fileOf(id)}">${id}</a>`),
    ', ',
  );

/** =SOAK.BAG_HOURS(volume, holes, …, [units]) */
export function syntaxOf({ id, parameters }: FunctionData): string {
  const names = parameters.map(({ name, optional }) => (optional === true ? `[${name}]` : name));
  return `=${NAMESPACE}.${id}(${names.join(', ')})`;
}

/** A formula on a line of its own; a long one wraps. */
export const codeLine = (formula: string): Html =>
  markup`<p class="formula"><code>${formula}</code></p>`;

/** How sure a value is; what is from memory is marked, not only said. */
export const certaintyMark = (certainty: string): Html =>
  certainty === 'memory'
    ? markup`<mark class="memory">▲ ${certaintyWords(certainty)}</mark>`
    : markup`${certaintyWords(certainty)}`;

const section = (id: string, title: string, body: Html): Html =>
  markup`<section aria-labelledby="${id}">
<h2 id="${id}">${title}</h2>
${body}
</section> `;

export function functionPage(data: HelpData, fn: FunctionData): Page {
  const note = noteOf(data, fn.id);
  const names = fn.parameters.map(({ name }) => name);
  const equation = markup`<p class="equation">${equationHtml(note.equation, names)}</p>
${symbolPart(note.equation, note.family)}
<p>Source: ${note.source}</p>`;
  const parts = [
    section('parameters', 'Parameters', parameterPart(data, fn)),
    section('result', 'Result', markup`<p>${sentence(note.result, names)}</p>`),
    section('example', 'Worked example', examplePart(data, fn)),
    section('equation', 'Equation', equation),
    section('range', 'Range of validity', markup`<p>${sentence(note.range, names)}</p>`),
    section('errors', 'Errors', errorPart(note.errors)),
    section('checks', 'Checks', checkPart(data, fn)),
    ...tableParts(data.tables[fn.id] ?? []),
    section('twin', 'Without the add-in', twinPart(data, fn)),
    section('related', 'Related functions', relatedPart(data, fn)),
  ];
  const body = markup`<p class="lead">${fn.description}</p>
${codeLine(syntaxOf(fn))}
${parts}`;
  return { file: fileOf(fn.id), title: `${NAMESPACE}.${fn.id}`, description: fn.description, body };
}

function parameterPart(data: HelpData, { parameters }: FunctionData): Html {
  if (parameters.length === 0) return markup`<p>None.</p>`;
  const rows = parameters.map((each) => {
    const { what, us, si, default: fallback } = partsOf(each);
    return [
      markup`<code>${each.name}</code>`,
      whatOf(data, each, what),
      us,
      si,
      each.optional !== true ? 'required' : fallback === '' ? 'optional' : fallback,
      accepts(data, each),
    ];
  });
  const heads = ['Name', 'What', 'Unit US', 'Unit SI', 'Default', 'Accepts'];
  const isOptional = parameters.some(({ optional }) => optional === true);
  return markup`${table(
    'Parameters',
    heads.map((head, i) => (i === 0 ? { head, title: true } : { head })),
    rows,
  )}${isOptional ? markup`<p class="quiet">An optional argument that is left out or blank takes its default: <a href="conventions.html#blanks">blanks and zeros</a>.</p>` : NOTHING}`;
}

function accepts(data: HelpData, { customEnumId, dimensionality }: ParameterData): Html | string {
  if (dimensionality === 'matrix') return 'a range of cells';
  if (customEnumId === undefined) return '';
  const list = data.enums.find(({ id }) => id === customEnumId);
  if (list === undefined) throw new Error(`functions.json has no list of words ${customEnumId}.`);
  return joined(
    list.values.map(({ stringValue }) => markup`<code>${stringValue}</code>`),
    ', ',
  );
}

/** What a parameter is; a list of its words is not said twice. */
function whatOf(data: HelpData, { customEnumId }: ParameterData, what: string): string {
  const list = data.enums.find(({ id }) => id === customEnumId)?.values ?? [];
  const bare = (text: string): string => text.replace(/["',]|\bor\b|\s/g, '');
  const isList = list.length > 0 && bare(what) === bare(list.map((v) => v.stringValue).join(''));
  if (isList) return 'one of the accepted words';
  return what === '' ? '–' : what;
}

function examplePart(data: HelpData, fn: FunctionData): Html {
  const example = exampleOf(data, fn);
  if (example === undefined && fn.parameters.length === 0)
    return markup`${codeLine(formulaOf(fn.id, [], []))}
<p>Shows <strong>${shown(resultOf(data, fn, []))}</strong>.</p>`;
  if (example === undefined)
    return markup`<p>This function reads whole tables; the sample workbook is its example.</p>`;
  const { case: each, formula, result, published, within } = example;
  const note = noteOf(data, fn.id);
  const isDate = /\bdate\b/.test(note.result) && typeof result === 'number';
  return markup`<p>${upperFirst(each.name)}.</p>
${codeLine(formula)}
<dl class="facts">
<div>
<dt>Shows</dt>
<dd><strong class="result">${shown(result, isDate)}</strong> <small>${note.result.split(';')[0] ?? ''}</small></dd>
</div>
<div>
<dt>Expected</dt>
<dd>${published}</dd>
</div>
<div>
<dt>Agrees</dt>
<dd>${within}</dd>
</div>
<div>
<dt>Source</dt>
<dd>${each.source}; ${certaintyMark(each.certainty)}</dd>
</div>
</dl>
<p class="quiet">The function itself computed the value shown when this page was made.</p>`;
}

function symbolPart(equation: string, family: string): Html {
  const symbols = symbolsIn(equation, family);
  if (symbols.length === 0) return NOTHING;
  return markup`<dl class="facts symbols">
${symbols.map(
  ({ symbol, means }) =>
    markup`<div>
<dt>${equationHtml(symbol)}</dt>
<dd>${means}</dd>
</div> `,
)}
</dl>`;
}

/** One line for each error code. */
function errorPart(errors: string): Html {
  const lines = errors.split(/;\s+(?=#)/).map((line) => {
    const [, code = '', words = line] = /^(#[A-Z/]+[!?]?)\s*(.*)$/.exec(line) ?? [];
    return markup`<li>${code === '' ? NOTHING : markup`<code>${code}</code> `}${words}</li> `;
  });
  return markup`<ul>
${lines}
</ul>`;
}

function checkPart(data: HelpData, fn: FunctionData): Html {
  const cases = casesOf(data, fn.id).map((each) => [
    upperFirst(each.name),
    String(valuesIn(each)),
    withinWords(each),
    each.source,
    certaintyMark(each.certainty),
  ]);
  const patterns = patternsOf(data, fn).map((each) => {
    const { source, certainty } = patternSource(each);
    return [
      `Rules: ${each.says}`,
      String(each.moments.length),
      'exactly',
      source,
      certaintyMark(certainty),
    ];
  });
  const rows = [...cases, ...patterns];
  if (rows.length === 0)
    return markup`<p>
No case of the reference data calls this function by itself. Its parts are checked:
<a href="checks.html">how the numbers are checked</a>.
</p>`;
  return table(
    'Checks',
    [
      { head: 'Case', title: true },
      { head: 'Values', number: true },
      { head: 'Agrees' },
      { head: 'Source', long: true },
      { head: 'Certainty' },
    ],
    rows,
  );
}

const tableParts = (tables: readonly ReferenceTable[]): Html[] =>
  tables.map((each, i) => section(`table-${i + 1}`, each.title, referenceTable(each)));

/** A table behind a function, each row with where it comes from. */
export const referenceTable = ({ title, columns, rows }: ReferenceTable): Html =>
  table(
    title,
    [
      ...columns.map((head, i) => (i === 0 ? { head, title: true as const } : { head })),
      { head: 'Source', long: true },
      { head: 'Certainty' },
    ],
    rows.map(({ cells, source, certainty }) => [...cells, source, certaintyMark(certainty)]),
  );

function twinPart(data: HelpData, fn: FunctionData): Html {
  const twin = data.twinOf(fn.id);
  if (twin === undefined)
    return markup`<p>No formula of the spreadsheet’s own functions stands in for this one.</p>`;
  const cells = twin.cells.map(({ cell, name }) => markup`<code>${cell}</code> ${name}`);
  return markup`<details>
<summary>The same number from the spreadsheet’s own functions</summary>
<p>US units, every argument in a cell: ${joined(cells, ', ')}.</p>
${codeLine(twin.formula)}
</details>`;
}

function relatedPart(data: HelpData, fn: FunctionData): Html {
  const related = relatedTo(data, fn);
  if (related.length === 0) return markup`<p>None.</p>`;
  return markup`<ul class="related">
${related.map(
  (each) =>
    markup`<li>
<a href="${fileOf(each.id)}">${each.id}</a> <span>${each.description}</span>
</li> `,
)}
</ul>`;
}

/** With a capital and a full stop, unless it begins with the name of a parameter. */
function sentence(text: string, names: readonly string[]): string {
  const first = /^\w+/.exec(text)?.[0] ?? '';
  const begun = names.includes(first) ? text : upperFirst(text);
  return /[.!?]$/.test(begun) ? begun : `${begun}.`;
}
