/** A few values to move; the season is planned again and the pictures follow. Kept only when the person says so. */
import { css, html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import { text } from '../../tables/cells.js';
import { hourOf, hourText } from '../../tables/hours.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import { define, SessionElement } from '../parts/element.js';
import { button, progressBar, chosenIn, options } from '../parts/pieces.js';
import { base, fields } from '../parts/styles.js';
import { trialOf, type TrialKey } from '../trial.js';
import { buildWords } from '../words/build.js';
import { enoughWords } from '../words/enough.js';
import { differences } from './build-differences.js';

interface Slider {
  key: TrialKey;
  from: number;
  to: number;
  step: number;
}
/** Values that are the same in both systems of units, over the span somebody would try. */
const SLIDERS: readonly Slider[] = [
  { key: 'crewHours', from: 2, to: 14, step: 0.5 },
  { key: 'crewStart', from: 3, to: 21, step: 0.5 },
  { key: 'crews', from: 1, to: 6, step: 1 },
  { key: 'depletionNew', from: 0.1, to: 0.6, step: 0.05 },
  { key: 'depletionEstablished', from: 0.1, to: 0.7, step: 0.05 },
  { key: 'toleratedStress', from: 0, to: 30, step: 1 },
  { key: 'share', from: 0, to: 1, step: 0.05 },
  { key: 'margin', from: 0, to: 0.6, step: 0.05 },
];
const WORK_DAYS: readonly string[] = ['any', 'Mon-Sat', 'Mon-Fri', 'Mon-Thu', 'Mon Wed Fri'];

export class BuildTrial extends SessionElement {
  static override styles = [
    base,
    fields,
    css`
      .value {
        padding: 6px 0;
        border-bottom: 1px solid var(--rule);
      }
      .line {
        display: flex;
        justify-content: space-between;
        gap: 8px;
        align-items: baseline;
      }
      output {
        font-weight: 600;
        flex: none;
      }
      input[type='range'] {
        padding: 0;
        border: 0;
        background: none;
        min-height: 28px;
        accent-color: var(--water);
      }
      .tried {
        color: var(--ochre);
      }
      .result {
        margin-top: 8px;
        padding: 8px;
        background: var(--sand);
        border-radius: 6px;
      }
    `,
  ];

  private get b() {
    return buildWords(this.session.language).trial;
  }

  protected override render() {
    const { b, session } = this;
    const trial = trialOf(session);
    const daily = session.setup?.weather.kind === 'daily';
    return html`
      <p class="quiet">${b.lead}</p>
      ${SLIDERS.filter(({ key }) => key !== 'share' || !daily).map((slider) => this.slider(slider))}
      ${this.workDays()}
      <div class="result" id="tried">
        ${trial.isLent ? html`<p class="quiet">${enoughWords(session.language).busy}</p>` : trial.active ? this.result() : html`<p class="quiet">${b.same}</p>`}
      </div>
    `;
  }

  private result() {
    const { b, f, session } = this;
    const trial = trialOf(session);
    const { running, plan } = trial;
    return html`
      ${
        running
          ? html`<p>${b.replanning(f, running.done, running.total)}</p>
              ${progressBar(b.title, running.done, running.total)}`
          : plan && session.plan
            ? html`<p>
                <strong>${b.trying}:</strong> ${differences(session.plan, plan, plan, session)}
              </p>`
            : nothing
      }
      <div class="buttons">
        ${button(b.keep, () => void this.keep(), { id: 'keep', disabled: running !== undefined })}
        ${button(b.discard, () => this.discard(), { id: 'discard' })}
      </div>
    `;
  }

  private async keep(): Promise<void> {
    const { session, b } = this;
    await session.attempt(async () => {
      await trialOf(session).keep();
      if (session.plan && !session.plan.over) session.say(b.kept, 'fine');
      else if (session.plan) session.sayPlanned(session.plan);
    });
    this.toStart();
  }
  private discard(): void {
    trialOf(this.session).discard();
    this.session.say(this.b.back);
    this.toStart();
  }
  /** The buttons are gone: the focus goes to the first value, without moving what somebody looks at. */
  private toStart(): void {
    this.renderRoot.querySelector<HTMLElement>('input')?.focus({ preventScroll: true });
  }

  private name(key: TrialKey): string {
    const { w, session } = this;
    if (key === 'share') return this.b.share;
    const field = session.setup?.site.find((each) => each.key === key);
    return w.site.name(key, field?.name ?? key);
  }

  private slider({ key, from, to, step }: Slider) {
    const { f, w, session } = this;
    const trial = trialOf(session);
    const field = session.setup?.site.find((each) => each.key === key);
    const isHour = field?.kind === 'hour';
    const given = trial.value(key);
    const value = isHour ? hourOf(given) : typeof given === 'number' ? given : undefined;
    const unit =
      field === undefined || field.unit === 'share' || field.kind === 'count'
        ? ''
        : w.unit(field.unit);
    const said = (n: number): string => (isHour ? hourText(n) : `${f.plain(n)} ${unit}`.trim());
    const shown = value === undefined ? w.site.notKnown : said(value);
    const take = (e: Event): void => {
      const moved = (e.target as HTMLInputElement).valueAsNumber;
      trial.set(key, isHour ? hourText(moved) : moved);
    };
    return html`<div class="value">
      <div class="line">
        <label for=${key}>${this.name(key)}</label>
        <output for=${key} class=${key in trial.values ? 'tried' : ''}>${shown}</output>
      </div>
      <input
        type="range"
        id=${key}
        min=${Math.min(from, value ?? from)}
        max=${Math.max(to, value ?? to)}
        step=${step}
        ?disabled=${trial.isLent}
        aria-valuetext=${shown}
        .value=${live(String(value ?? from))}
        @input=${take}
      />
    </div>`;
  }

  private workDays() {
    const { b, session } = this;
    const key: SiteKey = 'workDays';
    const trial = trialOf(session);
    const chosen = text(trial.value(key));
    const kept = text(trial.kept(key));
    const list = WORK_DAYS.includes(kept) ? WORK_DAYS : [kept, ...WORK_DAYS];
    return html`<div class="value">
      <label for=${key}>${this.name(key)}</label>
      <select
        id=${key}
        class="preset"
        ?disabled=${trial.isLent}
        @change=${(e: Event) => trial.set(key, chosenIn(e))}
      >
        ${options(
          list.map((days) => ({
            value: days,
            label: days === kept && !WORK_DAYS.includes(days) ? `${days} (${b.workDays})` : days,
            lang: 'en',
          })),
          chosen,
        )}
      </select>
    </div>`;
  }
}
define('sb-trial', BuildTrial);
