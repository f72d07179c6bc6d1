/** The monthly table of weather, to be typed: begins with the months that are in use. */
import { css, html, noChange, nothing, type PropertyValues } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Cell } from '../../tables/cells.js';
import { text } from '../../tables/cells.js';
import { define, SessionElement } from './element.js';
import { typedValue } from './format.js';
import { button } from './pieces.js';
import { base, fields, tables } from './styles.js';

const MONTHS = Array.from({ length: 12 }, (_, i) => i + 1);
const COLUMNS = ['et0', 'rain', 'share'] as const;
type Column = (typeof COLUMNS)[number];

export class WeatherMonths extends SessionElement {
  static override properties = { ...SessionElement.properties, trouble: { state: true } };
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
    this.trouble = '';
  }

  /** Other units, other numbers: what was typed before is no longer meant. */
  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    const { units } = this.session.draft;
    if (units !== this.units) this.typed.clear();
    this.units = units;
  }

  /** The share typed for a month; the reading of the planner does not repeat it. */
  private shareOf(month: number): Cell {
    const [header = [], ...rows] = this.session.draft.weather ?? [];
    const [at, monthAt] = [/share/i, /month/i].map((name) =>
      header.findIndex((cell) => name.test(text(cell))),
    );
    if (at === undefined || monthAt === undefined || at < 0 || monthAt < 0) return null;
    return rows.find((row) => Number(row[monthAt]) === month)?.[at] ?? null;
  }

  private shown(month: number, column: Column): string {
    const { f, session } = this;
    if (column === 'share') {
      const share = this.shareOf(month);
      return typeof share === 'number' ? f.plain(share) : text(share);
    }
    const known = session.setup?.weather.months.find((m) => m.month === month);
    return known === undefined ? '' : f.plain(Number(known[column].toPrecision(3)));
  }

  private use(): void {
    const { w, f, session } = this;
    const unit = session.draft.units === 'US' ? 'in' : 'mm';
    const rows: Cell[][] = [];
    this.trouble = '';
    for (const month of MONTHS) {
      const typed = COLUMNS.map((column) => {
        const input = this.renderRoot.querySelector<HTMLInputElement>(`#${column}-${month}`);
        return typedValue(input?.value ?? '');
      });
      if (typed.every((value) => value === null)) continue;
      const [et0, rain, share] = typed;
      const wrong = typeof et0 !== 'number' || [rain, share].some((v) => typeof v === 'string');
      if (wrong) {
        this.trouble = w.site.monthWrong(f.month(month));
        this.renderRoot.querySelector<HTMLInputElement>(`#et0-${month}`)?.focus();
        return;
      }
      rows.push([month, et0, rain ?? null, share ?? null]);
    }
    if (rows.length === 0) {
      this.trouble = w.site.noMonths;
      return;
    }
    const header = ['Month', `ET0 (${unit}/day)`, `Rain (${unit})`, 'Share of rain to count on'];
    void session.attempt(async () => {
      const used = [...this.typed];
      await session.change({ weather: [header, ...rows] });
      used.forEach((id) => this.typed.delete(id));
      this.requestUpdate();
    });
  }

  protected override render() {
    const { w, f, session, trouble } = this;
    const unit = session.draft.units === 'US' ? 'in' : 'mm';
    const titles: Record<Column, string> = {
      et0: w.site.et0(unit),
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
            ${COLUMNS.map((column) => html`<th scope="col">${titles[column]}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${MONTHS.map(
            (month) =>
              html`<tr>
                <th scope="row">${f.month(month)}</th>
                ${COLUMNS.map((column) => {
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
      <p class="quiet gap">${w.site.shareNote}</p>
      ${trouble === '' ? nothing : html`<p class="trouble gap" role="alert">${trouble}</p>`}
      <div class="buttons">${button(w.site.useMonths, () => this.use(), { id: 'use-months' })}</div>
    `;
  }
}
define('sb-weather-months', WeatherMonths);
