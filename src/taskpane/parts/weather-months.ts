/**
 * The monthly table of weather, to be typed: ET0 and rain, or the mean highs and lows anybody can look up for a town. Begins
 * with the months that are in use; an example's numbers are nobody's, so highs and lows begin blank.
 */
import { css, html, noChange, nothing, type PropertyValues } from 'lit';
import { live } from 'lit/directives/live.js';
import { celsiusToFahrenheit, fahrenheitToCelsius } from '../../engine/units.js';
import type { Cell } from '../../tables/cells.js';
import { text } from '../../tables/cells.js';
import { define, SessionElement } from './element.js';
import { typedValue } from './format.js';
import { button } from './pieces.js';
import { base, fields, tables } from './styles.js';

const MONTHS = Array.from({ length: 12 }, (_, i) => i + 1);
const COLUMNS = {
  et0: ['et0', 'rain', 'share'],
  temperatures: ['tmax', 'tmin', 'rain'],
} as const;
type By = keyof typeof COLUMNS;
type Column = (typeof COLUMNS)[By][number];
/** Columns of the table that is kept, as its headers are known again. */
const KEPT = { month: /^month/i, share: /^share/i, tmax: /^tmax/i, tmin: /^tmin/i } as const;

/** A table of means by month with highs and lows. */
export const isOfTemperatures = (weather: readonly (readonly Cell[])[] | undefined): boolean =>
  [KEPT.month, KEPT.tmax].every((name) => weather?.[0]?.some((cell) => name.test(text(cell))));

export class WeatherMonths extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    by: { type: String },
    trouble: { state: true },
  };
  declare by: By;
  declare private trouble: string;
  /** fields typed in and not used yet: a reading that ends meanwhile leaves them alone */
  private readonly typed = new Set<string>();
  private units = '';

  static override styles = [
    base,
    fields,
    tables,
    css`
      :host {
        container-type: inline-size;
      }
      input {
        min-height: 28px;
        padding: 2px 6px;
        text-align: right;
      }
      th[scope='row'] {
        width: 3.5em;
        padding-top: 8px;
      }
      td,
      th {
        padding-block: 2px;
        border: 0;
      }
      /* little room for large text: each month with its names beside its fields */
      @container (max-width: 17em) {
        thead {
          display: none;
        }
        tr,
        th[scope='row'] {
          display: block;
        }
        tr {
          padding: 4px 0 8px;
          border-bottom: 1px solid var(--rule);
        }
        th[scope='row'] {
          font-weight: 600;
        }
        td {
          display: grid;
          grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
          gap: 8px;
          align-items: center;
        }
        /* seen only: the field has a name of its own */
        td::before {
          content: attr(data-column);
          content: attr(data-column) / '';
        }
      }
    `,
  ];

  constructor() {
    super();
    this.by = 'et0';
    this.trouble = '';
  }

  /** Other units, other numbers: what was typed before is no longer meant. */
  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    const { units } = this.session.draft;
    if (units !== this.units || changed.has('by')) this.typed.clear();
    this.units = units;
  }

  /** What was typed for a month, which the reading of the planner does not repeat, and the header it stands under. */
  private typedFor(month: number, column: keyof typeof KEPT): { cell: Cell; header: string } {
    const [header = [], ...rows] = this.session.draft.weather ?? [];
    const [at, monthAt] = [KEPT[column], KEPT.month].map((name) =>
      header.findIndex((cell) => name.test(text(cell))),
    );
    if (at === undefined || monthAt === undefined || at < 0 || monthAt < 0)
      return { cell: null, header: '' };
    const cell = rows.find((row) => Number(row[monthAt]) === month)?.[at] ?? null;
    return { cell, header: text(header[at]) };
  }

  /** A mean temperature as it was typed, in the units of the panel. */
  private temperature(month: number, column: 'tmax' | 'tmin'): string {
    const { f, units } = this;
    const { cell, header } = this.typedFor(month, column);
    if (typeof cell !== 'number') return text(cell);
    const wasF = header.includes('(F)');
    if (wasF === (units === 'US')) return f.plain(cell);
    const turned = wasF ? fahrenheitToCelsius(cell) : celsiusToFahrenheit(cell);
    return f.plain(Number(turned.toPrecision(3)));
  }

  private shown(month: number, column: Column): string {
    const { f, session } = this;
    if (column === 'share') {
      const { cell: share } = this.typedFor(month, 'share');
      return typeof share === 'number' ? f.plain(share) : text(share);
    }
    if (column === 'tmax' || column === 'tmin') return this.temperature(month, column);
    // rain of the example beside blank temperatures would be taken for one's own
    if (this.by === 'temperatures' && session.draft.weather === undefined) return '';
    const known = session.setup?.weather.months.find((m) => m.month === month);
    return known === undefined ? '' : f.plain(Number(known[column].toPrecision(3)));
  }

  /** The first field of a month whose numbers cannot be used; undefined when all can. */
  private wrongIn(values: readonly Cell[]): Column | undefined {
    const [first, second, third] = values;
    const isText = (value: Cell | undefined): boolean => typeof value === 'string';
    if (this.by === 'et0')
      return typeof first !== 'number' || isText(second) || isText(third) ? 'et0' : undefined;
    if (typeof first !== 'number' || isText(third)) return 'tmax';
    return typeof second !== 'number' || second > first ? 'tmin' : undefined;
  }

  /** Rain that is in use stands beside blank temperatures: nobody has typed anything for the month. */
  private isRainOnly(month: number, [high, low]: readonly Cell[]): boolean {
    const touched = COLUMNS[this.by].some((column) => this.typed.has(`${column}-${month}`));
    return this.by === 'temperatures' && high === null && low === null && !touched;
  }

  private use(): void {
    const { w, f, session, by } = this;
    const rows: Cell[][] = [];
    this.trouble = '';
    for (const month of MONTHS) {
      const typed = COLUMNS[by].map((column) => {
        const input = this.renderRoot.querySelector<HTMLInputElement>(`#${column}-${month}`);
        return typedValue(input?.value ?? '');
      });
      if (typed.every((value) => value === null) || this.isRainOnly(month, typed)) continue;
      const wrong = this.wrongIn(typed);
      if (wrong) {
        const name = f.month(month);
        this.trouble = by === 'et0' ? w.site.monthWrong(name) : w.site.monthWithoutBoth(name);
        this.renderRoot.querySelector<HTMLInputElement>(`#${wrong}-${month}`)?.focus();
        return;
      }
      rows.push([month, ...typed]);
    }
    if (rows.length === 0) {
      this.trouble = w.site.noMonths;
      return;
    }
    void session.attempt(async () => {
      const used = [...this.typed];
      await session.change({ weather: [this.header, ...rows] });
      used.forEach((id) => this.typed.delete(id));
      this.requestUpdate();
    });
  }

  private get header(): string[] {
    const [depth, degree] = this.session.draft.units === 'US' ? ['in', 'F'] : ['mm', 'C'];
    return this.by === 'et0'
      ? ['Month', `ET0 (${depth}/day)`, `Rain (${depth})`, 'Share of rain to count on']
      : ['Month', `Tmax (${degree})`, `Tmin (${degree})`, `Rain (${depth})`];
  }

  protected override render() {
    const { w, f, session, trouble, by } = this;
    const [unit, degree] = session.draft.units === 'US' ? ['in', 'F'] : ['mm', 'C'];
    const titles: Record<Column, string> = {
      et0: w.site.et0(unit),
      tmax: w.site.tmax(degree),
      tmin: w.site.tmin(degree),
      rain: w.site.rain(unit),
      share: w.site.share,
    };
    return html`
      <table>
        <caption class="unseen">
          ${w.site.monthTable}
        </caption>
        <thead>
          <tr>
            <th scope="col">${w.site.month}</th>
            ${COLUMNS[by].map((column) => html`<th scope="col">${titles[column]}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${MONTHS.map(
            (month) =>
              html`<tr>
                <th scope="row">${f.month(month)}</th>
                ${COLUMNS[by].map((column) => {
                  const id = `${column}-${month}`;
                  return html`<td data-column=${titles[column]}>
                    <input
                      id=${id}
                      inputmode="decimal"
                      autocomplete="off"
                      aria-label="${f.month(month)}, ${titles[column]}"
                      .value=${this.typed.has(id) ? noChange : live(this.shown(month, column))}
                      @input=${() => this.typed.add(id)}
                    />
                  </td>`;
                })}
              </tr>`,
          )}
        </tbody>
      </table>
      <p class="quiet gap">${by === 'et0' ? w.site.shareNote : w.site.temperaturesNote}</p>
      ${trouble === '' ? nothing : html`<p class="trouble gap" role="alert">${trouble}</p>`}
      <div class="buttons">${button(w.site.useMonths, () => this.use(), { id: 'use-months' })}</div>
    `;
  }
}
define('sb-weather-months', WeatherMonths);
