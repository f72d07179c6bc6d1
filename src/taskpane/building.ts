/** Writing the plan's sheets into the open workbook, again in the place of older ones, and taking them away. No page. */
import { isBlank, type Cell } from '../tables/cells.js';
import type { WorkbookModel } from '../workbook/model.js';
import { papersFromSheets } from '../workbook/papers-sheets.js';
import type { LivingPapers } from '../workbook/service-papers.js';
import { builtOf, type BuiltSet } from './built.js';
import type { Receipt, WriteOptions } from './host.js';
import { madeFrom } from './made-from.js';
import type { Session } from './session.js';
import { enoughWords } from './words/enough.js';
import { buildWords } from './words/build.js';

/** Rows above which our own functions make a workbook slow; assumption. */
export const LIVE_ROWS = 1000;

export interface Writing {
  done: number;
  total: number;
  says: string;
}

/** Sheets that are filled while the season runs, by the names the plan gives them. */
const LIVING_SHEETS: ReadonlySet<string> = new Set(['Log', 'Meters', 'Clocks']);
/** Tables of them whose rows a person types, by paper; a row without its first cell is none. */
const TYPED = [
  ['visits', 'VisitLog', 'Log'],
  ['meters', 'Meters', 'Meters'],
  ['bags', 'BagRegister', 'Clocks'],
] as const;

const isRow = ([first]: readonly (Cell | undefined)[]): boolean => !isBlank(first ?? null);
/** Rows of a table with its header. */
const rowsIn = (table: Cell[][] | undefined): number => (table ?? []).slice(1).filter(isRow).length;

/** Rows a model has of a table. */
function rowsOf(model: WorkbookModel, table: string): number {
  const blocks = model.sheets.flatMap((sheet) => sheet.blocks);
  const found = blocks.find((block) => block.kind === 'table' && block.name === table);
  if (found?.kind !== 'table') return 0;
  return found.rows.filter(([first = null]) =>
    isRow([first !== null && typeof first === 'object' ? (first.value ?? null) : first]),
  ).length;
}

export class Building {
  /** how far the writing is; undefined when none is under way */
  writing: Writing | undefined;
  /** what the program did not take of the last build */
  notes: readonly string[] = [];
  private stopper: AbortController | undefined;

  constructor(private readonly session: Session) {}

  private get b() {
    return buildWords(this.session.language).sheets;
  }

  cancel(): void {
    this.stopper?.abort();
  }

  /** Writes the sheets of the plan behind those that are open. @returns whether they are there */
  build(live: boolean): Promise<boolean> {
    const { session, b } = this;
    return this.write(live, undefined, async (options) => {
      const model = await session.room.model(session.livingPapers);
      this.goOn();
      const receipt = await session.host.writeModel(model, options);
      return { receipt, model, says: b.done };
    });
  }

  /**
   * Writes the sheets of the plan as it stands in the place of older ones, which stay until the new ones are in. Visits,
   * meters, clocks and bags typed into the old ones go into the new ones.
   */
  async again(set: BuiltSet): Promise<void> {
    const { session, b, f } = this;
    if (this.writing) return;
    if (!session.plan) await session.makePlan();
    if (!session.plan) return;
    const live = set.from ? set.live : session.plan.picks.length <= LIVE_ROWS;
    await this.write(live, set, async (options) => {
      const typed = await this.typedInto(set);
      const model = await session.room.model({ ...session.livingPapers, ...typed });
      this.goOn();
      for (const [paper, table, sheet] of TYPED) {
        const lost = rowsIn(typed[paper]) - rowsOf(model, table);
        if (lost > 0) throw new Unread(b.wouldBeLost(f, lost, nameOf(set, sheet)));
      }
      const receipt = await session.host.replaceSheets(set, model, options);
      return { receipt, model, says: b.doneAgain };
    });
  }

  /** Takes away the sheets of a set. */
  async takeAway(set: BuiltSet): Promise<void> {
    const { session, b, f } = this;
    if (this.writing) return;
    session.say(b.undoing);
    await session.attempt(async () => {
      await this.carrying(() => builtOf(session).takeAway(set));
      this.notes = [];
      session.say(b.undone(f, set.sheets.length), 'fine');
    });
  }

  /** Visits typed into the sheets of a set, and on which sheet. */
  async visitsOn(set: BuiltSet): Promise<{ visits: number; sheet: string }> {
    const { visits } = await this.typedInto(set);
    return { visits: rowsIn(visits), sheet: nameOf(set, 'Log') };
  }

  private get f() {
    return this.session.formats;
  }

  private async typedInto({ sheets }: BuiltSet): Promise<LivingPapers> {
    const living = sheets.filter(({ of }) => LIVING_SHEETS.has(of));
    const read = living.map(async ({ name, of }) => ({
      name: of,
      cells: (await this.session.host.readTable(name)).cells,
    }));
    return papersFromSheets(await Promise.all(read));
  }

  private goOn(): void {
    if (this.stopper?.signal.aborted) throw new Unread(this.b.cancelled);
  }

  /** Writes or takes away sheets; older sets are as old afterwards as they were before. Nothing half done is kept. */
  private async carrying(work: () => Promise<void>): Promise<void> {
    const { keeper } = this.session.host;
    await (keeper ? keeper.whole(() => this.carryOver(work)) : this.carryOver(work));
  }
  private async carryOver(work: () => Promise<void>): Promise<void> {
    const { session } = this;
    const before = madeFrom(session);
    try {
      await session.whileWriting(work);
      await builtOf(session).carry(before, madeFrom(session));
    } finally {
      await builtOf(session).load();
    }
  }

  private async write(
    live: boolean,
    place: BuiltSet | undefined,
    work: (options: WriteOptions) => Promise<Written>,
  ): Promise<boolean> {
    const { session, b, f } = this;
    if (this.writing) return false;
    const stopper = (this.stopper = new AbortController());
    const progress = (done: number, total: number, says: string): void => {
      this.writing = { done, total, says };
      session.say(says);
    };
    this.notes = [];
    progress(0, 1, b.preparing);
    try {
      // what was typed a moment ago counts; if the plan rests on it, the plan is withdrawn and that is said
      await session.refresh();
      if (!session.plan) return false;
      const from = madeFrom(session);
      let done = '';
      await this.carrying(async () => {
        const { receipt, model, says } = await work({
          live,
          signal: stopper.signal,
          onProgress: (done, total, sheet) => {
            const line = b.writing(f, Math.min(done + 1, total), total, sheet);
            progress(done, total, done + 1 < total ? line : b.last(line));
          },
        });
        await builtOf(session).add(receipt, model, { live, from }, place);
        this.notes = receipt.notes ?? [];
        done = says(f, receipt.sheets.length, receipt.sheets[0]?.name ?? '');
        await this.keepSource();
      });
      // a plan that was withdrawn meanwhile has said so
      const over = session.plan?.over;
      if (over)
        session.say(`${done} ${enoughWords(session.language).built(f, over.days)}`, 'trouble');
      else if (session.plan) session.say(done, 'fine');
      return true;
    } catch (error) {
      if (stopper.signal.aborted) session.say(b.cancelled);
      else if (error instanceof Unread) session.say(error.message, 'trouble');
      else session.sayError(error);
      return false;
    } finally {
      this.writing = undefined;
      session.changed();
    }
  }

  /** Our own sheets hold trees, too: opened again, the trees are still read where they were read. */
  private async keepSource(): Promise<void> {
    const { host, sheet, range } = this.session;
    await host.writeSetting('sheet', sheet);
    await host.writeSetting('range', range);
  }
}

interface Written {
  receipt: Receipt;
  model: WorkbookModel;
  says: (f: Session['formats'], sheets: number, first: string) => string;
}

/** A sentence in the panel's language that ends the writing before anything is written. */
class Unread extends Error {}

const nameOf = ({ sheets }: BuiltSet, of: string): string =>
  sheets.find((sheet) => sheet.of === of)?.name ?? of;

const known = new WeakMap<Session, Building>();

/** The writing of a session, whichever step one is in. */
export function buildingOf(session: Session): Building {
  const building = known.get(session) ?? new Building(session);
  known.set(session, building);
  return building;
}
