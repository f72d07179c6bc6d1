/** An input of the site: its name, field and unit, where the value is from, and what is wrong with it, in place. */
import { css, html, nothing } from 'lit';
import type { Cell } from '../../tables/cells.js';
import type { SiteField } from '../../workers/plan-room.js';
import { currencyOf } from '../money.js';
import { define, SessionElement } from './element.js';
import { typedValue } from './format.js';
import { button, chosenIn, options, planner, said } from './pieces.js';
import { base, fieldLine, fields, originButton, withUnit } from './styles.js';
import { typedIn } from './typed-in.js';

const SHARE = 'share';
const MONEY_FOR = 'per ';
/** A default of 25 km/h is 15.5 mph: more digits say nothing. */
const DEFAULT_DIGITS = 3;
/** Keeps a day field from taking a year of five digits. */
const LAST_DAY = '9999-12-31';
const ISO_DAY = /^\d{4}-\d\d-\d\d$/;

export class SiteFieldPart extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    field: { attribute: false },
    asked: { state: true },
    unfinished: { state: true },
  };
  declare field: SiteField;
  /** the person has asked where the value is from */
  declare private asked: boolean;
  /** a day was left before it was whole */
  declare private unfinished: boolean;

  static override styles = [
    base,
    fields,
    withUnit,
    originButton,
    fieldLine,
    css`
      :host {
        container-type: inline-size;
        padding: 6px 0;
        border-bottom: 1px solid var(--rule);
      }
      .own {
        background: var(--straw);
      }
      .default {
        background: var(--paper);
        border-color: var(--edge);
        color: var(--bark);
      }
    `,
  ];

  constructor() {
    super();
    this.asked = false;
    this.unfinished = false;
  }

  private async set(value: Cell): Promise<void> {
    const { session, field } = this;
    await session.attempt(() => session.setSite(field.key, value));
  }

  /** Keeps what was typed; a field left blank takes the default again. A day without its year, say, is not taken. */
  private async take(input: HTMLInputElement): Promise<void> {
    const { field } = this;
    this.unfinished = input.validity.badInput;
    if (this.unfinished) return;
    const text = input.value;
    await this.set(field.kind === 'text' ? text.trim() || null : typedValue(text));
  }

  /** Tab leads from field to field: where a value is from is asked within its field. */
  private askByKey(event: KeyboardEvent): void {
    if (event.key !== 'Enter' || !event.altKey) return;
    event.preventDefault();
    this.asked = !this.asked;
  }

  private shown(): string {
    const { value, kind, from } = this.field;
    if (typeof value !== 'number' || kind === 'text') return String(value ?? '');
    return this.f.plain(from === 'default' ? Number(value.toPrecision(DEFAULT_DIGITS)) : value);
  }

  /** An amount of money for something has the site's sign before it: "$ per hour". */
  private unit(): string {
    const { session, w, field } = this;
    const unit = w.unit(field.unit);
    return field.unit.startsWith(MONEY_FOR) ? `${currencyOf(session)} ${unit}`.trim() : unit;
  }

  protected override render() {
    const { w, field } = this;
    const { from, trouble, note, source } = field;
    const name = w.site.name(field.key, field.name);
    const described = trouble === '' ? 'from' : 'trouble';
    return html`
      <div class="line">
        <div>
          <label for="value">${name}</label>
          <button
            type="button"
            tabindex="-1"
            aria-expanded=${this.asked ? 'true' : 'false'}
            aria-controls="where"
            aria-label="${w.site.whereFromOf(name)}: ${w.site.from[from]}"
            @click=${() => (this.asked = !this.asked)}
          >
            <span aria-hidden="true">${this.asked ? '▾' : '▸'}</span>
            <span id="from">${w.site.from[from]}</span>
          </button>
        </div>
        <div class="value" @keydown=${(e: KeyboardEvent) => this.askByKey(e)}>
          ${field.kind === 'word' ? this.choice(name) : this.typed(described)}
          ${
            field.unit === '' || field.unit === SHARE
              ? nothing
              : html`<span class="unit">${this.unit()}</span>`
          }
        </div>
      </div>
      ${trouble === '' ? nothing : planner(this.session, trouble, 'trouble', 'trouble')}
      ${this.unfinished ? html`<p class="trouble" role="alert">${w.site.unfinishedDay}</p>` : nothing}
      <div id="where" class="quiet" ?hidden=${!this.asked}>
        ${planner(this.session, note)}
        <p>${w.site.sourceOfDefault} ${said(this.session, source)}.</p>
        ${
          from === 'typed'
            ? button(w.site.useDefault, () => void this.set(null), {
                small: true,
                name: w.site.useDefaultOf(name),
              })
            : nothing
        }
      </div>
    `;
  }

  private typed(described: string) {
    const { field, w } = this;
    const { kind, value, from, trouble } = field;
    const own = from === 'typed';
    return html`<input
      id="value"
      class=${own ? 'own' : 'default'}
      type=${kind === 'day' && ISO_DAY.test(this.shown()) ? 'date' : 'text'}
      max=${kind === 'day' ? LAST_DAY : nothing}
      inputmode=${kind === 'number' || kind === 'count' ? 'decimal' : nothing}
      autocomplete="off"
      placeholder=${value === null ? w.site.notKnown : ''}
      aria-keyshortcuts="Alt+Enter"
      aria-invalid=${trouble === '' ? nothing : 'true'}
      aria-describedby=${described}
      ${typedIn(this.shown(), (input) => this.take(input))}
    />`;
  }

  private choice(name: string) {
    const { field, session } = this;
    const value = String(field.value ?? '');
    const known = field.words.includes(value);
    return html`<select
      id="value"
      class=${field.from === 'typed' ? 'own' : 'default'}
      aria-label=${name}
      aria-keyshortcuts="Alt+Enter"
      aria-invalid=${field.trouble === '' ? nothing : 'true'}
      aria-describedby=${field.trouble === '' ? 'from' : 'trouble'}
      @change=${(e: Event) => void this.set(chosenIn(e))}
    >
      ${options(
        (known ? field.words : [value, ...field.words]).map((word) => ({
          value: word,
          label: session.spoken(word).text,
          lang: session.spoken(word).lang ?? session.language,
        })),
        value,
      )}
    </select>`;
  }
}
define('sb-site-field', SiteFieldPart);
