/**
 * The files of sample-workbooks/, in memory: an invented inventory of 60 rows on nine sites, its site, kit, rules and
 * weather, and the plan built from them. The same input gives the same files.
 */
import { dayOf, isoDate } from '../src/engine/dates.js';
import { STARTER_TABLES } from '../src/engine/rules/starter-tables.js';
import type { Cell } from '../src/tables/cells.js';
import { L_PER_GALLON } from '../src/engine/units.js';
import type { SeasonPlan } from '../src/engine/plan/model.js';
import { cell, SheetDraft, type WorkbookModel } from '../src/workbook/model.js';
import { planFromTables, type PlanJob } from '../src/workbook/plan-job.js';
import { setupFromJson } from '../src/workbook/setup.js';
import { rasterise } from '../src/cli/rasterise.js';
import { writeXlsx } from '../src/workbook/writers/file.js';

const MADE_ON = dayOf(2027, 3, 15);
/** The season log holds the days before this one. */
const LOGGED_TO = dayOf(2027, 7, 1);

interface Place {
  name: string;
  street: string;
  /** first house number; later trees count up by twos */
  number: number;
  latitude: number;
  longitude: number;
  tap: string;
  trees: number;
  /** trunk of the site's trees [in], taken in turn */
  calipers: readonly number[];
  /** nursery container classes in turn, '' for balled stock */
  containers: readonly string[];
  /** planting dates in turn, '' for standing trees */
  planted: readonly string[];
  soil: string;
}

/** Invented places of an invented town. */
const PLACES: readonly Place[] = [
  { name: 'Pilings Walk', street: 'Tarbarrel Row', number: 11, latitude: 33.412, longitude: -139.101, tap: 'yes', trees: 8, calipers: [1.5, 2], containers: ['#15', ''], planted: ['2026-11-10', '2027-02-20'], soil: 'sandy loam' },
  { name: 'Ropeyard Green', street: 'Hawser Lane', number: 24, latitude: 33.418, longitude: -139.108, tap: 'yes', trees: 7, calipers: [2, 2.5, 3], containers: ['', ''], planted: ['2025-10-05', '2024-11-12'], soil: 'loam' },
  { name: 'Lantern Steps', street: 'Beaconfoot Street', number: 5, latitude: 33.425, longitude: -139.096, tap: 'no', trees: 6, calipers: [3.5, 4.5], containers: [''], planted: ['2022-03-01', ''], soil: 'clay loam' },
  { name: 'Gullwing Court', street: 'Saltcellar Alley', number: 102, latitude: 33.409, longitude: -139.115, tap: 'yes', trees: 6, calipers: [1, 1.25], containers: ['#7', '#15'], planted: ['2027-03-01'], soil: 'sandy loam' },
  { name: 'Old Weighhouse', street: 'Tallyman Square', number: 1, latitude: 33.421, longitude: -139.09, tap: 'no', trees: 7, calipers: [2, 2.25], containers: ['#25', ''], planted: ['2026-10-18', '2025-12-02'], soil: 'loam' },
  { name: 'Mudlark School', street: 'Ebbtide Avenue', number: 210, latitude: 33.432, longitude: -139.103, tap: 'yes', trees: 8, calipers: [2.5, 6, 8], containers: [''], planted: ['2024-02-15', '', ''], soil: 'loam' },
  { name: 'Cooperage Flats', street: 'Stavehoop Road', number: 37, latitude: 33.428, longitude: -139.119, tap: 'yes', trees: 6, calipers: [3, 4], containers: [''], planted: ['2021-11-20', '2020-04-03'], soil: 'silt loam' },
  { name: 'Fogbell Terrace', street: 'Doldrum Hill', number: 64, latitude: 33.437, longitude: -139.093, tap: 'no', trees: 5, calipers: [10, 7, 12], containers: [''], planted: [''], soil: 'clay loam' },
  { name: 'Kelpline Verge', street: 'Breakwater Parade', number: 300, latitude: 33.415, longitude: -139.087, tap: 'yes', trees: 7, calipers: [1.75, 2], containers: ['#15'], planted: ['2026-12-08'], soil: 'loamy sand' },
]; // prettier-ignore

/** Kinds with their water use, taken in turn. */
const KINDS: readonly (readonly [string, string])[] = [
  ['desert willow', 'low'],
  ['live oak', 'moderate'],
  ['honey mesquite', 'low'],
  ['pistache', 'moderate'],
  ['cedar elm', 'moderate'],
  ['crape myrtle', 'moderate'],
  ['velvet ash', 'moderate'],
];

const HEADER = [
  'Tag', 'Species', 'Qty', 'Caliper (in)', 'Container', 'Planted', 'Canopy (ft)', 'Water use', 'Soil', 'Site', 'Address',
  'Latitude', 'Longitude', 'Tap', 'Note',
]; // prettier-ignore

const turn = <T>(list: readonly T[], i: number): T => list[i % list.length]!;

function inventory(): Cell[][] {
  const rows: Cell[][] = [];
  PLACES.forEach((place, p) => {
    for (let i = 0; i < place.trees; i++) {
      const caliper = turn(place.calipers, i);
      const [species, use] = turn(KINDS, rows.length + p);
      const measured = caliper >= 3 ? Math.round((4 + 1.6 * caliper) * 2) / 2 : null;
      rows.push([
        `HR-${String(rows.length + 1).padStart(3, '0')}`,
        species,
        i === place.trees - 1 && caliper < 3 ? 3 : 1,
        caliper,
        turn(place.containers, i),
        turn(place.planted, i),
        measured,
        use,
        place.soil,
        place.name,
        `${place.number + 2 * i} ${place.street}`,
        Number((place.latitude + i * 0.0002).toFixed(4)),
        Number((place.longitude - i * 0.0003).toFixed(4)),
        place.tap,
        '',
      ]);
    }
  });
  // What real inventories hold as well: a row nobody can size, and a note that looks like a formula.
  const last = rows[rows.length - 1]!;
  last[3] = null;
  last[4] = '';
  last[6] = null;
  last[14] = 'stump? measure again';
  rows[3]![14] = '=check stake';
  return [HEADER, ...rows];
}

/** Everything but the inventory, in the form `--site` reads. Invented. */
const SETUP = {
  _about: 'Invented place, company and season. Replace every number by yours.',
  site: {
    name: 'Harbour Row (invented)',
    latitude: 33.42,
    elevation: 340,
    texture: 'loam',
    zone: 9,
    climate: 'dry',
    seasonFrom: '2027-04-01',
    seasonTo: '2027-09-30',
    toleratedStress: 0,
    crewSize: 2,
    wage: 32,
    waterPrice: 1.6,
    crewStart: '5:00',
    crewHours: 9,
    driveMinutes: 12,
    tankVolume: 1892.705892,
    tankRefillMinutes: 20,
  },
  kit: [
    ['Device', 'Family', 'Volume (gal)', 'Holes', 'Rated hours (h)', 'Rate (gal/h per 100 ft)', 'Length (ft)', 'Flow (gpm)', 'Price', 'Seasons', 'In stock', 'Minutes to set', 'Minutes a visit', 'Automatic (yes/no)'],
    ['15 gal bag', 'bag', 15, 4, 5, null, null, null, 26, 3, 30, 6, 2, 'no'],
    ['3 gal pad', 'pad', 3, null, null, null, null, null, 24, 2, 0, 10, 12, 'no'],
    ['soaker, 40 ft on a timer', 'soaker', null, null, null, 65, 40, null, 85, 3, 6, 45, 10, 'yes'],
    ['hand hose', 'hand', null, null, null, null, null, 5, 45, 4, 3, 0, 2, 'no'],
    ['500 gal truck', 'tanker', 500, null, null, null, null, 20, 0, 10, 1, 0, 6, 'no'],
  ],
  stages: [
    ['From', 'Stage'],
    ['2027-04-01', 'Stage 1'],
    ['2027-07-01', 'Stage 2'],
  ],
  rules: [
    ['Stage', 'Means', 'Source', 'Address', 'Days', 'Hours', 'New planting', 'Verdict', 'Note'],
    ['Stage 1', 'any', 'any', 'any', 'any', '00:00-10:00, 18:00-24:00', '', 'allow', 'invented rule 1.1'],
    ['Stage 2', 'bag, soaker', 'any', 'any', 'not Sun', '00:00-09:00, 19:00-24:00', '', 'allow', 'invented rule 2.1'],
    ['Stage 2', 'hand', 'any', 'any', 'Mon Wed Fri', '00:00-09:00, 19:00-24:00', '', 'allow', 'invented rule 2.2'],
    ['Stage 2', 'pad', 'any', 'any', 'any', 'any', '', 'allow', 'invented rule 2.3'],
    ['Stage 2', 'tanker', 'tanker', 'any', 'any', 'any', '', 'allow', 'invented rule 2.4: water brought from outside'],
  ],
  weather: [
    ['Month', 'ET0 (in/day)', 'Rain (in)', 'Share of rain to count on'],
    [4, 0.22, 0.3, 0.5],
    [5, 0.27, 0.15, 0.5],
    [6, 0.31, 0.1, 0.5],
    [7, 0.3, 0.9, 0.5],
    [8, 0.27, 1.0, 0.5],
    [9, 0.22, 0.7, 0.5],
  ],
}; // prettier-ignore

/** Papers of the service in the form `--site` reads. Invented. */
const PAPERS = {
  contract: [
    [
      'Applies to',
      'From',
      'To',
      'Least water (gal)',
      'Water per',
      'Least visits',
      'Visits per',
      'Most water (gal)',
      'Most per',
      'Over costs (per 1000 gal)',
      'Skip if rain (in)',
      'Within days',
      'Means',
      'Until',
      'Source',
    ],
    [
      'caliper under 2 in',
      'Apr 1',
      'Sep 30',
      2,
      'visit',
      null,
      null,
      null,
      null,
      null,
      null,
      null,
      'any',
      '36 months',
      'invented clause 4.1',
    ],
    [
      'caliper 2-3 in',
      'Apr 1',
      'Sep 30',
      12,
      'visit',
      null,
      null,
      null,
      null,
      null,
      null,
      null,
      'any',
      '36 months',
      'invented clause 4.2',
    ],
    [
      'all',
      'May 1',
      'Sep 30',
      null,
      null,
      1,
      'month',
      null,
      null,
      null,
      1,
      7,
      'any',
      null,
      'invented clause 4.3',
    ],
    [
      'site Old Weighhouse',
      'Jun 1',
      'Sep 15',
      null,
      null,
      4,
      'week',
      null,
      null,
      null,
      null,
      null,
      'hand',
      null,
      'invented clause 4.4',
    ],
    [
      'all',
      null,
      null,
      null,
      null,
      null,
      null,
      14000,
      'month',
      6,
      null,
      null,
      null,
      null,
      'invented clause 5.1',
    ],
  ],
  meters: [
    [
      'Meter',
      'From',
      'To',
      'Begin',
      'End',
      'Unit',
      'Digits',
      'Permit from',
      'Permit to',
      'Price (per 1000 gal)',
      'Fixed sum',
      'Includes (gal)',
      'Over costs (per 1000 gal)',
    ],
    [
      'H-1',
      '2027-06-07',
      '2027-06-09',
      98550,
      99940,
      'gal',
      5,
      '2027-04-01',
      '2027-09-30',
      6,
      40,
      null,
      null,
    ],
    [
      'H-1',
      '2027-06-10',
      '2027-06-13',
      99940,
      78,
      'gal',
      5,
      '2027-04-01',
      '2027-09-30',
      6,
      40,
      null,
      null,
    ],
    [
      'H-2',
      '2027-06-07',
      '2027-06-13',
      412.2,
      null,
      '100 ft3',
      null,
      '2027-06-10',
      '2027-09-30',
      null,
      55,
      2000,
      9,
    ],
  ],
  clocks: [
    [
      'Tree',
      'Term (months)',
      'Days not credited (days)',
      'Replaced on',
      'Inspected on',
      'Died back (share)',
      'Status',
      'Since',
    ],
    ['HR-002', null, 14, null, null, null, null, null],
    ['HR-005', null, null, '2027-04-20', null, null, null, null],
    ['HR-009', null, null, null, '2026-10-12', 0.3, null, null],
    ['HR-010', null, null, null, null, null, 'dead', '2027-06-01'],
  ],
  bags: [
    [
      'Bag',
      'On tree',
      'Fitted',
      'Last moved',
      'Last filled',
      'Seen full on',
      'Bag state',
      'Taken off',
    ],
    ['B-01', 'HR-001', '2027-04-02', '2027-06-08', '2027-06-15', null, 'ok', null],
    ['B-02', 'HR-002', '2027-04-02', '2027-05-01', '2027-06-15', '2027-06-18', 'ok', null],
    ['B-03', 'HR-003', '2027-04-02', '2027-06-08', '2027-06-15', null, 'leaking', null],
  ],
  shortage: [
    ['Limit', 'Value', 'Unit'],
    ['Order', 'new first', ''],
    ['Water of the season', 30000, 'gal'],
  ],
} as const;

/** The week of June the log of visits holds. */
const VISITS = { from: dayOf(2027, 6, 7), to: dayOf(2027, 6, 12) };

/**
 * An invented log of a week: the crew's visits as planned, some with what a log gets asked about. Times and gallons vary by
 * the row's number, so that the same plan gives the same log.
 */
function visitLog(plan: SeasonPlan): Cell[][] {
  const rows: Cell[][] = [];
  for (const { day, stops } of plan.crewDays.filter(
    (d) => d.day >= VISITS.from && d.day <= VISITS.to,
  )) {
    let clock = 6 * 60 + 40;
    for (const { tree, watering } of stops.flatMap((stop) => stop.tasks)) {
      const n = rows.length;
      const planned = Math.round((watering.litres / L_PER_GALLON) * 10) / 10;
      const meter = n % 3 === 0;
      const applied = meter
        ? Math.round(planned * (94 + ((n * 7) % 13))) / 100
        : Math.ceil(planned);
      const stay = Math.ceil(applied / 5) + 3 + (n % 4);
      rows.push([
        tree.id,
        isoDate(day),
        timeWords(clock),
        timeWords(clock + stay),
        'Crew A',
        '500 gal truck',
        planned,
        applied,
        meter ? 'meter' : 'bag',
        n % 5 === 0 ? 'H-2' : 'H-1',
        day % 3 === 0 ? 0 : null,
        4 + (n % 4),
        n % 6 === 0 ? 'slightly drooping' : null,
        null,
        null,
        null,
        null,
        'foreman',
        stay - 1 + (n % 3),
      ]);
      clock += stay + 2 + ((n * 5) % 7);
    }
  }
  const at = (n: number): Cell[] => rows[n]!;
  // what a log gets asked about
  at(3)[7] = 900;
  at(6)[3] = timeWords(5 * 60);
  [at(9)[7], at(9)[16]] = [0, 'parked car'];
  [at(12)[7], at(12)[16]] = [null, null];
  rows.splice(15, 0, [...at(14)]);
  at(18)[0] = 'HR-010';
  at(21)[0] = 'HR-999';
  return [VISIT_HEADER, ...rows];
}

const VISIT_HEADER = [
  'Tree',
  'Date',
  'Arrived',
  'Left',
  'Crew',
  'Truck',
  'Planned (gal)',
  'Applied (gal)',
  'How measured',
  'Source or meter',
  'Rain since last visit (in)',
  'Screwdriver depth (in)',
  'Leaves',
  'Bag state',
  'Condition',
  'Photo',
  'Skip reason',
  'Approved',
  'Truck there (min)',
];

const timeWords = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

/** `Hand only, with nozzle` as a file name: `hand-only-with-nozzle`. */
const fileName = (name: string): string => name.toLowerCase().replace(/[^a-z0-9]+/g, '-');

const csvText = (rows: readonly (readonly Cell[])[]): string =>
  `${rows.map((row) => row.map(csvCell).join(',')).join('\r\n')}\r\n`;

const csvCell = (cell: Cell | undefined): string => {
  const text = cell === null || cell === undefined ? '' : String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
};

const README = `# Sample workbooks

Everything here is invented: the place, the company, the season, the rules, the prices.

| file | what it is |
|---|---|
| harbour-row-trees.csv, .xlsx | the inventory as an office would have it: 60 rows, nine sites |
| site.json | site, kit, rules with two stages, weather; contract, a week of a log of visits, meters, clocks, bags, a short season; read by \`--site\` |
| starter-rules/, starter-rules.xlsx | nine rules tables to start from, each an example: replace by your ordinance; read by \`--rules\` |
| harbour-row-plan.xlsx | the plan built from them, made on ${isoDate(MADE_ON)} |
| season-log.xlsx | what happened until ${isoDate(LOGGED_TO - 1)}: waterings, rain, readings; read by \`--log\` |

Build the plan again: \`npm run plan -- sample-workbooks/harbour-row-trees.csv --site sample-workbooks/site.json --out plan.xlsx\`.
Plan the rest of the season again: the same with \`--log sample-workbooks/season-log.xlsx --today ${isoDate(LOGGED_TO)} --timers-as-planned\`.
With rules of your own: \`--rules FILE\`, a .csv or .xlsx; it says what it understood, and stops at a row it cannot read.
Write this folder again: \`npx tsx scripts/make-sample.ts\`.
`;

/** The starter tables on sheets of one workbook: to be copied, or chosen by name in the panel. */
function starterBook(): WorkbookModel {
  const sheets = STARTER_TABLES.map(({ name, note, rows }, k) => {
    const draft = new SheetDraft(`Rules ${k + 1}`, name);
    draft.text([cell(name, 'title'), cell(note, 'caution')]);
    draft.skip();
    const [header = [], ...body] = rows;
    draft.table(
      `Starter_${k + 1}`,
      header.map((head) => ({ key: String(head), header: String(head), width: 20, wrap: true, style: 'input' as const })), // prettier-ignore
      body.length,
      (i) => header.map((_, c) => body[i]![c] ?? null),
    );
    return draft.done();
  });
  return {
    title: 'Starter rules',
    description: 'Invented watering rules to start from; replace them by your ordinance',
    madeOn: MADE_ON,
    paper: 'letter',
    sheets,
    names: {},
  };
}

/** JSON with one table row a line, to be read and edited by people. */
function setupText(setup: object): string {
  const part = (value: unknown): string =>
    Array.isArray(value)
      ? `[\n${value.map((row) => `    ${JSON.stringify(row)}`).join(',\n')}\n  ]`
      : JSON.stringify(value, null, 2).replace(/\n/g, '\n  ');
  const parts = Object.entries(setup).map(
    ([key, value]) => `  ${JSON.stringify(key)}: ${part(value)}`,
  );
  return `{\n${parts.join(',\n')}\n}\n`;
}

/**
 * An invented log of the season so far: the crew watered as planned, in whole gallons, but missed one site from 10 June
 * on; four rains; a slow bag and a slow hose.
 */
function seasonLog(plan: SeasonPlan): WorkbookModel {
  const timed = new Set(['soaker, 40 ft on a timer']);
  const missed = (site: string, day: number): boolean =>
    site === 'Lantern Steps' && day >= dayOf(2027, 6, 10);
  const waterings = plan.trees
    .flatMap(({ tree, chosen }) =>
      chosen.plan
        .filter((w) => w.day < LOGGED_TO && !timed.has(w.device) && !missed(tree.site, w.day))
        .map((w) => [w.day, tree.id, Math.max(1, Math.round(w.litres / L_PER_GALLON)), w.device] as const),
    )
    .sort((a, b) => a[0] - b[0] || (a[1] < b[1] ? -1 : 1));
  const bagged = plan.trees.find(({ chosen }) => chosen.devices.includes('15 gal bag'));
  const tables: [name: string, header: string[], rows: (readonly Cell[])[]][] = [
    ['Waterings', ['Date', 'Tree', 'Water (gal)', 'Device'], waterings],
    ['Rain', ['Date', 'Rain (in)'], [[dayOf(2027, 4, 9), 0.3], [dayOf(2027, 5, 2), 0.55], [dayOf(2027, 5, 21), 0.1], [dayOf(2027, 6, 4), 0.8]]],
    ['Bag timings', ['Tree', 'Hours', 'Left'], bagged ? [[bagged.tree.id, 9, 0]] : []],
    ['Flows', ['Device', 'Flow (gpm)'], [['hand hose', 4]]],
    ['Stages', ['From', 'Stage'], [[dayOf(2027, 6, 24), 'Stage 2']]],
  ];
  return {
    title: 'Harbour Row season log (invented)',
    description: 'An invented log of a season so far',
    madeOn: LOGGED_TO,
    paper: 'letter',
    sheets: tables.map(([name, header, rows]) => {
      const sheet = new SheetDraft(name, name);
      const columns = header.map((title) => ({
        key: title, header: title, width: 16, ...(title === 'Date' || title === 'From' ? { format: 'date' as const } : {}),
      }));
      sheet.table(name.replace(' ', ''), columns, rows.length, (i) => [...rows[i]!]);
      return sheet.freeze(1).done();
    }),
    names: {},
  };
} // prettier-ignore

export interface SampleFiles {
  /** path inside the folder → what it holds */
  files: Map<string, string | Uint8Array>;
  /** what came out, a sentence each */
  said: string[];
}

/** The inventory as a workbook. */
function treesBook(cells: Cell[][]): WorkbookModel {
  const sheet = new SheetDraft('Trees', 'Trees');
  sheet.table(
    'Inventory',
    HEADER.map((header, i) => ({ key: `c${i}`, header, width: i === 1 || i > 8 ? 20 : 12 })),
    cells.length - 1,
    (i) => cells[i + 1]!,
  );
  return {
    title: 'Harbour Row trees (invented)',
    description: 'An invented inventory',
    madeOn: MADE_ON,
    paper: 'letter',
    sheets: [sheet.freeze(1).done()],
    names: {},
  };
}

/** How many rows have which means, and which have none. */
function outcome(plan: SeasonPlan): string[] {
  const means = new Map<string, number>();
  for (const { chosen, state } of plan.trees) {
    const label = `${chosen.label}, ${state}`;
    means.set(label, (means.get(label) ?? 0) + 1);
  }
  const left = plan.notPlanned.map((n) => `${n.row} ${n.reason}`).join('; ');
  return [...[...means].map(([label, rows]) => `${rows} ${label}`), `not planned: ${left}`];
}

/** Every file of the folder. */
export async function sampleFiles(): Promise<SampleFiles> {
  const cells = inventory();
  const planned = (given: object): PlanJob => {
    const { setup, problems } = setupFromJson(given);
    return planFromTables({
      inventory: cells,
      fileName: 'harbour-row-trees.csv',
      madeOn: MADE_ON,
      title: 'Watering plan 2027, Harbour Row (invented)',
      notes: problems,
      ...setup,
    });
  };
  const visits = visitLog(planned({ ...SETUP, contract: PAPERS.contract }).plan);
  const all = { ...SETUP, ...PAPERS, visits };
  const job = planned(all);
  const files = new Map<string, string | Uint8Array>([
    ['harbour-row-trees.csv', csvText(cells)],
    ...STARTER_TABLES.map(({ name, rows }) => [`starter-rules/${fileName(name)}.csv`, csvText(rows)] as const),
    ['starter-rules.xlsx', await writeXlsx(starterBook())],
    ['harbour-row-trees.xlsx', await writeXlsx(treesBook(cells))],
    ['site.json', setupText(all)],
    ['README.md', README],
    ['harbour-row-plan.xlsx', await writeXlsx(job.model, { rasterise })],
    ['season-log.xlsx', await writeXlsx(seasonLog(job.plan))],
  ]); // prettier-ignore
  return { files, said: [...outcome(job.plan), ...job.notes] };
}
