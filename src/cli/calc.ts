/**
 * Prints what a cell would show: npm run calc -- '=SOAK.BAG_HOURS(15,4,0.055,24)'
 * Exit 0, also when a formula is an error (the cell shows one); 2 for bad usage.
 */
import { calculate, type Outcome, type Shown } from '../desk/headless.js';
import { FUNCTIONS } from '../functions/index.js';
import described from '../generated/functions.json' with { type: 'json' };

const USAGE = `Usage: npm run calc -- [--json] '=FORMULA' ['=FORMULA' …]

Prints what a cell with each formula would show, one line each; a result of several cells is one
line a row, tabs between the cells. Put each formula in quotes.
  --json   one line of JSON each: {"formula", "value"} or {"formula", "error": {"code", "message"}}
`;

function cellText(value: Shown): string {
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return String(value);
}

/** An outcome as lines of text. */
export function asText(outcome: Outcome): string {
  if ('error' in outcome) return `${outcome.error.code}  ${outcome.error.message}`;
  const { value } = outcome;
  if (!Array.isArray(value)) return cellText(value);
  return value.map((row) => row.map(cellText).join('\t')).join('\n');
}

async function main(args: readonly string[]): Promise<number> {
  const options = args.filter((arg) => arg.startsWith('--'));
  const formulas = args.filter((arg) => !arg.startsWith('--'));
  if (options.includes('--help')) {
    process.stdout.write(USAGE);
    return 0;
  }
  const unknown = options.find((option) => option !== '--json');
  if (unknown !== undefined || formulas.length === 0 || formulas.some((f) => f.trim() === '')) {
    const why = unknown === undefined ? 'There is no formula.' : `There is no option ${unknown}.`;
    process.stderr.write(`${why}\n\n${USAGE}`);
    return 2;
  }
  const outcomes = await calculate(formulas, {
    metadata: described.functions,
    implementations: FUNCTIONS,
  });
  for (const outcome of outcomes) {
    const line = options.includes('--json') ? JSON.stringify(outcome) : asText(outcome);
    process.stdout.write(`${line}\n`);
  }
  return 0;
}

process.exitCode = await main(process.argv.slice(2));
