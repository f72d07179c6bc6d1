/** Field check: a bag timed, a hose or tap read by bucket, a pad weighed; verdict, next action, and a row in the log. */
import { css, html, nothing, type PropertyValues } from 'lit';
import type { Device } from '../../engine/plan/model.js';
import type { Units } from '../../engine/units.js';
import { readKit } from '../../tables/kit.js';
import { define, SessionElement } from '../parts/element.js';
import { ExactNumbers } from '../parts/exact-numbers.js';
import { typedValue, understood } from '../parts/format.js';
import { button, chosenIn, options } from '../parts/pieces.js';
import { base, fields, numbers } from '../parts/styles.js';
import { today } from '../session.js';
import { cornerWords } from '../words/corners.js';
import { howTo, readingsOf } from './field-how.js';
import { LOG_SHEET, writeLog } from './field-log.js';
import {
  checkOf,
  FAMILIES_OF,
  FUNCTIONS_OF,
  inOtherUnits,
  INPUTS,
  KINDS,
  limitsOf,
  type Asked,
  type Checked,
  type FieldInput,
  type FieldKey,
  type Kind,
} from './field-verdicts.js';
import { loadNotes, type FunctionNote } from './function-data.js';

type Notes = Readonly<Record<string, FunctionNote>>;

export class FieldCheck extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    kind: { state: true },
    typed: { state: true },
    device: { state: true },
    tree: { state: true },
    notes: { state: true },
  };
  declare private kind: Kind;
  declare private typed: Readonly<Partial<Record<FieldKey, string>>>;
  /** a name of the kit, "" for none; undefined until a person chooses: then it is the first of the kit */
  declare private device: string | undefined;
  declare private tree: string;
  declare private notes: Notes | undefined;
  /** units of what is typed */
  private units: Units | undefined;
  private readonly exact = new ExactNumbers<FieldKey>();

  static override styles = [
    base,
    fields,
    numbers,
    css`
      .field {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(0, 10.5em);
        gap: 2px 8px;
        align-items: center;
        padding: 6px 0;
        border-bottom: 1px solid var(--rule);
      }
      .field > p {
        grid-column: 1 / -1;
      }
      .amount {
        display: flex;
        gap: 6px;
        align-items: center;
      }
      .amount input {
        flex: 1 1 0;
        min-width: 0;
      }
      #where-from {
        margin-top: 8px;
      }
      .unit {
        flex: none;
        min-width: 3em;
        font-size: 0.8125rem;
        color: var(--loam);
      }
      .kinds label {
        margin-top: 4px;
      }
      .verdict {
        margin-top: 12px;
        padding: 8px 12px;
        background: var(--sand);
        border-radius: 6px;
      }
      .verdict h3 {
        margin-top: 0;
      }
      .verdict ol {
        list-style: decimal;
        padding-left: 1.5em;
      }
      .sentence {
        font-size: 1.0625rem;
        font-weight: 650;
      }
    `,
  ];

  constructor() {
    super();
    this.kind = 'bag';
    this.typed = {};
    this.device = undefined;
    this.tree = '';
    this.notes = undefined;
  }

  private get b() {
    return cornerWords(this.session.language).field;
  }
  private get devices(): Device[] {
    const rows = this.session.setup?.kit.rows ?? [];
    const { kit } = readKit(rows.map((row) => [...row]));
    return kit.filter(({ family }) => FAMILIES_OF[this.kind].includes(family));
  }
  private get reserve(): number {
    const field = this.session.setup?.site.find(({ key }) => key === 'padReserve');
    return typeof field?.value === 'number' ? field.value : 0;
  }

  protected override firstUpdated(): void {
    void this.session.attempt(async () => {
      this.notes = await loadNotes();
    });
  }

  private change(kind: Kind): void {
    this.kind = kind;
    this.typed = {};
    this.device = undefined;
  }

  /** A reading stays the same reading when the panel goes over to other units. */
  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    const { units } = this.session.draft;
    const { units: before = units, f } = this;
    this.units = units;
    if (before === units) return;
    const typed: Partial<Record<FieldKey, string>> = {};
    for (const input of INPUTS[this.kind]) {
      const said = this.typed[input.key];
      const changed = (value: number): number => inOtherUnits(input, value, before);
      if (said !== undefined) typed[input.key] = this.exact.changed(input.key, said, changed, f);
    }
    this.typed = typed;
  }

  private numberIn(key: FieldKey): string | number | null {
    return typedValue(this.typed[key] ?? '');
  }

  private asked(device: Device | undefined): Asked {
    const values: Asked['values'] = {};
    for (const { key } of INPUTS[this.kind]) {
      const value = this.numberIn(key);
      if (typeof value === 'number') values[key] = value;
      // a word in a field is no blank field: nothing is taken in its place
      if (typeof value === 'string') values[key] = Number.NaN;
    }
    const { units } = this.session.draft;
    return { kind: this.kind, values, device, units, reserve: this.reserve };
  }

  private readings(device: Device | undefined): string {
    const { b, f, kind, session } = this;
    return readingsOf(
      kind,
      ({ key, kit }) => this.numberIn(key) ?? (device && kit?.(device)) ?? null,
      session.draft.units,
      b,
      f,
    );
  }

  private async log(checked: Checked, device: Device | undefined): Promise<void> {
    const { b, session, tree } = this;
    await session.attempt(async () => {
      const row = {
        date: today(),
        check: b.kinds[this.kind],
        tree: tree.trim(),
        device: device?.name ?? '',
        readings: this.readings(device),
        verdict: checked.sentence,
        action: checked.action,
      };
      const at = await writeLog(session.host, b.logHeader, row, b.logOther(LOG_SHEET));
      session.say(b.logged(LOG_SHEET, at), 'fine');
    });
  }

  protected override render() {
    const { w, b, kind, devices, session } = this;
    const chosen = this.device ?? devices[0]?.name ?? '';
    const device = devices.find(({ name }) => name === chosen);
    const checked = checkOf(this.asked(device), b, this.f);
    return html`
      <h2 tabindex="-1">${w.places['field-check']}</h2>
      <p class="quiet">${b.lead}</p>
      <fieldset class="kinds">
        <legend>${b.kind}</legend>
        ${KINDS.map(
          (each) =>
            html`<label class="check"
              ><input
                type="radio"
                name="kind"
                id="kind-${each}"
                .checked=${each === kind}
                @change=${() => this.change(each)}
              /><span>${b.kinds[each]}</span></label
            >`,
        )}
      </fieldset>
      <p class="gap">
        <label for="device">${b.device}</label>
        <select id="device" class="preset" @change=${(e: Event) => (this.device = chosenIn(e))}>
          ${options(
            [
              { value: '', label: b.noDevice[kind] },
              ...devices.map(({ name }) => ({ value: name, label: name })),
            ],
            chosen,
          )}
        </select>
      </p>
      ${devices.length === 0 ? html`<p class="quiet" id="none-in-kit">${b.noneInKit[kind]}</p>` : nothing}
      <div class="gap">${INPUTS[kind].map((input) => this.input(input, device))}</div>
      ${
        kind === 'bag'
          ? html`<div class="buttons">
              ${button(b.workOut, () => session.go('functions', 'BAG_HOURS'), { small: true, id: 'work-out' })}
            </div>`
          : nothing
      }
      ${this.verdict(checked, device)}
    `;
  }

  private input({ key, unit, optional, kit }: FieldInput, device: Device | undefined) {
    const { b, f, session } = this;
    const value = this.numberIn(key);
    const wrong = typeof value === 'string';
    const read = understood(this.typed[key] ?? '', f);
    const known = device && kit?.(device);
    const name = optional ? `${b.fields[key]} (${b.optional})` : b.fields[key];
    return html`<div class="field">
      <label for=${key}>${name}</label>
      <div class="amount">
        <input
          id=${key}
          inputmode="decimal"
          autocomplete="off"
          placeholder=${known === undefined ? '' : b.fromKit(f.plain(known))}
          .value=${this.typed[key] ?? ''}
          aria-invalid=${wrong ? 'true' : nothing}
          aria-describedby=${wrong ? `wrong-${key}` : read === '' ? nothing : `read-${key}`}
          @input=${(e: Event) => {
            this.typed = { ...this.typed, [key]: (e.target as HTMLInputElement).value };
          }}
        />
        <span class="unit">${unit(session.draft.units, b)}</span>
      </div>
      ${wrong ? html`<p id="wrong-${key}" class="trouble">${b.notNumber(value)}</p>` : nothing}
      ${read === '' ? nothing : html`<p id="read-${key}" class="quiet">${read}</p>`}
    </div>`;
  }

  private verdict(checked: Checked | undefined, device: Device | undefined) {
    const { b, f, kind, session } = this;
    const begun = INPUTS[kind].some(({ key }) => this.numberIn(key) !== null);
    // the place stays, so that a verdict that comes into it is read out
    return html`
      <div class=${begun ? 'verdict' : ''} id="verdict" aria-live="polite">
        ${
          checked
            ? html`<p class="sentence ${checked.fine ? 'fine' : 'trouble'}">${checked.sentence}</p>
                <p class="gap"><strong>${b.next}</strong> ${checked.action}</p>`
            : begun
              ? html`<p class="quiet">${b.missing[kind]}</p>`
              : nothing
        }
      </div>
      ${begun ? nothing : howTo(kind, session.draft.units, this.reserve, b, f)}
      ${checked ? this.below(checked, device) : nothing}
    `;
  }

  private below(checked: Checked, device: Device | undefined) {
    const { b, f, kind, notes } = this;
    return html`
      <dl class="numbers">
        ${checked.numbers.map(
          ({ name, value, unit }) =>
            html`<div>
              <dt>${name}</dt>
              <dd>${value}${unit === '' ? nothing : html`<small>${unit}</small>`}</dd>
            </div>`,
        )}
      </dl>
      <details id="where-from">
        <summary>${b.whereFrom}</summary>
        ${FUNCTIONS_OF[kind].map((id) => {
          const note = notes?.[id];
          return note === undefined
            ? nothing
            : html`<p class="quiet">
                SOAK.${id}. ${b.equation}: <span lang="en">${note.equation}</span>. ${b.source}:
                <span lang="en">${note.source}</span>.
              </p>`;
        })}
        <p class="quiet gap">${limitsOf(kind, this.reserve, b, f)}</p>
        <p class="quiet gap">${b.inputs}: ${this.readings(device)}.</p>
      </details>
      <p class="gap">
        <label for="tree">${b.tree}</label>
        <input
          id="tree"
          autocomplete="off"
          .value=${this.tree}
          @input=${(e: Event) => (this.tree = (e.target as HTMLInputElement).value)}
        />
      </p>
      <div class="buttons">
        ${button(b.log, () => void this.log(checked, device), { main: true, id: 'log' })}
      </div>
      <p class="quiet">${b.logNote(LOG_SHEET)}</p>
    `;
  }
}
define('sb-field-check', FieldCheck);
