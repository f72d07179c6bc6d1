/**
 * The daily kernel against the same in C (tests/bench/kernel.c, by gcc -O3 or -O2, whichever is faster: -O3 doubles
 * the time of the balance): the balance of a day alone, and the whole season with its decisions. Same cases, results compared, best of many short repeats taken in turns, for other
 * programs on the machine only ever make one slower. Run by `npm run bench`.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { asDoubles, balanceOf, kernelCases, runCase } from '../tests/bench/kernel-cases.js';

const SOURCE = join(dirname(fileURLToPath(import.meta.url)), '..', 'tests', 'bench', 'kernel.c');
const LEVELS = ['-O3', '-O2'];
const ROUNDS = 20;
const REPEATS = 15;
const TURNS = 4;
const GOAL = 1.5;
/** Largest difference of a result, as a share of it. */
const SAME = 1e-12;

/** Best time so far, here and in C [s]. */
interface Best {
  here: number;
  inC: number;
}

function compare(folder: string): number {
  const at = (name: string): string => join(folder, name);
  for (const level of LEVELS) {
    const gcc = spawnSync('gcc', [level, '-o', at(level), SOURCE, '-lm'], { encoding: 'utf8' });
    if (gcc.error) {
      console.log('kernel against C: skipped, there is no gcc on this machine.');
      return 0;
    }
    if (gcc.status !== 0) throw new Error(`gcc refused ${SOURCE}: ${gcc.stderr}`);
  }
  const { place, cases } = kernelCases();
  writeFileSync(at('in'), asDoubles(place, cases));
  const season: Best = { here: Infinity, inC: Infinity };
  const balance: Best = { here: Infinity, inC: Infinity };
  const timed = (best: Best, work: () => void): void => {
    const started = performance.now();
    for (let round = 0; round < ROUNDS; round++) work();
    best.here = Math.min(best.here, (performance.now() - started) / 1000);
  };
  for (let turn = 0; turn < TURNS; turn++) {
    const args = [at('in'), at('out'), String(ROUNDS), String(REPEATS)];
    for (const level of LEVELS) {
      const ran = spawnSync(at(level), args, { encoding: 'utf8' });
      if (ran.status !== 0) throw new Error(`the kernel in C ended with ${String(ran.status)}`);
      for (const line of ran.stdout.trim().split('\n')) {
        const [inSeason, inBalance] = line.split(' ').map(Number);
        season.inC = Math.min(season.inC, inSeason!);
        balance.inC = Math.min(balance.inC, inBalance!);
      }
    }
    for (let repeat = 0; repeat < REPEATS; repeat++) {
      timed(season, () => cases.forEach((each) => runCase(each, place)));
      timed(balance, () => cases.forEach(balanceOf));
    }
  }
  const results = [
    ...cases.flatMap((each) => {
      const { waterings, litres, visits, stressDays, leastKs, cost } = runCase(each, place);
      return [waterings, litres, visits, stressDays, leastKs, cost];
    }),
    ...cases.flatMap(balanceOf),
  ];
  const bytes = readFileSync(at('out'));
  const wanted = new Float64Array(
    bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length),
  );
  if (wanted.length !== results.length) throw new Error(`C gave ${wanted.length} results`);
  const worst = Math.max(
    ...results.map((got, i) => Math.abs(got - wanted[i]!) / Math.max(1, Math.abs(wanted[i]!))),
  );
  const days = cases.reduce((sum, { tree }) => sum + tree.days - tree.first, 0) * ROUNDS;
  const each = (seconds: number): string => `${((seconds / days) * 1e9).toFixed(1)} ns`;
  const say = (what: string, { here, inC }: Best): void =>
    console.log(
      `kernel against C: ${what}: here ${each(here)} a day, in C ${each(inC)}, ratio ${(here / inC).toFixed(2)} (goal ${GOAL})`,
    );
  say('balance of a day', balance);
  say('season with its decisions', season);
  console.log(
    `kernel against C: ${cases.length} trees and means, best of ${TURNS * REPEATS}; largest difference of a result ${worst.toExponential(1)}`,
  );
  return worst <= SAME ? 0 : 1;
}

const folder = mkdtempSync(join(tmpdir(), 'kernel-'));
try {
  process.exitCode = compare(folder);
} finally {
  rmSync(folder, { recursive: true });
}
