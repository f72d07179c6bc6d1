/** Rows to look at, by what is said of them: each sentence once, with the rows it is said of. */
import { css, html, nothing, type PropertyValues } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { LookRow } from '../../workers/plan-room.js';
import { lookGroups, type LookGroup } from '../look-groups.js';
import { define, SessionElement } from './element.js';
import './look-group.js';
import { button } from './pieces.js';
import { base } from './styles.js';

const SHOWN_FIRST = 5;
const SHOWN_MORE = 50;

export class LookList extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    rows: { attribute: false },
    looseCells: { type: Boolean, attribute: 'loose-cells' },
    shown: { state: true },
  };
  declare rows: readonly LookRow[];
  /** sentences quote cells of their row: those that differ in these only are the same */
  declare looseCells: boolean;
  declare private shown: number;
  private groups: LookGroup[] = [];

  static override styles = [
    base,
    css`
      ul > li {
        padding: 6px 0;
        border-bottom: 1px solid var(--rule);
      }
    `,
  ];

  constructor() {
    super();
    this.rows = [];
    this.looseCells = false;
    this.shown = SHOWN_FIRST;
  }

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    if (changed.has('rows') || changed.has('looseCells'))
      this.groups = lookGroups(this.rows, this.looseCells);
  }

  private async showMore(): Promise<void> {
    const before = this.shown;
    this.shown += SHOWN_MORE;
    await this.updateComplete;
    const next = this.renderRoot.querySelectorAll('sb-look-group')[before];
    if (!(next instanceof SessionElement)) return;
    await next.updateComplete;
    next.renderRoot.querySelector('button')?.focus();
  }

  protected override render() {
    const { w, f, groups, session } = this;
    const shown = groups.slice(0, this.shown);
    const left = groups.length - shown.length;
    return html`
      <ul>
        ${repeat(
          shown,
          ({ key }) => key,
          (group) =>
            html`<li><sb-look-group .session=${session} .group=${group}></sb-look-group></li>`,
        )}
      </ul>
      ${
        left === 0
          ? nothing
          : html`<div class="buttons">
              ${button(w.trees.showMore(f, Math.min(left, SHOWN_MORE)), () => void this.showMore(), { small: true, id: 'more' })}
            </div>`
      }
    `;
  }
}
define('sb-look-list', LookList);
