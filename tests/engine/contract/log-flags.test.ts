/** Flags of a log: how many known wrongs are asked about, and how often an honest log is. */
import { describe, expect, it } from 'vitest';
import { logFlags, type LogFlag } from '../../../src/engine/contract/log-flags.js';
import { honestLog, TREES, TRUCKS, wrongLogs, WRONGS } from './made-logs.js';

const percent = (part: number, whole: number): string => `${((100 * part) / whole).toFixed(2)} %`;
const tally = (flags: readonly LogFlag[]): Record<string, number> => {
  const sums: Record<string, number> = {};
  for (const { kind } of flags) sums[kind] = (sums[kind] ?? 0) + 1;
  return sums;
};

describe('thirty logs with a known wrong', () => {
  const logs = wrongLogs().map((log) => ({
    ...log,
    flags: logFlags(log.rows, { trees: log.trees, kit: TRUCKS }),
  }));

  it('are ten kinds, three of each, every one with rows that are wrong', () => {
    expect(logs).toHaveLength(30);
    expect(new Set(logs.map((l) => l.what)).size).toBe(10);
    for (const log of logs) expect(log.wrong.length, log.what).toBeGreaterThan(0);
  });

  it.each(WRONGS.map(([what]) => what))('%s: every log is found, and nearly every row', (what) => {
    for (const log of logs.filter((l) => l.what === what)) {
      const asked = new Set(log.flags.filter((f) => f.kind === log.kind).map((f) => f.row));
      const found = log.wrong.filter((row) => asked.has(row)).length;
      expect(found / log.wrong.length, `${found} of ${log.wrong.length}`).toBeGreaterThanOrEqual(
        0.9,
      );
    }
  });

  it('recall over all rows is 95 % or more', () => {
    let found = 0;
    let all = 0;
    for (const log of logs) {
      const asked = new Set(log.flags.filter((f) => f.kind === log.kind).map((f) => f.row));
      found += log.wrong.filter((row) => asked.has(row)).length;
      all += log.wrong.length;
    }
    console.info(`recall: ${found} of ${all} wrong rows, ${percent(found, all)}`);
    expect(found / all).toBeGreaterThanOrEqual(0.95);
  });
});

describe('thirty honest logs with the noise of real days', () => {
  it('have fewer than one row in a hundred asked about', () => {
    let rows = 0;
    const flags: LogFlag[] = [];
    const asked = new Set<string>();
    for (let seed = 1; seed <= 30; seed++) {
      const log = honestLog(seed);
      rows += log.length;
      const own = logFlags(log, { trees: TREES, kit: TRUCKS });
      flags.push(...own);
      own.forEach((f) => asked.add(`${seed} ${f.row}`));
    }
    console.info(`false flags: ${asked.size} of ${rows} rows, ${percent(asked.size, rows)}; ${JSON.stringify(tally(flags))}`); // prettier-ignore
    expect(rows).toBeGreaterThan(9000);
    expect(asked.size / rows).toBeLessThan(0.01);
  });
});

describe('a flag', () => {
  it('is a question: its sentence ends with a question mark and blames nobody', () => {
    for (const { rows, trees } of wrongLogs())
      for (const { sentence } of logFlags(rows, { trees, kit: TRUCKS })) {
        expect(sentence).toMatch(/\?$/);
        expect(sentence).not.toMatch(/fraud|false|lie|cheat|wrong/i);
      }
  });

  it('says gallons or litres as the log does', () => {
    const log = honestLog(3).map((r) => ({ ...r, applied: 4000 }));
    const say = (units: 'US' | 'SI'): string =>
      logFlags(log, { trees: TREES, kit: TRUCKS, units }).find((f) => f.kind === 'tank')!.sentence;
    expect(say('US')).toContain('1056.7 gal');
    expect(say('SI')).toContain('4000 L');
  });
});
