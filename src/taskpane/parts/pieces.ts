/** Small pieces of markup the steps share. */
import { html, nothing, type TemplateResult } from 'lit';
import { ifDefined } from 'lit/directives/if-defined.js';
import { live } from 'lit/directives/live.js';

export interface ButtonLook {
  main?: boolean;
  small?: boolean;
  disabled?: boolean;
  id?: string;
  /** what it does, where the words on it do not say to what */
  name?: string;
}

/** A button. One that cannot be used now keeps the focus, so that nobody is thrown back to the top of the page. */
export const button = (
  label: string | TemplateResult,
  onClick: () => void,
  look: ButtonLook = {},
): TemplateResult => html`
  <button
    type="button"
    class=${`act${look.main ? ' main' : ''}${look.small ? ' small' : ''}`}
    id=${ifDefined(look.id)}
    aria-label=${ifDefined(look.name)}
    aria-disabled=${ifDefined(look.disabled ? 'true' : undefined)}
    @click=${look.disabled ? nothing : onClick}
  >
    ${label}
  </button>
`;

/** How far something is, for eyes and screen readers. */
export const progressBar = (
  label: string,
  done: number,
  total: number,
  id?: string,
): TemplateResult =>
  html`<progress
    id=${ifDefined(id)}
    aria-label=${label}
    max=${Math.max(1, total)}
    value=${done}
  ></progress>`;

export interface NumberLook {
  unit?: string;
  kind?: 'fine' | 'trouble' | '';
  /** what it was before, in words: "was 39" */
  was?: string;
}

/** A number that matters, its name below. */
export const bigNumber = (label: string, value: string, look: NumberLook = {}): TemplateResult =>
  html`<div>
    <dt>${label}</dt>
    <dd class=${look.kind ?? ''}>
      ${value}${look.unit === undefined ? nothing : html`<small>${look.unit}</small>`}
      ${look.was ? html`<small class="was">${look.was}</small>` : nothing}
    </dd>
  </div>`;

/** A sentence of the planner in the panel's language; `lang`: another one, where there is no translation of it. */
export interface Spoken {
  text: string;
  lang?: 'en';
}
/** What knows the planner's sentences in the panel's language: the session. */
export interface Speaker {
  spoken(sentence: string): Spoken;
}

/** A sentence of the planner, to stand within an element of its own. */
export const said = (speaker: Speaker, sentence: string): TemplateResult => {
  const { text, lang } = speaker.spoken(sentence);
  return lang === undefined ? html`${text}` : html`<span lang=${lang}>${text}</span>`;
};

/** A sentence of the planner as a paragraph. */
export const planner = (speaker: Speaker, sentence: string, kind = '', id?: string): TemplateResult => {
  const { text, lang } = speaker.spoken(sentence);
  return html`<p id=${ifDefined(id)} lang=${ifDefined(lang)} class=${kind}>${text}</p>`;
}; // prettier-ignore

/** A paragraph that is English in every language of the panel. */
export const english = (sentence: string, kind = ''): TemplateResult =>
  html`<p lang="en" class=${kind}>${sentence}</p>`;

export interface Option {
  value: string;
  label: string;
  /** of the label, where it is not the panel's */
  lang?: string;
}

/** The options of a native select; the chosen one is set against what the page shows, not what it showed before. */
export const options = (list: readonly Option[], chosen: string): TemplateResult[] =>
  list.map(
    ({ value, label, lang }) =>
      html`<option value=${value} lang=${ifDefined(lang)} .selected=${live(value === chosen)}>
        ${label}
      </option>`,
  );

/** The same where words are their own labels. */
export const wordOptions = (list: readonly string[], chosen: string): TemplateResult[] =>
  options(
    list.map((value) => ({ value, label: value })),
    chosen,
  );

/** The value of the select an event comes from. */
export const chosenIn = (event: Event): string => (event.target as HTMLSelectElement).value;
