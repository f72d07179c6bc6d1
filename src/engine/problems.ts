/** What can go wrong with an input. `value`: it cannot be used; `none`: the question has no answer. */
export type ProblemKind = 'value' | 'none';

/**
 * An input that cannot be used, or a question without an answer, said in a sentence for the person at
 * the sheet: what was wrong, where, and what is accepted.
 */
export class Problem extends Error {
  readonly kind: ProblemKind;

  constructor(sentence: string, kind: ProblemKind = 'value') {
    super(sentence);
    this.name = 'Problem';
    this.kind = kind;
  }
}
