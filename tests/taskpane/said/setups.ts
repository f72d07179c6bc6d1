/** Typed values, kits and weather tables in bad shapes, and rules tables; the sentences of Site, Rules and Kit about them. */
import { RULE_COLUMNS } from '../../../src/engine/rules/rule-parse.js';
import { linesOf, newLine, troublesOf } from '../../../src/workbook/order-lines.js';
import { STARTER_TABLES } from '../../../src/engine/rules/starter-tables.js';
import type { Cell, Grid } from '../../../src/tables/cells.js';
import { KIT_COLUMNS } from '../../../src/tables/kit.js';
import { SITE_INPUTS } from '../../../src/tables/site-inputs.js';
import type { Draft, PlanAsk, RulesReport } from '../../../src/workers/plan-room.js';
import { DRAFT, freshRoom, grid, refusal, table, TODAY } from './room.js';

const typed = (value: Cell): Draft['site'] =>
  Object.fromEntries(SITE_INPUTS.map(({ key }) => [key, value]));
const SITES: readonly Partial<Draft>[] = [
  {},
  { site: typed('what') },
  { site: typed('3.5 kg') },
  { site: typed('3.5 gpm') },
  { site: typed(2.5) },
  { site: typed(-1e12) },
  { site: typed(-1e12), units: 'SI' },
  { site: { seasonFrom: '2027-09-01', seasonTo: '2027-04-01' } },
  { site: { seasonFrom: '2027-09-01', seasonTo: '2031-04-01' } },
  { site: typed('what'), units: 'SI' },
  { site: { block1UpTo: 500, block2UpTo: 400 } },
  { site: { block1UpTo: 500, block2UpTo: 400 }, units: 'SI' },
];

const KIT = `
Device | Family | Volume (kg) | Volume | Rate | Length | Flow | Price | Seasons | Automatic | Colour
Big bag | bag | 1 | 20 | | | | 25 | 3 | perhaps | red
 | bag | | 20 | | | | 25 | 3 | no |
Balloon | balloon | | 20 | | | | 25 | 3 | no |
Big bag | bag | | 20 | | | | 25 | 3 | no |
Flat bag | bag | | | | | | 25 | 3 | no |
Flat pad | pad | | | | | | 25 | 3 | no |
Hose | soaker | | | | 40 | | 25 | 3 | no |
Nozzle | hand | | | | | | 25 | 3 | no |
Truck | tanker | | 300 | | | | 25 | 3 | no |
Odd bag | bag | | lots | | | | -5 | -1 | no |
Kilo bag | bag | | 20 kg | | | | 5 | 1 | no |
Huge | bag | | 20 | 5000000 | 9000000 | 999999999 | 5 | 1 | no |
`;
/** The same faults where the header says the unit. */
const KIT_US = KIT.replace(
  '| Volume | Rate | Length | Flow',
  '| Volume (gal) | Rate (gal/h per 100 ft) | Length (ft) | Flow (gpm)',
);
const KIT_SI = KIT.replace(
  '| Volume | Rate | Length | Flow',
  '| Volume (L) | Rate (L/h per m) | Length (m) | Flow (L/min)',
);
const KITS: readonly string[] = [KIT, KIT_US, KIT_SI, 'no\nkit', 'Device | Family\nx | balloon', 'Device | Family | Volume (gal) | Buy more\nbag | bag | 20 | perhaps']; // prettier-ignore

const WEATHERS: readonly string[] = [
  'no | weather\n1 | 2',
  'Month | ET0 | Rain | Share counted\n1 | 0.1 | 1 |\nJan | 0.1 | 1 |\nlate | 0.1 | 1 |\n2 | | 1 |\n3 | 0.2 | | 0.5\n4 | much | 1 | 0.5',
  'Month | ET0 (mm/day) | Rain (mm) | Share counted\n4 | 3 | 10 | 0.5\n5 | 4 | 10 | \n6 | 5 | 10 | 0.5',
  'Month | ET0 (mm/day) | Rain (mm) | Share counted\n4 | 3000 | 10 | 0.5\n5 | 4 | -10 | 0.5\n6 | 5 | 10 | 0.5\n7 | 6 | 10 | 0.5\n8 | 6 | 10 | 0.5\n9 | 4 | 10 | 0.5',
  'Month | ET0 (mm/day) | Rain (mm) | Share counted\n4 | 3 | -10 | 0.5\n5 | 4 | 10 | 0.5\n6 | 5 | 10 | 0.5\n7 | 6 | 10 | 0.5\n8 | 6 | 10 | 0.5\n9 | 4 | 10 | 0.5',
  'Month | ET0 (mm/day) | Rain (mm) | Share counted\n4 | 3 | 10 | 7000\n5 | 4 | 10 | 0.5\n6 | 5 | 10 | 0.5\n7 | 6 | 10 | 0.5\n8 | 6 | 10 | 0.5\n9 | 4 | 10 | 0.5',
  'Month | Tmax (F) | Tmin (F) | Rain (in)\n1 | 60 | 40 | 1\n2 | 60 | | 1\n3 | 40 | 60 | 1',
  'Month | Tmax (F) | Tmin (F) | Rain (in)\n1 | 60 | 40 | 1\n2 | 60 | 40 | 1',
  'Date | Tmax | Tmin | Rain (in) | Share counted\n2027-04-01 | 30 | 15 | 0 | 0.5\n2027-04-01 | 30 | 15 | 0 | 0.5\nsoon | 30 | 15 | 0 | 0.5\n2027-04-07 | 70 | 15 | 0 | 0.5\n2027-04-08 | 30 | -99 | 0 | 0.5\n2027-04-02 | 10 | 50 | 0 | 0.6\n2027-04-03 | 30 | 15 | 0 | 0.6\n2027-04-04 | | | 0 | 0.6',
  'Date | ET0 (mm/day) | Rain (mm)\nsoon | 5 | 0',
  'Month | ET0 (mm/day) | Rain (mm)\n4 | 3 | 10\n5 | 4 | 10',
  'STATION | DATE | TMAX | TMIN | PRCP\nX1 | 2026-04-01 | 250 | 120 | wet\nX1 | 2026-04-02 | 260 | 130 | 4',
  'STATION | DATE | TMAX | TMIN | PRCP\nX1 | 2026-04-01 | 250 | 120 | 5\nX1 | 2026-04-02 | 260 | 130 | \nX1 | 2026-04-03 | | 130 | 3',
  'STATION | DATE | PRCP\nX1 | 2026-04-01 | 5\nX1 | 2026-04-02 | 6',
  'STATION | DATE | TMAX | PRCP\nX1 | 2026-04-01 | 250 | 5\nX1 | 2026-04-02 | 260 | 6',
  'STATION | DATE | TMIN | PRCP\nX1 | 2026-04-01 | 120 | 5\nX1 | 2026-04-02 | 120 | 6',
  'STATION | DATE | TMAX | TMIN | PRCP\nX1 | 2026-04-01 | 25.5 | 12.2 | 0.5\nX1 | 2026-04-02 | 26.1 | 13.3 | 0.1',
];
/** Two years of days, of which some lack. */
const OTHER_YEARS: Cell[][] = [
  ['Date', 'ET0 (mm/day)', 'Rain (mm)'],
  ...Array.from({ length: 365 }, (_, i): Cell[] => [42005 + i, 4, 1]).filter((_, i) => i !== 150),
];

/** The season's days, one of which has a value no day has. */
const wrongAt = (column: number): Cell[][] => [
  ['Date', 'Month end', 'ET0 (mm/day)', 'Rain (mm)', 'Share counted'],
  ...Array.from({ length: 183 }, (_, i): Cell[] =>
    [46478 + i, '', 4, 1, 0.5].map((value, c) =>
      (i === 40 || column === 4) && c === column ? 7000 : value,
    ),
  ),
];

/** What Site and Kit say. */
export async function setupSentences(): Promise<string[]> {
  const room = freshRoom();
  const drafts: Partial<Draft>[] = [
    ...SITES,
    ...KITS.map((kit) => ({ kit: table(kit) })),
    ...WEATHERS.map((weather) => ({ weather: table(weather) })),
    { weather: OTHER_YEARS },
    { weather: OTHER_YEARS.slice(0, 220) },
    ...[2, 3, 4].map((column) => ({ weather: wrongAt(column) })),
  ];
  const reports = await Promise.all(
    drafts.map((draft) => room.setup({ cells: [] }, { ...DRAFT, ...draft })),
  );
  return [
    ...KIT_COLUMNS.flatMap(({ key, kind, note }) => (kind === 'number' || key === 'shutsItself' ? note : [])), // prettier-ignore
    ...reports.flatMap(({ site, weather, kit }) => [
      ...site.flatMap(({ key, trouble, note, source, words }) => [
        trouble,
        note,
        source,
        ...(key === 'blanketRule' ? [] : words),
      ]),
      weather.says,
      ...weather.problems,
      ...kit.problems,
      ...kit.devices.flatMap(({ size }) => (size.includes(' at ') ? size : [])),
    ]),
  ].filter((sentence) => sentence !== '');
}

const COLUMNS = 'Stage | From | To | Means | Target | Source | Address | Days | Hours | Limit | New planting | Rain | Verdict | Needs | Note | Agency | 31st | Midnight | Finish | Drain | Filling | Day one'; // prettier-ignore
const NAMES = COLUMNS.split(' | ');
/** A row of the rules by its cells. */
const rule = (cells: Record<string, Cell>): Cell[] => NAMES.map((name) => cells[name] ?? null);
const good = (cells: Record<string, Cell>): Cell[] => rule({ Verdict: 'allow', ...cells });

const SPOKEN: readonly Cell[][] = [
  good({ Means: 'bag, pad, soaker, hand, tanker, bucket, drip, sprinkler', Days: 'Tue Sat', Hours: 'before 10:00, after 19:00', From: '2027-05-01' }),
  good({ Agency: 'Fableton', Stage: '2', Days: 'not Sun', Hours: '18:00-09:00', To: '2027-10-31', Midnight: 'end' }),
  good({ Stage: '2', Target: 'tree', Source: 'mains, reclaimed, well, grey, rain, tanker', Days: 'Mon', Hours: '18:00-09:00', From: '2027-05-01', To: '2027-10-31' }),
  good({ Agency: 'Fableton', Target: 'new planting', Source: 'condensate', Address: 'odd', Days: 'odd dates', '31st': 'none', Hours: '10:00-12:00' }),
  good({ Address: 'even and not class shop', Days: 'even dates', '31st': 'all' }),
  good({ Address: 'none and side N/W', Days: 'every 2nd day', From: 'Nov 1', To: 'Feb 29' }),
  good({ Address: 'none and not side S', Days: 'every 3rd day', From: '2027-05-01' }),
  good({ Address: 'ends 0-1', Days: 'every 4th day' }),
  good({ Address: 'not ends 4,5', Days: '2 per week', Limit: '15' }),
  good({ Address: 'side E', Days: '1 per week', Limit: '15 zone' }),
  good({ Address: 'group C', Limit: '60 property', From: 'first Sun Oct', To: 'before first Sun Apr' }),
  good({ Address: 'not group C and not odd', 'New planting': '1-30' }),
  good({ Address: 'class shop and not even', 'New planting': '61+', 'Day one': 0 }),
  good({ Address: 'not none', 'New planting': '7-7', Rain: '48 h after 0.5 in' }),
  good({ Hours: 'one of 04:00-08:00, 18:00-22:00', Finish: 'may run over', Drain: 'inside', Filling: 'hand' }),
  good({ Days: 'none', Means: 'sprinkler', Note: 'section 4' }),
  good({ Days: 'none', Means: 'sprinkler', Address: 'odd' }),
  good({ Hours: '00:00-24:00', Needs: 'nozzle, timer, pressure reducer, moisture sensor' }),
  good({ Needs: 'rain sensor, one device, one tap, attended' }),
  good({ Needs: 'half new, permit, signage, receipt', Drain: 'inside' }),
  good({ Drain: 'inside' }),
  rule({ Verdict: 'ban', Target: 'tree', Source: 'mains' }),
  rule({ Verdict: 'ban', 'New planting': '1-30' }),
  rule({ Verdict: 'free', Means: 'hand' }),
  rule({ Verdict: 'ban', Rain: '24 h after rain' }),
  rule({ Verdict: 'ban', Address: 'odd', From: '2027-01-01', To: '2027-01-31', Means: 'pad' }),
]; // prettier-ignore

const BROKEN: readonly Record<string, Cell>[] = [
  { Stage: '1' },
  { Verdict: 'perhaps' },
  { From: 'soon' },
  { From: '2027-02-30' },
  { From: 'Feb 31' },
  { From: 'first Sun Foo' },
  { From: '2027-05-01', To: '2027-04-01' },
  { From: 'Nov 1' },
  { To: 'Nov 1' },
  { Means: 'balloon' },
  { Means: 'tubes, bag, balloons' },
  { Hours: '6-9 am, dusk' },
  { Days: 'Foo, Bar Mon' },
  { Target: 'car' },
  { Source: 'moon' },
  { Address: 'purple' },
  { Address: 'ends x' },
  { Address: 'ends 9-1' },
  { Address: 'side up' },
  { Days: 'Foo' },
  { Days: 'Mon-Foo' },
  { Days: 'every 90th day' },
  { Days: '9 per week' },
  { Days: 'not Mon-Sun' },
  { Hours: 'noon' },
  { Hours: 'before lunch' },
  { Hours: '25:00-26:00' },
  { Hours: '10:75-11:00' },
  { Hours: '24:00-25:00' },
  { Hours: '24:00-10:00' },
  { Hours: '10:00-10:00' },
  { Hours: 'not 00:00-24:00' },
  { Hours: 0.5 },
  { Hours: 'one of 04:00-08:00' },
  { Limit: 'ages' },
  { 'New planting': 45000 },
  { 'New planting': 'young' },
  { 'New planting': '30-1' },
  { 'New planting': '0-0' },
  { Rain: 'wet' },
  { Rain: '900 h after rain' },
  { Needs: 'luck' },
  { '31st': 'maybe' },
  { Midnight: 'noon' },
  { Finish: 'late' },
  { Drain: 'slowly' },
  { Filling: 'teeth' },
  { 'Day one': 7 },
];
const FLAWED: readonly Cell[][] = [
  rule({ Days: 'Mon' }),
  rule({ Verdict: 'ban', Days: '2 per week' }),
  rule({ Verdict: 'free', Days: '2 per week' }),
  rule({ Verdict: 'ban', Days: 'none' }),
  rule({ Verdict: 'free', Days: 'none' }),
  rule({ Verdict: 'ban', Hours: 'one of 04:00-08:00, 18:00-22:00' }),
];
/** Rows that can be read and yet want a look. */
const NOTICED: readonly (readonly Cell[])[][] = [
  [good({ Means: 'hand', Days: 'Mon' }), rule({ Verdict: 'ban', Means: 'hand' })],
  [
    good({ Means: 'hand', Hours: '08:00-12:00' }),
    rule({ Verdict: 'ban', Means: 'hand', Hours: '10:00-14:00' }),
  ],
  [good({ Means: 'hand, bag', Address: 'odd' }), rule({ Verdict: 'ban', Means: 'hand, soaker' })],
  [
    good({ Means: 'hand', Days: 'Mon Tue' }),
    rule({ Verdict: 'ban', Means: 'hand', Days: 'Tue Wed' }),
  ],
  [
    good({ Means: 'hand', Source: 'well, mains' }),
    rule({ Verdict: 'ban', Means: 'hand', Source: 'mains' }),
  ],
  [good({ Stage: '1', Means: 'hand' }), rule({ Verdict: 'ban', Stage: '2', Means: 'hand' })],
  [good({ Address: 'odd and even', Means: 'hand' })],
  [good({ Address: 'odd and none', Means: 'hand' })],
  [
    good({ Means: 'hand', From: '2027-05-01' }),
    rule({ Verdict: 'ban', Means: 'hand', From: '2027-06-01', To: '2027-06-30' }),
  ],
  [
    good({ Means: 'hand', To: '2027-09-01' }),
    rule({ Verdict: 'ban', Means: 'hand', From: '2027-06-01', To: '2027-06-30' }),
  ],
  [good({ Days: '2 per week', Limit: '15 zone' })],
  [good({ Days: '1 per week', Limit: '15' })],
  [good({ Limit: '60 property', Hours: 'one of 04:00-08:00, 18:00-22:00' })],
  [good({ Days: 'Mon', Means: 'hand', From: '2027-07-07', To: '2027-07-08' })],
  [good({ Days: '31st', Means: 'hand' })],
  [good({ Stage: '4', Means: 'hand' })],
  [good({ Days: 'odd dates', Means: 'hand', From: 'Feb 2', To: 'Feb 2' })],
  [good({ Days: 'odd dates', Means: 'hand', From: 'before first Sun Apr', To: 'first Sun Apr' })],
  [good({ Stage: '2', Means: 'hand', From: '2025-01-01', To: '2025-02-01' })],
];
const STAGES: readonly Cell[][] = [['From', 'Stage'], [9e9, '4'], ['2027-06-01', '2'], ['2027-06-01', '3'], ['soon', '3'], ['2027-08-01', ''], ['2027-08-01', '1']]; // prettier-ignore
const STAGES_HEADLESS: Cell[][] = [['Foo', 'From'], ['1', '2']]; // prettier-ignore

const many = (rows: number): Cell[][] => [
  ['Means', 'Days', 'Hours', 'Verdict'],
  ...Array.from({ length: rows }, (_, i): Cell[] => i % 2 === 0
    ? ['hand', 'Mon', `${String(i % 12).padStart(2, '0')}:0${i % 7}-20:0${i % 9}`, 'allow']
    : ['hand', '', `${String(i % 11).padStart(2, '0')}:1${i % 8}-22:0${i % 9}`, 'ban']),
]; // prettier-ignore

export const RULES: readonly Cell[][][] = [
  [NAMES, ...SPOKEN],
  [NAMES, ...BROKEN.map((cells) => good(cells)), ...FLAWED],
  ...NOTICED.map((rows) => [NAMES, ...rows.map((row) => [...row])]),
  [
    ['Foo', 'Days', 'Days', 'Verdict'],
    ['1', 'Mon', '', 'allow'],
  ],
  [
    ['Foo', 'Days'],
    ['1', 'Mon'],
  ],
  many(800),
];

const saidBy = ({ sentences, problems, strip }: RulesReport): string[] => [
  ...sentences.map(({ sentence }) => sentence),
  ...problems.map(({ sentence }) => sentence),
  ...(strip?.kinds.flatMap(({ example, means }) => [...(/a tree|no tap|water/.test(example) ? [example] : []), ...means.flatMap(({ remarks }) => remarks)]) ?? []), // prettier-ignore
];

/** What the step Rules says. */
export async function rulesSentences(sample: Grid): Promise<string[]> {
  const room = freshRoom();
  const trees = grid(
    'Tree id | DBH (in) | Address | Site | Tap | Source\n1 | 3 | 12 Fable Way | a | no |\n6 | 3 | 17 Fable Way | a | no | well\n7 | 3 | 18 Fable Way | a | yes | grey\n2 | 4 | | | |\n3 | 4 | | Park | no | well\n5 | 4 | | Park | no |\n4 | 3 | 15 Fable Way | | yes | rain',
  );
  const ask: PlanAsk = { trees, source: 'street', sheets: [], draft: DRAFT, today: TODAY };
  const drafts: Partial<Draft>[] = [
    {},
    ...STARTER_TABLES.map(({ name }) => ({ starter: name })),
    ...RULES.map((rules) => ({ rules })),
    { rules: [NAMES, ...SPOKEN], stages: [...STAGES] },
    ...NOTICED.map((rows) => ({ rules: [NAMES, ...rows.map((r) => [...r])], stages: [...STAGES] })),
    { rules: [NAMES, ...SPOKEN], stages: STAGES_HEADLESS },
  ];
  const reports = await Promise.all(
    drafts.map((draft) => room.rules({ ...ask, draft: { ...DRAFT, ...draft } })),
  );
  const oneTree = grid('Tree id | DBH (in) | Address\n1 | 3 | Fable Way\n2 | 3 | 12 Fable Way');
  const byNumber: Cell[][] = [['Address', 'Days', 'Verdict'], ['odd', 'Mon', 'allow'], ['even', 'Thu', 'allow']]; // prettier-ignore
  reports.push(
    await room.rules({ ...ask, trees: oneTree, draft: { ...DRAFT, rules: byNumber } }),
    await room.rules({ ...ask, draft: { ...DRAFT, rules: byNumber } }),
  );
  const ofSample = await room.rules({ ...ask, trees: sample });
  const onSheet = await room.rules({
    ...ask,
    sheets: [{ name: 'Rules', cells: [['My rules'], [], NAMES, ...BROKEN.map((c) => good(c))] }],
  });
  const none = await room.rules({ ...ask, sheets: [{ name: 'Rules', cells: [['nothing']] }, { name: 'Other', cells: [['x']] }] }); // prettier-ignore
  const unknown = await refusal(() => room.rules({ ...ask, draft: { ...DRAFT, starter: 'Foo' } }));
  const origins = [...reports, ofSample, onSheet].map(({ origin }) => origin);
  return [...reports, ofSample, onSheet, none].flatMap(saidBy).concat(
    unknown,
    origins,
    room.starters,
    // the form that writes an order: rows it cannot show, and fields that cannot be used
    RULES.flatMap((rows) => linesOf(rows).kept.flatMap((kept) => kept.sentences)),
    troublesOf({
      ...newLine(0),
      means: null,
      verdict: 'ban',
      perWeek: '2',
      more: { Limit: 'a lot' },
    }).flatMap((trouble) => (trouble.kind === 'reader' ? [trouble.sentence] : [])),
    RULE_COLUMNS.map(({ accepted }) => accepted),
  );
}
