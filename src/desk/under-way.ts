/** Whether the grid is working out formulas, and when they show their results. */
import type { FUniver } from '@univerjs/presets';
import { LONGEST_CALCULATION_MS, type OpenBook } from './open-book.js';

export interface UnderWay {
  /** resolves with the results; undefined when nothing is being worked out */
  calculating(): Promise<void> | undefined;
  /** a cell has been changed: what looks at it is about to be worked out */
  cellChanged(): void;
  /** a workbook was opened, with formulas */
  opened(calculation: Promise<void>): void;
}

export function underWay(api: FUniver, book: OpenBook): UnderWay {
  let latest: Promise<void> | undefined;
  const follow = (calculation: Promise<void>): void => {
    const own = calculation
      // one that is stopped or takes too long leaves cells as they are
      .catch(() => undefined)
      .then(() => {
        if (latest === own) latest = undefined;
      });
    latest = own;
  };
  const next = (): void => follow(book.calculated(LONGEST_CALCULATION_MS));
  api.getFormula().calculationStart(next);
  return {
    calculating: () => latest,
    cellChanged() {
      if (!latest) next();
    },
    opened: follow,
  };
}
