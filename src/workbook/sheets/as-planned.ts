/**
 * Inputs of a sheet as they were when the plan was made, so that a formula can tell what was changed since. Numbers are joined
 * as whole numbers or whole thousandths: no program and no language writes those with a mark of its own.
 */
import type { Cell } from '../../tables/cells.js';
import { cell, formula, type RichCell } from '../model.js';
import type { Total } from './checks.js';

/** The state of a row whose inputs are others than those planned with. */
export const CHANGED = '▲ changed: plan again';

const BETWEEN = ' · ';
/** Thousandths in one. */
const PARTS = 1000;
/** Digits that spreadsheet programs tell apart; without this a half thousandth could round either way. */
const DIGITS = 15;

function partOf(value: Cell): string {
  if (typeof value === 'number') {
    const parts = Math.round(Number((PARTS * value).toPrecision(DIGITS)));
    return parts % PARTS === 0 ? (parts / PARTS).toFixed(0) : `${parts.toFixed(0)}/${PARTS}`;
  }
  return typeof value === 'boolean' ? String(value).toUpperCase() : (value ?? '');
}

/** The cells of a row as one text; what is kept beside it. */
export const joined = (values: readonly Cell[]): string => values.map(partOf).join(BETWEEN);

/** The same of the cells as they stand, as a formula. */
function joinedNow(references: readonly string[]): string {
  const part = (ref: string): string => {
    const parts = `ROUND(${PARTS}*${ref},0)`;
    return `IF(ISNUMBER(${ref}),IF(MOD(${parts},${PARTS})=0,TEXT(${ref},"0"),TEXT(${parts},"0")&"/${PARTS}"),${ref}&"")`;
  };
  return references.map(part).join(`&"${BETWEEN}"&`);
}

/**
 * What was judged, while the row holds what was judged.
 *
 * @param references - the row's own cells, in the order they were joined in
 * @param planned - the cell with the row as planned
 * @param judged - the cell with the word, or the word in quotes
 * @param word - what it says now
 */
export const stateCell = (
  references: readonly string[],
  planned: string,
  judged: string,
  word: string,
): RichCell => formula(`IF(${joinedNow(references)}=${planned},${judged},"${CHANGED}")`, word);

/** Rows whose state is no longer what was judged, as a line of Checks. */
export const changedTotal = (what: string, states: string, judged: string): Total => ({
  what,
  left: cell(0),
  right: formula(`SUMPRODUCT((${states}<>${judged})*1)`, 0),
});
