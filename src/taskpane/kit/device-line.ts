/** A device of the list: its name, and what decides about it as fields in place. */
import { css, html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import { plainNumber, text, yesNo, type Cell } from '../../tables/cells.js';
import type { SetupReport } from '../../workers/plan-room.js';
import { asksToBuy, devicesOf, type KitKey, type KitRow } from '../kit-table.js';
import { currencyOf } from '../money.js';
import { define, SessionElement } from '../parts/element.js';
import { typedValue } from '../parts/format.js';
import { button, planner } from '../parts/pieces.js';
import { base, fields, withUnit } from '../parts/styles.js';
import { typedIn } from '../parts/typed-in.js';
import { kitWords } from '../words/kit.js';
import { columnOf, DECIDING, shownCell, storedCell, unitShown, withCell } from './kit-cells.js';
import { inventedIn, isAbout, kitTable, problemsOf, renamed, withOwn } from './rows.js';
import { hosesFor, smallTreesServed, treesServed, type HosesOfTrees } from './trees-served.js';

export class DeviceLine extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    row: { attribute: false },
    open: { type: Boolean },
    busy: { type: Boolean },
    treesTyped: { state: true },
  };
  declare row: KitRow;
  /** its form is open: the fields stand there */
  declare open: boolean;
  /** a form is open, of this device or another */
  declare busy: boolean;
  /** what a tree takes, as read last */
  private known: SetupReport['kit']['hoses'][number] | undefined;
  /** trees that were typed, until hoses are */
  private wished: number | undefined;
  /** what was typed as a number of trees and is none */
  declare private treesTyped: string;

  static override styles = [
    base,
    fields,
    withUnit,
    css`
      :host {
        container-type: inline-size;
      }
      .head {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 8px;
        justify-content: space-between;
        align-items: start;
      }
      .head > div:first-child {
        flex: 1 1 9em;
        min-width: 0;
      }
      strong {
        font-weight: 600;
        overflow-wrap: anywhere;
      }
      .changes {
        display: flex;
        flex-wrap: wrap;
        gap: 4px;
      }
      .fields {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(5.6em, 1fr));
        gap: 4px 8px;
        margin-top: 4px;
        align-items: end;
      }
      .fields label {
        display: block;
        font-size: 0.8125rem;
        color: var(--loam);
      }
      .invented {
        margin: 4px 0 0;
        font-size: 0.8125rem;
        color: var(--clay);
      }
      .example {
        background: var(--paper);
        border-color: var(--edge);
      }
    `,
  ];

  constructor() {
    super();
    this.open = false;
    this.busy = false;
    this.treesTyped = '';
  }

  private get k() {
    return kitWords(this.session.language);
  }
  private get name(): string {
    return text(this.row.cells.name) || this.k.unnamed;
  }
  private get rows(): Cell[][] {
    return kitTable(this.session);
  }

  /** Puts the focus into the first field, with what stands there marked, to be typed over. */
  focusFirst(): void {
    const first = this.renderRoot.querySelector<HTMLInputElement>('.fields input');
    first?.focus();
    first?.select();
  }
  focusMore(): void {
    this.renderRoot.querySelector<HTMLElement>('#more')?.focus();
  }

  /** Writes one cell, and the name after it where the name only tells the numbers. */
  private async set(key: KitKey, value: Cell): Promise<void> {
    const { session, row } = this;
    const { units } = session.draft;
    await session.attempt(async () => {
      const own = withOwn(session, this.rows, row, [key]);
      let kit = withCell(own, row.at, key, value, units);
      const [before, after] = [this.rows, kit].map((t) => devicesOf(t).find(({ at }) => at === row.at)); // prettier-ignore
      if (before && after) {
        const name = renamed(kit, before, after, session);
        if (name !== text(before.cells.name)) kit = withCell(kit, row.at, 'name', name, units);
      }
      await session.change({ kit });
    });
  }

  private async take(key: KitKey, typed: string): Promise<void> {
    const column = columnOf(key);
    const value = storedCell(this.rows, column, typedValue(typed), this.session.draft.units);
    if (key === 'stock') this.wished = undefined;
    await this.set(key, value);
    if (key === 'length') await this.keepTrees();
  }

  /** Who said a number of trees means it for hoses of another length as well. */
  private async keepTrees(): Promise<void> {
    const { wished, rows, row, session } = this;
    const now = devicesOf(rows).find(({ at }) => at === row.at);
    const served = session.setup?.kit.hoses.find(({ name }) => name === text(now?.cells.name));
    if (wished === undefined || !served || served.trees === 0) return;
    const hoses = hosesFor(wished, served);
    if (hoses !== plainNumber(now?.cells.stock)) await this.set('stock', hoses);
  }

  protected override render() {
    const { k, w, row, open, busy, session, name } = this;
    const { family, cells } = row;
    const report = session.setup?.kit;
    const kind = family === undefined ? text(cells.family) : w.families[family];
    const said = [kind, this.rest()];
    const problems = problemsOf(report?.problems ?? [], row.at);
    return html`<div role="group" aria-labelledby="name">
      <div class="head">
        <div>
          <strong id="name">${name}</strong>
          <div class="quiet" id="said">${said.filter((part) => part !== '').join(' · ')}</div>
        </div>
        <div class="changes">
          ${button(k.more, () => this.tell('more'), {
            small: true,
            id: 'more',
            name: k.moreOf(name),
            disabled: busy,
          })}
          ${button(k.remove, () => this.tell('remove'), {
            small: true,
            id: 'remove',
            name: k.removeOf(name),
            disabled: busy,
          })}
        </div>
      </div>
      ${
        open || family === undefined
          ? nothing
          : html`<div class="fields">
                ${DECIDING[family].map((key) => [
                  this.field(key, problems),
                  key === 'stock' ? this.treesField() : nothing,
                ])}
              </div>
              ${this.timer()} ${this.treesSaid()} ${this.inventedSaid()}`
      }
      ${problems.map((problem, i) => planner(session, problem, 'trouble', `problem-${i}`))}
    </div>`;
  }

  /** Whether a timer opens the hose: it decides who has to come. */
  private timer() {
    const { family, cells } = this.row;
    if (family !== 'soaker') return nothing;
    const took = (event: Event): void =>
      void this.set('automatic', (event.target as HTMLInputElement).checked ? 'yes' : 'no');
    return html`<label class="check"
      ><input
        type="checkbox"
        id="automatic"
        .checked=${live(yesNo(cells.automatic ?? null) === true)}
        @change=${took}
      /><span>${this.k.onTimer}</span></label
    >`;
  }

  private get invented(): readonly KitKey[] {
    const { session, rows, row } = this;
    const marked = inventedIn(session, rows, row);
    const read = session.setup?.kit.invented.find(({ name }) => name === text(row.cells.name));
    // what was changed otherwise is marked still until it is read
    return read ? marked.filter((key) => read.keys.includes(key)) : marked;
  }

  /** The numbers nobody has typed: first those that stand here, then how many more there are behind "More". */
  private inventedSaid() {
    const { k, f, session, row, name, invented } = this;
    const { family } = row;
    if (family === undefined || invented.length === 0) return nothing;
    const all = session.setup?.kit.fromExample.includes(name) ?? false;
    const here = DECIDING[family].filter((key) => invented.includes(key));
    const named = here.map((key) => k.inventedNumber(this.label(key), this.withUnit(key)));
    return html`<p class="invented" id="invented">
      ${all ? k.exampleDevice : k.invented(f, named, invented.length - here.length)}
      ${button(k.confirm, () => void this.confirm(), { small: true, id: 'confirm', name: k.confirmOf(name) })}
    </p>`;
  } // prettier-ignore

  private withUnit(key: KitKey): string {
    const unit = key === 'price' ? ` ${currencyOf(this.session)}` : '';
    return `${this.amount(key)}${unit}`.trim();
  }

  private async confirm(): Promise<void> {
    const { session, row, rows, invented, k, name } = this;
    await session.attempt(async () => {
      const read = session.change({ kit: withOwn(session, rows, row, invented) });
      await this.updateComplete;
      this.focusFirst();
      await read;
      session.say(k.confirmed(name), 'fine');
    });
  }

  private tell(what: 'more' | 'remove'): void {
    this.dispatchEvent(new CustomEvent(what));
  }

  /** What else tells the device from others: "65 gal/h per 100 ft · on a timer · only what is in stock". */
  private rest(): string {
    const { family, cells } = this.row;
    const key = family === 'soaker' ? 'rate' : family === 'tanker' ? 'flow' : undefined;
    const timed = family === 'soaker' && yesNo(cells.automatic) === true ? this.k.timed : '';
    return [key ? this.amount(key) : '', timed, this.buying()]
      .filter((part) => part !== '')
      .join(' · ');
  }

  /** An answer of its own to whether more may be bought, "" where that of the whole kit holds. */
  private buying(): string {
    const { k, row } = this;
    const { family, cells } = row;
    const own = asksToBuy(family) ? yesNo(cells.buy) : undefined;
    return own === undefined ? '' : own ? k.buysOwn : k.stockOwn;
  }

  private amount(key: KitKey): string {
    const { w, f, session, rows } = this;
    const column = columnOf(key);
    const cell = shownCell(rows, column, this.row.cells[key] ?? null, session.draft.units);
    if (typeof cell !== 'number') return text(cell);
    return `${f.amount(cell)} ${w.unit(unitShown(rows, column, session.draft.units))}`;
  }

  private label(key: KitKey): string {
    const { k } = this;
    const { family } = this.row;
    if (family === undefined) return k.columns[key];
    if (key === 'stock') return k.pieces[family];
    if (key === 'price') return k.price;
    return key === 'ratedHours' ? k.hours : k.sizes[family];
  }

  private field(key: KitKey, problems: readonly string[]) {
    const { f, w, session, rows, row } = this;
    const { units } = session.draft;
    const column = columnOf(key);
    const cell = shownCell(rows, column, row.cells[key] ?? null, units);
    const unit = key === 'price' ? currencyOf(session) : unitShown(rows, column, units);
    const wrong = problems.findIndex((said) => isAbout(said, column.name));
    const example = this.invented.includes(key);
    return html`<div>
      <label for=${key}>${this.label(key)}</label>
      <div class="value">
        <input
          id=${key}
          class=${example ? 'example' : ''}
          autocomplete="off"
          inputmode="decimal"
          aria-invalid=${wrong < 0 ? nothing : 'true'}
          aria-describedby=${wrong < 0 ? (unit === '' ? nothing : `${key}-unit`) : `problem-${wrong}`}
          ${typedIn(typeof cell === 'number' ? f.plain(cell) : text(cell), ({ value }) => this.take(key, value))}
        />
        ${unit === '' ? nothing : html`<span class="unit" id="${key}-unit">${w.unit(unit)}</span>`}
      </div>
    </div>`;
  } // prettier-ignore

  /** Hoses and trees of the list, where it is known what a tree takes of them. */
  private get served() {
    const { row, session, known } = this;
    if (row.family !== 'soaker') return undefined;
    const name = text(row.cells.name);
    const { hoses = [], devices = [] } = session.setup?.kit ?? {};
    // a name that was just changed is read in a moment: until then nothing goes and comes back
    if (!devices.some((device) => device.name === name)) return known;
    const found = hoses.find((hose) => hose.name === name);
    this.known = found && found.trees > 0 ? found : undefined;
    return this.known;
  }
  private get stock(): number {
    const { stock } = this.row.cells;
    return plainNumber(stock) ?? 0;
  }

  private treesField() {
    const { k, served, f } = this;
    if (!served) return nothing;
    const wrong = this.treesTyped !== '';
    return html`<div>
      <label for="trees">${k.trees}</label>
      <div class="value">
        <input
          id="trees"
          class="example"
          autocomplete="off"
          inputmode="numeric"
          aria-invalid=${wrong ? 'true' : nothing}
          aria-describedby=${wrong ? 'trees-wrong' : 'trees-said'}
          ${typedIn(f.plain(this.treesShown(served)), ({ value }) => this.takeTrees(value))}
        />
      </div>
    </div>`;
  }

  private treesShown(served: HosesOfTrees): number {
    const { wished, stock } = this;
    return wished !== undefined && hosesFor(wished, served) === stock ? wished : treesServed(stock, served);
  } // prettier-ignore

  private treesSaid() {
    const { k, f, served, treesTyped } = this;
    if (!served) return nothing;
    const { trees, hoses, most } = served;
    const { stock } = this;
    const shown = this.treesShown(served);
    const small = smallTreesServed(stock, served);
    return html`<p class="quiet" id="trees-said">
        ${k.treesOf(f, hoses / trees, most)}
        ${stock > 0 ? k.treesServed(f, stock, shown, trees) : nothing}
        ${stock > 0 && small > shown ? k.smallServed(f, small) : nothing}
      </p>
      ${
        treesTyped === ''
          ? nothing
          : html`<p class="trouble" role="alert" id="trees-wrong">${k.treesWrong(treesTyped)}</p>`
      }`;
  }

  private async takeTrees(typed: string): Promise<void> {
    const { served } = this;
    const trees = typed.trim() === '' ? 0 : plainNumber(typed);
    const good = trees !== undefined && Number.isInteger(trees) && trees >= 0;
    this.treesTyped = good ? '' : typed.trim();
    if (!good || !served) return;
    this.wished = trees;
    await this.set('stock', hosesFor(trees, served));
  }
}
define('sb-device-line', DeviceLine);
