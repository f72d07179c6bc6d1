/** The plan room: the same answers here and through a worker, stopping, breaking down, and drafts read in place. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { beforeAll, describe, expect, it } from 'vitest';
import { rasterise } from '../../src/cli/rasterise.js';
import { STOPPED as ENGINE_STOPPED } from '../../src/engine/plan/season.js';
import { Problem } from '../../src/engine/problems.js';
import type { Cell, Grid } from '../../src/tables/cells.js';
import { withMarks } from '../../src/tables/kit-example.js';
import { FONT_FILES, type Fonts } from '../../src/workbook/exports/pdf.js';
import { planFromTables } from '../../src/workbook/plan-job.js';
import type { Draft, PlanAsk, PlanRoom } from '../../src/workers/plan-room.js';
import { roomAnswers } from '../../src/workers/room-answers.js';
import { roomHere } from '../../src/workers/room-here.js';
import { roomLine, type RoomWorker } from '../../src/workers/room-line.js';
import { STOPPED, type FromRoom, type ToRoom } from '../../src/workers/room-messages.js';
import { benchTrees } from '../bench/inventory.js';
import { INVENTORY, sampleInput } from '../workbook/job.js';

const { resolve } = createRequire(import.meta.url);
const fonts = async (): Promise<Fonts> => ({
  regular: readFileSync(resolve(FONT_FILES.regular)),
  bold: readFileSync(resolve(FONT_FILES.bold)),
});

const draft = (more: Partial<Draft> = {}): Draft => ({
  units: 'US',
  crewLanguage: 'en',
  corrections: {},
  site: {},
  starter: '',
  ...more,
});
const ask = (trees: Grid, more: Partial<PlanAsk> = {}): PlanAsk => ({
  trees,
  source: 'harbour row',
  sheets: [],
  draft: draft(),
  today: '2027-03-15',
  ...more,
});

/** A worker in this thread whose messages are copied as a real one's are. */
function copyingWorker(): RoomWorker & { ended: boolean; breakDown(why: string): void } {
  let told: (message: FromRoom) => void = () => undefined;
  let broken: (why: string) => void = () => undefined;
  const answer = roomAnswers({ fonts }, (message, handedOver) => {
    const sent = structuredClone(message, { transfer: handedOver });
    setTimeout(() => told(sent), 0);
  });
  const worker = {
    ended: false,
    post: (message: ToRoom, _handedOver: ArrayBuffer[]) => {
      const sent = structuredClone(message);
      setTimeout(() => worker.ended || answer(sent), 0);
    },
    listen(onMessage: (message: FromRoom) => void, onBreakdown: (why: string) => void) {
      told = (message) => worker.ended || onMessage(message);
      broken = onBreakdown;
    },
    end: () => void (worker.ended = true),
    breakDown: (why: string) => broken(why),
  };
  return worker;
}

/** Families of which every tree has its own. */
const ONE_A_TREE = ['bag', 'pad', 'soaker'];

/** Reads the sample's inventory as the panel does. */
async function opened(room: PlanRoom): Promise<Grid> {
  const { sheets, front } = await room.open('harbour-row-trees.csv', readFileSync(INVENTORY));
  return sheets[front]!;
}

const TREES = [
  ['Tag', 'Species', 'DBH', 'Spread', 'Lat', 'Lon'],
  ['A', 'oak', 5, 3, 40.1, -100.2],
  ['B', 'elm', 6, 4, 40.2, -100.2],
  ['C', 'ash', 7, 5, 40.3, -100.2],
  ['D', 'elm', '', '', 40.3, -100.2],
] satisfies Cell[][];

describe('a room here and a room behind a line', () => {
  let here: PlanRoom;
  let line: PlanRoom;
  const workers: ReturnType<typeof copyingWorker>[] = [];
  let trees: Grid;
  beforeAll(async () => {
    here = roomHere({ fonts, rasterise });
    const start = (): RoomWorker => {
      const worker = copyingWorker();
      workers.push(worker);
      return worker;
    };
    line = roomLine({ rasterise, start });
    trees = await opened(line);
  });

  it('give the same reading, setup, rules, plan, tree, what-if and model', async () => {
    const asked = ask(trees);
    expect(await line.read(trees, asked.draft)).toEqual(await here.read(trees, asked.draft));
    expect(await line.setup(trees, asked.draft)).toEqual(await here.setup(trees, asked.draft));
    expect(await line.rules(asked)).toEqual(await here.rules(asked));
    const plan = await line.plan(asked);
    expect(plan).toEqual(await here.plan(asked));
    expect(plan.planned + plan.cannotBeKept).toBe(67);
    const { row } = plan.picks[0]!;
    expect(await line.tree(row)).toEqual(await here.tree(row));
    expect(await line.whatIf()).toEqual(await here.whatIf());
    const model = await line.model();
    expect(model).toEqual(await here.model());
    expect(model.sheets.map(({ name }) => name)).toContain('What if');
    expect(line.starters).toEqual(here.starters);
  });

  it.each(['workbook', 'crew.xlsx', 'client.xlsx', 'plan.csv', 'plan.ics'] as const)(
    'write the same %s, byte for byte',
    async (kind) => {
      const [a, b] = [await line.file({ kind }), await here.file({ kind })];
      expect(a.name).toBe(b.name);
      expect(Buffer.compare(a.bytes, b.bytes)).toBe(0);
    },
  );

  it('make PDF files with the typefaces handed in', async () => {
    const { name, bytes } = await line.file({
      kind: 'crew.pdf',
      language: 'es',
      days: ['2027-05-01', '2027-05-03'],
    });
    expect(name).toBe('harbour-row-crew-es.pdf');
    expect(new TextDecoder('latin1').decode(bytes.subarray(0, 5))).toBe('%PDF-');
    await expect(
      line.file({ kind: 'crew.pdf', days: ['2027-05-03', '2027-05-01'] }),
    ).rejects.toThrow(/last day, 2027-05-01, is before the first/);
  });

  it('plan what the command plans', async () => {
    const input = await sampleInput();
    const job = planFromTables({ ...input, units: 'US' });
    const site = { latitude: input.site!.latitude };
    const room = await here.plan(ask(trees, { draft: draft({ site }) }));
    const command = planFromTables({
      inventory: trees.cells,
      fileName: 'harbour row',
      madeOn: input.madeOn,
      units: 'US',
    });
    const sum = (plan: typeof job.plan): number =>
      plan.trees.reduce((n, t) => n + t.chosen.waterings * t.tree.count, 0);
    expect(room.waterings).toBe(sum(command.plan));
    expect(sum(command.plan)).not.toBe(sum(job.plan));
  });

  it('what the plan uses beyond the stock is told with its price: nothing where no more than the stock may be used', async () => {
    const { toBuy } = await here.plan(ask(trees));
    const { plan, setup } = planFromTables({
      inventory: trees.cells,
      fileName: 'harbour row',
      madeOn: (await sampleInput()).madeOn,
      units: 'US',
    });
    const wanted = setup.kit.flatMap(({ name, family, stock, price }) => {
      if (!['bag', 'pad', 'soaker'].includes(family)) return [];
      const using = plan.trees.filter((t) => t.chosen.waterings > 0 && t.chosen.devices.includes(name)); // prettier-ignore
      const least = using.reduce((n, t) => n + t.tree.count, 0) - stock;
      return least > 0 ? [{ name, least, price }] : [];
    });
    expect(wanted.length).toBeGreaterThan(0);
    for (const { name, least, price } of wanted) {
      const told = toBuy.find(({ device }) => device === name)!;
      // a large tree may take several
      expect(told.pieces).toBeGreaterThanOrEqual(least);
      expect(told.cost).toBeCloseTo(told.pieces * price, 6);
    }
    const site = { stockOnly: 'yes' };
    expect((await here.plan(ask(trees, { draft: draft({ site }) }))).toBuy).toEqual([]);
  });

  it('where one device alone may be bought it is the only one told, for the trees that have it first', async () => {
    const { kit } = await here.setup(trees, draft());
    const own = kit.devices.filter(({ family }) => ONE_A_TREE.includes(family)).map(({ name }) => name); // prettier-ignore
    const bought = async (of: Partial<Draft>) => {
      const { toBuy, problems, remarks } = await here.plan(ask(trees, { draft: draft(of) }));
      const told = toBuy.filter(({ device }) => own.includes(device));
      return { told, said: [...problems, ...remarks].join(' ') };
    };
    const [first] = (await bought({})).told;
    const header = kit.rows[0] as string[];
    const [at, name] = ['Buy more (yes/no)', 'Device'].map((column) => header.indexOf(column));
    const answered = (answer: Cell): Cell[][] =>
      kit.rows.map((row) =>
        row.map((cell, i) => (i === at && row[name!] === first!.device ? answer : cell)),
      );
    const { told, said } = await bought({ kit: answered('yes'), site: { stockOnly: 'yes' } });
    expect(told.map(({ device }) => device)).toEqual([first!.device]);
    expect(told[0]!.pieces).toBeGreaterThanOrEqual(first!.pieces);
    const others = own.filter((device) => device !== first!.device).join(', ');
    expect(said).toMatch(new RegExp(`Stock only for ${others}: |the stock of ${others} is enough`));
    // and where that one alone may not be, no more of it is used than there is
    const without = await bought({ kit: answered('no') });
    expect(without.told.map(({ device }) => device)).not.toContain(first!.device);
    expect(without.said).toContain(`Stock only for ${first!.device}: `);
  });

  it('days with more work than hours are told with the longest, in the panel and on About; with crews enough there are none', async () => {
    const with_ = async (site: Draft['site']) => {
      const own = roomHere({ fonts, rasterise });
      return { own, ...(await own.plan(ask(trees, { draft: draft({ site }) }))) };
    };
    const short = await with_({ crewHours: 1 });
    const { days, available, longest } = short.over!;
    expect(available).toBe(1);
    expect(longest.hours).toBeGreaterThan(1);
    // one crew: the picture of its weeks has the same days above its limit, and the same longest one
    const above = short.crew.days.filter(({ hours }) => hours > short.crew.limit + 1e-9);
    expect(days).toBe(above.length);
    expect(longest.hours).toBeCloseTo(Math.max(...above.map(({ hours }) => hours)), 6);
    const about = (await short.own.model()).sheets[0]!;
    expect(JSON.stringify(about)).toContain('as it stands the plan cannot be worked off');
    expect((await with_({ crewHours: 24, crews: 20 })).over).toBe(undefined);
  }, 60_000);

  it('settings go into the workbook and come back when it is opened', async () => {
    const settings = {
      draft: '{"units":"US","note":"<&\\"Äß"}',
      'columns.abc': 'x'.repeat(40_000),
    };
    const { name, bytes } = await line.file({ kind: 'workbook', settings });
    const back = await line.open(name, bytes);
    expect(back.settings).toEqual(settings);
    expect(back.sheets[back.front]!.name).toBe('Trees');
  });
});

describe('stopping and breaking down', () => {
  const many: Grid = {
    cells: [
      ['Tree ID', 'Species', 'Caliper (in)', 'Canopy (ft)', 'Site'],
      ...benchTrees(900).map((t): Cell[] => [
        t.id,
        t.species,
        t.caliper! / 25.4,
        t.canopy!,
        t.site,
      ]),
    ],
  };

  it('says it is stopped as the engine does', () => expect(STOPPED).toBe(ENGINE_STOPPED));

  it('stops between two batches, in the same worker, and the plan before stays', async () => {
    const workers: ReturnType<typeof copyingWorker>[] = [];
    const room = roomLine({ rasterise, patience: 20_000, start: () => (workers.push(copyingWorker()), workers.at(-1)!) }); // prettier-ignore
    const first = await room.plan(ask({ cells: TREES }));
    const stop = new AbortController();
    const seen: number[] = [];
    const onProgress = (done: number): void => {
      seen.push(done);
      stop.abort();
    };
    await expect(room.plan(ask(many), { onProgress, signal: stop.signal })).rejects.toThrow(
      STOPPED,
    );
    expect(seen.at(-1)).toBeLessThan(900);
    expect((await room.tree(first.picks[0]!.row)).id).toBe('A');
    expect(workers.length).toBe(1);
  });

  it('a worker that does not listen is ended; a fresh one knows the plan before and answers what others asked', async () => {
    const workers: ReturnType<typeof copyingWorker>[] = [];
    const start = (): RoomWorker => {
      const worker = copyingWorker();
      const { post } = worker;
      // the first one is deaf from its second planning on
      if (workers.length === 0)
        worker.post = (message) => {
          if (message.kind === 'stop') return;
          if (message.kind === 'ask' && message.question !== 'plan' && planned) return;
          if (message.kind === 'ask' && message.question === 'plan' && planned) return;
          post(message, []);
        };
      workers.push(worker);
      return worker;
    };
    let planned = false;
    const room = roomLine({ rasterise, patience: 30, start });
    await room.plan(ask({ cells: TREES }));
    planned = true;
    const stop = new AbortController();
    const stopped = room.plan(ask(many), { onProgress: () => undefined, signal: stop.signal });
    const tree = room.tree(2);
    const reading = room.read({ cells: TREES }, draft());
    stop.abort();
    await expect(stopped).rejects.toThrow(STOPPED);
    expect((await reading).usable).toBe(3);
    expect((await tree).id).toBe('A');
    expect(workers.map(({ ended }) => ended)).toEqual([true, false]);
  });

  it('a worker that breaks down gives a sentence, and the next question a fresh worker', async () => {
    const workers: ReturnType<typeof copyingWorker>[] = [];
    const room = roomLine({ rasterise, start: () => (workers.push(copyingWorker()), workers.at(-1)!) }); // prettier-ignore
    await room.plan(ask({ cells: TREES }));
    const lost = room.model();
    await new Promise((done) => setTimeout(done, 0));
    workers[0]!.breakDown('out of memory');
    await expect(lost).rejects.toThrow(/planner broke down .*out of memory.*try again/);
    expect((await room.tree(3)).id).toBe('B');
    expect(workers.length).toBe(2);
  });

  it('a problem comes back as the same sentence, anything else as no problem of the input', async () => {
    const room = roomLine({ rasterise, start: copyingWorker });
    await expect(room.tree(2)).rejects.toThrow(new Problem('there is no plan yet: plan the season first')); // prettier-ignore
    await expect(room.open('x.pdf', new TextEncoder().encode('%PDF-1.7'))).rejects.toThrow(Problem);
    const bad = ask({ cells: TREES }, { draft: draft({ starter: 'no such table' }) });
    await expect(room.plan(bad)).rejects.toThrow(/no rules table "no such table"/);
    await expect(room.read(undefined as unknown as Grid, draft())).rejects.not.toThrow(Problem);
  });

  it('cells are handed over once for all questions', async () => {
    const posted: ToRoom[] = [];
    const start = (): RoomWorker => {
      const worker = copyingWorker();
      const { post } = worker;
      worker.post = (message) => {
        posted.push(message);
        post(message, []);
      };
      return worker;
    };
    const room = roomLine({ rasterise, start });
    const grid = { cells: TREES };
    await room.read(grid, draft());
    await room.setup(grid, draft());
    await room.rules(ask(grid));
    expect(posted.filter(({ kind }) => kind === 'cells').length).toBe(1);
  });
});

describe('a plan that is held', () => {
  const first = ask({ cells: TREES });
  const other = ask({ cells: TREES }, { draft: draft({ site: { crewHours: 2 } }) });
  const rows = async (room: PlanRoom) => {
    const { sheets } = await room.model();
    return JSON.stringify(sheets.find(({ name }) => name === 'Site'));
  };
  const line = (workers: ReturnType<typeof copyingWorker>[]) =>
    roomLine({ rasterise, patience: 30, start: () => (workers.push(copyingWorker()), workers.at(-1)!) }); // prettier-ignore

  it.each(['here', 'behind a line'] as const)('is the plan again, once: %s', async (where) => {
    const room = where === 'here' ? roomHere({ fonts, rasterise }) : line([]);
    expect(await room.back()).toBe(false);
    await room.plan(first);
    const before = await rows(room);
    await room.hold();
    await room.plan(other);
    expect(await rows(room)).not.toBe(before);
    expect(await room.back()).toBe(true);
    expect(await rows(room)).toBe(before);
    expect(await room.back()).toBe(false);
    await room.hold();
    await room.release();
    expect(await room.back()).toBe(false);
  });

  it('is not planned again by the worker that has it, and is by one that takes its place', async () => {
    const workers: ReturnType<typeof copyingWorker>[] = [];
    const room = line(workers);
    let plans = 0;
    const counted = (worker: ReturnType<typeof copyingWorker>): void => {
      const { post } = worker;
      worker.post = (message, handedOver) => {
        if (message.kind === 'ask' && message.question === 'plan') plans++;
        post(message, handedOver);
      };
    };
    await room.read({ cells: TREES }, draft());
    counted(workers[0]!);
    await room.plan(first);
    const before = await rows(room);
    await room.hold();
    await room.plan(other);
    await room.back();
    expect([await rows(room), plans]).toEqual([before, 2]);
    await room.hold();
    await room.plan(other);
    workers[0]!.breakDown('out of memory');
    expect(await room.back()).toBe(true);
    expect(await rows(room)).toBe(before);
    expect([workers.length, plans]).toEqual([2, 3]);
  });

  it('is not replaced by one that was stopped too late', async () => {
    const room = line([]);
    await room.plan(first);
    const before = await rows(room);
    await room.hold();
    const late = room.plan(other);
    expect(await room.back()).toBe(true);
    await late;
    expect(await rows(room)).toBe(before);
  });
});

describe('reading a sheet', () => {
  const room = roomHere({ fonts, rasterise });
  const read = (cells: Cell[][], more: Partial<Draft> = {}) => room.read({ cells }, draft(more));

  it('counts trees, finds the middle latitude, and names the column to look at', async () => {
    const reading = await read(TREES);
    expect(reading).toMatchObject({ rows: 4, usable: 3, trees: 3, latitude: 40.2, headerRow: 0 });
    expect(reading.look).toHaveLength(1);
    expect(reading.look[0]).toMatchObject({
      row: 5,
      id: 'D',
      unusable: true,
      reasons: [{ column: 2 }],
    });
  });

  it('a guessed unit is doubted in a sentence and can be chosen', async () => {
    const trunk = (reading: Awaited<ReturnType<typeof read>>) =>
      reading.columns.find(({ header }) => header === 'DBH')!;
    const before = trunk(await read(TREES));
    expect(before.doubt).toMatch(/unit in as the coordinates lie in North America\.$/);
    expect(before.units).toContain('cm');
    const after = trunk(await read(TREES, { corrections: { DBH: 'circumference cm' } }));
    expect(after).toMatchObject({ meaning: 'circumference', unit: 'cm', doubt: '', ask: false });
  });

  it('a chosen unit changes what is read, an unfit one is refused in a note', async () => {
    const demand = async (unit: string): Promise<number> => {
      const corrections = { Spread: `canopy ${unit}` };
      const { water } = await room.plan(ask({ cells: TREES }, { draft: draft({ corrections }) }));
      return water;
    };
    expect(await demand('m')).toBeGreaterThan(2 * (await demand('ft')));
    const wrong = await read(TREES, { corrections: { Spread: 'canopy gal' } });
    expect(wrong.notes.join(' ')).toMatch(/"Spread": "gal" is not a unit of a canopy diameter/);
  });

  it('a date of a spreadsheet, a number of days, is shown as a date among the samples', async () => {
    const { columns } = await read([['Tree', 'DBH (in)', 'Planted'], ['A', 2, 45000], ['B', 3, 35616]]); // prettier-ignore
    expect(columns.find((c) => c.meaning === 'planted')?.samples).toEqual(['2023-03-15', '1997-07-05']); // prettier-ignore
  });
  it('a column set to ignore is listed as not used, with samples', async () => {
    const reading = await read(TREES, { corrections: { Spread: 'ignore' } });
    expect(reading.unmatched).toEqual([{ column: 3, header: 'Spread', samples: ['3', '4', '5'] }]);
  });

  it('a column without a header has a name by its place and can be told its meaning', async () => {
    const cells: Cell[][] = TREES.map((row, r) => [...row, r === 0 ? '' : `site ${r % 2}`]);
    const before = await read(cells);
    expect(before.unmatched.map(({ header }) => header)).toEqual(['Column 7']);
    const after = await read(cells, { corrections: { 'Column 7': 'site' } });
    expect(after.columns.at(-1)).toMatchObject({ column: 6, header: 'Column 7', meaning: 'site' });
  });

  it('a header that is only close to a known one asks', async () => {
    const [header = [], ...rows] = TREES;
    const reading = await read([header.map((h) => (h === 'DBH' ? 'Calipper' : h)), ...rows]);
    const trunk = reading.columns.find(({ meaning }) => meaning === 'caliper')!;
    expect(trunk).toMatchObject({ header: 'Calipper', ask: true });
    expect(trunk.doubt).toMatch(/^The header is close to/);
  });
});

describe('a draft as a setup', () => {
  const room = roomHere({ fonts, rasterise });
  const setup = (more: Partial<Draft>) => room.setup({ cells: TREES }, draft(more));

  it('every input says where its value is from; the inventory gives the latitude', async () => {
    const { site } = await setup({ site: { elevation: 900 } });
    const field = (key: string) => site.find((f) => f.key === key)!;
    expect(field('latitude')).toMatchObject({ value: 40.2, from: 'inventory', trouble: '' });
    expect(field('elevation')).toMatchObject({ value: 900, unit: 'ft', from: 'typed' });
    expect(field('rootDepth')).toMatchObject({ value: 12, unit: 'in', from: 'default' });
    expect(site.every(({ note, source }) => note !== '' && source !== '')).toBe(true);
  });

  it.each([
    [{ latitude: 'north' }, 'latitude', /is "north", which is not a number; accepted is a number from -90 to 90 deg\.$/],
    [{ texture: 'mud' }, 'texture', /not a word it knows; accepted is one of sand,/],
    [{ seasonFrom: 'soon' }, 'seasonFrom', /not a date; accepted is a date/],
    [{ seasonFrom: '2027-06-01', seasonTo: '2027-05-01' }, 'seasonTo', /ends \(2027-05-01\) before it starts/],
    [{ crews: 1.5 }, 'crews', /not a whole number/],
  ] satisfies [Draft['site'], string, RegExp][])('%j has its trouble beside %s', async (site, key, trouble) => {
    const report = await setup({ site });
    const troubled = report.site.filter((f) => f.trouble !== '');
    expect(troubled.map((f) => f.key)).toEqual([key]);
    expect(troubled[0]!.trouble).toMatch(trouble);
    const plan = await room.plan(ask({ cells: TREES }, { draft: draft({ site }) }));
    expect(plan.problems.join(' ')).toMatch(new RegExp(trouble.source.replace(/\\\.\$$/, '')));
  }); // prettier-ignore

  it('the example’s weather is said to be one, a table of one’s own is not', async () => {
    expect((await setup({})).weather).toMatchObject({ kind: 'example', says: '12 months', problems: [] }); // prettier-ignore
    const months: Cell[][] = [['Month', 'ET0 (in/day)', 'Rain (in)', 'Share counted'], ...Array.from({ length: 12 }, (_, m): Cell[] => [m + 1, 0.2, 1, 0.5])]; // prettier-ignore
    const own = (await setup({ weather: months })).weather;
    expect(own).toMatchObject({ kind: 'monthly', problems: [] });
    expect(own.months[5]).toEqual({ month: 6, et0: 0.2, rain: 1 });
    const none = (await setup({ weather: [['nothing']] })).weather;
    expect(none).toMatchObject({ kind: 'none', months: [] });
    expect(none.problems[0]).toMatch(/no header row; accepted are Month/);
  });

  it('a kit of one’s own replaces the example, with its problems', async () => {
    const kit: Cell[][] = [['Device', 'Family', 'Volume (gal)', 'Rate (gal/h per 100 ft)', 'Length (ft)'], ['our bag', 'bag', 20, '', ''], ['our hose', 'soaker', '', 60, 25], ['bad', 'soaker', '', '', '']]; // prettier-ignore
    const report = (await setup({ kit })).kit;
    expect(report.example).toBe(false);
    expect(report.devices.map(({ size }) => size)).toEqual([
      '20 gal',
      '25 ft at 60 gal/h per 100 ft',
    ]);
    expect(report.problems.join(' ')).toMatch(/"bad" is left out, because a soaker hose needs a measured rate/); // prettier-ignore
  });

  it('the example kit has round sizes in both unit systems, and its devices are known as the example’s until they change', async () => {
    const us = (await setup({})).kit;
    expect(us.devices.map(({ size }) => size)).toEqual(['15 gal', '3 gal', '40 ft at 65 gal/h per 100 ft', '5 gpm', '500 gal at 15 gpm']); // prettier-ignore
    for (const cell of us.rows.slice(1).flat())
      if (typeof cell === 'number') expect(String(cell).length).toBeLessThan(5);
    const si = (await setup({ units: 'SI' })).kit;
    expect(si.devices.map(({ size }) => size)).toEqual(['57 L', '11 L', '12 m at 8 L/h per m', '20 L/min', '1900 L at 60 L/min']); // prettier-ignore
    expect(us.fromExample).toHaveLength(5);
    const price = us.rows[0]!.findIndex((header) => header === 'Price');
    const changed = us.rows.map((row, i) => row.map((cell, c) => (i === 1 && c === price ? 31 : cell))); // prettier-ignore
    expect((await setup({ kit: changed })).kit.fromExample).toEqual(us.fromExample.slice(1));
  });

  it('a number of the example stays the example’s until it is typed or confirmed, cell by cell', async () => {
    const { rows, invented } = (await setup({})).kit;
    const [bag] = invented;
    expect(invented.map(({ name, all }) => [name, all])).toEqual(rows.slice(1).map(([name]) => [name, true])); // prettier-ignore
    expect(bag!.keys).toEqual(['volume', 'holes', 'ratedHours', 'price', 'seasons', 'setupMinutes', 'visitMinutes']); // prettier-ignore
    const report = async (kit: Cell[][], units: Draft['units'] = 'US') => (await setup({ kit, units })).kit; // prettier-ignore
    const column = (name: string) => rows[0]!.indexOf(name);
    const sized = rows.map((row, i) => row.map((cell, c) => (i === 1 && c === column('Volume (gal)') ? 20 : cell))); // prettier-ignore
    const left = bag!.keys.filter((key) => key !== 'volume');
    const typed = withMarks(sized, 0, 1, left);
    for (const units of ['US', 'SI'] as const) {
      const now = await report(typed, units);
      expect(now.invented[0]).toEqual({ name: 'example bag', keys: left, all: false });
      expect(now.fromExample).toEqual(invented.slice(1).map(({ name }) => name));
      // the marks are no fault of the table
      expect(now.problems).toEqual([]);
    }
    // the same number, confirmed; and one that was changed without anybody telling
    expect((await report(withMarks(sized, 0, 1, []))).invented.map(({ name }) => name)).not.toContain('example bag'); // prettier-ignore
    const dearer = typed.map((row, i) => row.map((cell, c) => (i === 1 && c === column('Price') ? 31 : cell))); // prettier-ignore
    expect((await report(dearer)).invented[0]!.keys).toEqual(left.filter((key) => key !== 'price'));
    // a table without marks that shares some numbers with the example is a person's own
    expect((await report(sized)).invented.map(({ name }) => name)).not.toContain('example bag');
  });

  it('a plan names the example’s prices it is made from, and none that is typed or confirmed', async () => {
    const { rows } = (await setup({})).kit;
    const [header, bag] = rows as [Cell[], Cell[]];
    const priced = async (kit: Cell[][] | undefined) =>
      (await room.plan(ask({ cells: TREES }, { draft: draft(kit ? { kit } : {}) }))).inventedPrices;
    const hand = rows.find(([name]) => name === 'example hand hose')!;
    for (const [kit, device, price] of [[[header, hand], 'example hand hose', 40], [[header, bag], 'example bag', 28]] as const) {
      expect(await priced([...kit])).toEqual([{ device, price }]);
      expect(await priced(withMarks([...kit], 0, 1, ['price']))).toEqual([{ device, price }]);
      expect(await priced(withMarks([...kit], 0, 1, ['seasons']))).toEqual([]);
      expect(await priced(withMarks([...kit], 0, 1, []))).toEqual([]);
    }
  }); // prettier-ignore

  it('a plan says the crew hours that are on no crew day, as the sheet Estimate has them', async () => {
    const hose: Cell[][] = [
      ['Device', 'Family', 'Rate (gal/h per 100 ft)', 'Length (ft)', 'Automatic', 'Minutes to set'],
      ['hose', 'soaker', 60, 50, 'yes', 15],
    ];
    const summary = await room.plan(ask({ cells: TREES }, { draft: draft({ kit: hose }) }));
    const model = await room.model();
    const lines = model.sheets.find(({ name }) => name === 'Estimate')!;
    const { settingOut, hoseChecks } = summary.otherHours;
    // a quarter of an hour for each tree
    expect(settingOut).toBeCloseTo(summary.planned / 4, 9);
    expect(hoseChecks).toBeGreaterThan(0);
    const text = JSON.stringify(lines.blocks);
    for (const hours of [settingOut, hoseChecks]) expect(text).toContain(`"value":${hours}`);
    const noTimer = await room.plan(ask({ cells: TREES }, { draft: draft({ kit: [['Device', 'Family', 'Flow (gpm)'], ['by hand', 'hand', 5]] }) }));
    expect(noTimer.otherHours).toEqual({ settingOut: 0, hoseChecks: 0 });
  }); // prettier-ignore

  it('a plan says how many trees have a hose on a timer, and of how many nobody said that there is a tap', async () => {
    const kit = (automatic: string): Cell[][] => [['Device', 'Family', 'Rate (gal/h per 100 ft)', 'Length (ft)', 'Automatic'], ['hose', 'soaker', 60, 50, automatic]];
    const [head, ...rows] = TREES;
    const withTap = (says: (row: number) => string): Cell[][] => [[...head!, 'Tap'], ...rows.map((row, i) => [...row, says(i)])];
    const planned = async (cells: Cell[][], table = kit('yes')) => {
      const { planned: all, onTimers, tapsAssumed } = await room.plan(ask({ cells }, { draft: draft({ kit: table }) }));
      return { all, onTimers, tapsAssumed };
    };
    const all = (await planned(TREES)).all;
    expect(all).toBeGreaterThan(1);
    expect(await planned(TREES)).toEqual({ all, onTimers: all, tapsAssumed: all });
    expect(await planned(TREES, kit('no'))).toEqual({ all, onTimers: 0, tapsAssumed: all });
    expect(await planned(withTap(() => 'yes'))).toEqual({ all, onTimers: all, tapsAssumed: 0 });
    expect(await planned(withTap((row) => (row === 0 ? '' : 'yes')))).toMatchObject({ tapsAssumed: 1 });
    const bag: Cell[][] = [['Device', 'Family', 'Volume (gal)'], ['bag', 'bag', 20]];
    expect(await planned(TREES, bag)).toMatchObject({ onTimers: 0, tapsAssumed: 0 });
  }); // prettier-ignore

  it('the rules report says what is left of the crew’s hours, and again when rules, hours, start or days change', async () => {
    const rules = (hours: string): Cell[][] => [['Days', 'Hours', 'Verdict'], ['any', hours, 'allow']];
    const open = async (site: Draft['site'], hours = '00:00-10:00') => {
      const { crew } = await room.rules(ask({ cells: TREES }, { draft: draft({ rules: rules(hours), site }) }));
      return crew?.lines.map(({ spells }) => spells.map(({ parts }) => parts.map(({ weekdays, hours, minutes }) => [weekdays, hours, minutes])));
    };
    const week = [1, 2, 3, 4, 5, 6];
    expect(await open({})).toEqual([[[[week, '06:00-10:00', 240]]]]);
    expect(await open({ crewStart: '7:00' })).toEqual([[[[week, '07:00-10:00', 180]]]]);
    expect(await open({ crewHours: 3 })).toEqual([]);
    expect(await open({ workDays: 'Mon Tue' })).toEqual([[[[[1, 2], '06:00-10:00', 240]]]]);
    expect(await open({}, '00:00-24:00')).toEqual([]);
    // days that cannot be read are said elsewhere; without trees no rule is asked
    expect(await open({ workDays: 'now and then' })).toBe(undefined);
    expect((await room.rules(ask({ cells: [] }))).crew).toBe(undefined);
  }); // prettier-ignore

  it('the tank crews drive with is the truck’s own, where the kit has one', async () => {
    const kit: Cell[][] = [['Device', 'Family', 'Volume (gal)', 'Flow (gpm)'], ['our truck', 'tanker', 200, 10]]; // prettier-ignore
    expect((await setup({ kit })).kit.tank).toEqual({ device: 'our truck', volume: 200, unit: 'gal' }); // prettier-ignore
    const none = kit.map((row, i) => (i === 0 ? row : ['our truck', 'tanker', null, 10]));
    expect((await setup({ kit: none })).kit.tank).toBe(undefined);
  });

  it('a day of a year that makes no sense is refused in a sentence', async () => {
    const { site } = await setup({ site: { seasonTo: '0027-10-15', seasonFrom: '2101-01-01' } });
    for (const key of ['seasonTo', 'seasonFrom'])
      expect(site.find((field) => field.key === key)!.trouble).toContain('accepted is a date from 1990-01-01 to 2100-12-31'); // prettier-ignore
  });

  it('a stock that is short is shared out without a solver, and said so', async () => {
    const kit: Cell[][] = [['Device', 'Family', 'Volume (gal)', 'Flow (gpm)', 'In stock'], ['our bag', 'bag', 20, '', 1], ['our hose', 'hand', '', 5, 50]]; // prettier-ignore
    const site = { stockOnly: 'yes' };
    const plan = await room.plan(ask({ cells: TREES }, { draft: draft({ kit, site }) }));
    expect(plan.problems.join(' ')).toMatch(/greedy|without a solver|no solver/i);
  });
});

describe('rules in use', () => {
  const room = roomHere({ fonts, rasterise });
  const sheet = { name: 'Rules', cells: [['Days', 'Verdict'], ['Mon', 'allow'], ['Funday', 'allow']] }; // prettier-ignore
  const report = (more: Partial<PlanAsk>) => room.rules(ask({ cells: TREES }, more));

  it('a starter, else the sheet, else the draft’s own, else the example', async () => {
    const own = draft({ rules: [['Days', 'Verdict'], ['Tue', 'allow']] }); // prettier-ignore
    const starter = room.starters[0]!;
    const origins = [
      await report({ draft: { ...own, starter }, sheets: [sheet] }),
      await report({ draft: own, sheets: [sheet] }),
      await report({ draft: own }),
      await report({}),
    ].map(({ origin }) => origin);
    expect(origins).toEqual([`the example “${starter}”`, 'the sheet “Rules”', 'the site’s own table', 'the built-in example']); // prettier-ignore
  });

  it('broken rows are named by their row of the sheet; tables come along to be edited', async () => {
    const { problems, sentences, rules, strip } = await report({ sheets: [sheet] });
    expect(problems.filter(({ broken }) => broken)).toHaveLength(1);
    expect(problems[0]!.sentence).toMatch(/sheet "Rules", row 3/);
    expect(sentences.map(({ row }) => row)).toEqual([2]);
    expect(rules).toEqual(sheet.cells);
    expect(strip!.days).toBe(42);
  });
});
