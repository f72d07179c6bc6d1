/**
 * What the panel knows: the workbook it sits in, the plan room, the draft, and what was read from both. No page: elements
 * listen and draw. Everything a person sets is kept in the workbook.
 */
import { upperFirst } from '../engine/first-letter.js';
import { Problem } from '../engine/problems.js';
import type { Units } from '../engine/units.js';
import { emptyLog } from '../workbook/empty-log.js';
import type { Cell, Grid } from '../tables/cells.js';
import type { SiteKey } from '../tables/site-inputs.js';
import type { NamedCells } from '../workbook/rules-reading.js';
import type { LivingPapers } from '../workbook/service-papers.js';
import type {
  Draft,
  PlanAsk,
  PlanRoom,
  PlanSummary,
  RulesReport,
  SetupReport,
  SheetReading,
} from '../workers/plan-room.js';
import { draftFrom, draftText, emptyDraft, inUnits } from './draft.js';
import type { ChosenCell, Host } from './host.js';
import type { KeptCopy } from './keeper.js';
import { formats, type Formats, type Language } from './parts/format.js';
import { planBefore, type PlanBefore } from './plan-before.js';
import { correctionsKey, nothingRead, readEverything, type Readings } from './readings.js';
import type { Spoken } from './parts/pieces.js';
import { words, type Words } from './words/index.js';

export const STEPS = ['trees', 'site', 'rules', 'kit', 'build'] as const;
export const CORNERS = ['contract', 'field-check', 'functions', 'repair'] as const;
export type Step = (typeof STEPS)[number];
export type Corner = (typeof CORNERS)[number];
export type Place = Step | Corner;

/** The line that is read aloud: progress, what was done, what went wrong. */
export interface Told {
  sentence: string;
  kind: 'quiet' | 'fine' | 'trouble';
  /** a sentence of the planner, which speaks English; it is shown in the panel's language */
  english: boolean;
}

/** Today on the person's own calendar, yyyy-mm-dd. */
export function today(now = new Date()): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The same text for what is planned the same way. */
const sameAsk = ({ trees, ...rest }: PlanAsk): string =>
  JSON.stringify([trees.cells, [...(trees.dateCells ?? [])], rest]);

export class Session {
  language: Language = 'en';
  place: Place = 'trees';
  part = '';
  draft: Draft = emptyDraft();
  /** what was read last */
  read: Readings = nothingRead();
  plan: PlanSummary | undefined;
  /** the numbers of the plan before, of the same workbook */
  before: PlanBefore | undefined;
  /** how far a planning is; undefined when none is under way */
  planning: { done: number; total: number } | undefined;
  /** that the plan was withdrawn, and for what; "" once there is another, or another workbook */
  outdated = '';
  /** how long the last planning took [ms] */
  plannedIn = 0;
  /** counts how often a workbook was opened here */
  opened = 0;
  /** a log of visits goes with the sheets of the plan */
  wantsLog = false;
  /** formulas of the sheets as the person has switched them, our own or not; undefined: as suggested */
  wantsLive: boolean | undefined;
  /** the person has said to plan without rules that cannot be read */
  leaveOutBroken = false;
  told: Told = { sentence: '', kind: 'quiet', english: false };
  chosen: ChosenCell | undefined;

  private translate: ((english: string) => string | undefined) | undefined;
  private readonly listeners = new Set<() => void>();
  private latest: Promise<void> = Promise.resolve();
  /** counts what a person asked to be read otherwise: a reading begun before that is out of date */
  private asking = 0;
  private plannedFrom = '';
  /** the list as it was planned, and its rows */
  private plannedTrees = { cells: '', rows: 0 };
  private stopper: AbortController | undefined;
  private writing = 0;

  constructor(
    readonly host: Host,
    readonly room: PlanRoom,
    language: Language = 'en',
  ) {
    this.language = language;
    host.onChange(() => void this.refresh());
    host.onChoose((cell) => {
      this.chosen = cell;
      this.changed();
    });
  }

  get words(): Words {
    return words(this.language);
  }
  get formats(): Formats {
    return formats(this.language);
  }
  get sheets(): readonly string[] {
    return this.read.sheets;
  }
  get front(): string {
    return this.read.front;
  }
  get sheet(): string {
    return this.read.sheet;
  }
  get range(): string {
    return this.read.range;
  }
  get trees(): Grid {
    return this.read.trees;
  }
  get ruleSheets(): NamedCells[] {
    return this.read.ruleSheets;
  }
  get reading(): SheetReading | undefined {
    return this.read.reading;
  }
  get setup(): SetupReport | undefined {
    return this.read.setup;
  }
  get rules(): RulesReport | undefined {
    return this.read.rules;
  }
  get troubles(): Readings['troubles'] {
    return this.read.troubles;
  }
  /** sheets of the plan are being written or taken away */
  get isWriting(): boolean {
    return this.writing > 0;
  }
  /** Nobody has opened a workbook of their own yet. */
  get isSample(): boolean {
    return this.host.beginsWithSample === true && this.opened <= 1;
  }
  get canPlan(): boolean {
    return (this.reading?.usable ?? 0) > 0;
  }

  /** Calls back after every change; gives what ends it. */
  listen(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }
  changed(): void {
    for (const listener of this.listeners) listener();
  }

  say(sentence: string, kind: Told['kind'] = 'quiet', english = false): void {
    this.told = { sentence, kind, english };
    this.changed();
  }
  /** Says what went wrong: a Problem's own sentence, or that the program failed. */
  sayError(error: unknown): void {
    this.say(this.sentenceOf(error), 'trouble', error instanceof Problem);
  }
  sentenceOf(error: unknown): string {
    if (error instanceof Problem) return upperFirst(error.message);
    // the name a bundle gives to a file of its own that did not come
    if (error instanceof Error && error.name === 'ChunkLoadError')
      return this.words.panel.notFetched;
    return this.words.panel.program(error instanceof Error ? error.message : String(error));
  }
  /** A sentence of the planner in the panel's language, as far as there is a translation. */
  spoken(sentence: string): Spoken {
    const other = this.language === 'es' ? this.translate?.(sentence) : undefined;
    return other === undefined ? { text: sentence, lang: 'en' } : { text: other };
  }
  /** The planner's sentences in Spanish are loaded when the panel first speaks it. */
  private async learnSpanish(): Promise<void> {
    if (this.language !== 'es' || this.translate) return;
    await this.attempt(async () => {
      this.translate = (await import('./spanish/index.js')).inSpanish;
    });
    this.changed();
  }
  /** Runs something a person asked for; what goes wrong is said. */
  async attempt(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      this.sayError(error);
    }
  }

  /** Reads what the workbook keeps, then its sheets. Again after another workbook was opened. */
  async start(): Promise<void> {
    const kept = (key: string): Promise<string> => this.host.readSetting(key);
    this.forgetPlan();
    this.before = undefined;
    this.outdated = '';
    this.opened++;
    this.leaveOutBroken = false;
    this.wantsLive = undefined;
    this.draft = emptyDraft();
    const language = await kept('language');
    if (language === 'en' || language === 'es') this.language = language;
    await this.learnSpanish();
    this.wantsLog = (await kept('log')) === 'yes';
    const [sheet, range] = [await kept('sheet'), await kept('range')];
    this.readOtherwise({ ...nothingRead(), sheet, range, picked: sheet !== '' });
    this.told = { sentence: '', kind: 'quiet', english: false };
    await this.attempt(async () => {
      this.draft = draftFrom(await kept('draft'));
    });
    await this.refresh();
  }

  /** @param part - of a place that has parts, which it then shows first */
  go(place: Place, part = ''): void {
    this.place = place;
    this.part = part;
    this.told = { sentence: '', kind: 'quiet', english: false };
    this.changed();
  }

  async openFile(name: string, bytes: Uint8Array): Promise<void> {
    if (!this.host.openFile) return;
    this.say(this.words.panel.opening(name));
    // who stays has been told
    if (await this.host.openFile(name, bytes)) await this.start();
  }

  /** Opens the workbook that was kept, in place of the one that is open; gives what it is, where there was one. */
  async openKept(): Promise<KeptCopy | undefined> {
    const kept = this.host.keeper?.offer;
    if (!kept) return undefined;
    this.say(this.words.panel.opening(kept.name));
    if (!(await this.host.keeper?.openAgain())) return undefined;
    await this.start();
    return this.host.keeper?.copy;
  }

  async speak(language: Language): Promise<void> {
    this.language = language;
    this.told = { sentence: '', kind: 'quiet', english: false };
    this.changed();
    await this.learnSpanish();
    await this.host.writeSetting('language', language);
  }

  /** Changes the draft, keeps it in the workbook, and reads everything again under it. */
  async change(part: Partial<Draft>): Promise<void> {
    this.draft = { ...this.draft, ...part };
    this.changed();
    await this.host.writeSetting('draft', draftText(this.draft));
    await this.refresh();
  }
  /** Takes parts out of the draft: what is missing is the example. */
  async drop(...parts: ('weather' | 'kit' | 'rules' | 'stages')[]): Promise<void> {
    this.draft = { ...this.draft };
    for (const part of parts) delete this.draft[part];
    await this.change({});
  }
  /** An input of the site as typed; null is the default again. */
  async setSite(key: SiteKey, value: Cell): Promise<void> {
    const site = { ...this.draft.site };
    if (value === null) delete site[key];
    else site[key] = value;
    await this.change({ site });
  }
  async setUnits(units: Units): Promise<void> {
    await this.change(inUnits(this.draft, units));
  }
  /** What a column means: "canopy", "canopy ft" or "ignore"; kept for every sheet with these headers. */
  async correct(header: string, meaning: string): Promise<void> {
    await this.keepCorrections({ ...this.draft.corrections, [header]: meaning });
  }
  async forgetCorrections(): Promise<void> {
    await this.keepCorrections({});
  }
  private async keepCorrections(corrections: Record<string, string>): Promise<void> {
    this.readOtherwise({ ...this.read, corrections });
    this.draft = { ...this.draft, corrections };
    const none = Object.keys(corrections).length === 0;
    const key = correctionsKey(this.read.headers);
    await this.host.writeSetting(key, none ? '' : JSON.stringify(corrections));
    await this.refresh();
  }
  /** Takes the trees from another sheet, or from a part of it ("A1:H60", "" for all). */
  async useSheet(sheet: string, range = ''): Promise<void> {
    // what was said of the columns of another sheet is nothing said of these
    const other = sheet !== this.sheet && { headers: '', corrections: {} };
    this.readOtherwise({ ...this.read, sheet, range, picked: true, ...other });
    await this.host.writeSetting('sheet', sheet);
    await this.host.writeSetting('range', range);
    await this.refresh();
  }
  /** What the next reading begins with; one that is under way began with something else and brings nothing back. */
  private readOtherwise(read: Readings): void {
    this.read = read;
    this.asking++;
  }
  setLeaveOutBroken(leave: boolean): void {
    this.leaveOutBroken = leave;
    this.withdrawChanged();
    this.changed();
  }

  /** Reads sheets, site and rules again. A later call overtakes an earlier one, which then waits for it. */
  async refresh(): Promise<void> {
    const run = this.readAgain(() => this.latest === run);
    this.latest = run;
    await run;
    while (this.latest !== run) {
      const later = this.latest;
      await later;
      if (later === this.latest) return;
    }
  }

  private async readAgain(isLatest: () => boolean): Promise<void> {
    // what stands when the reading begins, not what others change meanwhile
    await Promise.resolve();
    const { host, room, draft, read, asking } = this;
    const now = await readEverything(host, room, draft, read, today(), (e) => this.sentenceOf(e));
    if (!isLatest() || asking !== this.asking) return;
    this.read = now;
    this.draft = { ...this.draft, corrections: now.corrections };
    this.withdrawChanged();
    this.changed();
  }

  /**
   * Writes sheets of the plan, or takes them away: that changes nothing the plan is made from, although a sheet with its
   * rules may come or go. Nothing half written is kept.
   */
  async whileWriting(work: () => Promise<void>): Promise<void> {
    const { keeper } = this.host;
    await (keeper ? keeper.whole(() => this.writeThrough(work)) : this.writeThrough(work));
  }
  private async writeThrough(work: () => Promise<void>): Promise<void> {
    const madeFrom = (): string =>
      JSON.stringify([this.trees.cells, this.draft, this.leaveOutBroken]);
    const before = madeFrom();
    this.writing++;
    try {
      await work();
    } finally {
      await this.refresh();
      this.writing--;
      if (this.plan && madeFrom() === before) this.plannedFrom = this.fingerprint();
      else this.withdrawChanged();
      this.changed();
    }
  }

  /** A plan stays as long as what it was made from stays; a recalculation that gives the same cells leaves it. */
  private withdrawChanged(): void {
    if (this.writing > 0) return;
    if (!this.plan || this.fingerprint() === this.plannedFrom) return;
    this.withdraw();
  }
  /** The plan is no longer one of what stands here: said now, and under Build until there is another. */
  private withdraw(): void {
    const { build } = this.words;
    const { cells, rows } = this.plannedTrees;
    const isTrees = cells !== JSON.stringify(this.trees.cells);
    this.outdated = isTrees
      ? build.withdrawnTrees(this.formats, rows, this.reading?.rows ?? 0)
      : build.withdrawn;
    this.forgetPlan();
    this.say(this.outdated);
  }
  /** What the plan that has just been made is of. */
  private plannedNow(from: string): void {
    this.plannedFrom = from;
    this.plannedTrees = {
      cells: JSON.stringify(this.trees.cells),
      rows: this.reading?.rows ?? 0,
    };
    this.outdated = '';
  }

  /** What a planning is asked, under the draft or a changed one. */
  ask(draft: Draft = this.draft): PlanAsk {
    const { trees, sheet: source, ruleSheets: sheets } = this;
    return { trees, source, sheets, papers: this.read.papers, draft, today: today() };
  }
  /** Log, meters, clocks and bags as the workbook has them by now, with an empty log where one is wanted. */
  get livingPapers(): LivingPapers {
    const { visits, meters, clocks, bags } = this.read.papers;
    const log = visits ?? (this.wantsLog ? emptyLog(this.draft.units) : undefined);
    return {
      ...(log && { visits: log }),
      ...(meters && { meters }),
      ...(clocks && { clocks }),
      ...(bags && { bags }),
    };
  }
  /** Whether the sheets of the plan are to have a log of visits, with service, meters and clocks. */
  async setWantsLog(wants: boolean): Promise<void> {
    this.wantsLog = wants;
    this.changed();
    await this.host.writeSetting('log', wants ? 'yes' : '');
  }

  setWantsLive(live: boolean): void {
    this.wantsLive = live;
    this.changed();
  }

  /**
   * Plans the season; what goes wrong is said. A second call while one is under way does nothing.
   *
   * @param asRead - everything has just been read, and nobody has changed anything
   */
  async makePlan(asRead = false): Promise<void> {
    if (this.planning) return;
    this.forgetPlan();
    const w = this.words;
    this.stopper = new AbortController();
    if (!asRead) await this.readLatest(this.stopper.signal);
    if (!this.canPlan) return this.say(w.build.nothing, 'trouble');
    const broken = this.rules?.problems.filter((p) => p.broken).length ?? 0;
    if (broken > 0 && !this.leaveOutBroken)
      return this.say(w.rules.mend(this.formats, broken), 'trouble');
    this.planning = { done: 0, total: this.reading?.usable ?? 0 };
    this.say(w.build.planning);
    const from = this.fingerprint();
    this.plannedNow(from);
    const begun = performance.now();
    try {
      this.plan = await this.room.plan(this.ask(), {
        signal: this.stopper.signal,
        onProgress: (done, total) => {
          this.planning = { done, total };
          this.say(w.build.progress(this.formats, done, total));
        },
      });
      this.plannedFrom = from;
      this.plannedIn = performance.now() - begun;
      this.planning = undefined;
      if (this.fingerprint() !== from) return this.withdraw();
      this.sayPlanned(this.plan);
    } catch (error) {
      this.planning = undefined;
      this.sayError(error);
    }
  }
  /**
   * Reads what stands in the workbook as planning is asked for: a cell may have been changed since, of which the program has
   * not told yet, and results of formulas may be on their way.
   */
  private async readLatest(signal: AbortSignal): Promise<void> {
    this.planning = { done: 0, total: this.reading?.usable ?? 0 };
    const waiting = this.host.calculating?.();
    this.say(waiting ? this.words.build.calculating : this.words.build.planning);
    const stopped = new Promise<void>((resolve) =>
      signal.addEventListener('abort', () => resolve(), { once: true }),
    );
    if (waiting) await Promise.race([waiting, stopped]);
    if (!signal.aborted) await this.refresh();
    this.planning = undefined;
  }
  /** That the season is planned, and whether its days fit: a plan that cannot be worked off is nothing to be glad of. */
  sayPlanned({ from, to, over }: PlanSummary): void {
    const { words: w, formats: f } = this;
    const days = [f.day(from), f.day(to)] as const;
    if (over) this.say(w.build.doneOver(f, ...days, over.days), 'trouble');
    else this.say(w.build.done(...days), 'fine');
  }
  /**
   * Takes over the plan the room has made last, where it was asked what would be asked now; else nothing changes.
   *
   * @returns whether it is taken over
   */
  takeOver(plan: PlanSummary, asked: PlanAsk): boolean {
    if (this.planning || sameAsk(asked) !== sameAsk(this.ask())) return false;
    this.forgetPlan();
    this.plan = plan;
    this.plannedNow(this.fingerprint());
    this.changed();
    return true;
  }
  stopPlanning(): void {
    this.stopper?.abort();
  }
  /** All but its numbers, which the next one is compared with. */
  forgetPlan(): void {
    if (this.plan) this.before = planBefore(this.plan);
    this.plan = undefined;
    this.plannedFrom = '';
  }

  /** What a plan is made from. */
  private fingerprint(): string {
    const { trees, ruleSheets, draft, leaveOutBroken } = this;
    const { contract, shortage } = this.read.papers;
    return JSON.stringify([trees.cells, ruleSheets, contract, shortage, draft, leaveOutBroken]);
  }
}
