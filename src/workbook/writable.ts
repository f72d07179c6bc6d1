/** Text and models a file can hold: no control characters, no halves of pairs. An XML part with one would not open. */
import { rich, uniqueHeaders, type ModelCell, type RichCell, type Sheet, type WorkbookModel } from './model.js'; // prettier-ignore

/** C0 and C1 controls but tab, line feed and carriage return, and the two code points XML forbids. */
// eslint-disable-next-line no-control-regex
const CONTROLS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]/g;
/** Half a pair, which no encoding can write. */
const LONE = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;
const EITHER = new RegExp(`${CONTROLS.source}|${LONE.source}`);

/** The text without control characters, halves of pairs marked `\ufffd`. Line breaks and tabs stay. */
export const writable = (text: string): string =>
  EITHER.test(text) ? text.replace(CONTROLS, '').replace(LONE, '\ufffd') : text;

function writableCell(value: ModelCell): ModelCell {
  if (typeof value === 'string') return writable(value);
  if (value === null || typeof value !== 'object') return value;
  return typeof value.value === 'string' ? { ...value, value: writable(value.value) } : value;
}

function writableSheet(sheet: Sheet): Sheet {
  return {
    ...sheet,
    title: writable(sheet.title),
    blocks: sheet.blocks.map((block) => {
      if (block.kind === 'text') {
        const lines = block.lines.map((line) => line.map((c): RichCell => rich(writableCell(c))));
        return { ...block, lines };
      }
      const headers = block.columns.map((c) => writable(c.header));
      // two headers may have differed by what was taken out
      const own = headers.some((h, i) => h !== block.columns[i]!.header)
        ? uniqueHeaders(headers)
        : headers;
      return {
        ...block,
        columns: block.columns.map((c, i) => ({ ...c, header: own[i]! })),
        rows: block.rows.map((row) => row.map(writableCell)),
      };
    }),
  };
}

/** The same workbook in text a file can hold. */
export const writableModel = (model: WorkbookModel): WorkbookModel => ({
  ...model,
  title: writable(model.title),
  description: writable(model.description),
  sheets: model.sheets.map(writableSheet),
});
