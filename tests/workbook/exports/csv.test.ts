import { beforeAll, describe, expect, it } from 'vitest';
import { FORMULA_START, planCsv } from '../../../src/workbook/exports/csv.js';
import type { Context } from '../../../src/workbook/sheets/context.js';
import { skipWithout } from '../programs.js';
import { readCsv, sampleContext } from './samples.js';

let ctx: Context;
beforeAll(async () => {
  ctx = await sampleContext();
});

describe.skipIf(skipWithout('openpyxl'))('the plan as CSV', () => {
  it('holds one row a watering, with numbers that add up to the plan', () => {
    const [head, ...rows] = readCsv(planCsv(ctx));
    const waterings = ctx.plan.trees.reduce((n, t) => n + t.chosen.plan.length, 0);
    expect(rows.length).toBe(waterings);
    const at = head!.indexOf('All (gal)');
    const gallons = rows.reduce((sum, row) => sum + Number(row[at]), 0);
    const litres = ctx.plan.trees.reduce((sum, t) => sum + t.chosen.litres * t.tree.count, 0);
    // rounded to 1e-6 gal a row
    expect(Math.abs(gallons - ctx.show('volume', litres))).toBeLessThan(1e-6 * rows.length);
    for (const row of rows) expect(row.length).toBe(head!.length);
  });

  it('writes days as ISO dates, in order', () => {
    const [, ...rows] = readCsv(planCsv(ctx));
    const days = rows.map((row) => row[0]!);
    for (const day of days) expect(day).toMatch(/^\d{4}-\d\d-\d\d$/);
    expect(days).toEqual([...days].sort());
  });

  it('keeps to RFC 4180: CRLF after every line, the last one too; commas and quotes inside quotes', () => {
    const text = planCsv(ctx);
    expect(text.endsWith('\r\n')).toBe(true);
    expect(text.replace(/\r\n/g, '')).not.toMatch(/[\r\n]/);
    expect(text).toContain('"00:00-10:00, 18:00-24:00"');
  });

  it('starts with a byte order mark only when asked', () => {
    expect(planCsv(ctx).charCodeAt(0)).not.toBe(0xfeff);
    expect(planCsv(ctx, { bom: true }).charCodeAt(0)).toBe(0xfeff);
    expect(planCsv(ctx, { bom: true }).slice(1)).toBe(planCsv(ctx));
  });

  it('shows litres to those who plan in them', async () => {
    const [head] = readCsv(planCsv(await sampleContext('SI')));
    expect(head).toContain('All (L)');
  });
});

describe('text a program could take for a formula', () => {
  // OWASP ASVS 5.0, 1.2.10, seen: = + - @ tab (and NUL, which never gets as far); carriage return and
  // full-width signs: OWASP's page on CSV injection, from memory
  it.each(['=1', '+1', '-1', '@a', '\t=1', '\r=1', '\n=1', '  =1', '＝1', '＋1', '－1', '＠a'])(
    'is known by its start: %j',
    (text) => expect(text).toMatch(FORMULA_START),
  );
  it.each(['a=1', '1-2', "'=1", 'x@y.example', ''])('is not seen where there is none: %j', (text) =>
    expect(text).not.toMatch(FORMULA_START),
  );

  it('gets an apostrophe; a negative number stays a number', () => {
    const first = ctx.plan.trees[0]!;
    const plan = {
      ...ctx.plan,
      trees: [
        {
          ...first,
          tree: { ...first.tree, species: '=1+1', latitude: -3 },
          chosen: {
            ...first.chosen,
            plan: [{ ...first.chosen.plan[0]!, minutes: -3, why: '-3' }],
          },
        },
      ],
    };
    const text = planCsv({ ...ctx, plan });
    expect(text).toContain(`"'=1+1"`);
    expect(text).toContain(`,"'-3"`);
    expect(text).toContain(',-3,');
  });
});
