/** Logs made by a seed: honest ones with the noise of real days, and honest ones with one wrong put in. Invented. */
import { dayFromIso } from '../../../src/engine/dates.js';
import type { LogRow, LogTree, LogTruck } from '../../../src/engine/contract/visit-log.js';
import type { FlagKind } from '../../../src/engine/contract/log-flags.js';
import { L_PER_GALLON } from '../../../src/engine/units.js';
import { sequence } from '../../accuracy/precise.js';

const MONDAY = dayFromIso('2027-06-07');
const GAL = L_PER_GALLON;

export const TREES: LogTree[] = Array.from({ length: 120 }, (_, i) => ({
  id: `T${i + 1}`,
  planted: dayFromIso('2026-03-01') + i,
}));
export const TRUCKS: LogTruck[] = [
  { name: 'Truck 1', flow: 12 * GAL, tank: 500 * GAL },
  { name: 'Truck 2', flow: 10 * GAL, tank: 300 * GAL },
];

type Next = () => number;
const about = (next: Next, middle: number, spread: number): number =>
  middle + (next() + next() + next() - 1.5) * spread;

/** Two crews, ten working days, some 18 trees each: watches are off, meters scatter, readings are forgotten, bags are alike. */
export function honestLog(seed: number): LogRow[] {
  const next = sequence(seed);
  const rows: LogRow[] = [];
  for (let d = 0; d < 10; d++) {
    const day = MONDAY + Math.floor(d / 5) * 7 + (d % 5);
    const rain = Math.max(0, about(next, 0, 6));
    const gaugeForgotten = next() < 0.04;
    [0, 1].forEach((crew) => {
      // bags are filled to the brim from truck 1, truck 2 has a meter
      const metered = crew === 1;
      let clock = Math.round(about(next, 7 * 60, 20));
      let inTank = TRUCKS[crew]!.tank!;
      const stops = 15 + Math.floor(next() * 6);
      const first = Math.floor(next() * 60) + crew * 60;
      for (let s = 0; s < stops; s++) {
        const tree = TREES[((first + s) % 60) + crew * 60]!;
        const gallons = metered ? about(next, 18, 3) : 20;
        const litres = Math.round(gallons * 10) * 0.1 * GAL;
        if (litres > inTank) {
          clock += Math.round(about(next, 18, 5));
          inTank = TRUCKS[crew]!.tank!;
        }
        const skipped = next() < 0.04;
        const minutes = skipped ? 1 : litres / TRUCKS[crew]!.flow! + about(next, 4, 2.5);
        const stay = Math.max(1, Math.round(minutes));
        const watch = Math.round(about(next, 0, 0.8));
        const untimed = next() < 0.03;
        if (!skipped) inTank -= litres;
        rows.push({
          row: 0, tree: tree.id, day, crew: `Crew ${crew + 1}`, truck: TRUCKS[crew]!.name,
          arrived: untimed ? undefined : clock + watch, left: untimed ? undefined : clock + watch + stay,
          planned: 20 * GAL, applied: skipped ? 0 : litres, measured: metered ? 'meter' : 'bag',
          source: `H-${crew + 1}`, rain: gaugeForgotten || next() < 0.1 ? undefined : rain, leaves: '', bag: '', condition: '',
          photo: '', skipped: skipped ? 'parked car' : '', approved: 'foreman',
          truckMinutes: Math.max(0, about(next, minutes, 1.5)),
        }); // prettier-ignore
        clock += stay + Math.max(1, Math.round(about(next, 3, 2)));
        // now and then a bag is topped up on the way back
        if (!skipped && next() < 0.004) rows.push({ ...rows.at(-1)!, arrived: undefined, left: undefined, applied: 5 * GAL }); // prettier-ignore
      }
    });
  }
  return numbered(rows);
}

const numbered = (rows: LogRow[]): LogRow[] => rows.map((row, i) => ({ ...row, row: i + 2 }));

export interface WrongLog {
  what: string;
  kind: FlagKind;
  rows: LogRow[];
  trees: LogTree[];
  /** rows that must be asked about */
  wrong: number[];
}

type Tamper = (rows: LogRow[], next: Next) => { rows: LogRow[]; wrong: (row: LogRow) => boolean; trees?: LogTree[] }; // prettier-ignore

const dayOfCrew = (rows: LogRow[], crew: string, day: number): LogRow[] =>
  rows.filter((r) => r.crew === crew && r.day === day && r.arrived !== undefined && (r.applied ?? 0) > 0); // prettier-ignore

/** One wrong a kind. `wrong` finds its rows again after the rows were numbered. */
export const WRONGS: readonly (readonly [what: string, kind: FlagKind, Tamper])[] = [
  ['18 trees in 9.5 minutes each by the truck, logged as 215 minutes', 'minutes', (rows) => {
    const own = new Set(dayOfCrew(rows, 'Crew 1', MONDAY + 1));
    const kept = rows.filter((r) => !(r.crew === 'Crew 1' && r.day === MONDAY + 1));
    const model = [...own][0]!;
    let clock = 7 * 60;
    const day = Array.from({ length: 18 }, (_, i): LogRow => {
      const stay = i < 17 ? 12 : 11;
      const row = { ...model, tree: `T${i + 1}`, arrived: clock, left: clock + stay, truckMinutes: 9.5 };
      clock += stay + 3 + (i % 3);
      return row;
    });
    return { rows: [...kept, ...day], wrong: (r) => day.some((d) => d.tree === r.tree && d.arrived === r.arrived && d.day === r.day) };
  }],
  ['dead and removed trees watered', 'gone', (rows, next) => {
    const ids = new Set(Array.from({ length: 4 }, () => `T${61 + Math.floor(next() * 50)}`));
    const since = MONDAY - 30;
    const trees = TREES.map((t) => ids.has(t.id) ? { ...t, gone: { word: next() < 0.5 ? 'dead' : 'removed', since } } : t);
    return { rows, trees, wrong: (r) => ids.has(r.tree) && (r.applied ?? 0) > 0 };
  }],
  ['a visit billed twice', 'duplicate', (rows, next) => {
    const picked = Array.from({ length: 3 }, () => dayOfCrew(rows, 'Crew 1', MONDAY)[Math.floor(next() * 9)]!);
    const twice = [...new Set(picked)].map((r) => ({ ...r, arrived: r.arrived! + 240, left: r.left! + 240, approved: 'twice' }));
    return { rows: [...rows, ...twice], wrong: (r) => r.approved === 'twice' };
  }],
  ['two crews at one tree on one day', 'two crews', (rows, next) => {
    const other = dayOfCrew(rows, 'Crew 1', MONDAY + 2).slice(2, 5 + Math.floor(next() * 3)).map((r): LogRow => ({ ...r, crew: 'Crew 2', truck: 'Truck 2', arrived: 900, left: 906, approved: 'both' }));
    other.forEach((r, i) => Object.assign(r, { arrived: 900 + i * 9, left: 906 + i * 9 }));
    return { rows: [...rows, ...other], wrong: (r) => r.approved === 'both' };
  }],
  ['one crew at two places at once', 'two places', (rows, next) => {
    const own = dayOfCrew(rows, 'Crew 2', MONDAY + 3);
    const at = 3 + Math.floor(next() * 4);
    const moved = own[at]!;
    const rest = rows.map((r) => (r === moved ? { ...r, arrived: own[at - 1]!.arrived! + 1, left: own[at - 1]!.left! + 4, approved: 'moved' } : r));
    return { rows: rest, wrong: (r) => r.approved === 'moved' };
  }],
  ['more gallons than the pump gives', 'pump', (rows, next) => {
    const picked = new Set(dayOfCrew(rows, 'Crew 2', MONDAY + 4).slice(1, 4 + Math.floor(next() * 3)));
    return { rows: rows.map((r) => (picked.has(r) ? { ...r, left: r.arrived! + 2, applied: 60 * GAL, approved: 'pump' } : r)), wrong: (r) => r.approved === 'pump' };
  }],
  ['more gallons than the tank can have held', 'tank', (rows) => {
    const day = dayOfCrew(rows, 'Crew 2', MONDAY + 8);
    const picked = new Set(day);
    let clock = 7 * 60;
    const tight = day.map((r, i) => {
      const stay = 11 + (i % 2);
      const row = { ...r, arrived: clock, left: clock + stay, applied: (96 + (i % 5)) * GAL, truckMinutes: stay, approved: 'tank' };
      clock += stay;
      return row;
    });
    return { rows: [...rows.filter((r) => !picked.has(r)), ...tight], wrong: (r) => r.approved === 'tank' };
  }],
  ['a day copied from the week before', 'copied day', (rows) => {
    const day = rows.filter((r) => r.crew === 'Crew 1' && r.day === MONDAY).filter((r) => r.arrived !== undefined);
    const clean = rows.filter((r) => !(r.crew === 'Crew 1' && (r.day === MONDAY || r.day === MONDAY + 7)));
    return { rows: [...clean, ...day, ...day.map((r) => ({ ...r, day: MONDAY + 7, approved: 'copy' }))], wrong: (r) => r.approved === 'copy' };
  }],
  ['a meter that shows the same at every tree', 'too regular', (rows) => {
    const own = new Set(dayOfCrew(rows, 'Crew 2', MONDAY + 7));
    const whole = rows.filter((r) => !(r.crew === 'Crew 2' && r.day === MONDAY + 7) || own.has(r));
    return { rows: whole.map((r) => (own.has(r) ? { ...r, applied: 15 * GAL, approved: 'same' } : r)), wrong: (r) => r.approved === 'same' };
  }],
  ['trees that are not on the list, or not planted yet', 'unknown tree', (rows, next) => {
    const picked = new Set(dayOfCrew(rows, 'Crew 1', MONDAY + 9).slice(0, 2 + Math.floor(next() * 4)));
    return { rows: rows.map((r, i) => (picked.has(r) ? { ...r, tree: `X${i}`, approved: 'who' } : r)), wrong: (r) => r.approved === 'who' };
  }],
]; // prettier-ignore

/** Three logs a wrong, thirty in all. */
export const wrongLogs = (): WrongLog[] =>
  WRONGS.flatMap(([what, kind, tamper], w) =>
    [0, 1, 2].map((turn): WrongLog => {
      const next = sequence(900 + w * 10 + turn);
      const { rows, wrong, trees = TREES } = tamper(honestLog(500 + w * 10 + turn), next);
      const all = numbered(rows);
      return { what, kind, rows: all, trees, wrong: all.filter(wrong).map((r) => r.row) };
    }),
  );
