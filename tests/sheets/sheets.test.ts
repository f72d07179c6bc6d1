/** The functions as one script for Google Sheets, run in a room like that host's, with its kinds of arguments. */
import ts from 'typescript';
import { beforeAll, describe, expect, it } from 'vitest';
import { HOLDER, PREFIX, sheetsScript } from '../../scripts/build-sheets.mjs';
import { FUNCTIONS } from '../../src/functions/index.js';
import described from '../../src/generated/functions.json' with { type: 'json' };
import { ENTRIES, goodCall, type Parameter } from '../functions/catalogue.js';
import { cellReader } from '../../src/sheets/host-values.js';
import { momentIn, sheetRoom, wallTime, type SheetRoom } from './sheet-room.js';

const ZONE = 'America/Denver';
const DATE = /^\d{4}-\d\d-\d\d( \d\d:\d\d)?$/;
const ids = Object.keys(ENTRIES);
let script: string;
let room: SheetRoom;

beforeAll(async () => {
  script = await sheetsScript();
  room = sheetRoom(script, ZONE);
});

/** A cell as that host hands it over: text that is a date in our catalogue is a date cell. */
const cellOf = (value: unknown): unknown =>
  typeof value === 'string' && DATE.test(value) ? momentIn(ZONE, value) : value;
const givenAs = (good: unknown): unknown =>
  Array.isArray(good) ? (good as unknown[][]).map((row) => row.map(cellOf)) : cellOf(good);
const callOf = (id: string): unknown[] => goodCall(id).map(givenAs);
/** Answers come from another room; compared as what they hold. */
const held = (value: unknown): unknown => JSON.parse(JSON.stringify(value));
const ask = (id: string, given: readonly unknown[]): unknown =>
  held(room.call(`${PREFIX}${id}`, ...given));
const bySource = (id: string): unknown => held(FUNCTIONS[id]!(...goodCall(id)));

/** What an Error thrown in the room says. */
function sentenceOf(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    return (error as Error).message;
  }
  throw new Error('nothing was thrown');
}

describe('the script', () => {
  it('adds the functions and one name that cells cannot use, nothing else', () => {
    const all = described.functions.map(({ id }) => `${PREFIX}${id}`);
    expect(room.functions.sort()).toEqual(all.sort());
    expect(room.names.filter((name) => name.endsWith('_'))).toEqual([HOLDER]);
  });

  it('is written in a language of 2019, without modules', () => {
    const file = ts.createSourceFile(
      'a.js',
      script,
      ts.ScriptTarget.ESNext,
      true,
      ts.ScriptKind.JS,
    );
    const newer = new Set([
      ts.SyntaxKind.QuestionDotToken,
      ts.SyntaxKind.QuestionQuestionToken,
      ts.SyntaxKind.QuestionQuestionEqualsToken,
      ts.SyntaxKind.BarBarEqualsToken,
      ts.SyntaxKind.AmpersandAmpersandEqualsToken,
      ts.SyntaxKind.PropertyDeclaration,
      ts.SyntaxKind.PrivateIdentifier,
      ts.SyntaxKind.ClassStaticBlockDeclaration,
      ts.SyntaxKind.BigIntLiteral,
      ts.SyntaxKind.ImportDeclaration,
      ts.SyntaxKind.ExportDeclaration,
      ts.SyntaxKind.ImportKeyword,
    ]);
    const found: string[] = [];
    let nodes = 0;
    const look = (node: ts.Node): void => {
      nodes++;
      if (newer.has(node.kind)) found.push(ts.SyntaxKind[node.kind]);
      ts.forEachChild(node, look);
    };
    look(file);
    expect(nodes).toBeGreaterThan(10_000);
    expect(found).toEqual([]);
  });

  it('shows each function with its text, its parameters and the mark that lists it', () => {
    for (const { id, description, parameters } of described.functions) {
      const at = script.indexOf(`\nfunction ${PREFIX}${id}(`);
      const comment = script.slice(script.lastIndexOf('/**', at), at);
      expect(comment, id).toContain(` * ${description}`);
      expect(comment, id).toContain('@customfunction');
      expect(comment.match(/@param /g)?.length ?? 0, id).toBe(parameters.length);
      const optional = parameters.filter((p) => 'optional' in p && p.optional).length;
      expect(comment.match(/@param \{\w+\} \[/g)?.length ?? 0, id).toBe(optional);
    }
  });

  it('runs where the language is newest, too', () => {
    expect(held(sheetRoom(script, 'UTC').call('SOAK_WATER_WEIGHT', 15))).toBe(
      FUNCTIONS['WATER_WEIGHT']!(15),
    );
  });
});

describe.each(ids)('SOAK_%s', (id) => {
  const { parameters, gives } = ENTRIES[id]!;

  it('answers dates, ranges and blanks of that host as the source does', () => {
    expect(ask(id, callOf(id))).toEqual(bySource(id));
  });

  const needed = parameters.map((p, i) => [p, i] as const).filter(([p]) => !p.optional);
  const asked = needed.filter(([p]) => p.kind !== 'text');
  if (asked.length > 0)
    it('asks for each needed argument that is a blank cell, or is left out', () => {
      for (const [p, i] of asked)
        for (const blank of ['', undefined]) {
          const given = callOf(id).map((good, at) => (at === i ? blank : good));
          expect(sentenceOf(() => ask(id, given))).toMatch(new RegExp(`^${p.name}\\b.*blank`, 's'));
        }
    });

  it('takes no more arguments than it has', () => {
    expect(sentenceOf(() => ask(id, [...callOf(id), 1]))).toBe(
      `${id} takes ${parameters.length} arguments; got ${parameters.length + 1}`,
    );
  });

  const single = (p: Parameter): boolean => p.kind !== 'range';
  const column = parameters.findIndex((p) => single(p) && !p.optional && p.kind !== 'text');
  if (typeof gives === 'string' && column >= 0)
    it('answers a column of cases with a column, a wrong one with its sentence, a blank one with nothing', () => {
      const good = callOf(id)[column];
      const cases = [[good], ['about ten'], [''], [good]];
      const answer = ask(
        id,
        callOf(id).map((each, i) => (i === column ? cases : each)),
      ) as unknown[][];
      const one = bySource(id);
      expect(answer).toEqual([[one], [expect.any(String)], [''], [one]]);
      expect(answer[1]?.[0]).toMatch(
        new RegExp(`^not computed: ${parameters[column]!.name}\\b.*"about ten"`, 's'),
      );
    });
  else if (column >= 0)
    it('answers with several cells, and so takes one case', () => {
      const good = callOf(id)[column];
      const given = callOf(id).map((each, i) => (i === column ? [[good], [good]] : each));
      expect(sentenceOf(() => ask(id, given))).toBe(
        `${parameters[column]!.name} must be one cell; got a range of 2`,
      );
    });
});

describe('several columns', () => {
  it('go row by row, single cells and single values hold for every row', () => {
    const answer = ask('TREE_DEMAND', [[[0.3], [0.2]], [[12], [20]], 0.5, [[1]]]);
    const one = (et0: number, canopy: number): unknown =>
      FUNCTIONS['TREE_DEMAND']!(et0, canopy, 0.5, 1);
    expect(answer).toEqual([[one(0.3, 12)], [one(0.2, 20)]]);
  });

  it('may lie in a block', () => {
    const answer = ask('WATER_WEIGHT', [[[1, 2], [3, '']]]); // prettier-ignore
    expect(answer).toEqual([
      [FUNCTIONS['WATER_WEIGHT']!(1), FUNCTIONS['WATER_WEIGHT']!(2)],
      [FUNCTIONS['WATER_WEIGHT']!(3), ''],
    ]);
  });

  it('of unlike size are refused with both sizes', () => {
    expect(
      sentenceOf(() =>
        ask('TREE_DEMAND', [
          [[0.3], [0.2]],
          [[12], [20], [9]],
        ]),
      ),
    ).toBe('canopy has 3 rows and 1 columns, et0 has 2 and 1; ranges must be of one size');
  });

  it('beside a table, which stays whole', () => {
    const given = callOf('RULE_OPEN');
    given[0] = [[given[0]], [momentIn(ZONE, '2027-07-07 20:00')]];
    expect(ask('RULE_OPEN', given)).toEqual([[true], [false]]);
  });
});

describe('dates', () => {
  const inZone = (zone: string, text: string): unknown =>
    held(sheetRoom(script, zone).call('SOAK_SUN_HOURS', 33.4, momentIn(zone, text)));

  it.each(['America/Denver', 'UTC', 'Pacific/Auckland', 'Asia/Kolkata', 'America/St_Johns'])(
    'are the day the sheet shows in %s, also where clocks change',
    (zone) => {
      for (const day of ['2027-07-01', '2027-03-14', '2027-11-07', '2027-12-31', '2028-02-29'])
        expect(inZone(zone, day), day).toBe(FUNCTIONS['SUN_HOURS']!(33.4, day));
      expect(inZone(zone, '2027-07-01 23:59')).toBe(FUNCTIONS['SUN_HOURS']!(33.4, '2027-07-01'));
    },
  );

  it('with a time keep it', () => {
    const at = (text: string): unknown =>
      ask('RULE_OPEN', callOf('RULE_OPEN').fill(momentIn(ZONE, text), 0, 1));
    expect(at('2027-07-06 18:30')).toBe(false);
    expect(at('2027-07-06 19:30')).toBe(true);
  });

  it.each(['America/Denver', 'Europe/Lisbon', 'Asia/Kolkata'])(
    'that are a time of day alone are a share of a day in %s, as it was in 1899',
    (zone) => {
      const clock = {
        zone: () => zone,
        format: (moment: Date, of: string) => wallTime(moment, of),
      };
      const read = cellReader(clock);
      for (const [time, share] of [
        ['08:00', 1 / 3],
        ['18:00', 0.75],
        ['00:00', 0],
      ] as const)
        // prettier-ignore
        expect(read(momentIn(zone, `1899-12-30 ${time}`))).toBeCloseTo(share, 9);
    },
  );

  it('that are none are said so', () => {
    expect(sentenceOf(() => ask('SUN_HOURS', [33.4, new Date(NaN)]))).toBe(
      'a cell holds a date that is none',
    );
  });

  it('ask for the zone once a call', () => {
    const own = sheetRoom(script, ZONE);
    const table = Array.from({ length: 30 }, (_, i) => [
      momentIn(ZONE, `2027-06-${String(i + 1).padStart(2, '0')}`),
      0,
    ]);
    const given = callOf('RULE_OPEN');
    given[5] = [['Date', 'Rain'], ...table];
    own.call('SOAK_RULE_OPEN', ...given);
    expect(own.zoneCalls()).toBe(1);
  });

  it('are not asked for where there is none', () => {
    const own = sheetRoom(script, ZONE);
    own.call('SOAK_WATER_WEIGHT', 15);
    expect(own.zoneCalls()).toBe(0);
  });
});

describe('cells in error', () => {
  it.each(['#DIV/0!', '#N/A', '#REF!', '#ERROR!'])('%s is named with its argument', (code) => {
    expect(sentenceOf(() => ask('WATER_WEIGHT', [code]))).toBe(
      `volume is a cell with the error ${code}; put that cell right first`,
    );
  });
});
