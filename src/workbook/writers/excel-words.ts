/** What the spreadsheet program refuses, in sentences for the person at the sheet. */
import { upperFirst } from '../../engine/first-letter.js';
import { Problem } from '../../engine/problems.js';

const SENTENCES: Record<string, string> = {
  AccessDenied:
    'The workbook does not allow new sheets: its structure is protected or it is read-only. Take the protection off (Review, Protect Workbook) or save a copy, then try again.',
  InvalidOperationInCellEditMode:
    'A cell is being edited. Finish it with Enter or leave it with Esc, then try again.',
  RequestPayloadSizeLimitExceeded:
    'The spreadsheet program did not take that much at once. Save the workbook as a file instead, or plan fewer rows.',
  ResponsePayloadSizeLimitExceeded:
    'The sheet is too large for the spreadsheet program to hand over at once. Keep fewer columns on it, or plan from a file.',
  OperationCellsExceedLimit:
    'The sheet has more cells than the spreadsheet program takes at once. Keep fewer columns on it, or plan from a file.',
  ItemAlreadyExists:
    'A sheet, table or name that was free a moment ago is taken now: somebody else may be working in this workbook. Try again.',
  ItemNotFound:
    'A sheet or name that was there a moment ago is gone: somebody else may be working in this workbook. Try again.',
  UnsupportedOperation: 'The spreadsheet program cannot do this with the workbook that is open.',
  InactiveWorkbook: 'The workbook is not active any more. Bring it to the front and try again.',
  ActivityLimitReached: 'The spreadsheet program is busy. Wait a little and try again.',
  RequestAborted: 'The spreadsheet program broke off. Try again.',
};

interface HostError {
  code: string;
  message: string;
  statement: string;
}

/** What is known of an error of the program; undefined for errors of anybody else. */
export function hostError(error: unknown): HostError | undefined {
  if (typeof error !== 'object' || error === null || !('code' in error)) return undefined;
  const { code } = error;
  if (typeof code !== 'string') return undefined;
  const { debugInfo } = error as { debugInfo?: { errorLocation?: string; statement?: string } };
  return {
    code,
    message: error instanceof Error ? error.message : '',
    statement: debugInfo?.statement ?? debugInfo?.errorLocation ?? '',
  };
}

/** Longest piece of a failing statement that is shown [characters]. */
const SHOWN = 120;

/**
 * The error as a Problem; one that is a Problem already stays.
 *
 * @param where - what was being done: "writing the sheet “Plan”"
 */
export function hostProblem(error: unknown, where: string): Problem {
  if (error instanceof Problem) return error;
  const known = hostError(error);
  if (known === undefined)
    return new Problem(`${upperFirst(where)} failed: ${error instanceof Error ? error.message : String(error)}`); // prettier-ignore
  const sentence = SENTENCES[known.code];
  if (sentence !== undefined) return new Problem(sentence);
  const at = known.statement === '' ? '' : ` at ${known.statement.slice(0, SHOWN)}`;
  return new Problem(
    `The spreadsheet program refused ${where} (${known.code}${at}). Try again; if it happens again, save the workbook as a file instead.`,
  );
}
