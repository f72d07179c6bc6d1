/** Step 3: which rules are in use, what they say, six weeks of them, and a way to edit them on a sheet. */
import { css, html, nothing } from 'lit';
import { plainLabel } from '../../tables/cells.js';
import type { RulesReport } from '../../workers/plan-room.js';
import { define, SessionElement } from '../parts/element.js';
import { button, chosenIn, options, planner, said } from '../parts/pieces.js';
import '../parts/rule-strip.js';
import { base, fields } from '../parts/styles.js';

export class RulesStep extends SessionElement {
  static override styles = [
    base,
    fields,
    css`
      #columns dl {
        margin: 8px 0 0;
        font-size: 0.8125rem;
        overflow-wrap: anywhere;
      }
      #columns dt {
        font-weight: 600;
      }
      #columns .as {
        font-weight: 400;
        background: var(--straw);
        padding: 0 4px;
      }
      #columns dd {
        margin: 0;
        padding: 2px 0 6px;
        color: var(--loam);
        border-bottom: 1px solid var(--rule);
      }

      :host {
        container-type: inline-size;
      }
      label {
        display: block;
        margin-top: 8px;
      }
      .words li {
        display: grid;
        grid-template-columns: 4.5em minmax(0, 1fr);
        gap: 8px;
        padding: 2px 0;
        font-size: 0.8125rem;
      }
      @container (max-width: 17em) {
        .words li {
          grid-template-columns: minmax(0, 1fr);
          gap: 0;
        }
      }
      .problems li {
        padding: 4px 0;
        font-size: 0.8125rem;
        overflow-wrap: anywhere;
        border-bottom: 1px solid var(--rule);
      }
    `,
  ];

  static override properties = { ...SessionElement.properties, writing: { state: true } };
  /** an order is being written: it is looked at instead of the rules in use */
  declare private writing: boolean;

  protected override firstUpdated(): void {
    void this.session.attempt(() => import('../parts/order-form.js').then(() => undefined));
  }

  private get rulesSheet(): string | undefined {
    return this.session.sheets.find((name) => plainLabel(name) === 'rules');
  }

  private async choose(starter: string): Promise<void> {
    const { session } = this;
    await session.attempt(async () => {
      session.setLeaveOutBroken(false);
      await session.change({ starter });
    });
  }

  private toSheet(report: RulesReport): Promise<void> {
    const { session } = this;
    return session.attempt(async () =>
      (await import('../rules-sheets.js')).toSheet(session, report),
    );
  }

  protected override render() {
    const { w, session } = this;
    const { rules: report, troubles, room, draft } = session;
    const r = w.rules;
    return html`
      <h2 tabindex="-1">${w.places.rules}</h2>
      <p class="quiet">${r.lead}</p>
      <label for="starter" class="quiet">${r.start}</label>
      <select id="starter" @change=${(e: Event) => void this.choose(chosenIn(e))}>
        ${options(
          [
            { value: '', label: r.own },
            ...room.starters.map((name) => ({
              value: name,
              label: session.spoken(name).text,
              lang: session.spoken(name).lang ?? session.language,
            })),
          ],
          draft.starter,
        )}
      </select>
      <sb-order
        .session=${session}
        @writing=${(e: CustomEvent<boolean>) => (this.writing = e.detail)}
      ></sb-order>
      ${troubles.rules === '' ? nothing : planner(session, troubles.rules, 'trouble gap')}
      ${report === undefined || this.writing ? nothing : this.report(report)}
    `;
  }

  private report(report: RulesReport) {
    const { w, f, session } = this;
    const { origin, example, sentences, problems, strip } = report;
    const r = w.rules;
    return html`
      <p class="gap" id="in-use">
        ${r.inUse(f, r.origin(session.spoken(origin).text), sentences.length)}
      </p>
      ${example ? html`<p class="trouble gap">${r.example}</p>` : nothing} ${this.editing(report)}
      ${problems.length === 0 ? nothing : this.problems(problems)} ${this.columns(report)}
      ${
        sentences.length === 0
          ? nothing
          : html`<details class="gap" id="rules-words">
              <summary>${r.sentences}</summary>
              <ul class="words">
                ${sentences.map(
                  ({ row, sentence }) =>
                    html`<li>
                      <span class="quiet">${r.row(row)}</span
                      ><span>${said(session, sentence)}</span>
                    </li>`,
                )}
              </ul>
            </details>`
      }
      ${
        strip === undefined
          ? html`<p class="quiet gap">${r.noStrip}</p>`
          : html`<sb-rule-strip id="strip" .session=${session} .strip=${strip}></sb-rule-strip>`
      }
    `;
  }

  /** Said before anything fails, from what the reader itself works by. */
  private columns({ columns }: RulesReport) {
    const { w, session } = this;
    const r = w.rules;
    return html`<details class="gap" id="columns">
      <summary>${r.columns}</summary>
      <p class="quiet">${r.columnsNote}</p>
      <dl>
        ${columns.map(
          ({ name, accepted, example }) => html`
            <dt lang="en">${name}: <span class="as">${example}</span></dt>
            <dd>${r.canBe}: ${said(session, accepted)}</dd>
          `,
        )}
      </dl>
    </details>`;
  }

  private editing(report: RulesReport) {
    const { w, session, rulesSheet } = this;
    const r = w.rules;
    if (rulesSheet === undefined)
      return html`<div class="buttons">
          ${button(r.toSheet, () => void this.toSheet(report), { id: 'to-sheet' })}
        </div>
        <p class="quiet">${r.toSheetNote}</p>`;
    return html`<p class="quiet gap">
        ${session.draft.starter === '' ? r.sheetThere : r.chosenOver}
      </p>
      <div class="buttons">
        ${button(
          r.openSheet,
          () => void session.attempt(() => session.host.showCell(0, 0, rulesSheet)),
          { small: true, id: 'open-rules' },
        )}
      </div>`;
  }

  private problems(problems: RulesReport['problems']) {
    const { w, session } = this;
    const r = w.rules;
    return html`
      <h3>${r.problems}</h3>
      <ul class="problems" id="rules-problems">
        ${problems.map(
          ({ broken, sentence }) =>
            html`<li>
              <strong class=${broken ? 'trouble' : ''}>${broken ? r.broken : r.notice}</strong>:
              ${said(this.session, sentence)}
            </li>`,
        )}
      </ul>
      ${
        problems.some(({ broken }) => broken)
          ? html`<label class="check"
              ><input
                type="checkbox"
                id="skip-broken"
                .checked=${session.leaveOutBroken}
                @change=${(e: Event) =>
                  session.setLeaveOutBroken((e.target as HTMLInputElement).checked)}
              /><span>${r.goOn}</span></label
            >`
          : nothing
      }
    `;
  }
}
define('sb-rules', RulesStep);
