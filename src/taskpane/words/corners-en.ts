/** Words of Field check, Functions and Repair in English. Its shape is the table the other language must fill. */
import type { Formats } from '../parts/format.js';

const counted = (f: Formats, n: number, one: string, many = `${one}s`): string =>
  `${f.whole(n)} ${n === 1 ? one : many}`;
/** Columns of answers that are tables. */
const columnsEn: Readonly<Record<string, string>> = {
  verdict: 'verdict', lacks: 'water that lacks', visitsLack: 'visits that lack', where: 'where', low: 'low', high: 'high',
  work: 'work', rest: 'rest', questions: 'questions', date: 'date', water: 'water', minutes: 'time', et0: 'ET0',
  rain: 'rain that counts', demand: 'demand', watering: 'watering', ball: 'in the ball', ring: 'in the ring', ks: 'Ks',
  lost: 'lost', means: 'means', waterings: 'waterings', stress: 'under stress', cost: 'cost', first: 'first', between: 'between',
  cycles: 'cycles', on: 'on', off: 'off', served: 'served', rank: 'rank', why: 'why not',
}; // prettier-ignore
/** 1 of 4 holes is open */
const holesOpen = (open: string, holes: string): string =>
  `${open} of ${holes} holes ${open === '1' ? 'is' : 'are'} open`;

export const cornersEn = {
  field: {
    lead: 'Type what you have read on the round. The verdict follows as you type; write it to the log when it is right.',
    kind: 'What was checked',
    kinds: { bag: 'A bag, timed', flow: 'A hose or tap, by bucket', pad: 'A pad, weighed' },
    workOut: 'How long should a bag take? Work it out from size, holes and depth',
    device: 'Device of the kit',
    noDevice: { bag: 'another bag', flow: 'a tap, or none of these', pad: 'another pad' },
    tree: 'Tree or place, for the log',
    optional: 'if known',
    fields: {
      holes: 'Holes',
      ratedHours: 'Rated time of a full drain',
      hours: 'Time measured, from full',
      left: 'Share left at the end, 0 when empty',
      volume: 'Water caught',
      seconds: 'In',
      pressure: 'Pressure now',
      rated: 'Pressure when the rate was measured',
      saturated: 'Weight soaked',
      dry: 'Weight dry',
      now: 'Weight as it lies there',
      usable: 'Share roots can draw',
    },
    units: { hours: 'h', seconds: 's', share: 'share', holes: '' },
    fromKit: (value: string) => `${value} on Kit`,
    notNumber: (typed: string) => `“${typed}” is not a number. Write digits, as 2.5.`,
    missing: {
      bag: 'Needed: hours above 0; holes, a whole number, and rated hours, here or from the kit; a share left from 0 to below 1.',
      flow: 'Needed: water caught and seconds, both above 0.',
      pad: 'Needed: dry weight above 0, soaked weight above dry; a usable share above 0 to 1.',
    },
    noneInKit: {
      bag: 'Kit has no bag. Type what is printed on yours, or add it under Kit: then it is filled in here.',
      flow: 'Kit has no hose and no tanker. The flow is measured all the same, and compared with nothing.',
      pad: 'Kit has no pad. The water it holds is measured all the same, and compared with nothing.',
    },
    how: {
      bag: {
        title: 'How to time a bag',
        steps: [
          'Fill it to the top on its tree and note the time.',
          'Come back when it is empty, or look how much is left.',
          'Type the hours between. Holes and rated time stand on the bag or in Kit.',
        ],
      },
      flow: {
        title: 'How to measure a flow',
        steps: [
          'Hold the end of the hose or the nozzle into a bucket of known volume.',
          'Count the seconds until it is full.',
          'Type both. Pressures only where you have a gauge.',
        ],
      },
      pad: {
        title: 'How to weigh a pad',
        steps: [
          'Weigh it dry once, and once after a night in water.',
          'On the round, lift it and weigh it as it lies there.',
          'Type the weights: the verdict says whether it is due.',
        ],
      },
    },
    example: (readings: string, verdict: string) =>
      `Invented example: ${readings}. Verdict: ${verdict}`,
    verdicts: {
      bagOk: (hours: string) => `This bag is fine: a full one drains in ${hours} h.`,
      flush: (open: string, holes: string) => `This bag needs flushing: ${holesOpen(open, holes)}.`,
      slow: (hours: string, limit: string) =>
        `This bag is faulty: a full one takes ${hours} h, more than ${limit} h.`,
      leaking: (open: string, holes: string) =>
        `This bag leaks: it drains as if ${open} holes were open instead of ${holes}.`,
      low: (share: string) => `The flow is low: ${share} % of what Kit says.`,
      high: (share: string) => `The flow is high: ${share} % of what Kit says.`,
      flowOk: (share: string) => `The flow is as on Kit: ${share} % of it.`,
      noted: (flow: string) => `The flow is ${flow}. The kit has nothing to compare it with.`,
      soak: (share: string) => `This pad is due: ${share} % of its water is left.`,
      weak: (share: string) => `This pad is weak: it holds ${share} % of what Kit says.`,
      padOk: (volume: string) => `This pad is fine: it holds ${volume} that roots can draw.`,
    },
    actions: {
      bagOk: 'Nothing to do: keep it in use.',
      flush: 'Flush it, fill it, time it again.',
      slow: 'Take it off and use another.',
      leaking: 'Use another bag.',
      low: 'Look for a kink, a half-open valve or a clogged hose. If it stays, put this flow on Kit and plan again.',
      high: 'Look for a split or an open end. If there is none, put this flow on Kit and plan again.',
      flowOk: 'Nothing to do.',
      noted: 'Write it down as tap flow in the inventory, or as flow on Kit.',
      soak: 'Lift it, soak it overnight, lay it back.',
      weak: 'Put the new volume on Kit and plan again. Think of softer water or a new pad.',
      padOk: 'Nothing to do: weigh it again at the next soaking.',
    },
    next: 'Next:',
    numbers: {
      open: 'open holes',
      full: 'full drain now',
      flow: 'flow',
      expected: 'flow on Kit',
      held: 'water it holds',
      left: 'water left',
    },
    whereFrom: 'Where this is from',
    equation: 'Equation',
    source: 'Source',
    limits: {
      bag: (faulty: string, leaking: string, clogged: string) =>
        `Limits: faulty above ${faulty} h (published guidance of a London borough council); leaking above ${leaking} times its holes, to be flushed below ${clogged} times (assumptions).`,
      flow: (low: string, high: string) =>
        `Limits: low below ${low} times, high above ${high} times the flow on Kit (assumptions).`,
      pad: (reserve: string, weak: string) =>
        `Limits: due at a share left of ${reserve} (Pad reserve, under Site); weak below ${weak} times the volume on Kit (assumption).`,
    },
    inputs: 'Inputs',
    log: 'Write it to the log',
    logged: (sheet: string, row: number) => `Written to “${sheet}”, row ${row}.`,
    logNote: (sheet: string) => `One row on the sheet “${sheet}”, which is made if there is none.`,
    logOther: (sheet: string) =>
      `The sheet “${sheet}” has other headers than this log. Rename it, and a new one is made.`,
    logHeader: ['Date', 'Check', 'Tree', 'Device', 'Readings', 'Verdict', 'Next action'],
  },
  functions: {
    lead: 'Find a function, type its values, read the answer here. A blank cell can have it, too.',
    search: 'What do you want to know?',
    searchHint: 'Enter opens the first.',
    found: (f: Formats, n: number) => `${counted(f, n, 'function')} found.`,
    none: (typed: string) =>
      `Nothing is found for “${typed}”. Try one word: bag, hose, rain, soil, price.`,
    choose: (name: string) => `Use ${name}`,
    back: 'Back to the list',
    help: (name: string) => `Help page of ${name}`,
    helpOpens: 'opens in a new window',
    result: 'Gives',
    equation: 'Equation',
    range: 'Valid for',
    source: 'Source',
    whereFrom: 'Where this is from',
    where: (address: string) => `${address} is blank.`,
    filled: (address: string) => `${address} is filled and stays as it is.`,
    holds: (address: string) => `${address} holds a formula put there from here.`,
    refused: (sheet: string) =>
      `“${sheet}” is a sheet of the planner: a formula on it would be read as part of its table, or be lost when it is built again.`,
    nowhere: 'No cell is chosen in the sheet.',
    onSheet: (sheet: string, address: string) => `${address} of “${sheet}”`,
    answers: { sheet: 'Answers', header: ['Answer', 'What it is'] },
    answer: {
      title: 'Answer',
      working: 'Working it out …',
      missing: (name: string) => `Fill ${name} to see the answer.`,
      bySheet: (name: string) =>
        `${name} is a formula, which only the sheet can work out. Insert it to see the value.`,
      mend: (name: string) => `No answer: see ${name}.`,
      examples: (names: string) => `With example values for ${names}: put your own.`,
      rows: (shown: number, all: number) =>
        shown === all ? `${all} ${all === 1 ? 'row' : 'rows'}` : `First ${shown} of ${all} rows`,
      yes: 'yes',
      no: 'no',
      columns: columnsEn,
    },
    optional: 'optional',
    origins: {
      column: (header: string, row: number) => `Column “${header}”, row ${row}.`,
      example: 'Example value: put your own.',
      units: 'The units of this workbook.',
      blank: 'Type a value, a cell as D5, or a range as A1:C9.',
      default: 'Blank: the default is taken.',
      yours: 'As you typed it.',
      otherUnit: (header: string, unit: string, wanted: string) =>
        `Column “${header}” is in ${unit}, needed is ${wanted}: not used.`,
    },
    noRow: 'The chosen cell stands in no row of the trees that were read, so no column is matched.',
    formula: 'The formula',
    insert: (where: string) => `Insert into ${where}`,
    replace: (address: string) => `Replace the formula in ${address}`,
    onAnswers: (sheet: string) => `Put it on the sheet “${sheet}”`,
    inserted: (where: string, shown: string) => `${where} shows ${shown}.`,
    narrow: 'its value once the column is wider',
    waits: (where: string) =>
      `The formula stands in ${where}. The program is still working it out.`,
    takenBack: (address: string, error: string, why: string) =>
      `${address} showed ${error}: ${why} The formula was taken back.`,
    notInserted: (why: string) => `Not inserted: ${why}`,
    errors: {
      '#NAME?': 'the program does not know the function; see Repair.',
      '#SPILL!': 'the cells the answer needs are not blank.',
      '#REF!': 'a cell it points at is not there.',
      other: 'the function refuses one of its arguments.',
    } as Readonly<Record<string, string>>,
    noExamples: 'The worked examples could not be fetched; arguments are left to type.',
  },
  repair: {
    lead: 'Where the spreadsheet has lost our functions, cells show #NAME? or wait for ever. Repair enters those formulas again. Nothing else is touched.',
    repair: 'Repair the formulas',
    working: 'Looking through all sheets …',
    none: 'No broken formula of ours was found. Nothing was changed.',
    done: (f: Formats, n: number) => `${counted(f, n, 'formula')} entered again.`,
    still:
      'If cells still show #NAME?, the add-in’s functions are not loaded: close and open the workbook, or install the add-in again.',
  },
};

export type CornerWords = typeof cornersEn;
