/** What is said of some rows, once, and the rows it is said of: each leads to its cell. */
import { upperFirst } from '../../engine/first-letter.js';
import { css, html, nothing, type TemplateResult } from 'lit';
import {
  isWhole,
  spansOf,
  within,
  type LookGroup,
  type SaidRow,
  type Span,
} from '../look-groups.js';
import { define, SessionElement } from './element.js';
import { button, said } from './pieces.js';
import { base } from './styles.js';

/** Spans that are shown before a person asks for the others. */
const SHOWN_FIRST = 8;
/** So few rows are shown with their ids. */
const NAMED = 3;

export class LookGroupPart extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    group: { attribute: false },
    all: { state: true },
    opened: { state: true },
  };
  declare group: LookGroup;
  declare private all: boolean;
  /** spans a person has opened, as "31–40" */
  declare private opened: ReadonlySet<string>;

  static override styles = [
    base,
    css`
      :host {
        font-size: 0.8125rem;
      }
      ul {
        display: flex;
        flex-wrap: wrap;
        gap: 4px;
        align-items: center;
        margin-top: 4px;
      }
      .in {
        flex: 1 0 100%;
        padding: 0 0 4px 8px;
        border-left: 2px solid var(--rule);
      }
      .in ul {
        margin-top: 0;
      }
      strong {
        font-weight: 600;
        overflow-wrap: anywhere;
      }
    `,
  ];

  constructor() {
    super();
    this.all = false;
    this.opened = new Set();
  }

  protected override render() {
    const { w, f, session, group } = this;
    const { sentence, unusable, rows, differ } = group;
    const t = w.trees;
    const spans = spansOf(rows);
    const shown = this.all ? spans : spans.slice(0, SHOWN_FIRST);
    const left = spans.slice(shown.length).reduce((sum, span) => sum + span.rows.length, 0);
    return html`
      <p id="says">
        ${
          unusable ? html`<span class="trouble">${t.notPlannedRow}</span>. ` : nothing
        }${said(session, upperFirst(sentence))}
      </p>
      ${differ ? html`<p class="quiet">${t.sayingOf(rows[0]!.row)}</p>` : nothing}
      <ul aria-labelledby="says">
        ${rows.length > 1 ? html`<li class="quiet">${t.rowsSaying(f, rows.length)}</li>` : nothing}
        ${shown.map((span) => this.span(span))}
        ${
          left === 0
            ? nothing
            : html`<li>
                ${button(t.showMore(f, left), () => void this.showAll(), { small: true, id: 'more' })}
              </li>`
        }
      </ul>
      ${
        group.lacks
          ? html`<sb-fill-blanks
              .session=${session}
              .lack=${group.lacks}
              .rows=${rows}
            ></sb-fill-blanks>`
          : nothing
      }
    `;
  }

  /** The button that was pressed goes; the first of what it brought takes the focus. */
  private async showAll(): Promise<void> {
    this.all = true;
    await this.updateComplete;
    this.renderRoot.querySelectorAll<HTMLElement>('#says ~ ul > li > button')[SHOWN_FIRST]?.focus();
  }

  private span(span: Span): TemplateResult {
    const [first] = span.rows;
    return span.rows.length === 1 && first ? this.row(first) : this.several(span);
  }

  private row({ row, column, id }: SaidRow): TemplateResult {
    const { w, session, group } = this;
    const alone = group.rows.length === 1;
    const jump = () =>
      void session.attempt(() => session.host.showCell(row - 1, column, session.sheet));
    return html`<li>
      ${button(alone ? w.trees.row(row) : String(row), jump, { small: true, name: w.trees.goTo(row, id) })}
      ${id !== '' && group.rows.length <= NAMED ? html`<strong>${id}</strong>` : nothing}
    </li>`;
  }

  private several(span: Span): TemplateResult {
    const { w, f, opened } = this;
    const { from, to, rows } = span;
    const name = `${from}–${to}`;
    const isOpen = opened.has(name);
    const many = isWhole(span) ? '' : ` ${w.trees.rowsIn(f, rows.length)}`;
    return html`<li>
        <button
          type="button"
          class="act small"
          aria-expanded=${isOpen ? 'true' : 'false'}
          aria-label=${`${w.trees.rowsFrom(from, to)}${many}`}
          @click=${() => this.toggle(name)}
        >
          <span aria-hidden="true">${isOpen ? '▾' : '▸'}</span> ${name}${many}
        </button>
      </li>
      ${
        isOpen
          ? html`<li class="in">
              <ul aria-label=${w.trees.rowsFrom(from, to)}>
                ${within(span).map((inner) => this.span(inner))}
              </ul>
            </li>`
          : nothing
      }`;
  }

  private toggle(name: string): void {
    const opened = new Set(this.opened);
    if (!opened.delete(name)) opened.add(name);
    this.opened = opened;
  }
}
define('sb-look-group', LookGroupPart);
