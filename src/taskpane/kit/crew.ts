/** The crew: what decides first, in place; driving and tank folded below. All of it are inputs of the site. */
import { css, html, nothing } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import { live } from 'lit/directives/live.js';
import { text } from '../../tables/cells.js';
import { hourOf, hourText } from '../../tables/hours.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import type { SiteField } from '../../workers/plan-room.js';
import { define, SessionElement } from '../parts/element.js';
import '../parts/site-field.js';
import { base, fieldLine, fields, originButton } from '../parts/styles.js';
import { typedIn } from '../parts/typed-in.js';
import { CREW_FIRST, CREW_MONEY, DRIVING } from '../site-groups.js';
import { kitWords } from '../words/kit.js';
import { openLine } from './open-hours.js';
import { crewEnd, daysInWords, FROM_MONDAY, hoursUntil, weekdaysOf } from './work-days.js';

export class CrewPart extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    trouble: { state: true },
    asked: { state: true },
  };
  /** what was wrong with a day or an end that was not taken */
  declare private trouble: { of: 'days' | 'end'; said: string } | undefined;
  /** the work days are looked at in words */
  declare private asked: boolean;

  static override styles = [
    base,
    fields,
    originButton,
    fieldLine,
    css`
      .own {
        padding: 6px 0;
        border-bottom: 1px solid var(--rule);
        container-type: inline-size;
      }
      legend {
        margin: 0;
        font-weight: 400;
      }
      .days {
        display: flex;
        flex-wrap: wrap;
        gap: 4px;
      }
      .days label {
        display: flex;
        flex-direction: column;
        align-items: center;
        flex: 1 0 2.25rem;
        padding: 2px 0;
        font-size: 0.8125rem;
        border: 1px solid var(--edge);
        border-radius: 6px;
      }
      .days label:has(:checked) {
        border-color: var(--ochre);
        background: var(--straw);
      }
      .preset .days label:has(:checked) {
        border-color: var(--edge);
        background: var(--paper);
      }
      .preset,
      .default {
        background: none;
      }
      input.default {
        background: var(--paper);
        border-color: var(--edge);
      }
    `,
  ];

  constructor() {
    super();
    this.trouble = undefined;
    this.asked = false;
  }

  private get k() {
    return kitWords(this.session.language);
  }
  private found(key: SiteKey): SiteField | undefined {
    return this.session.setup?.site.find((field) => field.key === key);
  }
  /** As typed last, also while it is still being read. */
  private value(key: SiteKey) {
    return this.session.draft.site[key] ?? this.found(key)?.value ?? null;
  }

  protected override render() {
    const { k, session } = this;
    const driving = DRIVING.filter((key) => key !== 'tankVolume');
    const isWrong = session.setup?.site.some(
      ({ key, trouble }) => trouble !== '' && DRIVING.includes(key),
    );
    return html`
      <h3>${k.crew}</h3>
      ${this.days()} ${CREW_FIRST.map((key) => this.field(key))} ${this.end()} ${this.open()}
      ${CREW_MONEY.map((key) => this.field(key))}
      <details id="driving" ?open=${isWrong === true}>
        <summary>${k.driving}</summary>
        ${driving.map((key) => this.field(key))} ${this.tank()}
      </details>
    `;
  }

  private field(key: SiteKey) {
    const { session } = this;
    const field = this.found(key);
    return field === undefined
      ? nothing
      : keyed(
          key,
          html`<sb-site-field data-key=${key} .session=${session} .field=${field}></sb-site-field>`,
        );
  }

  /** The truck's own tank where the kit has one: the site's tank volume would be asked in vain. */
  private tank() {
    const { k, f, session } = this;
    const own = session.setup?.kit.tank;
    if (own === undefined) return this.field('tankVolume');
    return html`<p id="tank" class="gap">
      ${k.tank(`${f.amount(own.volume)} ${own.unit}`, own.device)}
    </p>`;
  }

  /** Seven days to mark; words that say more than days of the week stand in their field. */
  private days() {
    const { k, w, asked } = this;
    const field = this.found('workDays');
    if (!field) return nothing;
    const days = weekdaysOf(text(this.value('workDays')));
    const trouble = this.trouble?.of === 'days' ? this.trouble.said : '';
    const mark = w.site.from[field.from];
    return html`<div class="own">
      <fieldset
        id="work-days"
        class=${field.from === 'typed' ? '' : 'preset'}
        aria-describedby=${trouble === '' ? nothing : 'days-trouble'}
      >
        <legend>
          ${k.workDays}
          <button
            type="button"
            aria-expanded=${asked ? 'true' : 'false'}
            aria-label="${w.site.whereFromOf(k.workDays)}: ${mark}"
            @click=${() => (this.asked = !asked)}
          >
            <span aria-hidden="true">${asked ? '▾' : '▸'}</span> ${mark}
          </button>
        </legend>
        <div class="days">
          ${FROM_MONDAY.map((day, i) => {
            const [short, whole] = k.days[i]!;
            return html`<label
              ><input
                type="checkbox"
                data-day=${day}
                aria-label=${whole}
                .checked=${live(days?.has(day) ?? false)}
                @change=${(e: Event) => void this.mark(day, e.target as HTMLInputElement)}
              /><span aria-hidden="true">${short}</span></label
            >`;
          })}
        </div>
      </fieldset>
      ${
        trouble === ''
          ? nothing
          : html`<p class="trouble" role="alert" id="days-trouble">${trouble}</p>`
      }
      ${days === undefined ? html`<p class="quiet">${k.daysTyped}</p>` : nothing}
      ${asked || days === undefined ? this.field('workDays') : nothing}
    </div>`;
  }

  private async mark(day: number, box: HTMLInputElement): Promise<void> {
    const { session, k } = this;
    const days = new Set(weekdaysOf(text(this.value('workDays'))) ?? []);
    if (box.checked) days.add(day);
    else days.delete(day);
    this.trouble = days.size === 0 ? { of: 'days', said: k.noDay } : undefined;
    if (days.size === 0) box.checked = true;
    else await session.attempt(() => session.setSite('workDays', daysInWords(days)));
  }

  /** The hours a day in another way: both are the same input. */
  private end() {
    const { k, w } = this;
    const [start, hours] = [hourOf(this.value('crewStart')), this.value('crewHours')];
    if (start === undefined || typeof hours !== 'number') return nothing;
    const { at, nextDay } = crewEnd(start, hours);
    const trouble = this.trouble?.of === 'end' ? this.trouble.said : '';
    const typed = (['crewStart', 'crewHours'] as const).some((key) => this.found(key)?.from === 'typed'); // prettier-ignore
    return html`<div class="own">
      <div class="line">
        <div>
          <label for="ends">${k.ends}</label>
          <div class="quiet" id="ends-from">${typed ? k.endsFrom : w.site.from.default}</div>
        </div>
        <div>
          <input
            id="ends"
            class=${typed ? '' : 'default'}
            autocomplete="off"
            aria-invalid=${trouble === '' ? nothing : 'true'}
            aria-describedby=${trouble === '' ? 'ends-from' : 'ends-trouble'}
            ${typedIn(at, ({ value }) => this.takeEnd(start, value))}
          />
          ${nextDay ? html`<span class="quiet">${k.endsAfter}</span>` : nothing}
        </div>
      </div>
      ${
        trouble === ''
          ? nothing
          : html`<p class="trouble" role="alert" id="ends-trouble">${trouble}</p>`
      }
    </div>`;
  }

  /** What the rules leave of the hours: an order that closes half of them decides more than the hours do. */
  private open() {
    const { k, w, f, session } = this;
    const crew = session.rules?.crew;
    if (!crew || crew.lines.length === 0) return nothing;
    return html`<div class="own" id="open-hours">
      <p class="trouble">${k.open.lead}</p>
      <ul>
        ${crew.lines.map((line) => html`<li>${openLine(line, crew, { k, w, f })}</li>`)}
      </ul>
      ${crew.more === 0 ? nothing : html`<p class="quiet">${k.open.more(f, crew.more)}</p>`}
    </div>`;
  }

  private async takeEnd(start: number, typed: string): Promise<void> {
    const { session, k } = this;
    this.trouble = undefined;
    // left blank it is what start and hours say
    if (typed.trim() === '') return;
    const hours = hoursUntil(start, typed);
    if (hours === 'wrong') this.trouble = { of: 'end', said: k.endsWrong(typed.trim()) };
    else if (hours === 'before') this.trouble = { of: 'end', said: k.endsBefore(hourText(start)) };
    else await session.attempt(() => session.setSite('crewHours', hours));
  }
}
define('sb-crew', CrewPart);
