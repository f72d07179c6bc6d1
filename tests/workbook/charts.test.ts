import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Tree } from '../../src/engine/plan/model.js';
import { planSeason } from '../../src/engine/plan/season.js';
import { parseRules } from '../../src/engine/rules/rule-table.js';
import { L_PER_GALLON } from '../../src/engine/units.js';
import { readWeather } from '../../src/tables/weather.js';
import { letter, rich, tablesOf } from '../../src/workbook/model.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { column } from './cells.js';
import { sampleJob } from './job.js';
import { inFolder, PROGRAMS, skipWithout } from './programs.js';

let job: PlanJob;
beforeAll(async () => {
  job = await sampleJob();
});

interface Read {
  sheet: string;
  kind: string;
  title: string;
  x: string;
  y: string;
  series: { name: string; values: string; categories: string }[];
}

const READ = `
import json, sys, openpyxl
def words(title):
    if title is None or title.tx is None or title.tx.rich is None: return ""
    return "".join(r.t for p in title.tx.rich.p for r in (p.r or []))
def ref(x):
    if x is None: return ""
    for kind in (x.numRef, getattr(x, "strRef", None)):
        if kind is not None: return kind.f
    return ""
out = []
for sheet in openpyxl.load_workbook(sys.argv[1]).worksheets:
    for c in sheet._charts:
        out.append(dict(sheet=sheet.title, kind=type(c).__name__, title=words(c.title), x=words(c.x_axis.title), y=words(c.y_axis.title),
            series=[dict(name=(s.tx.v or (s.tx.strRef and s.tx.strRef.f) or "") if s.tx else "", values=ref(s.val), categories=ref(s.cat)) for s in c.series]))
json.dump(out, sys.stdout)
`;

const readCharts = (path: string): Read[] =>
  JSON.parse(
    execFileSync(PROGRAMS.openpyxl!, ['-c', READ, path], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    }),
  ) as Read[];

/** Descriptions of the frames that hold charts, from the parts of the file themselves. */
const DESCRIBED = `
import json, sys, zipfile, re
with zipfile.ZipFile(sys.argv[1]) as z:
    out = [d for n in z.namelist() if n.startswith("xl/drawings/drawing") for d in re.findall(r'<xdr:cNvPr[^>]*descr="([^"]*)"', z.read(n).decode())]
json.dump(out, sys.stdout)
`;

describe('native charts', () => {
  it.skipIf(skipWithout('openpyxl'))(
    'are in the file with titles, axis names, series and alternative text',
    async () => {
      const bytes = await writeXlsx(job.model, { pictures: false });
      const [charts, described] = inFolder((folder) => {
        const path = join(folder, 'book.xlsx');
        writeFileSync(path, bytes);
        const alt = execFileSync(PROGRAMS.openpyxl!, ['-c', DESCRIBED, path], { encoding: 'utf8' });
        return [readCharts(path), JSON.parse(alt) as string[]];
      });
      expect(charts.map((c) => `${c.sheet} ${c.kind}`)).toEqual([
        'Charts LineChart',
        'Charts BarChart',
        'Balance LineChart',
      ]);
      for (const c of charts) for (const text of [c.title, c.x, c.y]) expect(text).not.toBe('');
      expect(charts.map((c) => c.series.length)).toEqual([3, 1, 4]);
      expect(charts[0]!.series.map((s) => s.name)).toEqual(['Demand', 'Watering', 'Rain that counts']); // prettier-ignore
      expect(charts[0]!.y).toBe('gal a week');
      expect(described).toHaveLength(3);
      for (const text of described) expect(text).toMatch(/chart .*\d/);
      const need = Math.round(demandOfSeason().demand / L_PER_GALLON).toLocaleString('en-US');
      expect(described[0]).toContain(`Demand of the season ${need} gal`);
    },
  );

  it('draw columns of their own sheet, as many categories as values', () => {
    for (const sheet of job.model.sheets)
      for (const chart of sheet.charts)
        for (const { values, categories } of chart.series) {
          const rows = [values, categories].map((range) => {
            const found = /^(\w+)!\$([A-Z]+)\$(\d+):\$\2\$(\d+)$/.exec(range);
            expect(found?.[1], range).toBe(sheet.name);
            const at = tablesOf(sheet).find((t) => t.top + 1 === Number(found![3]))!;
            expect(at.top + at.rows.length).toBe(Number(found![4]));
            const c = at.columns.findIndex((_, i) => letter(i) === found![2]);
            const cells = at.rows.map((row) => rich(row[c]!).value);
            expect(cells.every((v) => typeof v === 'number')).toBe(true);
            expect(sheet.hidden).not.toContain(found![2]);
            return cells.length;
          });
          expect(rows[0]).toBe(rows[1]);
        }
  });

  it.skipIf(skipWithout('LibreOffice', 'openpyxl'))(
    'are drawn by LibreOffice: it opens all three and saves them again',
    async () => {
      const bytes = await writeXlsx(job.model, { pictures: false });
      const again = inFolder((folder) => {
        const path = join(folder, 'book.xlsx');
        mkdirSync(join(folder, 'out'));
        writeFileSync(path, bytes);
        execFileSync(
          PROGRAMS.LibreOffice!,
          [`-env:UserInstallation=file://${join(folder, 'profile')}`, '--headless', '--convert-to', 'xlsx', '--outdir', join(folder, 'out'), path],
          { stdio: 'ignore' },
        ); // prettier-ignore
        return readCharts(join(folder, 'out', 'book.xlsx'));
      });
      expect(again.map((c) => c.sheet)).toEqual(['Charts', 'Charts', 'Balance']);
      const ours = job.model.sheets.flatMap((s) => s.charts);
      again.forEach((c, i) => {
        expect(c.title).toBe(ours[i]!.title);
        expect(c.series.map((s) => s.values.replaceAll("'", ''))).toEqual(
          ours[i]!.series.map((s) => s.values),
        );
      });
    },
  );

  /** Demand and rain of every tree from the engine's own days [L]. */
  function demandOfSeason(): { demand: number; rain: number } {
    let [demand, rain] = [0, 0];
    const weather = readWeather(job.setup.weather, job.setup.site).weather;
    for (const row of job.reading.rows) {
      if (!row.tree) continue;
      const count = row.tree.count;
      planSeason({
        trees: [row.tree as Tree],
        site: job.setup.site, weather, kit: job.setup.kit,
        rules: parseRules(job.setup.rules, job.setup.stages),
        onDay: (_, day) => {
          demand += day.demand * count;
          rain += day.rainIn * count;
        },
      }); // prettier-ignore
    }
    return { demand, rain };
  }

  it('show weeks that add up to the engine’s days and to the plan', () => {
    const total = (key: string): number =>
      (column(job.model, 'Weeks', key) as number[]).reduce((a, b) => a + b, 0) * L_PER_GALLON;
    const { demand, rain } = demandOfSeason();
    expect(total('demand') / demand).toBeCloseTo(1, 9);
    expect(total('rain') / rain).toBeCloseTo(1, 9);
    const planned = job.plan.trees.reduce((sum, t) => sum + t.chosen.litres * t.tree.count, 0);
    expect(total('water') / planned).toBeCloseTo(1, 9);
    const from = column(job.model, 'Weeks', 'from') as number[];
    const to = column(job.model, 'Weeks', 'to') as number[];
    expect(from[0]).toBe(job.plan.site.seasonFrom);
    expect(to.at(-1)).toBe(job.plan.site.seasonTo);
    for (let i = 1; i < from.length; i++) expect(from[i]).toBe(to[i - 1]! + 1);
    const hours = (column(job.model, 'CrewHours', 'hours') as number[]).reduce((a, b) => a + b, 0);
    expect(hours).toBeCloseTo(
      job.plan.crewDays.reduce((sum, d) => sum + d.hours, 0),
      9,
    );
  });
});
