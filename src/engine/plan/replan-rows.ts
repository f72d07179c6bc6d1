/**
 * What happened since the season was planned, matched to its trees. A row that cannot be used is said in a sentence
 * with its number; none is dropped without one.
 */
import { isoDate, type Day } from '../dates.js';
import { bagVerdict } from '../means/bag-check.js';
import { Problem } from '../problems.js';
import type { Device, Family, SeasonPlan, TreePlan } from './model.js';

/** Names a tree: by id, by its row in the inventory where ids are missing or repeated, or by both. */
export interface TreeName {
  /** row of this table, for sentences about it */
  row: number;
  tree: string;
  treeRow?: number | undefined;
}

/** A watering or a soaking that was really done. */
export interface GivenRow extends TreeName {
  day: Day;
  /** for one tree [L] */
  litres: number;
  /** left out: the one planned */
  device?: string | undefined;
}

export interface RainRow {
  row: number;
  day: Day;
  mm: number;
}

/** A timed drain of a bag. */
export interface BagTiming extends TreeName {
  hours: number;
  /** share of a full bag at the start and at the end of it [-]; default 1 and 0 */
  before?: number | undefined;
  left?: number | undefined;
}

/** A pad weighed: usable water in it, in the morning of the day [L]. */
export interface PadReading extends TreeName {
  litres: number;
  /** default: today */
  day?: Day | undefined;
}

/** A measured flow of a hose, a nozzle or a pump [L/min]; of one tree, or of all trees that have the device. */
export interface FlowReading {
  row: number;
  tree?: string | undefined;
  treeRow?: number | undefined;
  device: string;
  flow: number;
}

/** Water a tree was really given on a day. */
export interface Given {
  litres: number;
  /** what it came through, as the kit has it */
  device: Device;
}

/** News of one tree; days are days of the season. */
export interface TreeNews {
  given: Map<number, Given>;
  soaked: Map<number, Given>;
  padLevels: Map<number, number>;
  /** devices as measured from today on, by name */
  measured: Map<string, Partial<Device>>;
}

export interface Tables {
  given: readonly GivenRow[];
  bags?: readonly BagTiming[] | undefined;
  pads?: readonly PadReading[] | undefined;
  flows?: readonly FlowReading[] | undefined;
}

export interface Matched {
  /** for each tree of the plan */
  trees: TreeNews[];
  /** flows that hold for a device wherever it is, by name */
  measured: Map<string, Partial<Device>>;
  problems: string[];
  /** verdicts on bags */
  notes: string[];
}

/** @param today - index of the day from which on nothing has happened yet */
export function matchRows(
  plan: SeasonPlan,
  kit: readonly Device[],
  tables: Tables,
  today: number,
): Matched {
  const matcher = new Matcher(plan, kit, today);
  matcher.take('Waterings', tables.given, (row) => {
    matcher.given(row);
  });
  matcher.take('Bag timings', tables.bags ?? [], (row) => {
    matcher.bag(row);
  });
  matcher.take('Pad weights', tables.pads ?? [], (row) => {
    matcher.pad(row);
  });
  matcher.take('Flows', tables.flows ?? [], (row) => {
    matcher.flow(row);
  });
  return matcher;
}

const refuse = (why: string): never => {
  throw new Problem(why);
};

class Matcher implements Matched {
  readonly trees: TreeNews[];
  readonly measured = new Map<string, Partial<Device>>();
  readonly problems: string[] = [];
  readonly notes: string[] = [];
  private readonly known = new Map<string, number>();
  private readonly byId = new Map<string, number[]>();
  private readonly byRow = new Map<number, number[]>();
  private readonly from: Day;
  private where = '';

  constructor(
    private readonly plan: SeasonPlan,
    private readonly kit: readonly Device[],
    private readonly today: number,
  ) {
    this.from = plan.site.seasonFrom;
    this.trees = plan.trees.map(() => ({ given: new Map(), soaked: new Map(), padLevels: new Map(), measured: new Map() })); // prettier-ignore
    plan.trees.forEach(({ tree }, t) => {
      put(this.byId, named(tree.id), t);
      put(this.byRow, tree.row, t);
    });
  }

  take<R extends { row: number }>(table: string, rows: readonly R[], use: (row: R) => void): void {
    this.known.clear();
    for (const row of rows) {
      this.where = `${table}, row ${row.row}`;
      try {
        use(row);
      } catch (error) {
        if (!(error instanceof Problem)) throw error;
        this.problems.push(`${this.where}: ${error.message}. The row is not used.`);
      }
    }
  }

  given(row: GivenRow): void {
    const those = this.treesOf(row);
    const day = this.pastDay(row.day);
    if (!(row.litres > 0 && row.litres < Infinity))
      refuse(`${row.litres} L is no amount of water; a number above 0 is accepted`);
    for (const t of those) this.checkStanding(t, day);
    const uses = those.map((t) => this.deviceUsed(this.plan.trees[t]!, row.device));
    this.once(`${those[0]}|${day}|${uses[0]!.family === 'pad'}`, row.row, `this tree has a watering on ${isoDate(row.day)}`); // prettier-ignore
    those.forEach((t, k) => {
      const news = this.trees[t]!;
      const device = uses[k]!;
      (device.family === 'pad' ? news.soaked : news.given).set(day, { litres: row.litres, device });
    });
  }

  bag(row: BagTiming): void {
    const those = this.treesOf(row);
    const { before = 1, left = 0 } = row;
    if (!(before > left && before <= 1 && left >= 0))
      refuse(`the bag went from ${before} to ${left} of its water; it must fall, between 1 and 0`);
    const devices = those.map((t) => this.ownDevice(t, 'bag'));
    const { holes, ratedHours, name } = devices[0]!;
    if (!holes || !ratedHours)
      refuse(`the kit gives no holes or no rated hours for ${name}: nothing to compare with`);
    this.once(`${those[0]}`, row.row, 'this tree has a timing');
    const full = row.hours / (Math.sqrt(before) - Math.sqrt(left));
    const { verdict, reason } = bagVerdict(holes!, ratedHours!, full);
    this.notes.push(`${this.where}: ${row.tree}: ${verdict === 'replace' ? 'replace the bag' : verdict === 'flush' ? 'flush the bag' : 'the bag is sound'}: ${reason}.`); // prettier-ignore
    // a bag that must be replaced is a new one from today on
    if (verdict !== 'replace')
      for (const t of those) this.trees[t]!.measured.set(name, { ratedHours: full });
  }

  pad(row: PadReading): void {
    const those = this.treesOf(row);
    const day = row.day === undefined ? this.today : this.seasonDay(row.day);
    if (day > this.today) refuse(`${isoDate(this.from + day)} is still to come`);
    const { volume = 0 } = this.ownDevice(those[0]!, 'pad');
    if (!(row.litres >= 0 && row.litres <= volume))
      refuse(`${row.litres} L in the pad; it holds from 0 to ${Number(volume.toFixed(2))} L`);
    for (const t of those) this.checkStanding(t, day);
    this.once(`${those[0]}|${day}`, row.row, 'this pad has a weight of that day');
    for (const t of those) this.trees[t]!.padLevels.set(day, row.litres);
  }

  flow(row: FlowReading): void {
    const device = this.fromKit(row.device);
    const measured = flowOfDevice(device, row.flow);
    const { tree = '', treeRow } = row;
    const everywhere = tree === '' && treeRow === undefined;
    const those = everywhere ? [] : this.treesOf({ row: row.row, tree, treeRow });
    for (const t of those)
      if (!this.plan.trees[t]!.chosen.devices.includes(device.name))
        refuse(`tree ${this.plan.trees[t]!.tree.id} is not watered with ${device.name}`);
    this.once(`${those[0] ?? 'all'}|${device.name}`, row.row, `${device.name} has a flow there`);
    if (everywhere) this.measured.set(device.name, measured);
    for (const t of those) this.trees[t]!.measured.set(device.name, measured);
  }

  /** Trees of the plan a row names; like ones of a row that was split share its news. */
  private treesOf({ tree, treeRow }: TreeName): number[] {
    const id = named(tree);
    if (treeRow !== undefined) {
      const those =
        this.byRow.get(treeRow) ?? this.unknown(`row ${treeRow}`, (n) => n.row === treeRow);
      const held = this.plan.trees[those[0]!]!.tree.id;
      if (id !== '' && named(held) !== id) refuse(`row ${treeRow} holds tree ${held}, not ${tree}`);
      return those;
    }
    const those =
      this.byId.get(id) ??
      this.unknown(tree === '' ? 'a blank name' : tree, (n) => named(n.id) === id);
    const rows = [...new Set(those.map((t) => this.plan.trees[t]!.tree.row))];
    if (rows.length > 1) refuse(`tree ${tree} stands in rows ${rows.join(' and ')}; give the row`);
    return those;
  }

  private unknown(what: string, isIt: (row: SeasonPlan['notPlanned'][number]) => boolean): never {
    const left = this.plan.notPlanned.find(isIt);
    return refuse(
      left ? `tree ${what} is not planned: ${left.reason}` : `there is no tree ${what}`,
    );
  }

  private seasonDay(day: Day): number {
    const { seasonFrom, seasonTo } = this.plan.site;
    if (!Number.isInteger(day)) return refuse(`${day} is no date`);
    if (day < seasonFrom || day > seasonTo)
      return refuse(
        `${isoDate(day)} is outside the season, ${isoDate(seasonFrom)} to ${isoDate(seasonTo)}`,
      );
    return day - seasonFrom;
  }

  private pastDay(day: Day): number {
    const i = this.seasonDay(day);
    return i < this.today
      ? i
      : refuse(`${isoDate(day)} is not before today, ${isoDate(this.from + this.today)}`);
  }

  private checkStanding(t: number, day: number): void {
    const { planted } = this.plan.trees[t]!.tree;
    if (planted !== undefined && this.from + day < planted)
      refuse(`the tree is planted on ${isoDate(planted)}, after ${isoDate(this.from + day)}`);
  }

  private deviceUsed({ chosen, tree }: TreePlan, name: string | undefined): Device {
    const device =
      name === undefined || named(name) === ''
        ? this.fromKit(chosen.devices[0]!)
        : this.fromKit(name);
    if (device.family === 'pad' && !chosen.devices.includes(device.name))
      refuse(`tree ${tree.id} has no ${device.name} in its plan to be soaked`);
    return device;
  }

  private ownDevice(t: number, family: Family): Device {
    const { chosen, tree } = this.plan.trees[t]!;
    const device = this.kit.find((d) => d.family === family && chosen.devices.includes(d.name));
    return (
      device ?? refuse(`tree ${tree.id} is planned with ${chosen.label}, which has no ${family}`)
    );
  }

  private fromKit(name: string): Device {
    const device = this.kit.find((d) => named(d.name) === named(name));
    return (
      device ??
      refuse(`${name} is not in the kit; there are ${this.kit.map((d) => d.name).join(', ')}`)
    );
  }

  private once(key: string, row: number, already: string): void {
    const first = this.known.get(key);
    if (first !== undefined) refuse(`${already} already, in row ${first}`);
    this.known.set(key, row);
  }
}

const named = (text: string): string => text.trim().toLowerCase();

function put<K>(map: Map<K, number[]>, key: K, value: number): void {
  const known = map.get(key);
  if (known) known.push(value);
  else map.set(key, [value]);
}

function flowOfDevice(device: Device, flow: number): Partial<Device> {
  if (!(flow > 0 && flow < Infinity))
    refuse(`${flow} L/min is no flow; a number above 0 is accepted`);
  if (device.family === 'hand' || device.family === 'tanker') return { flow };
  if (device.family !== 'soaker')
    return refuse(`${device.name} has no flow to be measured; time a bag, weigh a pad`);
  if (!device.length) return refuse(`the kit gives no length for ${device.name}`);
  return { rate: (flow * 60) / device.length };
}

/** Rain by day of the season, and a sentence for every row that is not used. */
export function matchRain(
  plan: SeasonPlan,
  rows: readonly RainRow[],
  today: number,
): { rain: Map<number, number>; problems: string[] } {
  const rain = new Map<number, number>();
  const problems: string[] = [];
  const { seasonFrom } = plan.site;
  for (const { row, day, mm } of rows) {
    const i = day - seasonFrom;
    const why = !Number.isInteger(day)
      ? `${day} is no date`
      : i < 0 || i >= today
        ? `${isoDate(day)} is not between the season's first day and today`
        : !(mm >= 0 && mm <= 2000)
          ? `${mm} mm is no rain of a day; a number from 0 to 2000 is accepted`
          : rain.has(i)
            ? `${isoDate(day)} has rain already`
            : '';
    if (why === '') rain.set(i, mm);
    else problems.push(`Rain, row ${row}: ${why}. The row is not used.`);
  }
  return { rain, problems };
}
