/** The panel's session over a host in memory and a plan room in this thread. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { Session } from '../../src/taskpane/session.js';
import { roomHere } from '../../src/workers/room-here.js';
import { memoryHost, TREES } from './panel-host.js';

const notAsked = () => Promise.reject(new Error('this test asks for no file'));
const room = () => roomHere({ fonts: notAsked, rasterise: notAsked });

async function started(sheets = { Trees: TREES }) {
  const host = memoryHost(sheets);
  const session = new Session(host, room());
  await session.start();
  return { host, session };
}

describe('what the panel reads', () => {
  it('is the sheet in front, with the rows that can be planned', async () => {
    const { session } = await started();
    expect(session.sheet).toBe('Trees');
    expect([session.reading?.rows, session.reading?.usable]).toEqual([3, 2]);
    expect(session.reading?.look.map(({ row }) => row)).toEqual([4]);
    expect(session.troubles).toEqual({ trees: '', setup: '', rules: '' });
  });

  it('stays on the trees when another sheet comes to the front', async () => {
    const { host, session } = await started({ Trees: TREES, Plan: [['Plan'], ['x']] } as never);
    host.bring('Plan');
    await session.refresh();
    expect(session.sheet).toBe('Trees');
    expect(session.front).toBe('Plan');
  });

  it.each(['Means', 'Rules 2', 'Field checks'])(
    'is the first sheet that may hold trees where the workbook opens with "%s" in front',
    async (name) => {
      const { session } = await started({ [name]: [['x']], Trees: TREES, Other: TREES } as never);
      expect([session.front, session.sheet]).toEqual([name, 'Trees']);
      expect(session.canPlan).toBe(true);
    },
  );

  it('is the sheet in front where no other may hold trees', async () => {
    const { session } = await started({ Rules: [['x']], Plan: [['y']] } as never);
    expect([session.sheet, session.canPlan]).toEqual(['Rules', false]);
  });

  it('follows the front while the sheet that was read holds no trees', async () => {
    const { host, session } = await started({ Empty: [], Trees: TREES } as never);
    expect(session.canPlan).toBe(false);
    host.bring('Trees');
    await session.refresh();
    expect(session.sheet).toBe('Trees');
    expect(session.canPlan).toBe(true);
  });

  it('is only the range that was named, with rows in their places', async () => {
    const { session } = await started();
    await session.useSheet('Trees', 'A1:D2');
    expect(session.reading?.rows).toBe(1);
    await session.useSheet('Trees');
    expect(session.reading?.rows).toBe(3);
  });

  it('an overtaken reading never replaces a later one, and waits for it', async () => {
    const { host, session } = await started();
    const first = session.refresh();
    host.tables.set('Trees', TREES.slice(0, 2));
    await Promise.all([first, session.refresh()]);
    expect(session.reading?.rows).toBe(1);
  });

  it('is what was asked for last, whatever an earlier reading brings that ends while it is kept', async () => {
    const { host, session } = await started();
    await session.useSheet('Trees', 'A1:D2');
    const write = host.writeSetting.bind(host);
    const sheetNames = host.openSheets.bind(host);
    /** A reading that has begun and ends while the next setting is kept. */
    async function endsWhileKept(): Promise<void> {
      let go = (): void => undefined;
      host.openSheets = () => new Promise((give) => (go = () => give(sheetNames())));
      const earlier = session.refresh();
      await new Promise((begun) => setTimeout(begun));
      host.openSheets = sheetNames;
      host.writeSetting = async (...kept) => {
        go();
        await earlier;
        await write(...kept);
      };
    }
    await endsWhileKept();
    await session.useSheet('Trees', '');
    expect([session.range, session.reading?.rows]).toEqual(['', 3]);
    await endsWhileKept();
    await session.correct('Address', 'ignore');
    expect(session.draft.corrections).toEqual({ Address: 'ignore' });
  });
});

describe('corrections of columns', () => {
  it('are kept in the workbook and used for another sheet with the same headers', async () => {
    const { host, session } = await started();
    await session.correct('Caliper (in)', 'caliper cm');
    expect(session.reading?.columns.find(({ column }) => column === 2)?.unit).toBe('cm');
    const later = new Session(host, room());
    host.tables.set('North', [[' tag ', 'SPECIES', 'Caliper (in)', 'Address'], ...TREES.slice(1)]);
    await later.start();
    await later.useSheet('North');
    expect(later.reading?.columns.find(({ column }) => column === 2)?.unit).toBe('cm');
    await later.forgetCorrections();
    expect(later.reading?.columns.find(({ column }) => column === 2)?.unit).toBe('in');
    expect([...host.settings.values()].filter((v) => v.includes('caliper'))).toEqual([]);
  });

  it('are not used for a sheet with other headers', async () => {
    const { host, session } = await started();
    await session.correct('Address', 'ignore');
    const [, ...rows] = TREES;
    host.tables.set('Other', [['Id', 'Species', 'Trunk (in)', 'Address'], ...rows]);
    await session.useSheet('Other');
    expect(session.draft.corrections).toEqual({});
    await session.useSheet('Trees');
    expect(session.draft.corrections).toEqual({ Address: 'ignore' });
  });

  it('that are no longer ours are named, not guessed', async () => {
    const { host, session } = await started();
    await session.correct('Address', 'ignore');
    const [key] = [...host.settings.keys()].filter((k) => k.startsWith('columns.'));
    host.settings.set(key!, '{"Address":7}');
    const later = new Session(host, room());
    await later.start();
    expect(later.troubles.trees).toContain('cannot be read');
  });
});

describe('what a person sets', () => {
  it('comes back when the workbook is opened again', async () => {
    const { host, session } = await started();
    await session.setSite('latitude', 40);
    await session.setUnits('SI');
    await session.speak('es');
    const later = new Session(host, room());
    await later.start();
    expect(later.draft.site).toEqual({ latitude: 40 });
    expect([later.draft.units, later.language]).toEqual(['SI', 'es']);
  });

  it('withdraws a plan made under something else, and a mere recalculation does not', async () => {
    const { session } = await started();
    await session.makePlan();
    expect(session.plan?.planned).toBe(2);
    await session.refresh();
    expect(session.plan).toBeDefined();
    await session.setSite('crewHours', 4);
    expect(session.plan).toBeUndefined();
    expect(session.told.sentence).toBe(session.words.build.withdrawn);
  });

  it('settings that are not ours are named and leave the defaults', async () => {
    const host = memoryHost({ Trees: TREES });
    host.settings.set('draft', '{"units":"leagues"}');
    const session = new Session(host, room());
    await session.start();
    expect(session.told).toMatchObject({ kind: 'trouble', english: true });
    expect(session.told.sentence).toContain('cannot be read (units)');
    expect(session.draft.units).toBe('US');
  });
});

describe('what was said of columns', () => {
  const LIST = [['Tag', 'Species', 'Size'], ['1', 'live oak', 2], ['2', 'live oak', 3]]; // prettier-ignore
  const said = { Size: 'caliper in' };

  it('stays when the list gets a column or loses one, and is there when the workbook is opened again', async () => {
    const { host, session } = await started({ Trees: LIST } as never);
    await session.correct('Size', 'caliper in');
    expect(session.canPlan).toBe(true);
    host.tables.set('Trees', LIST.map((row, r) => [...row, r === 0 ? 'Assumed' : ''])); // prettier-ignore
    await session.refresh();
    expect(session.draft.corrections).toEqual(said);
    expect(session.canPlan).toBe(true);
    const later = new Session(host, room());
    await later.start();
    expect(later.draft.corrections).toEqual(said);
    host.tables.set('Trees', LIST.map((row) => row.slice(0, 2))); // prettier-ignore
    await later.refresh();
    expect(later.draft.corrections, 'of a column that is gone nothing is said').toEqual({});
  });

  it('is what was kept for the new headers, where something was', async () => {
    const { host, session } = await started({ Trees: LIST } as never);
    await session.correct('Size', 'caliper in');
    const longer = LIST.map((row, r) => [...row, r === 0 ? 'Note' : '']);
    host.tables.set('Trees', longer);
    await session.refresh();
    await session.correct('Size', 'ignore');
    host.tables.set('Trees', LIST);
    await session.refresh();
    expect(session.draft.corrections).toEqual(said);
    host.tables.set('Trees', longer);
    await session.refresh();
    expect(session.draft.corrections).toEqual({ Size: 'ignore' });
  });

  it('is nothing said of another sheet with other headers', async () => {
    const other = LIST.map((row, r) => [...row, r === 0 ? 'Note' : '']);
    const { session } = await started({ Trees: LIST, Other: other } as never);
    await session.correct('Size', 'caliper in');
    await session.useSheet('Other');
    expect(session.draft.corrections).toEqual({});
    await session.useSheet('Trees');
    expect(session.draft.corrections).toEqual(said);
  });
});

describe('rules that cannot be read', () => {
  const RULES = [['Means', 'Days', 'Verdict'], ['bagg', 'Mon', 'allow'], ['any', 'any', 'allow']]; // prettier-ignore

  it('stop the planning until the person says to go on without them', async () => {
    const { session } = await started({ Trees: TREES, Rules: RULES } as never);
    await session.makePlan();
    expect(session.plan).toBeUndefined();
    expect(session.told.sentence).toBe(session.words.rules.mend(session.formats, 1));
    session.setLeaveOutBroken(true);
    await session.makePlan();
    expect(session.plan?.planned).toBe(2);
  });
});

describe('a planning', () => {
  it('that is stopped leaves no plan and says so', async () => {
    const { session } = await started();
    const planning = session.makePlan();
    session.stopPlanning();
    await planning;
    expect(session.plan).toBeUndefined();
    expect(session.planning).toBeUndefined();
    expect(session.told.kind).toBe('trouble');
  });

  it('is of what stands in the sheet when it is asked for, told of or not', async () => {
    const { session, host } = await started();
    host.tables.set('Trees', [...TREES.slice(0, 3), ['A-4', 'live oak', 5, '4 Hawser Lane']]);
    await session.makePlan();
    expect(session.plan?.planned).toBe(3);
    host.announce();
    await session.refresh();
    expect(session.plan?.planned).toBe(3);
  });

  it('waits for formulas that are being worked out, and for no longer than it is wanted', async () => {
    const { session, host } = await started();
    let done: () => void = () => undefined;
    host.calculating = () => new Promise<void>((resolve) => (done = resolve));
    const planning = session.makePlan();
    expect(session.told.sentence).toBe(session.words.build.calculating);
    host.tables.set('Trees', TREES.slice(0, 2));
    await session.makePlan();
    expect(session.planning, 'a second call does nothing').toBeDefined();
    done();
    await planning;
    expect(session.plan?.planned).toBe(1);
    const again = session.makePlan();
    session.stopPlanning();
    await again;
    expect([session.plan, session.planning]).toEqual([undefined, undefined]);
    expect(session.told.kind).toBe('trouble');
  });

  it('of a sheet without trees says where to look', async () => {
    const { session } = await started({ Trees: [] } as never);
    await session.makePlan();
    expect(session.told.sentence).toBe(session.words.build.nothing);
  });
});
