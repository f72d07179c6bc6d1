/** The plan in numbers: trees kept and not kept, waterings, water, hours, price. */
import { css, html, nothing } from 'lit';
import type { PlanSummary } from '../../workers/plan-room.js';
import { comparable, type PlanBefore } from '../plan-before.js';
import { define, SessionElement } from '../parts/element.js';
import '../parts/look-list.js';
import { bigNumber, button, said, type NumberLook } from '../parts/pieces.js';
import { base, numbers } from '../parts/styles.js';
import { buildWords } from '../words/build.js';
import { enoughWords } from '../words/enough.js';
import { PRICED } from '../site-groups.js';
import './build-enough.js';
import { idleDevices } from './build-idle.js';

/** The parts below the pictures: writing the sheets, saving files. */
export type Onward = 'sheets' | 'files';

export class BuildSummary extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    plan: { attribute: false },
    earlier: { attribute: false },
  };
  declare plan: PlanSummary;
  /** the numbers it is compared with */
  declare earlier: PlanBefore | undefined;

  static override styles = [
    base,
    numbers,
    css`
      .onward {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 8px;
        margin: 8px 0 4px;
      }
      .over {
        margin: 8px 0;
        padding: 8px;
        border: 1px solid var(--clay);
        border-radius: 6px;
      }
      details p {
        margin-bottom: 4px;
      }
    `,
  ];

  private go(to: Onward): void {
    this.dispatchEvent(new CustomEvent<Onward>('onward', { detail: to }));
  }

  /** That the work does not fit the crew's hours: then the rest of the numbers is a wish. */
  private over() {
    const { f, session, plan, earlier } = this;
    if (!plan.over) return this.fitsNow();
    const { days, available, longest, says } = plan.over;
    const mine = buildWords(session.language);
    const enough = enoughWords(session.language);
    const hours = (n: number): string => f.amount(n);
    return html`<div class="over" id="over">
      <p class="trouble"><strong>${enough.planned(f, days)}</strong></p>
      <p>
        ${mine.over(f, days)}
        ${
          says === undefined
            ? mine.overSays(f.day(longest.day), hours(longest.hours), hours(available))
            : said(session, says)
        }
        ${earlier && earlier.daysOver !== days ? mine.overBefore(f, earlier.daysOver) : nothing}
        ${mine.overFails} ${enough.ifMade}
      </p>
      <p>${enough.helps}</p>
      <sb-build-enough .session=${session} .plan=${plan}></sb-build-enough>
      <div class="buttons">
        ${button(mine.overWho, () => session.go('contract', 'shortage'), { small: true, id: 'over-who' })}
      </div>
    </div>`;
  }

  private fitsNow() {
    const { f, session, earlier } = this;
    if (!earlier?.daysOver) return nothing;
    return html`<p class="fine gap" id="fits-now">
      ${buildWords(session.language).fitsNow(f, earlier.daysOver)}
    </p>`;
  }

  /** A number of the plan, and what it was in the plan before where that reads otherwise. */
  private number(
    label: string,
    key: keyof PlanBefore & keyof PlanSummary,
    look: NumberLook = {},
    shown = (n: number): string => this.f.amount(n),
  ) {
    const { plan, earlier, session } = this;
    const now = shown(Number(plan[key]));
    const then = earlier && comparable(plan, earlier) ? shown(Number(earlier[key])) : now;
    const was = then === now ? {} : { was: buildWords(session.language).was(then) };
    return bigNumber(label, now, { ...look, ...was });
  }

  /** Hours of the crew that no crew day holds, so that nobody takes a day that fits for all there is to do. */
  private otherHours() {
    const { f, session, plan } = this;
    const { settingOut, hoseChecks } = plan.otherHours;
    if (Math.round(10 * (settingOut + hoseChecks)) === 0) return nothing;
    return html`<p class="quiet gap" id="other-hours">
      ${buildWords(session.language).otherHours(f, settingOut, hoseChecks)}
    </p>`;
  }

  /** What the whole plan may rest on without anybody having said it. */
  private taps() {
    const { f, session, plan } = this;
    if (plan.tapsAssumed === 0) return nothing;
    return html`<p class="trouble gap" id="taps-assumed">
      ${buildWords(session.language).tapsAssumed(f, plan.tapsAssumed)}
    </p>`;
  }

  /** Whether the price rests on numbers nobody has typed. */
  private invented() {
    const { f, w, session, plan } = this;
    const mine = buildWords(session.language);
    const prices = plan.inventedPrices.map(({ device, price }) =>
      mine.priceOfOne(mine.currency(f.amount(price), plan.currency), device),
    );
    const inputs = (session.setup?.site ?? []).filter(
      ({ key, from }) => PRICED.includes(key) && from === 'default',
    );
    const numbers = inputs.map(({ key, name }) => w.site.name(key, name));
    if (prices.length + numbers.length === 0) return nothing;
    // Kit has all but the margin
    const place =
      prices.length === 0 && inputs.every(({ key }) => key === 'margin') ? 'site' : 'kit';
    const to = place === 'site' ? mine.toSite : mine.toBuyKit;
    return html`<p class="trouble gap" id="invented-price">
      ${mine.inventedPrice(prices, numbers, place)}
      ${button(to, () => session.go(place), { small: true, id: 'price-to-its-place' })}
    </p>`;
  }

  /** Said beside the price: whoever owns forty bags does not expect to pay for hoses. */
  private toBuy() {
    const { f, session, plan } = this;
    if (plan.toBuy.length === 0) return nothing;
    const mine = buildWords(session.language);
    const cost = (n: number): string => mine.currency(f.amount(n), plan.currency);
    return html`<div id="to-buy" class="gap">
      <p class="trouble">${mine.toBuy}</p>
      <ul>
        ${plan.toBuy.map((each) => html`<li>${mine.toBuyLine(f, each.pieces, each.device, cost(each.cost))}</li>`)}
      </ul>
      <p class="quiet">${mine.toBuyNot}</p>
      <div class="buttons">
        ${button(mine.toBuyKit, () => session.go('kit'), { small: true, id: 'to-kit' })}
      </div>
    </div>`;
  } // prettier-ignore

  protected override render() {
    const { w, f, session, plan } = this;
    const b = w.build;
    const mine = buildWords(session.language);
    const kind = (n: number) => (n > 0 ? 'trouble' : '');
    const fullest = plan.season.weeks.reduce<(typeof plan.season.weeks)[number] | undefined>(
      (most, week) => (week.crewHours > (most?.crewHours ?? 0) ? week : most),
      undefined,
    );
    // a plan that cannot be worked off keeps no tree: its numbers are said of a wish
    const names = plan.over ? enoughWords(session.language) : b;
    return html`
      ${this.over()}
      <dl class="numbers" id="result">
        ${this.number(names.treesPlanned, 'planned', { kind: plan.over ? '' : 'fine' })}
        ${this.number(names.cannotBeKept, 'cannotBeKept', { kind: kind(plan.cannotBeKept) })}
        ${this.number(b.notPlanned, 'notPlanned', { kind: kind(plan.notPlanned) })}
        ${this.number(b.waterings, 'waterings')}
        ${this.number(b.water, 'water', { unit: plan.waterUnit })}
        ${this.number(b.stressDays, 'stressDays')} ${this.number(b.crewDays, 'crewDays')}
        ${this.number(b.crewHours, 'crewHours', { unit: mine.hours })}
        ${
          fullest
            ? bigNumber(
                `${mine.fullestWeek}, ${mine.fullestWeekNote(f.day(fullest.from))}`,
                f.amount(fullest.crewHours),
                { unit: mine.hours },
              )
            : nothing
        }
        ${this.number(names.price, 'price', {}, (n) => mine.currency(f.amount(n), plan.currency))}
      </dl>
      ${this.otherHours()}
      ${plan.stressDays > 0 ? html`<p class="quiet gap" id="stress-means">${mine.stressMeans}</p>` : nothing}
      ${this.taps()} ${this.invented()} ${this.toBuy()} ${idleDevices(session, plan.idle)}
      <nav class="onward" aria-label=${mine.onward}>
        ${button(mine.toSheets, () => this.go('sheets'), { small: true, id: 'to-sheets' })}
        ${button(mine.toFiles, () => this.go('files'), { small: true, id: 'to-files' })}
      </nav>
      <details>
        <summary>${mine.whereFrom}</summary>
        ${mine.whereFromLines.map((line) => html`<p class="quiet">${line}</p>`)}
      </details>
      ${
        plan.lost.length > 0
          ? html`<h3>${b.lost}</h3>
              <sb-look-list .session=${session} .rows=${plan.lost}></sb-look-list>`
          : nothing
      }
    `;
  }
}
define('sb-build-summary', BuildSummary);
