/** What the step Kit shows: the devices with what decides about them, the kinds that can be added, and the crew. */
import { css, html, nothing } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { text, type Cell } from '../../tables/cells.js';
import type { SetupReport } from '../../workers/plan-room.js';
import {
  devicesOf,
  withDevice,
  withoutDevice,
  type DeviceCells,
  type KitKey,
  type KitRow,
} from '../kit-table.js';
import { define, SessionElement } from '../parts/element.js';
import { button, chosenIn, options, planner } from '../parts/pieces.js';
import { base, fields } from '../parts/styles.js';
import { BUYING, PRICED } from '../site-groups.js';
import { kitWords } from '../words/kit.js';
import './crew.js';
import './device-form.js';
import { DeviceLine } from './device-line.js';
import { withCell } from './kit-cells.js';
import { KINDS, withNew, type Kind } from './new-device.js';
import { forgetRemoved, putBack, remember, removedOf, type Removed } from './removed.js';
import { kitTable, problemsOf, renamed, withOwn } from './rows.js';

export class KitBody extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    open: { state: true },
  };
  /** the row whose form is open, as it was then */
  declare private open: KitRow | undefined;

  static override styles = [
    base,
    fields,
    css`
      li {
        padding: 6px 0;
        border-bottom: 1px solid var(--rule);
      }
      .add {
        align-items: center;
      }
    `,
  ];

  constructor() {
    super();
    this.open = undefined;
  }

  private get k() {
    return kitWords(this.session.language);
  }
  private get rows(): Cell[][] {
    return kitTable(this.session);
  }

  private line(at: number): DeviceLine | undefined {
    const line = this.renderRoot.querySelector(`sb-device-line[data-at='${at}']`);
    return line instanceof DeviceLine ? line : undefined;
  }

  /** To the first field of a device, once it is drawn. */
  private async focusLine(at: number): Promise<void> {
    await this.updateComplete;
    const line = this.line(at);
    await line?.updateComplete;
    line?.focusFirst();
  }

  private async show(row: KitRow): Promise<void> {
    this.open = row;
    await this.updateComplete;
    const form = this.renderRoot.querySelector('sb-device-form');
    if (!(form instanceof SessionElement)) return;
    await form.updateComplete;
    form.focusHeading();
  }

  private async close(): Promise<void> {
    const at = this.open?.at ?? -1;
    this.open = undefined;
    await this.updateComplete;
    const line = this.line(at);
    await line?.updateComplete;
    line?.focusMore();
  }

  private async keep(cells: DeviceCells): Promise<void> {
    const { session, k, open, rows } = this;
    if (!open) return;
    const { units } = session.draft;
    await session.attempt(async () => {
      // numbers that are changed are a person's own
      const own = (Object.keys(cells) as KitKey[]).filter(
        (key) => cells[key] !== (open.cells[key] ?? null),
      );
      let kit = withDevice(withOwn(session, rows, open, own), open.at, cells, units); // prettier-ignore
      const after = devicesOf(kit).find(({ at }) => at === open.at);
      const same = text(cells.name) === text(open.cells.name);
      // a name that was written in the form is a person's own
      if (after && same) kit = withCell(kit, open.at, 'name', renamed(kit, open, after, session), units); // prettier-ignore
      await session.change({ kit });
      const kept = text(devicesOf(kit).find(({ at }) => at === open.at)?.cells.name);
      await this.close();
      session.say(k.kept(kept), 'fine');
    });
  }

  private async add(kind: Kind): Promise<void> {
    const { session, k } = this;
    const { draft, language } = session;
    await session.attempt(async () => {
      const { kit, at, name } = withNew(this.rows, kind, draft.units, language);
      // the focus goes there at once, not when all is read: by then a person may type elsewhere
      const read = session.change({ kit });
      await this.focusLine(at);
      await read;
      session.say(k.added(name));
    });
  }

  private async removeDevice(row: KitRow): Promise<void> {
    const { session, k, rows } = this;
    const name = text(row.cells.name) || k.unnamed;
    await session.attempt(async () => {
      remember(session, rows, row.at, name);
      const read = session.change({ kit: withoutDevice(rows, row.at) });
      await this.updateComplete;
      const undo = this.renderRoot.querySelectorAll<HTMLElement>('.undo button');
      undo[undo.length - 1]?.focus();
      await read;
      session.say(k.removed(name));
    });
  }

  private async bringBack(removed: Removed): Promise<void> {
    const { session, k } = this;
    await session.attempt(async () => {
      const kit = putBack(session, this.rows, removed);
      const read = session.change({ kit });
      await this.focusLine(Math.min(removed.at, kit.length - 1));
      await read;
      session.say(k.putBack(removed.name), 'fine');
    });
  }

  private async useExample(): Promise<void> {
    const { session } = this;
    await session.attempt(async () => {
      forgetRemoved(session);
      await session.drop('kit');
    });
  }

  protected override render() {
    const { k, session } = this;
    const { setup } = session;
    if (!setup) return nothing;
    const removed = removedOf(session, this.rows);
    return html`
      <p class="quiet">${k.lead}</p>
      <h3>${k.devices}</h3>
      ${this.examples(setup)} ${this.devices()}
      ${
        removed.length === 0
          ? nothing
          : html`<div class="buttons undo">
              ${removed.map((one) => button(k.undo(one.name), () => void this.bringBack(one), { small: true }))}
            </div>`
      }
      <div class="buttons add" role="group" aria-labelledby="add-title">
        <span id="add-title">${k.add}</span>
        ${KINDS.map((kind) =>
          button(k.kinds[kind], () => void this.add(kind), {
            small: true,
            id: `add-${kind}`,
            name: k.addOf(k.kinds[kind]),
            disabled: this.open !== undefined,
          }),
        )}
      </div>
      ${
        setup.kit.example
          ? nothing
          : html`<div class="buttons">
              ${button(k.useExample, () => void this.useExample(), { small: true, id: 'kit-example' })}
            </div>`
      }
      ${this.problems(setup)} ${this.buying(setup)}
      <sb-crew .session=${session}></sb-crew>
    `;
  } // prettier-ignore

  /** Sentences that belong to no device of the list; the others stand with theirs. */
  private problems({ kit }: SetupReport) {
    const { session, k } = this;
    const listed = new Set(devicesOf(this.rows).flatMap(({ at }) => problemsOf(kit.problems, at)));
    const others = kit.problems.filter((said) => !listed.has(said));
    return others.length === 0
      ? nothing
      : html`<h3>${k.problems}</h3>
          ${others.map((problem) => planner(session, problem, 'trouble'))}`;
  }

  /** What is an example still: devices, and numbers the price is made from. */
  private examples({ kit, site }: SetupReport) {
    const { k, w, f } = this;
    const { fromExample, invented, devices } = kit;
    const partly = invented.filter(({ all }) => !all).map(({ name }) => name);
    const numbers = site.filter(({ key, from }) => PRICED.includes(key) && from === 'default');
    return html`
      ${
        fromExample.length === 0
          ? nothing
          : html`<p class="trouble" id="examples">
              ${
                fromExample.length === devices.length
                  ? k.example
                  : k.someExample(f, fromExample, devices.length)
              }
            </p>`
      }
      ${
        partly.length === 0
          ? nothing
          : html`<p class="trouble" id="examples-partly">${k.partlyExample(partly)}</p>`
      }
      ${
        numbers.length === 0
          ? nothing
          : html`<p class="trouble" id="example-numbers">
              ${k.exampleNumbers(numbers.map(({ key, name }) => w.site.name(key, name)))}
            </p>`
      }
    `;
  }

  /** “Stock only” as the question it is. */
  private buying({ site }: SetupReport) {
    const { k, session } = this;
    const field = site.find(({ key }) => key === BUYING[0]);
    return field === undefined
      ? nothing
      : html`<p class="gap">
          <label for="buying">${k.buying}</label>
          <select
            id="buying"
            class=${field.from === 'typed' ? '' : 'preset'}
            @change=${(e: Event) =>
              void session.attempt(() => session.setSite(field.key, chosenIn(e)))}
          >
            ${options(
              [
                { value: 'no', label: k.mayBuy },
                { value: 'yes', label: k.stockOnly },
              ],
              String(field.value),
            )}
          </select>
          <span class="quiet">${k.buyingOne}</span>
        </p>`;
  }

  private devices() {
    const { k, session, open, rows } = this;
    const devices = devicesOf(rows);
    if (devices.length === 0) return html`<p class="trouble">${k.none}</p>`;
    return html`<ul id="devices">
      ${repeat(
        devices,
        ({ at }) => at,
        (row) =>
          html`<li>
            <sb-device-line
              data-at=${row.at}
              .session=${session}
              .row=${row}
              .open=${open?.at === row.at}
              .busy=${open !== undefined}
              @more=${() => void this.show(row)}
              @remove=${() => void this.removeDevice(row)}
            ></sb-device-line>
            ${
              open?.at === row.at
                ? html`<sb-device-form
                    .session=${session}
                    .rows=${rows}
                    .row=${open}
                    @keep=${(e: CustomEvent<DeviceCells>) => void this.keep(e.detail)}
                    @cancel=${() => void this.close()}
                  ></sb-device-form>`
                : nothing
            }
          </li>`,
      )}
    </ul>`;
  }
}
define('sb-kit-body', KitBody);
