/** Prints what the inventory reader makes of every table file in a folder: npx tsx scripts/try-inventories.ts DIR [-v] */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { dayOf } from '../src/engine/dates.js';
import { readInventory } from '../src/tables/inventory/index.js';
import { readTableFile } from '../src/workbook/readers/open.js';

const [folder = '.', ...flags] = process.argv.slice(2);
const verbose = flags.includes('-v');
for (const name of readdirSync(folder).sort()) {
  if (!/\.(csv|tsv|txt|xlsx)$/i.test(name) || /^HEADER_/.test(name)) continue;
  try {
    const file = await readTableFile(name, readFileSync(join(folder, name)));
    const start = performance.now();
    const reading = readInventory(file.cells, {
      seasonFrom: dayOf(2027, 4, 1),
      ...(file.dateCells ? { dateCells: file.dateCells } : {}),
    });
    const ms = performance.now() - start;
    const usable = reading.rows.filter((r) => r.tree);
    console.log(`\n== ${name}  ${file.encoding ?? 'workbook'} ${file.delimiter ?? file.sheet}`);
    console.log(
      `   header row ${reading.headerRow}, rows ${reading.rows.length}, usable ${usable.length}, listed ${reading.rows.length - usable.length}, ${ms.toFixed(0)} ms`,
    );
    for (const m of reading.matches)
      console.log(`   ${m.meaning.padEnd(14)} <- ${m.header} [${m.unit}] ${m.confidence}: ${m.why} | ${m.samples.join(' ; ').slice(0, 70)}`); // prettier-ignore
    console.log(`   unmatched: ${reading.unmatched.join(', ').slice(0, 300)}`);
    for (const n of [...file.notes, ...reading.notes]) console.log(`   * ${n}`);
    const reasons = new Map<string, number>();
    for (const r of reading.rows)
      if (r.unusable !== undefined) {
        const reason = r.unusable.replace(/^Row \d+: /, '').slice(0, 110);
        reasons.set(reason, (reasons.get(reason) ?? 0) + 1);
      }
    for (const [reason, n] of [...reasons].sort((a, b) => b[1] - a[1]).slice(0, verbose ? 50 : 6))
      console.log(`   - ${n} x ${reason}`);
    const said = new Map<string, number>();
    for (const r of usable) for (const n of r.notes) said.set(n.slice(0, 100), (said.get(n.slice(0, 100)) ?? 0) + 1); // prettier-ignore
    for (const [n, times] of [...said].sort((a, b) => b[1] - a[1]).slice(0, verbose ? 40 : 5))
      console.log(`   ~ ${times} x ${n}`);
    const some = usable[Math.floor(usable.length / 2)]?.tree;
    if (some) console.log(`   e.g. ${JSON.stringify(some)}`);
  } catch (error) {
    console.log(`\n== ${name}: ${error instanceof Error ? error.message : String(error)}`);
  }
}
