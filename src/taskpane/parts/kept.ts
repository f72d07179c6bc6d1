/** On the desk: the workbook of before above everything, and below everything what is kept of the one that is open. */
import { css, html, nothing } from 'lit';
import type { Keeper } from '../keeper.js';
import { keptWords } from '../words/kept.js';
import { define, SessionElement } from './element.js';
import { moment } from './format.js';
import { button } from './pieces.js';
import { base } from './styles.js';

/** Drawn again with every change of what is kept, too. */
abstract class KeptElement extends SessionElement {
  private stop: (() => void) | undefined;

  protected get k() {
    return keptWords(this.session.language);
  }
  protected get keeper(): Keeper | undefined {
    return this.session.host.keeper;
  }
  override connectedCallback(): void {
    super.connectedCallback();
    this.stop = this.keeper?.listen(() => this.requestUpdate());
  }
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.stop?.();
  }
  /** The button that was pressed goes away with its line: the step's heading is next. */
  protected async leave(): Promise<void> {
    await this.updateComplete;
    this.dispatchEvent(new CustomEvent('left', { bubbles: true, composed: true }));
  }
  protected async forget(name: string): Promise<void> {
    const { session } = this;
    await session.attempt(async () => {
      await this.keeper?.forget();
      session.say(this.k.forgotten(name), 'fine');
    });
  }
}

export class KeptLine extends KeptElement {
  private saidTrouble = false;

  static override styles = [
    base,
    css`
      .line {
        padding: 8px 16px;
        background: var(--mist);
        border-bottom: 1px solid var(--rule);
      }
      .buttons {
        margin-top: 4px;
      }
    `,
  ];

  private async open(): Promise<void> {
    const { session } = this;
    await session.attempt(async () => {
      const kept = await session.openKept();
      // the workbook has brought its own language
      if (kept) session.say(this.k.opened(kept.name, moment(this.f, kept.at)), 'fine');
      await this.leave();
    });
  }

  protected override render() {
    const { k, f, keeper } = this;
    const kept = keeper?.offer;
    const { name } = kept ?? { name: '' };
    return html`<section class=${kept ? 'line' : ''} aria-label=${kept ? k.label : nothing}>
      <div role="status">
        ${kept ? html`<p id="kept-found">${k.found(name, moment(f, kept.at))}</p>` : nothing}
        ${keeper?.waits ? html`<p class="quiet" id="kept-waits">${k.waits}</p>` : nothing}
      </div>
      ${
        kept
          ? html`<div class="buttons">
              ${button(k.open, () => void this.open(), { id: 'open-kept', name: k.openNamed(name) })}
              ${button(k.forget, () => void this.forget(name).then(() => this.leave()), { id: 'forget-kept', name: k.forgetNamed(name) })}
            </div>`
          : nothing
      }
    </section>`;
  } // prettier-ignore

  /** Said once; below it stands as long as it is so. */
  protected override updated(): void {
    const trouble = this.keeper?.trouble;
    if (trouble && !this.saidTrouble) this.session.say(this.k.trouble[trouble], 'trouble');
    if (trouble) this.saidTrouble = true;
  }
}
define('sb-kept-line', KeptLine);

/** In the foot: what is kept of the open workbook, and the way to have it forgotten. */
export class KeptFoot extends KeptElement {
  static override styles = [base];

  /** The button that was pressed goes away; what stands in its place is next. */
  private async next(selector: string): Promise<void> {
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(selector)?.focus();
  }
  private async forgetCopy(name: string): Promise<void> {
    await this.forget(name);
    await this.next('#keep-copy');
  }
  private async keepOn(keeper: Keeper): Promise<void> {
    keeper.keepOn();
    await this.next('#kept-copy');
  }

  protected override render() {
    const { k, f, keeper } = this;
    if (!keeper) return nothing;
    const { copy, trouble } = keeper;
    if (!keeper.keeps)
      return html`<p class="quiet" id="kept-copy" tabindex="-1">${k.notKept}</p>
        ${button(k.keep, () => void this.keepOn(keeper), { small: true, id: 'keep-copy' })}`;
    const troubled = trouble ? html`<p class="trouble">${k.trouble[trouble]}</p>` : nothing;
    if (!copy)
      return html`${troubled}
        <p class="quiet" id="kept-copy" tabindex="-1">${trouble ? nothing : k.willKeep}</p>`;
    return html`${troubled}
      <p class="quiet" id="kept-copy" tabindex="-1">${k.kept(moment(f, copy.at))}</p>
      ${button(k.forgetCopy, () => void this.forgetCopy(copy.name), { small: true, id: 'forget-copy' })}`;
  }
}
define('sb-kept-foot', KeptFoot);
