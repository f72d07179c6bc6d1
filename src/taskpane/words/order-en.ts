/** Words of the form that writes an order, in English. The other language fills its shape. */
import type { Formats } from '../parts/format.js';

const rows = (f: Formats, n: number): string => `${f.whole(n)} ${n === 1 ? 'row' : 'rows'}`;

/** Up to four names; of more, three and how many there are besides. */
const named = (names: readonly string[]): string =>
  names.length <= 4
    ? names.join(', ')
    : `${names.slice(0, 3).join(', ')} and ${names.length - 3} more`;

export const orderEn = {
  open: 'Write the order',
  close: 'Close without using it',
  title: 'Write the order',
  lead: 'A line for each thing the order says. Below each line stands how the rules read it. Nothing is written before “Use this order”.',
  from: {
    blank: 'A new order.',
    starter: (name: string) => `Filled from the example “${name}”: change it to what your order says.`,
    sheet: (name: string) => `Filled from the sheet “${name}”. Cells you do not change stay as they are.`,
    own: 'Filled from the site’s own rules.',
  },
  other: (name: string) =>
    `The sheet “${name}” holds no rules table (no column Verdict), so nothing is written to it. Give that sheet another name, then write the order.`,
  replaces: (f: Formats, n: number, name: string) =>
    `${rows(f, n)} on the sheet “${name}” make way for this order. A copy of them is put on a sheet “Rules before”.`,
  stale: 'The rules in use have changed since this form was filled.',
  refill: 'Fill it again',
  kept: (row: string) => `${row} cannot be shown here and stays as it is:`,
  closed: 'Hours when nothing may run',
  closedNote:
    'Every day and for all means, also those exempt or in no line. Both blank: no such hours. 10 am, 18:00; over midnight 18:00 to 06:00.',
  line: (n: number) => `Line ${n}`,
  means: 'What it is about',
  meansWords: {
    soaker: 'soaker hoses',
    drip: 'drip lines',
    sprinkler: 'sprinklers',
    hand: 'hose held by hand',
    bucket: 'bucket or can',
    bag: 'watering bags',
    tanker: 'water trucks',
    pad: 'gel pads',
  },
  all: 'All means',
  others: (names: readonly string[]) => `All means no other line names: ${named(names)}`,
  allMeans: 'All means, also those no other line names.',
  verdict: 'The order says',
  verdicts: { allow: 'may water', ban: 'banned', free: 'exempt' },
  address: 'Addresses',
  addresses: {
    '': 'all',
    odd: 'odd numbers',
    even: 'even numbers',
    'odd or none': 'odd, or no number',
    'even or none': 'even, or no number',
    none: 'no number',
    words: 'others, in words',
  },
  addressWords: 'Addresses in the words of the table',
  days: 'Days',
  anyDay: 'none chosen: any day',
  weekdays: ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'],
  dates: 'Dates',
  datesWords: {
    any: 'any date',
    odd: 'odd dates',
    even: 'even dates',
    none: 'no day, unless another line opens it',
  },
  hours: 'Hours',
  spans: { outside: 'closed from – to', within: 'open from – to', words: 'in words' },
  banSpans: { outside: 'banned but for', within: 'banned from – to', words: 'in words' },
  hourFrom: 'From',
  hourTo: 'To',
  hourFrom2: 'and from',
  hourTo2: 'to',
  hoursNote: 'Both blank: any hour. 10 am, 18:00.',
  hoursNoteClosed: 'Both blank: any hour but those when nothing may run. 10 am, 18:00.',
  hourWords: 'Hours in the words of the table',
  more: 'Dates, stage, limits and more',
  perWeek: 'At most so many days a week',
  every: 'Every so many days',
  columns: {
    Stage: 'Stage',
    From: 'From date',
    To: 'To date',
    Target: 'What is watered',
    Source: 'Water source',
    Limit: 'Limit',
    'New planting': 'First waterings: days since planting',
    Rain: 'Closed after rain',
    Needs: 'Needs',
    Note: 'Note',
    Agency: 'Agency',
    '31st': 'On the 31st',
    Midnight: 'Over midnight, the day of',
    Finish: 'A run that ends outside',
    Drain: 'A bag drains',
    Filling: 'Filling bags or tanks counts as',
    'Day one': 'Planting day is day',
  },
  add: 'Add a line',
  copy: 'Copy',
  copyOf: (n: number) => `Copy line ${n}`,
  remove: 'Remove',
  removeOf: (n: number) => `Remove line ${n}`,
  reads: 'Read as:',
  unread: 'Not read yet: see above.',
  look: 'Look here',
  strip: 'The six weeks under this order',
  unnamed: (names: readonly string[], hours: boolean, bans: boolean) =>
    `${names.length === 0 ? 'No line names any means. The plan counts all' : `No line names: ${names.join(', ')}. The plan counts them`} as allowed on any day, ${hours ? 'outside the hours when nothing may run' : 'at any hour'}${bans ? ', except where a line bans all means' : ''}.`,
  banUnnamed: 'Ban them in a line of their own',
  use: 'Use this order',
  used: (name: string) => `The order is on the sheet “${name}” and in use.`,
  unchanged: 'The order is as the sheet has it: nothing was written.',
  first: 'The order is not used yet: see the fields marked.',
  noLines: 'The order has no line. Add one.',
  noRows: (name: string) =>
    `There is no free row below the rules on the sheet “${name}”. Insert blank rows there, then use this order.`,
  noColumn: (name: string, column: string) =>
    `The sheet “${name}” has no column “${column}”, and no free column beside its table. Add it there, then use this order.`,
  troubles: {
    noMeans: 'Choose what this line is about, or “All means”.',
    time: (typed: string) => `“${typed}” is not a time of the day; accepted are 10, 10:30, 10 am and 18:00.`,
    half: 'A span of hours needs both its ends; accepted are 10, 10:30, 10 am and 18:00. Leave both blank for any hour.',
    ends: (from: string, to: string) =>
      `The hours end (${to}) before they begin (${from}). For the evening write 6 pm or 18:00.`,
    overnight: (from: string, to: string) =>
      `The hours end (${to}) before they begin (${from}). For the evening write 6 pm or 18:00; over midnight write both with minutes, 18:00 and 06:00.`,
    perWeek: 'A week has 1 to 7 days; leave it blank for no limit.',
    every: 'Accepted are 2 to 31; leave it blank for every day.',
  },
}; // prettier-ignore

export type OrderWords = typeof orderEn;
