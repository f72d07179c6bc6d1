/** What else a log says: trees that differ from the plan, meters beside it, the contract by it, the pace of a crew. */
import { css, html, nothing } from 'lit';
import type { LogReport, MeterLine } from '../../workers/contract-types.js';
import { define } from '../parts/element.js';
import { button, planner, said } from '../parts/pieces.js';
import { base, tables } from '../parts/styles.js';
import { clauseSays } from './contract-clause-line.js';
import { ContractPart } from './contract-part.js';

const TREES_FIRST = 8;
/** An id of so many letters stays on one line. */
const SHORT_ID = 10;

export class ContractLogMore extends ContractPart {
  static override properties = {
    ...ContractPart.properties,
    report: { attribute: false },
    meterSheet: { attribute: false },
  };
  declare report: LogReport;
  /** where the meters stand; undefined where they are from a file */
  declare meterSheet: string | undefined;

  static override styles = [
    base,
    tables,
    ContractPart.partStyles,
    css`
      table {
        margin-top: 4px;
      }
      .short {
        white-space: nowrap;
      }
    `,
  ];

  protected override async look(): Promise<() => void> {
    return () => undefined;
  }

  protected override render() {
    const { c, f, report } = this;
    const { missed, meters, pace, waterUnit } = report;
    return html`
      ${missed === undefined ? nothing : this.trees()}
      <h3>${c.log.meters}</h3>
      ${meters ? this.meters(meters) : html`<p class="quiet" id="no-meters">${c.log.noMeters}</p>`}
      ${this.contract()}
      ${
        pace
          ? html`<h3>${c.log.paceTitle}</h3>
              <p id="pace">
                ${c.log.pace(f.amount(pace.treesPerDay), f.amount(pace.minutesAtTree), f.amount(pace.minutesBetween), this.water(pace.perTree, waterUnit))}
              </p>`
          : nothing
      }
    `;
  }

  private trees() {
    const { c, f, w, report, all } = this;
    const { trees, waterUnit } = report;
    if (trees.length === 0)
      return html`<h3>${c.log.trees}</h3>
        <p class="fine" id="no-differing">${c.log.noTrees}</p>`;
    const whole = all.has('trees');
    const unit = w.unit(waterUnit);
    return html`
      <h3 id="trees-title">${c.log.trees}</h3>
      <table id="differing" aria-labelledby="trees-title">
        <thead>
          <tr>
            <th scope="col">${c.log.tree}</th>
            <th scope="col" class="number">${c.log.madeOf}</th>
            <th scope="col" class="number">${c.log.missedOf}</th>
            <th scope="col" class="number">${c.log.given(unit)}</th>
            <th scope="col" class="number">${c.log.plannedOf(unit)}</th>
          </tr>
        </thead>
        <tbody>
          ${trees.slice(0, whole ? trees.length : TREES_FIRST).map(
            ({ id, made, missed, applied, planned }) =>
              html`<tr>
                <th scope="row" class=${id.length <= SHORT_ID ? 'short' : ''}>${id}</th>
                <td class="number">${f.whole(made)}</td>
                <td class="number">${f.whole(missed)}</td>
                <td class="number">${f.amount(applied)}</td>
                <td class="number">${f.amount(planned)}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      ${
        trees.length > TREES_FIRST && !whole
          ? html`<div class="buttons">
              ${button(c.showAll(f, trees.length), () => (this.all = new Set([...all, 'trees'])), { small: true, id: 'all-trees' })}
            </div>`
          : nothing
      }
    `;
  }

  private meters({ rows, unmetered, problems }: NonNullable<LogReport['meters']>) {
    const { c, f, report, meterSheet } = this;
    return html`
      ${this.list('meters', rows, (line) => html`${this.place(line.row, meterSheet)}${this.meter(line)}`)}
      ${
        unmetered.rows === 0
          ? nothing
          : html`<p class="gap" id="unmetered">
              ${c.log.unmetered(f, this.water(unmetered.water, report.waterUnit), unmetered.rows)}
            </p>`
      }
      ${this.notUsed(problems, meterSheet, 'meter-problems')}
    `;
  }

  private meter({ meter, from, to, used, logged, agrees, over, cost, questions }: MeterLine) {
    const { c, f, report } = this;
    const water = (amount: number): string => this.water(amount, report.waterUnit);
    const parts = [
      c.log.meterLine(used === undefined ? c.log.unknownUse : water(used), water(logged)),
      over > 0 ? c.log.over(water(over)) : '',
      cost === undefined ? '' : c.log.cost(this.money(cost, report.currency)),
    ].filter((part) => part !== '');
    return html`<div>
      <strong>${meter}</strong>, ${c.log.meterDays(f.day(from), f.day(to))}:
      <span class=${agrees === true ? 'fine' : ''}>${parts.join('; ')}</span>.
      ${questions.map((question) => planner(this.session, question))}
    </div>`;
  }

  private contract() {
    const { c, f, report, session } = this;
    const { contract = [], waterUnit, currency } = report;
    if (contract.length === 0) return nothing;
    return html`
      <h3>${c.log.contract}</h3>
      ${this.list(
        'by-log',
        contract,
        (line) =>
          html`${this.place(line.row, undefined)}
            <div>
              ${clauseSays(line, {
                words: c,
                formats: f,
                water: (amount) => this.water(amount, waterUnit),
                money: (amount) => this.money(amount, currency),
                said: (sentence) => said(session, sentence),
                toTree: (row, id) =>
                  button(
                    c.clauses.toTree(id),
                    () =>
                      void session.attempt(() => session.host.showCell(row - 1, 0, session.sheet)),
                    { small: true },
                  ),
              })}
            </div>`,
      )}
    `;
  }
}
define('sb-contract-log-more', ContractLogMore);
