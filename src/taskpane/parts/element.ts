/** The base of the panel's elements: drawn again with every change of the session. */
import { LitElement, type PropertyValues } from 'lit';
import type { Session } from '../session.js';
import type { Words } from '../words/index.js';
import type { Formats } from './format.js';
import { tellFocus } from './hold-in-place.js';

export abstract class SessionElement extends LitElement {
  static override properties = { session: { attribute: false } };
  declare session: Session;
  private unlisten: (() => void) | undefined;

  protected get w(): Words {
    return this.session.words;
  }
  protected get f(): Formats {
    return this.session.formats;
  }

  protected override createRenderRoot(): HTMLElement | DocumentFragment {
    const root = super.createRenderRoot();
    tellFocus(this, root);
    return root;
  }
  override connectedCallback(): void {
    super.connectedCallback();
    this.listenAgain();
  }
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.unlisten?.();
    this.unlisten = undefined;
  }
  protected override willUpdate(changed: PropertyValues): void {
    if (changed.has('session')) this.listenAgain();
  }

  /** The step's heading takes the focus when the step comes into view. */
  focusHeading(): void {
    this.renderRoot.querySelector<HTMLElement>('h2')?.focus();
  }

  /** A page made before its session was set listens as soon as it has one. */
  private listenAgain(): void {
    this.unlisten?.();
    this.unlisten = (this.session as Session | undefined)?.listen(() => this.requestUpdate());
  }
}

/** Names an element once, however often its file is loaded. */
export function define(tag: string, element: CustomElementConstructor): void {
  if (!customElements.get(tag)) customElements.define(tag, element);
}
