/** What would be enough where days do not fit. Common practice, no source. */
import { describe, expect, it, vi } from 'vitest';
import { better, enoughOf, type Tried } from '../../src/taskpane/enough.js';
import { besidesCrews, pairsOf, threeOf, worthFewer } from '../../src/taskpane/enough-together.js';
import { together, waysInTurn, type Single, type Way } from '../../src/taskpane/enough-ways.js';
import { Session } from '../../src/taskpane/session.js';
import { trialOf } from '../../src/taskpane/trial.js';
import { known } from '../../src/taskpane/known.js';
import type { Cell } from '../../src/tables/cells.js';
import { roomHere } from '../../src/workers/room-here.js';
import { memoryHost } from './panel-host.js';

const notAsked = () => Promise.reject(new Error('this test asks for no file'));

/** Invented trees without a tap, so that somebody has to come to each. */
const TREES: Cell[][] = [
  ['Tag', 'Species', 'Caliper (in)', 'Address', 'Site', 'Tap', 'Planted'],
  ...Array.from({ length: 18 }, (_, k): Cell[] => [
    `W-${k + 1}`, 'live oak', 2 + (k % 3), `${k + 1} Hawser Lane`, `Block ${k % 6}`, 'no', '2027-02-01',
  ]),
]; // prettier-ignore
const RULES: Cell[][] = [
  ['Means', 'Address', 'Days', 'Hours', 'Verdict'],
  ['any', 'any', 'any', 'not 10:00-18:00', 'allow'],
];

/** A crew that starts at nine has one open hour a day. */
async function overplanned() {
  const host = memoryHost({ Trees: TREES });
  const room = roomHere({ fonts: notAsked, rasterise: notAsked });
  const session = new Session(host, room);
  await session.start();
  const site = { seasonFrom: '2027-06-01', seasonTo: '2027-07-31', crewStart: '9:00', crewHours: 6, workDays: 'Mon-Fri' };
  await session.change({ site, rules: RULES, stages: [['From', 'Stage']] });
  const plan = vi.spyOn(room, 'plan');
  await session.makePlan();
  expect(session.plan?.over?.days).toBeGreaterThan(0);
  return { host, session, search: enoughOf(session), trial: trialOf(session), plan };
} // prettier-ignore

describe('a plan whose days do not fit', () => {
  it('is said with a triangle and the number of days, never with a tick', async () => {
    const { session } = await overplanned();
    const days = session.plan!.over!.days;
    expect(session.told.kind).toBe('trouble');
    expect(session.told.sentence).toContain(`planned, but ${days} days do not fit`);
    expect(known('build', session)).toEqual({ line: `planned, but ${days} days do not fit`, state: 'look' });
  }); // prettier-ignore
});

describe('what would be enough', () => {
  it('names ways that leave trees out after those that serve them all, however cheap they are', () => {
    const tried = (way: Way, price: number, days = 0): Tried =>
      ({
        way,
        plan: { price, ...(days > 0 && { over: { days, longest: { hours: 9 } } }) },
      }) as Tried;
    const fewer = tried({ kind: 'fewer', trees: 4, weekHours: 3, rows: [2] }, 100);
    const crews = tried({ kind: 'crews', crews: 2 } as Way, 900);
    const short = tried({ kind: 'crews', crews: 3 } as Way, 50, 2);
    expect([fewer, short, crews].sort(better)).toEqual([crews, fewer, short]);
  });
  it('is planned one way after the other, the best first, and the plan is what it was', async () => {
    const { session, search, trial } = await overplanned();
    const before = session.plan;
    const text = JSON.stringify(session.draft);
    await search.start();
    expect(search.ended).toBe('done');
    expect([search.isSearching, trial.active]).toEqual([false, false]);
    expect(session.plan).toBe(before);
    expect(JSON.stringify(session.draft)).toBe(text);
    // the room holds the plan again: what is asked of it now is asked of that one
    const { sheets } = await session.room.model();
    expect(JSON.stringify(sheets.find(({ name }) => name === 'Site'))).toContain('"value":"09:00"');
    const days = search.tried.map(({ plan }) => plan.over?.days ?? 0);
    expect(days).toEqual([...days].sort((a, b) => a - b));
    expect(days[0]).toBe(0);
    const kinds = new Set(search.tried.map(({ way }) => way.kind));
    for (const kind of ['start', 'crews', 'days', 'means']) expect(kinds).toContain(kind);
    // all eight hours before ten are worth more than one
    const start = search.tried.find(({ way }) => way.kind === 'start' && way.start === '04:00');
    expect(start?.plan.over?.days ?? 0).toBeLessThan(before!.over!.days);
  }, 120_000);

  it('leaves out trees by the usual order until the days fit, and says how many hours that takes', async () => {
    const { session, search } = await overplanned();
    await search.start();
    const fewer = search.tried.filter(({ way }) => way.kind === 'fewer');
    expect(fewer.length).toBeGreaterThan(0);
    for (const { way, plan } of fewer) {
      if (way.kind !== 'fewer') continue;
      expect(plan.planned + plan.cannotBeKept + way.trees).toBe(18);
      expect(way.weekHours).toBeLessThanOrEqual(session.plan!.over!.weekHours!);
    }
  }, 120_000);

  it('that is used writes its inputs and is planned', async () => {
    const { session, search } = await overplanned();
    await search.start();
    const start = search.tried.find(({ way }) => way.kind === 'start')!;
    await search.use(start);
    expect(session.draft.site.crewStart).toBe((start.way as Single).change.site?.crewStart);
    expect(session.plan?.over?.days).toBe(start.plan.over?.days);
    expect(session.plan?.water).toBeCloseTo(start.plan.water, 6);
    expect(search.tried).toEqual([]);
  }, 120_000);

  it('that is stopped keeps what was found and goes back to the plan', async () => {
    const { session, search, trial } = await overplanned();
    const before = session.plan;
    const running = search.start();
    await vi.waitFor(() => expect(search.tried.length).toBeGreaterThan(0), { timeout: 60_000 });
    search.stop();
    await running;
    expect(search.ended).toBe('stopped');
    expect(search.tried.length).toBeLessThan(search.most);
    expect(session.plan).toBe(before);
    expect(trial.active).toBe(false);
    expect(session.told.kind).not.toBe('fine');
    const { sheets } = await session.room.model();
    expect(JSON.stringify(sheets.find(({ name }) => name === 'Site'))).toContain('"value":"09:00"');
  }, 120_000);

  it('falls with its plan, and never takes the place of one that is made meanwhile', async () => {
    const { session, search, trial } = await overplanned();
    const running = search.start();
    await vi.waitFor(() => expect(search.running).toBeDefined());
    await session.makePlan();
    await running;
    expect([search.tried, search.ended, trial.active]).toEqual([[], undefined, false]);
    const { sheets } = await session.room.model();
    expect(JSON.stringify(sheets.find(({ name }) => name === 'Site'))).toContain('"value":"09:00"');
  }, 120_000);

  it('keeps values from being tried by hand meanwhile, and is not begun while they are', async () => {
    const { search, trial } = await overplanned();
    trial.set('crews', 2);
    await search.start();
    expect(search.ended).toBeUndefined();
    await vi.waitFor(() => expect(trial.running).toBeUndefined(), { timeout: 60_000 });
    trial.discard();
    const running = search.start();
    expect(trial.active).toBe(true);
    trial.set('crews', 3);
    expect(trial.values).toEqual({});
    search.stop();
    await running;
  }, 120_000);
});

describe('the ways in turn', () => {
  /** Ways that come when each leaves so many days over. */
  async function come(
    left: (way: Way) => number,
    kit?: Cell[][],
    stockOnly = 'no',
  ): Promise<Single[]> {
    const { session } = await overplanned();
    const setup = session.setup!;
    const ways = waysInTurn(session.plan!, {
      ...setup,
      site: setup.site.map((field) =>
        field.key === 'stockOnly' ? { ...field, value: stockOnly } : field,
      ),
      kit: { ...setup.kit, rows: kit ?? setup.kit.rows },
    });
    const all: Single[] = [];
    for (let next = ways.next(); !next.done;) {
      all.push(next.value);
      next = ways.next({ days: left(next.value), means: '' });
    }
    return all;
  }

  it('stop at the smallest number of crews that is enough, and at a bound where none is', async () => {
    const crews = (ways: Way[]) => ways.flatMap((way) => (way.kind === 'crews' ? [way.crews] : []));
    expect(crews(await come((way) => (way.kind === 'crews' && way.crews >= 3 ? 0 : 5)))).toEqual([2, 3]);
    expect(crews(await come(() => 5))).toEqual([2, 3, 4, 5]);
  }); // prettier-ignore
  it('try a milder start only where the earliest is enough', async () => {
    const early = (ways: Way[]) => ways.filter((way) => way.kind === 'start' && way.start < '09:00').length; // prettier-ignore
    expect(early(await come(() => 0))).toBeGreaterThan(early(await come(() => 5)));
  });
  it('double the tank of the kit where refills are a big part, and write it into the kit', async () => {
    const { session } = await overplanned();
    const tank = (await come(() => 5)).find(({ kind }) => kind === 'tank');
    expect(JSON.stringify(tank?.change.kit?.(session.setup!.kit.rows, 'US'))).toContain('1000');
  });
  it('buy what lacks, where the plan keeps to the stock', async () => {
    const bought = async (only: string) => (await come(() => 5, undefined, only)).filter(({ kind }) => kind === 'buying');
    expect(await bought('no')).toEqual([]);
    expect(await bought('yes')).toEqual([{ kind: 'buying', change: { site: { stockOnly: 'no' } } }]);
  }); // prettier-ignore
  it('buy also of a device that says no for itself; nothing is limited where each says yes', async () => {
    const kit = (...buy: Cell[]): Cell[][] => [
      ['Device', 'Family', 'Volume (gal)', 'Buy more'],
      ['our bag', 'bag', 20, buy[0]!],
      ['our pad', 'pad', 3, buy[1]!],
      ['our truck', 'tanker', 300, 'no'],
    ];
    const bought = async (rows: Cell[][], only: string) => (await come(() => 5, rows, only)).find(({ kind }) => kind === 'buying');
    expect(await bought(kit('yes', null), 'no')).toBe(undefined);
    expect(await bought(kit('yes', 'yes'), 'yes')).toBe(undefined);
    expect((await bought(kit('yes', null), 'yes'))?.change).toEqual({ site: { stockOnly: 'no' } });
    const own = (await bought(kit('no', null), 'no'))!.change;
    expect(own.site).toBe(undefined);
    expect(own.kit!(kit('no', null), 'US').map((row) => row.at(-1))).toEqual(['Buy more', 'yes', null, 'no']);
    expect((await bought(kit('no', null), 'yes'))!.change).toMatchObject({ site: { stockOnly: 'no' } });
  }); // prettier-ignore
  it('put every hose that a person opens on a timer, and no other device', async () => {
    const kit: Cell[][] = [
      [
        'Device',
        'Family',
        'Flow (gal/min)',
        'Emitter rate (gal/h per ft)',
        'Length (ft)',
        'Automatic',
      ],
      ['hose at a tap', 'soaker', null, 0.6, 50, 'no'],
      ['hose on a timer', 'soaker', null, 0.6, 50, 'yes'],
      ['short hose', 'soaker', null, 0.6, 25, null],
      ['by hand', 'hand', 5, null, null, 'no'],
    ];
    const way = (await come(() => 5, kit)).find(({ kind }) => kind === 'timers');
    expect(way).toMatchObject({ devices: ['hose at a tap', 'short hose'] });
    const after = way!.change.kit!(kit, 'US').map((row) => row.at(-1));
    expect(after).toEqual(['Automatic', 'yes', 'yes', 'yes', 'no']);
    expect(kit[1]!.at(-1)).toBe('no');
    const all = kit.map((row, i) => (i === 1 || i === 3 ? [...row.slice(0, -1), 'yes'] : row));
    expect((await come(() => 5, all)).map(({ kind }) => kind)).not.toContain('timers');
  });
});

describe('ways together', () => {
  const tried = (way: Way, days: number) =>
    ({
      way,
      plan: {
        price: 1,
        ...(days > 0 && { over: { days, lacking: 2 * days, longest: { hours: 9 } } }),
      },
    }) as Tried;
  const start = (hour: string): Single => ({
    kind: 'start',
    start: hour,
    from: '06:00',
    change: { site: { crewStart: hour } },
  });
  const hours: Single = { kind: 'hours', hours: 10, change: { site: { crewHours: 10 } } };
  const means: Single = { kind: 'means', worth: 3, change: { site: { crewTimeWorth: 3 } } };
  const timers: Single = {
    kind: 'timers',
    devices: ['h'],
    change: { kit: (rows) => [...rows.map((r) => [...r]), ['timer']] },
  };
  const tank: Single = {
    kind: 'tank',
    volume: '600',
    change: { kit: (rows) => [...rows.map((r) => [...r]), ['tank']] },
  };
  const crews: Single = { kind: 'crews', crews: 2, from: 1, change: { site: { crews: 2 } } };
  const base = tried(hours, 20).plan;

  it('are the best of each kind that helps: the first with the second and the third, then all three', () => {
    const all = [
      tried(start('04:00'), 5),
      tried(start('05:00'), 6),
      tried(timers, 8),
      tried(means, 9),
      tried(hours, 12),
      tried(tank, 20),
    ];
    const helping = besidesCrews(all, base);
    expect(helping).toHaveLength(5);
    expect(pairsOf(helping).map(({ ways }) => ways)).toEqual([
      [start('04:00'), timers],
      [start('04:00'), means],
    ]);
    expect(threeOf(helping).map(({ ways }) => ways)).toEqual([[start('04:00'), timers, means]]);
    expect(threeOf(helping.slice(0, 3))).toEqual([]);
  });
  it('are none where one way is enough with the crews there are; more crews and night work are another matter', () => {
    expect(besidesCrews([tried(start('04:00'), 0), tried(timers, 8)], base)).toEqual([]);
    for (const other of [crews, start('02:00')])
      expect(besidesCrews([tried(other, 0), tried(timers, 8)], base).map(({ way }) => way)).toEqual(
        [timers],
      );
  });
  it('leave trees out under other kit alone, where that helps, also if longer hours are enough', () => {
    const under = (...all: Tried[]) => worthFewer(all, base)?.way;
    expect(under(tried(start('04:00'), 0), tried(timers, 8), tried(means, 9))).toBe(timers);
    expect(under(tried(start('04:00'), 5), tried(timers, 8))).toBe(timers);
    expect(under(tried(start('04:00'), 5), tried(timers, 20))).toMatchObject({ start: '04:00' });
    expect(under(tried(start('04:00'), 0), tried(timers, 20))).toBeUndefined();
    const both = together([timers, means]);
    expect(under(tried(timers, 8), tried(both, 4))).toBe(both);
    expect(under(tried(timers, 8), tried(together([timers, start('04:00')]), 4))).toBe(timers);
    // helps a little only
    expect(under(tried(start('04:00'), 5), tried(timers, 18))).toMatchObject({ start: '04:00' });
    // enough with the kit alone: nobody has to be left out
    expect(under(tried(start('04:00'), 5), tried(timers, 0))).toBeUndefined();
  });
  it('change what each changes, the kit one after the other', () => {
    const { change } = together([start('04:00'), timers, tank, hours]);
    expect(change.site).toEqual({ crewStart: '04:00', crewHours: 10 });
    expect(change.kit?.([['Device']], 'US')).toEqual([['Device'], ['timer'], ['tank']]);
    expect(together([start('04:00'), hours]).change).not.toHaveProperty('kit');
  });

  /** Of what is open before ten the crew has an hour. */
  async function searched(workDays: string, open: string) {
    const all = await overplanned();
    const { session, search } = all;
    const rules = [RULES[0]!, ['any', 'any', 'any', open, 'allow']] as Cell[][];
    await session.change({ rules, site: { ...session.draft.site, workDays } });
    await session.makePlan();
    await search.start();
    expect(search.ended).toBe('done');
    const alone = search.tried.filter(
      ({ way }) => !['together', 'fewer', 'crews'].includes(way.kind),
    );
    expect(
      alone.every(({ plan }) => plan.over),
      'nothing but crews is enough alone',
    ).toBe(true);
    return { ...all, both: search.tried.filter(({ way }) => way.kind === 'together') };
  }

  it('are planned where none is enough alone, and come first where they are', async () => {
    const { session, search, both } = await searched('Mon-Fri', '8:00-10:00');
    const [first] = search.tried;
    expect(both).toContain(first);
    expect(first?.plan.over).toBeUndefined();
    expect(first?.plan.planned).toBe(18);
    await search.use(first!);
    expect(session.draft.site).toMatchObject({ crewStart: '08:00', workDays: 'any' });
    expect(session.plan?.over).toBeUndefined();
    expect(session.plan?.price).toBeCloseTo(first!.plan.price, 6);
  }, 240_000);

  it('that are not enough leave fewer trees out than the plan as it is would have to', async () => {
    const { host, session, search, both } = await searched('any', '8:40-10:00');
    expect(both.every(({ plan }) => plan.over)).toBe(true);
    const out = (under: boolean): number =>
      Math.min(
        ...search.tried.flatMap(({ way, plan }) =>
          way.kind === 'fewer' && !plan.over && (way.under !== undefined) === under
            ? [way.trees]
            : [],
        ),
      );
    expect(out(true)).toBeGreaterThan(0);
    expect(out(true)).toBeLessThan(out(false));
    const one = search.tried.find(
      ({ way, plan }) => way.kind === 'fewer' && way.under && !plan.over,
    )!;
    host.blankCells = async () => ['I1'];
    await search.use(one);
    expect(session.draft.site.crewStart).toBe(
      one.way.kind === 'fewer' && one.way.under?.change.site?.crewStart,
    );
    expect(host.tables.get('Trees')?.[0]).toContain('Served');
    expect(session.plan?.over).toBeUndefined();
    expect(session.plan?.planned).toBe(one.plan.planned);
    expect(session.plan?.price).toBeCloseTo(one.plan.price, 6);
  }, 240_000);
});
