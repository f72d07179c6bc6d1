/**
 * Other values of the site, tried beside those that are kept: the season is planned again while they change, the last
 * change wins, and nothing is written until the person says so. The room holds the kept plan meanwhile. No page.
 */
import { text, type Cell } from '../tables/cells.js';
import { hourOf, hourText } from '../tables/hours.js';
import type { SiteKey } from '../tables/site-inputs.js';
import type { Draft, PlanAsk, PlanSummary, SetupReport } from '../workers/plan-room.js';
import type { Session } from './session.js';

/** A value that is moved comes to rest before it is planned with [ms]. */
const SETTLE_MS = 120;

export type TrialKey = SiteKey | 'share';

const SHARE = /share|reliability/i;

/** The share of rain of a table of months, where all its rows give the same one. */
export function shareOf(draft: Draft): number | undefined {
  const [header = [], ...rows] = draft.weather ?? [];
  const at = header.findIndex((cell) => SHARE.test(text(cell)));
  const shares = new Set(rows.map((row) => row[at]));
  const [only] = shares;
  return at >= 0 && shares.size === 1 && typeof only === 'number' ? only : undefined;
}

/** The table of months in use with one share of rain in all of them; undefined where the weather is no such table. */
export function withShare(draft: Draft, setup: SetupReport, share: number): Cell[][] | undefined {
  const { kind, months } = setup.weather;
  if (kind === 'monthly' && draft.weather) {
    const [header = [], ...rows] = draft.weather;
    const found = header.findIndex((cell) => SHARE.test(text(cell)));
    const at = found < 0 ? header.length : found;
    const put = (row: readonly Cell[], cell: Cell): Cell[] =>
      Array.from({ length: Math.max(row.length, at + 1) }, (_, i) =>
        i === at ? cell : (row[i] ?? null),
      );
    return [put(header, header[at] ?? 'Share of rain to count on'), ...rows.map((row) => put(row, share))];
  }
  if (kind !== 'example' || draft.weather) return undefined;
  const unit = draft.units === 'US' ? 'in' : 'mm';
  const header = ['Month', `ET0 (${unit}/day)`, `Rain (${unit})`, 'Share of rain to count on'];
  return [header, ...months.map(({ month, et0, rain }) => [month, et0, rain, share])];
} // prettier-ignore

export class Trial {
  /** values tried that differ from those kept */
  values: Partial<Record<TrialKey, Cell>> = {};
  /** the season under them; undefined until it is planned */
  plan: PlanSummary | undefined;
  /** what the room was asked for it */
  private asked: PlanAsk | undefined;
  /** how far the planning is; undefined when none is under way */
  running: { done: number; total: number } | undefined;

  private base: PlanSummary | undefined;
  /** somebody else has the room plan other values, one after the other */
  private lent = false;
  private keeping = false;
  /** the room holds the kept plan beside what is tried */
  private holding = false;
  private turn = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private stopper: AbortController | undefined;

  constructor(private readonly session: Session) {
    this.base = session.plan;
    session.listen(() => this.follow());
  }

  /** The plan in the room is not the one that is kept: what is written or saved would be the tried one. */
  get active(): boolean {
    return this.lent || this.running !== undefined || Object.keys(this.values).length > 0;
  }

  get isLent(): boolean {
    return this.lent;
  }
  /** The room is somebody else's for a while: nothing is tried by hand then. */
  lend(lent: boolean): void {
    this.lent = lent;
  }

  /** What is kept of a value. */
  kept(key: TrialKey): Cell {
    const { draft, setup } = this.session;
    if (key === 'share') return shareOf(draft) ?? null;
    const field = setup?.site.find((each) => each.key === key);
    // an hour is the same however it was written
    const hour = field?.kind === 'hour' ? hourOf(field.value) : undefined;
    return hour === undefined ? (field?.value ?? null) : hourText(hour);
  }
  value(key: TrialKey): Cell {
    return this.values[key] ?? this.kept(key);
  }

  /** Tries a value; the season follows as soon as no further value comes. */
  set(key: TrialKey, value: Cell): void {
    if (this.keeping || this.lent || !this.session.plan) return;
    const values = { ...this.values, [key]: value };
    if (value === this.kept(key)) delete values[key];
    if (Object.keys(values).length === 0) return this.discard();
    this.values = values;
    this.stop();
    this.running = { done: 0, total: this.session.reading?.usable ?? 0 };
    this.timer = setTimeout(() => void this.run(), SETTLE_MS);
    this.session.changed();
  }

  /** Back to what is kept, in the room too: nothing is planned again. */
  discard(): void {
    if (this.keeping || this.lent || !this.active) return;
    this.stop();
    this.values = {};
    [this.plan, this.asked, this.running] = [undefined, undefined, undefined];
    if (this.holding) {
      this.holding = false;
      void this.session.attempt(async () => void (await this.session.room.back()));
    }
    this.session.changed();
  }

  /** Writes the values into the draft; their season is the plan then, made again only if something else has changed too. */
  async keep(): Promise<void> {
    const { session } = this;
    if (this.keeping || this.lent) return;
    const { plan, asked, running } = this;
    this.stop();
    this.running = undefined;
    this.keeping = true;
    try {
      const { site, weather } = this.draft();
      await session.change({ site, ...(weather && { weather }) });
      const taken = plan && asked && !running && session.takeOver(plan, asked);
      if (!taken) await session.makePlan();
    } finally {
      this.keeping = false;
      this.forget();
      session.changed();
    }
  }

  /** The kept draft with the tried values in it. */
  draft(): Draft {
    const { draft, setup } = this.session;
    const { share, ...site } = this.values;
    const weather =
      typeof share === 'number' && setup ? withShare(draft, setup, share) : draft.weather;
    return { ...draft, site: { ...draft.site, ...site }, ...(weather && { weather }) };
  }

  private async run(): Promise<void> {
    const { session } = this;
    const turn = ++this.turn;
    const isLatest = (): boolean => turn === this.turn;
    this.stopper = new AbortController();
    try {
      if (!this.holding) {
        this.holding = true;
        await session.room.hold();
        if (!isLatest()) return;
      }
      const asked = session.ask(this.draft());
      const plan = await session.room.plan(asked, {
        signal: this.stopper.signal,
        onProgress: (done, total) => {
          if (!isLatest()) return;
          this.running = { done, total };
          session.changed();
        },
      });
      if (!isLatest()) return;
      [this.plan, this.asked] = [plan, asked];
      this.running = undefined;
      session.changed();
    } catch (error) {
      if (!isLatest()) return;
      this.running = undefined;
      session.sayError(error);
    }
  }

  private stop(): void {
    clearTimeout(this.timer);
    this.turn++;
    this.stopper?.abort();
    this.stopper = undefined;
  }

  private forget(): void {
    this.stop();
    this.values = {};
    [this.plan, this.asked] = [undefined, undefined];
    this.running = undefined;
    this.base = this.session.plan;
    if (!this.holding) return;
    this.holding = false;
    void this.session.attempt(() => this.session.room.release());
  }

  /** A plan that is made anew, or falls, takes with it what was tried on it. */
  private follow(): void {
    if (this.keeping || this.session.plan === this.base) return;
    this.forget();
  }
}

const trials = new WeakMap<Session, Trial>();

/** What is tried in a session: one for all steps, so that it outlives a visit to another step. */
export function trialOf(session: Session): Trial {
  const known = trials.get(session) ?? new Trial(session);
  trials.set(session, known);
  return known;
}
