/**
 * Watering rules as data: read a rules table, ask it, put it into words. The front door of this folder,
 * with rule-calendar.ts for whole seasons. The shapes it can say: tests/reference/rules.
 */
export { allowed, runAllowed } from './rule-answer.js';
export type { Moment, RuleAnswer } from './rule-answer.js';
export { numberNotice, parseRules } from './rule-notices.js';
export { readRules, RULE_COLUMNS } from './rule-parse.js';
export { describeTable, ruleSentence } from './rule-sentences.js';
export { describeRow } from './rule-words.js';
export type {
  RainDay,
  RuleCell,
  RuleProblem,
  RuleQuery,
  RuleRow,
  RuleTable,
  RuleTarget,
  RuleWindow,
} from './rule-types.js';
