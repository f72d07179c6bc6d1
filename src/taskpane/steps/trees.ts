/** Step 1: which sheet holds the trees, what its columns mean, which rows to look at. */
import { css, html, noChange, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import '../parts/column-list.js';
import '../parts/look-list.js';
import { define, SessionElement } from '../parts/element.js';
import { bigNumber, button, chosenIn, planner, wordOptions } from '../parts/pieces.js';
import { base, fields, numbers, tables } from '../parts/styles.js';
import { cornersOf, isOtherSheet } from '../sheets-read.js';
import type { SheetReading } from '../../workers/plan-room.js';

export class TreesStep extends SessionElement {
  static override properties = { ...SessionElement.properties, badRange: { state: true } };
  /** what was typed and is no range, "" when there is nothing wrong */
  declare private badRange: string;
  /** a range that is being typed: a reading that ends meanwhile leaves the field alone */
  private typing = false;

  static override styles = [
    base,
    fields,
    numbers,
    tables,
    css`
      .pick label {
        display: block;
        margin-top: 8px;
        font-size: 0.8125rem;
        color: var(--loam);
      }
      .range {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 8px;
        align-items: center;
      }
      #range-note {
        margin-top: 4px;
      }
      .range input {
        flex: 1 1 7em;
        width: auto;
      }
      .ask {
        margin-top: 16px;
        padding: 4px 8px;
        border: 1px solid var(--clay);
        border-radius: 6px;
      }
      .ask h3 {
        margin-top: 4px;
      }
      .sample td {
        background: var(--straw);
      }
      .sample th,
      .sample td {
        border: 1px solid var(--rule);
        padding: 4px 6px;
      }
    `,
  ];

  constructor() {
    super();
    this.badRange = '';
  }

  /** Filling in and live figures come after the first look. */
  protected override firstUpdated(): void {
    void this.session.attempt(() => import('../parts/trees-more.js').then(() => undefined));
  }

  private useRange(typed: string): void {
    const { session } = this;
    this.typing = false;
    this.badRange = typed.trim() === '' || cornersOf(typed) ? '' : typed;
    if (this.badRange === '')
      void session.attempt(() => session.useSheet(session.sheet, typed.trim()));
  }

  /** Reads what is selected in the sheet that holds the trees. */
  private async useSelected(): Promise<void> {
    const { session, w } = this;
    const t = w.trees;
    await session.attempt(async () => {
      const { sheet, range } = await session.host.selectedCells();
      if (sheet !== session.sheet)
        return session.say(t.selectedElsewhere(range, sheet, session.sheet), 'trouble');
      if (cornersOf(range) === undefined) return session.say(t.selectedOne(range), 'trouble');
      this.badRange = '';
      await session.useSheet(sheet, range);
      session.say(t.selectedUsed(range), 'fine');
    });
  }

  protected override render() {
    const { w, session } = this;
    const { reading, troubles } = session;
    const empty = reading === undefined || reading.rows === 0;
    return html`
      <h2 tabindex="-1">${w.places.trees}</h2>
      ${this.picker()}
      ${troubles.trees === '' ? nothing : planner(session, troubles.trees, 'trouble gap')}
      ${empty ? this.teach() : this.read(reading)}
    `;
  }

  private picker() {
    const { w, session, badRange } = this;
    const { sheets, sheet, front, range } = session;
    return html`
      <div class="pick">
        <label for="sheet">${w.trees.which}</label>
        <select
          id="sheet"
          @change=${(e: Event) => void session.attempt(() => session.useSheet(chosenIn(e)))}
        >
          ${wordOptions(sheets, sheet)}
        </select>
        <label for="range">${w.trees.range}</label>
        <div class="range">
          <input
            id="range"
            autocomplete="off"
            spellcheck="false"
            .value=${this.typing ? noChange : live(badRange === '' ? range : badRange)}
            aria-invalid=${badRange === '' ? nothing : 'true'}
            aria-describedby="range-note"
            @input=${() => (this.typing = true)}
            @blur=${() => (this.typing = false)}
            @change=${(e: Event) => this.useRange((e.target as HTMLInputElement).value)}
          />
          ${button(w.trees.useSelected, () => void this.useSelected(), {
            small: true,
            id: 'use-selected',
          })}
        </div>
      </div>
      <p id="range-note" class=${badRange === '' ? 'quiet' : 'trouble'}>
        ${badRange === '' ? w.trees.rangeNote : w.trees.rangeWrong(badRange)}
      </p>
      ${
        front === sheet || isOtherSheet(front)
          ? nothing
          : html`<div class="buttons">
              ${button(
                w.trees.useFront(front),
                () => void session.attempt(() => session.useSheet(front)),
                { id: 'use-front' },
              )}
            </div>`
      }
    `;
  }

  private read(reading: SheetReading): TemplateResult {
    const { w, f, session } = this;
    const t = w.trees;
    const { columns, unmatched, look, rows, usable, trees, notes } = reading;
    const said = session.draft.corrections;
    const asks = columns.filter(({ ask, header }) => ask && said[header] === undefined);
    const others = columns.filter((column) => !asks.includes(column));
    const corrections = Object.keys(said).length;
    return html`
      <dl class="numbers">
        ${bigNumber(t.rowsRead, f.whole(rows))}
        ${bigNumber(t.canBePlanned, f.whole(usable), { kind: usable > 0 ? 'fine' : 'trouble' })}
        ${bigNumber(t.lookHere, f.whole(look.length), { kind: look.length > 0 ? 'trouble' : '' })}
      </dl>
      ${trees === usable ? nothing : html`<p class="quiet gap">${t.treesCounted(f, trees)}</p>`}
      ${
        asks.length === 0
          ? nothing
          : html`<section class="ask" aria-labelledby="ask-title">
              <h3 id="ask-title" class="trouble">${t.askTitle(f, asks.length)}</h3>
              <sb-column-list
                id="asked"
                asking
                .session=${session}
                .columns=${asks}
              ></sb-column-list>
            </section>`
      }
      ${
        look.length === 0
          ? nothing
          : html`<h3>${t.look}</h3>
              <sb-look-list id="look" loose-cells .session=${session} .rows=${look}></sb-look-list>`
      }
      <sb-assumed .session=${session}></sb-assumed>
      <sb-live-figures .session=${session}></sb-live-figures>
      ${notes.map((note) => planner(this.session, note, 'quiet gap'))}
      <h3>${t.columnsMatched(f, others.length)}</h3>
      ${
        corrections === 0
          ? nothing
          : html`<p class="quiet">${t.remembered(f, corrections)}</p>
              <div class="buttons">
                ${button(t.forget, () => void session.attempt(() => session.forgetCorrections()), {
                  small: true,
                  id: 'forget',
                })}
              </div>`
      }
      <sb-column-list id="columns" .session=${session} .columns=${others}></sb-column-list>
      ${
        unmatched.length === 0
          ? nothing
          : html`<h3>${t.unmatched}</h3>
              <sb-column-list
                id="unmatched"
                .session=${session}
                .columns=${unmatched}
              ></sb-column-list>`
      }
    `;
  }

  /** What a sheet should look like, while there is none to read. */
  private teach(): TemplateResult {
    const { w, session } = this;
    const t = w.trees;
    const [head = [], ...body] = t.emptyRows;
    return html`<section id="teach" aria-labelledby="teach-title">
      <h3 id="teach-title">${t.emptyTitle}</h3>
      <p>${t.emptyText}</p>
      <table class="sample gap">
        <thead>
          <tr>
            ${head.map((header) => html`<th scope="col">${header}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${body.map(
            (row) =>
              html`<tr>
                ${row.map((cell) => html`<td>${cell}</td>`)}
              </tr>`,
          )}
        </tbody>
      </table>
      <p class="quiet gap">${t.emptyMore}</p>
      <p class="gap">${t.emptyNext}</p>
      ${session.host.openFile === undefined ? nothing : html`<p class="gap">${t.emptyDesk}</p>`}
    </section>`;
  }
}
define('sb-trees', TreesStep);
