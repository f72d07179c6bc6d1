/** All of a device to be changed: the fields its family needs, each with its unit. */
import { css, html, nothing, type PropertyValues } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { FAMILIES, type Family } from '../../engine/plan/model.js';
import { convert, text, yesNo, type Cell } from '../../tables/cells.js';
import { KIT_COLUMNS, type KitColumn } from '../../tables/kit.js';
import {
  columnsFor,
  devicesOf,
  unitIn,
  type DeviceCells,
  type KitKey,
  type KitRow,
} from '../kit-table.js';
import { currencyOf } from '../money.js';
import { define, SessionElement } from '../parts/element.js';
import { ExactNumbers } from '../parts/exact-numbers.js';
import { typedValue, understood } from '../parts/format.js';
import { button, chosenIn, options, planner } from '../parts/pieces.js';
import { base, fieldLine, fields, withUnit } from '../parts/styles.js';
import { BUYING } from '../site-groups.js';
import { kitWords } from '../words/kit.js';
import { shownCell, storedCell, unitShown } from './kit-cells.js';

const YES_NO = 'yes/no';
/** A price has no unit to change. */
const inUnit = (value: number, from = '', to = ''): number =>
  from === to ? value : (convert(value, from, to) ?? value);

type ColumnUnits = ReadonlyMap<KitKey, string>;

/** Yes, no, or blank, which says something else than no. */
const hasThreeAnswers = ({ kind, blank }: KitColumn): boolean =>
  kind === 'yesno' && blank === undefined;

export class DeviceForm extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    rows: { attribute: false },
    row: { attribute: false },
    family: { state: true },
    trouble: { state: true },
    typed: { state: true },
  };
  /** the table the device stands in */
  declare rows: Cell[][];
  /** the row to change */
  declare row: KitRow;
  declare private family: Family | undefined;
  declare private trouble: string;
  /** the table as the row was opened: the example's comes in other units with those of the panel */
  private opened: Cell[][] = [];
  /** units of the columns as they are shown */
  private unitsShown: ColumnUnits = new Map();
  /** what was typed, in the units that came while the form was open */
  private readonly converted = new Map<KitKey, string>();
  private readonly exact = new ExactNumbers<KitKey>();
  /** the field typed in last, for what was understood of it */
  declare private typed: { key: string; text: string } | undefined;

  static override styles = [
    base,
    fields,
    withUnit,
    fieldLine,
    css`
      :host {
        container-type: inline-size;
      }
      form {
        padding: 8px;
        border: 1px solid var(--edge);
        border-radius: 6px;
        margin-top: 8px;
      }
      h3 {
        margin-top: 0;
      }
      .line {
        row-gap: 4px;
        padding: 4px 0;
      }
      .note {
        grid-column: 1 / -1;
      }
    `,
  ];

  constructor() {
    super();
    this.rows = [];
    this.family = undefined;
    this.trouble = '';
    this.typed = undefined;
  }

  override focusHeading(): void {
    this.renderRoot.querySelector<HTMLElement>('h3')?.focus();
  }

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    const { rows, session } = this;
    const numbers = KIT_COLUMNS.filter(({ kind }) => kind === 'number');
    const now = new Map(numbers.map((c) => [c.key, unitShown(rows, c, session.draft.units)] as const)); // prettier-ignore
    if (changed.has('row')) this.opened = rows;
    else this.convertTyped(now);
    this.unitsShown = now;
  }

  /** A number that was typed in gallons stays the same water when the panel goes over to litres. */
  private convertTyped(now: ColumnUnits): void {
    for (const [key, unit] of now) {
      const field = this.fieldOf(key);
      const before = this.unitsShown.get(key);
      if (field && before !== undefined && before !== unit)
        this.converted.set(
          key,
          this.exact.changed(key, field.value, (n) => inUnit(n, before, unit), this.f),
        );
    }
  }

  protected override updated(): void {
    for (const [key, value] of this.converted) {
      const field = this.fieldOf(key);
      if (field) field.value = value;
    }
    this.converted.clear();
  }

  private fieldOf(key: KitKey): HTMLInputElement | null {
    return this.renderRoot.querySelector<HTMLInputElement>(`#${key}`);
  }

  private get chosenFamily(): Family {
    return this.family ?? this.row.family ?? FAMILIES[0];
  }

  private cells(): DeviceCells {
    const made: DeviceCells = { family: this.chosenFamily };
    for (const column of columnsFor(this.chosenFamily)) {
      const { key, kind } = column;
      const field = this.fieldOf(key);
      if (!field || key === 'family') continue;
      if (hasThreeAnswers(column)) made[key] = field.value || null;
      else if (kind === 'yesno') made[key] = field.checked ? 'yes' : 'no';
      else if (kind === 'text') made[key] = field.value.trim() || null;
      else made[key] = this.number(column, field.value);
    }
    return made;
  }

  /** A cell that shows what it showed stays as it was, with all its digits. */
  private number(column: KitColumn, typed: string): Cell {
    const { rows, opened, row, session } = this;
    const { units } = session.draft;
    const cell = row.cells[column.key] ?? null;
    const same = typed === this.shown(column);
    if (same && unitIn(opened, column, units) === unitIn(rows, column, units)) return cell;
    const value = same ? shownCell(opened, column, cell, units) : typedValue(typed);
    return storedCell(rows, column, value, units);
  }

  private shown(column: KitColumn): string {
    const { opened, row, session, f } = this;
    const cell = shownCell(opened, column, row.cells[column.key] ?? null, session.draft.units);
    return typeof cell === 'number' ? f.plain(cell) : text(cell);
  }

  private get k() {
    return kitWords(this.session.language);
  }

  private keep(): void {
    const { k } = this;
    const cells = this.cells();
    const name = text(cells.name);
    const taken = devicesOf(this.rows).some(
      (other) => other.at !== this.row.at && text(other.cells.name) === name,
    );
    this.trouble = name === '' ? k.nameMissing : taken ? k.nameTaken(name) : '';
    if (this.trouble === '') this.dispatchEvent(new CustomEvent('keep', { detail: cells }));
    else this.renderRoot.querySelector<HTMLElement>('#name')?.focus();
  }

  protected override render() {
    const { k, row, trouble } = this;
    const title = k.editTitle(text(row.cells.name) || k.unnamed);
    return html`<form
      aria-labelledby="title"
      @submit=${(e: Event) => {
        e.preventDefault();
        this.keep();
      }}
      @keydown=${(e: KeyboardEvent) => {
        if (e.key === 'Enter' && e.target instanceof HTMLInputElement) {
          e.preventDefault();
          this.keep();
        }
      }}
    >
      <h3 id="title" tabindex="-1">${title}</h3>
      ${repeat(
        columnsFor(this.chosenFamily),
        // a field stays its column's when the family changes: what was typed in one is not found in another
        ({ key }) => key,
        (column) => this.field(column),
      )}
      ${
        trouble === ''
          ? nothing
          : html`<p id="trouble" class="trouble gap" role="alert">${trouble}</p>`
      }
      <div class="buttons">
        ${button(k.keep, () => this.keep(), { main: true, id: 'keep' })}
        ${button(k.cancel, () => this.dispatchEvent(new CustomEvent('cancel')), { id: 'cancel' })}
      </div>
    </form>`;
  }

  /** Whether more of this device may be bought: as for the whole kit, or an answer of its own. */
  private ownAnswer(key: KitKey, label: string, cell: Cell) {
    const { k, session } = this;
    const forAll = session.setup?.site.find((field) => field.key === BUYING[0])?.value;
    const own = yesNo(cell);
    return html`<div class="line">
      <label for=${key}>${label}</label>
      <select id=${key}>
        ${options(
          [
            { value: '', label: k.buyAsAll(forAll !== 'yes') },
            { value: 'yes', label: k.mayBuy },
            { value: 'no', label: k.stockOnly },
          ],
          own === undefined ? '' : own ? 'yes' : 'no',
        )}
      </select>
    </div>`;
  }

  private field(column: KitColumn) {
    const { w, f, session, row } = this;
    const { key, kind, note } = column;
    const said = this.unitsShown.get(key) ?? '';
    const unit = said === '' && key === 'price' ? currencyOf(session) : said;
    const cell = row.cells[key] ?? null;
    const label = this.k.columns[key];
    const read = kind === 'number' && this.typed?.key === key ? understood(this.typed.text, f) : '';
    if (hasThreeAnswers(column)) return this.ownAnswer(key, label, cell);
    if (kind === 'yesno')
      return html`<label class="check"
        ><input type="checkbox" id=${key} .checked=${yesNo(cell) === true} /><span
          >${label}</span
        ></label
      >${key === 'shutsItself' ? planner(this.session, note, 'quiet note', `${key}-note`) : nothing}`;
    const control =
      kind === 'family'
        ? html`<select
            id=${key}
            @change=${(e: Event) => (this.family = chosenIn(e) as Family)}
          >
            ${options(
              FAMILIES.map((family) => ({ value: family, label: w.families[family] })),
              this.chosenFamily,
            )}
          </select>`
        : html`<input
            id=${key}
            autocomplete="off"
            inputmode=${kind === 'number' ? 'decimal' : nothing}
            aria-invalid=${key === 'name' && this.trouble !== '' ? 'true' : nothing}
            aria-describedby=${key === 'name' && this.trouble !== '' ? 'trouble' : `${key}-note`}
            .value=${this.shown(column)}
            @input=${(e: Event) => (this.typed = { key, text: (e.target as HTMLInputElement).value })}
          />`;
    return html`<div class="line">
      <label for=${key}>${label}</label>
      <div class="value">
        ${control}${unit === '' || unit === YES_NO
          ? nothing
          : html`<span class="unit">${w.unit(unit)}</span>`}
      </div>
      ${read === '' ? nothing : html`<p class="quiet note" role="status" id="${key}-read">${read}</p>`}
      ${kind === 'number' ? planner(this.session, note, 'quiet note', `${key}-note`) : nothing}
    </div>`;
  } // prettier-ignore
}
define('sb-device-form', DeviceForm);
