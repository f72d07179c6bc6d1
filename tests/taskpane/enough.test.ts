/** What would be enough where days do not fit. Common practice, no source. */
import { describe, expect, it, vi } from 'vitest';
import { better, enoughOf, type Tried } from '../../src/taskpane/enough.js';
import { waysInTurn, type Way } from '../../src/taskpane/enough-ways.js';
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
    const fewer = tried({ kind: 'fewer', trees: 4, weekHours: 3 }, 100);
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
    expect(session.draft.site.crewStart).toBe(start.way.change?.site?.crewStart);
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
  async function come(left: (way: Way) => number): Promise<Way[]> {
    const { session } = await overplanned();
    const ways = waysInTurn(session.plan!, session.draft, session.setup);
    const all: Way[] = [];
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
    const tank = (await come(() => 5)).find(({ kind }) => kind === 'tank');
    expect(tank && JSON.stringify(tank.change?.kit)).toContain('1000');
  });
});
