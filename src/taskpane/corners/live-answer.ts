/** The answer of a function while its arguments are typed, worked out in the plan room by the function itself. */
import { Problem } from '../../engine/problems.js';
import type { CellValue } from '../../functions/answer.js';
import type { Given } from '../../workers/room-function.js';
import type { Session } from '../session.js';
import { meantBy } from './argument-value.js';
import { missingIn, workedOutBySheet, type Argument } from './function-arguments.js';
import type { FunctionEntry } from './function-data.js';

export type Answer =
  | { kind: 'value'; value: CellValue | CellValue[][] }
  /** an argument is to be filled, or is a formula that only the sheet can work out */
  | { kind: 'missing'; parameter: string }
  | { kind: 'bySheet'; parameter: string }
  /** `parameter`: the one that is to blame, where the sentence begins with it */
  | { kind: 'trouble'; sentence: string; parameter?: string };

/** The parameter a sentence of a function begins with. */
export function blamed(sentence: string, names: readonly string[]): string | undefined {
  return names
    .filter((name) => new RegExp(`^${name}\\b`).test(sentence))
    .sort((a, b) => b.length - a.length)[0];
}

async function given({ formula }: Argument, { host }: Session): Promise<Given> {
  const meant = meantBy(formula);
  if (meant.kind === 'formula') throw new Error(`${formula} was asked of the plan room`);
  if (meant.kind !== 'pointed') return meant;
  return { kind: 'cells', cells: await host.cellValues(meant.at.range, meant.at.sheet) };
}

const troubled = (sentence: string, list: readonly Argument[]): Answer => {
  const names = list.map(({ parameter }) => parameter.name);
  const parameter = blamed(sentence, names);
  return { kind: 'trouble', sentence, ...(parameter !== undefined && { parameter }) };
};

/** @throws Error for a fault of the program */
export async function answerOf(
  { id, parameters }: FunctionEntry,
  list: readonly Argument[],
  session: Session,
): Promise<Answer> {
  const missing = missingIn(list);
  if (missing !== undefined) return { kind: 'missing', parameter: missing };
  const bySheet = workedOutBySheet(list);
  if (bySheet !== undefined) return { kind: 'bySheet', parameter: bySheet };
  try {
    const all = await Promise.all(list.map((argument) => given(argument, session)));
    const shapes = parameters.map(({ name, type, dimensionality }) => ({
      name,
      ...(type !== undefined && { type }),
      ...(dimensionality !== undefined && { dimensionality }),
    }));
    const said = await session.room.answer({ id, parameters: shapes, given: all });
    return 'trouble' in said ? troubled(said.trouble, list) : { kind: 'value', value: said.value };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return troubled(error.message, list);
  }
}

/** Whether cells of the workbook are in it: then it is worked out again when they change. */
export const readsCells = (list: readonly Argument[]): boolean =>
  list.some(({ formula }) => meantBy(formula).kind === 'pointed');

/** Between a key and the next one nobody waits for an answer [ms]. */
const PAUSE = 120;

/** Works out the last thing asked: what was asked before and is not answered yet is nobody's any more. */
export class Latest {
  private key = '';
  private timer: ReturnType<typeof setTimeout> | undefined;

  /** Asks again only for another key. The first is asked at once. */
  ask(key: string, work: () => Promise<void>): void {
    if (key === this.key) return;
    const first = this.key === '';
    this.key = key;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void work(), first ? 0 : PAUSE);
  }

  isLatest(key: string): boolean {
    return key === this.key;
  }

  end(): void {
    clearTimeout(this.timer);
    this.key = '';
  }
}
