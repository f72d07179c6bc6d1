/** Rows to look at: each leads to its cell, with the reason beside it. */
import { css, html, nothing } from 'lit';
import type { LookRow } from '../../workers/plan-room.js';
import { define, SessionElement } from './element.js';
import { button, said } from './pieces.js';
import { base } from './styles.js';

const SHOWN_FIRST = 5;
/** More are not read by anybody, and slow the page. */
const MOST = 300;

export class LookList extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    rows: { attribute: false },
    all: { state: true },
  };
  declare rows: readonly LookRow[];
  declare private all: boolean;

  static override styles = [
    base,
    css`
      :host {
        container-type: inline-size;
      }
      li {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: 8px;
        padding: 4px 0;
        border-bottom: 1px solid var(--rule);
        align-items: start;
        font-size: 0.8125rem;
      }
      /* little room for large text: the reason below the row's number */
      @container (max-width: 17em) {
        li {
          grid-template-columns: minmax(0, 1fr);
          justify-items: start;
          gap: 4px;
        }
      }
      span {
        overflow-wrap: anywhere;
        padding-top: 2px;
      }
      strong {
        font-weight: 600;
      }
    `,
  ];

  constructor() {
    super();
    this.rows = [];
    this.all = false;
  }

  protected override render() {
    const { w, f, rows } = this;
    const shown = rows.slice(0, this.all ? MOST : SHOWN_FIRST);
    return html`
      <ul>
        ${shown.map((row) => this.item(row))}
      </ul>
      ${
        rows.length > shown.length && !this.all
          ? html`<div class="buttons">
              ${button(w.trees.showAll(f, rows.length), () => void (this.all = true), { small: true })}
            </div>`
          : nothing
      }
      ${
        this.all && rows.length > MOST
          ? html`<p class="quiet gap">${w.trees.most(f, MOST)}</p>`
          : nothing
      }
    `;
  }

  private item({ row, column, id, reason, unusable }: LookRow) {
    const { w, session } = this;
    const jump = () =>
      void session.attempt(() => session.host.showCell(row - 1, column ?? 0, session.sheet));
    return html`<li>
      ${button(w.trees.row(row), jump, { small: true, name: w.trees.goTo(row, id) })}
      <span>
        ${id === '' ? nothing : html`<strong>${id}</strong>. `}${
          unusable ? html`<span class="trouble">${w.trees.notPlannedRow}</span>. ` : nothing
        }${said(session, reason.charAt(0).toUpperCase() + reason.slice(1))}
      </span>
    </li>`;
  }
}
define('sb-look-list', LookList);
