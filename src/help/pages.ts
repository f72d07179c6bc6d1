/** The pages beside those of single functions: the list and the conventions. */
import { QUANTITIES } from '../functions/limits.js';
import { casesOf, familyTitle, noteOf, type FunctionData, type HelpData } from './data.js';
import { equationHtml, symbolsIn } from './equation.js';
import { fileOf, links } from './function-page.js';
import { markup, table, type Html } from './html.js';
import { PAGES, type Page } from './layout.js';
import { NAMESPACE } from './values.js';

const [INDEX, CONVENTIONS] = PAGES;

/** Families in the order of their names, each with its functions. */
function families(data: HelpData): [family: string, functions: FunctionData[]][] {
  const groups = new Map<string, FunctionData[]>();
  for (const fn of data.functions) {
    const { family } = noteOf(data, fn.id);
    groups.set(family, [...(groups.get(family) ?? []), fn]);
  }
  return [...groups].sort(([a], [b]) => (a < b ? -1 : 1));
}

/** All a search looks at: name, description, parameters, words, equation, sources. */
function searchText(data: HelpData, fn: FunctionData): string {
  const { family, ...note } = noteOf(data, fn.id);
  const words = fn.parameters.flatMap(({ name, description, customEnumId }) => [
    name,
    description,
    ...(data.enums.find(({ id }) => id === customEnumId)?.values ?? []).map((v) => v.stringValue),
  ]);
  const sources = casesOf(data, fn.id).map(({ source }) => source);
  const all = [fn.id, fn.description, familyTitle(family), ...words, ...Object.values(note)];
  return [...all, ...new Set(sources)].join(' ').toLowerCase();
}

export function indexPage(data: HelpData): Page {
  const count = data.functions.length;
  const groups = families(data).map(
    ([family, functions]) =>
      markup`<section class="family" aria-labelledby="family-${family}">
<h2 id="family-${family}">${familyTitle(family)}</h2>
<ul class="functions">
${functions.map(
  (fn) =>
    markup`<li data-search="${searchText(data, fn)}">
<a href="${fileOf(fn.id)}">${fn.id}</a> <span>${fn.description}</span>
</li> `,
)}
</ul>
</section> `,
  );
  const body = markup`<p class="lead">
${count} functions. Each is typed in a cell after the name ${NAMESPACE} and a dot; units are
US customary unless the last argument says <code>"SI"</code>.
</p>
<div id="search" class="search" role="search" hidden>
<label for="query">Find a function</label>
<input
id="query"
type="search"
autocomplete="off"
spellcheck="false"
aria-describedby="query-help"/>
<p id="query-help" class="quiet">
Looks in names, descriptions, parameters, equations and sources. Enter opens the first,
Escape shows all.
</p>
<p id="found" class="found" role="status"></p>
</div>
${groups}`;
  return {
    file: INDEX.file,
    title: INDEX.title,
    description: `All ${count} worksheet functions of Soakbook.`,
    body,
    script: 'search.js',
  };
}

export function conventionsPage(data: HelpData): Page {
  const body = markup`<p class="lead">What holds for every function.</p>
<h2 id="units">Units</h2>
<p>
US customary by default. Where a function has a last argument <code>units</code>,
<code>"SI"</code> switches its inputs and its result together. A pair such as “gal | L” gives
the US unit first.
</p>
${unitTable()}
<h2 id="blanks">Blanks and zeros</h2>
<p>
A blank cell reaches a function as 0 in some programs and as nothing in others. So a required
argument that is blank, or 0 where 0 is impossible, is an error. An optional argument that is
left out or blank takes its default; so does a 0 where 0 is impossible or less likely than a
blank, such as for dew point, wind, solar radiation and factors. For a true zero there write
0.001. Where 0 counts as a value of its own, as for rain, elevation or what is left in a bag,
it is used as it stands.
</p>
<p>
Numbers written as text, stray spaces and any letter case in words are accepted where the
meaning is plain.
</p>
<h2 id="errors">Errors</h2>
<p>
<code>#VALUE!</code> comes with a sentence: the parameter, what it got and what it needs.
<code>#N/A</code> comes with a sentence where the question has no answer. An error in an
argument’s cell is named by the argument it came in by.
</p>
<h2 id="dates">Dates and times</h2>
<p>
Dates are the spreadsheet’s own serial numbers (1900 system): whole days, with times as
fractions of a day. A date written as text has the form <code>"2027-07-01"</code>. A result
that is a date shows as a number until its cell is formatted as a date.
</p>
<h2 id="shares">Shares and places</h2>
<p>
Shares run from 0 to 1; a cell formatted as per cent works. Latitude is in decimal degrees,
north positive.
</p>
<h2 id="ranges">Ranges and spills</h2>
<p>
A table is given as a range with its header row. A result of several cells spills to the right
and down; keep those cells free.
</p>
<h2 id="symbols">Symbols in equations</h2>
${symbolTable(data)}
<h2 id="names">Names of parameters</h2>
<details>
<summary>Every name, with the functions that use it</summary>
${nameTable(data)}
</details>`;
  return {
    file: CONVENTIONS.file,
    title: CONVENTIONS.title,
    description: 'Units, blanks, errors, dates, shares, symbols and names of parameters.',
    body,
  };
}

/** Units that differ between the systems, with the factor between them. */
function unitTable(): Html {
  const digits = (value: number): string => String(Number(value.toPrecision(6)));
  const pairs = Object.values(QUANTITIES).filter(({ US, SI }) => US.label !== SI.label);
  const rows = pairs.map(({ US, SI }) => {
    const zero = 'zero' in US ? US.zero : 0;
    const shift = zero === 0 ? '' : `(value − ${zero}) · `;
    return [US.label, SI.label, `${shift}${digits(US.factor / SI.factor)}`];
  });
  const unique = rows.filter(
    ([us, si], i) => rows.findIndex((row) => row[0] === us && row[1] === si) === i,
  );
  return table(
    'Units',
    [{ head: 'US', title: true }, { head: 'SI' }, { head: 'From US to SI, times', number: true }],
    unique,
  );
}

function symbolTable(data: HelpData): Html {
  const rows = new Map<string, { symbol: string; means: string; ids: string[] }>();
  for (const fn of data.functions) {
    const { equation, family } = noteOf(data, fn.id);
    for (const { symbol, means } of symbolsIn(equation, family)) {
      const key = `${symbol} ${means}`;
      rows.set(key, { symbol, means, ids: [...(rows.get(key)?.ids ?? []), fn.id] });
    }
  }
  const sorted = [...rows.values()].sort((a, b) => a.symbol.localeCompare(b.symbol, 'en'));
  return table(
    'Symbols',
    [{ head: 'Symbol', title: true }, { head: 'Meaning' }, { head: 'In' }],
    sorted.map(({ symbol, means, ids }) => [equationHtml(symbol), means, links(ids)]),
  );
}

function nameTable(data: HelpData): Html {
  const users = new Map<string, string[]>();
  for (const { id, parameters } of data.functions)
    for (const { name } of parameters)
      if (name !== 'units') users.set(name, [...(users.get(name) ?? []), id]);
  const sorted = [...users].sort(([a], [b]) => (a < b ? -1 : 1));
  return table(
    'Names of parameters',
    [{ head: 'Name', title: true }, { head: 'Parameter of' }],
    sorted.map(([name, ids]) => [markup`<code>${name}</code>`, links(ids)]),
  );
}
