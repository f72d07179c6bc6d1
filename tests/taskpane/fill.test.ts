/** Filling, taking back and live figures in the spreadsheet program: the strict stand-in, through the panel's own session. */
import { afterEach, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.js';
import { fillIn, takeBack } from '../../src/taskpane/fill.js';
import { livePlace, showLive, takeLiveAway } from '../../src/taskpane/live-columns.js';
import { LIVE_HEADERS } from '../../src/taskpane/live-figures.js';
import { officeHost } from '../../src/taskpane/office-host.js';
import { Session } from '../../src/taskpane/session.js';
import { roomHere } from '../../src/workers/room-here.js';
import { FakeHost } from '../office/fake-host.js';

const LIST: Cell[][] = [
  ['Street list', '', ''],
  ['Tag', 'Species', 'DBH (in)'],
  ['1', 'elm', 2],
  ['2', 'elm', 3],
  ['3', 'elm', ''],
  ['4', 'elm', ''],
];
const never = () => Promise.reject(new Error('no file is asked for here'));
let remove = (): void => undefined;
/** Changes that follow each other closely are told once, a moment later [ms]. */
const SETTLED = 600;
afterEach(async () => {
  await new Promise((done) => setTimeout(done, SETTLED));
  remove();
});

async function start() {
  const fake = new FakeHost({ sheets: [{ name: 'List', values: LIST }] });
  remove = fake.install();
  const session = new Session(await officeHost(), roomHere({ fonts: never, rasterise: never }));
  await session.start();
  return { fake, session };
}
const WISH = { lack: 'size' as const, rows: [5, 6], column: 2, header: 'DBH (in)', value: '2.5' };

it('blank cells are filled and marked, planned, and blank again', async () => {
  const { fake, session } = await start();
  expect(session.reading?.usable).toBe(2);
  expect(await fillIn(session, WISH)).toBe(true);
  expect(fake.values('List').slice(1)).toEqual([
    ['Tag', 'Species', 'DBH (in)', 'Assumed'],
    ['1', 'elm', 2, ''],
    ['2', 'elm', 3, ''],
    ['3', 'elm', 2.5, 'DBH (in) = 2.5'],
    ['4', 'elm', 2.5, 'DBH (in) = 2.5'],
  ]);
  expect(session.reading?.assumed).toEqual([{ header: 'DBH (in)', what: 'size', rows: 2 }]);
  await session.makePlan();
  expect(session.plan?.planned).toBe(4);
  await takeBack(session);
  expect(session.reading?.usable).toBe(2);
  expect(fake.values('List').map((row) => row.slice(0, 3))).toEqual(LIST);
  expect(session.plan).toBeUndefined();
  expect(session.outdated).toBe(session.words.build.withdrawnTrees(session.formats, 4, 4));
});

it('a part of a sheet that has no room for the mark is left alone, and that is said', async () => {
  const { fake, session } = await start();
  await session.useSheet('List', 'A2:C6');
  expect(await fillIn(session, WISH)).toBe(false);
  expect(session.told.sentence).toContain('Only A2:C6 is read');
  expect(fake.values('List')).toEqual(LIST);
});

it('live figures come with their sheet and go with it, and a plan stays', async () => {
  const { fake, session } = await start();
  await session.makePlan();
  expect(await livePlace(session)).toBeUndefined();
  expect(await showLive(session)).toBe('Inputs');
  expect(fake.sheets()).toEqual(['List', 'Inputs']);
  expect(fake.values('List')[1]!.slice(3)).toEqual(LIVE_HEADERS);
  expect(fake.cell('List', 'D3').formula).toContain('SOAK.TREE_DEMAND(Inputs!$B$2');
  expect(fake.values('Inputs')[1]!.slice(0, 2)).toEqual(['Reference ET, hottest month', 0.25]);
  expect(session.plan).toBeDefined();
  const place = await livePlace(session);
  expect(place).toEqual({ column: 3, inputs: 'Inputs' });
  expect(await takeLiveAway(session, place!)).toBe(true);
  expect(fake.sheets()).toEqual(['List']);
  expect(fake.values('List').map((row) => row.slice(0, 3))).toEqual(LIST);
  expect(fake.values('List').flatMap((row) => row.slice(3)).filter((cell) => cell !== '')).toEqual([]); // prettier-ignore
});
