/** Values that are tried beside those that are kept. Common practice, no source. */
import { describe, expect, it, vi } from 'vitest';
import { Session } from '../../src/taskpane/session.js';
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
    const { sheets } = await session.room.model();
    const site = JSON.stringify(sheets.find(({ name }) => name === 'Site'));
    expect(/"Depletion allowed, new tree".*?"value":([\d.]+)/.exec(site)?.[1]).toBe('0.1');
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

  it('leaves the room with the kept season when it is discarded', async () => {
    const { session, trial, rest } = await planned();
    const { waterings } = session.plan!;
    trial.set('depletionNew', 0.1);
    await rest();
    trial.discard();
    await rest();
    expect(trial.active).toBe(false);
    expect(session.plan?.waterings).toBe(waterings);
    expect(session.draft.site.depletionNew).toBeUndefined();
  });
});
