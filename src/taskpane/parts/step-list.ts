/** The five steps as a list: enter any of them, and see what each knows and lacks. Below them the corners. */
import { css, html, nothing } from 'lit';
import { known, type Known } from '../known.js';
import { CORNERS, STEPS, type Place, type Step } from '../session.js';
import { define, SessionElement } from './element.js';
import { base } from './styles.js';

const SIGNS: Readonly<Record<Known['state'], string>> = {
  fine: '✓',
  look: '▲',
  missing: '○',
  example: '≈',
  quiet: '',
};

export class StepList extends SessionElement {
  static override styles = [
    base,
    css`
      :host {
        container-type: inline-size;
      }
      nav {
        border-bottom: 1px solid var(--rule);
        padding: 8px 8px 8px;
      }
      li {
        display: flex;
      }
      button {
        font: inherit;
        color: inherit;
        text-align: left;
        background: none;
        border: 0;
        border-left: 4px solid transparent;
        border-radius: 6px;
        padding: 4px 8px;
        min-height: 32px;
        width: 100%;
        cursor: pointer;
        display: grid;
        grid-template-columns: 1.25rem minmax(56px, max-content) 1fr;
        gap: 8px;
        align-items: baseline;
      }
      button:hover {
        background: var(--mist);
      }
      button[aria-current] {
        background: var(--mist);
        border-left-color: var(--water);
      }
      .name {
        font-weight: 600;
      }
      .count {
        color: var(--water);
        font-weight: 600;
        text-align: right;
      }
      .line {
        text-align: right;
        font-size: 0.8125rem;
        color: var(--loam);
        overflow-wrap: anywhere;
      }
      .look,
      .missing {
        color: var(--clay);
      }
      .example {
        color: var(--ochre);
      }
      .fine {
        color: var(--leaf);
      }
      .fine::before {
        content: none;
      }
      .corners {
        display: flex;
        flex-wrap: wrap;
        gap: 4px;
        margin-top: 4px;
        padding-top: 4px;
        border-top: 1px dotted var(--rule);
      }
      .corners button {
        width: auto;
        display: block;
        color: var(--water);
        font-size: 0.8125rem;
        min-height: 28px;
      }
      /* little room for large text: what is known stands below the name */
      @container (max-width: 17em) {
        ol button {
          grid-template-columns: 1.25rem minmax(0, 1fr);
          row-gap: 0;
        }
        .line {
          grid-column: 2;
          text-align: left;
        }
      }
      @media (forced-colors: active) {
        button {
          border-left-color: Canvas;
        }
        button[aria-current] {
          border-left-color: Highlight;
        }
      }
    `,
  ];

  private enter(place: Place): void {
    this.session.go(place);
  }

  protected override render() {
    const { w } = this;
    return html`
      <nav aria-label=${w.panel.steps}>
        <ol>
          ${STEPS.map((step, i) => this.step(step, i + 1))}
        </ol>
        <ul class="corners" aria-label=${w.panel.corners}>
          ${CORNERS.map(
            (corner) =>
              html`<li>
                <button
                  type="button"
                  data-place=${corner}
                  aria-current=${this.session.place === corner ? 'page' : nothing}
                  @click=${() => this.enter(corner)}
                >
                  ${w.places[corner]}
                </button>
              </li>`,
          )}
        </ul>
      </nav>
    `;
  }

  private step(step: Step, place: number) {
    const { w } = this;
    const { line, state } = known(step, this.session);
    const word = state === 'quiet' ? '' : w.states[state];
    return html`<li>
      <button
        type="button"
        data-place=${step}
        aria-current=${this.session.place === step ? 'step' : nothing}
        @click=${() => this.enter(step)}
      >
        <span class="count">${place}</span>
        <span class="name">${w.places[step]}</span>
        <span class="line ${state}"
          ><span class="unseen">${word}: </span>${line}<span aria-hidden="true"
            >${`\u00A0${SIGNS[state]}`}</span
          ></span
        >
      </button>
    </li>`;
  }
}
define('sb-step-list', StepList);
