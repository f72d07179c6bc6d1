/**
 * Plans every table file of a folder under five published rule shapes and asks of each planned watering, minute by
 * minute, whether the rules allow it: npx tsx scripts/try-legal.ts DIR [most rows of a file, 5000 if left out]
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readTableFile } from '../src/workbook/readers/open.js';
import { legalityOf, lostRows, propertyOverrun } from '../tests/planner/legality.js';
import { exampleShapes, KITS, planTable } from '../tests/planner/plan-table.js';

const [folder = '.', most = '5000'] = process.argv.slice(2);
const shapes = exampleShapes();
/** Minutes a day that shape P19 gives a property. */
const PROPERTY_MINUTES = 60;
const HEADINGS = ['file', 'rules', 'kit', 'rows', 'planned', 'kept', 'listed', 'lost', 'waterings', 'illegal', 'over property limit', 's']; // prettier-ignore

let bad = 0;
console.log(`| ${HEADINGS.join(' | ')} |`);
console.log(`|${'---|'.repeat(HEADINGS.length)}`);
const examples: string[] = [];
for (const name of readdirSync(folder).sort()) {
  if (!/\.(csv|tsv|txt|xlsx)$/i.test(name) || /^HEADER_/.test(name)) continue;
  try {
    const file = await readTableFile(name, readFileSync(join(folder, name)));
    const cells = file.cells.slice(0, Number(most) + 1);
    for (const shape of shapes)
      for (const kitName of ['whole kit', 'visits only']) {
        const start = performance.now();
        const { plan, rules, rows } = planTable(cells, shape, KITS[kitName]!, file.dateCells);
        const { asked, broken } = legalityOf(plan, rules);
        const lost = lostRows(rows, plan);
        bad += broken.length + lost.length;
        examples.push(
          ...[...broken, ...lost].slice(0, 3).map((s) => `${name}, ${shape.name}: ${s}`),
        );
        const kept = plan.trees.filter((t) => t.state === 'planned').length;
        const { days, over } = propertyOverrun(plan, PROPERTY_MINUTES);
        const property = shape.name === 'P19' ? `${over} of ${days}` : '';
        const seconds = ((performance.now() - start) / 1000).toFixed(1);
        const row = [name, shape.name, kitName, rows.length, plan.trees.length, kept, plan.notPlanned.length, lost.length, asked, broken.length, property, seconds]; // prettier-ignore
        console.log(`| ${row.join(' | ')} |`);
      }
  } catch (error) {
    console.log(`| ${name} | ${error instanceof Error ? error.message : String(error)} |`);
  }
}
console.log(`\n${bad} waterings or rows break the rules.`);
for (const example of examples) console.log(`- ${example}`);
if (bad > 0) process.exitCode = 1;
