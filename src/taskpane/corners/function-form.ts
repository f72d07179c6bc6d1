/** One function: its arguments with where each is from, the formula they make, and the button that enters it. */
import { css, html, nothing, type PropertyValues } from 'lit';
import { define, SessionElement } from '../parts/element.js';
import { button } from '../parts/pieces.js';
import { base, fields } from '../parts/styles.js';
import { cornerWords } from '../words/corners.js';
import {
  argumentsOf,
  formulaFor,
  missingIn,
  type Argument,
  type Around,
  type Origin,
} from './function-arguments.js';
import { helpPage, type Example, type FunctionEntry, type FunctionNote } from './function-data.js';

export class FunctionForm extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    entry: { attribute: false },
    note: { attribute: false },
    example: { attribute: false },
    yours: { state: true },
  };
  declare entry: FunctionEntry;
  declare note: FunctionNote | undefined;
  declare example: Example | undefined;
  /** what the person typed, by parameter */
  declare private yours: Readonly<Record<string, string>>;

  static override styles = [
    base,
    fields,
    css`
      h3 {
        margin-top: 12px;
      }
      h4 {
        margin: 16px 0 4px;
        font-size: 0.875rem;
        font-weight: 650;
      }
      .argument {
        padding: 8px 0;
        border-bottom: 1px solid var(--rule);
      }
      code {
        display: block;
        font-family: ui-monospace, 'Cascadia Mono', Menlo, monospace;
        background: var(--mist);
        border-radius: 4px;
        padding: 6px 8px;
        overflow-wrap: anywhere;
      }
      .example {
        color: var(--ochre);
      }
      .origin {
        font-size: 0.8125rem;
      }
    `,
  ];

  constructor() {
    super();
    this.yours = {};
  }

  private get b() {
    return cornerWords(this.session.language).functions;
  }
  private get described(): string {
    return this.session.language === 'es' ? 'es' : 'en';
  }

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    const before = changed.get('entry') as FunctionEntry | undefined;
    if (before && before.id !== this.entry.id) this.yours = {};
  }

  override focusHeading(): void {
    this.renderRoot.querySelector<HTMLElement>('h3')?.focus();
  }

  /** The row of the chosen cell, where it stands below the headers of the sheet that was read. */
  private get row(): number | undefined {
    const { chosen, front, sheet, reading } = this.session;
    const row = Number(/\d+$/.exec(chosen?.address ?? '')?.[0]);
    if (!row || front !== sheet || !reading) return undefined;
    return row > reading.headerRow + 1 ? row : undefined;
  }

  private get arguments(): Argument[] {
    const { entry, example, session, yours, row } = this;
    const { units } = session.draft;
    const around: Around = { units, columns: session.reading?.columns ?? [], row, example };
    return argumentsOf(entry, around).map((each) => {
      const typed = yours[each.parameter.name];
      return typed === undefined ? each : { ...each, typed, origin: { kind: 'yours' } };
    });
  }

  private async insert(list: readonly Argument[]): Promise<void> {
    const { session, b, entry } = this;
    const missing = missingIn(list);
    if (missing !== undefined) {
      session.say(b.missing(missing), 'trouble');
      this.renderRoot.querySelector<HTMLElement>(`#argument-${missing}`)?.focus();
      return;
    }
    await session.attempt(async () => {
      const address = await session.host.insertFormula(formulaFor(entry.id, list));
      session.say(b.inserted(address), 'fine');
    });
  }

  protected override render() {
    const { b, entry, note, session, described } = this;
    const list = this.arguments;
    const { chosen } = session;
    const filled = chosen !== undefined && (chosen.shown !== '' || chosen.formula !== '');
    return html`
      <h3 tabindex="-1" translate="no">SOAK.${entry.id}</h3>
      <p lang=${described}>${entry.description}</p>
      ${
        note
          ? html`<p class="quiet gap">${b.result}: <span lang="en">${note.result}</span>.</p>
              <p class="quiet">${b.equation}: <span lang="en">${note.equation}</span></p>`
          : nothing
      }
      <p class="gap">
        <a href=${helpPage(entry.id)} target="_blank" rel="noopener" id="help-page"
          >${b.help(entry.id)}<span class="unseen">, ${b.helpOpens}</span></a
        >
      </p>
      ${
        list.length === 0
          ? nothing
          : html`<h4>${b.arguments}</h4>
              ${this.row === undefined ? html`<p class="quiet" id="no-row">${b.noRow}</p>` : nothing}
              ${list.map((each) => this.argument(each))}`
      }
      <h4>${b.formula}</h4>
      <code id="formula" translate="no">${formulaFor(entry.id, list)}</code>
      <p class=${filled ? 'trouble gap' : 'quiet gap'} id="goes-into">
        ${chosen === undefined ? b.nowhere : filled ? b.filled(chosen.address) : b.where(chosen.address)}
      </p>
      <div class="buttons">
        ${button(b.insert, () => void this.insert(list), { main: true, id: 'insert' })}
      </div>
    `;
  }

  private argument({ parameter, typed, origin, unused }: Argument) {
    const { b, described } = this;
    const { name, description, optional } = parameter;
    const id = `argument-${name}`;
    return html`<div class="argument">
      <label for=${id}
        ><strong translate="no">${name}</strong>${optional ? ` (${b.optional})` : ''}:
        <span lang=${described}>${description}</span></label
      >
      <input
        id=${id}
        class=${origin.kind === 'yours' ? '' : 'preset'}
        autocomplete="off"
        spellcheck="false"
        .value=${typed}
        aria-describedby="from-${id}"
        @input=${(e: Event) => {
          this.yours = { ...this.yours, [name]: (e.target as HTMLInputElement).value };
        }}
      />
      <p id="from-${id}" class="origin ${origin.kind === 'example' ? 'example' : 'quiet'}">
        ${
          unused && origin.kind !== 'yours'
            ? `${b.origins.otherUnit(unused.header, unused.unit, unused.wanted)} `
            : ''
        }${this.originWords(origin)}
      </p>
    </div>`;
  }

  private originWords(origin: Origin): string {
    const { origins } = this.b;
    return origin.kind === 'column'
      ? origins.column(origin.header, origin.row)
      : origins[origin.kind];
  }
}
define('sb-function-form', FunctionForm);
