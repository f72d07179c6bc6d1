/** Contract: the sheet read clause by clause, the plan by it, the rules against it, and what is asked beyond need. */
import { css, html, nothing, type TemplateResult } from 'lit';
import type {
  ClauseLine,
  ContractJudgement,
  ContractReport,
} from '../../workers/contract-types.js';
import { define } from '../parts/element.js';
import { button, planner, said } from '../parts/pieces.js';
import { base, tables } from '../parts/styles.js';
import { today } from '../session.js';
import { clauseSays } from './contract-clause-line.js';
import { ContractPart } from './contract-part.js';
import { contractModel } from './contract-sheets.js';

export class ContractClauses extends ContractPart {
  static override properties = {
    ...ContractPart.properties,
    report: { state: true },
    writing: { state: true },
  };
  /** undefined where there is no sheet */
  declare private report: ContractReport | undefined;
  declare private writing: boolean;

  static override styles = [
    base,
    tables,
    ContractPart.partStyles,
    css`
      td.number {
        white-space: nowrap;
      }
    `,
  ];

  constructor() {
    super();
    this.report = undefined;
    this.writing = false;
  }

  protected override async look(): Promise<() => void> {
    const { session, planned: judge } = this;
    const cells = await this.cellsOf('contract');
    const report =
      cells && (await session.room.contract({ cells, units: session.draft.units, judge }));
    return () => (this.report = report);
  }

  private async put(): Promise<void> {
    if (this.writing) return;
    this.writing = true;
    const { session, c } = this;
    await this.write(contractModel(session.draft.units, today()), c.clauses.written);
    this.writing = false;
    await this.answered('#open-contract');
  }

  /** Plans by the contract; what is judged then takes the focus. */
  private async plan(): Promise<void> {
    await this.session.makePlan();
    await this.answered('#bare-title');
  }

  protected override render() {
    const { c, report } = this;
    const sheet = this.sheetNamed('contract');
    if (sheet === undefined)
      return html`
        <p>${c.clauses.empty}</p>
        <p class="quiet gap">${c.clauses.order}</p>
        <div class="buttons">
          ${button(c.clauses.put, () => void this.put(), { main: true, id: 'put-contract', disabled: this.writing })}
        </div>
        <p class="quiet gap">${c.clauses.putNote}</p>
        ${this.troubleLine()}
      `;
    return html`${this.troubleLine()}${report ? this.read(report, sheet) : nothing}`;
  }

  private read(report: ContractReport, sheet: string) {
    const { c, f, session } = this;
    const { understood, problems, judged } = report;
    return html`
      <p id="contract-sheet">${c.clauses.inUse(f, sheet, understood.length)}</p>
      <p class="quiet">${c.clauses.order}</p>
      ${
        understood.some(({ example }) => example)
          ? html`<p class="trouble gap" id="contract-example">${c.clauses.example}</p>`
          : nothing
      }
      <div class="buttons">
        ${button(
          c.openSheet(sheet),
          () => void session.attempt(() => session.host.showCell(0, 0, sheet)),
          { small: true, id: 'open-contract' },
        )}
      </div>
      ${this.notUsed(problems, sheet, 'contract-problems')}
      ${
        understood.length === 0
          ? nothing
          : html`<h3>${c.clauses.understood}</h3>
              ${this.list(
                'clauses',
                understood,
                ({ row, sentence }) =>
                  html`${this.place(row, sheet)}
                    <div>
                      ${planner(this.session, sentence)}
                      ${this.verdict(
                        judged?.clauses.find((line) => line.row === row),
                        report,
                      )}
                    </div>`,
                20,
              )}
              ${judged ? this.judged(judged, report, sheet) : this.planBy()}`
      }
    `;
  }

  private verdict(line: ClauseLine | undefined, { judged, waterUnit }: ContractReport) {
    if (!line || !judged) return nothing;
    const { c, f, session } = this;
    return clauseSays(line, {
      words: c,
      formats: f,
      water: (amount) => this.water(amount, waterUnit),
      money: (amount) => this.money(amount, judged.currency),
      said: (sentence) => said(session, sentence),
      toTree: (row, id) =>
        button(
          c.clauses.toTree(id),
          () => void session.attempt(() => session.host.showCell(row - 1, 0, session.sheet)),
          { small: true },
        ),
    });
  }

  private judged(judged: ContractJudgement, report: ContractReport, sheet: string) {
    const { c } = this;
    const { fights } = judged;
    return html`
      <h3>${c.clauses.fights}</h3>
      ${
        fights.length === 0
          ? html`<p class="fine" id="no-fights">${c.clauses.noFights}</p>`
          : this.list(
              'fights',
              fights,
              ({ row, sentence }) =>
                html`${this.place(row, sheet)}
                  <div>${said(this.session, sentence)}</div>`,
            )
      }
      <h3>${c.clauses.surplus}</h3>
      ${this.surplus(judged, report)} ${this.bare(judged, report)}
      <details class="gap">
        <summary>${c.whereFrom}</summary>
        <p class="quiet">${c.clauses.source}</p>
      </details>
    `;
  }

  private surplus({ surplus, currency }: ContractJudgement, { waterUnit }: ContractReport) {
    const { c, f, session } = this;
    if (surplus.rows.length === 0)
      return html`<p class="fine" id="no-surplus">${c.clauses.noSurplus}</p>`;
    const water = (amount: number): string => this.water(amount, waterUnit);
    const money = this.money(surplus.cost, currency);
    return html`
      <p id="surplus">
        ${c.clauses.surplusSays(water(surplus.water), money, c.clauses.rows(f, surplus.count))}
      </p>
      ${this.list(
        'surplus-rows',
        surplus.rows,
        ({ row, id, asked, used }) =>
          html`${this.place(row, session.sheet)}
            <div><strong>${id}</strong>. ${c.clauses.surplusRow(water(asked), water(used))}</div>`,
        3,
      )}
    `;
  }

  /** A way to a plan by this contract, without leaving. */
  private planBy() {
    const { c, session } = this;
    if (this.planned || session.plan !== undefined || !session.canPlan) return this.needsPlan();
    const busy = session.planning !== undefined;
    return html`<p class="gap" id="needs-plan">${c.clauses.planByLead}</p>
      <div class="buttons">
        ${button(c.clauses.planBy, () => void this.plan(), { main: true, id: 'plan-by', disabled: busy })}
      </div>`;
  }

  /** What the contract's least visits add to the plan. */
  private bare({ plan, bare, currency }: ContractJudgement, { waterUnit }: ContractReport) {
    const { c, f, w } = this;
    if (!bare)
      return html`<h3 id="bare-title" tabindex="-1">${c.clauses.bare}</h3>
        <p class="fine" id="no-bare">${c.clauses.noBare}</p>`;
    const line = (name: string, before: number, after: number): TemplateResult =>
      html`<tr>
        <th scope="row">${name}</th>
        <td class="number">${f.amount(before)}</td>
        <td class="number">${f.amount(after)}</td>
      </tr>`;
    return html`
      <h3 id="bare-title" tabindex="-1">${c.clauses.bare}</h3>
      <p>${c.clauses.bareSays(f, bare.rows)} <span class="quiet">${c.clauses.bareLead}</span></p>
      <table class="gap" id="bare">
        <thead>
          <tr>
            <td></td>
            <th scope="col" class="number">${c.clauses.without}</th>
            <th scope="col" class="number">${c.clauses.asPlanned}</th>
          </tr>
        </thead>
        <tbody>
          ${line(c.clauses.clausesMet, bare.met, plan.met)}
          ${line(c.clauses.waterings, bare.waterings, plan.waterings)}
          ${line(c.clauses.water(w.unit(waterUnit)), bare.water, plan.water)}
          ${line(c.clauses.price(currency), bare.price, plan.price)}
        </tbody>
      </table>
    `;
  }
}
define('sb-contract-clauses', ContractClauses);
