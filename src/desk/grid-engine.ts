/** The part of the grid's library below its page, so that each half is started in a task of its own and the page answers in between. */
import './formula-brackets.js';
import './layer-objects.js';
export * as core from '@univerjs/core';
export * as formulas from '@univerjs/engine-formula';
export * as drawing from '@univerjs/engine-render';
export * as sheets from '@univerjs/sheets';
