/** The answer of a function: its value with its unit, a table's first rows, or why there is none. Read aloud when typing rests. */
import { css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { isoDate } from '../../engine/dates.js';
import type { CellValue } from '../../functions/answer.js';
import { define, SessionElement } from '../parts/element.js';
import { bigNumber, planner, said } from '../parts/pieces.js';
import { base, numbers, tables } from '../parts/styles.js';
import { cornerWords } from '../words/corners.js';
import type { Argument } from './function-arguments.js';
import type { FunctionEntry, FunctionNote } from './function-data.js';
import { columnsOf, resultOf, unitOf, type Result } from './function-results.js';
import type { Answer } from './live-answer.js';

/** Rows of a table that are shown. */
const ROWS = 5;
/** Numbers side by side; what has more is a table. */
const SIDE_BY_SIDE = 3;
/** Typing rests before the answer is read aloud [ms]. */
const REST = 1200;
const MINUTES = 60;

export class FunctionAnswerPart extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    entry: { attribute: false },
    note: { attribute: false },
    list: { attribute: false },
    answer: { attribute: false },
    aloud: { state: true },
  };
  declare entry: FunctionEntry;
  declare note: FunctionNote | undefined;
  declare list: readonly Argument[];
  /** undefined while it is worked out for the first time */
  declare answer: Answer | undefined;
  declare private aloud: string;
  private timer: ReturnType<typeof setTimeout> | undefined;

  static override styles = [
    base,
    numbers,
    tables,
    css`
      .value {
        font-size: 1.5rem;
        line-height: 1.25;
        font-weight: 650;
        overflow-wrap: anywhere;
      }
      .value small {
        font-size: 0.9375rem;
        font-weight: 400;
      }
      .numbers {
        margin-top: 0;
      }
      .example {
        color: var(--ochre);
        font-size: 0.8125rem;
      }
    `,
  ];

  constructor() {
    super();
    this.list = [];
    this.answer = undefined;
    this.aloud = '';
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    clearTimeout(this.timer);
  }

  private get b() {
    return cornerWords(this.session.language).functions.answer;
  }

  /** What is shown, when nobody has typed for a moment; the same is not said twice. */
  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    if (!changed.has('answer')) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => (this.aloud = this.sentence()), REST);
  }

  /** The value as text: "6.2 h", a day, a word. */
  shown(value: CellValue, { kind }: Result, unit: string): string {
    const { b, f, w, session } = this;
    if (typeof value === 'boolean') return value ? b.yes : b.no;
    if (typeof value === 'string') return session.spoken(value).text;
    if (kind === 'date' || kind === 'moment') {
      const day = Math.floor(value);
      const minute = Math.round((value - day) * MINUTES * 24);
      const two = (n: number): string => String(n).padStart(2, '0');
      const time = ` ${two(Math.floor(minute / MINUTES))}:${two(minute % MINUTES)}`;
      return `${f.day(day)} ${isoDate(day).slice(0, 4)}${kind === 'moment' ? time : ''}`;
    }
    return `${f.figure(value)} ${w.unit(unit)}`.trim();
  }

  /** Unit of the result, in the system the arguments choose. */
  private get unit(): string {
    const { entry, list } = this;
    const units = list[0]?.units ?? this.session.draft.units;
    return unitOf(entry.id, units, list.at(-1)?.typed ?? '');
  }

  private sentence(): string {
    const { answer, b, entry, session } = this;
    if (!answer) return '';
    if (answer.kind === 'missing') return b.missing(answer.parameter);
    if (answer.kind === 'bySheet') return b.bySheet(answer.parameter);
    if (answer.kind === 'trouble') return session.spoken(answer.sentence).text;
    const { value } = answer;
    if (!Array.isArray(value)) return this.shown(value, resultOf(entry.id), this.unit);
    if (value.length > 1) return b.rows(Math.min(ROWS, value.length), value.length);
    return this.columns()
      .map(([name, result], i) => `${name} ${this.shown(value[0]![i]!, result, this.unitIn(result))}`)
      .join(', ');
  } // prettier-ignore

  private unitIn(result: Result): string {
    return result[this.list[0]?.units ?? this.session.draft.units];
  }

  private columns(): [string, Result][] {
    const { b, entry } = this;
    return (columnsOf(entry.id) ?? []).map(([key, result]) => [b.columns[key] ?? key, result]);
  }

  protected override render() {
    return html`${this.body()}
      <p class="unseen" role="status" aria-live="polite" id="aloud">${this.aloud}</p>`;
  }

  private body(): TemplateResult {
    const { answer, b, session } = this;
    if (!answer) return html`<p class="quiet" id="value">${b.working}</p>`;
    if (answer.kind === 'missing')
      return html`<p class="quiet" id="value">${b.missing(answer.parameter)}</p>`;
    if (answer.kind === 'bySheet')
      return html`<p class="quiet" id="value">${b.bySheet(answer.parameter)}</p>`;
    if (answer.kind === 'trouble')
      return answer.parameter === undefined
        ? planner(session, answer.sentence, 'trouble', 'value')
        : html`<p class="quiet" id="value">${b.mend(answer.parameter)}</p>`;
    return html`${this.value(answer.value)}${this.meaning()}`;
  }

  private value(value: CellValue | CellValue[][]): TemplateResult {
    const { entry } = this;
    if (Array.isArray(value)) return this.table(value);
    const result = resultOf(entry.id);
    if (typeof value === 'string' && result.kind === 'number')
      return html`<p class="value" id="value">${said(this.session, value)}</p>`;
    const { unit } = this;
    const also = typeof value === 'number' ? inHours(value, unit) : '';
    return html`<p class="value" id="value">
      ${this.shown(value, result, unit)}${also === '' ? nothing : html` <small>= ${also}</small>`}
    </p>`;
  }

  private table(rows: CellValue[][]): TemplateResult {
    const columns = this.columns();
    const cell = (value: CellValue, result: Result): string =>
      value === '' ? '' : this.shown(value, result, '');
    const head = ([name, result]: [string, Result]): string => {
      const unit = this.w.unit(this.unitIn(result));
      return unit === '' ? name : `${name} (${unit})`;
    };
    if (rows.length === 1 && columns.length <= SIDE_BY_SIDE)
      return html`<dl class="numbers" id="value">
        ${columns.map(([name, result], i) =>
          bigNumber(name, this.shown(rows[0]![i]!, result, this.unitIn(result))),
        )}
      </dl>`;
    return html`<table id="value">
      <caption>
        ${this.b.rows(Math.min(ROWS, rows.length), rows.length)}
      </caption>
      <thead>
        <tr>
          ${columns.map((column) => html`<th scope="col">${head(column)}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${rows.slice(0, ROWS).map(
          (row) =>
            html`<tr>
              ${row.map((value, i) => html`<td>${cell(value, columns[i]?.[1] ?? resultOf(''))}</td>`)}
            </tr>`,
        )}
      </tbody>
    </table>`;
  } // prettier-ignore

  /** What the value is, and which of its arguments are still the example's. */
  private meaning() {
    const { b, note, list, session } = this;
    const examples = list.filter(({ origin }) => origin.kind === 'example');
    return html`
      ${
        note && session.language === 'en'
          ? html`<p class="quiet">${note.result.charAt(0).toUpperCase()}${note.result.slice(1)}.</p>`
          : nothing
      }
      ${
        examples.length === 0
          ? nothing
          : html`<p class="example" id="examples">
              ${b.examples(examples.map(({ parameter }) => parameter.name).join(', '))}
            </p>`
      }
    `;
  } // prettier-ignore
}
define('sb-function-answer', FunctionAnswerPart);

/** Hours, or many minutes, as hours and minutes: "6 h 12 min"; "" where that says nothing more. */
export function inHours(value: number, unit: string): string {
  const minutes = Math.round(unit === 'h' ? value * MINUTES : value);
  const worth = unit === 'h' ? !Number.isInteger(value) : unit === 'min' && minutes > 90;
  if (!worth) return '';
  const [hours, rest] = [Math.floor(minutes / MINUTES), minutes % MINUTES];
  return [hours > 0 ? `${hours} h` : '', rest > 0 ? `${rest} min` : ''].filter(Boolean).join(' ');
}
