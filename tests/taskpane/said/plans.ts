/** Seasons planned from the sample's trees and from invented ones; every sentence a plan, a tree and What if say. */
import { readFileSync } from 'node:fs';
import type { Solve } from '../../../src/engine/plan/solve.js';
import type { Cell, Grid } from '../../../src/tables/cells.js';
import type { Draft, PlanAsk, PlanRoom, PlanSummary } from '../../../src/workers/plan-room.js';
import { INVENTORY } from '../../workbook/job.js';
import { highsSolver } from '../../../src/workbook/highs.js';
import { roomLine } from '../../../src/workers/room-line.js';
import { DRAFT, freshRoom, grid, refusal, table, TODAY } from './room.js';

export async function sampleTrees(): Promise<Grid> {
  const { sheets, front } = await freshRoom().open('street.csv', readFileSync(INVENTORY));
  return sheets[front]!;
}

/** Trees that some means cannot serve, or nothing can. */
const HARD = grid(`
Tree id | Species | Count | Caliper (in) | Canopy diameter (ft) | Planted | Tap | Means wanted | Latitude | Longitude | Site
H1 | elm | 1 | 12 | 40 | 2010-01-01 | no | | 33.5 | -101.5 | Park
H2 | elm | 2 | 2 | | 2027-02-01 | no | hand | 33.5 | -101.5 | Park
H3 | elm | 1 | 2 | | 2027-02-01 | no | soaker or hand | 33.5 | -101.5 | Park
H4 | elm | 1 | 3 | | 2027-11-20 | yes | | 33.5 | -101.5 | Park
H5 | elm | 3 | 2.5 | | 2027-02-01 | yes | bag | 33.5 | -101.5 | Park
H6 | elm | 1 | 7 | 22 | 2026-02-01 | yes | pad | 33.5 | -101.5 | Park
H7 | elm | 1 | 4 | 12 | | yes | | 33.5 | -101.5 | Park
H8 | elm | 40 | 2 | | 2026-12-01 | yes | | 33.5 | -101.5 | Lawn
H9 | elm | 1 | 12 | 40 | 2010-01-01 | yes | bag | 33.5 | -101.5 | Park
`);
/** Young trees of many sizes, all full on the first day. */
const BUNCHED = grid(
  ['Tree id | Count | Caliper (in) | Site']
    .concat(Array.from({ length: 24 }, (_, k) => `R${k} | ${1 + (k % 3)} | ${1 + 0.4 * (k % 7)} | Block ${Math.floor(k / 3)}`))
    .join('\n'),
); // prettier-ignore
const NO_TAP = grid('Tree id | Caliper (in) | Tap\nN1 | 9 | no\nN2 | 2 | no');

const KIT = `
Device | Family | Volume (gal) | Rated hours | Holes | Rate (gal/h per 100 ft) | Length (ft) | Flow (gpm) | Price | Seasons | In stock | Minutes to set up | Minutes a visit | Automatic
Bag | bag | 20 | 8 | 2 | | | | 25 | 3 | 1 | 5 | 3 | no
Small bag | bag | 12 | 8 | 2 | | | | 18 | 3 | 1 | 5 | 3 | no
Pad | pad | 3 | | | | | | 30 | 2 | 1 | 5 | 6 | no
`;
const MORE_KIT = `${KIT}
Hose | soaker | | | | 60 | 25 | | 20 | 3 | 1 | 10 | 2 | no
Nozzle | hand | | | | | | 4 | 15 | 3 | 1 | 0 | 3 | no
`;
const ALL_KIT = `${MORE_KIT}
Truck | tanker | 300 | | | | | 8 | 0 | 1 | 1 | 0 | 4 | no
`;
const NO_TIMER = `
Device | Family | Volume (gal) | Rated hours | Flow (gpm) | Price | Seasons | In stock | Minutes to set up | Minutes a visit
Nozzle | hand | | | 4 | 15 | 3 | 1 | 0 | 3
`;
const TWO_OF_EACH = `${ALL_KIT}
Large pad | pad | 5 | | | | | | 40 | 2 | 1 | 5 | 6 | no
Long hose | soaker | | | | 60 | 50 | | 30 | 3 | 1 | 10 | 2 | yes
Short hose | soaker | | | | 60 | | | 30 | 3 | 1 | 10 | 2 | yes
Lance | hand | | | | | | 6 | 15 | 3 | 1 | 0 | 3 | no
Small truck | tanker | 100 | | | | | 8 | 0 | 1 | 1 | 0 | 4 | no
`;
const LITTLE = `
Device | Family | Volume (gal) | Rate (gal/h per 100 ft) | Length (ft) | Price | Seasons
Pad | pad | 0.2 | | | 30 | 2
Hose | soaker | | 60 | | 30 | 2
`;
/** Bags that are short; `no more` is what their row says of buying. */
const BUYS = `
Device | Family | Volume (gal) | Rated hours | Holes | Flow (gpm) | Price | Seasons | In stock | Buy more | Minutes to set up | Minutes a visit | Automatic
Bag | bag | 20 | 8 | 2 | | 25 | 3 | 1 | no more | 5 | 3 | no
Pad | pad | 3 | | | | 30 | 2 | 1 | | 5 | 6 | no
Nozzle | hand | | | | 4 | 15 | 3 | 1 | | 0 | 3 | no
`;
const rules = (text: string): Cell[][] => table(text);

/** What is planned: trees, and the draft they are planned with. */
const PLANS: readonly (readonly [Grid, Partial<Draft>, Partial<PlanAsk>?])[] = [
  [HARD, {}],
  [HARD, { kit: table(KIT), rules: rules('Days | Verdict\n1 per week | allow') }],
  [HARD, { kit: table(MORE_KIT), rules: rules('Days | Verdict\nMon | allow'), site: { toleratedStress: 3 } }],
  [HARD, { kit: table(ALL_KIT), rules: rules('Days | Verdict | Means\n2 per week | allow | any') }],
  [HARD, { kit: table(ALL_KIT), rules: rules('Days | Verdict | Means\n2 per week | allow | any'), site: { stockOnly: 'yes', crewHours: 2 } }],
  [HARD, { kit: table(ALL_KIT), rules: rules('Verdict\nban') }],
  [HARD, { site: { latitude: 40, crewHours: 0.5, toleratedStress: 1 } }],
  [HARD, { site: { latitude: 'north', seasonFrom: '2027-09-01', seasonTo: '2027-04-01' }, starter: 'Hand only, with nozzle' }],
  [HARD, { site: { wage: 'much', crewStart: 'dawn', name: 'Park' }, units: 'SI' }, { sheets: [{ name: 'Rules', cells: [['nothing']] }] }],
  [grid('Tree id | Caliper (in)\nT1 | 2'), {}],
  [NO_TAP, { kit: table(MORE_KIT) }],
  [grid('Tree id | Caliper (in) | Tap\nT1 | 9 | no'), { kit: table(MORE_KIT) }],
  [HARD, { kit: table(TWO_OF_EACH) }],
  [HARD, { kit: table(LITTLE), rules: rules('Verdict | Days\nallow | any\nperhaps | Foo'), site: { workDays: 'any', seasonFrom: 'soon', climate: 'odd', yardLatitude: 'x' } }],
  [grid('Tree id | Count | Caliper (in)\nT1 | 40 | 2'), { site: { seasonFrom: '2027-06-01', seasonTo: '2027-06-10', crewHours: 0.5 } }],
  [BUNCHED, { kit: table(NO_TIMER), site: { seasonFrom: '2027-06-01', seasonTo: '2027-09-30', crewHours: 4, workDays: 'any' } }],
  [grid('Tree id | Count | Caliper (in)\nT1 | 1 | 2\nT2 | 40 | 3'), { site: { seasonFrom: '2027-06-01', seasonTo: '2027-06-30', crewHours: 2 } }],
  [HARD, { kit: table(KIT), site: { stockOnly: 'yes' } }],
  // some devices may be bought: those that may not are short, or there are enough of them
  [HARD, { kit: table(BUYS.replace('no more', 'no')) }],
  [grid('Tree id | Caliper (in) | Tap\nT1 | 2 | yes'), { kit: table(BUYS.replace('no more', 'yes')), site: { stockOnly: 'yes' } }],
  // a crew that goes home before the hours open, always and on some days; one that works into the night; too little open time
  [HARD, { kit: table(MORE_KIT), rules: rules('Days | Hours | Verdict\nany | 18:00-24:00 | allow') }],
  [HARD, { kit: table(MORE_KIT), rules: rules('Days | Hours | Verdict\nMon Wed | 18:00-24:00 | allow\nFri | 00:00-09:00 | allow') }],
  [HARD, { kit: table(MORE_KIT), rules: rules('Days | Hours | Verdict\nany | 18:00-09:00 | allow'), site: { crewStart: '20:00' } }],
  [HARD, { kit: table(MORE_KIT), rules: rules('Days | Hours | Verdict\nMon Thu | 06:00-06:30 | allow'), site: { seasonFrom: '2027-06-01', seasonTo: '2027-06-10' } }],
  [grid('Tree id | Caliper (in) | Tap\nT1 | 2 | yes'), { kit: table(ALL_KIT), site: { stockOnly: 'yes' } }],
]; // prettier-ignore

const saidBy = ({ lost, remarks, problems, means, idle, over }: PlanSummary): string[] => [
  ...(over?.says === undefined ? [] : [over.says]),
  ...lost.flatMap(({ reasons }) => reasons.map(({ sentence }) => sentence)),
  ...remarks,
  ...problems,
  ...means.map((each) => each.means),
  ...idle.flatMap(({ refused }) => refused.map(({ why }) => why)),
];

async function ofTrees(room: PlanRoom, { picks }: PlanSummary): Promise<string[]> {
  const series = await Promise.all(picks.map(({ row }) => room.tree(row)));
  return series.flatMap(({ whyMeans, waterings }) => [
    whyMeans,
    ...waterings.map(({ why }) => why),
  ]);
}

const ask = (trees: Grid, draft: Partial<Draft>, more: Partial<PlanAsk> = {}): PlanAsk => ({
  trees,
  source: 'street',
  sheets: [],
  draft: { ...DRAFT, ...draft },
  today: TODAY,
  ...more,
});

/** What the step Build says. */
export async function planSentences(sample: Grid): Promise<string[]> {
  const all: string[] = [];
  const plans = [...PLANS, [sample, {}] as const, [sample, { kit: table(KIT), rules: rules('Days | Verdict\n1 per week | allow'), site: { stockOnly: 'yes' } }] as const]; // prettier-ignore
  for (const [trees, draft, more] of plans) {
    const room = freshRoom();
    const summary = await room.plan(ask(trees, draft, more));
    all.push(...saidBy(summary), ...(await ofTrees(room, summary)));
    for (const { question, note } of await room.whatIf()) all.push(question, note);
    const rows = trees.cells.map((_, i) => i + 1);
    const planned = new Set(summary.picks.map(({ row }) => row));
    for (const row of [...rows, 999])
      if (!planned.has(row)) all.push(await refusal(() => room.tree(row)));
  }
  return [
    ...all.filter((sentence) => sentence !== ''),
    ...(await refusals()),
    ...(await stockSentences()),
    ...(await lineSentences()),
  ];
}

/** What is said of a short stock, by a solver that proves, one that stops, and one that leaves a gap. */
async function stockSentences(): Promise<string[]> {
  const proves = highsSolver();
  const stops: Solve = async () => ({ x: undefined, bound: NaN, proven: false, status: 'stopped' });
  const leavesGap: Solve = async (model) => ({ ...(await proves(model)), bound: 0, proven: false, status: 'time' });
  const short: Partial<Draft> = { kit: table(ALL_KIT), rules: rules('Days | Verdict | Means\n2 per week | allow | any'), site: { stockOnly: 'yes' } };
  const all: string[] = [];
  for (const solve of [proves, stops, leavesGap])
    all.push(...saidBy(await freshRoom({ solve }).plan(ask(HARD, short))));
  return all;
} // prettier-ignore

/** A worker that breaks down, and one that is ended. */
async function lineSentences(): Promise<string[]> {
  let broken: (why: string) => void = () => undefined;
  const start = () => ({
    post: () => undefined,
    listen: (_: unknown, onBreakdown: typeof broken) => void (broken = onBreakdown),
    end: () => undefined,
  });
  const rasterise = () => Promise.reject(new Error('no image is asked for here'));
  const [one, other] = [roomLine({ rasterise, start }), roomLine({ rasterise, start })];
  const first = refusal(() => one.read(HARD, DRAFT));
  broken('out of memory');
  const second = refusal(() => other.read(HARD, DRAFT));
  other.end();
  return [await first, await second];
}

/** Crew sheets of days on which nobody has anything to do, and of a plan with no day at all. */
async function nobodyOut(): Promise<string[]> {
  const room = freshRoom();
  await room.plan(ask(HARD, { kit: table(KIT), rules: rules('Days | Verdict\nWed | allow') }));
  const sheets = (from: string, to: string) => () => room.file({ kind: 'crew.pdf', days: [from, to] });
  const said = [
    await refusal(sheets('2027-06-04', '2027-06-04')),
    await refusal(sheets('2027-06-04', '2027-06-06')),
  ];
  await room.plan(ask(HARD, { rules: rules('Verdict\nban') }));
  return [...said, await refusal(() => room.file({ kind: 'crew.pdf' }))];
} // prettier-ignore

/** Plans that cannot be made, or asked for. */
async function refusals(): Promise<string[]> {
  const room = freshRoom();
  const aborted = new AbortController();
  aborted.abort();
  const none = { onProgress: () => undefined, signal: aborted.signal };
  const no = (work: () => Promise<unknown>): Promise<string> => refusal(work);
  return [
    await no(() => room.whatIf()),
    await no(() => room.plan(ask({ cells: [['Tree id', 'DBH']] }, {}))),
    await no(() => room.plan(ask(HARD, { kit: table('Device | Family\nx | balloon') }))),
    await no(() => room.plan(ask(HARD, { site: { workDays: 'Foo' } }))),
    await no(() => room.plan(ask(HARD, { site: { workDays: 'Mon-Foo' } }))),
    await no(() => room.plan(ask(HARD, { site: { workDays: 'not Mon-Sun' } }))),
    await no(() => room.plan(ask(HARD, { site: { workDays: '9 per week' } }))),
    await no(() => room.plan(ask(HARD, {}), none)),
    await no(async () => {
      await room.plan(ask(HARD, {}));
      return room.file({ kind: 'crew.pdf', days: ['2027-06-02', '2027-06-01'] });
    }),
    await no(() => room.file({ kind: 'crew.pdf', days: ['0027-06-02', '2027-06-03'] })),
    await no(() => room.file({ kind: 'crew.pdf', days: ['2026-06-02', '2027-06-03'] })),
    ...(await nobodyOut()),
  ];
}
