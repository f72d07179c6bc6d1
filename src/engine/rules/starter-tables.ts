/**
 * Generic rules tables to start from. They are no city's rules: each shows a common shape, with days and
 * hours chosen here. Not imported by the readers, so that a bundle without them stays small.
 */
import type { RuleCell } from './rule-types.js';

/** A rules table with its header row, to be copied to a sheet and edited. */
export interface StarterTable {
  readonly name: string;
  /** said beside the table wherever it is shown */
  readonly note: string;
  readonly rows: RuleCell[][];
}

const NOTE = 'example: replace by your ordinance';
const table = (name: string, ...rows: RuleCell[][]): StarterTable => ({ name, note: NOTE, rows });

const MORNING_EVENING = '00:00-10:00, 19:00-24:00';
const RUN = 'soaker, drip, sprinkler';
const HAND = 'hand, bucket';
const BANNED = 'soaker, drip, sprinkler, hand';

const lastDigits = ['0-1', '2-3', '4-5', '6-7', '8-9'];
const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'];
/** Group, day in winter, days in spring and autumn. */
const groups: [string, string, string][] = [
  ['A', 'Mon', 'Mon Wed Fri'],
  ['B', 'Tue', 'Tue Thu Sat'],
  ['C', 'Wed', 'Mon Wed Fri'],
  ['D', 'Thu', 'Tue Thu Sat'],
];

export const STARTER_TABLES: readonly StarterTable[] = [
  table(
    'Two days a week by odd and even address',
    ['Means', 'Address', 'Days', 'Hours', 'Verdict', 'Needs', 'Note'],
    [RUN, 'odd', 'Wed Sat', MORNING_EVENING, 'allow', '', NOTE],
    [RUN, 'even or none', 'Thu Sun', MORNING_EVENING, 'allow', '', NOTE],
    [HAND, '', '', '', 'free', 'nozzle', NOTE],
  ),
  table(
    'One day a week by last digit',
    ['Means', 'Address', 'Days', 'Hours', 'Verdict', 'Note'],
    ...lastDigits.map((ends, i): RuleCell[] => [
      RUN,
      ends === '4-5' ? 'ends 4-5 or none' : `ends ${ends}`,
      weekdays[i] ?? '',
      MORNING_EVENING,
      'allow',
      NOTE,
    ]),
    [HAND, '', '', '', 'free', NOTE],
  ),
  table(
    'Odd addresses on odd dates, even on even',
    ['Means', 'Address', 'Days', 'Hours', 'Verdict', '31st', 'Note'],
    [RUN, 'odd', 'odd dates', '18:00-09:00', 'allow', 'none', NOTE],
    [RUN, 'even or none', 'even dates', '18:00-09:00', 'allow', 'none', NOTE],
    [HAND, '', '', '', 'free', '', NOTE],
  ),
  table(
    'Assigned groups with seasonal days',
    ['From', 'To', 'Means', 'Address', 'Days', 'Hours', 'Verdict', 'Note'],
    ...groups.flatMap(([group, winter, between]): RuleCell[][] => [
      ['Nov', 'Feb', RUN, `group ${group}`, winter, '', 'allow', NOTE],
      ['Mar', 'Apr', RUN, `group ${group}`, between, '', 'allow', NOTE],
      ['Sep', 'Oct', RUN, `group ${group}`, between, '', 'allow', NOTE],
    ]),
    ['May', 'Aug', RUN, '', 'not Sun', 'not 11:00-19:00', 'allow', NOTE],
    ['', '', HAND, '', '', '', 'free', NOTE],
  ),
  table(
    'Hand and drip only',
    ['Means', 'Days', 'Hours', 'Verdict', 'Needs', 'Note'],
    ['drip', '2 per week', 'before 09:00, after 18:00', 'allow', 'pressure reducer, timer', NOTE],
    [HAND, '', 'before 09:00, after 18:00', 'allow', '', NOTE],
    ['sprinkler, soaker', '', '', 'ban', '', NOTE],
  ),
  table(
    'Hand only, with nozzle',
    ['Means', 'Days', 'Hours', 'Verdict', 'Needs', 'Note'],
    ['hand', '', 'before 10:00, after 18:00', 'allow', 'nozzle, attended', NOTE],
    ['bucket', '', '', 'free', '', NOTE],
    ['sprinkler, soaker, drip', '', '', 'ban', '', NOTE],
  ),
  table(
    'Bucket or can only',
    ['Means', 'Days', 'Hours', 'Limit', 'Rain', 'Verdict', 'Note'],
    ['bucket', 'Tue Sat', 'before 09:00, after 18:00', '60 property', '', 'allow', NOTE],
    ['any', '', '', '', '48 h after 0.5 in', 'ban', NOTE],
    [BANNED, '', '', '', '', 'ban', NOTE],
  ),
  table(
    'Total ban with an exemption for trees',
    ['Means', 'Target', 'Source', 'Days', 'Hours', 'Verdict', 'Needs', 'Note'],
    ['any', '', 'mains', 'none', '', 'allow', '', NOTE],
    ['hand, drip, bag', 'tree', 'mains', '', 'before 10:00, after 18:00', 'allow', 'permit', NOTE],
    ['any', '', 'reclaimed, well, grey, rain, tanker', '', '', 'free', '', NOTE],
  ),
  table(
    'Grace for new plantings',
    ['Means', 'Address', 'Days', 'Hours', 'New planting', 'Verdict', 'Needs', 'Day one', 'Note'],
    [RUN, 'odd', 'Wed Sat', MORNING_EVENING, '', 'allow', '', '', NOTE],
    [RUN, 'even or none', 'Thu Sun', MORNING_EVENING, '', 'allow', '', '', NOTE],
    [RUN, '', '', '', '1-30', 'allow', 'receipt', 1, NOTE],
    [RUN, '', 'Mon Wed Fri', MORNING_EVENING, '31-60', 'allow', 'receipt', 1, NOTE],
    [HAND, '', '', '', '', 'free', '', '', NOTE],
  ),
];
