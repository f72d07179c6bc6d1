/** One value for all rows that lack it: what the list itself suggests, a field, and what using it means. */
import { css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { BlankColumn, Lack } from '../../workers/fill-types.js';
import type { SheetReading } from '../../workers/plan-room.js';
import { fillIn } from '../fill.js';
import type { SaidRow } from '../look-groups.js';
import { fillWords } from '../words/fill.js';
import { define, SessionElement } from './element.js';
import { button, chosenIn, options } from './pieces.js';
import { base, fields } from './styles.js';

/** Names that are shown with what is known of them. */
const KINDS_SHOWN = 4;
const ADDED = 'added';

const keyOf = ({ column }: BlankColumn): string => (column === undefined ? ADDED : String(column));
const isNumber = (value: string): boolean => value !== '' && Number.isFinite(Number(value));

export class FillBlanks extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    lack: { attribute: false },
    rows: { attribute: false },
    columns: { state: true },
    chosen: { state: true },
    typed: { state: true },
    busy: { state: true },
  };
  /** undefined: other blank cells, of all rows */
  declare lack: Lack | undefined;
  declare rows: readonly SaidRow[] | undefined;
  /** undefined until they are known */
  declare private columns: readonly BlankColumn[] | undefined;
  declare private chosen: string;
  /** undefined while the suggestion stands */
  declare private typed: string | undefined;
  declare private busy: boolean;
  private opened = false;
  private askedOf: SheetReading | undefined;

  static override styles = [
    base,
    fields,
    css`
      details {
        margin-top: 6px;
        padding: 2px 8px;
        border: 1px solid var(--rule);
        border-radius: 6px;
      }
      summary {
        min-height: 24px;
        padding: 4px 0;
        cursor: pointer;
        font-weight: 600;
        color: var(--water);
      }
      .value {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 8px;
        align-items: center;
      }
      .value input {
        flex: 1 1 6em;
        max-width: 12em;
        width: auto;
      }
      select {
        width: 100%;
        min-width: 0;
      }
      button {
        white-space: normal;
      }
      label {
        display: block;
        margin-top: 4px;
        font-size: 0.8125rem;
        color: var(--loam);
      }
      li {
        font-size: 0.8125rem;
        overflow-wrap: anywhere;
      }
      p {
        margin: 4px 0;
      }
    `,
  ];

  constructor() {
    super();
    this.lack = undefined;
    this.rows = undefined;
    this.columns = undefined;
    this.chosen = '';
    this.typed = undefined;
    this.busy = false;
  }

  private get k() {
    return fillWords(this.session.language);
  }
  private get isOpen(): boolean {
    return this.opened || this.lack === 'size';
  }

  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    if (this.isOpen) void this.ask();
  }

  /** Asked again for each reading of the list. */
  private async ask(): Promise<void> {
    const { session, lack, rows } = this;
    const { reading, trees, draft } = session;
    if (!reading || reading === this.askedOf) return;
    this.askedOf = reading;
    await session.attempt(async () => {
      const wanted = rows && { rows: rows.map(({ row }) => row) };
      const columns = await session.room.blanks({ trees, draft, ...(lack && { lack }), ...wanted });
      if (reading === this.askedOf) this.columns = columns;
    });
  }

  private get column(): BlankColumn | undefined {
    return this.columns?.find((each) => keyOf(each) === this.chosen) ?? this.columns?.[0];
  }
  private nameOf({ column, header, unit }: BlankColumn): string {
    const { k } = this;
    return column === undefined ? `${k.names.size} (${unit})` : header;
  }

  private async use(value: string): Promise<void> {
    const { session, lack, rows, column } = this;
    if (!column || this.busy) return;
    this.busy = true;
    const step = this.step();
    await session.attempt(async () => {
      const isDone = await fillIn(session, {
        lack,
        rows: rows?.map(({ row }) => row),
        column: column.column,
        header: this.nameOf(column),
        value,
      });
      if (isDone) await FillBlanks.toAssumed(step);
    });
    this.typed = undefined;
    this.busy = false;
  }

  /** The step this stands in; rows that were filled leave it, and this with them. */
  private step(): SessionElement | undefined {
    for (let root = this.getRootNode(); root instanceof ShadowRoot;) {
      const { host } = root;
      if (host instanceof SessionElement && host.id === 'place') return host;
      root = host.getRootNode();
    }
    return undefined;
  }
  /** The focus goes on where what was done can be seen and taken back. */
  private static async toAssumed(step: SessionElement | undefined): Promise<void> {
    await step?.updateComplete;
    const there = step?.renderRoot.querySelector('sb-assumed');
    if (!(there instanceof SessionElement)) return;
    await there.updateComplete;
    there.renderRoot.querySelector<HTMLElement>('h3')?.focus();
  }

  protected override render() {
    const { k, f, lack, rows, columns, column } = this;
    if (lack && columns?.length === 0) return nothing;
    const title = lack ? k.title(f, column?.rows ?? rows?.length ?? 0) : k.others;
    return html`<details
      ?open=${this.isOpen}
      @toggle=${(e: Event) => {
        this.opened = (e.target as HTMLDetailsElement).open;
        this.requestUpdate();
      }}
    >
      <summary>${title}</summary>
      ${lack ? nothing : html`<p class="quiet">${k.othersLead}</p>`}
      ${columns && !column ? html`<p class="quiet">${k.nothing}</p>` : nothing}
      ${column ? this.form(column, columns ?? []) : nothing}
    </details>`;
  }

  private form(column: BlankColumn, columns: readonly BlankColumn[]): TemplateResult {
    const { k, f, typed, rows, busy } = this;
    const { known, unit, kinds } = column;
    const value = typed ?? known?.value ?? '';
    const name = this.nameOf(column);
    const left = rows ? rows.length - column.rows : 0;
    const ofKinds = column.rows;
    return html`
      ${
        columns.length > 1
          ? html`<label for="column">${k.column}</label>
              <select
                id="column"
                @change=${(e: Event) => {
                  this.chosen = chosenIn(e);
                  this.typed = undefined;
                }}
              >
                ${options(
                  columns.map((each) => ({
                    value: keyOf(each),
                    label: k.option(f, this.nameOf(each), each.rows),
                  })),
                  keyOf(column),
                )}
              </select>`
          : nothing
      }
      <label for="value"
        >${k.value(name)}${column.column === undefined ? `, ${k.added}` : ''}</label
      >
      <div class="value">
        <input
          id="value"
          autocomplete="off"
          spellcheck="false"
          .value=${value}
          aria-describedby="known means"
          @input=${(e: Event) => (this.typed = (e.target as HTMLInputElement).value)}
          @keydown=${(e: KeyboardEvent) => {
            if (e.key === 'Enter') void this.use(value.trim() || ' ');
          }}
        />
        ${unit === '' ? nothing : html`<span>${unit}</span>`}
        ${button(k.use(f, column.rows), () => void this.use(value.trim() || ' '), {
          small: true,
          id: 'use',
          disabled: busy,
        })}
      </div>
      <p class="quiet" id="known">
        ${
          !known
            ? nothing
            : isNumber(known.value)
              ? k.median(f, known.value, unit, known.of)
              : k.commonest(f, known.value, known.of)
        }
        ${left > 0 ? k.leaves(f, left) : nothing}
      </p>
      ${kinds.length === 0 ? nothing : this.kinds(column, ofKinds)}
      <p class="quiet" id="means">${k.means}</p>
    `;
  }

  private kinds({ kinds, unit, known }: BlankColumn, rows: number): TemplateResult {
    const { k, f, busy } = this;
    const shown = kinds.slice(0, KINDS_SHOWN);
    const more = kinds.length - shown.length;
    const covered = kinds.reduce((sum, kind) => sum + kind.rows, 0);
    return html`<ul id="kinds">
        ${shown.map(
          ({ name, value, of, rows: n }) =>
            html`<li>${k.kind(f, name, value, unit, of, n, isNumber(value))}</li>`,
        )}
        ${more > 0 ? html`<li>${k.moreKinds(f, more)}</li>` : nothing}
      </ul>
      ${
        known && covered < rows
          ? html`<p class="quiet">${k.byKindRest(known.value, unit)}</p>`
          : nothing
      }
      ${button(k.byKind(f, rows), () => void this.use(''), { small: true, id: 'by-kind', disabled: busy })}`;
  }
}
define('sb-fill-blanks', FillBlanks);
