/** How a reading of the round is made, and what would come of one: for who has typed nothing yet. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Units } from '../../engine/units.js';
import type { Formats } from '../parts/format.js';
import type { CornerWords } from '../words/corners.js';
import { checkOf, EXAMPLES, INPUTS, type FieldInput, type Kind } from './field-verdicts.js';

type Words = CornerWords['field'];

/** Readings of a check in a line, with their names and units; what is no number is left out. */
export function readingsOf(
  kind: Kind,
  valueOf: (input: FieldInput) => unknown,
  units: Units,
  b: Words,
  f: Formats,
): string {
  return INPUTS[kind]
    .flatMap((input) => {
      const value = valueOf(input);
      if (typeof value !== 'number') return [];
      return [`${b.fields[input.key]} ${f.plain(value)} ${input.unit(units, b)}`.trim()];
    })
    .join('; ');
}

/** Three steps and an invented reading with the verdict it gets. @param reserve - share left at which a pad is due [-] */
export function howTo(
  kind: Kind,
  units: Units,
  reserve: number,
  b: Words,
  f: Formats,
): TemplateResult {
  const values = EXAMPLES[kind][units];
  const checked = checkOf({ kind, values, device: undefined, units, reserve }, b, f);
  const readings = readingsOf(kind, ({ key }) => values[key], units, b, f);
  const { title, steps } = b.how[kind];
  return html`<section class="verdict" id="how" aria-labelledby="how-title">
    <h3 id="how-title">${title}</h3>
    <ol>
      ${steps.map((step) => html`<li>${step}</li>`)}
    </ol>
    ${
      checked === undefined
        ? nothing
        : html`<p class="quiet gap" id="example">
            ${b.example(readings, `${checked.sentence} ${checked.action}`)}
          </p>`
    }
  </section>`;
}
