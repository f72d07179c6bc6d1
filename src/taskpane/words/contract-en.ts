/** Words of the corner Contract in English. Its shape is the table the other language must fill. */
import type { FlagKind } from '../../engine/contract/log-flags.js';
import type { TriageOrder } from '../../engine/contract/triage-orders.js';
import type { ClauseLine, LimitKind } from '../../workers/contract-types.js';
import type { Formats } from '../parts/format.js';

const counted = (f: Formats, n: number, one: string, many = `${one}s`): string =>
  `${f.whole(n)} ${n === 1 ? one : many}`;

const verdicts: Record<ClauseLine['verdict'], string> = {
  met: 'met',
  short: 'short',
  over: 'over',
  nobody: 'no tree',
  'cannot tell': 'cannot be told',
};
const limits: Record<LimitKind, string> = {
  week: 'Water a week',
  season: 'Water of the season',
  hours: 'Crew hours a week at the trees',
};
const orders: Record<TriageOrder, string> = {
  'new first': 'Newly planted first',
  'large first': 'Large established first',
  'sound first': 'Sound ones first',
  value: 'Greatest value',
  stress: 'Most days under stress first',
  score: 'A score of these',
};
const kinds: Record<FlagKind, string> = {
  'unknown tree': 'Unknown tree',
  gone: 'Dead or removed',
  'before planting': 'Before planting',
  times: 'Times',
  'nothing said': 'Something unsaid',
  duplicate: 'Said twice',
  'two places': 'Two places at once',
  'two crews': 'Two crews',
  minutes: 'Minutes',
  pump: 'Pump',
  tank: 'Tank',
  'no rain reading': 'No rain reading',
  'too regular': 'Very regular numbers',
  'copied day': 'Like another day',
};

export const contractEn = {
  lead: 'What a contract asks for, who is served when water is short, and what a filled log says.',
  parts: 'Parts of this corner',
  part: { clauses: 'Clauses', shortage: 'Shortage', log: 'Log' },
  row: (row: number) => `Row ${row}`,
  goTo: (sheet: string, row: number) => `Go to row ${row} of ${sheet}`,
  planFirst: 'Plan the season first; then the plan is held against it.',
  trying: 'Other values are being tried under Build. Keep or discard them first.',
  toBuild: 'Go to Build',
  notUsed: 'Not used',
  wholeTable: 'The table',
  showAll: (f: Formats, n: number) => `Show all ${f.whole(n)}`,
  most: (f: Formats, n: number) => `The first ${f.whole(n)} are shown.`,
  openSheet: (name: string) => `Open the sheet “${name}”`,
  whereFrom: 'Where these numbers are from',
  clauses: {
    empty:
      'Put what the contract asks for on a sheet “Contract”, one row a clause: which trees, from when to when, least water, least visits, a cap, rain that stands for a visit. It is then read with every change.',
    order: 'The law goes first, the contract second, the tree third.',
    put: 'Put an empty contract on a sheet',
    putNote:
      'Its header and two example rows, marked as examples. Nothing that exists is changed.',
    written: (name: string) => `Written: ${name}. Replace the two example rows by yours.`,
    inUse: (f: Formats, name: string, n: number) =>
      `Sheet “${name}”: ${counted(f, n, 'clause')} understood.`,
    example: 'Example rows are among them, invented: replace them by your contract.',
    understood: 'What was understood',
    verdicts,
    met: (f: Formats, trees: number) => `Met for ${counted(f, trees, 'tree')}.`,
    short: (f: Formats, water: string, visits: number) =>
      `Short by ${[water, visits > 0 ? counted(f, visits, 'visit') : ''].filter((p) => p !== '').join(' and ')}.`,
    over: (water: string, money: string) =>
      `${water} above the cap${money === '' ? '' : `, ${money}`}.`,
    nobody: 'No tree of the plan is spoken of.',
    where: (f: Formats, rows: number, times: number, first: string) =>
      `On ${counted(f, rows, 'row')} of trees, ${counted(f, times, 'time')}; first ${first}.`,
    whereAll: (f: Formats, times: number, first: string) => `${counted(f, times, 'time')}; first ${first}.`,
    span: (from: string, to: string) => (from === to ? from : `${from} to ${to}`),
    excused: (f: Formats, n: number) => `Rain stood for ${counted(f, n, 'visit')}.`,
    toTree: (id: string) => `Go to ${id}`,
    fights: 'Where the rules allow less',
    noFights: 'The rules leave days enough for every visit asked for.',
    surplus: 'More than the trees can use',
    noSurplus: 'The contract asks for no more water than the plan gives any tree.',
    surplusSays: (water: string, money: string, rows: string) =>
      `Taken literally the contract asks for ${water} more than the plan gives, on ${rows}: water they cannot use, ${money} at the price of this site. Rain to skip for is not looked at.`,
    rows: (f: Formats, n: number) => `${counted(f, n, 'row')} of trees`,
    surplusRow: (asked: string, used: string) => `${asked} asked for, ${used} in the plan`,
    planBy: 'Plan by this contract',
    planByLead:
      'The season is planned with its least visits kept, on days the rules leave; then each clause is held against the plan.',
    bare: 'What the least visits add',
    noBare: 'Nothing: the trees are visited as often anyway, or the rules leave no more days.',
    bareSays: (f: Formats, n: number) =>
      `${counted(f, n, 'row')} of trees ${n === 1 ? 'is' : 'are'} visited more often than ${n === 1 ? 'its' : 'their'} soil asks.`,
    bareLead: 'Least water is not poured beyond what the soil holds.',
    without: 'without',
    asPlanned: 'the plan',
    waterings: 'Waterings',
    water: (unit: string) => `Water (${unit})`,
    price: (currency: string) => `Price (${currency})`,
    clausesMet: 'Clauses met',
    source:
      'Plan: its waterings by whole weeks and months. Rules: open days and the budget of each week. More than the trees can use: the contract’s least water of every day against the plan’s, at the water price of Site.',
  },
  shortage: {
    lead: 'Say how much there is. The rows that are served are chosen so that as many as can be come through, in the order you choose. A row is served whole or not at all.',
    limit: 'What there is too little of',
    limits,
    amount: 'How much there is',
    hours: 'h',
    notNumber: (typed: string) => `“${typed}” is not a number; accepted is a number above 0.`,
    order: 'Who comes first',
    orders,
    value: 'Column with a value of yours',
    noValue: 'none: every tree counts the same',
    pickValue: 'choose a column',
    condition: 'Column with the condition',
    noCondition: 'none: all in good health',
    source: 'Source',
    conflict: 'Published orders contradict each other. The choice is yours; it goes on the sheet with its source.',
    certainty: {
      seen: 'read in the publication itself',
      secondary: 'read in a copy or an extract',
      memory: 'from memory',
      computed: 'computed',
      assumption: 'assumption',
      'common practice, no source': 'common practice, no source',
    },
    ask: 'See who is served',
    working: 'Choosing …',
    done: (f: Formats, served: number, out: number) =>
      `${counted(f, served, 'tree')} served, ${f.whole(out)} not.`,
    enough: (needed: string) => `It is enough: the plan takes ${needed} at most, and every tree is served.`,
    needs: (needed: string, there: string) => `The plan takes ${needed}; there is ${there}.`,
    perWeek: (amount: string) => `${amount} in its fullest week`,
    perWeekThere: (amount: string) => `${amount} a week`,
    served: 'trees served',
    notServed: 'not served',
    stress: 'days under stress of those',
    cut: 'The search was cut: a slightly better choice is not ruled out.',
    next: (f: Formats, more: string, trees: number, days: number) => {
      const count = f.whole(Math.abs(trees));
      const who =
        trees === 0
          ? 'would serve as many trees'
          : `would serve ${count} ${trees > 0 ? 'more' : 'fewer'} ${Math.abs(trees) === 1 ? 'tree' : 'trees'}`;
      return `The next ${more} ${who} and ${days >= 0 ? 'save' : 'cost'} ${counted(f, Math.abs(days), 'day')} under stress.`;
    },
    out: 'Not served, in the order of who comes next',
    outLine: (f: Formats, trees: number, days: number, ks: string) =>
      `${trees === 1 ? '' : `${counted(f, trees, 'tree')}; `}without water ${counted(f, days, 'day')} under stress, least Ks ${ks}`,
    toSheet: 'Put this list on a sheet',
    toSheetNote: 'A sheet “Not served” with order, source and amount.',
    written: (name: string) => `Written: ${name}.`,
    whereFrom:
      'Water and minutes of every row: the plan. Days under stress and least Ks without water: the daily water balance with rain alone (FAO-56 Eq. 84). Ks is the share of its demand a tree can still draw; 1 is without stress. Crew hours are minutes at the trees, without driving.',
  },
  log: {
    empty:
      'A log has one row for each visit to a tree: tree, date, arrived, left, crew, truck, water, how measured, and a reason where it was skipped. Fill the sheet “Log” of the open workbook, or open a file. Gallons and visits are then held against the plan, and what does not fit together is asked about.',
    open: 'Open a filled log',
    another: 'Open another log',
    back: (name: string) => `Back to the sheet “${name}”`,
    fromFile: (name: string) => `From the file “${name}”. Rows are named as they stand there.`,
    fromSheet: (name: string) => `Sheet “${name}” of the open workbook.`,
    reading: (name: string) => `Reading “${name}” …`,
    read: (f: Formats, name: string, n: number) => `“${name}” is read: ${counted(f, n, 'row')}.`,
    noLog: (name: string, found: string) =>
      `“${name}” has no sheet “Log”; found are ${found}. A workbook needs a sheet of that name, a text table is one log.`,
    none: 'No row of the log could be read.',
    span: (f: Formats, n: number, from: string, to: string) =>
      `${counted(f, n, 'row')} from ${from} to ${to}.`,
    made: 'visits made',
    missed: 'visits missed',
    skipped: 'skipped with a reason',
    applied: 'water given',
    planned: 'water planned',
    against: 'Planned is the plan of this season, for the days of the log. A visit a day early or late is still that visit.',
    againstOwn: 'There is no plan of this season, so planned is what the log itself says. Plan under Build to see visits missed.',
    againstNone: 'There is no plan of this season, and the log says no planned water.',
    questions: 'Questions',
    motto: 'A flag is a question, not an accusation.',
    count: (f: Formats, n: number, rows: number) =>
      `${counted(f, n, 'question')} about ${counted(f, rows, 'row')}.`,
    alike: (f: Formats, n: number) => `${counted(f, n, 'more row', 'more rows')} with the same question`,
    noQuestion: 'No row raises a question.',
    kinds,
    trees: 'Trees that differ from the plan',
    noTrees: 'Every tree got its visits, and its water within a tenth.',
    tree: 'Tree',
    madeOf: 'Made',
    missedOf: 'Missed',
    given: (unit: string) => `Given (${unit})`,
    plannedOf: (unit: string) => `Planned (${unit})`,
    meters: 'Meters against the log',
    noMeters: 'With a sheet “Meters” beside the log, readings are held against it.',
    meterDays: (from: string, to: string) => `${from} to ${to}`,
    meterLine: (used: string, logged: string) => `${used} through it, ${logged} in the log`,
    unknownUse: 'not known',
    over: (water: string) => `${water} above what is included`,
    cost: (money: string) => `costs ${money}`,
    unmetered: (f: Formats, water: string, rows: number) =>
      `${water} in ${counted(f, rows, 'row')} came through no meter of the list.`,
    contract: 'The contract by this log',
    pace: (trees: string, at: string, between: string, each: string) =>
      `A crew did ${trees} trees a day: ${at} min at each, ${between} min between, ${each} a tree.`,
    paceTitle: 'Pace, for the next estimate',
    source:
      'Water and visits: the rows of the log. Questions: minutes, pump and tank of the kit, places, days, and numbers that are alike; their limits stand on the sheet Log and are assumptions. Meters: end less begin, a tenth apart is let be.',
  },
}; // prettier-ignore

export type ContractWords = typeof contractEn;
