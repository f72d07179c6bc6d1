/** Contracts, shortages and logs, good and bad; what the corner Contract says. */
import type { Cell, Grid } from '../../../src/tables/cells.js';
import type {
  ContractReport,
  LogReport,
  ShortageWish,
} from '../../../src/workers/contract-types.js';
import type { PlanRoom } from '../../../src/workers/plan-room.js';
import { TRIAGE_ORDER_NAMES, TRIAGE_ORDERS } from '../../../src/engine/contract/triage-orders.js';
import { DRAFT, freshRoom, grid, refusal, table, TODAY } from './room.js';

const CONTRACT = `
Applies to | From | To | Least water (gal) | Water per | Least visits | Visits per | Most water (gal) | Most per | Over costs (per 1000 gal) | Skip if rain (in) | Within days | Means | Until | Source
all | Jun 1 | Aug 31 | 10 | visit | 3 | week | | | | | | any | | page 4
caliper 2-4 in | | | 5 | week | | | 9000 | season | 12 | | | bag, hand | 2027-08-01 |
caliper over 4 in | 2027-06-01 | | 5 | month | 1 | month | 50 | week | | 0.5 | 5 | | 36 months |
caliper under 3 in | week 3 | day 90 | | | 1 | week | | | | 1 | 1 | | 1 months |
height over 8 ft | | 2027-07-01 | | | | | 60 | month | | | | | |
height 5-8 ft | first Sun Jun | before last Sun Aug | 1 | visit | | | | | | | | | |
height under 5 ft | | | 1 | visit | | | | | | | | | |
species desert willow | | month 4 | 300 | week | | | | | | | | | |
site Park | | | 300 | week | 1 | week | 5 | week | 3 | | | | |
caliper big | | | 5 | week | | | | | | | | | |
caliper 4-2 in | | | 5 | week | | | | | | | | | |
all | soon | | 5 | week | | | | | | | | | |
all | | later | 5 | week | | | | | | | | | |
all | | | 5 | week | | | | | | | | balloon | |
all | | | 5 | week | | | | | | | | | ages |
all | | | lots | week | | | | | | | | | |
all | | | | week | | | | | | | | | |
all | | | 5 | | | | | | | | | | |
all | | | 5 | year | | | | | | | | | |
all | | | | | | | | | | | | | |
all | | | | | 1.5 | week | | | | | | | |
all | | | 5 | week | | | | | 4 | | | | |
all | Jun 1 | 2027-08-01 | 5 | week | | | | | | | | | |
all | 2027-08-01 | 2027-06-01 | 5 | week | | | | | | | | | |
all | | | 5 | week | | | | | | 1 | | | |
all | | | 5 | week | | | | | | 1 | 900 | | |
all | | | 5 | week | | | | | | 0 | 2 | | |
all | | | | | 1 | week | | | | | | drip | |
all | 2027-06-01 | 2027-06-03 | | | 1 | week | | | | | | | |
`;
const CONTRACTS: readonly string[] = [
  CONTRACT,
  'no\ncontract',
  'Applies to | Least water (kg)\nall | 5',
];

const bySaid = ({ understood, problems, judged }: ContractReport): string[] => [
  ...understood.map(({ sentence }) => sentence),
  ...problems.map(({ sentence }) => sentence),
  ...(judged?.clauses.flatMap(({ why }) => (why === '' ? [] : why.replace(/^besides, /, ''))) ??
    []),
  ...(judged?.fights.map(({ sentence }) => sentence) ?? []),
];

/** A plan of the sample under rules of two days a week, with which contract, shortage and log are asked. */
export async function plannedRoom(trees: Grid): Promise<PlanRoom> {
  const room = freshRoom();
  const draft = { ...DRAFT, rules: table('Days | Verdict\n2 per week | allow') };
  await room.plan({ trees, source: 'street', sheets: [], draft, today: TODAY });
  return room;
}

const STAGED = 'Stage | Days | Verdict\n2 | 1 per week | allow';
export async function contractSentences(trees: Grid): Promise<string[]> {
  const room = await plannedRoom(trees);
  const reports = await Promise.all(
    CONTRACTS.flatMap((text) =>
      (['US', 'SI'] as const).map((units) =>
        room.contract({ cells: table(text), units, judge: true }),
      ),
    ),
  );
  const staged = freshRoom();
  const draft = { ...DRAFT, rules: table(STAGED), stages: table('From | Stage\n2027-05-01 | 2') };
  const papers = {
    contract: table(CONTRACT),
    meters: table('Meter | From | To\nH | soon | later'),
  };
  const kept = await staged.plan({
    trees,
    source: 'street',
    sheets: [],
    draft,
    today: TODAY,
    papers,
  });
  const again = await staged.contract({ cells: table(CONTRACT), units: 'US', judge: true });
  const few = grid('Tree id | Species | Caliper (in)\nT1 | elm | 2\nT2 | ash | 2');
  const bad = table(
    `Applies to | Least visits | Visits per\nspecies elm | 3 | week${'\nall | lots | week'.repeat(40)}`,
  );
  const one = await freshRoom().plan({
    trees: few,
    source: 'street',
    sheets: [],
    draft: DRAFT,
    today: TODAY,
    papers: { contract: bad },
  });
  return [...reports, again]
    .flatMap(bySaid)
    .concat(kept.problems, kept.remarks, one.problems, one.remarks);
}

const WISHES: readonly Partial<ShortageWish>[] = [
  {},
  { amount: 20 },
  { limit: 'week', amount: 200 },
  { limit: 'week', amount: 3 },
  { limit: 'hours', amount: 0.5 },
  { limit: 'hours', amount: 0.01 },
  { order: 'large first' },
  { order: 'score', limit: 'week', amount: 400 },
];
const REFUSED: readonly Partial<ShortageWish>[] = [
  { amount: 0 },
  { order: 'value' },
  { order: 'value', value: 1 },
  { order: 'sound first', condition: 1 },
];

/** Who is served, and why others are not. */
export async function shortageSentences(trees: Grid): Promise<string[]> {
  const room = await plannedRoom(trees);
  const wish = (more: Partial<ShortageWish>): ShortageWish => ({ limit: 'season', amount: 8000, order: 'new first', ...more }); // prettier-ignore
  const reports = await Promise.all(WISHES.map((more) => room.shortage(wish(more))));
  const worthless = await plannedRoom(grid('Tree id | Caliper (in) | Worth\nT1 | 3 | 0'));
  const refused = REFUSED.map((more) => refusal(() => room.shortage(wish(more))));
  return [
    ...TRIAGE_ORDER_NAMES.map((order) => TRIAGE_ORDERS[order].says),
    // what a publication is called stays as it is
    ...(['stress', 'score'] as const).map((order) => TRIAGE_ORDERS[order].source),
    ...reports.flatMap(({ says, out }) => [says, ...out.map(({ why }) => why)]),
    ...(await Promise.all(refused)),
    await refusal(() => worthless.shortage(wish({ order: 'value', value: 2 }))),
  ];
}

const LOG = `
Tree | Date | Arrived | Left | Crew | Truck | Applied (gal) | How measured | Source or meter | Rain since last visit (in) | Skip reason | Truck there (min)
HR-001 | 2027-06-01 | 8:00 | 7:00 | Crew 1 | | 10 | | | 0 | |
nobody | 2027-06-01 | 9:00 | 9:05 | Crew 1 | | | | | | |
HR-002 | 2027-06-01 | 9:02 | 9:30 | Crew 1 | Truck | 400 | | | | rain |
HR-002 | 2027-06-01 | 9:40 | 9:50 | Crew 1 | Truck | 0 | | | | |
HR-003 | 2027-06-02 | 9:00 | 9:10 | Crew 1 | Truck | 400 | | | | | 3
HR-003 | 2027-06-02 | 9:12 | 9:22 | Crew 1 | Truck | 20 | | | | | 2
HR-003 | 2027-06-02 | 9:24 | 9:34 | Crew 2 | Truck | 20 | | | | | 2
HR-004 | 2027-06-02 | 9:05 | 9:40 | Crew 1 | Truck | 900 | meter | H-7 | | | 2
HR-005 | 2027-06-03 | 9:00 | 9:01 | Crew 3 | Truck 2 | 21 | meter | H-7 | | |
HR-006 | 2027-06-03 | 9:01 | 9:02 | Crew 3 | Truck 2 | 21 | meter | H-7 | | |
HR-007 | 2027-06-03 | 9:02 | 9:03 | Crew 3 | Truck 2 | 21 | meter | H-7 | | |
HR-008 | 2027-06-03 | 9:03 | 9:03 | Crew 3 | Truck 2 | 21 | meter | H-7 | | |
HR-009 | 2027-06-03 | 9:03 | 9:04 | Crew 3 | Truck 2 | 21 | meter | H-7 | | |
HR-010 | 2027-06-03 | 9:03 | 9:04 | Crew 3 | Truck 2 | 21 | meter | H-7 | | |
HR-005 | 2027-06-10 | 9:00 | 9:10 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
HR-006 | 2027-06-10 | 9:15 | 9:25 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
HR-007 | 2027-06-10 | 9:30 | 9:40 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
HR-008 | 2027-06-10 | 9:45 | 9:55 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
HR-009 | 2027-06-10 | 10:00 | 10:10 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
HR-010 | 2027-06-10 | 10:15 | 10:25 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
HR-005 | 2027-06-17 | 9:00 | 9:10 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
HR-006 | 2027-06-17 | 9:15 | 9:25 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
HR-007 | 2027-06-17 | 9:30 | 9:40 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
HR-008 | 2027-06-17 | 9:45 | 9:55 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
HR-009 | 2027-06-17 | 10:00 | 10:10 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
HR-010 | 2027-06-17 | 10:15 | 10:25 | Crew 4 | Truck 2 | 23 | meter | H-7 | | |
L-1 | 2027-06-17 | 12:00 | 12:10 | | | 10 | | | | |
L-2 | 2020-06-17 | 12:15 | 12:20 | | | 10 | | | | |
L-3 | 2027-06-17 | 12:21 | 12:24 | | | 10 | | | | |
L-3 | 2027-06-17 | 12:21 | 12:24 | Crew 8 | | 10 | | | | |
L-4 | 2027-06-17 | 12:25 | 12:29 | | | 10 | | | | |
HR-001 | soon | | | | | 10 | | | | |
 | 2027-06-17 | | | | | 10 | | | | |
HR-001 | | noon | | | | 10 | | | | |
HR-001 | 2027-06-17 | noon | | | | 10 | | | | |
HR-001 | 2027-06-17 | | | | | lots | | | | |
HR-001 | 2027-06-17 | 13:00 | 13:10 | | | 10 | licked | | | |
`;
/** A day of sixteen trees: each for ten minutes or as long as `stay` says, each with the water `water` says. */
const dayOf = (stay: (i: number) => number, water: (i: number) => number): Cell[][] => [
  ...table(LOG).slice(0, 1),
  ...Array.from({ length: 16 }, (_, i): Cell[] => {
    const time = (minute: number): string => `${8 + Math.floor(i / 4)}:${String(15 * (i % 4) + minute).padStart(2, '0')}`; // prettier-ignore
    return [`HR-${String(i + 1).padStart(3, '0')}`, '2027-06-09', time(0), time(stay(i)), 'Crew 5', 'Truck 2', water(i), 'meter', 'H-8']; // prettier-ignore
  }),
];
const BY_CLOCK = dayOf(() => 10, (i) => 20 + i); // prettier-ignore
const BY_METER = dayOf((i) => 8 + (i % 5), () => 23); // prettier-ignore
const METERS = `
Meter | From | To | Begin | End | Unit | Digits | Price (per 1000 gal) | Allowance (gal) | Permit from | Permit to
H-7 | 2027-06-01 | 2027-06-08 | 1000 | 1100 | gal | | 10 | 50 | 2027-06-04 | 2027-06-20
H-7 | 2027-06-08 | 2027-06-15 | 1300 | | gal | | 10 | | 2027-06-14 |
H-7 | 2027-06-15 | 2027-06-20 | | | ccf | | 10 | | | 2027-06-16
H-8 | 2027-06-01 | 2027-06-20 | 990 | 40 | gal | 3 | | | |
H-9 | 2027-06-01 | 2027-06-20 | 900 | 40 | gal | 4 | | | |
H-9 | 2027-06-20 | 2027-06-25 | | 40 | gal | 4 | | | |
H-8 | 2027-06-18 | 2027-06-25 | 1 | 2 | gal | 3 | | | |
H-9 | 2027-06-26 | 2027-06-22 | 1 | 2 | gal | | | | |
 | 2027-06-26 | 2027-06-29 | 1 | 2 | gal | | | | |
H-9 | 2027-06-26 | 2027-06-29 | 1 | 2 | cups | | | | |
H-9 | 2027-06-26 | 2027-06-29 | 1 | 2 | gal | 2.5 | | | |
H-9 | 2027-06-26 | 2027-06-29 | 1 | 2 | gal | 99 | | | |
`;
const LISTED = table(
  'Tree id | Caliper (in) | Planted | Status\nL-1 | 3 | 2020-01-01 | dead\nL-2 | 3 | 2026-01-01 | \nL-4 | 3 | 2020-01-01 | removed',
);
const KIT = `
Device | Family | Volume (gal) | Flow (gpm) | Price | Seasons
Truck | tanker | 300 | 8 | 0 | 1
Truck 2 | tanker | 300 | 30 | 0 | 1
`;

const logSaid = ({ questions, problems, meters, contract }: LogReport): string[] => [
  ...questions.map(({ sentence }) => sentence),
  ...problems.map(({ sentence }) => sentence),
  ...(meters?.rows.flatMap((row) => row.questions) ?? []),
  ...(meters?.problems.map(({ sentence }) => sentence) ?? []),
  ...(contract?.flatMap(({ why }) => (why === '' ? [] : why.replace(/^besides, /, ''))) ?? []),
];

/** What a filled log is asked about. */
export async function logSentences(trees: Grid): Promise<string[]> {
  const room = freshRoom();
  const draft = { ...DRAFT, kit: table(KIT) };
  const [names = [], ...rows] = trees.cells;
  const id = names.findIndex((name) => /tree|tag|id/i.test(String(name)));
  const both: Grid = { cells: [names, ...rows] };
  const filled = (cells: Cell[][], on: Grid) =>
    room.log({
      cells,
      trees: on,
      draft,
      planned: false,
      meters: table(METERS),
      contract: table(CONTRACT),
    });
  const reports = [
    await filled(table(LOG), both),
    await filled(table(LOG), { cells: LISTED }),
    await filled(BY_CLOCK, both),
    await filled(BY_METER, both),
    await room.log({
      cells: table(LOG),
      trees: both,
      draft: { ...draft, units: 'SI' },
      planned: false,
    }),
    await filled([['no'], ['log']], both),
  ];
  const none = await refusal(() =>
    room.log({ cells: [], trees: { cells: [] }, draft, planned: false }),
  );
  return id < 0 ? [] : reports.flatMap(logSaid).concat(none);
}
