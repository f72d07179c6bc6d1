/**
 * What the planner says, in Spanish. The planner speaks English; every sentence of it that the panel shows is looked up here, by
 * patterns of whole sentences, a file a theme. The wording is the project's own, from memory, and not reviewed by a native
 * speaker of the trade. Loaded when the panel first speaks Spanish.
 */
import { columnJoints, columns } from './columns.js';
import { contract, contractJoints } from './contract.js';
import { files } from './files.js';
import { inventory } from './inventory.js';
import { kitWeather } from './kit-weather.js';
import { log } from './log.js';
import { Catalogue, type Joints, type Theme } from './match.js';
import { planNotes } from './plan-notes.js';
import { plan, planJoints } from './plan.js';
import { program } from './program.js';
import { ruleProblemJoints, ruleProblems } from './rule-problems.js';
import { ruleJoints, rules } from './rules.js';
import { shortage } from './shortage.js';
import { site } from './site.js';
import { whatIf } from './what-if.js';
import { vocabulary, vocabularyJoints } from './words.js';

export const THEMES: readonly Theme[] = [
  vocabulary, columns, inventory, plan, planNotes, rules, ruleProblems, site, kitWeather, whatIf, contract, log, shortage, files, program,
]; // prettier-ignore
export const JOINTS: Joints = {
  part: [[', ', ', ']],
  starter: [[', ', ', ']],
  ...vocabularyJoints,
  ...columnJoints,
  ...planJoints,
  ...ruleJoints,
  ...ruleProblemJoints,
  ...contractJoints,
};

const catalogue = new Catalogue(THEMES, JOINTS);

/** One or several sentences of the planner in Spanish; undefined where there is no translation of one of them. */
export const inSpanish = (english: string): string | undefined => catalogue.find(english)?.text;
