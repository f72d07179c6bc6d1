/** What became of a clause, in the person's language: met, short by how much and where, over its cap. */
import { html, nothing, type TemplateResult } from 'lit';
import type { ClauseLine } from '../../workers/contract-types.js';
import type { Formats } from '../parts/format.js';
import type { ContractWords } from '../words/contract.js';

export interface ClauseTelling {
  words: ContractWords;
  formats: Formats;
  water(amount: number): string;
  money(amount: number): string;
  /** a sentence of the planner */
  said(sentence: string): TemplateResult;
  /** a way to a row of the trees */
  toTree(row: number, id: string): TemplateResult;
}

function says(line: ClauseLine, { words, formats: f, water, money }: ClauseTelling): string {
  const { clauses: c } = words;
  switch (line.verdict) {
    case 'met':
      return c.met(f, line.trees);
    case 'short':
      return c.short(f, line.water > 0 ? water(line.water) : '', line.visits);
    case 'over':
      return c.over(water(line.water), line.cost === undefined ? '' : money(line.cost));
    case 'nobody':
      return c.nobody;
    case 'cannot tell':
      return '';
  }
}

function where({ first }: ClauseLine, { words, formats: f }: ClauseTelling): string {
  if (!first) return '';
  const { clauses: c } = words;
  const span = c.span(f.day(first.from), f.day(first.to));
  return first.id === ''
    ? c.whereAll(f, first.times, span)
    : c.where(f, first.rows, first.times, `${first.id}, ${span}`);
}

/** The verdict always with its word and sign, the numbers, where, and the way there. */
export function clauseSays(line: ClauseLine, telling: ClauseTelling): TemplateResult {
  const { words, formats: f, toTree } = telling;
  const { verdict, first, excused, why } = line;
  const kind = verdict === 'met' ? 'fine' : verdict === 'nobody' ? 'quiet' : 'trouble';
  const also = why.replace(/^besides, /, '');
  return html`
    <p class="gap">
      <strong class=${kind}>${words.clauses.verdicts[verdict]}</strong>. ${says(line, telling)}
      ${where(line, telling)} ${excused > 0 ? words.clauses.excused(f, excused) : ''}
      ${also === '' ? nothing : telling.said(`${also.charAt(0).toUpperCase()}${also.slice(1)}.`)}
    </p>
    ${first && first.id !== '' ? html`<div class="buttons">${toTree(first.row, first.id)}</div>` : nothing}
  `;
}
