/** Step 2: the place, the season, the weather; the rest of the site's inputs by group. */
import { css, html, nothing } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import { FIRST, MORE } from '../site-groups.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import { define, SessionElement } from '../parts/element.js';
import { planner } from '../parts/pieces.js';
import '../parts/site-field.js';
import { base } from '../parts/styles.js';
import '../parts/weather.js';

export class SiteStep extends SessionElement {
  static override styles = [
    base,
    css`
      .more {
        margin-top: 16px;
        border-top: 1px solid var(--rule);
        padding-top: 8px;
      }
    `,
  ];

  protected override render() {
    const { w, session } = this;
    const { setup, troubles } = session;
    const s = w.site;
    return html`
      <h2 tabindex="-1">${w.places.site}</h2>
      <p class="quiet">${s.lead}</p>
      ${troubles.setup === '' ? nothing : planner(session, troubles.setup, 'trouble gap')}
      ${setup === undefined
        ? nothing
        : html`
            <h3>${s.first}</h3>
            ${this.fields(FIRST)}
            <sb-weather .session=${session}></sb-weather>
            <section class="more" aria-labelledby="more-title">
              <h3 id="more-title">${s.more}</h3>
              ${Object.entries(MORE).map(([group, keys]) => this.group(group as keyof typeof MORE, keys))}
            </section>
          `}
    `;
  } // prettier-ignore

  private group(group: keyof typeof MORE, keys: readonly SiteKey[]) {
    const wrong = this.session.setup?.site.some(
      ({ key, trouble }) => trouble !== '' && keys.includes(key),
    );
    return html`<details data-group=${group} ?open=${wrong === true}>
      <summary>${this.w.site.groups[group]}</summary>
      ${this.fields(keys)}
    </details>`;
  }

  private fields(keys: readonly SiteKey[]) {
    const { session } = this;
    const found = session.setup?.site ?? [];
    return keys.map((key) => {
      const field = found.find((f) => f.key === key);
      return field === undefined
        ? nothing
        : keyed(
            key,
            html`<sb-site-field
              data-key=${key}
              .session=${session}
              .field=${field}
            ></sb-site-field>`,
          );
    });
  }
}
define('sb-site', SiteStep);
