/** The panel: head, steps, the step or corner one is in, and what is said meanwhile. */
import { css, html, nothing, type PropertyValues } from 'lit';
import { stillToFetch } from './corners/later.js';
import './elements.js';
import { define, SessionElement } from './parts/element.js';
import { holdInPlace } from './parts/hold-in-place.js';
import { button } from './parts/pieces.js';
import { base } from './parts/styles.js';
import { STEPS, type Place, type Step } from './session.js';

export class PanelShell extends SessionElement {
  private shown: Place | undefined;
  /** the place whose file is on its way, or did not come */
  private awaited: Place | undefined;
  private release: (() => void) | undefined;

  override connectedCallback(): void {
    super.connectedCallback();
    this.release = holdInPlace(this);
  }
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.release?.();
  }

  static override styles = [
    base,
    css`
      :host {
        background: var(--paper);
        min-height: 100%;
      }
      .place {
        padding: 12px 16px 16px;
      }
      /* stays in view: what was said last, and the way back to the steps */
      .bar {
        display: flex;
        flex-wrap: wrap;
        justify-content: flex-end;
        align-items: center;
        gap: 0 8px;
        padding: 2px 8px 2px 16px;
        background: var(--sand);
        border-bottom: 1px solid var(--rule);
        position: sticky;
        top: 0;
        z-index: 1;
      }
      .told {
        flex: 1 1 10em;
        margin: 0;
        padding: 4px 0;
        /* as high as most of what is said: what stands below does not move when it comes */
        min-height: calc(2.9em + 8px);
        min-height: calc(2lh + 8px);
        display: flex;
        gap: 0.35em;
        align-items: center;
      }
      footer {
        padding: 8px 16px 16px;
        border-top: 1px solid var(--rule);
      }
      .next {
        display: flex;
        flex-wrap: wrap;
        justify-content: space-between;
        gap: 8px;
        margin-top: 16px;
      }
      #next {
        margin-left: auto;
      }
    `,
  ];

  protected override render() {
    const { w, session } = this;
    const { sentence, kind, english } = session.told;
    const told = english ? session.spoken(sentence) : { text: sentence, lang: session.language };
    this.lang = session.language;
    const [before, next] = this.neighbours();
    return html`
      ${session.host.keeper ? html`<sb-kept-line .session=${session} @left=${() => this.leftWithout()}></sb-kept-line>` : nothing}
      <sb-panel-head .session=${session}></sb-panel-head>
      <sb-step-list .session=${session}></sb-step-list>
      <div class="bar">
        <p role="status" id="told" class="told ${kind}" lang=${told.lang ?? session.language}>${told.text}</p>
        ${button(html`<span aria-hidden="true">↑</span> ${w.panel.steps}`, () => this.toSteps(), { small: true, id: 'to-steps', name: w.panel.toSteps })}
      </div>
      <div class="place">
        ${this.placeElement()}
        <div class="next">
          ${before ? button(w.panel.before(w.places[before]), () => session.go(before), { id: 'before' }) : nothing}
          ${next ? button(w.panel.next(w.places[next]), () => session.go(next), { id: 'next' }) : nothing}
        </div>
      </div>
      <sb-chosen-cell .session=${session}></sb-chosen-cell>
      <footer class="quiet">
        <p>${w.panel.keptHere}${session.host.kind === 'desk' ? ` ${w.panel.panes}` : ''}</p>
        ${session.host.keeper ? html`<sb-kept-foot class="gap" .session=${session}></sb-kept-foot>` : nothing}
        ${w.panel.foot === '' ? nothing : html`<p class="gap">${w.panel.foot}</p>`}
      </footer>
    `; // prettier-ignore
  }

  /** The steps before and after the one that is shown. */
  private neighbours(): [Step | undefined, Step | undefined] {
    const at = STEPS.findIndex((step) => step === this.session.place);
    return at < 0 ? [undefined, undefined] : [STEPS[at - 1], STEPS[at + 1]];
  }

  /** From anywhere in a long step to the list of steps, with the focus on the one that is shown. */
  private toSteps(): void {
    const list = this.renderRoot.querySelector('sb-step-list');
    this.renderRoot.querySelector('sb-panel-head')?.scrollIntoView({ block: 'start' });
    list?.shadowRoot?.querySelector<HTMLElement>('[aria-current]')?.focus();
  }

  private placeElement() {
    const { session, w } = this;
    const fetching = stillToFetch(session.place);
    if (fetching) {
      this.fetch(session.place, fetching);
      return html`<h2 tabindex="-1" id="place">${w.places[session.place]}</h2>`;
    }
    switch (session.place) {
      case 'trees':
        return html`<sb-trees id="place" .session=${session}></sb-trees>`;
      case 'site':
        return html`<sb-site id="place" .session=${session}></sb-site>`;
      case 'rules':
        return html`<sb-rules id="place" .session=${session}></sb-rules>`;
      case 'kit':
        return html`<sb-kit id="place" .session=${session}></sb-kit>`;
      case 'build':
        return html`<sb-build id="place" .session=${session}></sb-build>`;
      case 'contract':
        return html`<sb-contract id="place" .session=${session}></sb-contract>`;
      case 'field-check':
        return html`<sb-field-check id="place" .session=${session}></sb-field-check>`;
      case 'functions':
        return html`<sb-functions id="place" .session=${session}></sb-functions>`;
      case 'repair':
        return html`<sb-repair id="place" .session=${session}></sb-repair>`;
    }
  }

  /** Asked for once; where it does not come, that is said, and going there again asks again. */
  private fetch(place: Place, fetching: () => Promise<unknown>): void {
    if (this.awaited === place) return;
    this.awaited = place;
    void this.session.attempt(async () => {
      await fetching();
      this.awaited = undefined;
      this.requestUpdate();
      await this.updateComplete;
      if (this.session.place === place) this.toHeading();
    });
  }

  /** Whoever goes to another step lands on its heading; nobody is moved when the panel opens. */
  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    const { place } = this.session;
    const before = this.shown;
    this.shown = place;
    if (this.awaited !== place) this.awaited = undefined;
    if (before === undefined || before === place) return;
    this.toHeading();
  }

  /** Who was on a line that has gone goes on at the heading, unless they are elsewhere in the panel by now. */
  private leftWithout(): void {
    if (!(this.renderRoot as ShadowRoot).activeElement) this.toHeading();
  }

  private toHeading(): void {
    const step = this.renderRoot.querySelector<HTMLElement>('#place');
    if (step instanceof HTMLHeadingElement) step.focus();
    if (step instanceof SessionElement) void step.updateComplete.then(() => step.focusHeading());
  }
}
define('sb-panel', PanelShell);
