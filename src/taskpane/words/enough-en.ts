/** Words of a plan whose days do not fit, and of what would be enough, in English. The other language fills its shape. */
import { lowerFirst } from '../../engine/first-letter.js';
import type { Formats } from '../parts/format.js';

const counted = (f: Formats, n: number, one: string, many = `${one}s`): string =>
  `${f.whole(n)} ${n === 1 ? one : many}`;
const long = (f: Formats, minutes: number): string =>
  minutes <= 1 ? 'a minute' : `${f.whole(minutes)} minutes`;

export const enoughEn = {
  planned: (f: Formats, days: number) =>
    `Planned, but ${counted(f, days, 'day')} ${days === 1 ? 'does' : 'do'} not fit.`,
  ifMade: 'The numbers below hold only if every visit could be made.',
  treesPlanned: 'trees planned, if every visit could be made',
  cannotBeKept: 'cannot be kept even then',
  price: 'price of the plan that does not fit',
  build: (f: Formats, days: number) =>
    `The sheets will say that ${counted(f, days, 'day')} ${days === 1 ? 'does' : 'do'} not fit.`,
  built: (f: Formats, days: number) =>
    `The plan in them does not fit on ${counted(f, days, 'day')}.`,
  helps:
    'What would be enough is found by planning with it: more hours, more crews, other means, or fewer trees.',
  ask: 'Try what would be enough',
  again: 'Try again',
  stop: 'Stop trying',
  cost: (f: Formats, most: number, minutes: number) =>
    `Plans the season up to ${f.whole(most)} times: with other hours, timers, means and crews, alone and together, and with fewer trees. By the last planning this takes up to ${long(f, minutes)}. You can stop at any time; what was found stays.`,
  busy: 'What would be enough is being tried. Wait for it or stop it first.',
  first: 'Values are being tried by hand. Keep them or go back first.',
  working: (f: Formats, nth: number, what: string) => `Try ${f.whole(nth)}: ${what} …`,
  starting: 'Starting …',
  found: (f: Formats, enough: number) =>
    enough === 0
      ? 'Nothing that was tried is enough. Take what helps most, then try again from there.'
      : enough === 1
        ? 'One way is enough.'
        : `${f.whole(enough)} ways are enough, each by itself. The first serves all trees if any does.`,
  stopped: 'Stopped. This is what was tried so far; the plan is as it was.',
  caption: 'What was tried, the season planned with each; what fits stands first',
  asItIs: 'The plan as it is',
  heads: { days: 'Days that do not fit', longest: 'Longest day', water: 'Water', price: 'Price' },
  longest: (hours: string, available: string) =>
    hours === available ? `just over ${available} h` : `${hours} h of ${available}`,
  fits: 'fits',
  same: 'same',
  use: 'Use this',
  useOf: (what: string) => `Use this: ${what}`,
  who: 'See who',
  whoOf: (what: string) => `See who is served: ${what}`,
  ways: {
    crews: (f: Formats, crews: number, from: number) =>
      `${counted(f, crews, 'crew')} instead of ${f.whole(from)}`,
    start: (start: string, from: string) => `Crews start at ${start} instead of ${from}`,
    days: (days: string, from: string) => `Crews work ${days} instead of ${from}`,
    hours: (f: Formats, hours: number) => `A crew’s day of ${f.amount(hours)} h`,
    tank: (volume: string) => `Twice the tank: ${volume}, or a second one of the same size`,
    means: (f: Formats, worth: number) =>
      `Means that save crew time: an hour counts ${f.amount(worth)} times its wage`,
    everyDay: 'every day',
    timers: (devices: string) => `On timers: ${devices}`,
    buying: 'What the stock lacks is bought',
    together: (ways: readonly string[]) =>
      ways.map((way, i) => (i === 0 ? way : lowerFirst(way))).join(', and '),
    fewer: (f: Formats, trees: number, hours: number) =>
      `${counted(f, trees, 'tree')} not served: ${f.amount(hours)} h a week at trees`,
  },
  leftOut: {
    header: 'Served',
    rows: (f: Formats, rows: number) =>
      `${counted(f, rows, 'row')} of the list ${rows === 1 ? 'is' : 'are'} left out: “Served” says no beside ${rows === 1 ? 'it' : 'them'}. They get rain alone, and stand on no sheet of the crew.`,
    serveAll: 'Serve them again',
    served: (f: Formats, rows: number) =>
      `${counted(f, rows, 'row')} ${rows === 1 ? 'is' : 'are'} served again. Plan to see whether the days fit.`,
    noRoom: (range: string) =>
      `Only ${range} of the sheet is read, so a column “Served” beside it would not be seen. Write one yourself within it, or read the whole sheet under Trees.`,
    changed: (f: Formats, rows: number) =>
      `${counted(f, rows, 'cell')} had changed meanwhile and ${rows === 1 ? 'was' : 'were'} left as found. Look at the column “Served”, then plan again.`,
  },
  notes: {
    crews: 'The price holds their hours, not their trucks.',
    tank: 'The price of the tank is not in it, nor whether the truck may carry it.',
    night:
      'Night work: noise rules, light and traffic are matters of local code and your own safety rules.',
    timers: (f: Formats, trees: number) =>
      `${counted(f, trees, 'tree')} then ${trees === 1 ? 'has' : 'have'} a hose on a timer, each at a tap. What the timers cost is not in it; somebody sets them, and again when the schedule changes.`,
    buying: (what: string) => `To be bought first: ${what}.`,
    same: 'No tree would get another means: none saves enough time and keeps the tree.',
    uses: (devices: string) => `Uses what lies idle: ${devices}.`,
    dearer: (money: string) => `Costs ${money} more than the means chosen by cost.`,
    fewer:
      'New plantings first; the rest gets rain alone. “Use this” writes “no” beside their rows, in a column “Served” of the list.',
    lost: (f: Formats, trees: number) => `${counted(f, trees, 'more tree')} cannot be kept.`,
    notPlanned: (f: Formats, rows: number) => `${counted(f, rows, 'more row')} not planned.`,
    notFewer: 'Fewer trees were not tried: ',
  },
  shortage: {
    filled: (hours: string) =>
      `Filled in: ${hours} a week at trees fit into the crews’ open hours, driving and refills taken off as in the plan. What is short is hours, not water.`,
    unknown:
      'What is short is hours, not water, and how many fit cannot be told from the rules. Under Build, “Try what would be enough” looks for more hours first.',
    single: 'Single days may still be too full: Build tries that by planning.',
  },
};

export type EnoughWords = typeof enoughEn;
