/**
 * Stands for Google Sheets: a room with the language of some years ago, the two services a script asks for the time
 * zone, and nothing else.
 */
import { createContext, runInContext } from 'node:vm';

/** Functions of the language that came after ES2020; an older host may lack them. */
const NEWER = `
  for (const kind of [Array, String, Float64Array, Int32Array, Uint8Array]) delete kind.prototype.at;
  for (const name of ['findLast', 'findLastIndex', 'toSorted', 'toReversed', 'toSpliced', 'with'])
    delete Array.prototype[name];
  for (const name of ['replaceAll', 'isWellFormed', 'toWellFormed']) delete String.prototype[name];
  for (const name of ['hasOwn', 'groupBy']) delete Object[name];
  delete globalThis.structuredClone;
`;

export interface SheetRoom {
  /** names a cell could use */
  functions: string[];
  /** all names the script adds to the room */
  names: string[];
  call(name: string, ...given: unknown[]): unknown;
  /** how often the zone was asked for */
  zoneCalls(): number;
}

const FIELDS = { hourCycle: 'h23', year: 'numeric', month: '2-digit', day: '2-digit', hour: '2-digit', minute: '2-digit', second: '2-digit' } as const; // prettier-ignore

/** "2027-07-01T20:00:00" of a moment in a zone, as the host's own formatting gives it. */
export function wallTime(moment: Date, zone: string): string {
  const format = new Intl.DateTimeFormat('en-US', { ...FIELDS, timeZone: zone });
  const part = Object.fromEntries(
    format.formatToParts(moment).map((each) => [each.type, each.value]),
  );
  return `${part['year']}-${part['month']}-${part['day']}T${part['hour']}:${part['minute']}:${part['second']}`;
}

/** The moment at which clocks of a zone show a date and time "2027-07-01 20:00"; the time may be left out. */
export function momentIn(zone: string, text: string): Date {
  const wanted = Date.parse(`${text.replace(' ', 'T')}${text.includes(' ') ? '' : 'T00:00'}:00Z`);
  let time = wanted;
  for (let i = 0; i < 3; i++) time += wanted - Date.parse(`${wallTime(new Date(time), zone)}Z`);
  return new Date(time);
}

export function sheetRoom(script: string, zone: string): SheetRoom {
  let zoneCalls = 0;
  const services = {
    SpreadsheetApp: {
      getActiveSpreadsheet: () => ({
        getSpreadsheetTimeZone: () => {
          zoneCalls++;
          return zone;
        },
      }),
    },
    Utilities: {
      formatDate: (moment: Date, of: string, pattern: string): string => {
        if (pattern !== "yyyy-MM-dd'T'HH:mm:ss") throw new Error(`unexpected pattern ${pattern}`);
        return wallTime(moment, of);
      },
    },
  };
  const room = createContext({ ...services });
  runInContext(NEWER, room);
  const before = new Set(runInContext('Object.getOwnPropertyNames(globalThis)', room) as string[]);
  runInContext(script, room, { filename: 'soakbook.gs', timeout: 20_000 });
  const names = (runInContext('Object.getOwnPropertyNames(globalThis)', room) as string[]).filter(
    (name) => !before.has(name),
  );
  return {
    names,
    functions: names.filter((name) => !name.endsWith('_')),
    zoneCalls: () => zoneCalls,
    call: (name, ...given) => (room[name] as (...args: unknown[]) => unknown)(...given),
  };
}
