/** Words of a plan whose days do not fit, and of what would be enough, in English. The other language fills its shape. */
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
    `Plans the season up to ${f.whole(most)} times, one change at a time. By the last planning this takes up to ${long(f, minutes)}. You can stop at any time; what was found stays.`,
  busy: 'What would be enough is being tried. Wait for it or stop it first.',
  first: 'Values are being tried by hand. Keep them or go back first.',
  working: (f: Formats, nth: number, what: string) => `Try ${f.whole(nth)}: ${what} …`,
  starting: 'Starting …',
  found: (f: Formats, enough: number) =>
    enough === 0
      ? 'Nothing that was tried is enough by itself. Take what helps most, then try again from there.'
      : enough === 1
        ? 'One change is enough.'
        : `${f.whole(enough)} changes are enough, each by itself.`,
  stopped: 'Stopped. This is what was tried so far; the plan is as it was.',
  caption: 'One thing changed at a time, the season planned with it',
  asItIs: 'The plan as it is',
  heads: { days: 'Days that do not fit', longest: 'Longest day', water: 'Water', price: 'Price' },
  longest: (hours: string, available: string) => `${hours} h of ${available}`,
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
    fewer: (f: Formats, trees: number, hours: number) =>
      `${counted(f, trees, 'tree')} not served: ${f.amount(hours)} h a week at trees`,
  },
  notes: {
    crews: 'The price holds their hours, not their trucks.',
    tank: 'The price of the tank is not in it, nor whether the truck may carry it.',
    same: 'No tree would get another means: none saves enough time and keeps the tree.',
    uses: (devices: string) => `Uses what lies idle: ${devices}.`,
    dearer: (money: string) => `Costs ${money} more than the means chosen by cost.`,
    fewer: 'New plantings first; the rest gets rain alone.',
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
