import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runInNewContext } from 'node:vm';
import { afterEach, describe, expect, it } from 'vitest';
import { workbookKind } from './book-kinds.js';
import { FakeHost, type FakeOptions } from './fake-host.js';
import type { AnyKind } from './members.js';
import { officeScript } from './page-host.js';

let remove = (): void => undefined;
afterEach(() => remove());
function host(options: FakeOptions = { sheets: [{ name: 'One', values: [['a', 1]] }] }): FakeHost {
  const made = new FakeHost(options);
  remove = made.install();
  return made;
}
/** The code of the error a piece of work ends in. */
async function code(work: (context: Excel.RequestContext) => unknown): Promise<string> {
  try {
    await Excel.run(async (context) => {
      await work(context);
    });
  } catch (error) {
    return (error as { code?: string }).code ?? String(error);
  }
  return 'none';
}
const one = (context: Excel.RequestContext): Excel.Worksheet =>
  context.workbook.worksheets.getItem('One');
/** Members the types would not let us write. */
const loose = (value: unknown): Record<string, (...args: unknown[]) => unknown> =>
  value as Record<string, (...args: unknown[]) => unknown>;

describe('reading', () => {
  it('what was not loaded, or not yet synced, throws', async () => {
    host();
    expect(await code((c) => void one(c).name)).toBe('PropertyNotLoaded');
    expect(await code((c) => { const s = one(c); s.load('name'); void s.name; })).toBe('PropertyNotLoaded'); // prettier-ignore
    expect(await code((c) => void c.workbook.worksheets.items)).toBe('PropertyNotLoaded');
    expect(await code((c) => void c.workbook.worksheets.getItemOrNullObject('x').isNullObject)).toBe('PropertyNotLoaded'); // prettier-ignore
    expect(await code(async (c) => { const s = one(c); s.load('name'); await c.sync(); expect(s.name).toBe('One'); void s.id; })).toBe('PropertyNotLoaded'); // prettier-ignore
  });

  it('an empty load and unknown members throw', async () => {
    host();
    expect(await code((c) => void loose(one(c))['load']!())).toBe('InvalidArgument');
    expect(await code((c) => void one(c).load('nmae'))).toBe('UnknownMember');
    expect(await code((c) => void loose(one(c))['getRangeByName']!('x'))).toBe('UnknownMember');
    expect(await code((c) => Object.assign(one(c), { colour: 'red' }))).toBe('UnknownMember');
    expect(await code((c) => Object.assign(one(c), { id: 'x' }))).toBe('InvalidOperation');
  });

  it('arguments that are too many, or of the wrong kind, throw', async () => {
    host();
    expect(await code((c) => void loose(one(c))['getRange']!('A1', 'B2'))).toBe('InvalidArgument');
    expect(await code((c) => void loose(one(c))['getRange']!(5))).toBe('InvalidArgument');
    expect(await code((c) => void one(c).getCell(-1, 0))).toBe('InvalidArgument');
    expect(await code((c) => Object.assign(one(c).getRange('A1').format.font, { bold: 'yes' }))).toBe('InvalidArgument'); // prettier-ignore
  });

  it('null objects swallow what is asked of them, others are missed at sync', async () => {
    host();
    expect(await code((c) => c.workbook.worksheets.getItemOrNullObject('Gone').delete())).toBe(
      'none',
    );
    expect(await code((c) => void c.workbook.worksheets.getItem('Gone'))).toBe('ItemNotFound');
  });
});

describe('writing', () => {
  it('happens at sync, in order, up to the statement that fails, which is named', async () => {
    const fake = host();
    const error = await Excel.run(async (context) => {
      one(context).getRange('A1').values = [['b']];
      expect(fake.values('One')[0]![0]).toBe('a');
      one(context).getRange('A2:B3').values = [[1]];
      one(context).getRange('A4').values = [['never']];
      await context.sync();
    }).catch((e: unknown) => e as { code: string; debugInfo: { statement: string } });
    expect(error).toMatchObject({ code: 'InvalidArgument' });
    expect((error as { debugInfo: { statement: string } }).debugInfo.statement).toContain('values = [[1]]'); // prettier-ignore
    expect(fake.values('One')).toEqual([['b', 1]]);
  });

  it('text is read as typed unless the cell is text or an apostrophe says so', async () => {
    const fake = host();
    await Excel.run(async (context) => {
      const sheet = one(context);
      sheet.getRange('B1').numberFormat = [['@']];
      sheet.getRange('A1:C1').values = [['=1+1', '=1+1', "'=1+1"]];
      sheet.getRange('A2:E2').values = [['12', '1/2', 'true', '10%', '+A1']];
      await context.sync();
    });
    expect(['A1', 'B1', 'C1'].map((at) => fake.cell('One', at).formula)).toEqual(['=1+1', '', '']);
    expect(fake.cell('One', 'C1').value).toBe('=1+1');
    expect(fake.values('One')[1]!.map((v) => typeof v)).toEqual(['number', 'number', 'boolean', 'number', 'string']); // prettier-ignore
    expect(fake.cell('One', 'E2').formula).toBe('=+A1');
  });

  it('a formula may not name a sheet that is not there', async () => {
    host();
    const write = (text: string) => (c: Excel.RequestContext) => void (one(c).getRange('A1').formulas = [[text]]); // prettier-ignore
    expect(await code(write('=Two!A1'))).toBe('InvalidArgument');
    expect(await code(write(`="Two!A1"&'One'!B1`))).toBe('none');
  });

  it('requests and answers above the limit throw; syncs and bytes are counted', async () => {
    const fake = host({ sheets: [{ name: 'One', values: [['x'.repeat(3000)]] }], payload: 2000 });
    expect(await code((c) => void (one(c).getRange('A1').values = [['y'.repeat(3000)]]))).toBe('RequestPayloadSizeLimitExceeded'); // prettier-ignore
    expect(await code((c) => void one(c).getRange('A1').load('values'))).toBe('ResponsePayloadSizeLimitExceeded'); // prettier-ignore
    expect(fake.runs[0]!.syncs[0]!.bytes).toBeGreaterThan(3000);
    expect(fake.syncs).toBe(2);
  });

  it('our functions show #NAME? while the add-in is missing', async () => {
    const fake = host({ sheets: [{ name: 'One', values: [] }], addInMissing: true });
    await code((c) => void (one(c).getRange('A1:B1').formulas = [['=SOAK.X(1)', '=SUM(1)']]));
    expect(fake.values('One')).toEqual([['#NAME?', '(calculated)']]);
  });
});

describe('rules of the program', () => {
  it.each(['', 'x'.repeat(32), 'a/b', 'a:b', "'a", 'History'])(
    'no sheet may be called "%s"',
    async (name) => {
      host();
      expect(await code((c) => void c.workbook.worksheets.add(name))).toBe('InvalidArgument');
    },
  );

  it('names of sheets, tables and names are there once, whatever their case', async () => {
    host();
    expect(await code((c) => void c.workbook.worksheets.add('ONE'))).toBe('ItemAlreadyExists');
    const add = (c: Excel.RequestContext) => {
      one(c).getRange('A1:A2').values = [['Head'], [1]];
      one(c).tables.add('A1:A2', true).name = 'Trees';
    };
    expect(await code((c) => { add(c); c.workbook.names.add('TREES', '=One!$A$1'); })).toBe('ItemAlreadyExists'); // prettier-ignore
    expect(await code((c) => void c.workbook.names.add('AB12', '=One!$A$1'))).toBe(
      'InvalidArgument',
    );
    expect(await code((c) => void c.workbook.names.add('Good', 'One!$A$1'))).toBe(
      'InvalidArgument',
    );
  });

  it.each([
    [
      'an empty header',
      [
        ['A', ''],
        [1, 2],
      ],
    ],
    [
      'a header that is a number',
      [
        ['A', 5],
        [1, 2],
      ],
    ],
    [
      'a header twice',
      [
        ['A', 'a'],
        [1, 2],
      ],
    ],
  ])('no table with %s', async (_, values) => {
    host();
    expect(await code((c) => { one(c).getRange('C1:D2').values = values; one(c).tables.add('C1:D2', true); })).toBe('InvalidArgument'); // prettier-ignore
  });

  it('tables may not overlap, and need a row', async () => {
    host();
    const write = (c: Excel.RequestContext) => void (one(c).getRange('C1:D2').values = [['A', 'B'], [1, 2]]); // prettier-ignore
    expect(await code((c) => { write(c); one(c).tables.add('C1:D2', true); one(c).tables.add('D1:D2', true); })).toBe('InvalidArgument'); // prettier-ignore
    expect(await code((c) => { write(c); one(c).tables.add('C1:D1', true); })).toBe('InvalidArgument'); // prettier-ignore
  });

  it('the last sheet stays, a protected structure too', async () => {
    const fake = host();
    expect(await code((c) => one(c).delete())).toBe('GeneralException');
    fake.book.structureProtected = true;
    expect(await code((c) => void c.workbook.worksheets.add('Two'))).toBe('AccessDenied');
  });

  it('long lists, functions of ours in conditions and cells of a sheet behind are refused', async () => {
    host({
      sheets: [
        { name: 'One', values: [] },
        { name: 'Two', values: [] },
      ],
    });
    expect(await code((c) => void (one(c).getRange('A1').dataValidation.rule = { list: { inCellDropDown: true, source: 'x'.repeat(256) } }))).toBe('InvalidArgument'); // prettier-ignore
    expect(await code((c) => { one(c).getRange('A1').conditionalFormats.add('Custom').custom.rule.formula = '=SOAK.X(A1)'; })).toBe('InvalidArgument'); // prettier-ignore
    expect(await code((c) => c.workbook.worksheets.getItem('Two').getRange('A1').select())).toBe('InvalidOperation'); // prettier-ignore
  });

  it('what a requirement set does not have is not there', async () => {
    host({ sheets: [{ name: 'One', values: [] }], set: 8 });
    expect(Office.context.requirements.isSetSupported('ExcelApi', '1.8')).toBe(true);
    expect(Office.context.requirements.isSetSupported('ExcelApi', '1.9')).toBe(false);
    expect(await code((c) => void one(c).getRanges('A1,B2'))).toBe('ApiNotFound');
    expect(await code((c) => void one(c).pageLayout)).toBe('ApiNotFound');
    expect(await code((c) => void one(c).getRange('A1'))).toBe('none');
  });
});

describe('the stand-in beside the published types', () => {
  const types = readFileSync(join(import.meta.dirname, '../../node_modules/@types/office-js/index.d.ts'), 'utf8'); // prettier-ignore
  const excel = types.slice(types.indexOf('declare namespace Excel {'));
  /** Members of a class with their set, from the comment above each. */
  function published(name: string): Map<string, number> {
    const start = new RegExp(`\\n    class ${name}\\b[^\\n]*\\{`).exec(excel);
    const out = new Map<string, number>();
    if (!start) return out;
    const body = excel.slice(start.index, excel.indexOf('\n    }\n', start.index));
    for (const [, comment, member] of body.matchAll(/\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\s*(?:readonly )?(\w+)\??[(:]/g)) {
      const set = /Api set: ExcelApi 1\.(\d+)/.exec(comment!);
      if (!out.has(member!)) out.set(member!, Number(set?.[1] ?? 0));
    }
    return out;
  } // prettier-ignore

  function kinds(from: AnyKind, found = new Set<AnyKind>()): Set<AnyKind> {
    if (found.has(from)) return found;
    found.add(from);
    const next = [...Object.values(from.navs).map((n) => n.kind()), ...Object.values(from.methods).flatMap((m) => (typeof m.gives === 'object' ? [m.gives.kind()] : []))]; // prettier-ignore
    if (from.items) next.push(from.items.kind());
    next.forEach((kind) => kinds(kind, found));
    return found;
  }

  it('every member it has is published, with the same requirement set', () => {
    const wrong: string[] = [];
    let checked = 0;
    for (const kind of kinds(workbookKind)) {
      if (/^EventHandler/.test(kind.name)) continue; // shared by all programs, outside the namespace
      const members = published(kind.name);
      for (const [name, { since }] of Object.entries({ ...kind.props, ...kind.navs, ...kind.methods })) {
        checked++;
        const set = members.get(name);
        if (set === undefined) wrong.push(`${kind.name}.${name} is not published`);
        else if (set !== 0 && set !== since) wrong.push(`${kind.name}.${name}: 1.${since}, published 1.${set}`); // prettier-ignore
      }
    } // prettier-ignore
    expect(wrong).toEqual([]);
    expect(checked).toBeGreaterThan(150);
  });
});

describe('the stand-in as the office.js of a page', () => {
  it('is one script that opens a workbook and lets a test look into it', async () => {
    const script = await officeScript({ sheets: [{ name: 'Street', values: [['</script>'], ['A-1']] }] }); // prettier-ignore
    expect(script).not.toContain('</script>');
    const page: Record<string, unknown> = { setTimeout, structuredClone };
    runInNewContext(`globalThis.window = globalThis;\n${script}`, page);
    const fake = page['fakeHost'] as FakeHost;
    const run = (page['Excel'] as typeof Excel).run;
    await run(async (context) => {
      context.workbook.worksheets.add('New').getRange('A1').values = [['x']];
      await context.sync();
    });
    expect(fake.sheets()).toEqual(['Street', 'New']);
    expect(fake.values('New')).toEqual([['x']]);
    expect(fake.syncs).toBe(1);
  });
});
