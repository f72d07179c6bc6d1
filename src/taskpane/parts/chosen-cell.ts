/** The chosen cell, when it holds one of our functions or an error: what it shows, and why. */
import { upperFirst } from '../../engine/first-letter.js';
import { css, html, nothing } from 'lit';
import { define, SessionElement } from './element.js';
import { planner } from './pieces.js';
import { base } from './styles.js';

const OWN = /\bSOAK\./i;

export class ChosenCellPart extends SessionElement {
  static override styles = [
    base,
    css`
      section {
        padding: 8px 16px 12px;
        border-top: 1px solid var(--rule);
      }
      h2 {
        font-size: 0.875rem;
      }
      code {
        font:
          0.8125rem/1.4 ui-monospace,
          'Cascadia Mono',
          Menlo,
          monospace;
        background: var(--mist);
        border-radius: 4px;
        padding: 1px 4px;
        overflow-wrap: anywhere;
      }
    `,
  ];

  protected override render() {
    const { chosen } = this.session;
    const { w } = this;
    if (!chosen || (chosen.trouble === '' && !OWN.test(chosen.formula))) return nothing;
    const { address, formula, shown, trouble } = chosen;
    const sentence = upperFirst(trouble);
    return html`<section aria-labelledby="title">
      <h2 id="title">${w.cell.title}</h2>
      <p>${w.cell.shows(address, shown)}</p>
      ${formula === '' ? nothing : html`<p class="gap"><code translate="no">${formula}</code></p>`}
      ${trouble === '' ? nothing : planner(this.session, sentence, 'trouble gap')}
    </section>`;
  }
}
define('sb-chosen-cell', ChosenCellPart);
