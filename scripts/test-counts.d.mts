export interface Report {
  numPassedTests: number;
  numFailedTests: number;
  numPendingTests: number;
  numTodoTests?: number;
  testResults: { status: string; assertionResults: { status: string }[] }[];
}
export function countsOf(report: Report): { passed: number; failed: number; skipped: number };
