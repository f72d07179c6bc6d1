/** Functions: search, look at what each argument is, put the formula into a blank cell. */
import { css, html, nothing } from 'lit';
import { define, SessionElement } from '../parts/element.js';
import type { Language } from '../parts/format.js';
import { button, english } from '../parts/pieces.js';
import { base, fields } from '../parts/styles.js';
import { cornerWords } from '../words/corners.js';
import { found } from './function-search.js';
import {
  helpPage,
  loadExamples,
  loadFunctions,
  loadNotes,
  type Example,
  type FunctionEntry,
  type FunctionNote,
} from './function-data.js';

/** The form with its answer: a part of its own, wanted only once a function is used. */
const loadForm = (): Promise<unknown> => import('./function-form.js');

export class Functions extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    typed: { state: true },
    list: { state: true },
    notes: { state: true },
    examples: { state: true },
    using: { state: true },
  };
  declare private typed: string;
  declare private list: readonly FunctionEntry[];
  declare private notes: Readonly<Record<string, FunctionNote>>;
  /** undefined while they are fetched; null when they could not be */
  declare private examples: Readonly<Record<string, Example>> | null | undefined;
  declare private using: string | undefined;
  private listedIn: Language | undefined;

  static override styles = [
    base,
    fields,
    css`
      li {
        padding: 8px 0;
        border-bottom: 1px solid var(--rule);
      }
      li strong {
        font-weight: 600;
        overflow-wrap: anywhere;
      }
      .actions {
        display: flex;
        gap: 12px;
        align-items: center;
        margin-top: 4px;
        font-size: 0.8125rem;
      }
      .actions a {
        min-height: 24px;
        padding: 3px 0;
      }
    `,
  ];

  constructor() {
    super();
    this.typed = '';
    this.list = [];
    this.notes = {};
    this.examples = undefined;
    this.using = undefined;
  }

  private get b() {
    return cornerWords(this.session.language).functions;
  }

  protected override firstUpdated(): void {
    // on its way while a function is looked for; where it does not come, using one says so
    loadForm().catch(() => undefined);
    void this.session.attempt(async () => {
      this.notes = await loadNotes();
    });
    loadExamples().then(
      (examples) => (this.examples = examples),
      // without them arguments are left to type, and the form says so
      () => (this.examples = null),
    );
  }

  protected override updated(): void {
    const { language } = this.session;
    if (this.listedIn === language) return;
    this.listedIn = language;
    void this.session.attempt(async () => {
      this.list = await loadFunctions(language);
      await this.wanted();
    });
  }

  /** Whoever is sent here for one function finds it open. */
  private async wanted(): Promise<void> {
    const { part } = this.session;
    if (!this.list.some(({ id }) => id === part)) return;
    this.session.part = '';
    await this.use(part);
  }

  private use(id: string): Promise<void> {
    return this.session.attempt(async () => {
      await loadForm();
      await this.open(id);
    });
  }
  private async open(id: string): Promise<void> {
    this.using = id;
    await this.updateComplete;
    const form = this.renderRoot.querySelector('sb-function-form');
    if (!(form instanceof SessionElement)) return;
    await form.updateComplete;
    form.focusHeading();
    form.scrollIntoView({ block: 'start' });
  }
  private async back(): Promise<void> {
    const id = this.using;
    this.using = undefined;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(`#use-${id}`)?.focus();
  }

  protected override render() {
    const { w, b, session, using, list, notes, examples } = this;
    const entry = list.find(({ id }) => id === using);
    return html`
      <h2 tabindex="-1">${w.places.functions}</h2>
      ${
        entry
          ? html`<div class="buttons">
                ${button(b.back, () => void this.back(), { small: true, id: 'back' })}
              </div>
              ${examples === null ? html`<p class="quiet gap">${b.noExamples}</p>` : nothing}
              <sb-function-form
                .session=${session}
                .entry=${entry}
                .note=${notes[entry.id]}
                .example=${examples?.[entry.id]}
                .withoutExample=${examples === null || (examples !== undefined && !examples[entry.id])}
              ></sb-function-form>`
          : this.search()
      }
    `;
  }

  private search() {
    const { b, f, typed, list } = this;
    const matching = found(list, typed);
    return html`
      <p class="quiet">${b.lead}</p>
      <p class="gap">
        <label for="search">${b.search}</label>
        <input
          id="search"
          type="search"
          autocomplete="off"
          .value=${typed}
          aria-describedby="search-hint"
          @keydown=${(e: KeyboardEvent) => {
            if (e.key === 'Enter' && matching[0]) void this.use(matching[0].id);
          }}
          @input=${(e: Event) => (this.typed = (e.target as HTMLInputElement).value)}
        />
      </p>
      <p class="quiet" id="search-hint">${b.searchHint}</p>
      <p class="quiet" aria-live="polite" id="found">
        ${
          list.length === 0
            ? nothing
            : matching.length === 0
              ? b.none(typed)
              : b.found(f, matching.length)
        }
      </p>
      <ul id="functions">
        ${matching.map((entry) => this.item(entry))}
      </ul>
    `;
  }

  private item({ id, description }: FunctionEntry) {
    const { b, session } = this;
    const spanish = session.language === 'es';
    return html`<li>
      <strong translate="no">SOAK.${id}</strong>
      ${spanish ? html`<p>${description}</p>` : english(description)}
      <div class="actions">
        ${button(b.choose(id), () => void this.use(id), { small: true, id: `use-${id}` })}
        <a href=${helpPage(id)} target="_blank" rel="noopener" aria-label="${b.help(id)}, ${b.helpOpens}"
          >?</a
        >
      </div>
    </li>`;
  } // prettier-ignore
}
define('sb-functions', Functions);
