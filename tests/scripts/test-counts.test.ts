import { describe, expect, it } from 'vitest';
import { countsOf } from '../../scripts/test-counts.mjs';

describe('counting tests', () => {
  it('counts a file that could not be loaded as one failure', () => {
    const report = {
      numPassedTests: 3,
      numFailedTests: 1,
      numPendingTests: 2,
      testResults: [
        { status: 'passed', assertionResults: [{ status: 'passed' }] },
        { status: 'failed', assertionResults: [{ status: 'failed' }] },
        { status: 'failed', assertionResults: [] },
      ],
    };
    expect(countsOf(report)).toEqual({ passed: 3, failed: 2, skipped: 2 });
  });
});
