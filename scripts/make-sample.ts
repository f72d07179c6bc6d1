/**
 * Writes sample-workbooks/: an invented inventory of 60 rows on nine sites, its site, kit, rules and weather,
 * and the plan built from them. The same input gives the same files. Run: npx tsx scripts/make-sample.ts
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dayOf, isoDate } from '../src/engine/dates.js';
import { STARTER_TABLES } from '../src/engine/rules/starter-tables.js';
import type { Cell } from '../src/tables/cells.js';
import { L_PER_GALLON } from '../src/engine/units.js';
import type { SeasonPlan } from '../src/engine/plan/model.js';
import { cell, SheetDraft, type WorkbookModel } from '../src/workbook/model.js';
import { planFromTables } from '../src/workbook/plan-job.js';
import { setupFromJson } from '../src/workbook/setup.js';
import { writeXlsx } from '../src/workbook/writers/file.js';

const FOLDER = join(import.meta.dirname, '..', 'sample-workbooks');
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
| site.json | site, kit, rules with two stages, weather; read by \`--site\` |
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
function setupText(): string {
  const part = (value: unknown): string =>
    Array.isArray(value)
      ? `[\n${value.map((row) => `    ${JSON.stringify(row)}`).join(',\n')}\n  ]`
      : JSON.stringify(value, null, 2).replace(/\n/g, '\n  ');
  const parts = Object.entries(SETUP).map(
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

async function main(): Promise<void> {
  mkdirSync(FOLDER, { recursive: true });
  const cells = inventory();
  const save = (name: string, data: string | Uint8Array): void =>
    writeFileSync(join(FOLDER, name), data);
  save('harbour-row-trees.csv', csvText(cells));
  mkdirSync(join(FOLDER, 'starter-rules'), { recursive: true });
  for (const { name, rows } of STARTER_TABLES)
    save(join('starter-rules', `${fileName(name)}.csv`), csvText(rows));
  save('starter-rules.xlsx', await writeXlsx(starterBook()));
  const sheet = new SheetDraft('Trees', 'Trees');
  sheet.table(
    'Inventory',
    HEADER.map((header, i) => ({ key: `c${i}`, header, width: i === 1 || i > 8 ? 20 : 12 })),
    cells.length - 1,
    (i) => cells[i + 1]!,
  );
  save(
    'harbour-row-trees.xlsx',
    await writeXlsx({
      title: 'Harbour Row trees (invented)',
      description: 'An invented inventory',
      madeOn: MADE_ON,
      paper: 'letter',
      sheets: [sheet.freeze(1).done()],
      names: {},
    }),
  );
  save('site.json', setupText());
  save('README.md', README);
  const { setup, problems } = setupFromJson(SETUP);
  const job = planFromTables({
    inventory: cells,
    fileName: 'harbour-row-trees.csv',
    madeOn: MADE_ON,
    title: 'Watering plan 2027, Harbour Row (invented)',
    notes: problems,
    ...setup,
  });
  save('harbour-row-plan.xlsx', await writeXlsx(job.model));
  save('season-log.xlsx', await writeXlsx(seasonLog(job.plan)));
  const means = new Map<string, number>();
  for (const t of job.plan.trees)
    means.set(
      `${t.chosen.label}, ${t.state}`,
      (means.get(`${t.chosen.label}, ${t.state}`) ?? 0) + 1,
    );
  console.log([...means].map(([label, rows]) => `${rows} ${label}`).join('\n'));
  console.log(`not planned: ${job.plan.notPlanned.map((n) => `${n.row} ${n.reason}`).join('; ')}`);
  console.log(job.notes.join('\n'));
}

await main();
