import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { readFileSync, writeFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  CLOGGED_BELOW,
  FAULTY_AFTER_HOURS,
  LEAKING_FROM,
} from '../../src/engine/means/bag-check.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import { letter, rich, type Sheet, type WorkbookModel } from '../../src/workbook/model.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { context, type BuildInput, type Context } from '../../src/workbook/sheets/context.js';
import { fieldChecksSheet, FIELD_ROWS } from '../../src/workbook/sheets/field-checks.js';
import type {
  BagTiming,
  FieldReadings,
  FlowReading,
  PadWeighing,
} from '../../src/workbook/sheets/field-readings.js';
import { kitSheet, siteSheet } from '../../src/workbook/sheets/inputs.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { cellsOf, column, differences, errors, table } from './cells.js';
import { sampleJob } from './job.js';
import { inFolder, PROGRAMS, recalculate, skipWithout, type Value, type Values } from './programs.js'; // prettier-ignore

type Units = 'US' | 'SI';
const EACH = 80;

/** Numbers that look random and are the same on every run. */
function stream(seed: number): () => number {
  let state = seed;
  return () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
}

let job: PlanJob;
beforeAll(async () => {
  job = await sampleJob();
});

/** Invented devices that say everything a reading can be compared with. */
const kit = () => [
  ...job.setup.kit,
  { ...job.setup.kit[0]!, name: 'second bag, <5 holes', holes: 2, ratedHours: 8.5, volume: 75 },
  { ...job.setup.kit[0]!, name: 'bag of unknown holes', holes: undefined, ratedHours: undefined },
];

function ctxOf(units: Units): Context {
  const input: BuildInput = {
    plan: job.plan, reading: job.reading, kit: kit(), ruleRows: [], stageRows: [], weatherRows: [],
    units, source: 's', madeOn: 46461, title: 't', notes: [],
  }; // prettier-ignore
  return context(input);
}

function readings(units: Units): FieldReadings {
  const next = stream(units === 'US' ? 11 : 12);
  const between = (low: number, high: number): number =>
    Number((low + next() * (high - low)).toFixed(3));
  const from = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!;
  const about = (device: string) => ({ date: 46461, tree: 'HR-001', device });
  const bags = Array.from({ length: EACH }, (_, i): BagTiming => ({
    ...about(i % 3 === 0 ? '15 gal bag' : i % 3 === 1 ? 'second bag, <5 holes' : ''),
    ...(i % 3 === 2 && { holes: 1 + Math.floor(next() * 8), ratedHours: between(2, 20) }),
    hours: i % 5 === 0 ? between(40, 90) : between(1.5, 14),
    ...(next() < 0.6 && { left: between(0, 0.9) }),
  }));
  // exactly on the borders: 48 h, 0.8 and 1.25 of the holes
  bags.push({ ...about('15 gal bag'), hours: 48 }, { ...about('15 gal bag'), hours: 24, left: 0.25 });
  bags.push({ ...about('15 gal bag'), hours: 5 / 0.8 }, { ...about('15 gal bag'), hours: 4 });
  const flows = Array.from({ length: EACH }, (): FlowReading => {
    const device = from(['', 'soaker, 40 ft on a timer', 'hand hose', '500 gal truck', 'not on Kit']);
    const pressed = device.startsWith('soaker') && next() < 0.5;
    return {
      ...about(device), volume: between(0.5, 20), seconds: between(15, 900),
      ...(pressed && { pressure: between(5, 60), rated: between(8, 40) }),
    };
  });
  const pads = Array.from({ length: EACH }, (): PadWeighing => {
    const dry = between(1, 4);
    const saturated = dry + between(1, 40);
    return {
      ...about(from(['', '3 gal pad'])), saturated, dry,
      ...(next() < 0.6 && { now: Number((dry - 0.5 + next() * (saturated - dry)).toFixed(3)) }),
      ...(next() < 0.4 && { usable: between(0.3, 1) }),
    };
  });
  return { bags, flows, pads };
} // prettier-ignore

function book(units: Units, given: FieldReadings): WorkbookModel {
  const ctx = ctxOf(units);
  const kitBuilt = kitSheet(ctx);
  const site = siteSheet(ctx);
  const field = fieldChecksSheet(ctx, { kit: kitBuilt.refs.place, site: site.refs.value }, given);
  return {
    title: 't', description: 't', madeOn: 46461, paper: 'a4',
    sheets: [site.sheet, kitBuilt.sheet, field.sheet],
    names: { Kit_Devices: kitBuilt.refs.place.range('c0'), Field_Trees: 'Kit!$A$5:$A$6' },
  };
} // prettier-ignore

/** A computed column of a table as a program shows it. */
function shown(values: Values, model: WorkbookModel, name: string, key: string): (Value | undefined)[] {
  const t = table(model, name);
  const at = letter(t.columns.findIndex((c) => c.key === key));
  return t.rows.map((_, i) => values['Field checks']![`${at}${t.top + 1 + i}`]);
} // prettier-ignore

const close = (got: unknown, want: unknown): boolean =>
  typeof got === 'number' && typeof want === 'number'
    ? Math.abs(got - want) <= 1e-9 * Math.max(1, Math.abs(want))
    : got === want;

describe('field checks', () => {
  for (const program of ['LibreOffice', 'Gnumeric'] as const)
    for (const units of ['US', 'SI'] as const)
      it.skipIf(skipWithout(program, 'openpyxl'))(
        `give what the worksheet functions say of ${EACH} readings a table in ${program}, ${units}`,
        async () => {
          const given = readings(units);
          const model = book(units, given);
          const values = recalculate(program, await writeXlsx(model, { uncached: true }));
          expect(errors(values)).toEqual([]);
          const of = (name: string) => (key: string) => shown(values, model, name, key);
          const bag = of('BagTimings');
          const [verdicts, open] = [bag('verdict'), bag('open')];
          const byName = new Map(kit().map((d) => [d.name, d]));
          given.bags.forEach((b, i) => {
            const device = byName.get(b.device);
            const args = [b.holes ?? device?.holes, b.ratedHours ?? device?.ratedHours, b.hours, b.left ?? null]; // prettier-ignore
            const said = FUNCTIONS['BAG_VERDICT']!(...args) as string;
            expect(verdicts[i], `${JSON.stringify(b)}: ${said}`).toBe(said.split(':')[0]);
            expect(close(open[i], FUNCTIONS['BAG_OPEN_HOLES']!(...args)), JSON.stringify(b)).toBe(true); // prettier-ignore
          });
          for (const word of ['ok', 'flush', 'replace']) expect(verdicts).toContain(word);

          const flow = of('FlowReadings');
          const [flows, expected, judged] = [flow('flow'), flow('expected'), flow('verdict')];
          const perUnit = units === 'US' ? 3.785411784 : 1;
          const soaker = table(model, 'Kit').rows.find((row) => String(rich(row[0]!).value).startsWith('soaker'))!; // prettier-ignore
          const [rate, length] = [5, 6].map((c) => rich(soaker[c]!).value);
          given.flows.forEach((f, i) => {
            const measured = FUNCTIONS['BUCKET_FLOW']!(f.volume, f.seconds) as number;
            expect(close(flows[i], measured)).toBe(true);
            const device = byName.get(f.device);
            const want = f.device.startsWith('soaker')
              ? (FUNCTIONS['HOSE_FLOW']!(length, rate, f.pressure ?? null, f.rated ?? null, null, units) as number)
              : device?.flow && device.flow / perUnit; // prettier-ignore
            expect(close(expected[i] ?? '', want ?? ''), JSON.stringify(f)).toBe(true);
            const share = want ? measured / want : undefined;
            expect(judged[i]).toBe(
              share === undefined ? 'noted' : share < 0.8 ? 'low' : share > 1.25 ? 'high' : 'ok',
            );
          });
          for (const word of ['noted', 'low', 'high']) expect(judged).toContain(word);

          const pad = of('PadWeights');
          const [held, left, sayings] = [pad('held'), pad('left'), pad('verdict')];
          const reserve = job.plan.site.padReserve;
          given.pads.forEach((p, i) => {
            const water = FUNCTIONS['PAD_VOLUME']!(p.saturated, p.dry, p.usable ?? null, units) as number; // prettier-ignore
            expect(close(held[i], water)).toBe(true);
            const there =
              p.now === undefined
                ? undefined
                : p.now > p.dry
                  ? (FUNCTIONS['PAD_VOLUME']!(p.now, p.dry, p.usable ?? null, units) as number)
                  : 0;
            expect(close(left[i] ?? '', there ?? ''), JSON.stringify(p)).toBe(true);
            const onKit = p.device === '' ? undefined : byName.get(p.device)!.volume! / perUnit;
            const low = there !== undefined && there / water <= reserve;
            const weak = onKit !== undefined && water < 0.8 * onKit;
            expect(sayings[i], JSON.stringify(p)).toBe(low ? 'soak' : weak ? 'weak' : 'ok');
          });
          for (const word of ['soak', 'weak', 'ok']) expect(sayings).toContain(word);
          // and the numbers the file carries are those the programs come to
          expect(differences(model, values)).toEqual([]);
        },
      );

  it.skipIf(skipWithout('LibreOffice', 'Gnumeric', 'openpyxl'))(
    'says what is missing instead of an error, and nothing on a blank row',
    async () => {
      const about = { date: 46461, tree: '', device: '' };
      const bad = {
        bags: [
          { ...about, hours: 5 },
          { ...about, device: 'bag of unknown holes', hours: 5 },
          { ...about, device: '15 gal bag', hours: 0 },
          { ...about, device: '15 gal bag', hours: 5, left: 1 },
          { ...about, device: '15 gal bag', hours: 5, left: -0.1 },
          { ...about, device: '15 gal bag', hours: 'five' as unknown as number },
          { ...about, device: '15 gal bag', hours: 5, left: 'half' as unknown as number },
        ],
        flows: [
          { ...about, volume: 2, seconds: 0 },
          { ...about, volume: 'two' as unknown as number, seconds: 10 },
        ],
        pads: [
          { ...about, saturated: 2, dry: 3 },
          { ...about, saturated: 5, dry: 0 },
          { ...about, saturated: 5, dry: 1, usable: 2 },
        ],
      };
      const model = book('US', bad);
      for (const program of ['LibreOffice', 'Gnumeric'] as const) {
        const values = recalculate(program, await writeXlsx(model, { uncached: true }));
        expect(errors(values)).toEqual([]);
        for (const [name, rows] of [['BagTimings', bad.bags], ['FlowReadings', bad.flows], ['PadWeights', bad.pads]] as const) {
          const t = table(model, name);
          expect(t.rows).toHaveLength(FIELD_ROWS);
          shown(values, model, name, 'verdict').forEach((v, i) => {
            if (i < rows.length) expect(v, `${name} ${i}`).toMatch(/^▲ /);
            else expect(v ?? '').toBe('');
          });
          for (const key of ['action', 'ready'])
            shown(values, model, name, key).slice(rows.length).forEach((v) => expect(v ?? '').toBe(''));
        }
      } // prettier-ignore
    },
  );

  it.skipIf(skipWithout('LibreOffice', 'openpyxl'))(
    'answers rows that somebody else’s program filled into the finished workbook',
    async () => {
      const bags = table(job.model, 'BagTimings');
      const next = stream(5);
      const rows = Array.from({ length: FIELD_ROWS - 1 }, (_, i) => ({
        row: bags.top + 2 + i, hours: Number((2 + next() * 60).toFixed(2)), left: Number((next() * 0.8).toFixed(2)),
      })); // prettier-ignore
      const values = await filled(await writeXlsx(job.model, { pictures: false }), rows);
      const verdict = letter(bags.columns.findIndex((c) => c.key === 'verdict'));
      const bag = job.setup.kit.find((d) => d.family === 'bag')!;
      for (const r of rows) {
        const said = FUNCTIONS['BAG_VERDICT']!(bag.holes, bag.ratedHours, r.hours, r.left) as string; // prettier-ignore
        expect(values['Field checks']![`${verdict}${r.row}`]).toBe(said.split(':')[0]);
      }
      expect(errors(values)).toEqual([]);
    },
  );

  it('has an example marked invented, lists to pick from, and limits that are the engine’s', () => {
    const trees = column(job.model, 'BagTimings', 'tree');
    expect(trees[0]).toBe('example, invented');
    expect(trees.slice(1).every((v) => v === null)).toBe(true);
    const sheet: Sheet = job.model.sheets.find((s) => s.name === 'Field checks')!;
    expect(sheet.validations.map((v) => v.source).sort()).toEqual(
      ['Field_Trees', 'Field_Trees', 'Field_Trees', 'Kit_Devices', 'Kit_Devices', 'Kit_Devices'],
    );
    const own = job.reading.matches.filter((m) => m.column >= 0).sort((a, b) => a.column - b.column);
    const at = letter(1 + own.findIndex((m) => m.meaning === 'id'));
    expect(job.model.names['Field_Trees']).toMatch(new RegExp(`^Trees!\\$${at}\\$\\d+:\\$${at}\\$\\d+$`));
    expect(column(job.model, 'FieldLimits', 'value').slice(0, 3)).toEqual([FAULTY_AFTER_HOURS, LEAKING_FROM, CLOGGED_BELOW]);
    // limits are pointed at, not typed into formulas
    for (const { cell } of cellsOf(sheet))
      if (cell.formula) expect(cell.formula).not.toMatch(/\b(48|1\.25|0\.8)\b/);
  }); // prettier-ignore
});

const FILL = `
import json, sys, openpyxl
book = openpyxl.load_workbook(sys.argv[1])
sheet = book["Field checks"]
for r in json.loads(sys.argv[3]):
    sheet.cell(r["row"], 3).value = "15 gal bag"
    sheet.cell(r["row"], 6).value = r["hours"]
    sheet.cell(r["row"], 7).value = r["left"]
book.save(sys.argv[2])
`;

/** The workbook after openpyxl typed readings into it and LibreOffice calculated. */
async function filled(bytes: Uint8Array, rows: object[]): Promise<Values> {
  const done = inFolder((folder) => {
    const [before, after] = [join(folder, 'a.xlsx'), join(folder, 'b.xlsx')];
    writeFileSync(before, bytes);
    execFileSync(PROGRAMS.openpyxl!, ['-c', FILL, before, after, JSON.stringify(rows)], {
      stdio: ['ignore', 'ignore', 'ignore'],
    });
    return new Uint8Array(readFileSync(after));
  });
  return recalculate('LibreOffice', done);
}
