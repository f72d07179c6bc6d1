/** Values that are tried beside those that are kept. Common practice, no source. */
import { describe, expect, it, vi } from 'vitest';
import { Session } from '../../src/taskpane/session.js';
import { differences } from '../../src/taskpane/steps/build-differences.js';
import { trialOf } from '../../src/taskpane/trial.js';
import { roomHere } from '../../src/workers/room-here.js';
import { memoryHost, TREES } from './panel-host.js';

const notAsked = () => Promise.reject(new Error('this test asks for no file'));

/** A session with its season planned, and how often the room has planned. */
async function planned() {
  const host = memoryHost({ Trees: TREES });
  const room = roomHere({ fonts: notAsked, rasterise: notAsked });
  const plan = vi.spyOn(room, 'plan');
  const session = new Session(host, room);
  await session.start();
  await session.makePlan();
  const trial = trialOf(session);
  const rest = () => vi.waitFor(() => expect(trial.running).toBeUndefined(), { timeout: 20_000 });
  return { host, session, trial, rest, plans: () => plan.mock.calls.length };
}

/** What the room would write as the depletion of new trees. */
async function written(session: Session): Promise<string | undefined> {
  const { sheets } = await session.room.model();
  const site = JSON.stringify(sheets.find(({ name }) => name === 'Site'));
  return /"Depletion allowed, new tree".*?"value":([\d.]+)/.exec(site)?.[1];
}

describe('the hour at which the crew starts', () => {
  const RULES = [
    ['Days', 'Hours', 'Verdict'],
    ['any', '04:00-07:00', 'allow'],
  ];
  const MANY = [
    ['Tag', 'Species', 'Caliper (in)', 'Count'],
    ['A-1', 'live oak', 2, 40],
  ];
  /** Trees by hand only, in the open hours of the early morning. */
  async function early(crewStart: string) {
    const host = memoryHost({ Trees: MANY, Rules: RULES });
    const session = new Session(host, roomHere({ fonts: notAsked, rasterise: notAsked }));
    await session.start();
    const kit = [
      ['Device', 'Family', 'Flow (gpm)', 'Price', 'Minutes a visit'],
      ['Hose', 'hand', 5, 0, 3],
    ];
    await session.change({ kit, site: { ...session.draft.site, crewStart, crewHours: 6 } });
    await session.makePlan();
    const trial = trialOf(session);
    const rest = () => vi.waitFor(() => expect(trial.running).toBeUndefined(), { timeout: 20_000 });
    return { session, trial, rest };
  }

  it('is tried as a clock says it, and says first how many days then fit', async () => {
    const { session, trial, rest } = await early('6 am');
    trial.set('crewStart', '04:00');
    await rest();
    const [before, after] = [session.plan!, trial.plan!];
    expect(before.over?.days ?? 0).toBeGreaterThan(after.over?.days ?? 0);
    const fewer = (before.over?.days ?? 0) - (after.over?.days ?? 0);
    expect(differences(before, after, after, session)).toMatch(
      new RegExp(`^${fewer} fewer days with more work than hours`),
    );
    await trial.keep();
    expect(session.draft.site.crewStart).toBe('04:00');
  });

  it('is not tried where it is the same hour written otherwise', async () => {
    const { trial } = await early('6 am');
    expect(trial.kept('crewStart')).toBe('06:00');
    trial.set('crewStart', '06:00');
    expect(trial.active).toBe(false);
  });
});

describe('a value that is tried', () => {
  it('is kept with the season that was planned for it: nothing is planned twice', async () => {
    const { session, trial, rest, plans } = await planned();
    const before = session.plan;
    trial.set('depletionNew', 0.1);
    await rest();
    const tried = trial.plan;
    expect(tried?.waterings).not.toBe(before?.waterings);
    const asked = plans();
    await trial.keep();
    expect(plans()).toBe(asked);
    expect(session.plan).toBe(tried);
    expect(session.draft.site.depletionNew).toBe(0.1);
    expect(trial.active).toBe(false);
    // what is written and saved is that season
    expect(await written(session)).toBe('0.1');
  });

  it('is planned again when the trees have changed since', async () => {
    const { host, session, trial, rest, plans } = await planned();
    trial.set('depletionNew', 0.1);
    await rest();
    host.tables.set('Trees', [...TREES, ['A-4', 'live oak', 5, '4 Hawser Lane']]);
    const asked = plans();
    await trial.keep();
    expect(plans()).toBe(asked + 1);
    expect(session.plan?.planned).toBe(3);
  });

  it('that is not planned yet when it is kept is planned then', async () => {
    const { session, trial, plans } = await planned();
    const asked = plans();
    trial.set('depletionNew', 0.1);
    await trial.keep();
    expect(plans()).toBe(asked + 1);
    expect(session.draft.site.depletionNew).toBe(0.1);
  });

  it('that is discarded leaves the plan that stood before, at once and in the room too', async () => {
    const { session, trial, rest, plans } = await planned();
    const before = session.plan;
    trial.set('depletionNew', 0.2);
    await rest();
    trial.set('depletionNew', 0.1);
    await rest();
    expect(await written(session)).toBe('0.1');
    const asked = plans();
    trial.discard();
    expect([trial.active, trial.running, trial.plan]).toEqual([false, undefined, undefined]);
    expect(session.plan).toBe(before);
    expect(await written(session)).toBe('0.3');
    expect(plans()).toBe(asked);
    expect(session.draft.site.depletionNew).toBeUndefined();
    // and so again with what is tried next
    trial.set('depletionNew', 0.15);
    await rest();
    expect(await written(session)).toBe('0.15');
    trial.set('depletionNew', 0.3);
    expect(trial.active).toBe(false);
    expect(await written(session)).toBe('0.3');
    expect(plans()).toBe(asked + 1);
  });

  it('that is discarded while it is planned never becomes the plan of the room', async () => {
    const { session, trial } = await planned();
    trial.set('depletionNew', 0.1);
    await vi.waitFor(() => expect(trial.running?.done).toBeGreaterThan(0), { interval: 1 });
    trial.discard();
    await new Promise((later) => setTimeout(later, 300));
    expect(await written(session)).toBe('0.3');
  });

  it('and the plan before it are not both held once one of them is the plan', async () => {
    const { session, trial, rest } = await planned();
    trial.set('depletionNew', 0.1);
    await rest();
    await trial.keep();
    expect(await session.room.back()).toBe(false);
    trial.set('depletionNew', 0.2);
    await rest();
    await session.setSite('crewHours', 4);
    expect(trial.active).toBe(false);
    expect(await session.room.back()).toBe(false);
  });
});
