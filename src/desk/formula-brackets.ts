/**
 * The grid's library notes every bracket it opens while it reads a formula, for a percent sign that may follow the closed one,
 * and takes a note back only where one does. The rest stays listed for good, some ten thousand with every set of sheets
 * written. Here each formula begins without notes, as it begins without all else that was known of the one before.
 */
import { LexerTreeBuilder } from '@univerjs/engine-formula';

interface Reading {
  _openBracketNormalIndexStack: number[];
  _resetTemp(): void;
}

const reading = LexerTreeBuilder.prototype as unknown as Reading;
const { _resetTemp: beginAnew } = reading;
if (typeof beginAnew !== 'function')
  throw new Error('The grid’s library no longer begins to read a formula by "_resetTemp".');

reading._resetTemp = function () {
  beginAnew.call(this);
  this._openBracketNormalIndexStack = [];
};
