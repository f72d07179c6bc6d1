/** Step 4: devices in stock or to be bought, the crew and its hours. What it shows is a part of its own, loaded on the way. */
import { html, nothing } from 'lit';
import { define, SessionElement } from '../parts/element.js';
import { planner } from '../parts/pieces.js';
import { base } from '../parts/styles.js';

const loadBody = (): Promise<unknown> => import('../kit/kit-body.js');

export class KitStep extends SessionElement {
  static override styles = [base];

  protected override firstUpdated(): void {
    void this.session.attempt(async () => void (await loadBody()));
  }

  protected override render() {
    const { w, session } = this;
    const { setup, troubles } = session;
    return html`
      <h2 tabindex="-1">${w.places.kit}</h2>
      ${troubles.setup === '' ? nothing : planner(session, troubles.setup, 'trouble gap')}
      ${setup === undefined ? nothing : html`<sb-kit-body .session=${session}></sb-kit-body>`}
    `;
  }
}
define('sb-kit', KitStep);
