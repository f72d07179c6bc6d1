/** What would be enough: the season planned with one thing changed at a time, in a table, the best first. */
import { css, html, nothing } from 'lit';
import type { PlanSummary } from '../../workers/plan-room.js';
import { enoughOf, type Tried } from '../enough.js';
import { isAtNight } from '../enough-together.js';
import type { Single, Way } from '../enough-ways.js';
import { define, SessionElement } from '../parts/element.js';
import { button, progressBar, said } from '../parts/pieces.js';
import { base } from '../parts/styles.js';
import type { Session } from '../session.js';
import { trialOf } from '../trial.js';
import { buildWords } from '../words/build.js';
import { enoughWords } from '../words/enough.js';

const MS_PER_MINUTE = 60_000;
/** Less is rounding, not a difference. */
const HAIR = 0.05;

/** A way in a few words. */
export function wayWords(way: Way, session: Session): string {
  const { language, formats: f } = session;
  const { ways } = enoughWords(language);
  switch (way.kind) {
    case 'crews':
      return ways.crews(f, way.crews, way.from);
    case 'start':
      return ways.start(way.start, way.from);
    case 'days':
      return ways.days(way.days === 'any' ? ways.everyDay : way.days, way.from);
    case 'hours':
      return ways.hours(f, way.hours);
    case 'tank':
      return ways.tank(way.volume);
    case 'timers':
      return ways.timers(way.devices.join(', '));
    case 'buying':
      return ways.buying;
    case 'means':
      return ways.means(f, way.worth);
    case 'together':
      return ways.together(way.ways.map((each) => wayWords(each, session)));
    case 'fewer': {
      const out = ways.fewer(f, way.trees, way.weekHours);
      return way.under ? ways.together([wayWords(way.under, session), out]) : out;
    }
  }
}

/** Everything a way changes. */
function singlesOf(way: Way): readonly Single[] {
  if (way.kind === 'together') return way.ways;
  if (way.kind === 'fewer') return way.under ? singlesOf(way.under) : [];
  return [way];
}
const kindsOf = (way: Way): ReadonlySet<Way['kind']> =>
  new Set([...singlesOf(way).map(({ kind }) => kind), ...(way.kind === 'fewer' ? [way.kind] : [])]);

export class BuildEnough extends SessionElement {
  static override properties = { ...SessionElement.properties, plan: { attribute: false } };
  declare plan: PlanSummary;

  static override styles = [
    base,
    css`
      table {
        width: 100%;
        border-collapse: collapse;
        font-size: 0.8125rem;
        margin-top: 8px;
      }
      caption {
        text-align: left;
        color: var(--loam);
        padding-bottom: 4px;
      }
      th {
        text-align: left;
        font-weight: 600;
        padding: 6px 4px 2px 0;
      }
      thead th {
        font-weight: 400;
        color: var(--loam);
        vertical-align: bottom;
      }
      td {
        padding: 2px 4px 6px 0;
        vertical-align: top;
        font-variant-numeric: tabular-nums;
      }
      td:last-child {
        white-space: nowrap;
      }
      tbody tr:first-child > * {
        border-top: 1px solid var(--rule);
      }
      th p {
        font-weight: 400;
      }
      .what {
        display: flex;
        gap: 8px;
        justify-content: space-between;
        align-items: start;
      }
      .uses {
        display: flex;
        flex-wrap: wrap;
        gap: 4px;
        flex: none;
        justify-content: flex-end;
        max-width: 50%;
      }
    `,
  ];

  private get b() {
    return enoughWords(this.session.language);
  }

  protected override render() {
    const { b, f, session, plan } = this;
    const search = enoughOf(session);
    const { isSearching, tried, ended } = search;
    const byHand = trialOf(session).active && !isSearching;
    const minutes = Math.ceil((search.most * session.plannedIn) / MS_PER_MINUTE);
    return html`
      ${isSearching || tried.length > 0 ? nothing : html`<p class="quiet gap" id="enough-cost">${b.cost(f, search.most, minutes)}</p>`}
      <div class="buttons">
        ${button(ended ? b.again : b.ask, () => void this.search(), { main: !ended, id: 'try-enough', disabled: isSearching || byHand })}
        ${isSearching ? button(b.stop, () => this.stop(), { id: 'stop-enough' }) : nothing}
      </div>
      ${byHand ? html`<p class="quiet gap">${b.first}</p>` : nothing} ${this.progress()}
      ${ended ? html`<p class="gap" id="enough-found">${this.outcome()}</p>` : nothing}
      ${tried.length > 0 ? this.table(plan, tried) : nothing}
      ${search.notFewer === '' ? nothing : html`<p class="quiet gap">${b.notes.notFewer}${said(session, search.notFewer)}</p>`}
    `;
  } // prettier-ignore

  private async search(): Promise<void> {
    const { session, plan } = this;
    await enoughOf(session).start();
    if (session.plan === plan && enoughOf(session).ended) session.say(this.outcome());
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('#try-enough')?.focus({ preventScroll: true });
  }
  private stop(): void {
    enoughOf(this.session).stop();
  }

  private outcome(): string {
    const { tried, ended } = enoughOf(this.session);
    if (ended === 'stopped') return this.b.stopped;
    return this.b.found(this.f, tried.filter(({ plan }) => !plan.over).length);
  }

  private progress() {
    const { b, f, session } = this;
    const { running, isSearching } = enoughOf(session);
    if (!isSearching) return nothing;
    const says = running
      ? b.working(f, running.before + 1, wayWords(running.way, session))
      : b.starting;
    return html`<p class="gap" id="enough-running" role="status">${says}</p>
      ${progressBar(says, running?.done ?? 0, running?.total ?? 1)}`;
  }

  private table(base: PlanSummary, tried: readonly Tried[]) {
    const { b } = this;
    const { days, longest, water, price } = b.heads;
    return html`<table id="enough">
      <caption>
        ${b.caption}
      </caption>
      <thead>
        <tr>
          ${[days, longest, water, price].map((head) => html`<th scope="col">${head}</th>`)}
        </tr>
      </thead>
      <tbody>
        <tr>
          <th scope="rowgroup" colspan="4">${b.asItIs}</th>
        </tr>
        ${this.numbers(base)}
      </tbody>
      ${tried.map((one) => this.way(base, one))}
    </table>`;
  }

  private way(base: PlanSummary, tried: Tried) {
    const { b, session } = this;
    const what = wayWords(tried.way, session);
    const use = html`<span class="uses">
      ${tried.way.kind === 'fewer' && !tried.way.under ? button(b.who, () => session.go('contract', 'shortage'), { small: true, name: b.whoOf(what) }) : nothing}
      ${button(b.use, () => void session.attempt(() => enoughOf(session).use(tried)), { small: true, name: b.useOf(what) })}
    </span>`;
    return html`<tbody data-way=${tried.way.kind}>
      <tr>
        <th scope="rowgroup" colspan="4">
          <div class="what"><span>${what}</span>${use}</div>
          ${this.notes(base, tried).map((note) => html`<p class="quiet">${note}</p>`)}
        </th>
      </tr>
      ${this.numbers(tried.plan, base)}
    </tbody>`;
  } // prettier-ignore

  /** @param base - what water and price are compared with */
  private numbers(plan: PlanSummary, base?: PlanSummary) {
    const { b, f, session } = this;
    const { over, water, price, waterUnit, currency } = plan;
    const money = (amount: number): string =>
      buildWords(session.language).currency(f.amount(amount), currency);
    const against = (now: number, then: number | undefined, say: (n: number) => string): string => {
      if (then === undefined) return say(now);
      const more = now - then;
      return Math.abs(more) < HAIR ? b.same : `${more > 0 ? '+' : '−'} ${say(Math.abs(more))}`;
    };
    const longest = over ? b.longest(f.amount(over.longest.hours), f.amount(over.available)) : b.fits;
    return html`<tr>
      <td class=${over ? 'trouble' : 'fine'}>${f.whole(over?.days ?? 0)}</td>
      <td>${longest}</td>
      <td>${against(water, base?.water, (n) => `${f.amount(n)} ${waterUnit}`)}</td>
      <td>${against(price, base?.price, money)}</td>
    </tr>`;
  } // prettier-ignore

  /** What the numbers do not say. */
  private notes(base: PlanSummary, { way, plan }: Tried): string[] {
    const { b, f, session } = this;
    const { notes } = b;
    const label = ({ means }: PlanSummary): string =>
      JSON.stringify(means.map((each) => [each.means, each.trees]));
    const idle = new Set(plan.idle.map(({ device }) => device));
    const used = base.idle.filter(({ device }) => !idle.has(device)).map(({ device }) => device);
    const lost = plan.cannotBeKept - base.cannotBeKept;
    const unplanned = way.kind === 'fewer' ? 0 : plan.notPlanned - base.notPlanned;
    const dearer = plan.price - base.price;
    const money = buildWords(session.language).currency(f.amount(dearer), plan.currency);
    const kinds = kindsOf(way);
    const words = buildWords(session.language);
    const bought = plan.toBuy
      .map(({ pieces, device, cost }) =>
        words.toBuyLine(f, pieces, device, words.currency(f.amount(cost), plan.currency)),
      )
      .join('; ');
    return [
      ...(kinds.has('crews') ? [notes.crews] : []),
      ...(isAtNight(way) ? [notes.night] : []),
      ...(kinds.has('tank') ? [notes.tank] : []),
      ...(kinds.has('timers') ? [notes.timers(f, plan.onTimers)] : []),
      ...(kinds.has('buying') && bought !== '' ? [notes.buying(bought)] : []),
      ...(kinds.has('fewer') ? [notes.fewer] : []),
      ...(way.kind === 'means' && label(plan) === label(base) ? [notes.same] : []),
      ...(way.kind === 'means' && dearer > HAIR ? [notes.dearer(money)] : []),
      ...(used.length > 0 && way.kind !== 'fewer' ? [notes.uses(used.join(', '))] : []),
      ...(lost > 0 ? [notes.lost(f, lost)] : []),
      ...(unplanned > 0 ? [notes.notPlanned(f, unplanned)] : []),
    ];
  }
}
define('sb-build-enough', BuildEnough);
