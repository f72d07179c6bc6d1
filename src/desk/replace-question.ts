/** Asks before a workbook with unsaved work gives way to another: a dialog of the browser's own, which keeps and gives back the focus. */
import { css, html, LitElement, nothing } from 'lit';
import { moment, formats, type Language } from '../taskpane/parts/format.js';
import { define } from '../taskpane/parts/element.js';
import { button } from '../taskpane/parts/pieces.js';
import { base } from '../taskpane/parts/styles.js';
import { replaceWords } from '../taskpane/words/replace.js';
import type { AtStake } from './keeper.js';

export type Answer = 'save' | 'open' | 'stay';

class ReplaceQuestion extends LitElement {
  language: Language = 'en';
  /** file that is to be opened */
  next = '';
  stake: AtStake = {};
  answered: (answer: Answer) => void = () => undefined;

  static override styles = [
    base,
    css`
      dialog {
        width: min(34rem, calc(100vw - 32px));
        padding: 16px;
        border: 1px solid var(--edge);
        border-radius: 6px;
        background: var(--paper);
        color: var(--bark);
      }
      dialog::backdrop {
        background: rgb(0 0 0 / 45%);
      }
      p {
        margin-top: 8px;
      }
      .buttons {
        margin-top: 16px;
      }
    `,
  ];

  protected override firstUpdated(): void {
    this.renderRoot.querySelector('dialog')?.showModal();
  }

  protected override render() {
    const k = replaceWords(this.language);
    const { open, kept } = this.stake;
    const answer = (given: Answer) => () => {
      this.renderRoot.querySelector('dialog')?.close(given);
    };
    return html`<dialog
      lang=${this.language}
      aria-labelledby="title"
      aria-describedby="what"
      @close=${(e: Event) => {
        const { returnValue } = e.target as HTMLDialogElement;
        this.answered(returnValue === 'save' || returnValue === 'open' ? returnValue : 'stay');
      }}
    >
      <h2 id="title">${k.title(this.next)}</h2>
      <div id="what">
        ${open ? html`<p>${open.own ? k.own(open.name) : k.sample}</p>` : nothing}
        ${kept ? html`<p>${k.kept(kept.name, moment(formats(this.language), kept.at))}</p>` : nothing}
      </div>
      <div class="buttons">
        ${open ? button(k.save, answer('save'), { main: true, id: 'save-first' }) : nothing}
        ${button(k.open, answer('open'), { id: 'open-anyway' })}
        ${button(k.stay, answer('stay'), { id: 'stay' })}
      </div>
    </dialog>`;
  }
}
define('sb-replace-question', ReplaceQuestion);

/** Shows the question; Escape is to stay. The focus goes back to where it was. */
export async function askToReplace(language: Language, next: string, stake: AtStake): Promise<Answer> {
  const question = document.createElement('sb-replace-question') as ReplaceQuestion;
  Object.assign(question, { language, next, stake });
  const given = new Promise<Answer>((resolve) => (question.answered = resolve));
  // where the colours of the panel are, and its reading order ends
  document.body.append(question);
  const answer = await given;
  question.remove();
  return answer;
} // prettier-ignore
