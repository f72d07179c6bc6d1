/**
 * The parts of our files against ECMA-376. The standard's own schema files could not be had under a known licence, so
 * this is a structural check of our own: orders of elements written down again (`ooxml/orders.ts` says which were seen
 * and which are from memory), and what no schema says: relations, types, indices, headers, names, places.
 * Types of single attributes are not checked; LibreOffice, Gnumeric and openpyxl open the same files in other tests.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { rasterise } from '../../src/cli/rasterise.js';
import { clientCopy } from '../../src/workbook/exports/client-copy.js';
import { crewCopy } from '../../src/workbook/exports/crew-copy.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { contextOf } from './exports/samples.js';
import { sampleJob } from './job.js';
import { faultsIn } from './ooxml/faults.js';
import { parse, unzip, type Parts } from './ooxml/parts.js';

let whole: Parts;
let copies: Parts[];
beforeAll(async () => {
  const job = await sampleJob({ crewLanguage: 'both' });
  whole = unzip(await writeXlsx(job.model, { rasterise }));
  const ctx = { ...contextOf(job, 'US'), crewLanguage: 'both' as const };
  copies = await Promise.all([clientCopy(ctx), crewCopy(ctx)].map(async (m) => unzip(await writeXlsx(m)))); // prettier-ignore
});

const decode = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

/** A small file with all that can break: the client's copy has tables, jumps and a chart, the plan validations. */
const changed = (parts: Parts, part: RegExp, from: string | RegExp, to: string): Parts => {
  const out = new Map(parts);
  const name = [...parts.keys()].find((key) => part.test(key));
  if (name === undefined) throw new Error(`no part ${part}`);
  const before = decode(parts.get(name)!);
  const after = before.replace(from, to);
  if (after === before) throw new Error(`${name} holds nothing like ${from}`);
  return out.set(name, new TextEncoder().encode(after));
};

describe('the parts of a written workbook', () => {
  it('have no fault in the plan of the sample, with crew sheets in both languages', () => {
    expect(whole.size).toBeGreaterThan(70);
    expect(faultsIn(whole)).toEqual([]);
  });

  it('have none in the copies for client and crew', () => {
    for (const parts of copies) expect(faultsIn(parts)).toEqual([]);
  });
});

const SHEET = /worksheets\/sheet1\.xml$/;
const BOOK = /xl\/workbook\.xml$/;
const STYLES = /styles\.xml$/;
const TABLE = /tables\/table1\.xml$/;
const CHART = /charts\/chart1\.xml$/;
const DRAWING = /drawings\/drawing\d+\.xml$/;
const TYPES = /Content_Types/;
const RELATIONS = /sheet1\.xml\.rels$/;

/** Part, what is changed to what, and the sentence that must come of it. */
const BROKEN: [what: string, part: RegExp, from: string | RegExp, to: string, said: RegExp][] = [
  ['a tag left open', SHEET, '</sheetData>', '', /<\/worksheet> closes <sheetData>/],
  ['a control character', SHEET, '<sheetData>', '<sheetData>\u0001', /character XML may not hold/],
  ['a bare ampersand', /core\.xml$/, '<dc:title>', '<dc:title>& ', /character XML may not hold/],
  ['an attribute given twice', SHEET, '<dimension ', '<dimension ref="A1" ', /ref twice/],
  ['page set-up before the cells', SHEET, /(<sheetData>[^]*<\/sheetData>)([^]*)(<pageMargins[^>]*>)/, '$3$1$2', /<sheetData> stands after <pageMargins>/],
  ['a second dimension', SHEET, /(<dimension[^>]*>)/, '$1$1', /<dimension> stands twice/],
  ['an element nobody knows', SHEET, '<sheetData>', '<sheetDate/><sheetData>', /<sheetDate> has no place/],
  ['a sheet without cells', SHEET, /<sheetData>[^]*<\/sheetData>/, '', /has no <sheetData>/],
  ['a dimension too small', SHEET, /<dimension ref="A1:[A-Z]+\d+"/, '<dimension ref="A1:A2"', /dimension A1:A2 is not that/],
  ['two cells in one place', SHEET, /(<c r="A1"[^>]*>.*?<\/c>)/, '$1$1', /A1 stands twice/],
  ['rows in disorder', SHEET, '<row r="2"', '<row r="9999"', /row 3 stands after row 9999/],
  ['a cell in another row', SHEET, '<c r="A2"', '<c r="A3"', /A3 stands in row 2/],
  ['a shared text that is not there', SHEET, /(<c r="A1" t="s"[^>]*><v>)\d+/, '$1999999', /takes text 999999/],
  ['a format that is not there', SHEET, /(<c r="A1"[^>]*) s="\d+"/, '$1 s="9999"', /has format 9999/],
  ['a number that is none', SHEET, /(<c r="B\d+" s="\d+"><v>)[\d.]+/, '$1many', /holds the number many/],
  ['an error as a result', SHEET, /<c r="A1" t="s"([^>]*)><v>\d+/, '<c r="A1" t="e"$1><v>#REF!', /holds the error #REF!/],
  ['merged cells', SHEET, '</sheetData>', '</sheetData><mergeCells count="1"><mergeCell ref="A1:B1"/></mergeCells>', /cells are merged/],
  ['a jump to a sheet that is not there', SHEET, /location="[^"]*"/, 'location="Nowhere!A1"', /leads nowhere/],
  ['overlapping columns', SHEET, '<col min="2"', '<col min="1"', /out of order/],
  ['a header too long', SHEET, '<oddHeader>', `<oddHeader>${'x'.repeat(256)}`, /longer than 255/],
  ['two sheets of one name', BOOK, 'name="Estimate"', 'name="about"', /names of sheets are alike/],
  ['a name no sheet can have', BOOK, 'name="Estimate"', 'name="Est:mate"', /is no name of a sheet/],
  ['a sheet without a part', BOOK, 'r:id="rId1"', 'r:id="rId999"', /has no part/],
  ['a name of a table used twice', BOOK, /<\/sheets>(<definedNames>)?/, '</sheets><definedNames><definedName name="Glance">About!$A$1</definedName>', /two names are alike|closes/],
  ['sheets counted wrong in styles', STYLES, /<fonts count="\d+"/, '<fonts count="1"', /<fonts> counts 1/],
  ['a font that is not there', STYLES, /fontId="\d+"(?![^]*<cellXfs)/, 'fontId="500"', /fontId 500/],
  ['a number format that is not there', STYLES, /numFmtId="164" formatCode/, 'numFmtId="464" formatCode', /no number format 164/],
  ['the wrong first fill', STYLES, 'patternType="gray125"', 'patternType="solid"', /none and gray125/],
  ['a column named otherwise than its header', TABLE, /name="What"/, 'name="Which"', /and the column of Glance "Which"/],
  ['two columns of one name', TABLE, /name="Number"/, 'name="what"', /two columns "what"/],
  ['a table wider than its columns', TABLE, /ref="A(\d+):D/, 'ref="A$1:F', /4 columns over/],
  ['a table of its header alone', TABLE, /ref="A(\d+):D\d+"/, 'ref="A$1:D$1"', /no row below its header/],
  ['a table over the next one', TABLE, /ref="A(\d+):D\d+"/, 'ref="A$1:D40"', /lies over another/],
  ['two tables of one number', TABLE, /<table ([^>]*) id="1"/, '<table $1 id="2"', /two tables have one number/],
  ['a name with a blank', TABLE, /displayName="Glance"/, 'displayName="At glance"', /no name of a table/],
  ['a chart without its axis', CHART, /<c:catAx><c:axId val="\d+"\/>/, '<c:catAx><c:axId val="7"/>', /there is no axis/],
  ['values before their categories', CHART, /(<c:cat>.*?<\/c:cat>)(<c:val>.*?<\/c:val>)/, '$2$1', /<cat> stands after <val>/],
  ['a chart of a sheet that is not there', CHART, /<c:f>About!/, '<c:f>Abaut!', /points at a sheet Abaut/],
  ['a chart without series', CHART, /<c:ser>.*<\/c:ser>/, '', /shows nothing/],
  ['a drawing of no part', DRAWING, /r:id="rId1"/, 'r:id="rId77"', /r:id rId77 leads nowhere/],
  ['a drawing of no size', DRAWING, /<xdr:to><xdr:col>\d+/, '<xdr:to><xdr:col>0', /has no size/],
  ['an anchor without client data', DRAWING, '<xdr:clientData/>', '', /has no <clientData>/],
  ['a part without a type', TYPES, /<Default Extension="xml"[^>]*>/, '<Default Extension="png" ContentType="image/png"/><Override PartName="/gone.xml" ContentType="x"/>', /names \/gone\.xml, which is not there/],
  ['a part of the wrong type', TYPES, /spreadsheetml\.styles\+xml/, 'spreadsheetml.table+xml', /is a styles, but/],
  ['a relation to nothing', RELATIONS, /Target="[^"]*table1\.xml"/, 'Target="../tables/table99.xml"', /table99\.xml, which is not there/],
  ['two relations of one number', RELATIONS, /Id="rId2"/, 'Id="rId1"', /has rId1 twice/],
]; // prettier-ignore

describe('a part broken on purpose', () => {
  it.each(BROKEN)('is found out: %s', (_, part, from, to, said) => {
    const faults = faultsIn(changed(copies[0]!, part, from, to));
    expect(
      faults.some((fault) => said.test(fault)),
      faults.join('\n'),
    ).toBe(true);
  });

  const PLAN: typeof BROKEN = [
    ['a name whose sheet wants quotes', BOOK, "'Balance trees'!$A$6", 'Balance trees!$A$6', /Balance_Picks is "Balance trees/],
    ['a name that is a cell', BOOK, 'name="Peak_ET0"', 'name="ET10"', /"ET10" is no name/],
    ['a name of a sheet beyond the last', BOOK, /localSheetId="\d+"/, 'localSheetId="99"', /belongs to no sheet/],
    ['a formula not closed', SHEET, /<f>COUNTIF\(/, '<f>COUNTIF((', /is not closed/],
    ['a formula with its equals sign', SHEET, '<f>COUNTIF', '<f>=COUNTIF', /starts with =/],
    ['a formula to a sheet that is not there', SHEET, '<f>COUNTIF(Trees!', '<f>COUNTIF(Treez!', /points at a sheet Treez/],
    ['a condition without its format', /sheet23\.xml$/, 'dxfId="0"', 'dxfId="9"', /format 9 of/],
    ['two conditions of one rank', /sheet23\.xml$/, 'priority="2"', 'priority="1"', /priority 1/],
    ['validations counted wrong', /sheet23\.xml$/, /<dataValidations count="\d+"/, '<dataValidations count="1"', /<dataValidations> counts 1/],
    ['a message too long', /sheet23\.xml$/, ' prompt="', ` prompt="${'x'.repeat(256)}`, /prompt is longer than 255/],
    ['a validation of no range', /sheet23\.xml$/, /sqref="B7:B26"/, 'sqref="B26:B7"', /no range/],
  ]; // prettier-ignore
  it.each(PLAN)('is found out in the plan: %s', (_, part, from, to, said) => {
    const faults = faultsIn(changed(whole, part, from, to));
    expect(
      faults.some((fault) => said.test(fault)),
      faults.join('\n'),
    ).toBe(true);
  });

  it('is found out: an orphan, and a part that is gone', () => {
    const orphan = new Map(copies[0]).set('/xl/tables/table50.xml', new TextEncoder().encode('<t/>'));
    expect(faultsIn(orphan).join()).toContain('/xl/tables/table50.xml: nothing leads to it');
    const gone = new Map(copies[0]);
    gone.delete('/xl/styles.xml');
    expect(faultsIn(gone).join()).toContain('/xl/styles.xml, which is not there');
  }); // prettier-ignore
});

describe('the reader of parts', () => {
  it('reads names, attributes, entities and text', () => {
    const root = parse('<?xml version="1.0"?><a x="1 &lt; 2"><b/>t&#x41;&amp;</a>');
    expect(root).toMatchObject({ name: 'a', attributes: { x: '1 < 2' }, text: 'tA&' });
    expect(root.children.map((c) => c.name)).toEqual(['b']);
  });

  it('refuses what is no document', () => {
    for (const text of ['', '<a>', '<a></b>', '<a/><b/>', 'x', '<a b=c/>', '<a>&nope;</a>'])
      expect(() => parse(text), text).toThrow(Error);
  });
});
