/**
 * What the sheet Log works out of each row by formulas: numbers behind it, and a flag for each kind of question. The
 * flags are those of the engine's `logFlags`; limits stand in a table of the sheet.
 */
import { FLAG_KINDS, type FlagKind } from '../../engine/contract/log-flags.js';
import type { ColumnSpec } from '../model.js';

/** Cells of a row by column, `at`; whole columns of the table, `all`; limits; the sheet Clocks and Kit. */
export interface LogPlaces {
  at: (key: string) => string;
  all: (key: string) => string;
  /** a column from its header to the row above */
  above: (key: string) => string;
  /** cell of the header, to count rows from */
  header: string;
  limit: (key: LogLimit) => string;
  clocks: (key: 'tree' | 'planted' | 'gone' | 'since' | 'caliper' | 'height' | 'species' | 'site') => string;
  kit: (key: 'name' | 'family' | 'volume' | 'flow') => string;
  /** litres in a shown unit of volume, as text */
  litres: string;
  /** water planned for the days of the log, on the sheet Service */
  due: (key: 'key') => string;
} // prettier-ignore

export type LogLimit =
  'watch' | 'slack' | 'minutes' | 'few' | 'hydrant' | 'enough' | 'dayRows' | 'grace';

export interface LogFormula extends ColumnSpec {
  formula: (p: LogPlaces) => string;
}

const part = { width: 9, style: 'calculation', format: 'general', align: 'right' } as const;
/** a day as its number: a program that guesses a format would show 0 as a time */
const dayNumber = { ...part, format: 'plain' } as const;
const words = { width: 9, style: 'calculation', format: 'general' } as const;
const low = (cell: string): string => `LOWER(TRIM(${cell}))`;
const yes = (test: string): string => `IF(${test},1,0)`;

/** A place in a list, 0 where it is not in it. */
const place = (name: string, list: string): string =>
  `IFERROR(MATCH(TRIM(${name})&"",${list},0),0)`;
const found = (at: string, list: string): string => `IF(${at}=0,0,INDEX(${list},MAX(1,${at})))`;

/** Numbers behind a row, in an order in which each needs only what stands before it. */
export const LOG_PARTS: readonly LogFormula[] = [
  { key: 'no', header: 'Number', ...part, formula: ({ at, header }) => `ROW(${at('tree')})-ROW(${header})` },
  { key: 'name', header: 'Tree, plain', ...words, formula: ({ at }) => low(at('tree')) },
  { key: 'team', header: 'Crew, plain', ...words, formula: ({ at }) => low(at('crew')) },
  { key: 'from', header: 'Arrived (min)', ...part, formula: ({ at }) => `IF(ISNUMBER(${at('arrived')}),ROUND(MOD(${at('arrived')},1)*1440,0),-1)` },
  { key: 'to', header: 'Left (min)', ...part, formula: ({ at }) => `IF(ISNUMBER(${at('left')}),ROUND(MOD(${at('left')},1)*1440,0),-1)` },
  { key: 'timed', header: 'Timed (0 or 1)', ...part, formula: ({ at }) => yes(`AND(${at('name')}<>"",${at('from')}>=0,${at('to')}>=${at('from')})`) },
  { key: 'water', header: 'Watered (0 or 1)', ...part, formula: ({ at }) => `IF(AND(${at('name')}<>"",ISNUMBER(${at('applied')})),${yes(`${at('applied')}>0`)},0)` },
  { key: 'dose', header: 'Applied, blank as -1 (see Applied)', ...part, formula: ({ at }) => `IF(ISNUMBER(${at('applied')}),${at('applied')},-1)` },
  { key: 'place', header: 'Place in list', ...part, formula: ({ at, clocks }) => `IF(${at('name')}="",0,${place(at('tree'), clocks('tree'))})` },
  { key: 'crewDay', header: 'Crew and day', ...words, formula: ({ at }) => `IF(${at('name')}="","","d"&${at('date')}&"@"&${at('team')})` },
  { key: 'crewKey', header: 'Crew and day, named', ...words, formula: ({ at }) => `IF(${at('team')}="","",${at('crewDay')})` },
  { key: 'truckKey', header: 'Truck and day', ...words, formula: ({ at }) => `IF(OR(${at('name')}="",TRIM(${at('truck')})=""),"","d"&${at('date')}&"@"&${low(at('truck'))})` },
  { key: 'treeKey', header: 'Tree and day', ...words, formula: ({ at }) => `IF(${at('water')}=1,"d"&${at('date')}&"@"&${at('name')},"")` },
  { key: 'first', header: 'First of the day (row)', ...part, formula: ({ at, all }) => `IF(${at('treeKey')}="",0,MATCH(${at('treeKey')},${all('treeKey')},0))` },
  { key: 'paceKey', header: 'Crew and day, watered', ...words, formula: ({ at }) => `IF(AND(${at('timed')}=1,${at('water')}=1),${at('crewKey')},"")` },
  { key: 'paceNo', header: 'Of the crew’s watered day (number)', ...part, formula: ({ at, all }) => rank(at, all, 'paceKey') },
  { key: 'both', header: 'Truck record too (0 or 1)', ...part, formula: ({ at }) => yes(`AND(${at('timed')}=1,ISNUMBER(${at('truckMinutes')}))`) },
  { key: 'kitRow', header: 'On Kit (row)', ...part, formula: ({ at, kit }) => `IF(TRIM(${at('truck')})="",0,${place(at('truck'), kit('name'))})` },
  { key: 'isTruck', header: 'Truck of Kit (0 or 1)', ...part, formula: ({ at, kit }) => `IF(${at('kitRow')}=0,0,${yes(`ISNUMBER(SEARCH("tank",INDEX(${kit('family')},MAX(1,${at('kitRow')}))))`)})` },
  { key: 'tank', header: 'Tank (see Applied)', ...part, formula: ({ at, kit }) => `IF(${at('isTruck')}=1,SUM(INDEX(${kit('volume')},MAX(1,${at('kitRow')}))),0)` },
  { key: 'pump', header: 'Pump (see Applied, per min)', ...part, formula: ({ at, kit }) => `IF(${at('isTruck')}=1,SUM(INDEX(${kit('flow')},MAX(1,${at('kitRow')}))),0)` },
  { key: 'tankKey', header: 'Truck and day, watered', ...words, formula: ({ at }) => `IF(AND(${at('tank')}>0,${at('timed')}=1,${at('water')}=1),${at('truckKey')},"")` },
  { key: 'tankNo', header: 'Of the truck’s day (number)', ...part, formula: ({ at, all }) => rank(at, all, 'tankKey') },
  { key: 'refill', header: 'Refill at most (see Applied)', ...part,
    formula: ({ at, all, limit }) => `IF(${at('tankNo')}<=1,0,MIN(${at('tank')},MAX(0,${at('from')}-SUMIFS(${all('to')},${all('tankKey')},${at('tankKey')},${all('tankNo')},${at('tankNo')}-1))*${limit('hydrant')}))` },
  { key: 'meterKey', header: 'Crew and day, metered', ...words, formula: ({ at }) => `IF(AND(${at('water')}=1,${low(at('measured'))}="meter"),${at('crewDay')},"")` },
  { key: 'tenths', header: 'Applied (0.1 L)', ...part, formula: ({ at, litres }) => `IF(${at('water')}=1,ROUND(${at('applied')}*${litres}*10,0),0)` },
  { key: 'timeKey', header: 'Crew and day, timed', ...words, formula: ({ at }) => `IF(${at('timed')}=1,${at('crewDay')},"")` },
  { key: 'timeNo', header: 'Of the crew’s day (number)', ...part, formula: ({ at, all }) => rank(at, all, 'timeKey') },
  { key: 'step', header: 'After the one before (min)', ...part,
    formula: ({ at, all }) => `IF(${at('timeNo')}<=1,0,${at('from')}-SUMIFS(${all('from')},${all('timeKey')},${at('timeKey')},${all('timeNo')},${at('timeNo')}-1))` },
  { key: 'rowKey', header: 'What the row says', ...words, formula: ({ at }) => `IF(${at('timed')}=0,"",${['team', 'name', 'from', 'to'].map(at).join('&"@"&')}&"@"&ROUND(${at('dose')}*1000000,0))` },
  { key: 'alike', header: 'First that says the same (row)', ...part, formula: ({ at, all }) => `IF(${at('rowKey')}="",0,MATCH(${at('rowKey')},${all('rowKey')},0))` },
  { key: 'twin', header: 'Same on (day number)', ...dayNumber,
    formula: ({ at, all }) => `IF(${at('alike')}=0,0,IF(INDEX(${all('date')},MAX(1,${at('alike')}))<${at('date')},INDEX(${all('date')},MAX(1,${at('alike')})),0))` },
  { key: 'near', header: 'Planned day it answers (date)', ...dayNumber,
    formula: ({ at, due, limit, above }) => {
      // planned, and not answered by a row above
      const planned = (day: string): string => {
        const key = `"d"&${day}&"@"&${at('name')}`;
        return `COUNTIF(${due('key')},${key})>COUNTIF(${above('nearKey')},${key})`;
      };
      const date = at('date');
      return `IF(${at('name')}="",0,IF(${planned(date)},${date},IF(${planned(`(${date}-${limit('grace')})`)},${date}-${limit('grace')},IF(${planned(`(${date}+${limit('grace')})`)},${date}+${limit('grace')},0))))`;
    } },
  { key: 'nearKey', header: 'Planned visit it answers', ...words, formula: ({ at }) => `IF(${at('near')}=0,"","d"&${at('near')}&"@"&${at('name')})` },
  { key: 'caliper', header: 'Trunk (see Clocks)', ...part, formula: ({ at, clocks }) => found(at('place'), clocks('caliper')) },
  { key: 'height', header: 'Height (see Clocks)', ...part, formula: ({ at, clocks }) => found(at('place'), clocks('height')) },
  { key: 'species', header: 'Species', ...words, formula: ({ at, clocks }) => `IF(${at('place')}=0,"",TRIM(INDEX(${clocks('species')},MAX(1,${at('place')}))))` },
  { key: 'site', header: 'Site', ...words, formula: ({ at, clocks }) => `IF(${at('place')}=0,"",TRIM(INDEX(${clocks('site')},MAX(1,${at('place')}))))` },
  { key: 'plantedOn', header: 'Planted (date)', ...dayNumber, formula: ({ at, clocks }) => found(at('place'), clocks('planted')) },
  { key: 'monthsOld', header: 'Months since planting', ...part,
    formula: ({ at }) => {
      const [d, p] = [at('date'), at('plantedOn')];
      return `IF(OR(${p}=0,${at('name')}=""),-1,(YEAR(${d})-YEAR(${p}))*12+MONTH(${d})-MONTH(${p})-${yes(`DAY(${d})<MIN(DAY(${p}),DAY(DATE(YEAR(${d}),MONTH(${d})+1,0)))`)})`;
    } },
]; // prettier-ignore

/** Place of a row among those of its key, by arrival, then by row. */
const rank = (at: LogPlaces['at'], all: LogPlaces['all'], key: string): string =>
  `IF(${at(key)}="",0,1+COUNTIFS(${all(key)},${at(key)},${all('from')},"<"&${at('from')})+COUNTIFS(${all(key)},${at(key)},${all('from')},${at('from')},${all('no')},"<"&${at('no')}))`;

/** At another tree at the same time, of one crew or truck: a visit that began before goes on well into this one. */
function elsewhere({ at, all, limit }: LogPlaces, key: string): string {
  const earlier = `(((${all('from')}<${at('from')})+(${all('from')}=${at('from')})*(${all('no')}<${at('no')}))>0)`;
  const other = `(${all(key)}=${at(key)})*(${all('timed')}=1)*(${all('name')}<>${at('name')})*(${all('to')}>${at('from')}+${limit('watch')})*${earlier}`;
  return `IF(OR(${at(key)}="",${at('timed')}=0,${at('to')}-${at('from')}<=${limit('watch')}),0,${yes(`SUMPRODUCT(${other})>0`)})`;
}

type Test = (p: LogPlaces) => string;

/** A test for each kind of question, 1 or 0. */
const TESTS: Readonly<Record<FlagKind, Test>> = {
  'unknown tree': ({ at }) => yes(`AND(${at('name')}<>"",${at('place')}=0)`),
  gone: ({ at, clocks }) => `IF(OR(${at('water')}=0,${at('place')}=0),0,IF(INDEX(${clocks('gone')},MAX(1,${at('place')}))=1,${yes(`${at('date')}>SUM(INDEX(${clocks('since')},MAX(1,${at('place')})))`)},0))`,
  'before planting': ({ at }) => yes(`AND(${at('water')}=1,${at('date')}<${at('plantedOn')})`),
  times: ({ at }) => yes(`AND(${at('name')}<>"",${at('from')}>=0,${at('to')}>=0,${at('to')}<${at('from')})`),
  'nothing said': ({ at }) => `IF(${at('name')}="",0,IF(${at('water')}=1,${yes(`TRIM(${at('skipped')})<>""`)},${yes(`TRIM(${at('skipped')})=""`)}))`,
  duplicate: (p) => again(p, '='),
  'two places': (p) => `MAX(${elsewhere(p, 'crewKey')},${elsewhere(p, 'truckKey')})`,
  'two crews': (p) => again(p, '<>'),
  minutes: (p) => `MAX(${pace(p)},${record(p)})`,
  pump: ({ at, limit }) => yes(`AND(${at('water')}=1,${at('timed')}=1,${at('pump')}>0,${at('dose')}>${at('pump')}*(${at('to')}-${at('from')}+${limit('watch')})*(1+${limit('slack')}))`),
  tank: ({ at, all, limit }) => {
    const slack = `(1+${limit('slack')})`;
    const key = at('tankKey');
    const day = yes(`AND(COUNTIF(${all('tankKey')},${key})>1,SUMIFS(${all('dose')},${all('tankKey')},${key})>(${at('tank')}+SUMIFS(${all('refill')},${all('tankKey')},${key}))*${slack})`);
    return `MAX(${yes(`AND(${at('water')}=1,${at('tank')}>0,${at('dose')}>${at('tank')}*${slack})`)},IF(${key}="",0,${day}))`;
  },
  'no rain reading': ({ at, all }) => `IF(OR(${at('name')}="",COUNT(${all('rain')})=0),0,IF(MATCH(${at('date')},${all('date')},0)<${at('no')},0,${yes(`COUNTIFS(${all('date')},${at('date')},${all('rain')},">=0")=0`)}))`,
  'too regular': (p) => `MAX(${meter(p)},${watch(p)})`,
  'copied day': ({ at, all, limit }) => {
    const [day, that] = [at('crewDay'), `"d"&${at('twin')}&"@"&${at('team')}`];
    const n = `COUNTIF(${all('crewDay')},${day})`;
    return `IF(OR(${at('name')}="",${at('twin')}=0),0,${yes(`AND(${n}>=${limit('dayRows')},COUNTIF(${all('timeKey')},${day})=${n},COUNTIFS(${all('crewDay')},${day},${all('twin')},${at('twin')})=${n},COUNTIF(${all('crewDay')},${that})=${n},COUNTIF(${all('timeKey')},${that})=${n})`)})`;
  },
}; // prettier-ignore

/** A row above has the tree on the same day, by the same crew or another one. */
const again = ({ at, all }: LogPlaces, sign: '=' | '<>'): string =>
  `IF(OR(${at('first')}=0,${at('first')}=${at('no')}),0,${yes(`INDEX(${all('team')},MAX(1,${at('first')}))${sign}${at('team')}`)})`;

/** Fewer minutes from the first arrival to the last leaving than trees. */
function pace({ at, all, limit }: LogPlaces): string {
  const key = at('paceKey');
  const n = `COUNTIF(${all('paceKey')},${key})`;
  const first = `SUMIFS(${all('from')},${all('paceKey')},${key},${all('paceNo')},1)`;
  return `IF(${key}="",0,${yes(`AND(${n}>=${limit('few')},COUNTIFS(${all('paceKey')},${key},${all('to')},">="&(${first}+${n}))=0)`)})`;
}

/** More minutes logged over the day than the truck's own record has. */
function record({ at, all, limit }: LogPlaces): string {
  const sum = (key: string): string =>
    `SUMIFS(${all(key)},${all('crewKey')},${at('crewKey')},${all('both')},1)`;
  const [to, from, stood] = [sum('to'), sum('from'), sum('truckMinutes')];
  return `IF(OR(${at('both')}=0,${at('crewKey')}=""),0,${yes(`${to}-${from}-${stood}>MAX(${limit('minutes')},${limit('slack')}*${stood})`)})`;
}

function meter({ at, all, limit }: LogPlaces): string {
  const n = `COUNTIF(${all('meterKey')},${at('meterKey')})`;
  return `IF(${at('meterKey')}="",0,${yes(`AND(${n}>=${limit('enough')},COUNTIFS(${all('meterKey')},${at('meterKey')},${all('tenths')},${at('tenths')})=${n})`)})`;
}

function watch({ at, all, limit }: LogPlaces): string {
  const key = at('timeKey');
  const n = `COUNTIF(${all('timeKey')},${key})`;
  const second = `SUMIFS(${all('step')},${all('timeKey')},${key},${all('timeNo')},2)`;
  return `IF(${key}="",0,${yes(`AND(${n}>=${limit('enough')},COUNTIFS(${all('timeKey')},${key},${all('stay')},${at('stay')})=${n},COUNTIFS(${all('timeKey')},${key},${all('timeNo')},">1",${all('step')},${second})=${n}-1)`)})`;
}

/** A column for each kind, named `f0` … in the order of the kinds. */
export const LOG_FLAG_COLUMNS: readonly LogFormula[] = FLAG_KINDS.map((kind, i) => ({
  key: `f${i}`,
  header: `${kind[0]!.toUpperCase()}${kind.slice(1)} (0 or 1)`,
  ...part,
  formula: TESTS[kind],
}));

/** The questions of a row in a word each, as a formula and as the engine's kinds. */
export const questionsFormula = ({ at }: LogPlaces): string =>
  `TRIM(${FLAG_KINDS.map((kind, i) => `IF(${at(`f${i}`)}=1,"${kind}? ","")`).join('&')})`;
export const questionsText = (kinds: readonly FlagKind[]): string =>
  FLAG_KINDS.filter((kind) => kinds.includes(kind))
    .map((kind) => `${kind}?`)
    .join(' ');
