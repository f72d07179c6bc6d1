/**
 * The Markdown that docs/ is written in, as HTML. The library `marked` reads it; here its tokens become markup, with
 * every text escaped. Only some of Markdown is known: headings, paragraphs, lists of one level, tables, code, bold,
 * emphasis, links. Anything else is an error and not a page that looks almost right.
 */
import { lexer, type MarkedToken, type Token, type Tokens } from 'marked';
import { Problem } from '../src/engine/problems.js';
import { markup, type Html } from '../src/help/html.js';

const KNOWN =
  'headings of level 2 and 3, paragraphs, lists of one level, tables, fenced code, bold, emphasis and links';

/** What to write instead of tokens that are refused. */
const INSTEAD: Readonly<Record<string, string>> = {
  html: 'HTML that is to be seen stands in backquotes',
  image: 'the pages carry no pictures',
  def: 'a link has its target beside its words',
  br: 'a line does not end in two blanks or a backslash',
};

/** Pages and files beside or above this one, a place in a page, or an https address; no other scheme, no other host's. */
const TARGET = /^(?:https:\/\/[^\s\\]+|(?:\.\.\/)*[\w-][\w./-]*(?:#[\w-]+)?|#[\w-]+)$/;
const ENTITY = /&(?:#\d+|#x[\da-f]+|[a-z][a-z\d]*);/i;
const LEFT_OPEN = /`|\*\*|\]\(/;
const CLOSED_FENCE = /^ {0,3}(`{3,}(?!`)|~{3,}(?!~)).*\n(?:[\s\S]*\n)? {0,3}\1[`~]*\s*$/;

export interface MarkdownPage {
  title: string;
  body: Html;
}

const firstLine = (raw: string): string => raw.trim().split('\n')[0] ?? '';

function refused({ type, raw }: Token): Problem {
  const instead = INSTEAD[type];
  return new Problem(
    `"${firstLine(raw)}" is no Markdown these pages know (${type})${instead ? `: ${instead}` : ''}. They know ${KNOWN}.`,
  );
}

/** Running words: lines that were broken in the source are one. */
function words(text: string): string {
  const entity = ENTITY.exec(text)?.[0];
  if (entity !== undefined)
    throw new Problem(`"${entity}" in "${text}" would be shown as it is: write the sign itself.`);
  if (LEFT_OPEN.test(text))
    throw new Problem(
      `"${text}" leaves a backquote, ** or a link open: close it, or put a backslash before the sign.`,
    );
  return text.replace(/\s*\n\s*/g, ' ');
}

/** A link between files of docs/ is one between pages. */
const pageLink = (target: string): string => target.replace(/^([\w-]+)\.md(?=#|$)/, '$1.html');

function link({ raw, href, title, tokens }: Tokens.Link): Html {
  if (!TARGET.test(href))
    throw new Problem(
      `The link "${raw}" leads to "${href}": accepted are files of these pages, #places and https addresses.`,
    );
  if (title) throw new Problem(`The link "${raw}" has a title; these pages show none.`);
  return markup`<a href="${pageLink(href)}">${tokens.map(inline)}</a>`;
}

function inline(token: Token): Html {
  const known = token as MarkedToken;
  switch (known.type) {
    case 'text':
      return markup`${words(known.text)}`;
    case 'escape':
      return markup`${known.text}`;
    case 'codespan':
      return markup`<code>${known.text}</code>`;
    case 'strong':
      return markup`<strong>${known.tokens.map(inline)}</strong>`;
    case 'em':
      return markup`<em>${known.tokens.map(inline)}</em>`;
    case 'link':
      return link(known);
    default:
      throw refused(token);
  }
}

/** An anchor for a heading: its words, joined. */
const anchorOf = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');

function heading({ raw, depth, text, tokens }: Tokens.Heading): Html {
  if (!raw.startsWith('#'))
    throw new Problem(`"${text}" is underlined: a heading begins with ## or ###.`);
  const anchor = anchorOf(text);
  if (anchor === '') throw new Problem(`The heading "${firstLine(raw)}" has no words.`);
  const inside = tokens.map(inline);
  if (depth === 2) return markup`<h2 id="${anchor}">${inside}</h2>`;
  if (depth === 3) return markup`<h3 id="${anchor}">${inside}</h3>`;
  throw new Problem(`The heading "${firstLine(raw)}" must be of level 2 or 3.`);
}

/** An item is one run of words: no boxes to tick, no second paragraph, no list in it. */
function item({ raw, task, tokens }: Tokens.ListItem): Html {
  if (task) throw new Problem(`"${firstLine(raw)}" has a box to tick; items here are words.`);
  const [first, ...rest] = (tokens as MarkedToken[]).filter(({ type }) => type !== 'space');
  if (first === undefined) throw new Problem(`The item "${firstLine(raw)}" of a list is empty.`);
  const other = first.type === 'text' ? rest[0] : first;
  if (first.type !== 'text' || other !== undefined) {
    const { type, raw: what } = other ?? first;
    throw new Problem(
      `The item "${firstLine(raw)}" holds more than one run of words (${type}: "${firstLine(what)}").`,
    );
  }
  return markup`<li>${(first.tokens ?? []).map(inline)}</li>`;
}

/** A list that goes on after something else keeps its numbers. */
function list({ ordered, start, items }: Tokens.List): Html {
  const made = items.map(item);
  if (!ordered) return markup`<ul>${made}</ul>`;
  return start === 1 ? markup`<ol>${made}</ol>` : markup`<ol start="${start}">${made}</ol>`;
}

/** The library fills short rows and cuts long ones; but as the head of a table a row must have the rule's length. */
const hasCells = (row: string, count: number): boolean =>
  lexer(`${row}\n${'|---'.repeat(count)}|`)[0]?.type === 'table';

function table({ raw, align, header, rows }: Tokens.Table): Html {
  const [head = '', rule = '', ...lines] = raw.trimEnd().split('\n');
  if (align.some((side) => side !== null))
    throw new Problem(`The rule "${rule}" of the table "${head}" has colons; cells stand left.`);
  for (const row of lines)
    if (!hasCells(row, header.length))
      throw new Problem(`A row of the table "${head}" has another number of cells: "${row}".`);
  const heads = header.map(({ tokens }) => markup`<th scope="col">${tokens.map(inline)}</th>`);
  const body = rows.map(
    (row) => markup`<tr>${row.map(({ tokens }) => markup`<td>${tokens.map(inline)}</td>`)}</tr>`,
  );
  return markup`<table><thead><tr>${heads}</tr></thead><tbody>${body}</tbody></table>`;
}

function code(token: Tokens.Code): Html {
  if (token.codeBlockStyle === 'indented')
    throw new Problem(`"${firstLine(token.raw)}" is set in: code stands between lines of \`\`\`.`);
  if (!CLOSED_FENCE.test(token.raw))
    throw new Problem(`A block of code is not closed: "${firstLine(token.raw)}".`);
  return markup`<pre><code>${token.text}</code></pre>`;
}

/** A paragraph, unless its signs tell that something else was meant. */
function paragraph({ raw, tokens }: Tokens.Paragraph): Html {
  const row = /^ *\|.*$/m.exec(raw)?.[0];
  if (row !== undefined)
    throw new Problem(
      `The table "${row}" lacks its rule of dashes, with as many cells as its head.`,
    );
  if (raw.startsWith('#'))
    throw new Problem(`"${firstLine(raw)}" is no heading: a blank follows its marks.`);
  return markup`<p>${tokens.map(inline)}</p>`;
}

function block(token: Token): Html {
  const known = token as MarkedToken;
  switch (known.type) {
    case 'space':
      return markup``;
    case 'heading':
      return heading(known);
    case 'paragraph':
      return paragraph(known);
    case 'list':
      return list(known);
    case 'table':
      return table(known);
    case 'code':
      return code(known);
    default:
      throw refused(token);
  }
}

/** The title goes into the tab of the browser too: words alone. */
function titleOf(token: Token | undefined): string {
  const first = token as MarkedToken | undefined;
  if (first?.type !== 'heading' || first.depth !== 1 || !first.raw.startsWith('#') || !first.text)
    throw new Problem(
      `A page must begin with its title, "# Words"; this one has "${firstLine(first?.raw ?? '')}".`,
    );
  for (const { type, raw } of first.tokens)
    if (type !== 'text')
      throw new Problem(`The title "${first.text}" must be words alone: "${raw}".`);
  return words(first.text);
}

function pageOf(text: string): MarkdownPage {
  const [first, ...rest] = lexer(text).filter(({ type }) => type !== 'space');
  return { title: titleOf(first), body: markup`${rest.map(block)}` };
}

/**
 * A page of docs/ as title and HTML.
 *
 * @param file where the text comes from; sentences begin with it
 * @throws Problem naming what these pages do not know
 */
export function fromMarkdown(text: string, file?: string): MarkdownPage {
  try {
    return pageOf(text);
  } catch (error) {
    if (file === undefined || !(error instanceof Problem)) throw error;
    throw new Problem(`${file}: ${error.message}`);
  }
}
