/** What every element of the panel looks like inside. An 8 px grid; corners 6 px; sizes follow the reader's text size. */
import { css } from 'lit';

export const base = css`
  :host {
    display: block;
    font: 0.875rem/1.45 var(--type);
    font-variant-numeric: tabular-nums;
    color: var(--bark);
  }
  :host([hidden]),
  [hidden] {
    display: none !important;
  }
  *,
  *::before {
    box-sizing: border-box;
  }
  h1,
  h2,
  h3,
  p,
  ul,
  ol,
  dl,
  dd,
  fieldset,
  legend {
    margin: 0;
    padding: 0;
    border: 0;
  }
  fieldset {
    min-width: 0;
  }
  h2 {
    font-size: 1.0625rem;
    font-weight: 650;
    margin-bottom: 4px;
  }
  fieldset {
    margin-top: 8px;
  }
  h3,
  legend {
    font-size: 0.875rem;
    font-weight: 650;
    margin: 16px 0 4px;
  }
  ul,
  ol {
    list-style: none;
  }
  p {
    overflow-wrap: anywhere;
  }
  a {
    color: var(--water);
  }
  :focus-visible {
    outline: 3px solid var(--ochre);
    outline-offset: 2px;
    border-radius: 2px;
  }
  h2:focus-visible {
    outline-offset: 0;
  }
  .quiet {
    color: var(--loam);
    font-size: 0.8125rem;
  }
  .gap {
    margin-top: 8px;
  }
  .unseen {
    position: absolute;
    width: 1px;
    height: 1px;
    margin: -1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  .trouble {
    color: var(--clay);
  }
  .fine {
    color: var(--leaf);
  }
  .trouble::before {
    content: '▲\\00A0';
    content: '▲\\00A0' / '';
  }
  .fine::before {
    content: '✓\\00A0';
    content: '✓\\00A0' / '';
  }
  summary {
    cursor: pointer;
    color: var(--water);
    padding: 6px 0;
    min-height: 24px;
  }
  .buttons {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    margin-top: 8px;
  }
  button.act {
    min-height: 32px;
    padding: 4px 12px;
    font: inherit;
    font-weight: 600;
    text-align: center;
    color: var(--water);
    background: var(--paper);
    border: 1px solid var(--water);
    border-radius: 6px;
    cursor: pointer;
    overflow-wrap: anywhere;
  }
  button.act:not([aria-disabled]):hover {
    color: var(--water-deep);
    background: var(--mist);
    border-color: var(--water-deep);
  }
  button.act.main {
    min-height: 40px;
    color: var(--on-water);
    background: var(--water);
  }
  button.act.main:not([aria-disabled]):hover {
    color: var(--on-water);
    background: var(--water-deep);
  }
  button.act.small {
    min-height: 24px;
    padding: 2px 8px;
    font-size: 0.8125rem;
    font-weight: 400;
  }
  button.act[aria-disabled] {
    color: var(--loam);
    background: var(--mist);
    border-color: var(--rule);
    cursor: not-allowed;
  }
  progress {
    display: block;
    appearance: none;
    width: 100%;
    height: 6px;
    margin-top: 8px;
    border: 0;
    border-radius: 6px;
    background: var(--mist);
    overflow: hidden;
  }
  progress::-webkit-progress-bar {
    background: var(--mist);
  }
  progress::-webkit-progress-value {
    background: var(--water);
  }
  progress::-moz-progress-bar {
    background: var(--water);
  }
  @media (forced-colors: active) {
    button.act[aria-disabled] {
      color: GrayText;
      border-color: GrayText;
    }
    progress {
      height: 12px;
      border: 1px solid CanvasText;
    }
    progress::-webkit-progress-bar {
      background: Canvas;
    }
    progress::-webkit-progress-value {
      background: Highlight;
      forced-color-adjust: none;
    }
    progress::-moz-progress-bar {
      background: Highlight;
      forced-color-adjust: none;
    }
  }
`;

export const fields = css`
  input,
  select,
  textarea {
    font: inherit;
    color: var(--bark);
    background: var(--straw);
    border: 1px solid var(--ochre);
    border-radius: 6px;
    padding: 4px 8px;
    min-height: 32px;
    width: 100%;
    min-width: 0;
  }
  input::placeholder {
    color: var(--loam);
    opacity: 1;
  }
  input[type='checkbox'],
  input[type='radio'] {
    width: 18px;
    height: 18px;
    min-height: 0;
    flex: none;
    margin: 3px 0 0;
    accent-color: var(--water);
  }
  input[type='file'] {
    background: transparent;
    border: 0;
    padding: 4px 0;
  }
  textarea {
    min-height: 96px;
    resize: vertical;
    font-family: ui-monospace, 'Cascadia Mono', Menlo, monospace;
    font-size: 0.8125rem;
  }
  label {
    overflow-wrap: anywhere;
  }
  [aria-invalid='true'] {
    border: 2px solid var(--clay);
  }
  .preset {
    background: var(--paper);
    border-color: var(--edge);
  }
  .check {
    display: flex;
    gap: 8px;
    align-items: flex-start;
    min-height: 24px;
    margin-top: 8px;
  }
`;

export const tables = css`
  table {
    width: 100%;
    border-collapse: collapse;
    font-size: 0.8125rem;
  }
  caption {
    text-align: left;
    color: var(--loam);
    padding-bottom: 4px;
  }
  th,
  td {
    text-align: left;
    vertical-align: top;
    padding: 4px 6px 4px 0;
    border-bottom: 1px solid var(--rule);
    overflow-wrap: anywhere;
    font-weight: 400;
  }
  thead th {
    overflow-wrap: break-word;
    font-weight: 600;
    color: var(--loam);
    font-size: 0.75rem;
  }
  td.number,
  th.number {
    text-align: right;
  }
`;

export const numbers = css`
  .numbers {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(7rem, 1fr));
    gap: 8px;
    margin-top: 8px;
  }
  .numbers > div {
    display: flex;
    flex-direction: column-reverse;
    justify-content: flex-end;
    padding: 8px;
    background: var(--sand);
    border-radius: 6px;
    min-width: 0;
  }
  .numbers dd {
    font-size: 1.25rem;
    line-height: 1.2;
    font-weight: 650;
    overflow-wrap: anywhere;
  }
  .numbers dd small {
    font-size: 0.75rem;
    font-weight: 400;
    margin-left: 4px;
  }
  .numbers dd .was {
    display: block;
    margin-left: 0;
    color: var(--loam);
  }
  .numbers dt {
    font-size: 0.75rem;
    color: var(--loam);
  }
  .numbers dd::before {
    font-size: 0.875rem;
  }
  /* the blank before the number keeps the distance */
  .numbers dd.fine::before {
    content: '✓';
    content: '✓' / '';
  }
  .numbers dd.trouble::before {
    content: '▲';
    content: '▲' / '';
  }
`;

/** A field with its unit after it. */
/** A name and its field side by side; with little room for large text, the name above its field. In a container. */
export const fieldLine = css`
  .line {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    gap: 8px;
    align-items: center;
  }
  @container (max-width: 17em) {
    .line {
      grid-template-columns: minmax(0, 1fr);
      row-gap: 2px;
    }
  }
`;
export const withUnit = css`
  .value {
    display: flex;
    gap: 6px;
    align-items: center;
  }
  .unit {
    font-size: 0.8125rem;
    color: var(--loam);
    flex: none;
    max-width: 6em;
  }
`;

/** The small button that says whose a value is, "default" or "yours", and opens where it comes from. */
export const originButton = css`
  button {
    font: inherit;
    font-size: 0.75rem;
    color: var(--loam);
    background: none;
    border: 0;
    padding: 2px 4px 2px 0;
    min-height: 24px;
    text-align: left;
    cursor: pointer;
  }
  button:hover {
    text-decoration: underline;
  }
`;
