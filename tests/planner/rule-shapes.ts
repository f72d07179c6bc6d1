/**
 * Five published rule shapes (tests/reference/rules, each with its source) put to the means of the planner: rows for
 * sprinklers speak of bags and hoses here, and the stages begin within the season of the plan. Shapes, not copies of
 * an ordinance: see reference/domain.md 7.1.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { RuleCell } from '../../src/engine/rules/rule-table.js';

export interface RuleShape {
  name: string;
  says: string;
  rules: RuleCell[][];
  stages: RuleCell[][];
}

const FOLDER = join(import.meta.dirname, '..', 'reference', 'rules');

/** How each shape is carried over: the means its sprinkler rows stand for, and its stages with the share of the season they begin at. */
const SHAPES: readonly { file: string; means: string; stages: readonly (readonly [string, number])[] }[] = [
  { file: 'p1', means: 'bag, soaker, hand', stages: [] },
  { file: 'p2', means: 'bag, soaker, hand, tanker', stages: [] },
  { file: 'p7', means: 'bag, soaker', stages: [['1', 0], ['2', 0.3], ['3', 0.6], ['4', 0.9]] },
  { file: 'p16', means: 'bag', stages: [['1', 0], ['2', 0.4], ['3', 0.7], ['4', 0.95]] },
  { file: 'p19-level2', means: '', stages: [] },
]; // prettier-ignore

interface Written {
  pattern: string;
  says: string;
  rules: RuleCell[][];
}

/** @param isoOf - the date at a share of the season, yyyy-mm-dd */
export function ruleShapes(isoOf: (share: number) => string): RuleShape[] {
  return SHAPES.map(({ file, means, stages }) => {
    const written = JSON.parse(readFileSync(join(FOLDER, `${file}.json`), 'utf8')) as Written;
    const [header = [], ...rows] = written.rules;
    const column = header.indexOf('Means');
    return {
      name: written.pattern,
      says: written.says,
      rules: [header, ...rows.map((row) => row.map((cell, at) => (at === column ? put(cell, means) : cell)))], // prettier-ignore
      stages: [['From', 'Stage'], ...stages.map(([stage, share]) => [isoOf(share), stage])],
    };
  });
}

const put = (cell: RuleCell, means: string): RuleCell =>
  typeof cell === 'string' ? cell.replace('sprinkler', means) : cell;
