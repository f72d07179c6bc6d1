/** The words of `npm run plan`: what is asked for, or a sentence about what cannot be. */
import { basename, extname } from 'node:path';
import { dayFromIso, type Day } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import { CREW_LANGUAGES, type CrewLanguage } from '../workbook/crew-words.js';
import { checkEnding, daysOf, isExport, type Wanted } from './plan-exports.js';

const USAGE =
  'usage: npm run plan -- FILE [--site site.json|workbook.xlsx] [--rules rules.csv|rules.xlsx|rules.json] [--skip-broken-rules] [--out plan.xlsx] [--units US|SI] [--crew-language en|es|both] [--csv plan.csv [--bom]] [--ics crew-days.ics] [--pdf crew-sheets.pdf [--pdf-days 2027-05-01..2027-05-31]] [--crew crew.xlsx] [--client client.xlsx|client.pdf] [--log log.xlsx|waterings.csv [--log rain.csv …] [--today 2027-07-01] [--choose-again] [--timers-as-planned]] [--what-if] [--json] [--force]';

export interface Options {
  file: string;
  site?: string;
  /** a file with a Rules table; it takes the place of the site's rules */
  rules?: string;
  /** plan with the rows of the rules that can be read */
  skipBroken: boolean;
  out: string;
  units: 'US' | 'SI';
  crewLanguage?: CrewLanguage;
  /** files of a season log: plan the rest of the season again */
  log: string[];
  /** first day that is not past; default: the day the plan is made on */
  from?: Day;
  chooseAgain: boolean;
  timersAsPlanned: boolean;
  whatIf: boolean;
  json: boolean;
  force: boolean;
  wanted: Wanted;
}

/** @throws Problem with the usage when the words do not make sense */
export function readOptions(argv: readonly string[]): Options {
  const words: string[] = [];
  const given: Partial<Options> = {};
  const wanted: Wanted = { files: new Map(), bom: false };
  for (let i = 0; i < argv.length; i++) {
    const word = argv[i]!;
    const value = (): string => {
      const next = argv[++i];
      if (next === undefined || next.startsWith('--'))
        throw new Problem(`${word} needs a value\n${USAGE}`);
      return next;
    };
    if (isExport(word)) wanted.files.set(word, checkEnding(word, value()));
    else if (word === '--bom') wanted.bom = true;
    else if (word === '--pdf-days') wanted.days = daysOf(value());
    else if (word === '--site') given.site = value();
    else if (word === '--rules') given.rules = value();
    else if (word === '--skip-broken-rules') given.skipBroken = true;
    else if (word === '--log') (given.log ??= []).push(value());
    else if (word === '--today') given.from = todayOf(value());
    else if (word === '--choose-again') given.chooseAgain = true;
    else if (word === '--timers-as-planned') given.timersAsPlanned = true;
    else if (word === '--what-if') given.whatIf = true;
    else if (word === '--out') given.out = value();
    else if (word === '--units') {
      const units = value().toUpperCase();
      if (units !== 'US' && units !== 'SI') throw new Problem('--units must be US or SI');
      given.units = units;
    } else if (word === '--crew-language') {
      const asked = value().toLowerCase();
      const found = CREW_LANGUAGES.find((each) => each === asked);
      if (found === undefined)
        throw new Problem(`--crew-language must be one of ${CREW_LANGUAGES.join(', ')}`);
      given.crewLanguage = found;
      wanted.crewLanguage = found;
    } else if (word === '--json') given.json = true;
    else if (word === '--force') given.force = true;
    else if (word.startsWith('--')) throw new Problem(`${word} is not a switch it knows\n${USAGE}`);
    else words.push(word);
  }
  const [file] = words;
  if (file === undefined || words.length > 1)
    throw new Problem(
      `${words.length === 0 ? 'no inventory file was named' : 'name one inventory file'}\n${USAGE}`,
    );
  if (wanted.bom && !wanted.files.has('--csv')) throw new Problem('--bom goes with --csv');
  if (wanted.days && !wanted.files.has('--pdf')) throw new Problem('--pdf-days goes with --pdf');
  checkLogWords(given);
  return {
    file,
    wanted,
    log: [],
    chooseAgain: false,
    timersAsPlanned: false,
    whatIf: false,
    out: `${basename(file, extname(file))}-plan.xlsx`,
    units: 'US',
    skipBroken: false,
    json: false,
    force: false,
    ...given,
  };
}

/** @throws Problem if switches are given that do not go together */
function checkLogWords({
  log,
  from,
  chooseAgain,
  timersAsPlanned,
  whatIf,
}: Partial<Options>): void {
  const lonely = [
    [from, '--today'],
    [chooseAgain, '--choose-again'],
    [timersAsPlanned, '--timers-as-planned'],
  ].find(([there]) => there !== undefined && !log);
  if (lonely) throw new Problem(`${lonely[1]} goes with --log`);
  if (whatIf && log)
    throw new Problem('--what-if asks of a whole season; it does not go with --log');
}

/** @throws Problem if it is no day */
function todayOf(word: string): Day {
  try {
    return dayFromIso(word);
  } catch {
    throw new Problem(`--today "${word}" is no day; write it as in 2027-07-01`);
  }
}
