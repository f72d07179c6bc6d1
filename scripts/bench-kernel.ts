/**
 * The daily kernel against the same kernel in C (gcc -O3, tests/bench/kernel.c): same cases, one run, results
 * compared, best of several repeats taken in turns. Run by `npm run bench`.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { asDoubles, kernelCases, runCase } from '../tests/bench/kernel-cases.js';

const SOURCE = join(dirname(fileURLToPath(import.meta.url)), '..', 'tests', 'bench', 'kernel.c');
const ROUNDS = 20;
const REPEATS = 15;
const TURNS = 4;
const FIELDS = ['waterings', 'litres', 'visits', 'stressDays', 'leastKs', 'cost'] as const;

function main(): number {
  const folder = mkdtempSync(join(tmpdir(), 'kernel-'));
  try {
    return compare(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function compare(folder: string): number {
  const [program, input, output] = ['kernel', 'in', 'out'].map((name) => join(folder, name));
  const gcc = spawnSync('gcc', ['-O3', '-o', program!, SOURCE, '-lm'], { encoding: 'utf8' });
  if (gcc.error) {
    console.log('kernel against C: skipped, there is no gcc on this machine.');
    return 0;
  }
  if (gcc.status !== 0) throw new Error(`gcc refused ${SOURCE}: ${gcc.stderr}`);
  const { place, cases } = kernelCases();
  writeFileSync(input!, asDoubles(place, cases));
  const ours: number[] = [];
  const inC: number[] = [];
  for (let turn = 0; turn < TURNS; turn++) {
    const ran = spawnSync(program!, [input!, output!, String(ROUNDS), String(REPEATS)], {
      encoding: 'utf8',
    });
    if (ran.status !== 0) throw new Error(`the kernel in C ended with ${String(ran.status)}`);
    inC.push(...ran.stdout.trim().split('\n').map(Number));
    for (let r = 0; r < REPEATS; r++) {
      const started = performance.now();
      for (let k = 0; k < ROUNDS; k++) for (const each of cases) runCase(each, place);
      ours.push((performance.now() - started) / 1000);
    }
  }
  const bytes = readFileSync(output!);
  const wanted = new Float64Array(
    bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length),
  );
  let worst = 0;
  cases.forEach((each, c) => {
    const got = runCase(each, place);
    FIELDS.forEach((field, f) => {
      const value = wanted[c * FIELDS.length + f]!;
      worst = Math.max(worst, Math.abs(got[field] - value) / Math.max(1, Math.abs(value)));
    });
  });
  const days = cases.reduce((sum, { tree }) => sum + tree.days - tree.first, 0) * ROUNDS;
  const [here, there] = [Math.min(...ours), Math.min(...inC)];
  const each = (seconds: number): string => `${((seconds / days) * 1e9).toFixed(1)} ns a day`;
  console.log(
    `kernel against C: ${cases.length} seasons × ${ROUNDS}, best of ${ours.length}: here ${each(here)}, in C ${each(there)}, ` +
      `ratio ${(here / there).toFixed(2)} (goal 1.5); largest difference ${worst.toExponential(1)}`,
  );
  return worst <= 1e-12 ? 0 : 1;
}

process.exitCode = main();
