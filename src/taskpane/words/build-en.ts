/** Words of the step Build in English. Its shape is the table the other language must fill. */
import type { ExportKind } from '../../workers/plan-room.js';
import type { Formats } from '../parts/format.js';

const counted = (f: Formats, n: number, one: string, many = `${one}s`): string =>
  `${f.whole(n)} ${n === 1 ? one : many}`;

const exportNames: Record<ExportKind, string> = {
  workbook: 'Workbook (.xlsx)',
  'crew.xlsx': 'Crew copy (.xlsx)',
  'crew.pdf': 'Crew sheets on paper (.pdf)',
  'client.xlsx': 'Client copy (.xlsx)',
  'client.pdf': 'Client letter (.pdf)',
  'plan.ics': 'Calendar (.ics)',
  'plan.csv': 'Table (.csv)',
};
const exportNotes: Record<ExportKind, string> = {
  workbook:
    'The plan as a workbook of its own: sheets, formulas, charts, and what you set in this panel. Your own sheets are not in it.',
  'crew.xlsx': 'Rounds and stops only, no prices.',
  'crew.pdf': 'A page a round, large print, boxes to tick.',
  'client.xlsx': 'What is done, when, and the price. No costs of yours.',
  'client.pdf': 'What is done, when, and the price, on paper.',
  'plan.ics': 'A round a day, for any calendar. A later export replaces an earlier one.',
  'plan.csv': 'Every watering as a row.',
};

export const buildEn = {
  lead: 'Look at the season first. Nothing is written until you say so.',
  empty:
    'The plan is made from the trees, the site, the rules and the kit. Steps 1 to 4 say what is still missing.',
  currency: (amount: string, currency: string) => `${currency} ${amount}`,
  fullestWeek: 'fullest week',
  fullestWeekNote: (day: string) => `from ${day}`,
  hours: 'h',
  whereFrom: 'Where these numbers are from',
  whereFromLines: [
    'Waterings, water and days of stress: the daily water balance of every tree (FAO-56, chapter 8, with ball and ring), from your trees, site, weather, rules and kit.',
    'Crew hours: minutes at the trees, driving and refills, as Site and Kit give them.',
    'Price: cost ÷ (1 − margin); the sheet Estimate lists every line.',
  ],
  over: (f: Formats, days: number) =>
    days === 1
      ? 'One day asks for more hours than the crews have.'
      : `${f.whole(days)} days ask for more hours than the crews have.`,
  overSays: (day: string, hours: string, available: string) =>
    `The longest, ${day}, takes a crew ${hours} h of ${available}.`,
  overBefore: (f: Formats, days: number) =>
    days === 0
      ? 'The plan before this one fitted.'
      : `The plan before this one had ${f.whole(days)}.`,
  fitsNow: (f: Formats, days: number) =>
    `Every day fits. The plan before this one had ${counted(f, days, 'day')} that did not.`,
  was: (value: string) => `was ${value}`,
  before: (f: Formats, trees: number, days: number, hours: number, price: string) =>
    `The plan before the change: ${counted(f, trees, 'tree')}, ${days === 0 ? 'every day fits' : `${counted(f, days, 'day')} ${days === 1 ? 'does' : 'do'} not fit`}, ${f.amount(hours)} crew hours, ${price}.`,
  overFails: 'As it stands the plan cannot be worked off.',
  overWho: 'Choose who is served',
  stressMeans:
    'A day of stress: the easy water in the soil is used up and the tree takes up less than it would. “Cannot be kept” counts trees with more such days than Site accepts; it does not say that they die.',
  onward: 'Below the pictures',
  toSheets: 'On to writing the sheets',
  toFiles: 'On to saving files',
  means: 'Trees by means',
  meansLine: (f: Formats, trees: number, water: number, unit: string) =>
    `${counted(f, trees, 'tree')}, ${f.amount(water)} ${unit}`,
  toBuy: 'This plan needs more than you have. To be bought first:',
  toBuyLine: (f: Formats, pieces: number, device: string, cost: string) =>
    `${f.whole(pieces)} × “${device}”, ${cost}`,
  toBuyNot:
    'Where nothing may be bought, or no more of one device, say so under Kit and plan again.',
  /** @param settingOut - once a season [h] @param checks - of hoses on timers [h] */
  otherHours: (f: Formats, settingOut: number, checks: number) =>
    `Beside the crew hours, on no crew day but in the price: ${[
      ...(settingOut > 0 ? [`${f.amount(settingOut)} h to set things out once`] : []),
      ...(checks > 0 ? [`${f.amount(checks)} h to look at hoses on timers`] : []),
    ].join(', ')}.`,
  tapsAssumed: (f: Formats, n: number) =>
    `The list does not say whether ${n === 1 ? 'a tree has' : `${f.whole(n)} trees have`} a tap within reach of the hose: taken as yes. A column “Tap” with “no” beside a tree leaves hoses out for it.`,
  toBuyKit: 'To Kit',
  toSite: 'To Site',
  /** @param prices - "USD 28 for one “bag”" @param numbers - inputs of the site at their defaults */
  inventedPrice: (prices: readonly string[], numbers: readonly string[], place: 'kit' | 'site') =>
    `The price is made from example numbers, invented: ${[...prices, ...numbers].join(', ')}. Put yours under ${place === 'kit' ? 'Kit' : 'Site, Money'}.`,
  priceOfOne: (cost: string, device: string) => `${cost} for one “${device}”`,
  idle: (f: Formats, stock: number, device: string) =>
    `None of your ${f.whole(stock)} × “${device}” is used:`,
  idleClosed: {
    /** @param takes - to empty [h] @param longest - span of open hours [h] */
    drain: (f: Formats, trees: number, takes: number | undefined, longest: number, from: string, to: string) =>
      `for ${counted(f, trees, 'tree')} the rules ask that it has emptied within the open hours: ${takes === undefined ? 'how long it takes is not said under Kit' : `it takes ${f.figure(takes)} hours to empty`}, and the longest open span on a work day, from when the crew can have come, is ${f.figure(longest)} hours, ${from} to ${to}`,
    crew: (f: Formats, trees: number) =>
      `for ${counted(f, trees, 'tree')} the hours the rules open all lie outside the crew’s day`,
    days: (f: Formats, trees: number) =>
      `for ${counted(f, trees, 'tree')} the rules open it on no day the crew works`,
    rules: (f: Formats, trees: number) =>
      `for ${counted(f, trees, 'tree')} the rules open it on no day of the season`,
  }, // prettier-ignore
  idleStressed: (f: Formats, trees: number, least: number, most: number) =>
    least === most
      ? `${counted(f, trees, 'tree')} would have ${counted(f, most, 'day')} of stress with it`
      : `${counted(f, trees, 'tree')} would have ${f.whole(least)} to ${f.whole(most)} days of stress with it`,
  idleDearer: (f: Formats, trees: number) =>
    `for ${counted(f, trees, 'tree')} another means costs less over the season`,
  idleRefused: (f: Formats, trees: number) => `${counted(f, trees, 'tree')}: `,
  pictures: {
    loading: 'Drawing …',
    crew: 'Crew weeks',
    tree: 'One tree',
    coils: 'Hoses as they are laid',
    pick: 'Which tree',
    pickRow: (row: number, label: string) =>
      label === '' ? `row ${row}` : `${label} (row ${row})`,
    useChosen: 'The row of the chosen cell',
    noChosen: 'Choose a cell of a planned row in the sheet first.',
    notPlanned: (row: number) => `Row ${row} is not in the plan.`,
    toRow: 'Go to its row',
    whyMeans: (means: string) => `Why ${means}`,
    whyDates: (f: Formats, n: number) => `Why these dates: ${counted(f, n, 'watering')}`,
    noWaterings: 'This tree needs no watering in the season.',
    day: 'Day',
    amount: (unit: string) => `Water (${unit})`,
    why: 'Why this day',
  },
  trial: {
    title: 'Try other values',
    lead: 'Move a value: the season is planned again and the pictures follow. Nothing is kept until you say so.',
    share: 'Share of rain to count on',
    workDays: 'as typed',
    replanning: (f: Formats, done: number, total: number) =>
      `Planning with the tried values … ${f.whole(done)} of ${f.whole(total)} rows.`,
    same: 'As kept.',
    trying: 'Tried, not kept',
    keep: 'Keep these values',
    discard: 'Back to the kept values',
    kept: 'The values are kept and the season is planned with them.',
    back: 'Back to the kept values.',
    first: 'Keep the tried values or go back first; then write and save.',
    more: (f: Formats, n: number, what: string) => `${f.amount(n)} more ${what}`,
    fewer: (f: Formats, n: number, what: string) => `${f.amount(n)} fewer ${what}`,
    moreOf: (amount: string, what: string) => `${amount} more ${what}`,
    lessOf: (amount: string, what: string) => `${amount} less ${what}`,
    nothing: 'No difference in the numbers.',
    stressDays: 'stress days',
    waterings: 'waterings',
    lost: 'trees that cannot be kept',
    overDays: 'days with more work than hours',
    hours: 'crew hours',
    water: 'water',
    price: 'price',
  },
  whatIf: {
    title: 'What if',
    lead: 'One thing is changed at a time and the whole season planned again, from separate visits: compare the lines with each other.',
    ask: 'Work it out',
    again: 'Work it out again',
    working: (f: Formats, done: number, total: number) =>
      `Working out what if … ${f.whole(done)} of ${counted(f, total, 'season')}.`,
    stop: 'Stop',
    done: 'What if is worked out.',
    base: 'The season as it is',
    line: (f: Formats, stress: number, waterings: number) =>
      `${counted(f, stress, 'stress day')}, ${counted(f, waterings, 'watering')}`,
    over: (f: Formats, days: number) =>
      days === 0 ? '' : `${counted(f, days, 'crew day')} over its hours`,
    lost: (f: Formats, trees: number) =>
      trees === 0 ? 'all trees kept' : `${counted(f, trees, 'tree')} cannot be kept`,
    cost: (amount: string) => `cost ${amount}`,
  },
  sheets: {
    title: 'Build the sheets',
    lead: 'Writes the plan as new sheets behind those that are open. Nothing that exists is touched; a name in use gets a number.',
    how: 'Formulas',
    live: 'Our own functions',
    liveNote:
      'Each figure can be traced and recalculates where this add-in is; elsewhere it shows #NAME?',
    native: 'The spreadsheet’s own formulas',
    nativeNote: 'Recalculate anywhere, without this add-in, and faster.',
    suggested: (f: Formats, rows: number, limit: number) =>
      rows > limit
        ? `Suggested for ${f.whole(rows)} rows: the spreadsheet’s own. Above ${f.whole(limit)} rows our functions make the workbook slow.`
        : `Suggested for ${counted(f, rows, 'row')}: our own functions, so that a figure can be checked. For somebody without this add-in take the other.`,
    log: 'With a log of visits',
    logNote:
      'An empty sheet Log to fill, one row a visit, and Service, Meters and Clocks beside it.',
    logThere: 'Log, Service, Meters and Clocks go with the sheets, with the visits logged so far.',
    build: 'Build the sheets',
    preparing: 'Preparing the sheets …',
    writing: (f: Formats, done: number, total: number, sheet: string) =>
      `Writing sheet ${f.whole(done)} of ${f.whole(total)}: ${sheet}`,
    last: (line: string) =>
      `${line}. The spreadsheet then works out its formulas, which can take a while.`,
    cancel: 'Cancel',
    cancelled: 'Building was stopped. The sheets are as they were before.',
    done: (f: Formats, n: number, first: string) =>
      `${counted(f, n, 'sheet')} written, from “${first}” on.`,
    doneAgain: (f: Formats, n: number, first: string) =>
      `${counted(f, n, 'sheet')} built again in place of the old, from “${first}” on.`,
    built: 'Written by this panel',
    made: (when: string) => `Made ${when}:`,
    madeOnce: 'Made earlier:',
    sheetsFrom: (f: Formats, n: number, first: string) =>
      n === 1 ? `the sheet “${first}”.` : `${counted(f, n, 'sheet')}, from “${first}” on.`,
    which: 'Which sheets',
    ofPlan: 'Of the plan as it stands.',
    ofInputs: 'Of what the plan is made from, as it stands.',
    ofEarlier: (what: string) => `Of an earlier plan, made before a change of ${what}.`,
    ofUnknown:
      'Whether they are of the plan as it stands cannot be told: what they were made from is not known.',
    parts: {
      trees: 'the trees',
      units: 'the units',
      site: (names: string) => `the site (${names})`,
      weather: 'the weather',
      rules: 'the rules',
      kit: 'the kit',
      contract: 'the contract or the limits',
    },
    andMore: (f: Formats, n: number) => `${f.whole(n)} more`,
    again: 'Build again in its place',
    againOf: (first: string) => `Build again in its place: the sheets from “${first}” on`,
    againKeeps:
      'Built again, visits, meters, clocks and bags typed into them are carried over. What else was typed there goes, and formulas of yours that point there may lose their place.',
    againTakes:
      'Built again, what was typed into them goes, and formulas of yours that point there may lose their place.',
    wouldBeLost: (f: Formats, n: number, sheet: string) =>
      `Nothing was written: ${counted(f, n, 'row')} of “${sheet}” cannot be read and would be lost. Correct them first, or take the sheets away.`,
    takeAway: 'Take away',
    visitsToo: (f: Formats, n: number, sheet: string) =>
      `“${sheet}” holds ${counted(f, n, 'visit')}. They go with the sheets.`,
    takeVisits: 'Take them away',
    leave: 'Leave them',
    notes: 'What the spreadsheet did not take',
    open: (sheet: string) => `Go to “${sheet}”`,
    undo: 'Undo build',
    undoOf: (f: Formats, n: number) => `Takes away ${counted(f, n, 'sheet')}: `,
    undoing: 'Taking the sheets away …',
    undone: (f: Formats, n: number) => `${counted(f, n, 'sheet')} taken away.`,
  },
  files: {
    title: 'Save as files',
    names: exportNames,
    notes: exportNotes,
    save: 'Save',
    saveOf: (name: string) => `Save: ${name}`,
    writing: (name: string) => `Making ${name} …`,
    saved: (name: string) => `Saved as ${name}.`,
    language: 'Language of crew sheets',
    both: 'Both, one after the other',
    days: 'Days of the crew sheets',
    from: 'From',
    to: 'To',
    outside: (from: string, to: string) =>
      `The plan goes from ${from} to ${to}. Take days within it.`,
    backwards: 'The last day comes before the first.',
    bom: 'Byte order mark in the table, for spreadsheet programs that would garble accents without it',
    whole: 'Download the open workbook',
    wholeNote: 'What is open here as it stands: your own sheet and all others.',
    wholeName: 'workbook.xlsx',
  },
  notesTitle: 'Notes',
};

export type BuildWords = typeof buildEn;
