/** Words of the step Kit in English. Their shape is the table the other language must fill. */
import type { Family } from '../../engine/plan/model.js';
import type { Formats } from '../parts/format.js';

const counted = (f: Formats, n: number, one: string, many = `${one}s`): string =>
  `${f.whole(n)} ${n === 1 ? one : many}`;

/** What is counted of a device. */
const pieces: Record<Family, string> = {
  bag: 'Bags in stock',
  pad: 'Pads in stock',
  soaker: 'Hoses in stock',
  hand: 'Hoses in stock',
  tanker: 'Trucks',
};
/** The measure that tells one from another. */
const sizes: Record<Family, string> = {
  bag: 'Size',
  pad: 'Water it gives',
  soaker: 'Length of one',
  hand: 'Flow',
  tanker: 'Tank',
};

export const kitEn = {
  lead: 'What is in stock, and what may be bought. A field is taken when you leave it. Prices and rates of your own make the choice of means yours.',
  devices: 'Devices',
  none: 'No device yet. Add one: the plan needs at least one way to water.',
  example: 'An example kit, invented: put your numbers, and remove what you do not have.',
  someExample: (f: Formats, names: readonly string[], devices: number) =>
    `${f.whole(names.length)} of ${counted(f, devices, 'device')} ${names.length === 1 ? 'has' : 'have'} the example’s numbers still, invented: ${names.join(', ')}.`,
  exampleNumbers: (names: readonly string[]) =>
    `The price rests on example numbers: ${names.join(', ')}. Put yours under Site, Money; wage and water price stand below as well, under Crew.`,
  partlyExample: (names: readonly string[]) =>
    `${names.join(', ')}: some numbers are the example’s still, invented. They are named there.`,
  exampleDevice: 'All numbers are the example’s, invented: type yours, or',
  invented: (f: Formats, numbers: readonly string[], more: number) => {
    const behind = more === 0 ? [] : [`${counted(f, more, 'number')} under More`];
    return `Invented still: ${[...numbers, ...behind].join(', ')}. Type yours, or`;
  },
  inventedNumber: (label: string, value: string) => `${label.toLowerCase()} ${value}`,
  confirm: 'Take as mine',
  confirmOf: (name: string) => `Take as mine: the numbers of ${name}`,
  confirmed: (name: string) => `The numbers of ${name} count as yours.`,
  buying: 'May more be bought than is in stock?',
  mayBuy: 'Yes: what lacks is bought',
  stockOnly: 'No: only what is in stock',
  buyingOne: 'A device can have an answer of its own: under its “More”.',
  /** the choice of a device without one. @param may - what the whole kit has */
  buyAsAll: (may: boolean) => `${may ? 'Yes' : 'No'}, as for the whole kit`,
  /** of a device with an answer of its own, in the list */
  buysOwn: 'more may be bought',
  stockOwn: 'only what is in stock',
  tank: (volume: string, device: string) =>
    `Tank: ${volume}, the tank of “${device}”. Change it there.`,
  pieces,
  sizes,
  hours: 'Empty after',
  price: 'Price of one',
  timed: 'on a timer',
  onTimer: 'A timer opens and shuts it',
  unnamed: 'no name',
  more: 'More',
  moreOf: (name: string) => `More of ${name}`,
  remove: 'Remove',
  removeOf: (name: string) => `Remove ${name}`,
  removed: (name: string) => `${name} is removed.`,
  undo: (name: string) => `Put back ${name}`,
  putBack: (name: string) => `${name} is back.`,
  add: 'Add',
  kinds: {
    bag: 'Bag',
    pad: 'Pad',
    soaker: 'Soaker hose',
    timed: 'Hose on a timer',
    hand: 'By hand',
    tanker: 'Tanker',
  },
  addOf: (kind: string) => `Add: ${kind}`,
  added: (name: string) => `${name} is added, with example numbers. Put yours.`,
  trees: 'or trees to serve',
  treesOf: (f: Formats, mean: number, most: number) =>
    most <= 1
      ? 'A tree of this list takes one hose.'
      : `On average a tree of this list takes ${f.amount(mean)} hoses, the largest one takes ${f.whole(most)}.`,
  treesServed: (f: Formats, stock: number, served: number, trees: number) =>
    `So ${counted(f, stock, 'hose')} ${stock === 1 ? 'serves' : 'serve'} about ${f.whole(served)} of ${counted(f, trees, 'tree')}.`,
  smallServed: (f: Formats, served: number) =>
    `They are enough for ${f.whole(served)} if the smaller trees get them.`,
  treesWrong: (typed: string) =>
    `“${typed}” is no number of trees. Write a whole number from 0, such as 25.`,
  editTitle: (name: string) => `Device “${name}”`,
  keep: 'Keep',
  cancel: 'Cancel',
  kept: (name: string) => `${name} is kept.`,
  nameMissing: 'The device needs a name of its own.',
  nameTaken: (name: string) => `“${name}” is already in the kit. Give this one another name.`,
  problems: 'Rows to look at',
  useExample: 'Back to the example kit',
  crew: 'Crew',
  driving: 'Driving and tank',
  workDays: 'Work days',
  /** from Monday on, short and whole */
  days: [
    ['Mon', 'Monday'],
    ['Tue', 'Tuesday'],
    ['Wed', 'Wednesday'],
    ['Thu', 'Thursday'],
    ['Fri', 'Friday'],
    ['Sat', 'Saturday'],
    ['Sun', 'Sunday'],
  ] as readonly (readonly [string, string])[],
  noDay: 'The crew works on one day of the week at least. Mark another day first.',
  daysTyped: 'These days cannot be shown as days of the week; they are written out.',
  ends: 'Crew ends at',
  endsFrom: 'the start and the hours a day',
  endsWrong: (typed: string) =>
    `“${typed}” is not an hour of the day; accepted is an hour such as 14:00, 2 pm or 24:00.`,
  endsBefore: (start: string) =>
    `The crew would end before it starts at ${start}, or less than half an hour later. Write a later hour, at most 24:00.`,
  endsAfter: 'after midnight',
  open: {
    lead: 'Of these hours the rules leave, on work days of the season:',
    fromTo: (from: string, to: string) => `${from} to ${to}`,
    and: 'and',
    or: 'or',
    wholeDay: 'at any hour',
    onDays: (f: Formats, days: number, of: number) =>
      `on ${f.whole(days)} of ${counted(f, of, 'work day')}`,
    /** said once a sentence; the rest of it is short */
    ofCrew: (hours: string, pastMidnight: boolean) =>
      `of the crew’s ${hours} hours${pastMidnight ? ' before midnight' : ''}`,
    some: (when: string, hours: string, of: string) =>
      of === '' ? `${when} ${hours}` : `${when} ${hours} ${of} are open`,
    none: (when: string, of: string) => (of === '' ? `${when} none` : `${when} none ${of} is open`),
    all: (when: string, of: string) => `${when} all${of === '' ? '' : ` ${of}`} are open`,
    from: (day: string) => `From ${day}`,
    outside: (hours: string) => `the rules open ${hours}`,
    trees: (f: Formats, trees: number, example: string) =>
      `${counted(f, trees, 'tree')} ${example === '' ? 'without an address' : `such as at ${example}`}`,
    more: (f: Formats, lines: number) =>
      `And ${f.whole(lines)} more ${lines === 1 ? 'answer' : 'answers'} for other trees: the days stand under Rules.`,
  },
  columns: {
    name: 'Name',
    family: 'Family',
    volume: 'Volume',
    holes: 'Holes',
    ratedHours: 'Rated hours',
    rate: 'Rate',
    length: 'Length',
    flow: 'Flow',
    price: 'Price of one',
    seasons: 'Seasons it lasts',
    stock: 'In stock',
    buy: 'May more be bought?',
    setupMinutes: 'Minutes to set, once a season',
    visitMinutes: 'Minutes a visit',
    automatic: 'A timer opens the valve',
    shutsItself: 'Without a timer: shuts by itself',
  },
};

export type KitWords = typeof kitEn;
