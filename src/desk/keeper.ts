/**
 * Keeps the open workbook in the browser, a short while after each change, so that a reload, a closed tab or a crash takes
 * nothing away; and knows whether it differs from what was saved last.
 */
import { Problem } from '../engine/problems.js';
import { momentOf } from '../taskpane/built-kept.js';
import type { Keeper, KeepTrouble, KeptCopy } from '../taskpane/keeper.js';
import {
  bookFrom,
  areFewEnough,
  cellPieces,
  filledIn,
  headFrom,
  headOf,
  modelKey,
  modelPieces,
  type KeptBook,
} from './kept-form.js';
import type { KeptSource } from './kept-grid.js';
import type { KeptStore, Writing } from './kept-store.js';

/** Nothing is kept while somebody types on, but not for ever [ms]. */
const QUIET_MS = 1000;
const LONGEST_MS = 6000;
/** Readings that a change overtakes, before one is made without a pause. */
const MOST_OVERTAKEN = 3;

export interface KeeperParts {
  store: KeptStore;
  /** the open workbook; undefined while it is still on its way */
  source: () => KeptSource | undefined;
  /** shows a kept workbook in the grid */
  takeUp: (book: KeptBook, settings: Map<string, string>) => Promise<void>;
  /** lets the page draw and answer */
  pause: () => Promise<void>;
  /** asks whether the open workbook may give way to the one that is kept; left out: it may */
  mayReplace?: (next: string, stake: AtStake) => Promise<boolean>;
  now: () => Date;
}

/** A book as it was opened. */
export interface Opened {
  name: string;
  /** a person's own: it is kept from the start; the sample once it is changed */
  own: boolean;
}

/** Work of a person's own that would be gone if another workbook took the place of this one. */
export interface AtStake {
  /** the open workbook, changed and not saved */
  open?: Opened;
  /** the one that waits to be opened again, where it was never saved as a file */
  kept?: KeptCopy;
}

/** What a change is of. */
export interface Touch {
  /** key of the sheet, "" where it is of none */
  sheet?: string;
  /** a person's work: leaving would lose it */
  work: boolean;
}

/** A reading of the workbook; undefined where a change overtook it. */
type Reading = Omit<Writing, 'head' | 'atOnce'> & { head: Omit<Writing['head'], 'form'> };

/** What the browser's refusal means. @throws the error itself where it is none of the store's */
function troubleOf(error: unknown): KeepTrouble {
  if (!(error instanceof DOMException)) throw error;
  return error.name === 'QuotaExceededError' ? 'full' : 'refused';
}

let stamps = 0;
/** Unlike every other, of this page and others. */
const newStamp = (): string =>
  `${[...crypto.getRandomValues(new Uint32Array(2))].map((n) => n.toString(36)).join('')}-${++stamps}`;

export class DeskKeeper implements Keeper {
  offer: KeptCopy | undefined;
  copy: KeptCopy | undefined;
  trouble: KeepTrouble | undefined;
  keeps = true;
  private offerUnsaved = false;
  private book: Opened = { name: '', own: false };
  /** counts every change, and work alone */
  private changes = 0;
  private work = 0;
  private savedWork = 0;
  private dirty = new Set<string>();
  /** of what this page has written last, with what that holds; "" where all is to be written */
  private stamp = '';
  private written = new Map<string, number>();
  /** cells of each sheet that hold something, when it was read last */
  private filled = new Map<string, number>();
  /** changes that are in what was written last */
  private keptChanges = -1;
  /** the page may be left: no pauses */
  private hurry = false;
  /** works under way of which nothing half done is kept */
  private works = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private waitingSince = 0;
  private turn: Promise<unknown> = Promise.resolve();
  private readonly listeners = new Set<() => void>();

  constructor(private readonly parts: KeeperParts) {}

  listen(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }
  private tell(): void {
    for (const listener of this.listeners) listener();
  }

  /** The open workbook differs from what was saved last, or was changed and never saved. */
  get unsaved(): boolean {
    return this.work > this.savedWork;
  }
  /** @param byFile - a file takes its place, which is then kept in place of the one that waits */
  atStake(byFile: boolean): AtStake {
    return {
      ...(this.unsaved && { open: this.book }),
      ...(byFile && this.offer && this.offerUnsaved && { kept: this.offer }),
    };
  }
  get waits(): boolean {
    return this.offer !== undefined && !this.book.own && this.unsaved;
  }

  /** Looks for a workbook that was kept. Where the browser refuses, there is none. */
  async look(): Promise<void> {
    const head = await this.parts.store.head().then(headFrom, () => undefined);
    if (!head) return;
    this.offer = { name: head.name, at: head.at };
    this.offerUnsaved = head.unsaved;
    this.tell();
  }

  /** Another workbook is open. */
  opened(book: Opened): void {
    this.begin(book);
    if (book.own) this.soon();
    this.tell();
  }
  private begin(book: Opened): void {
    this.book = book;
    this.changes++;
    this.savedWork = this.work;
    this.dirty.clear();
    this.stamp = '';
    this.copy = undefined;
    this.keeps = true;
  }

  /** Something of the open workbook has changed. */
  touched({ sheet, work }: Touch): void {
    const before = this.unsaved;
    this.changes++;
    if (work) this.work++;
    if (sheet) this.dirty.add(sheet);
    this.soon();
    if (before !== this.unsaved) this.tell();
  }

  /** The grid has come: what was changed before is kept now. */
  gridCame(): void {
    if (this.keptChanges !== this.changes) this.soon();
  }

  /** How far the work is now; for `saved`, once it is in a file. */
  get state(): number {
    return this.work;
  }
  saved(state: number): void {
    this.savedWork = Math.max(this.savedWork, state);
    this.changes++;
    this.soon();
  }

  /** Keeps what is not yet kept at once: the page may be left. */
  flush(): void {
    this.hurry = true;
    this.stopTimer();
    void this.inTurn(() => this.keep()).finally(() => (this.hurry = false));
  }

  async whole<T>(work: () => Promise<T>): Promise<T> {
    if (this.works === 0) {
      this.stopTimer();
      void this.inTurn(() => this.keep());
      await this.turn;
    }
    this.works++;
    try {
      return await work();
    } finally {
      this.works--;
      if (this.keptChanges !== this.changes) this.soon();
    }
  }

  async openAgain(): Promise<boolean> {
    const stake = this.atStake(false);
    const { mayReplace } = this.parts;
    if (stake.open && this.offer && mayReplace && !(await mayReplace(this.offer.name, stake)))
      return false;
    await this.inTurn(async () => {
      const kept = await this.parts.store.all().catch(() => undefined);
      const head = headFrom(kept?.head);
      if (!kept || !head)
        throw new Problem(
          'the kept workbook is no longer there; it was forgotten in another window',
        );
      const book = bookFrom(head, kept.parts);
      await this.parts.takeUp(book, new Map(book.settings));
      this.stopTimer();
      this.begin({ name: head.name, own: true });
      if (head.unsaved) this.work++;
      this.copy = { name: head.name, at: head.at };
      this.offer = undefined;
      this.tell();
    });
    return true;
  }

  async forget(): Promise<void> {
    this.stopTimer();
    await this.inTurn(async () => {
      await this.parts.store.clear();
      if (this.copy) this.keeps = false;
      this.stamp = '';
      this.copy = undefined;
      this.offer = undefined;
      // changes that waited for this
      if (this.keeps && this.unsaved) this.soon();
      this.tell();
    });
  }

  keepOn(): void {
    this.keeps = true;
    this.soon();
    this.tell();
  }

  /** One thing at a time. */
  private inTurn(work: () => Promise<void>): Promise<void> {
    const own = this.turn.then(work, work);
    this.turn = own.catch(() => undefined);
    return own;
  }

  private get isWanted(): boolean {
    const { keeps, works, book, offer, copy } = this;
    return keeps && works === 0 && (book.own || (this.unsaved && !offer) || copy !== undefined);
  }

  private soon(): void {
    if (!this.isWanted) return;
    const now = this.parts.now().getTime();
    if (this.timer === undefined) this.waitingSince = now;
    clearTimeout(this.timer);
    const left = Math.max(0, this.waitingSince + LONGEST_MS - now);
    this.timer = setTimeout(
      () => {
        this.timer = undefined;
        void this.inTurn(() => this.keep());
      },
      Math.min(QUIET_MS, left),
    );
  }
  private stopTimer(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
  }

  private async keep(): Promise<void> {
    const source = this.parts.source();
    const isKept = this.stamp !== '' && this.keptChanges === this.changes;
    if (!source || !this.isWanted || isKept) return;
    try {
      for (let tries = 0; ; tries++) {
        const reading = await this.read(source, tries >= MOST_OVERTAKEN);
        if (reading === 'large') return this.fail('large');
        if (reading && (await this.write(reading))) return;
        if (!this.isWanted) return;
      }
    } catch (error) {
      this.fail(troubleOf(error));
    }
  }

  private async write({ head, ...rest }: Reading): Promise<boolean> {
    const { changes } = this;
    const isWritten = await this.parts.store.write({
      head: headOf(head),
      ...rest,
      atOnce: this.hurry,
    });
    // another page has kept its workbook meanwhile: this one is to be written whole
    this.stamp = isWritten ? head.stamp : '';
    if (!isWritten) return false;
    this.keptChanges = changes;
    if (changes === this.changes) this.dirty.clear();
    this.written = new Map(Object.entries(head.pieces));
    this.copy = { name: head.name, at: head.at };
    this.offer = undefined;
    this.trouble = undefined;
    this.tell();
    return true;
  }

  private fail(trouble: KeepTrouble): void {
    this.stamp = '';
    this.trouble = trouble;
    this.tell();
  }

  /**
   * The workbook as texts of one moment; undefined where a change came between.
   *
   * @param atOnce - without letting the page draw meanwhile
   */
  private async read(source: KeptSource, atOnce: boolean): Promise<Reading | 'large' | undefined> {
    const { changes, stamp, unsaved } = this;
    const frame = source.frame();
    const isWhole = stamp === '';
    const keys = frame.sheets.map(({ key }) => key);
    const texts = new Map<string, string[]>();
    const take = async (key: string, pieces: Iterable<string>): Promise<boolean> => {
      const own: string[] = [];
      texts.set(key, own);
      for (const piece of pieces) {
        own.push(piece);
        if (!atOnce && !this.hurry) await this.parts.pause();
        if (changes !== this.changes) return false;
      }
      return true;
    };
    const changed = keys.filter((key) => isWhole || this.dirty.has(key) || !this.written.has(key));
    for (const key of changed) this.filled.set(key, filledIn(source.cells(key)));
    for (const key of this.filled.keys()) if (!keys.includes(key)) this.filled.delete(key);
    if (!areFewEnough(keys.map((key) => this.filled.get(key) ?? 0))) return 'large';
    for (const key of changed)
      if (!(await take(key, cellPieces(source.cells(key))))) return undefined;
    for (const [id, model] of source.models())
      if (isWhole || !this.written.has(modelKey(id)))
        if (!(await take(modelKey(id), modelPieces(model)))) return undefined;
    const there = new Set([...keys, ...[...source.models().keys()].map(modelKey)]);
    const gone = isWhole ? [] : [...this.written.keys()].filter((key) => !there.has(key));
    for (const key of gone) texts.set(key, []);
    const pieces = [...there].map((key) => [key, texts.get(key)?.length ?? this.written.get(key)]);
    const { name } = this.book;
    const at = momentOf(this.parts.now());
    return {
      head: { stamp: newStamp(), name, at, unsaved, frame, pieces: Object.fromEntries(pieces) },
      texts,
      after: isWhole ? undefined : stamp,
    };
  }
}
