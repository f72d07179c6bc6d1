/** Head of "Write the order": the hours when nothing may run, for every line and for what no line names. */
import { css, html, nothing } from 'lit';
import { closedHours, withHours, type ClosedHours } from '../../workbook/order-closed.js';
import { endsTyped, type LineTrouble, type OrderLine } from '../../workbook/order-lines.js';
import { orderWords, type OrderWords } from '../words/order.js';
import { define, SessionElement } from './element.js';
import { orderBox } from './order-styles.js';
import { troubleAt } from './order-trouble.js';
import { said } from './pieces.js';
import { base, fields } from './styles.js';
import { typedIn } from './typed-in.js';

export class OrderHours extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    line: { attribute: false },
    troubles: { attribute: false },
    sentence: { attribute: false },
  };
  /** the row that closes them; without hours there is none */
  declare line: OrderLine;
  declare troubles: readonly LineTrouble[];
  /** how the rules read it, "" while they do not */
  declare sentence: string;

  static override styles = [
    base,
    fields,
    orderBox,
    css`
      legend {
        font-size: 0.875rem;
        font-weight: 650;
      }
      label {
        display: block;
        margin: 8px 0 0;
        font-size: 0.8125rem;
        font-weight: 600;
        color: var(--loam);
      }
    `,
  ];

  constructor() {
    super();
    [this.troubles, this.sentence] = [[], ''];
  }

  private get o(): OrderWords {
    return orderWords(this.session.language);
  }

  /** The first hour, or the one that cannot be used. */
  focusField(field = 'from'): void {
    this.renderRoot.querySelector<HTMLElement>(`#closed-${field}`)?.focus();
  }

  private take(field: keyof ClosedHours, typed: string): void {
    const part = (field === 'from' ? endsTyped(typed) : undefined) ?? { [field]: typed };
    this.dispatchEvent(new CustomEvent('become', { detail: withHours(this.line, part) }));
  }

  private hour(field: keyof ClosedHours, label: string) {
    const trouble = troubleAt(this.troubles, field, this.o, this.session);
    const id = `closed-${field}`;
    return html`<div>
      <label for=${id}>${label}</label>
      <input
        id=${id}
        autocomplete="off"
        aria-invalid=${trouble === '' ? nothing : 'true'}
        aria-describedby=${trouble === '' ? 'closed-note' : `${id}-trouble closed-note`}
        ${typedIn(closedHours(this.line)[field], ({ value }) => this.take(field, value.trim()))}
      />
      ${trouble === '' ? nothing : html`<p class="trouble" id=${`${id}-trouble`} role="alert">${trouble}</p>`}
    </div>`;
  } // prettier-ignore

  protected override render() {
    const { o, sentence } = this;
    return html`<fieldset>
      <legend>${o.closed}</legend>
      <div class="pair">${this.hour('from', o.hourFrom)} ${this.hour('to', o.hourTo)}</div>
      <p class="quiet" id="closed-note">${o.closedNote}</p>
      ${
        sentence === ''
          ? nothing
          : html`<p class="reads" id="closed-reads">
              <span class="quiet">${o.reads}</span> ${said(this.session, sentence)}
            </p>`
      }
    </fieldset>`;
  }
}
define('sb-order-hours', OrderHours);
