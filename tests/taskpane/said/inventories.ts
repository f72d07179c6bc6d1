/** Invented inventories in bad shapes; the panel's sentences about their columns and rows. */
import type { Cell, Grid } from '../../../src/tables/cells.js';
import type { Draft, SheetReading } from '../../../src/workers/plan-room.js';
import { DRAFT, freshRoom, grid, refusal } from './room.js';

const OWN = `
Street trees of Fableton
made | yesterday

Tree id | Species | Count | Caliper (in) | Container class | Canopy diameter (ft) | Planted | Water use | Soil texture | Tap | Source | Means wanted | Latitude | Longitude | Status | Note | Served
A1 | Quercus imaginaria | 3 | 2 | | 6 | 2026-11-05 | low | loam | yes | well | bag | 33.5 | -101.5 | alive |
A1 | elm | 0 | 2-3 | | | 2026 | thirsty | mud | far | moon | balloon | north | west | |
A1 | elm | | 3/2+1 | '#15' | | spring 2026 | high | loam | 40 | well | bag | 33.5 | -101.5 | |
 | | 1 | >5 | | | 2026-05 | | | 900 ft | | | 33.5 | -101.5 | |
B5 | n/a | 1 | <4 | 5 and 15 gal | | 1899-12-30 | | | | | | | | |
B6 | ash | 1 | 3 kg | | | 1870 | | | | | | | | |
B7 | ash | 1 | 400 | | | 2026-02-30 | | | | | | | | |
B8 | ash | 1 | oak | pot | | 0 | | | | | | | | |
B9 | ash | 1 | 0 | '0' | | whenever | | | | | | | | |
B10 | ash | many | 3 | | | 2999-01-01 | | | | | | | | |
B11 | ash | 1 | 3 | 5000 | | 2029-06-01 | | | | | | | | |
B12 | ash | 1 | 3 | | | removed | | | | | | | | |
B13 | ash | 1 | 3 | | | | | | | | | | | dead |
B14 | vacant | 1 | 3 | | | | | | | | | | | |
B15 | ash | 1 | 3 | | | | | | | | | | | | removed 2025
B16 | ash | 1 | 3/4/2026 | | | | | | | | | | | |
B17 | ash | 1 | 2+3 | | | 1.5 | | | | | | | | |
B18 | ash | 1 | 3 | | | | | | | | | | | | | no
B19 | ash | 1 | 3 | | | | | | | | | | | | | yes
Tree id | Species | Count | Caliper (in) | Container class | Canopy diameter (ft) | Planted | Water use | Soil texture | Tap | Source | Means wanted | Latitude | Longitude | Status | Note | Served

Total | | 20 | | | | | | | | | | | | |
`;
const MORE: readonly (readonly [string, Partial<Draft>?])[] = [
  [OWN],
  ['Tree ID | DBH | Height\n- | cm | m\n1 | 20 | 5\n2 | 25 | 6\n3 | 30 | 6\n4 | 75 | 17'],
  [
    'Tree No | Trunk Diamter | CAP | Krone\n1 | 30 | 95 | 3\n2 | 34 | 300 | 4\n3 | 40 | 125 | 4\nend of list | | |',
  ],
  [
    'ID Arbol | Especie | DAP | Fecha de plantación\n1 | Fabula ficta | 150 | 3/4/2026\n2 | Fabula vera | 160 | 5/6/2026\n3 | Fabula vera | 170 | 7/8/2026',
    { units: 'SI' },
  ],
  [
    'made by hand\nTree ID | DBH (in) | Planted | Container\n1 | 3 | 1870 |\n1 | 3 | 2026-02-30 |\n | 3 | 2999-01-01 |\n | 3 | whenever | \n\n\n5 | 3 | 0.5 |\n6 | 3 gpm | | 5 gal and 15 gal',
  ],
  [
    'Tree ID | Species | DBH (in) | Planted | Planting year\n1 | unidentified | 3 | 2020-04-01 | 2024\n2 | elm | 3 | | 1900\n3 | elm | 3 | 2021-04-01 | 2021',
  ],
  ['Tree ID | DBH | Spread | date\n1 | 3 | | 13/4/2026\n2 | 3 | | 14/5/2026\n3 | 3 | | 7/8/2026'],
  ['Tree ID | DBH (in) | date\n1 | 3 | 3/4/2026\n2 | 3 | 4/5/2026\n3 | 3 | 7/8/2026'],
  ['Tree ID | DBH (in) | date\n1 | 3 | 13/4/2026\n2 | 3 | 4/15/2026\n3 | 3 | 7/8/2026'],
  ['Tree ID | DBH | Planted on\n1 | 70 | 13/4/2026\n2 | 75 | 5/16/2026\n3 | 80 | 7/8/2026'],
  ['Tree ID | DBH in | Planted on\n1 | 70 | 13/4/2026\n2 | 75 | 15/6/2026\n3 | 80 | 7/8/2026'],
  ['Tree ID | girth\n1 | 0.6\n2 | 0.7\n3 | 0.8\n4 | 2.1', { units: 'SI' }],
  [
    'Tree ID | Genero | Nombre científico | DBH (in) | DBH 2019 (in) | DBH 2024 (in) | Crown width NS (ft) | Crown width EW (ft)\n1 | 28 | Fabula ficta | | 3 | 4 | 6 | 8\n2 | 63 | Fabula vera | | 3 | | 6 | 8\n3 | 63 | Fabula vera | | 3 | 4 | 6 | 8\n4 | 63 | Fabula vera | | 3 | 4 | 6 | 8',
  ],
  [
    'Tree ID | date | girth | Inventory Date\n1 | 2020-02-03 | 30 | 2020-01-01\n2 | 2020-02-04 | 31 | 2020-01-01',
    { corrections: { date: 'birthday', girth: 'caliper gal' } },
  ],
  [
    'Tree ID | date | what\n1 | 2020-02-03 | 3\n2 | 2020-02-04 | 4',
    { corrections: { date: 'planted in', what: 'caliper' } },
  ],
  [
    'Tree ID | date | DBH | geo point 2d\n1 | 2020-02-03 | 4 | (48.85, 2.29)\n2 | 2020-02-04 | 5 | (48.86, 2.29)',
  ],
  ['Tree ID | DBH | lat | lon\n1 | 4 | 33.51 | -101.52\n2 | 5 | 33.52 | -101.53'],
  [
    'N34.3371 | W101.0001 | Fabula ficta | 2 in\nN34.3372 | W101.0002 | Fabula vera | 3 in\nN34.3373 | W101.0003 | Fabula vera | 3 in',
  ],
  [
    'Tree ID | House | Street | DBH (in)\n1 | 12 | Fable Way | 3\n2 | | | 4\n3 | | | 4\n4 | | | 5\n5 | | | 5\n6 | 14 | Story Row | 5\n7 | | | 5',
  ],
  [
    'Tree ID | Street | DBH (in)\n1 | Fable Way | 3\n2 | | 4\n3 | | 4\n4 | | 5\n5 | | 5\n6 | Story Row | 5\n7 | | 5',
  ],
  ['Note\nmany\nTree ID | Species | DBH (cm)\n1 | Fabula ficta | 30'],
  ['Tree ID | Species | DBH (cm) | Height (m)\n'],
  ['Nummer | Gattung | Art | Stammumfang\n1 | Fabula | ficta | 60\n2 | Fabula | vera | 70'],
  // limits and distances in metric units
  [
    'Tree ID | DBH (cm) | Girth (cm) | Canopy (m) | Tap\n1 | | | | yes\n2 | 3000 | | | yes\n3 | 30 | 300 | 4 | 900 ft\n4 | 30 | 95 | 900 | no',
    { units: 'SI' },
  ],
  ['Tree ID | Species | Container\n1 | Fabula ficta | 15 gal\n2 | Fabula ficta | 5 gal'],
];
const DATES: Cell[][] = [
  ['Tree ID', 'DBH (in)', 'Planted'],
  ['1', 45000, 45000],
  ['2', 3, 46000],
];

export const inventories: readonly (readonly [Grid, Draft])[] = [
  ...MORE.map(([text, more]) => [grid(text), { ...DRAFT, ...more }] as const),
  [{ cells: DATES, dateCells: new Set(['1,1']) } as unknown as Grid, DRAFT],
];

const sentencesOf = ({ columns, look, notes }: SheetReading): string[] => [
  ...columns.flatMap(({ doubt }) => (doubt === '' ? [] : doubt)),
  ...look.flatMap(({ reasons }) => reasons.map(({ sentence }) => sentence)),
  ...notes,
];

/** Why values for blank cells are not written. */
function fillRefusals(): Promise<string[]> {
  const room = freshRoom();
  const list = grid('Tree ID | Species | DBH (in)\n1 | Fabula ficta | 2\n2 | Fabula ficta |');
  const bare = grid('1 | Fabula ficta | 2 in\n2 | Fabula ficta | 3 in\n3 | Fabula ficta |');
  const names = { assumed: 'Assumed', size: 'Caliper' };
  const fill = (trees: Grid, value: string, rows: number[]) =>
    refusal(() => room.fill({ trees, draft: DRAFT, lack: 'size', rows, column: 2, value, free: 3, names })); // prettier-ignore
  return Promise.all([
    fill(list, ' ', [3]),
    fill(list, 'thick', [3]),
    fill(list, '900', [3]),
    fill(list, '2', [2]),
    fill(bare, '2', [3]),
  ]);
}

/** What the step Trees says of all of them. */
export async function inventorySentences(more: readonly Grid[]): Promise<string[]> {
  const room = freshRoom();
  const all = [...inventories, ...more.map((each) => [each, DRAFT] as const)];
  const readings = await Promise.all(all.map(([trees, draft]) => room.read(trees, draft)));
  return [...readings.flatMap(sentencesOf), ...(await fillRefusals())];
}
