/** Small pieces of markup the steps share. */
import '@fluentui/web-components/button/define.js';
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

/**
 * A button. Its role stands in the markup as well, since not every program that reads pages knows the one an element
 * gives itself.
 */
export const button = (
  label: string | TemplateResult,
  onClick: () => void,
  look: ButtonLook = {},
): TemplateResult => html`
  <fluent-button
    role="button"
    id=${ifDefined(look.id)}
    appearance=${ifDefined(look.main ? 'primary' : undefined)}
    size=${ifDefined(look.small ? 'small' : undefined)}
    aria-label=${ifDefined(look.name)}
    aria-disabled=${ifDefined(look.disabled ? 'true' : undefined)}
    ?disabled=${look.disabled === true}
    @click=${onClick}
    >${label}</fluent-button
  >
`;

export interface NumberLook {
  unit?: string;
  kind?: 'fine' | 'trouble' | '';
}

/** A number that matters, its name below. */
export const bigNumber = (label: string, value: string, look: NumberLook = {}): TemplateResult =>
  html`<div>
    <dt>${label}</dt>
    <dd class=${look.kind ?? ''}>
      ${value}${look.unit === undefined ? nothing : html`<small>${look.unit}</small>`}
    </dd>
  </div>`;

/** A sentence of the planner: English in every language of the panel. */
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
