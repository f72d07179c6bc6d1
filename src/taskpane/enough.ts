/**
 * What would be enough: where days ask for more hours than the crews have, the season is planned with one thing changed at a
 * time, then with several and with fewer trees, and what comes of it is set beside the plan. The room holds the plan
 * meanwhile; nothing is kept until the person says so. No page.
 */
import { Problem } from '../engine/problems.js';
import type { ShortageReport } from '../workers/contract-types.js';
import type { PlanAsk, PlanSummary } from '../workers/plan-room.js';
import type { Session } from './session.js';
import { trialOf, type Trial } from './trial.js';
import { fewerTimes, withoutRows } from './enough-fewer.js';
import { leaveOut } from './left-out.js';
import { besidesCrews, isAtNight, pairsOf, threeOf, worthFewer } from './enough-together.js';
import { MOST_WAYS, underChange, waysInTurn, type Came, type Fewer, type Way } from './enough-ways.js'; // prettier-ignore

/** A way that was planned. */
export interface Tried {
  way: Way;
  plan: PlanSummary;
}

/** What a plan says of days that do not fit. */
export const cameOf = ({ over, means }: PlanSummary): Came => ({
  days: over?.days ?? 0,
  means: JSON.stringify(means.map(({ means: label, trees }) => [label, trees])),
});

/**
 * Those that leave no day over first, the cheapest of them first; then by days, by the longest day, by price. A way that leaves
 * trees out comes after those that serve them all, however cheap it is.
 */
export const better = (a: Tried, b: Tried): number =>
  (a.plan.over?.days ?? 0) - (b.plan.over?.days ?? 0) ||
  Number(a.way.kind === 'fewer') - Number(b.way.kind === 'fewer') ||
  Number(isAtNight(a.way)) - Number(isAtNight(b.way)) ||
  (a.plan.over ? a.plan.over.longest.hours - b.plan.over!.longest.hours : 0) ||
  a.plan.price - b.plan.price;

export class Enough {
  /** ways that were planned, the best first */
  tried: Tried[] = [];
  /** the way that is being planned, how many were before it, and how far its planning is; undefined when none is */
  running: { way: Way; before: number; done: number; total: number } | undefined;
  /** how the last search ended; undefined: there was none on this plan */
  ended: 'done' | 'stopped' | undefined;

  /** why fewer trees were not tried, in a sentence of the planner; "" */
  notFewer = '';

  private base: PlanSummary | undefined;
  /** what the room has planned last */
  private last: Way | undefined;
  private stopper: AbortController | undefined;

  constructor(private readonly session: Session) {
    this.base = session.plan;
    session.listen(() => this.follow());
  }

  /** Ways that are planned at most, for whoever asks how long it may take. */
  readonly most = MOST_WAYS;

  /** Hours at trees a week to choose whom to serve by: those that were found to be enough, else those of the plan [h]. */
  get weekHours(): number | undefined {
    const found = this.tried.find(
      ({ way, plan }) => way.kind === 'fewer' && !way.under && !plan.over,
    )?.way;
    return found?.kind === 'fewer' ? found.weekHours : this.session.plan?.over?.weekHours;
  }

  get isSearching(): boolean {
    return this.stopper !== undefined;
  }

  private get trial(): Trial {
    return trialOf(this.session);
  }

  /** Plans one way after the other; what goes wrong is said. Does nothing while values are tried by hand. */
  async start(): Promise<void> {
    const { session, trial } = this;
    const base = session.plan;
    if (!base?.over || this.isSearching || trial.active) return;
    const stopper = (this.stopper = new AbortController());
    const stands = (): boolean => session.plan === base && this.stopper === stopper;
    trial.lend(true);
    [this.base, this.tried, this.ended, this.notFewer] = [base, [], undefined, ''];
    session.changed();
    try {
      await session.room.hold();
      await this.oneByOne(base, stopper.signal);
      await this.together(base, stopper.signal);
      await this.fewer(base, undefined, stopper.signal);
      const best = worthFewer(this.tried, base);
      if (best) await this.fewer(best.plan, best.way, stopper.signal);
      if (stands()) this.ended = 'done';
    } catch (error) {
      if (stands()) {
        this.ended = 'stopped';
        if (!stopper.signal.aborted) session.sayError(error);
      }
    } finally {
      // a plan made meanwhile is the room's own: going back would undo it
      if (stands()) {
        await session.attempt(async () => void (await session.room.back()));
        if (stands()) this.free();
        session.changed();
      }
    }
  }

  /** Ends the search; what was found stays, and the plan is what it was. */
  stop(): void {
    this.stopper?.abort();
  }

  /** Writes the inputs a way stands for, and marks in the list who is left out, and plans the season with that. */
  async use({ way }: Tried): Promise<void> {
    const { session } = this;
    const { change } = way.kind === 'fewer' ? (way.under ?? {}) : way;
    if (way.kind === 'fewer' && !(await leaveOut(session, way.rows))) return;
    this.leave();
    if (change) {
      const { site, kit } = underChange(session.draft, session.setup, change);
      await session.change({ site, ...(kit && { kit }) });
    }
    await session.makePlan();
  }

  private async oneByOne(base: PlanSummary, signal: AbortSignal): Promise<void> {
    const ways = waysInTurn(base, this.session.setup);
    for (let next = ways.next(); !next.done;) {
      const plan = await this.planned(next.value, signal);
      next = ways.next(cameOf(plan));
    }
  }

  /** Where nothing is enough but more crews, what helps most is tried two at a time, then three. */
  private async together(base: PlanSummary, signal: AbortSignal): Promise<void> {
    const helping = besidesCrews(this.tried, base);
    for (const way of pairsOf(helping)) await this.planned(way, signal);
    if (besidesCrews(this.tried, base).length > 0)
      for (const way of threeOf(helping)) await this.planned(way, signal);
  }

  /**
   * Leaves out the trees that come last in the usual order, fewer and fewer crew hours a week, until the days fit.
   *
   * @param from - the plan whose hours are short, which the room makes again if it has another one
   * @param under - the way it was made with; undefined: the plan as it is
   */
  private async fewer(from: PlanSummary, under: Fewer['under'], signal: AbortSignal): Promise<void> {
    const { room } = this.session;
    // who is left out is asked of that plan, which the room has to have
    if (!under) {
      if (await room.back()) await room.hold();
    } else if (this.last !== under) await this.planned(under, signal, false);
    const ways: Fewer[] = [];
    for (const weekHours of fewerTimes(from)) {
      const report = await this.served(weekHours);
      if (!report || report.served === 0) break;
      const { notServed: trees } = report;
      const rows = report.out.map(({ row }) => row);
      if (trees > 0 && trees !== ways.at(-1)?.trees)
        ways.push({ kind: 'fewer', trees, weekHours, rows, ...(under && { under }) });
    }
    for (const way of ways) if (!(await this.planned(way, signal)).over) return;
  } // prettier-ignore

  /** Who is served with so many hours; undefined where the trees do not say what the order goes by, and then why. */
  private async served(weekHours: number): Promise<ShortageReport | undefined> {
    try {
      return await this.session.room.shortage({
        limit: 'hours',
        amount: weekHours,
        order: 'new first',
      });
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      this.notFewer = error.message;
      return undefined;
    }
  }

  /** What the room is asked for a way. */
  private asked(way: Way): PlanAsk {
    const { session } = this;
    const { draft, setup } = session;
    const change = (way.kind === 'fewer' ? way.under : way)?.change;
    const ask = session.ask(change && underChange(draft, setup, change));
    return way.kind === 'fewer' ? { ...ask, trees: withoutRows(ask.trees, way.rows) } : ask;
  }

  /** @param counts - it is one of the ways tried; else the room only has to have its plan */
  private async planned(way: Way, signal: AbortSignal, counts = true): Promise<PlanSummary> {
    const { session } = this;
    const before = this.tried.length;
    const told = (done: number, total: number): void => {
      if (signal.aborted) return;
      this.running = { way, before, done, total };
      session.changed();
    };
    told(0, session.reading?.usable ?? 0);
    this.last = way;
    const plan = await session.room.plan(this.asked(way), { signal, onProgress: told });
    signal.throwIfAborted();
    if (counts) this.tried = [...this.tried, { way, plan }].sort(better);
    session.changed();
    return plan;
  }

  private free(): void {
    [this.stopper, this.running] = [undefined, undefined];
    this.trial.lend(false);
  }

  /** The room is free without going back to the plan: another one is coming. */
  private leave(): void {
    const { stopper, session } = this;
    if (stopper) {
      this.free();
      stopper.abort();
      void session.attempt(() => session.room.release());
    }
    [this.tried, this.ended, this.notFewer] = [[], undefined, ''];
  }

  /** What was tried on a plan falls with it. */
  private follow(): void {
    if (this.session.plan === this.base) return;
    this.base = this.session.plan;
    this.leave();
  }
}

const searches = new WeakMap<Session, Enough>();

/** The search of a session: one for all steps, so that it goes on while another step is looked at. */
export function enoughOf(session: Session): Enough {
  const known = searches.get(session) ?? new Enough(session);
  searches.set(session, known);
  return known;
}
