/** The weather of the site: by month, as pasted days, or from a station's file; and what was understood of it. */
import { css, html, nothing } from 'lit';
import type { Cell } from '../../tables/cells.js';
import { pickedBytes } from '../picked-file.js';
import { define, SessionElement } from './element.js';
import { button, planner, said } from './pieces.js';
import { base, fields, tables } from './styles.js';
import { isOfTemperatures } from './weather-months.js';

type Way = 'temperatures' | 'months' | 'paste' | 'file';
const WAYS: readonly Way[] = ['temperatures', 'months', 'paste', 'file'];
/** Sentences shown of one file; a station's file may have thousands like them. */
const PROBLEMS_SHOWN = 8;

export class WeatherPart extends SessionElement {
  static override properties = { ...SessionElement.properties, way: { state: true } };
  /** as chosen; undefined: the one that is used, with nothing of one's own that anybody can look up */
  declare private way: Way | undefined;

  static override styles = [
    base,
    fields,
    tables,
    css`
      .ways {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 16px;
      }
      .ways label {
        display: flex;
        gap: 6px;
        align-items: center;
        min-height: 28px;
      }
      .ways input {
        margin: 0;
      }
      .understood {
        margin-top: 8px;
        padding: 8px;
        background: var(--sand);
        border-radius: 6px;
      }
    `,
  ];

  constructor() {
    super();
    this.way = undefined;
  }

  private get shownWay(): Way {
    const { weather } = this.session.draft;
    const suggested = !weather || isOfTemperatures(weather) ? 'temperatures' : 'months';
    return this.way ?? suggested;
  }

  private async take(name: string, bytes: Uint8Array): Promise<void> {
    const { session } = this;
    await session.attempt(async () => {
      const { sheets, front } = await session.room.open(name, bytes);
      const cells = sheets[front]?.cells;
      if (cells) await session.change({ weather: cells as Cell[][] });
    });
  }

  private takeFile(event: Event): void {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (!file) return;
    void this.session.attempt(async () => this.take(file.name, await pickedBytes(file)));
    input.value = '';
  }

  private takePasted(): void {
    const text = this.renderRoot.querySelector<HTMLTextAreaElement>('#pasted')?.value ?? '';
    void this.take('pasted.csv', new TextEncoder().encode(text));
  }

  protected override render() {
    const { w, shownWay: way } = this;
    const s = w.site;
    return html`
      <section aria-labelledby="title">
        <h3 id="title">${s.weather}</h3>
        ${this.understood()}
        <fieldset>
          <legend class="unseen">${s.weatherHow}</legend>
          <div class="ways">
            ${WAYS.map(
              (one) =>
                html`<label
                  ><input
                    type="radio"
                    name="way"
                    value=${one}
                    .checked=${one === way}
                    @change=${() => (this.way = one)}
                  />${s.ways[one]}</label
                >`,
            )}
          </div>
        </fieldset>
        ${
          way === 'months' || way === 'temperatures'
            ? html`<sb-weather-months
                .session=${this.session}
                .by=${way === 'months' ? 'et0' : way}
              ></sb-weather-months>`
            : way === 'paste'
              ? this.paste()
              : this.file()
        }
      </section>
    `;
  }

  private understood() {
    const { w, session } = this;
    const weather = session.setup?.weather;
    if (!weather) return nothing;
    const { kind, says, problems } = weather;
    const bad = kind === 'none';
    return html`<div class="understood" id="weather-said">
      <p class=${bad ? 'trouble' : ''}>
        ${w.site.weatherKind[kind]}${says === '' ? '.' : html`: ${said(session, says)}.`}
      </p>
      ${problems.slice(0, PROBLEMS_SHOWN).map((problem) => planner(session, problem, 'quiet'))}
      ${
        problems.length > PROBLEMS_SHOWN
          ? html`<p class="quiet">${w.trees.most(this.f, PROBLEMS_SHOWN)}</p>`
          : nothing
      }
      ${
        session.draft.weather === undefined
          ? nothing
          : html`<div class="buttons">
              ${button(
                w.site.useExample,
                () => void session.attempt(() => session.drop('weather')),
                { small: true, id: 'weather-example' },
              )}
            </div>`
      }
    </div>`;
  }

  private paste() {
    const s = this.w.site;
    return html`
      <label for="pasted" class="gap">${s.pasteLabel}</label>
      <textarea id="pasted" spellcheck="false" aria-describedby="paste-note"></textarea>
      <p class="quiet" id="paste-note">${s.pasteNote}</p>
      <div class="buttons">
        ${button(s.usePaste, () => this.takePasted(), { id: 'use-pasted' })}
      </div>
    `;
  }

  private file() {
    const s = this.w.site;
    return html`
      <label for="station">${s.fileLabel}</label>
      <input
        type="file"
        id="station"
        accept=".csv,.txt,.tsv,.xlsx"
        aria-describedby="file-note"
        @change=${(e: Event) => this.takeFile(e)}
      />
      <p class="quiet" id="file-note">${s.fileNote}</p>
    `;
  }
}
define('sb-weather', WeatherPart);
