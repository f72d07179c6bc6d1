/**
 * Sheets the panel has built, in the stand-in for the spreadsheet program with the real planner: of which plan they are,
 * built again in their place, taken away, and all of that after the panel was opened anew. Common practice, no source.
 */
import { afterAll, describe, expect, it, vi } from 'vitest';
import { buildingOf } from '../../src/taskpane/building.js';
import { builtOf } from '../../src/taskpane/built.js';
import { setsFrom } from '../../src/taskpane/built-kept.js';
import { known } from '../../src/taskpane/known.js';
import { officeHost } from '../../src/taskpane/office-host.js';
import { Session } from '../../src/taskpane/session.js';
import { roomHere } from '../../src/workers/room-here.js';
import { FakeHost } from '../office/fake-host.js';
import { TREES } from './panel-host.js';

const notAsked = () => Promise.reject(new Error('this test asks for no file'));

let remove = (): void => undefined;
// the program tells of changes later than a test may take
afterAll(async () => {
  await new Promise((later) => setTimeout(later, 1000));
  remove();
});

/** The panel in a workbook with trees; `reopened` is a panel opened anew in the same workbook. */
async function opened(fake = new FakeHost({ sheets: [{ name: 'Street', values: TREES }] })) {
  remove();
  remove = fake.install();
  const host = await officeHost();
  const session = new Session(host, roomHere({ fonts: notAsked, rasterise: notAsked }));
  const built = builtOf(session);
  await session.start();
  await built.load();
  return { fake, host, session, built, building: buildingOf(session), reopened: () => opened(fake) };
} // prettier-ignore

async function withSheets() {
  const panel = await opened();
  await panel.session.makePlan();
  await panel.building.build(false);
  return panel;
}
type Panel = Awaited<ReturnType<typeof opened>>;

const changed = ({ built }: Panel, i = 0) =>
  built.changes(built.sets[i]!)?.map(({ part, keys }) => [part, ...keys].join(' '));
const shown = (fake: FakeHost, sheet: string): string => JSON.stringify(fake.values(sheet));

describe('sheets that were built', () => {
  it('are of the plan as it stands, until something the plan is made from changes: the part is named', async () => {
    const panel = await withSheets();
    const { session } = panel;
    expect(changed(panel)).toEqual([]);
    expect(known('build', session).line).toBe('2 trees planned');
    await session.setSite('seasonTo', '2027-08-31');
    expect(changed(panel)).toEqual(['site seasonTo']);
    expect(known('build', session)).toEqual({ line: 'changed since: plan again; sheets of an earlier plan', state: 'look' }); // prettier-ignore
    expect(session.told.sentence).toBe(`${session.words.build.withdrawn} ${session.words.build.sheetsOld}`); // prettier-ignore
    await session.makePlan();
    expect(changed(panel)).toEqual(['site seasonTo']);
    expect(known('build', session).line).toBe('2 trees planned; sheets of an earlier plan');
    await session.setSite('seasonTo', null);
    expect(changed(panel)).toEqual([]);
  });

  it.each([
    ['trees', (p: Panel) => p.fake.type('Street', 'C2', 4)],
    ['rules', (p: Panel) => p.fake.type('Rules', 'A40', 'x')],
    ['kit', (p: Panel) => p.session.change({ kit: [['Device', 'Family'], ['our bag', 'bag']] })],
    ['weather', (p: Panel) => p.session.change({ weather: [['Month', 'ET0 (in/day)', 'Rain (in)']] })],
    ['units', (p: Panel) => p.session.setUnits('SI')],
  ] as const)('are of an earlier plan when the %s change', async (part, change) => {
    const panel = await withSheets();
    await panel.session.refresh();
    expect(changed(panel)).toEqual([]);
    await change(panel);
    await panel.session.refresh();
    expect(changed(panel)).toEqual([part]);
  }); // prettier-ignore

  it('stay of the plan when what changes is no part of it: another column, a log, the language', async () => {
    const panel = await withSheets();
    panel.fake.type('Street', 'F1', 'Zzyx');
    panel.fake.type('Street', 'F2', 'ours');
    await panel.session.speak('es');
    await panel.session.setWantsLog(true);
    await panel.session.refresh();
    expect(panel.session.trees.cells[1]).toContain('ours');
    expect(changed(panel)).toEqual([]);
  });

  it('are known when the panel is opened anew, under the names they have by then', async () => {
    const { fake, session, reopened } = await withSheets();
    await session.setSite('crewHours', 4);
    fake.book.renameSheet(fake.book.sheet('Calendar')!, 'Days');
    const again = await reopened();
    expect(changed(again)).toEqual(['site crewHours']);
    const names = again.built.sets[0]!.sheets.map(({ name }) => name);
    expect(names).toContain('Days');
    expect(names).not.toContain('Calendar');
    await again.building.takeAway(again.built.sets[0]!);
    expect(fake.sheets()).toEqual(['Street']);
    expect(fake.book.settings.has('built')).toBe(false);
  });

  it('are told from those of a person; what a person deletes is gone from the list, and back when it is back', async () => {
    const { fake, session, built } = await withSheets();
    const count = built.sets[0]!.sheets.length;
    const kept = fake.book.settings.get('built');
    fake.book.deleteSheet(fake.book.sheet('Crew')!);
    await session.refresh();
    await vi.waitFor(() => expect(built.sets[0]!.sheets).toHaveLength(count - 1));
    expect(fake.book.settings.get('built')).toEqual(kept);
    for (const { name } of [...built.sets[0]!.sheets]) fake.book.deleteSheet(fake.book.sheet(name)!);
    await session.refresh();
    await vi.waitFor(() => expect(built.sets).toEqual([]));
    // the rules that were read stood on one of them
    expect(known('build', session).line).toBe('changed since: plan again');
  }); // prettier-ignore

  it('of which nothing but the receipt was kept cannot be told; what is not ours gives none', async () => {
    const panel = await withSheets();
    const [set] = setsFrom(String(panel.fake.book.settings.get('built')));
    const receipt = { sheets: set!.sheets.map(({ key, name }) => ({ key, name })), names: set!.names };
    panel.fake.book.settings.set('built', JSON.stringify([receipt, { sheets: 'all' }, 7]));
    const again = await panel.reopened();
    expect(again.built.sets).toHaveLength(1);
    expect(changed(again)).toBe(undefined);
    expect(known('build', again.session).line).toBe('not planned yet');
    expect(setsFrom('{')).toEqual([]);
  }); // prettier-ignore

  it('take little room: marks, never the trees or tables themselves', async () => {
    const { fake, built } = await withSheets();
    const kept = String(fake.book.settings.get('built'));
    expect(kept.length / built.sets[0]!.sheets.length).toBeLessThan(250);
    expect(kept).not.toContain('Hawser');
  });
});

describe('built again in their place', () => {
  it('the sheets have the same names and are of the plan; nothing is left of the old', async () => {
    const panel = await withSheets();
    const { fake, session, built, building } = panel;
    const before = fake.sheets();
    expect(shown(fake, 'Site')).toContain('"Season to",46660,');
    await session.setSite('seasonTo', '2027-08-31');
    await building.again(built.sets[0]!);
    expect(session.told.sentence).toMatch(/^\d+ sheets built again in place of the old, from “About” on\.$/); // prettier-ignore
    expect(fake.sheets()).toEqual(before);
    expect(shown(fake, 'Site')).toContain('"Season to",46630,');
    expect(fake.book.names.map(({ formula }) => formula).join()).not.toMatch(/old|#REF/);
    expect(built.sets).toHaveLength(1);
    expect(changed(panel)).toEqual([]);
    await building.takeAway(built.sets[0]!);
    expect(fake.sheets()).toEqual(['Street']);
  });

  it('leaves another set as old as it is', async () => {
    const panel = await withSheets();
    const { fake, session, built, building } = panel;
    await session.setSite('crews', 2);
    await session.makePlan();
    await building.build(false);
    expect([changed(panel, 0), changed(panel, 1)]).toEqual([['site crews'], []]);
    await building.again(built.sets[1]!);
    expect([changed(panel, 0), changed(panel, 1)]).toEqual([['site crews'], []]);
    await building.again(built.sets[0]!);
    expect([changed(panel, 0), changed(panel, 1)]).toEqual([[], []]);
    expect(fake.sheets()).toContain('Plan 2');
  });

  it.each(['stopped', 'refused'] as const)('%s half way, the old sheets are as they were and nothing else is there', async (how) => {
    const { fake, host, session, built, building } = await withSheets();
    const whole = () => JSON.stringify(fake.sheets().map((name) => [name, fake.values(name)]));
    const [before, kept] = [whole(), fake.book.settings.get('built')];
    const replace = host.replaceSheets.bind(host);
    host.replaceSheets = (old, model, options) =>
      replace(old, model, {
        ...options,
        onProgress: (done, total, sheet) => {
          options.onProgress(done, total, sheet);
          if (done < 3) return;
          if (how === 'stopped') building.cancel();
          else throw new Error('the program refused');
        },
      });
    await building.again(built.sets[0]!);
    expect(session.told.sentence).toMatch(
      how === 'stopped' ? /^Building was stopped\. The sheets are as they were before\.$/ : /the program refused/,
    );
    expect(whole()).toBe(before);
    expect(fake.book.settings.get('built')).toEqual(kept);
    expect(built.sets).toHaveLength(1);
  }); // prettier-ignore
});

describe('visits logged on built sheets', () => {
  async function withVisit() {
    const panel = await opened();
    await panel.session.setWantsLog(true);
    await panel.session.makePlan();
    await panel.building.build(false);
    const log = panel.fake.values('Log');
    const top = log.findIndex((row) => row.includes('Tree') && row.includes('Date'));
    const column = (name: string): string =>
      String.fromCharCode(65 + log[top]!.findIndex((cell) => String(cell).startsWith(name)));
    const type = (name: string, value: string | number, row = 1): void =>
      panel.fake.type('Log', `${column(name)}${top + 1 + row}`, value);
    type('Tree', 'A-1');
    type('Date', 46_500);
    type('Applied', 17);
    return { ...panel, type };
  }

  it('are carried into the sheets built again', async () => {
    const { fake, session, built, building } = await withVisit();
    await session.setSite('crewHours', 4);
    await building.again(built.sets[0]!);
    expect(session.told.kind).toBe('fine');
    expect(shown(fake, 'Log')).toMatch(/"A-1",46500,/);
    expect(await building.visitsOn(built.sets[0]!)).toEqual({ visits: 1, sheet: 'Log' });
  });

  it('that cannot be read stop it before anything is written', async () => {
    const { fake, session, built, building, type } = await withVisit();
    type('Tree', 'A-2', 2);
    type('Date', 'soon', 2);
    const before = shown(fake, 'Log');
    await building.again(built.sets[0]!);
    expect(session.told).toMatchObject({ kind: 'trouble' });
    expect(session.told.sentence).toMatch(/^Nothing was written: 1 row of “Log” cannot be read/);
    expect(shown(fake, 'Log')).toBe(before);
  });
});
