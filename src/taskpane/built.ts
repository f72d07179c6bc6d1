/**
 * Sheets this panel has written into the workbook, a set for each build: kept in the workbook with what they were made
 * from, so that they can be taken away or built again later, and old ones be told from those of the plan as it stands.
 */
import { text, type Cell } from '../tables/cells.js';
import type { WorkbookModel } from '../workbook/model.js';
import { momentOf, setsFrom, titleOf, type BuiltSet, type BuiltSheet } from './built-kept.js';
import type { Receipt } from './host.js';
import { changesSince, madeFrom, type Change, type MadeFrom } from './made-from.js';
import type { Session } from './session.js';

export type { BuiltSet } from './built-kept.js';

const KEY = 'built';
/** Sets that are remembered; older ones stay in the workbook as a person's own sheets. */
const MOST_SETS = 12;

/** Which of the program's sheets are meant. */
type Keys = readonly { key: string; name: string }[];

/** A table is as wide as its widest row: the first cell with anything in it is the title. */
const titleIn = (cells: readonly (readonly Cell[])[]): string =>
  text((cells[0] ?? []).find((cell) => text(cell) !== '') ?? null);

export class Built {
  /** of sets whose sheets are still there, those sheets; oldest first */
  sets: BuiltSet[] = [];
  /** everything that is kept, also what a person has deleted: deleting can be undone */
  private all: BuiltSet[] = [];
  /** what this page has kept in the workbook last; another text is another workbook's */
  private kept = '';
  private opened = -1;
  private turn: Promise<unknown> = Promise.resolve();
  private seen: Session['read'] | undefined;

  constructor(private readonly session: Session) {
    session.listen(() => this.follow());
    this.follow();
  }

  /** Reads what the workbook keeps, and which of the sheets are there, under which names. */
  load(): Promise<void> {
    return this.inTurn(async () => {
      // sheets that are being written stand under names they will not keep
      if (this.session.isWriting) return;
      const { host, opened } = this.session;
      const text = await host.readSetting(KEY);
      const other = text !== this.kept || opened !== this.opened;
      const before = JSON.stringify([this.sets, this.all]);
      if (other) [this.all, this.kept, this.opened] = [setsFrom(text), text, opened];
      const there = this.all.length > 0 ? await host.sheetKeys() : [];
      // the desk gives sheets of a file keys of its own
      if (other && host.kind === 'desk') this.all = await this.foundAgain(there);
      this.look(there);
      if (JSON.stringify([this.sets, this.all]) === before) return;
      if (this.text() !== this.kept) await this.keep();
      this.session.changed();
    });
  }

  /** Whether a set is of the plan as it stands: what has changed since, nothing, or undefined where that cannot be told. */
  changes({ from }: BuiltSet): Change[] | undefined {
    const now = madeFrom(this.session);
    return from && now && changesSince(from, now);
  }

  /** Sets that are not of the plan as it stands. */
  get outdated(): BuiltSet[] {
    return this.sets.filter((set) => (this.changes(set)?.length ?? 0) > 0);
  }

  /**
   * Remembers what was written.
   *
   * @param from - what the plan was made from
   * @param place - the set whose place it takes
   */
  add(
    { sheets, names }: Receipt,
    model: WorkbookModel,
    how: { live: boolean; from: MadeFrom | undefined },
    place?: BuiltSet,
  ): Promise<void> {
    const set: BuiltSet = {
      sheets: sheets.map(({ key, name }, i): BuiltSheet => {
        const sheet = model.sheets[i];
        return { key, name, of: sheet?.name ?? '', title: sheet ? titleOf(sheet) : '' };
      }),
      names,
      made: momentOf(new Date()),
      ...how,
    };
    return this.inTurn(async () => {
      const at = place ? this.indexOf(place) : -1;
      const all = [...this.all];
      if (at >= 0) all.splice(at, 1, set);
      else all.push(set);
      await this.use(all.slice(-MOST_SETS));
    });
  }

  /** Takes away the sheets of a set. */
  async takeAway(set: BuiltSet): Promise<void> {
    await this.session.host.removeSheets(set);
    await this.inTurn(async () => {
      const at = this.indexOf(set);
      await this.use(this.all.filter((_, i) => i !== at));
    });
  }

  /**
   * Writing sheets, or taking them away, may bring or take a sheet with rules or a contract on it, which changes no plan:
   * sets made from what was before are as if made from what is now.
   */
  carry(before: MadeFrom | undefined, now: MadeFrom | undefined): Promise<void> {
    return this.inTurn(async () => {
      if (!before || !now) return;
      const carried = this.all.map((set): BuiltSet => {
        const { from } = set;
        if (!from) return set;
        const part = (name: 'rules' | 'contract'): string =>
          from[name] === before[name] ? now[name] : from[name];
        return { ...set, from: { ...from, rules: part('rules'), contract: part('contract') } };
      });
      if (JSON.stringify(carried) !== JSON.stringify(this.all)) await this.use(carried);
    });
  }

  /** One thing at a time: what is read must not overtake what is kept. */
  private inTurn(work: () => Promise<void>): Promise<void> {
    const own = this.turn.then(work, work);
    this.turn = own.catch(() => undefined);
    return own;
  }

  private async use(all: BuiltSet[]): Promise<void> {
    this.all = all;
    this.look(all.length > 0 ? await this.session.host.sheetKeys() : []);
    await this.keep();
    this.session.changed();
  }

  /** Sheets keep their keys while a workbook is open, whatever a person calls them. */
  private look(there: Keys): void {
    const names = new Map(there.map(({ key, name }) => [key, name]));
    const called = (sheet: BuiltSheet): BuiltSheet => ({
      ...sheet,
      name: names.get(sheet.key) ?? sheet.name,
    });
    this.all = this.all.map((set) => ({ ...set, sheets: set.sheets.map(called) }));
    this.sets = this.all
      .map((set) => ({ ...set, sheets: set.sheets.filter(({ key }) => names.has(key)) }))
      .filter(({ sheets }) => sheets.length > 0);
  }

  /** Sheets of a file that was saved here, by name and by what stands first on them: a name alone may be somebody else's. */
  private async foundAgain(there: Keys): Promise<BuiltSet[]> {
    const keys = new Map(there.map(({ key, name }) => [name, key]));
    // a workbook the desk has kept has the sheets with their keys, and the names
    const stands = ({ sheets }: BuiltSet): boolean =>
      sheets.every(({ key, name }) => keys.get(name) === key);
    const again = async (sheet: BuiltSheet): Promise<BuiltSheet[]> => {
      const key = keys.get(sheet.name);
      if (key === undefined || sheet.title === '') return [];
      const { cells } = await this.session.host.readTable(sheet.name);
      return titleIn(cells) === sheet.title ? [{ ...sheet, key }] : [];
    };
    const sets = await Promise.all(
      this.all.map(async (set): Promise<BuiltSet> => {
        if (stands(set)) return set;
        const sheets = (await Promise.all(set.sheets.map(again))).flat();
        // names of a file are not defined in the desk
        return { ...set, sheets, names: [] };
      }),
    );
    return sets.filter(({ sheets }) => sheets.length > 0);
  }

  private indexOf({ sheets }: BuiltSet): number {
    const keys = new Set(sheets.map(({ key }) => key));
    return this.all.findIndex((set) => set.sheets.some(({ key }) => keys.has(key)));
  }

  private text(): string {
    return this.all.length === 0 ? '' : JSON.stringify(this.all);
  }
  private async keep(): Promise<void> {
    this.kept = this.text();
    await this.session.host.writeSetting(KEY, this.kept);
  }

  /** Looks again after every reading, and says it when sheets have become those of an earlier plan. */
  private follow(): void {
    const { session, seen } = this;
    const { read } = session;
    if (read !== seen) {
      this.seen = read;
      if (read.sheets.length > 0) void session.attempt(() => this.load());
    }
    const { sheetsOld } = session.words.build;
    const withdrawn = session.outdated;
    if (withdrawn !== '' && session.told.sentence === withdrawn && this.outdated.length > 0)
      session.say(`${withdrawn} ${sheetsOld}`);
  }
}

const known = new WeakMap<Session, Built>();

/** What was written in a session, whichever step one is in. */
export function builtOf(session: Session): Built {
  const built = known.get(session) ?? new Built(session);
  known.set(session, built);
  return built;
}
