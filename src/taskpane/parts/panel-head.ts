/** The panel's head: mark, name, the sheet that is read, language, units, and on the desk a file to open. */
import { css, html, nothing } from 'lit';
import type { Units } from '../../engine/units.js';
import { pickedBytes } from '../picked-file.js';
import { markElement } from '../mark.js';
import { LANGUAGE_NAMES, LANGUAGES } from '../words/index.js';
import { define, SessionElement } from './element.js';
import { chosenIn, options } from './pieces.js';
import type { Language } from './format.js';
import { base, fields } from './styles.js';

export class PanelHead extends SessionElement {
  static override styles = [
    base,
    fields,
    css`
      header {
        padding: 12px 16px 8px;
        background: var(--sand);
        border-bottom: 1px solid var(--rule);
      }
      .name {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
        align-items: center;
      }
      .name > div {
        flex: 1 0 9.5em;
        min-width: 0;
      }
      .mark {
        width: 36px;
        height: 36px;
        flex: none;
      }
      .mark-hose {
        fill: none;
        stroke: var(--water);
        stroke-linecap: round;
      }
      .mark-stem {
        fill: var(--bark);
      }
      h1 {
        font-size: 1.125rem;
        line-height: 1.2;
        font-weight: 650;
      }
      .settings {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 16px;
        margin-top: 8px;
        align-items: center;
      }
      .settings label {
        display: flex;
        flex-wrap: wrap;
        min-width: 0;
        overflow-wrap: normal;
        gap: 6px;
        align-items: center;
        font-size: 0.8125rem;
        color: var(--loam);
      }
      .settings select {
        width: auto;
        max-width: 100%;
        min-height: 28px;
        padding: 2px 4px;
        font-size: 0.8125rem;
        background: var(--paper);
        border-color: var(--edge);
      }
      .settings a {
        font-size: 0.8125rem;
        padding: 3px 0;
      }
      .file {
        flex: none;
        position: relative;
        display: inline-flex;
        align-items: center;
        min-height: 32px;
        padding: 4px 12px;
        border: 1px solid var(--water);
        border-radius: 6px;
        background: var(--paper);
        color: var(--water);
        font-weight: 600;
        cursor: pointer;
      }
      .file:hover {
        background: var(--mist);
      }
      .file:focus-within {
        outline: 3px solid var(--ochre);
        outline-offset: 2px;
      }
      .file input {
        position: absolute;
        inset: 0;
        opacity: 0;
        min-height: 0;
        cursor: pointer;
      }
    `,
  ];

  private readonly mark = markElement(document);

  private open(event: Event): void {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (!file) return;
    const { session } = this;
    void session.attempt(async () => {
      await session.openFile(file.name, await pickedBytes(file));
    });
    input.value = '';
  }

  private sheetLine(): string {
    const { session, w } = this;
    if (session.sheet === '') return w.panel.noSheet;
    return (session.isSample ? w.panel.sampleSheet : w.panel.sheet)(session.sheet);
  }

  protected override render() {
    const { w, session } = this;
    const p = w.panel;
    return html`
      <header>
        <div class="name">
          ${this.mark}
          <div>
            <h1>Soakbook</h1>
            <p class="quiet" id="sheet-line">${this.sheetLine()}</p>
          </div>
          ${session.host.openFile === undefined ? nothing : this.fileButton()}
        </div>
        <div class="settings">
          <label>
            ${p.language}
            <select
              id="language"
              @change=${(e: Event) =>
                void session.attempt(() => session.speak(chosenIn(e) as Language))}
            >
              ${options(
                LANGUAGES.map((value) => ({ value, label: LANGUAGE_NAMES[value], lang: value })),
                session.language,
              )}
            </select>
          </label>
          <label>
            ${p.units}
            <select
              id="units"
              @change=${(e: Event) =>
                void session.attempt(() => session.setUnits(chosenIn(e) as Units))}
            >
              ${options(
                [
                  { value: 'US', label: p.unitsUS },
                  { value: 'SI', label: p.unitsSI },
                ],
                session.draft.units,
              )}
            </select>
          </label>
          <a href="help/index.html" target="_blank" rel="noopener"
            >${p.help}<span class="unseen"> (${p.helpOpens})</span></a
          >
        </div>
      </header>
    `;
  }

  private fileButton() {
    return html`<label class="file"
      ><span>${this.w.panel.openFile}</span>
      <input
        type="file"
        id="open-file"
        accept=".csv,.tsv,.txt,.xlsx"
        @change=${(e: Event) => this.open(e)}
      />
    </label>`;
  }
}
define('sb-panel-head', PanelHead);
