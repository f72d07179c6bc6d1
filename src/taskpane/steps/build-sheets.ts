/** Writes the plan's sheets into the open workbook, with progress by sheet; can be stopped. */
import { css, html, nothing } from 'lit';
import type { PlanSummary } from '../../workers/plan-room.js';
import { buildingOf, LIVE_ROWS } from '../building.js';
import { define, SessionElement } from '../parts/element.js';
import { button, planner, progressBar } from '../parts/pieces.js';
import { base, fields } from '../parts/styles.js';
import { trialOf } from '../trial.js';
import { enoughWords } from '../words/enough.js';
import { triedFirst } from './tried-first.js';
import { buildWords } from '../words/build.js';

export class BuildSheets extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    plan: { attribute: false },
  };
  declare plan: PlanSummary;

  static override styles = [
    base,
    fields,
    css`
      h4 {
        margin: 12px 0 4px;
        font-size: 0.875rem;
        font-weight: 650;
      }
    `,
  ];

  private get b() {
    return buildWords(this.session.language).sheets;
  }
  private get live(): boolean {
    return this.session.wantsLive ?? this.plan.picks.length <= LIVE_ROWS;
  }

  private async build(): Promise<void> {
    const written = await buildingOf(this.session).build(this.live);
    await this.updateComplete;
    if (written) this.dispatchEvent(new CustomEvent('wrote'));
    else this.focusBuild();
  }
  focusBuild(): void {
    this.renderRoot.querySelector<HTMLElement>('#build-sheets')?.focus();
  }

  protected override render() {
    const { b, session } = this;
    const building = buildingOf(session);
    const { writing, notes } = building;
    const { over } = this.plan;
    const tried = trialOf(session).active;
    return html`
      <p class="quiet">${b.lead}</p>
      ${over ? html`<p class="trouble gap" id="build-over">${enoughWords(session.language).build(this.f, over.days)}</p>` : nothing}
      ${this.choice()} ${this.logChoice()}
      <div class="buttons">
        ${button(b.build, () => void this.build(), {
          main: true,
          id: 'build-sheets',
          disabled: writing !== undefined || tried,
        })}
        ${writing ? button(b.cancel, () => building.cancel(), { id: 'cancel-build' }) : nothing}
      </div>
      ${tried ? html`<p class="quiet gap">${triedFirst(session)}</p>` : nothing}
      ${
        writing
          ? html`${progressBar(b.title, writing.done, writing.total, 'build-progress')}
              <p class="quiet">${writing.says}</p>`
          : nothing
      }
      ${
        notes.length === 0
          ? nothing
          : html`<h4>${b.notes}</h4>
              <div id="build-notes">
                ${notes.map((note) => planner(this.session, note, 'quiet gap'))}
              </div>`
      }
    `;
  }

  private choice() {
    const { b, f, plan, live } = this;
    const { writing } = buildingOf(this.session);
    const radio = (value: boolean, id: string, label: string, note: string) =>
      html`<label class="check"
        ><input
          type="radio"
          name="formulas"
          id=${id}
          .checked=${live === value}
          ?disabled=${writing !== undefined}
          @change=${() => this.session.setWantsLive(value)}
        /><span>${label}. <span class="quiet">${note}</span></span></label
      >`;
    return html`<fieldset>
      <legend>${b.how}</legend>
      ${radio(true, 'live', b.live, b.liveNote)} ${radio(false, 'native', b.native, b.nativeNote)}
      <p class="quiet gap">${b.suggested(f, plan.picks.length, LIVE_ROWS)}</p>
    </fieldset>`;
  }

  private logChoice() {
    const { b, session } = this;
    const { writing } = buildingOf(session);
    const { visits, contract } = session.read.papers;
    if (visits || contract) return html`<p class="quiet gap" id="log-goes-too">${b.logThere}</p>`;
    return html`<label class="check gap"
      ><input
        type="checkbox"
        id="with-log"
        .checked=${session.wantsLog}
        ?disabled=${writing !== undefined}
        @change=${(event: Event) => void session.setWantsLog((event.target as HTMLInputElement).checked)}
      /><span>${b.log}. <span class="quiet">${b.logNote}</span></span></label
    >`;
  }
}
define('sb-build-sheets', BuildSheets);
