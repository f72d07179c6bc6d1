/** One tree of the plan: its water left, why its means, and why each of its dates. */
import { css, html, nothing, type PropertyValues } from 'lit';
import type { WaterLeftSeries } from '../../workbook/series-types.js';
import type { PlanSummary } from '../../workers/plan-room.js';
import { define, SessionElement } from '../parts/element.js';
import { button, chosenIn, options, planner } from '../parts/pieces.js';
import { base, fields, tables } from '../parts/styles.js';
import { buildWords } from '../words/build.js';
import './build-picture.js';

/** A longer list is not searched by anybody; the chosen cell leads to the other rows. */
const MOST_PICKS = 500;

export class BuildTree extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    plan: { attribute: false },
    row: { state: true },
    series: { state: true },
  };
  declare plan: PlanSummary;
  declare private row: number | undefined;
  declare private series: WaterLeftSeries | undefined;
  private asked = 0;

  static override styles = [
    base,
    fields,
    tables,
    css`
      :host {
        container-type: inline-size;
      }
      td:first-child,
      th[scope='row'] {
        white-space: nowrap;
      }
      /* little room for large text: the reason below its day and amount */
      @container (max-width: 17em) {
        thead {
          display: none;
        }
        tr {
          display: flex;
          flex-wrap: wrap;
          justify-content: space-between;
          border-bottom: 1px solid var(--rule);
        }
        th,
        td {
          border: 0;
        }
        td[lang] {
          flex: 1 1 100%;
        }
        td.number::after {
          content: attr(data-unit);
        }
      }
      h4 {
        margin: 12px 0 4px;
        font-size: 0.875rem;
        font-weight: 650;
      }
      .scroll {
        max-height: 260px;
        overflow: auto;
      }
    `,
  ];

  constructor() {
    super();
    this.row = undefined;
    this.series = undefined;
  }

  private get b() {
    return buildWords(this.session.language).pictures;
  }

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    if (!changed.has('plan')) return;
    const { picks, lost } = this.plan;
    const there = picks.some(({ row }) => row === this.row);
    // whoever opens this first wants to know about a tree that cannot be kept
    if (!there) this.row = lost[0]?.row ?? picks[0]?.row;
    void this.load();
  }

  private async load(): Promise<void> {
    const { row, session } = this;
    const asked = ++this.asked;
    if (row === undefined) return;
    await session.attempt(async () => {
      const series = await session.room.tree(row);
      if (asked === this.asked) this.series = series;
    });
  }

  private pick(row: number): void {
    this.row = row;
    void this.load();
  }

  private useChosen(): void {
    const { session, b, plan } = this;
    const row = Number(/\d+$/.exec(session.chosen?.address ?? '')?.[0]);
    if (!row) return session.say(b.noChosen, 'trouble');
    if (!plan.picks.some((pick) => pick.row === row))
      return session.say(b.notPlanned(row), 'trouble');
    this.pick(row);
  }

  protected override render() {
    const { b, plan, row, series, session } = this;
    const own = plan.picks.find((pick) => pick.row === row);
    const first = plan.picks.slice(0, MOST_PICKS);
    const list = own && !first.includes(own) ? [own, ...first] : first;
    return html`
      <label for="pick">${b.pick}</label>
      <select id="pick" class="preset" @change=${(e: Event) => this.pick(Number(chosenIn(e)))}>
        ${options(
          list.map((pick) => ({ value: String(pick.row), label: b.pickRow(pick.row, pick.label) })),
          String(row),
        )}
      </select>
      <div class="buttons">
        ${button(b.useChosen, () => this.useChosen(), { small: true, id: 'use-chosen' })}
        ${
          row === undefined
            ? nothing
            : button(
                b.toRow,
                () => void session.attempt(() => session.host.showCell(row - 1, 0, session.sheet)),
                { small: true, id: 'to-row' },
              )
        }
      </div>
      ${series ? this.shown(series) : nothing}
    `;
  }

  private shown(series: WaterLeftSeries) {
    const { b, f, session } = this;
    const { waterings, whyMeans, means, unit } = series;
    return html`
      <sb-picture id="water" .session=${session} .shown=${{ kind: 'water', series }}></sb-picture>
      <h4>${b.whyMeans(this.session.spoken(means).text)}</h4>
      ${planner(this.session, whyMeans)}
      ${
        waterings.length === 0
          ? html`<p class="gap">${b.noWaterings}</p>`
          : html`<h4 id="dates-title">${b.whyDates(f, waterings.length)}</h4>
              <div class="scroll" tabindex="0" role="region" aria-labelledby="dates-title">
                <table id="dates">
                  <thead>
                    <tr>
                      <th scope="col">${b.day}</th>
                      <th scope="col" class="number">${b.amount(unit)}</th>
                      <th scope="col">${b.why}</th>
                    </tr>
                  </thead>
                  <tbody>
                    ${waterings.map(
                      ({ day, amount, why }) =>
                        html`<tr>
                          <th scope="row">${f.day(day)}</th>
                          <td class="number" data-unit=${`\u00A0${unit}`}>${f.amount(amount)}</td>
                          <td lang=${this.session.spoken(why).lang ?? nothing}>
                            ${this.session.spoken(why).text}
                          </td>
                        </tr>`,
                    )}
                  </tbody>
                </table>
              </div>`
      }
    `;
  }
}
define('sb-build-tree', BuildTree);
