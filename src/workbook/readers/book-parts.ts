/** Parts of a workbook beside its sheets: what sheets there are, shared texts, which styles show dates, properties. */
import { Problem } from '../../engine/problems.js';
import { attribute, walk, type Handler } from './xml.js';
import type { Container } from './zip.js';

/** Characters XML cannot hold stand as _x000D_. Source: ECMA-376 ST_Xstring. */
export const unescaped = (text: string): string =>
  text.includes('_x')
    ? text.replace(/_x([0-9a-f]{4})_/gi, (_, hex: string) => String.fromCharCode(parseInt(hex, 16)))
    : text;

/** Reads a part where there is one. @returns whether there is */
function walkPart(container: Container, name: string | undefined, to: Handler): boolean {
  const bytes = name === undefined ? undefined : container.part(name);
  if (name === undefined || !bytes) return false;
  walk(name, bytes, to);
  return true;
}

interface Relation {
  id: string;
  /** last word of its type: "worksheet" */
  type: string;
  target: string;
}

/** "xl/worksheets/../sheet1.xml" without its dots. */
function resolved(folder: string, target: string): string {
  const path = target.startsWith('/') ? [] : folder.split('/').filter((p) => p !== '');
  for (const step of target.split('/'))
    if (step === '..') path.pop();
    else if (step !== '' && step !== '.') path.push(step);
  return path.join('/');
}

const folderOf = (part: string): string => part.slice(0, Math.max(0, part.lastIndexOf('/')));

function relations(container: Container, part: string): Relation[] {
  const folder = folderOf(part);
  const name = part.slice(folder === '' ? 0 : folder.length + 1);
  const found: Relation[] = [];
  walkPart(container, `${folder === '' ? '' : `${folder}/`}_rels/${name}.rels`, {
    open(tag, attributes) {
      if (tag !== 'Relationship' || attribute(attributes, 'TargetMode') === 'External') return;
      found.push({
        id: attribute(attributes, 'Id') ?? '',
        type: (attribute(attributes, 'Type') ?? '').replace(/^.*\//, ''),
        target: resolved(folder, attribute(attributes, 'Target') ?? ''),
      });
    },
  });
  return found;
}

export interface Book {
  /** sheets of cells in order, with the parts that hold them */
  sheets: { name: string; part: string }[];
  /** days are counted from 1904 */
  from1904: boolean;
  strings: string[];
  /** by the number of a cell's style: it shows a date */
  dates: boolean[];
  settings: Record<string, string>;
}

const OTHER_KINDS: readonly (readonly [RegExp, string])[] = [
  [/^xl\/workbook\.bin$/i, 'is a workbook of the .xlsb kind; open it and save it as .xlsx'],
  [/^word\//i, 'is a text document; copy its table into a spreadsheet and save that as .xlsx or .csv'],
  [/^ppt\//i, 'is a presentation; copy its table into a spreadsheet and save that as .xlsx or .csv'],
  [/^index\/|\.iwa$/i, 'is a sheet of another program; export it from there as .xlsx or .csv'],
]; // prettier-ignore

/** What a container holds that is no .xlsx workbook, in words for after the file's name. */
function otherKind(container: Container): string {
  const names = container.names();
  const type = container.part('mimetype');
  if (type && new TextDecoder().decode(type).includes('opendocument.spreadsheet'))
    return 'is an OpenDocument sheet (.ods); open it and save it as .xlsx';
  const found = OTHER_KINDS.find(([pattern]) => names.some((name) => pattern.test(name)));
  return (
    found?.[1] ?? 'is a ZIP archive without a workbook in it; unpack it and open the table itself'
  );
}

/** Said of a file instead of about its parts. */
export class OtherKind extends Problem {}

/**
 * Reads everything of a workbook but its cells.
 * @throws OtherKind when the container is of another kind; Problem when a part is damaged
 */
export function readBook(container: Container): Book {
  const top = relations(container, '');
  const main =
    top.find(({ type }) => type === 'officeDocument')?.target ??
    (container.has('xl/workbook.xml') ? 'xl/workbook.xml' : '');
  const named: { name: string; id: string }[] = [];
  let from1904 = false;
  const isBook = /\.xml$/i.test(main) && !/^(word|ppt)\//i.test(main);
  const found = walkPart(container, isBook ? main : undefined, {
    open(tag, attributes) {
      if (tag === 'workbookPr')
        from1904 = /^(1|true)$/i.test(attribute(attributes, 'date1904') ?? '');
      if (tag === 'sheet')
        named.push({ name: attribute(attributes, 'name') ?? '', id: attribute(attributes, 'id') ?? '' }); // prettier-ignore
    },
  });
  if (!found) throw new OtherKind(otherKind(container));
  const own = relations(container, main);
  const partOf = (kind: string): string | undefined =>
    own.find(({ type }) => type === kind)?.target;
  const sheets = named.flatMap(({ name, id }) => {
    const relation = own.find((r) => r.id === id);
    // chart sheets hold no cells
    return relation?.type === 'worksheet' ? [{ name, part: relation.target }] : [];
  });
  return {
    sheets,
    from1904,
    strings: sharedStrings(container, partOf('sharedStrings')),
    dates: dateStyles(container, partOf('styles')),
    settings: customTexts(container, top),
  };
}

/** Texts of the shared table; runs are put together, readings beside them left out. */
function sharedStrings(container: Container, part: string | undefined): string[] {
  const strings: string[] = [];
  let now = '';
  let inText = false;
  let aside = false;
  walkPart(container, part, {
    open(tag) {
      if (tag === 'si') now = '';
      if (tag === 'rPh') aside = true;
      if (tag === 't') inText = !aside;
    },
    close(tag) {
      if (tag === 't') inText = false;
      if (tag === 'rPh') aside = false;
      if (tag === 'si') strings.push(unescaped(now));
    },
    text(text) {
      if (inText) now += text;
    },
  });
  return strings;
}

/** Built-in formats that show days or times. Source: ECMA-376 18.8.30, from memory. */
const isBuiltInDate = (id: number): boolean =>
  (id >= 14 && id <= 22) ||
  (id >= 27 && id <= 36) ||
  (id >= 45 && id <= 47) ||
  (id >= 50 && id <= 58);

/** A format's code shows a date when day, month, year or hour letters stand outside quotes and brackets. */
function isDateCode(code: string): boolean {
  const bare = code
    .replace(/"[^"]*"|\\.|[_*]./g, '')
    .replace(/\[(?!h+\]|m+\]|s+\])[^\]]*\]/gi, '')
    .split(';')[0]!;
  return /[dmyhs]/i.test(bare) && !/general|[#0?]/i.test(bare.replace(/s\.0+/gi, ''));
}

function dateStyles(container: Container, part: string | undefined): boolean[] {
  const codes = new Map<number, string>();
  const dates: boolean[] = [];
  let inCells = false;
  walkPart(container, part, {
    open(tag, attributes) {
      if (tag === 'numFmt')
        codes.set(Number(attribute(attributes, 'numFmtId')), attribute(attributes, 'formatCode') ?? ''); // prettier-ignore
      if (tag === 'cellXfs') inCells = true;
      if (tag !== 'xf' || !inCells) return;
      const id = Number(attribute(attributes, 'numFmtId') ?? 0);
      const code = codes.get(id);
      dates.push(code === undefined ? isBuiltInDate(id) : isDateCode(code));
    },
    close(tag) {
      if (tag === 'cellXfs') inCells = false;
    },
  });
  return dates;
}

/** Texts among the file's custom properties: settings of ours live there. */
function customTexts(container: Container, top: readonly Relation[]): Record<string, string> {
  const part = top.find(({ type }) => type === 'custom-properties')?.target;
  const texts: Record<string, string> = {};
  let name = '';
  let now: string | undefined;
  walkPart(container, part, {
    open(tag, attributes) {
      if (tag === 'property') name = attribute(attributes, 'name') ?? '';
      if (tag === 'lpwstr' || tag === 'lpstr') now = '';
    },
    close(tag) {
      if ((tag === 'lpwstr' || tag === 'lpstr') && name !== '' && now !== undefined)
        Object.defineProperty(texts, name, { value: now, enumerable: true, configurable: true, writable: true }); // prettier-ignore
      if (tag === 'lpwstr' || tag === 'lpstr') now = undefined;
    },
    text(text) {
      if (now !== undefined) now += text;
    },
  });
  return texts;
}
