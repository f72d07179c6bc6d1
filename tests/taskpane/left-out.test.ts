/** Trees left out where days do not fit: marked in the list, planned without, and served again. Common practice, no source. */
import { afterEach, describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.js';
import { known } from '../../src/taskpane/known.js';
import { enoughOf } from '../../src/taskpane/enough.js';
import { leaveOut, leftOut, serveAll } from '../../src/taskpane/left-out.js';
import { officeHost } from '../../src/taskpane/office-host.js';
import { Session } from '../../src/taskpane/session.js';
import { enoughWords } from '../../src/taskpane/words/enough.js';
import { roomHere } from '../../src/workers/room-here.js';
import { FakeHost } from '../office/fake-host.js';

/** Invented trees without a tap, so that somebody has to come to each; a line above the headers. */
const TREES: Cell[][] = [
  ['Harbour list', '', '', '', '', ''],
  ['Tag', 'Species', 'Caliper (in)', 'Address', 'Tap', 'Planted'],
  ...Array.from({ length: 16 }, (_, k): Cell[] => [
    `W-${k + 1}`, 'live oak', 2 + (k % 3), `${k + 1} Hawser Lane`, 'no', k < 5 ? 46_420 : 45_000,
  ]),
]; // prettier-ignore
const RULES: Cell[][] = [
  ['Means', 'Address', 'Days', 'Hours', 'Verdict'],
  ['any', 'any', 'any', 'not 10:00-18:00', 'allow'],
];
const never = () => Promise.reject(new Error('no file is asked for here'));
const words = enoughWords('en').leftOut;
let remove = (): void => undefined;
/** Changes that follow each other closely are told once, a moment later [ms]. */
const SETTLED = 600;
afterEach(async () => {
  await new Promise((done) => setTimeout(done, SETTLED));
  remove();
});

async function started(values = TREES) {
  const fake = new FakeHost({ sheets: [{ name: 'List', values }] });
  remove = fake.install();
  const session = new Session(await officeHost(), roomHere({ fonts: never, rasterise: never }));
  await session.start();
  return { fake, session };
}

describe('trees that are left out', () => {
  it('are those of the way that is used; the plan is the one that was tried, and fits', async () => {
    const { fake, session } = await started();
    // one open hour a day
    const site = { seasonFrom: '2027-06-01', seasonTo: '2027-07-31', crewStart: '9:00', crewHours: 6, workDays: 'Mon-Fri' };
    await session.change({ site, rules: RULES, stages: [['From', 'Stage']] });
    await session.makePlan();
    const before = session.plan!;
    expect(before.over!.days).toBeGreaterThan(0);
    const search = enoughOf(session);
    await search.start();
    const way = search.tried.find((one) => one.way.kind === 'fewer' && !one.plan.over)!;
    expect(way).toBeDefined();
    await search.use(way);
    expect(session.told).toMatchObject({ kind: 'fine' });
    expect(session.plan!.over).toBeUndefined();
    expect([session.plan!.planned, session.plan!.water, session.plan!.price]).toEqual([way.plan.planned, way.plan.water, way.plan.price]);
    const list = fake.values('List');
    expect(list[1]).toEqual([...TREES[1]!, 'Served']);
    expect(list[0]![6]).toBe('');
    const out = list.slice(2).filter((row) => row[6] === 'no');
    expect(out).toHaveLength(way.way.kind === 'fewer' ? way.way.trees : -1);
    expect(leftOut(session)!.rows).toHaveLength(out.length);
    expect(session.reading!.look.filter(({ reasons }) => JSON.stringify(reasons).includes('left out and gets rain alone'))).toHaveLength(out.length);
    // nothing to look at: they were left out on purpose
    expect(known('trees', session)).toMatchObject({ state: 'fine' });
    await serveAll(session);
    expect(fake.values('List').map((row) => row.slice(0, 6))).toEqual(TREES);
    expect(fake.values('List').slice(2).every((row) => row[6] === '')).toBe(true);
    expect(session.told.sentence).toBe(words.served(session.formats, out.length));
    await session.makePlan();
    expect(session.plan!.over!.days).toBe(before.over!.days);
  }, 180_000); // prettier-ignore

  it('are marked in the column there is; a person’s own yes and no count alike', async () => {
    const own = TREES.map((row, r) => [...row, r === 1 ? 'Served' : r === 2 ? 'yes' : r === 3 ? 'No' : '']);
    const { fake, session } = await started(own);
    expect(session.reading!.usable).toBe(15);
    expect(await leaveOut(session, [3, 5])).toBe(true);
    expect(fake.values('List').map((row) => row[6]).slice(1, 6)).toEqual(['Served', 'no', 'No', 'no', '']);
    expect(session.reading!.usable).toBe(13);
    await serveAll(session);
    expect(session.reading!.usable).toBe(16);
  }); // prettier-ignore

  it('are not marked beside a part of a sheet, where nobody would read it; that is said', async () => {
    const { fake, session } = await started();
    await session.useSheet('List', 'A2:F18');
    expect(await leaveOut(session, [3])).toBe(false);
    expect(session.told).toMatchObject({ sentence: words.noRoom('A2:F18'), kind: 'trouble' });
    expect(fake.values('List')).toEqual(TREES);
  });
});
