/** HTML as text, with escaping in this one place: whatever is put into a template is escaped, unless it is Html itself. */

/** A piece of HTML that is safe to put into a page as it is. */
export class Html {
  constructor(readonly text: string) {}
  toString(): string {
    return this.text;
  }
}

type Part = Html | string | number | readonly Part[];

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as HTML; for the inside of elements and of quoted attributes. */
export const escapeText = (text: string): string =>
  text.replace(/[&<>"']/g, (sign) => ESCAPES[sign] ?? sign);

function asHtml(part: Part): string {
  if (part instanceof Html) return part.text;
  if (typeof part === 'string' || typeof part === 'number') return escapeText(String(part));
  return part.map(asHtml).join('');
}

/** A template whose values are escaped: markup`<p>${anything}</p>`. Lists are put side by side. */
export function markup(texts: TemplateStringsArray, ...parts: Part[]): Html {
  return new Html(texts.reduce((made, text, i) => made + asHtml(parts[i - 1] ?? '') + text));
}

export const NOTHING = new Html('');

/** Parts with something between them. */
export const joined = (parts: readonly Part[], between: Part): Html =>
  markup`${parts.map((part, i) => (i === 0 ? part : markup`${between}${part}`))}`;

export interface Column {
  head: string;
  /** cells are numbers */
  number?: true;
  /** long words such as addresses may break anywhere */
  long?: true;
  /** a narrow screen shows the first column's cell as the title of its row */
  title?: true;
}

/**
 * A table that becomes a list of blocks on a narrow screen; its roles are written out because browsers forget them then.
 */
export function table(label: string, columns: readonly Column[], rows: readonly Part[][]): Html {
  const head = columns.map(
    ({ head: text, number }) =>
      markup`<th role="columnheader" scope="col"${number ? markup` class="num"` : ''}>${text}</th>`,
  );
  const body = rows.map(
    (cells) =>
      markup`<tr role="row">
${cells.map((cell, i) => tableCell(cell, columns[i] ?? { head: '' }))}
</tr> `,
  );
  return markup`<table role="table" aria-label="${label}">
<thead role="rowgroup">
<tr role="row">
${head}
</tr>
</thead>
<tbody role="rowgroup">
${body}
</tbody>
</table> `;
}

function tableCell(cell: Part, { head, number, long, title }: Column): Html {
  const kinds = [number && 'num', long && 'long', asHtml(cell) === '' && 'empty']
    .filter(Boolean)
    .join(' ');
  const kind = kinds === '' ? '' : markup` class="${kinds}"`;
  return title
    ? markup`<th role="rowheader" scope="row"${kind}>${cell}</th>`
    : markup`<td role="cell" data-head="${head}"${kind}><span>${cell}</span></td>`;
}
