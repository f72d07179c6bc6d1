/** Columns of the sheet: what each is taken for, in which unit, and two of its cells. Every choice can be corrected. */
import { css, html, nothing } from 'lit';
import { letter } from '../../workbook/model.js';
import type { MatchedColumn } from '../../workers/plan-room.js';
import type { Words } from '../words/index.js';
import { define, SessionElement } from './element.js';
import { button, chosenIn, options, said as spoken, wordOptions } from './pieces.js';
import { base, fields } from './styles.js';

const SAMPLES = 2;
const IGNORE = 'ignore';

/** A column that was matched, or one nobody could place: then its meaning is "". */
export type ListedColumn = Pick<MatchedColumn, 'column' | 'header' | 'samples'> &
  Partial<MatchedColumn>;

export class ColumnList extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    columns: { attribute: false },
    asking: { type: Boolean },
  };
  declare columns: readonly ListedColumn[];
  /** offers to confirm the guess as it is */
  declare asking: boolean;

  static override styles = [
    base,
    fields,
    css`
      :host {
        container-type: inline-size;
      }
      li {
        display: grid;
        grid-template-columns: minmax(0, 2fr) minmax(0, 3fr);
        gap: 4px 8px;
        padding: 8px 0;
        border-bottom: 1px solid var(--rule);
      }
      .header {
        font-weight: 600;
        overflow-wrap: anywhere;
      }
      .samples {
        color: var(--loam);
        font-size: 0.8125rem;
        overflow-wrap: anywhere;
      }
      .choices {
        display: flex;
        flex-wrap: wrap;
        gap: 4px;
        align-items: start;
      }
      .choices .meaning {
        flex: 3 1 11em;
      }
      .choices .unit {
        flex: 0 1 5.5em;
        padding-inline: 4px;
      }
      @container (max-width: 24em) {
        li {
          grid-template-columns: minmax(0, 1fr);
        }
      }
      .doubt {
        grid-column: 1 / -1;
        font-size: 0.8125rem;
      }
    `,
  ];

  constructor() {
    super();
    this.columns = [];
    this.asking = false;
  }

  protected override render() {
    return html`<ul>
      ${this.columns.map((column) => this.item(column))}
    </ul>`;
  }

  private correct(header: string, meaning: string, unit = ''): void {
    const said = unit === '' ? meaning : `${meaning} ${unit}`;
    void this.session.attempt(() => this.session.correct(header, said));
  }

  private item(listed: ListedColumn) {
    const { w, session } = this;
    const { column, header, samples, meaning = '', unit = '', units = [], doubt = '' } = listed;
    const said = session.draft.corrections[header] !== undefined;
    const preset = said || this.asking ? '' : 'preset';
    const shown = samples.slice(0, SAMPLES).join(' · ');
    return html`<li>
      <div>
        <div class="header">${header}</div>
        <div class="samples" title=${samples.join(', ')}>
          ${w.trees.column(letter(column))}: ${shown === '' ? w.trees.noSamples : shown}
        </div>
      </div>
      <div class="choices">
        <select
          class="meaning ${preset}"
          aria-label=${w.trees.meaningOf(header)}
          @change=${(e: Event) => this.correct(header, chosenIn(e))}
        >
          ${options(meaningOptions(w), meaning === '' ? IGNORE : meaning)}
        </select>
        ${
          units.length === 0
            ? nothing
            : html`<select
                class="unit ${preset}"
                aria-label=${w.trees.unitOf(header)}
                @change=${(e: Event) => this.correct(header, meaning, chosenIn(e))}
              >
                ${wordOptions(units, unit)}
              </select>`
        }
      </div>
      ${said ? html`<div class="doubt fine">${w.trees.corrected}</div>` : nothing}
      ${
        doubt === '' || said
          ? nothing
          : html`<div class="doubt">
              <span class="trouble">${w.states.estimated}</span>: ${spoken(this.session, doubt)}
            </div>`
      }
      ${
        this.asking
          ? html`<div class="doubt">
              ${button(w.trees.rightAsIs, () => this.correct(header, meaning, unit), {
                small: true,
                name: `${w.trees.rightAsIs}: ${header}`,
              })}
            </div>`
          : nothing
      }
    </li>`;
  }
}

const meaningOptions = ({ meanings, trees }: Words) => [
  { value: IGNORE, label: trees.notUsed },
  ...Object.entries(meanings).map(([value, label]) => ({ value, label })),
];

define('sb-column-list', ColumnList);
