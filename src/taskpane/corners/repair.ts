/** Repair: enters our own formulas again where the spreadsheet has lost them. */
import { html, nothing } from 'lit';
import { define, SessionElement } from '../parts/element.js';
import { button } from '../parts/pieces.js';
import { base } from '../parts/styles.js';
import { cornerWords } from '../words/corners.js';

export class Repair extends SessionElement {
  static override properties = {
    ...SessionElement.properties,
    working: { state: true },
    count: { state: true },
  };
  declare private working: boolean;
  /** formulas entered again; undefined before the first repair */
  declare private count: number | undefined;

  static override styles = [base];

  constructor() {
    super();
    this.working = false;
    this.count = undefined;
  }

  private get b() {
    return cornerWords(this.session.language).repair;
  }
  private says(count: number): string {
    return count === 0 ? this.b.none : this.b.done(this.f, count);
  }

  private async run(): Promise<void> {
    const { session, b } = this;
    if (this.working) return;
    this.working = true;
    session.say(b.working);
    await session.attempt(async () => {
      this.count = await session.host.repair();
      session.say(this.says(this.count), 'fine');
    });
    this.working = false;
  }

  protected override render() {
    const { w, b, working, count } = this;
    return html`
      <h2 tabindex="-1">${w.places.repair}</h2>
      <p>${b.lead}</p>
      <div class="buttons">
        ${button(b.repair, () => void this.run(), { main: true, id: 'repair', disabled: working })}
      </div>
      ${
        count === undefined
          ? nothing
          : html`<p class="fine gap" id="repaired">${this.says(count)}</p>
              <p class="quiet gap">${b.still}</p>`
      }
    `;
  }
}
define('sb-repair', Repair);
