/** One line of an order: which means, who, which days and hours. Says with an event what it has become. */
import { css, html, nothing } from 'lit';
import type { RuleColumn } from '../../workers/plan-room.js';
import type { Verdict } from '../../engine/rules/rule-types.js';
import {
  endsTyped,
  MORE,
  ORDER_MEANS,
  typedCell,
  WEEK,
  type LineTrouble,
  type OrderLine,
  type OrderMeans,
  type Span,
} from '../../workbook/order-lines.js';
import { define, SessionElement } from './element.js';
import { button, chosenIn, options, said } from './pieces.js';
import { base, fields } from './styles.js';
import { typedIn } from './typed-in.js';
import { orderWords, type OrderWords } from '../words/order.js';
import { orderBox } from './order-styles.js';
import { troubleAt } from './order-trouble.js';

/** Settings: words to choose from; blank takes the first. */
const SETTINGS: ReadonlySet<string> = new Set(['31st', 'Midnight', 'Finish', 'Drain', 'Filling', 'Day one', 'Target']); // prettier-ignore
type TextKey = 'address' | 'perWeek' | 'every' | 'from' | 'to' | 'from2' | 'to2' | 'words';

/** What a text typed into a field says; a first hour may come with the last one. */
function typedInto(field: TextKey, typed: string): Partial<OrderLine> {
  const ends = field === 'from' || field === 'from2' ? endsTyped(typed) : undefined;
  if (!ends) return { [field]: typed };
  return field === 'from' ? ends : { from2: ends.from, to2: ends.to };
}

export class OrderLinePart extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    line: { attribute: false },
    number: { attribute: false },
    others: { attribute: false },
    troubles: { attribute: false },
    sentence: { attribute: false },
    columns: { attribute: false },
    hasClosed: { attribute: false },
    wordy: { state: true },
  };
  declare line: OrderLine;
  /** from 1, as it is called */
  declare number: number;
  /** means no other line names */
  declare others: readonly OrderMeans[];
  declare troubles: readonly LineTrouble[];
  /** how the rules read it, "" while they do not */
  declare sentence: string;
  declare columns: readonly RuleColumn[];
  /** hours are closed for everything, so a line without hours means all but them */
  declare hasClosed: boolean;
  /** the address is to be written in words */
  declare private wordy: boolean;

  static override styles = [
    base,
    fields,
    orderBox,
    css`
      .head {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
        align-items: center;
      }
      .head h4 {
        flex: 1;
        margin: 0;
        font-size: 0.875rem;
        font-weight: 650;
      }
      legend,
      .name {
        display: block;
        margin: 8px 0 0;
        font-size: 0.8125rem;
        font-weight: 600;
        color: var(--loam);
      }
      .means {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(8.5em, 1fr));
        gap: 0 8px;
      }
      .means .check {
        margin-top: 4px;
      }
      .week {
        display: grid;
        grid-template-columns: repeat(7, minmax(0, 1fr));
        gap: 4px;
        margin-top: 4px;
      }
      .week button {
        font: inherit;
        min-height: 32px;
        padding: 2px 0;
        color: var(--bark);
        background: var(--straw);
        border: 1px solid var(--ochre);
        border-radius: 6px;
        cursor: pointer;
      }
      .week button[aria-pressed='true'] {
        font-weight: 650;
        color: var(--on-water);
        background: var(--water);
        border-color: var(--water);
      }
      @media (forced-colors: active) {
        .week button[aria-pressed='true'] {
          border-width: 3px;
        }
      }
    `,
  ];

  constructor() {
    super();
    [this.others, this.troubles, this.columns, this.sentence, this.number, this.hasClosed, this.wordy] = [[], [], [], '', 1, false, false]; // prettier-ignore
  }

  private get o(): OrderWords {
    return orderWords(this.session.language);
  }

  /** The first field, or the first that cannot be used. */
  focusField(field = 'means'): void {
    const place = this.renderRoot.querySelector<HTMLElement>(`#${CSS.escape(this.idOf(field))}`);
    place?.closest('details')?.setAttribute('open', '');
    place?.focus();
  }
  private idOf(field: string): string {
    return field === 'means'
      ? `m-${ORDER_MEANS[0]}`
      : field === 'days'
        ? 'dates'
        : field.replaceAll(' ', '-');
  }

  private become(part: Partial<OrderLine>): void {
    this.dispatchEvent(new CustomEvent('become', { detail: { ...this.line, ...part } }));
  }
  private setMore(name: string, typed: string): void {
    const more = { ...this.line.more };
    if (typed.trim() === '') delete more[name];
    else more[name] = typed.trim();
    this.become({ more });
  }
  private toggleMeans(word: OrderMeans, on: boolean): void {
    const now = this.line.means ?? ORDER_MEANS;
    const means = ORDER_MEANS.filter((m) => (m === word ? on : now.includes(m)));
    this.become({ means: means.length === ORDER_MEANS.length ? null : means });
  }
  private toggleDay(day: number): void {
    const { weekdays, dates } = this.line;
    this.become({ weekdays: weekdays ^ (1 << day), dates: dates === 'none' ? 'any' : dates });
  }

  private troubleAt(field: string): string {
    return troubleAt(this.troubles, field, this.o, this.session);
  }
  private wrong(field: string) {
    const sentence = this.troubleAt(field);
    return sentence === ''
      ? nothing
      : html`<p class="trouble" id=${`${this.idOf(field)}-trouble`} role="alert">${sentence}</p>`;
  }
  private described(field: string, note = ''): string | typeof nothing {
    const ids = [...(this.troubleAt(field) === '' ? [] : [`${this.idOf(field)}-trouble`]), ...(note === '' ? [] : [note])]; // prettier-ignore
    return ids.length === 0 ? nothing : ids.join(' ');
  }

  private text(field: TextKey, label: string, note = '') {
    return html`<div>
      <label class="name" for=${field}>${label}</label>
      <input
        id=${field}
        autocomplete="off"
        aria-invalid=${this.troubleAt(field) === '' ? nothing : 'true'}
        aria-describedby=${this.described(field, note)}
        ${typedIn(this.line[field], ({ value }) => this.become(typedInto(field, value.trim())))}
      />
    </div>`;
  }

  protected override render() {
    const { o, line, number } = this;
    return html`
      <div class="head">
        <h4 id="title">${o.line(number)}</h4>
        ${button(o.copy, () => this.dispatchEvent(new CustomEvent('copy-line')), { small: true, id: 'copy', name: o.copyOf(number) })}
        ${button(o.remove, () => this.dispatchEvent(new CustomEvent('remove-line')), { small: true, id: 'remove', name: o.removeOf(number) })}
      </div>
      ${this.means()}
      <div class="pair">
        ${this.select('verdict', o.verdict, o.verdicts, line.verdict, (v) => this.become({ verdict: v as Verdict }))}
        ${this.address()}
      </div>
      ${this.days()} ${this.hours()} ${this.more()}
      <p class="reads" id="reads">
        ${this.sentence === '' ? html`<span class="quiet">${o.unread}</span>` : html`<span class="quiet">${o.reads}</span> ${said(this.session, this.sentence)}`}
      </p>
    `;
  } // prettier-ignore

  private select(
    id: string,
    label: string,
    list: Readonly<Record<string, string>>,
    chosen: string,
    take: (value: string) => void,
  ) {
    return html`<div>
      <label class="name" for=${id}>${label}</label>
      <select
        id=${id}
        aria-describedby=${this.described(id === 'dates' ? 'days' : id)}
        @change=${(e: Event) => take(chosenIn(e))}
      >
        ${options(
          Object.entries(list).map(([value, text]) => ({ value, label: text })),
          chosen,
        )}
      </select>
    </div>`;
  }

  private means() {
    const { o, line, others } = this;
    return html`<fieldset aria-describedby=${this.described('means')}>
      <legend>${o.means}</legend>
      <div class="means">
        ${ORDER_MEANS.map(
          (word) =>
            html`<label class="check"
              ><input
                type="checkbox"
                id=${`m-${word}`}
                .checked=${line.means === null || line.means.includes(word)}
                @change=${(e: Event) => this.toggleMeans(word, (e.target as HTMLInputElement).checked)}
              /><span>${o.meansWords[word]}</span></label
            >`,
        )}
      </div>
      <div class="buttons">
        ${button(o.all, () => this.become({ means: null }), { small: true, id: 'all-means' })}
        ${
          others.length === 0 || others.length === ORDER_MEANS.length
            ? nothing
            : button(o.others(others.map((word) => o.meansWords[word])), () => this.become({ means: others }), { small: true, id: 'the-others' })
        }
      </div>
      ${line.means === null ? html`<p class="quiet">${o.allMeans}</p>` : nothing}
      ${this.wrong('means')}
    </fieldset>`;
  } // prettier-ignore

  private address() {
    const { o, line } = this;
    const known = line.address in o.addresses && line.address !== 'words';
    const chosen = this.wordy || !known ? 'words' : line.address;
    return html`${this.select('address-kind', o.address, o.addresses, chosen, (value) => {
      this.wordy = value === 'words';
      if (value !== 'words') this.become({ address: value });
    })}${chosen === 'words' ? this.text('address', o.addressWords) : nothing}${this.wrong('address')}`;
  } // prettier-ignore

  private days() {
    const { o, line } = this;
    return html`<fieldset aria-describedby=${this.described('days', line.weekdays === 0 ? 'any-day' : '')}>
        <legend>
          ${o.days}${
            line.weekdays === 0 && line.dates !== 'none'
              ? html` <span class="quiet" id="any-day">(${o.anyDay})</span>`
              : nothing
          }
        </legend>
        <div class="week">
          ${WEEK.map((day) => {
            const name = o.weekdays[day] ?? '';
            return html`<button
              type="button"
              id=${`day-${day}`}
              aria-pressed=${(line.weekdays >> day) & 1 ? 'true' : 'false'}
              @click=${() => this.toggleDay(day)}
            >
              <span aria-hidden="true">${name.slice(0, 2)}</span><span class="unseen">${name}</span>
            </button>`;
          })}
        </div>
      </fieldset>
      ${this.select('dates', o.dates, o.datesWords, line.dates, (v) =>
        this.become({ dates: v as OrderLine['dates'], ...(v === 'none' && { weekdays: 0 }) }),
      )}
      ${this.wrong('days')}`;
  } // prettier-ignore

  private hours() {
    const { o, line } = this;
    const spans = line.verdict === 'ban' ? o.banSpans : o.spans;
    return html`<div>
      ${this.select('span', o.hours, spans, line.span, (v) => this.become({ span: v as Span }))}
      ${
        line.span === 'words'
          ? this.text('words', o.hourWords)
          : html`<div class="pair">
                ${this.text('from', o.hourFrom, 'hours-note')} ${this.text('to', o.hourTo, 'hours-note')}
              </div>
              ${this.wrong('from')} ${this.wrong('to')}
              ${
                line.span === 'within'
                  ? html`<div class="pair">
                        ${this.text('from2', o.hourFrom2)} ${this.text('to2', o.hourTo2)}
                      </div>
                      ${this.wrong('from2')} ${this.wrong('to2')}`
                  : nothing
              }
              <p class="quiet" id="hours-note">${this.hasClosed ? o.hoursNoteClosed : o.hoursNote}</p>`
      }
      ${this.wrong('words')}
    </div>`;
  } // prettier-ignore

  private more() {
    const { o } = this;
    return html`<details id="more">
      <summary>${o.more}</summary>
      ${this.text('perWeek', o.perWeek)} ${this.wrong('perWeek')} ${this.text('every', o.every)}
      ${this.wrong('every')} ${MORE.map((name) => this.moreField(name))}
    </details>`;
  }

  private moreField(name: string) {
    const { o, line, columns, session } = this;
    const id = this.idOf(name);
    const label = o.columns[name as keyof OrderWords['columns']];
    const accepted = columns.find((c) => c.name === name)?.accepted ?? '';
    const value = typedCell(name, line.more[name]);
    if (SETTINGS.has(name)) {
      const list = ['', ...accepted.split(', ')];
      return html`<div>
        <label class="name" for=${id}>${label}</label>
        <select
          id=${id}
          aria-describedby=${this.described(name)}
          @change=${(e: Event) => this.setMore(name, chosenIn(e))}
        >
          ${options(
            (list.includes(value) ? list : [...list, value]).map((word) => ({
              value: word,
              label: word === '' ? '—' : session.spoken(word).text,
            })),
            value,
          )}
        </select>
        ${this.wrong(name)}
      </div>`;
    }
    return html`<div>
      <label class="name" for=${id}>${label}</label>
      <input
        id=${id}
        autocomplete="off"
        aria-invalid=${this.troubleAt(name) === '' ? nothing : 'true'}
        aria-describedby=${this.described(name, `${id}-note`)}
        ${typedIn(value, (field) => this.setMore(name, field.value))}
      />
      ${this.wrong(name)}
      <p class="quiet" id="${id}-note">${said(session, accepted)}</p>
    </div>`;
  }
}
define('sb-order-line', OrderLinePart);
