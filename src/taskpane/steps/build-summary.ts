/** The plan in numbers: trees kept and not kept, waterings, water, hours, price. */
import { css, html, nothing } from 'lit';
import type { PlanSummary } from '../../workers/plan-room.js';
import { define, SessionElement } from '../parts/element.js';
import '../parts/look-list.js';
import { bigNumber, button, said } from '../parts/pieces.js';
import { base, numbers } from '../parts/styles.js';
import { buildWords } from '../words/build.js';
import { enoughWords } from '../words/enough.js';
import './build-enough.js';
import { idleDevices } from './build-idle.js';

/** The parts below the pictures: writing the sheets, saving files. */
export type Onward = 'sheets' | 'files';

export class BuildSummary extends SessionElement {
  static override properties = { ...SessionElement.properties, plan: { attribute: false } };
  declare plan: PlanSummary;

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
    const { f, session, plan } = this;
    if (!plan.over) return nothing;
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
        ${mine.overFails} ${enough.ifMade}
      </p>
      <p>${enough.helps}</p>
      <sb-build-enough .session=${session} .plan=${plan}></sb-build-enough>
      <div class="buttons">
        ${button(mine.overWho, () => session.go('contract', 'shortage'), { small: true, id: 'over-who' })}
      </div>
    </div>`;
  }

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
        ${bigNumber(names.treesPlanned, f.amount(plan.planned), { kind: plan.over ? '' : 'fine' })}
        ${bigNumber(names.cannotBeKept, f.amount(plan.cannotBeKept), { kind: kind(plan.cannotBeKept) })}
        ${bigNumber(b.notPlanned, f.amount(plan.notPlanned), { kind: kind(plan.notPlanned) })}
        ${bigNumber(b.waterings, f.amount(plan.waterings))}
        ${bigNumber(b.water, f.amount(plan.water), { unit: plan.waterUnit })}
        ${bigNumber(b.stressDays, f.amount(plan.stressDays))}
        ${bigNumber(b.crewDays, f.amount(plan.crewDays))}
        ${bigNumber(b.crewHours, f.amount(plan.crewHours), { unit: mine.hours })}
        ${
          fullest
            ? bigNumber(
                `${mine.fullestWeek}, ${mine.fullestWeekNote(f.day(fullest.from))}`,
                f.amount(fullest.crewHours),
                { unit: mine.hours },
              )
            : nothing
        }
        ${bigNumber(names.price, mine.currency(f.amount(plan.price), plan.currency))}
      </dl>
      ${plan.stressDays > 0 ? html`<p class="quiet gap" id="stress-means">${mine.stressMeans}</p>` : nothing}
      ${idleDevices(session, plan.idle)}
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
