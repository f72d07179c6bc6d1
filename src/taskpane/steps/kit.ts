/** Step 4: devices in stock or to be bought, the crew, its hours and its tank. */
import { css, html, nothing } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import { text, type Cell } from '../../tables/cells.js';
import {
  devicesOf,
  withDevice,
  withoutDevice,
  type DeviceCells,
  type KitRow,
} from '../kit-table.js';
import { priceOf } from '../money.js';
import { define, SessionElement } from '../parts/element.js';
import '../parts/device-form.js';
import { button, chosenIn, options, planner } from '../parts/pieces.js';
import '../parts/site-field.js';
import { base, fields } from '../parts/styles.js';
import { BUYING, CREW } from '../site-groups.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import type { SetupReport } from '../../workers/plan-room.js';

/** Inputs of the site that always are part of the price. */
const PRICED: readonly SiteKey[] = ['wage', 'waterPrice', 'margin'];

/** A new device, or the row that is being changed. */
type Open = { row: KitRow | undefined } | undefined;

export class KitStep extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    open: { state: true },
    removedFrom: { state: true },
  };
  declare private open: Open;
  /** the table before a device was removed, to put it back */
  declare private removedFrom: Cell[][] | undefined;

  static override styles = [
    base,
    fields,
    css`
      li {
        padding: 6px 0;
        border-bottom: 1px solid var(--rule);
      }
      .device {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 8px;
        justify-content: space-between;
        align-items: start;
      }
      .device > div:first-child {
        flex: 1 1 9em;
        min-width: 0;
      }
      .device strong {
        font-weight: 600;
        overflow-wrap: anywhere;
      }
      .changes {
        display: flex;
        flex-wrap: wrap;
        gap: 4px;
      }
    `,
  ];

  constructor() {
    super();
    this.open = undefined;
    this.removedFrom = undefined;
  }

  private get rows(): Cell[][] {
    return this.session.setup?.kit.rows ?? [];
  }

  private async show(row: KitRow | undefined): Promise<void> {
    this.open = { row };
    await this.updateComplete;
    const form = this.renderRoot.querySelector('sb-device-form');
    if (!(form instanceof SessionElement)) return;
    await form.updateComplete;
    form.focusHeading();
  }

  private async close(): Promise<void> {
    this.open = undefined;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('#add')?.focus();
  }

  private async keep(cells: DeviceCells): Promise<void> {
    const { session, w, open } = this;
    if (!open) return;
    await session.attempt(async () => {
      const kit = withDevice(this.rows, open.row?.at, cells, session.draft.units);
      this.removedFrom = undefined;
      await session.change({ kit });
      await this.close();
      session.say(w.kit.kept(text(cells.name)), 'fine');
    });
  }

  private async removeDevice(row: KitRow): Promise<void> {
    const { session, w } = this;
    const before = this.rows;
    await session.attempt(async () => {
      await session.change({ kit: withoutDevice(before, row.at) });
      this.removedFrom = before;
      session.say(w.kit.removed(text(row.cells.name)));
      await this.updateComplete;
      this.renderRoot.querySelector<HTMLElement>('#undo')?.focus();
    });
  }

  private async putBack(): Promise<void> {
    const { session, removedFrom: before } = this;
    if (!before) return;
    await session.attempt(async () => {
      this.removedFrom = undefined;
      await session.change({ kit: before });
      await this.close();
    });
  }

  protected override render() {
    const { w, session, open } = this;
    const { setup, troubles } = session;
    const k = w.kit;
    return html`
      <h2 tabindex="-1">${w.places.kit}</h2>
      <p class="quiet">${k.lead}</p>
      ${troubles.setup === '' ? nothing : planner(session, troubles.setup, 'trouble gap')}
      ${setup === undefined
        ? nothing
        : html`
            <h3>${k.devices}</h3>
            ${this.examples(setup)} ${this.devices()}
            <div class="buttons">
              ${button(k.add, () => void this.show(undefined), { id: 'add', disabled: open !== undefined })}
              ${this.removedFrom ? button(k.undo, () => void this.putBack(), { id: 'undo' }) : nothing}
              ${setup.kit.example
                ? nothing
                : button(k.useExample, () => void session.attempt(() => session.drop('kit')), { id: 'kit-example' })}
            </div>
            ${open && open.row === undefined ? this.form(open) : nothing}
            ${setup.kit.problems.length === 0
              ? nothing
              : html`<h3>${k.problems}</h3>
                  ${setup.kit.problems.map((problem) => planner(session, problem, 'trouble'))}`}
            ${this.buying(setup)}
            <h3>${k.crew}</h3>
            ${CREW.map((key) => (key === 'tankVolume' ? this.tank(setup) : this.field(key)))}
          `}
    `;
  } // prettier-ignore

  /** What is an example still: devices, and numbers the price is made from. */
  private examples({ kit, site }: SetupReport) {
    const { w, f } = this;
    const { fromExample, devices } = kit;
    const numbers = site.filter(({ key, from }) => PRICED.includes(key) && from === 'default');
    return html`
      ${
        fromExample.length === 0
          ? nothing
          : html`<p class="trouble" id="examples">
              ${
                fromExample.length === devices.length
                  ? w.kit.example
                  : w.kit.someExample(f, fromExample, devices.length)
              }
            </p>`
      }
      ${
        numbers.length === 0
          ? nothing
          : html`<p class="trouble" id="example-numbers">
              ${w.kit.exampleNumbers(numbers.map(({ key, name }) => w.site.name(key, name)))}
            </p>`
      }
    `;
  }

  /** “Stock only” as the question it is. */
  private buying({ site }: SetupReport) {
    const { w, session } = this;
    const field = site.find(({ key }) => key === BUYING[0]);
    return field === undefined
      ? nothing
      : html`<p class="gap">
          <label for="buying">${w.kit.buying}</label>
          <select
            id="buying"
            class=${field.from === 'typed' ? '' : 'preset'}
            @change=${(e: Event) =>
              void session.attempt(() => session.setSite(field.key, chosenIn(e)))}
          >
            ${options(
              [
                { value: 'no', label: w.kit.mayBuy },
                { value: 'yes', label: w.kit.stockOnly },
              ],
              String(field.value),
            )}
          </select>
        </p>`;
  }

  /** The truck's own tank where the kit has one: the site's tank volume would be asked in vain. */
  private tank({ kit }: SetupReport) {
    const { w, f } = this;
    if (kit.tank === undefined) return this.field('tankVolume');
    const { device, volume, unit } = kit.tank;
    return html`<p id="tank" class="gap">${w.kit.tank(`${f.amount(volume)} ${unit}`, device)}</p>`;
  }

  private field(key: (typeof CREW)[number]) {
    const { session } = this;
    const field = session.setup?.site.find((f) => f.key === key);
    return field === undefined
      ? nothing
      : keyed(
          key,
          html`<sb-site-field data-key=${key} .session=${session} .field=${field}></sb-site-field>`,
        );
  }

  private form(open: NonNullable<Open>) {
    return keyed(
      open.row?.at ?? 'new',
      html`<sb-device-form
        .session=${this.session}
        .rows=${this.rows}
        .row=${open.row}
        @keep=${(e: CustomEvent<DeviceCells>) => void this.keep(e.detail)}
        @cancel=${() => void this.close()}
      ></sb-device-form>`,
    );
  }

  private devices() {
    const { w, open } = this;
    const devices = devicesOf(this.rows);
    if (devices.length === 0) return html`<p class="trouble">${w.kit.none}</p>`;
    return html`<ul id="devices">
      ${devices.map(
        (row) =>
          html`<li>
            ${this.device(row)} ${open?.row?.at === row.at ? this.form(open) : nothing}
          </li>`,
      )}
    </ul>`;
  }

  private device(row: KitRow) {
    const { w, session, open } = this;
    const k = w.kit;
    const { cells, family } = row;
    const name = text(cells.name);
    const size = session.spoken(
      session.setup?.kit.devices.find((device) => device.name === name)?.size ?? '',
    ).text;
    const kind = family === undefined ? text(cells.family) : w.families[family];
    const busy = open !== undefined;
    return html`
      <div class="device">
        <div>
          <strong>${name}</strong>
          <div class="quiet">${size === '' ? kind : `${kind} · ${size}`}</div>
          <div class="quiet">
            ${k.stock}: ${this.amount(cells.stock)} · ${k.price}: ${this.price(cells.price)}
          </div>
        </div>
        <div class="changes">
          ${button(k.edit, () => void this.show(row), {
            small: true,
            name: k.editOf(name),
            disabled: busy,
          })}
          ${button(k.remove, () => void this.removeDevice(row), {
            small: true,
            name: k.removeOf(name),
            disabled: busy,
          })}
        </div>
      </div>
    `;
  }

  private price(cell: Cell | undefined): string {
    return typeof cell === 'number' ? priceOf(this.session, cell) : this.amount(cell);
  }

  private amount(cell: Cell | undefined): string {
    return typeof cell === 'number' ? this.f.amount(cell) : text(cell) || this.w.kit.unknown;
  }
}
define('sb-kit', KitStep);
