/** Every word of the panel in English. Its shape is the table the other language must fill. */
import type { Family } from '../../engine/plan/model.js';
import type { Meaning } from '../../tables/inventory/vocabulary.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import type { Formats } from '../parts/format.js';

const counted = (f: Formats, n: number, one: string, many = `${one}s`): string =>
  `${f.whole(n)} ${n === 1 ? one : many}`;

const meanings: Record<Meaning, string> = {
  id: 'Tree id', species: 'Species', commonName: 'Common name', genus: 'Genus', epithet: 'Species, second word',
  count: 'Count', caliper: 'Trunk diameter', circumference: 'Trunk circumference', diameterClass: 'Trunk diameter class',
  container: 'Container class', ballDiameter: 'Ball diameter', ballDepth: 'Ball depth', planted: 'Planted',
  plantedYear: 'Year planted', canopy: 'Canopy diameter', height: 'Height', waterNeed: 'Water use',
  texture: 'Soil texture', mulchDepth: 'Mulch depth', site: 'Site', address: 'Address', houseNumber: 'House number',
  street: 'Street', latitude: 'Latitude', longitude: 'Longitude', tap: 'Tap', tapFlow: 'Tap flow',
  source: 'Water source', meansWanted: 'Means wanted', status: 'Status', served: 'Served', note: 'Note', assumed: 'Assumed',
}; // prettier-ignore

const families: Record<Family, string> = {
  bag: 'bag',
  pad: 'pad',
  soaker: 'soaker hose',
  hand: 'by hand',
  tanker: 'tanker',
};

export const en = {
  panel: {
    label: 'Watering plan',
    sheet: (name: string) => `Sheet “${name}”`,
    sampleSheet: (name: string) =>
      `Sheet “${name}”: an example, all of it invented. Open your own list.`,
    noSheet: 'No sheet is read yet',
    language: 'Language',
    units: 'Units',
    unitsUS: 'US: gal, ft',
    unitsSI: 'Metric: L, m',
    openFile: 'Open a file',
    help: 'Function help',
    helpOpens: 'opens in a new window',
    steps: 'Steps',
    corners: 'Also',
    next: (step: string) => `Next: ${step}`,
    before: (step: string) => `Back: ${step}`,
    toSteps: 'Steps: back to the list',
    opening: (file: string) => `Opening “${file}” …`,
    notFetched:
      'A part of the panel could not be fetched. See that its server answers, then choose it again.',
    program: (message: string) => `Something went wrong in this program: ${message}`,
    foot: '',
    panes: 'F6 goes between the sheet and this panel.',
    keptHere: 'What you set here is kept in this workbook. Nothing leaves this machine.',
  },
  places: {
    trees: 'Trees',
    site: 'Site',
    rules: 'Rules',
    kit: 'Kit',
    build: 'Build',
    contract: 'Contract',
    'field-check': 'Field check',
    functions: 'Functions',
    repair: 'Repair',
  },
  states: {
    fine: 'known',
    look: 'look here',
    missing: 'missing',
    estimated: 'estimated',
    example: 'example',
  },
  known: {
    noTrees: 'no trees read yet',
    trees: (f: Formats, usable: number, rows: number) =>
      usable === rows
        ? `${counted(f, rows, 'row')}, all can be planned`
        : `${f.whole(usable)} of ${counted(f, rows, 'row')} can be planned`,
    site: (f: Formats, typed: number) =>
      typed === 0 ? 'all by default: put your own' : `${counted(f, typed, 'input')} of yours`,
    siteWrong: (f: Formats, wrong: number) => `${counted(f, wrong, 'input')} cannot be used`,
    rules: (f: Formats, rows: number) => `${counted(f, rows, 'rule')} understood`,
    rulesExample: 'example: replace by yours',
    rulesBroken: (f: Formats, broken: number) => `${counted(f, broken, 'place')} cannot be read`,
    kit: (f: Formats, devices: number) => counted(f, devices, 'device'),
    kitExample: 'example kit: put your own',
    kitNone: 'no device that can be planned with',
    notPlanned: 'not planned yet',
    planAgain: 'changed since: plan again',
    planned: (f: Formats, trees: number) => `${counted(f, trees, 'tree')} planned`,
    over: (f: Formats, days: number) =>
      `planned, but ${counted(f, days, 'day')} ${days === 1 ? 'does' : 'do'} not fit`,
    unread: 'not read yet',
    sheetsOld: 'sheets of an earlier plan',
  },
  trees: {
    which: 'Which sheet holds the trees',
    useFront: (name: string) => `Use the sheet in front, “${name}”`,
    range: 'Only these cells',
    rangeNote: 'Optional, as A1:H60 or A:H. Blank: the whole sheet.',
    useSelected: 'Use the selected cells',
    selectedUsed: (range: string) => `Only ${range} is read.`,
    selectedOne: (cell: string) =>
      `Only the cell ${cell} is selected. Select the headers and the trees below them, then press the button again.`,
    selectedElsewhere: (range: string, other: string, sheet: string) =>
      `${range} is selected on “${other}”; the trees are read from “${sheet}”. Select cells there, or pick “${other}” as the sheet first.`,
    rangeWrong: (typed: string) =>
      `“${typed}” is not a range of cells. Write two corners, as A1:H60, or leave it blank.`,
    rowsRead: 'rows read',
    canBePlanned: 'can be planned',
    lookHere: 'look here',
    treesCounted: (f: Formats, trees: number) =>
      `${counted(f, trees, 'tree')} in all, counting rows of several.`,
    columns: 'Columns',
    columnsMatched: (f: Formats, n: number) => `${counted(f, n, 'column')} matched`,
    askTitle: (f: Formats, n: number) =>
      n === 1
        ? 'One column is unsure. Say what it means.'
        : `${f.whole(n)} columns are unsure. Say what they mean.`,
    header: 'Header',
    meaning: 'Meaning',
    unit: 'Unit',
    samples: 'First cells',
    noSamples: 'no cells filled',
    meaningOf: (header: string) => `Meaning of “${header}”`,
    unitOf: (header: string) => `Unit of “${header}”`,
    notUsed: 'not used',
    column: (letter: string) => `column ${letter}`,
    corrected: 'as you said',
    rightAsIs: 'It is right as it is',
    forget: 'Forget my corrections',
    remembered: (f: Formats, n: number) =>
      `${counted(f, n, 'correction')} of yours ${n === 1 ? 'is' : 'are'} used. A sheet with the same headers gets ${n === 1 ? 'it' : 'them'} too.`,
    unmatched: 'Columns not used',
    look: 'Rows to look at',
    row: (row: number) => `Row ${row}`,
    goTo: (row: number, id: string) => (id === '' ? `Go to row ${row}` : `Go to row ${row}, ${id}`),
    notPlannedRow: 'not planned',
    rowsSaying: (f: Formats, n: number) => `${counted(f, n, 'row')}:`,
    rowsFrom: (from: number, to: number) => `Rows ${from}–${to}`,
    rowsIn: (f: Formats, n: number) => `(${f.whole(n)})`,
    sayingOf: (row: number) =>
      `This is what row ${row} says. In the others only the cell or a number differs.`,
    most: (f: Formats, n: number) => `The first ${f.whole(n)} are listed.`,
    showMore: (f: Formats, n: number) => `Show ${f.whole(n)} more`,
    emptyTitle: 'What a sheet of trees looks like',
    emptyText:
      'One row a tree, headers on top. These three columns are the least; each further one makes the plan better. Header names and units may be your own.',
    emptyRows: [
      ['Tree id', 'Species', 'Caliper (in)'],
      ['A-1', 'live oak', '2'],
      ['A-2', 'desert willow', '1.5'],
    ],
    emptyMore:
      'Also read: canopy, container class, planted, soil, water use, site, address, coordinates, tap, note.',
    emptyNext:
      'Bring your sheet to the front, or pick it above. It is read as soon as it has rows.',
    emptyDesk: 'You can also open a .csv or .xlsx file, with the button at the top.',
  },
  site: {
    /** an input's name: the planner's own in English */
    name: (key: SiteKey, name: string): string => (key === 'wage' ? 'Wage of one person' : name),
    lead: 'Blank fields take the default shown beside them. Alt+Enter in a field, or a click on “default” or “yours”, shows where its value is from.',
    first: 'The place and the season',
    more: 'More inputs',
    groups: {
      soil: 'Soil, roots and plants',
      means: 'Bags, pads, hoses: what reaches the roots',
      planning: 'How the plan decides',
      money: 'Money',
    },
    from: { typed: 'yours', inventory: 'from the trees’ coordinates', default: 'default' },
    whereFromOf: (name: string) => `Where ${name} is from`,
    sourceOfDefault: 'Default:',
    notKnown: 'not known',
    unfinishedDay: 'That was no whole day: type month, day and a year of four digits.',
    useDefault: 'Use the default',
    useDefaultOf: (name: string) => `Use the default of ${name}`,
    weather: 'Weather',
    weatherHow: 'How the weather is given',
    ways: {
      temperatures: 'Highs and lows by month',
      months: 'ET0 by month',
      paste: 'Paste days',
      file: 'Station file',
    },
    weatherKind: {
      monthly: 'Monthly values are used',
      daily: 'Daily values are used',
      example: 'The example is used: invented, replace it by yours',
      none: 'The table given cannot be read',
    },
    monthTable: 'Weather by month',
    month: 'Month',
    et0: (unit: string) => `ET0 (${unit}/day)`,
    rain: (unit: string) => `Rain (${unit})`,
    tmax: (unit: string) => `High (°${unit})`,
    tmin: (unit: string) => `Low (°${unit})`,
    temperaturesNote:
      'Means of each month, as tables of climate give them for your town. What the air takes up, ET0, is worked out from them and the latitude. Half of the rain is counted on.',
    share: 'Share of rain to count on',
    shareNote:
      'ET0 is the reference evapotranspiration. A share of 0.5 counts on half of the mean rain.',
    useMonths: 'Use this table',
    pasteLabel: 'Daily rows, with their headers',
    pasteNote:
      'Copy from a sheet: Date, ET0, Rain; or Date, Tmax, Tmin, Rain. Units in the headers, as “Rain (mm)”.',
    usePaste: 'Read these rows',
    fileLabel: 'Open a station’s file (.csv)',
    fileNote:
      'A daily file in the GHCN-Daily layout, or any table with a date and ET0 or temperatures.',
    useExample: 'Back to the example',
    monthWrong: (month: string) =>
      `${month}: write numbers, as 0.25, or leave the whole row blank.`,
    monthWithoutBoth: (month: string) =>
      `${month}: write numbers, the high not below the low, or leave the whole row blank.`,
    noMonths: 'The table is empty. Fill at least the months of the season.',
  },
  rules: {
    lead: 'Which days and hours are open, by means, address and stage.',
    start: 'Rules to start from',
    own: 'this workbook’s own rules',
    inUse: (f: Formats, origin: string, n: number) =>
      `In use: ${origin}, ${counted(f, n, 'row')} understood.`,
    /** where the rules are from, as the planner says it */
    origin: (origin: string): string => origin,
    example: 'An example: replace it by your ordinance.',
    toSheet: 'Put these rules on a sheet to edit',
    toSheetNote: 'Writes the sheets “Rules” and “Stages”. They are read again with every change.',
    sheetThere: 'The sheet “Rules” is in this workbook: edit it there.',
    openSheet: 'Go to the sheet “Rules”',
    chosenOver:
      'A starter table is chosen above; the sheet “Rules” is not used until you choose the workbook’s own.',
    written: (names: string) =>
      `Written: ${names}. The sheet “Rules” is in front: edit it, it is read with every change.`,
    broken: 'Not used',
    notice: 'Look here',
    problems: 'Rows to look at',
    goOn: 'Plan without what cannot be read',
    mend: (f: Formats, n: number) =>
      `The rules have ${counted(f, n, 'place')} that cannot be read. Mend them under Rules, or tick “Plan without what cannot be read” there.`,
    columns: 'What can stand in each column',
    columnsNote:
      'A blank cell says no condition. Cells are in English. “hose” means soaker hoses and hoses held by hand.',
    canBe: 'Can be',
    sentences: 'What the rules say',
    row: (row: number) => `Row ${row}`,
    strip: (from: string) => `Six weeks from ${from}`,
    noStrip: 'The six weeks appear as soon as there are trees.',
    allTrees: (example: string) => `All trees, as ${example}`,
    kindTrees: (f: Formats, n: number, example: string) =>
      `${counted(f, n, 'tree')}, as ${example}`,
    openHours: 'open hours by day and means, 24 h clock',
    day: 'Day',
    open: 'open',
    any: 'all day',
    closed: 'closed',
    banned: 'banned',
    openDays: (f: Formats, open: number, days: number) =>
      `open ${f.whole(open)} of ${f.whole(days)} days`,
    stage: (name: string) => `stage ${name} in force`,
    noStage: 'no stage in force',
    moreKinds: (f: Formats, kinds: number, trees: number) =>
      `${counted(f, kinds, 'more kind')} with ${counted(f, trees, 'tree')} not shown.`,
    stripKey: '■\u00A0open all day · ◧\u00A0open some hours · □\u00A0closed · ✕\u00A0banned',
    alike: (f: Formats, weeks: number, dates: string) =>
      `${counted(f, weeks, 'week')} alike, ${dates}`,
    fromTo: (from: string, to: string) => `${from} to ${to}`,
    hours: 'Hours day by day',
    grid: 'open and closed days, a row a means, a column a day',
  },
  build: {
    plan: 'Plan the season',
    planning: 'Planning …',
    calculating: 'Waiting for the results of the formulas in the workbook …',
    progress: (f: Formats, done: number, total: number) =>
      `Planning … ${f.whole(done)} of ${f.whole(total)} rows.`,
    stop: 'Stop',
    done: (from: string, to: string) => `Season ${from} to ${to} is planned.`,
    doneOver: (f: Formats, from: string, to: string, days: number) =>
      `Season ${from} to ${to}: planned, but ${counted(f, days, 'day')} ${days === 1 ? 'does' : 'do'} not fit.`,
    nothing: 'There is no row that can be planned. See Trees.',
    withdrawn: 'Something the plan is made from has changed. Plan again to see the effect.',
    withdrawnTrees: (f: Formats, before: number, now: number) =>
      `The list has changed since the season was planned${before === now ? '' : `: ${counted(f, before, 'row')} then, ${f.whole(now)} now`}. Plan again to see the effect.`,
    sheetsOld: 'Sheets in this workbook are of the plan before: Build lists them.',
    treesPlanned: 'trees planned',
    cannotBeKept: 'cannot be kept',
    notPlanned: 'rows not planned',
    waterings: 'waterings',
    water: 'water in the season',
    stressDays: 'days of stress',
    crewHours: 'crew hours',
    crewDays: 'crew days',
    price: 'price',
    lost: 'Trees that cannot be kept',
    notes: 'Notes',
    save: 'Save the plan as a workbook (.xlsx)',
    saving: 'Writing the workbook …',
    saved: (name: string) => `The plan is saved as ${name}.`,
  },
  cell: {
    title: 'Chosen cell',
    shows: (address: string, shown: string) => `${address} shows ${shown}`,
  },
  /** a unit as it is written beside a number */
  unit: (unit: string): string => unit,
  meanings,
  families,
};

export type Words = typeof en;
