/** Values of the list that nobody measured, a way to take them out again, and other blank cells to be filled. */
import { css, html, nothing } from 'lit';
import { takeBack } from '../fill.js';
import { fillWords } from '../words/fill.js';
import { define, SessionElement } from './element.js';
import { button } from './pieces.js';
import { base } from './styles.js';

export class AssumedValues extends SessionElement {
  static override styles = [
    base,
    css`
      li {
        overflow-wrap: anywhere;
      }
      .buttons {
        margin-top: 4px;
      }
    `,
  ];

  /** The button goes with the values. */
  private async takeBack(): Promise<void> {
    const { session } = this;
    await session.attempt(async () => {
      await takeBack(session);
      await this.updateComplete;
      const rest = this.renderRoot.querySelector('sb-fill-blanks');
      if (rest instanceof SessionElement) await rest.updateComplete;
      rest?.shadowRoot?.querySelector<HTMLElement>('summary')?.focus();
    });
  }

  protected override render() {
    const { session, f } = this;
    const k = fillWords(session.language);
    const { reading } = session;
    if (!reading || reading.rows === 0) return nothing;
    return html`
      ${
        reading.assumed.length === 0
          ? nothing
          : html`<section aria-labelledby="assumed-title">
              <h3 id="assumed-title" tabindex="-1">${k.assumed}</h3>
              <ul id="assumed">
                ${reading.assumed.map(
                  ({ header, rows }) => html`<li>${k.assumedRows(f, header, rows)}</li>`,
                )}
              </ul>
              <p class="quiet">${k.assumedMeans}</p>
              <div class="buttons">
                ${button(k.takeBack, () => void this.takeBack(), { small: true, id: 'take-back' })}
              </div>
            </section>`
      }
      <sb-fill-blanks class="gap" .session=${session}></sb-fill-blanks>
    `;
  }
}
define('sb-assumed', AssumedValues);
