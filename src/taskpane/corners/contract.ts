/** The corner Contract: what a contract asks for, who is served when water is short, what a filled log says. */
import { css, html, nothing, type PropertyValues } from 'lit';
import { define, SessionElement } from '../parts/element.js';
import { base } from '../parts/styles.js';
import { contractWords } from '../words/contract.js';
import './contract-clauses.js';
import './contract-log.js';
import './contract-shortage.js';

const PARTS = ['clauses', 'shortage', 'log'] as const;
type Part = (typeof PARTS)[number];

export class ContractCorner extends SessionElement {
  static override properties = { ...SessionElement.properties, shown: { state: true } };
  declare private shown: Part;

  static override styles = [
    base,
    css`
      nav ul {
        display: flex;
        flex-wrap: wrap;
        gap: 4px;
        margin: 8px 0;
        border-bottom: 1px solid var(--rule);
      }
      nav button {
        font: inherit;
        color: var(--water);
        background: none;
        border: 0;
        border-bottom: 3px solid transparent;
        padding: 4px 8px;
        min-height: 32px;
        cursor: pointer;
      }
      nav button[aria-current] {
        color: var(--bark);
        font-weight: 650;
        border-bottom-color: var(--water);
      }
      @media (forced-colors: active) {
        nav button[aria-current] {
          border-bottom-color: Highlight;
        }
      }
    `,
  ];

  constructor() {
    super();
    this.shown = 'clauses';
  }

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    const wanted = PARTS.find((part) => part === this.session.part);
    if (!this.hasUpdated && wanted) this.shown = wanted;
  }

  protected override render() {
    const { w, session, shown } = this;
    const c = contractWords(session.language);
    return html`
      <h2 tabindex="-1">${w.places.contract}</h2>
      <p class="quiet">${c.lead}</p>
      <nav aria-label=${c.parts}>
        <ul>
          ${PARTS.map(
            (each) =>
              html`<li>
                <button
                  type="button"
                  id="part-${each}"
                  aria-current=${each === shown ? 'true' : nothing}
                  @click=${() => (this.shown = each)}
                >
                  ${c.part[each]}
                </button>
              </li>`,
          )}
        </ul>
      </nav>
      <sb-contract-clauses .session=${session} ?hidden=${shown !== 'clauses'}></sb-contract-clauses>
      <sb-contract-shortage
        .session=${session}
        ?hidden=${shown !== 'shortage'}
      ></sb-contract-shortage>
      <sb-contract-log .session=${session} ?hidden=${shown !== 'log'}></sb-contract-log>
    `;
  }
}
define('sb-contract', ContractCorner);
