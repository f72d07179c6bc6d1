/** One function: its arguments with where each is from, the formula they make, and the button that enters it. */
import { upperFirst } from '../../engine/first-letter.js';
import { css, html, nothing, type PropertyValues } from 'lit';
import { define, SessionElement } from '../parts/element.js';
import { planner } from '../parts/pieces.js';
import type { Session } from '../session.js';
import { base, fields } from '../parts/styles.js';
import { cornerWords } from '../words/corners.js';
import './function-answer.js';
import {
  argumentsOf,
  isPointable,
  type Argument,
  type Around,
  type Origin,
} from './function-arguments.js';
import './function-insert.js';
import { answerOf, Latest, readsCells, type Answer } from './live-answer.js';
import { helpPage, type Example, type FunctionEntry, type FunctionNote } from './function-data.js';

export class FunctionForm extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    entry: { attribute: false },
    note: { attribute: false },
    example: { attribute: false },
    withoutExample: { attribute: false },
    yours: { state: true },
    answer: { state: true },
  };
  declare entry: FunctionEntry;
  declare note: FunctionNote | undefined;
  declare example: Example | undefined;
  /** no example is on its way */
  declare withoutExample: boolean;
  /** what the person typed, by parameter */
  declare private yours: Readonly<Record<string, string>>;
  /** undefined while the first one is worked out */
  declare private answer: Answer | undefined;
  private readonly latest = new Latest();
  private seen: Session['read'] | undefined;
  /** counts how often cells were read anew */
  private readings = 0;

  static override styles = [
    base,
    fields,
    css`
      :host {
        scroll-margin-top: 48px;
      }
      h3 {
        margin-top: 4px;
      }
      h4 {
        margin: 12px 0 4px;
        font-size: 0.875rem;
        font-weight: 650;
      }
      .argument {
        display: grid;
        grid-template-columns: minmax(0, 1fr) 9.5em;
        gap: 0 8px;
        align-items: center;
        padding: 4px 0;
      }
      .argument p {
        grid-column: 1 / -1;
      }
      .amount {
        display: flex;
        gap: 6px;
        align-items: center;
      }
      .unit {
        flex: none;
        max-width: 4.5em;
        min-width: 2em;
        font-size: 0.8125rem;
        color: var(--loam);
      }
      .name {
        color: var(--loam);
        font-size: 0.8125rem;
      }
      .example {
        color: var(--ochre);
      }
      .origin {
        font-size: 0.75rem;
        line-height: 1.3;
      }
      /* stays in view while arguments are typed */
      .answer {
        position: sticky;
        bottom: 0;
        padding: 8px 0;
        background: var(--paper);
        border-top: 2px solid var(--water);
        border-bottom: 1px solid var(--rule);
        max-height: 45vh;
        overflow: auto;
      }
      input {
        scroll-margin-bottom: 140px;
      }
      @container (max-width: 17em) {
        .argument {
          grid-template-columns: minmax(0, 1fr);
        }
      }
      :host {
        container-type: inline-size;
      }
    `,
  ];

  constructor() {
    super();
    this.yours = {};
    this.answer = undefined;
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
    if (before && before.id !== this.entry.id) [this.yours, this.answer] = [{}, undefined];
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.latest.end();
  }

  /** Asks for the answer again when an argument is another one, or cells that it reads may be. */
  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    const { entry, session, latest } = this;
    // without its example it would be asked for twice
    if (this.example === undefined && !this.withoutExample) return;
    const list = this.arguments;
    if (readsCells(list) && this.seen !== session.read) {
      this.seen = session.read;
      this.readings++;
    }
    const key = JSON.stringify([entry.id, list.map(({ formula }) => formula), this.readings]);
    latest.ask(key, () =>
      session.attempt(async () => {
        const answer = await answerOf(entry, list, session);
        if (latest.isLatest(key)) this.answer = answer;
      }),
    );
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
    return argumentsOf(entry, around, yours);
  }

  private mend(parameter: string): void {
    const field = this.renderRoot.querySelector<HTMLElement>(`#argument-${parameter}`);
    field?.closest('details')?.setAttribute('open', '');
    field?.focus();
  }

  protected override render() {
    const { b, entry, note, session, described, answer } = this;
    const list = this.arguments;
    const [needed, optional] = [false, true].map((of) =>
      list.filter(({ parameter }) => (parameter.optional === true) === of),
    ) as [Argument[], Argument[]];
    const pointable = this.row === undefined && list.some(({ parameter }) => isPointable(entry.id, parameter)); // prettier-ignore
    return html`
      <h3 tabindex="-1" translate="no">SOAK.${entry.id}</h3>
      <p lang=${described}>${entry.description}</p>
      <div class="gap">${needed.map((each) => this.argument(each))}</div>
      ${
        optional.length === 0
          ? nothing
          : html`<details id="optional">
              <summary>
                ${b.optional}:
                <span translate="no">${optional.map(({ parameter }) => parameter.name).join(', ')}</span>
              </summary>
              ${optional.map((each) => this.argument(each))}
            </details>`
      }
      ${pointable ? html`<p class="quiet" id="no-row">${b.noRow}</p>` : nothing}
      <section class="answer" aria-labelledby="answer-title">
        <h4 id="answer-title" class="unseen">${b.answer.title}</h4>
        <sb-function-answer
          id="answer"
          .session=${session}
          .entry=${entry}
          .note=${note}
          .list=${list}
          .answer=${answer}
        ></sb-function-answer>
      </section>
      ${this.whereFrom()}
      <h4>${b.formula}</h4>
      <sb-function-insert
        .session=${session}
        .entry=${entry}
        .list=${list}
        .answer=${answer}
        @mend=${(e: CustomEvent<string>) => this.mend(e.detail)}
      ></sb-function-insert>
    `;
  } // prettier-ignore

  private whereFrom() {
    const { b, entry, note } = this;
    return html`
      ${
        note
          ? html`<details id="where-from">
              <summary>${b.whereFrom}</summary>
              <p class="quiet">${b.result}: <span lang="en">${note.result}</span>.</p>
              <p class="quiet">${b.equation}: <span lang="en">${note.equation}</span>.</p>
              <p class="quiet">${b.range}: <span lang="en">${note.range}</span>.</p>
              <p class="quiet">${b.source}: <span lang="en">${note.source}</span>.</p>
            </details>`
          : nothing
      }
      <p class="gap">
        <a href=${helpPage(entry.id)} target="_blank" rel="noopener" id="help-page"
          >${b.help(entry.id)}<span class="unseen">, ${b.helpOpens}</span></a
        >
      </p>
    `;
  }

  private argument({ parameter, typed, origin, unused, what, default: otherwise, unit, read }: Argument) {
    const { b, f, w, described, session, answer } = this;
    const { name, optional, choices } = parameter;
    const id = `argument-${name}`;
    const wrong = answer?.kind === 'trouble' && answer.parameter === name ? answer.sentence : '';
    const shown = w.unit(unit);
    return html`<div class="argument">
      <label for=${id}
        ><span lang=${described}>${what === '' ? parameter.description : what}</span>
        <span class="name" translate="no">${name}</span></label
      >
      <span class="amount">
        <input
          id=${id}
          class=${origin.kind === 'yours' ? '' : 'preset'}
          autocomplete="off"
          spellcheck="false"
          placeholder=${optional ? otherwise : ''}
          list=${choices ? `${id}-words` : nothing}
          .value=${typed}
          aria-invalid=${wrong === '' ? nothing : 'true'}
          aria-describedby="from-${id}${wrong === '' ? '' : ` wrong-${id}`}"
          @input=${(e: Event) => {
            this.yours = { ...this.yours, [name]: (e.target as HTMLInputElement).value };
          }}
        />
        <span class="unit" lang=${described}>${shown}</span>
      </span>
      ${choices ? html`<datalist id="${id}-words">${choices.map((word) => html`<option value=${word}></option>`)}</datalist>` : nothing}
      <p id="from-${id}" class="origin ${origin.kind === 'example' ? 'example' : 'quiet'}">
        ${
          unused && origin.kind !== 'yours'
            ? `${b.origins.otherUnit(unused.header, unused.unit, unused.wanted)} `
            : ''
        }${read === undefined ? this.originWords(origin) : `${typed.trim()} = ${f.plain(read)} ${shown}`.trim()}
      </p>
      ${wrong === '' ? nothing : planner(session, upperFirst(wrong), 'trouble', `wrong-${id}`)}
    </div>`;
  } // prettier-ignore

  private originWords(origin: Origin): string {
    const { origins } = this.b;
    return origin.kind === 'column'
      ? origins.column(origin.header, origin.row)
      : origins[origin.kind];
  }
}
define('sb-function-form', FunctionForm);
