/** functions.json, the functions and the design's catalogue say the same. */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, vi } from 'vitest';
import { FUNCTIONS } from '../../src/functions/index.js';
import metadata from '../../src/generated/functions.json' with { type: 'json' };
import notes from '../../src/generated/function-notes.json' with { type: 'json' };
import * as gridWords from '@univerjs/presets/preset-sheets-core';
import { PARAMETER_CHOICES } from '../../src/functions/choices.js';
import { NAMESPACE } from '../../src/desk/registration.js';
import { TWIN_IDS, twinArguments } from '../../src/workbook/native-twins.js';
import { ENTRIES } from './catalogue.js';

interface Described {
  id: string;
  name: string;
  description: string;
  helpUrl: string;
  parameters: {
    name: string;
    description: string;
    optional?: boolean;
    type: string;
    dimensionality?: string;
    customEnumId?: string;
  }[];
  result: { type?: string; dimensionality?: string };
}
const described = metadata.functions as unknown as Described[];
const byId = new Map(described.map((each) => [each.id, each]));
const root = fileURLToPath(new URL('../../', import.meta.url));

describe('functions.json', () => {
  it('is what the declarations give', () => {
    const output = execFileSync(process.execPath, ['scripts/build-metadata.mjs', '--check'], {
      cwd: root,
      encoding: 'utf8',
    });
    expect(output).toContain('agree with');
  });

  it('describes exactly the functions that are registered', () => {
    expect(described.map((each) => each.id)).toEqual(Object.keys(FUNCTIONS).sort());
  });

  it('has every function of the catalogue and no other', () => {
    expect(described.map((each) => each.id)).toEqual(Object.keys(ENTRIES).sort());
  });

  it.each(Object.entries(ENTRIES))('%s is as the catalogue says', (id, { parameters, gives }) => {
    const each = byId.get(id)!;
    expect(each.name).toBe(id);
    expect(each.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name))).toEqual(
      parameters.map((p) => (p.optional ? `[${p.name}]` : p.name)),
    );
    expect(each.parameters.map((p) => p.dimensionality === 'matrix')).toEqual(
      parameters.map((p) => p.kind === 'range'),
    );
    expect(each.result.dimensionality === 'matrix').toBe(typeof gives !== 'string');
    if (typeof gives === 'string')
      expect(each.result.type).toBe({ number: 'number', text: 'string', truth: 'boolean' }[gives]);
  });

  it.each(Object.entries(ENTRIES))(
    '%s says the default of every optional parameter as the catalogue has it',
    (id, { parameters }) => {
      for (const p of parameters.filter((each) => each.optional)) {
        const text = byId.get(id)!.parameters.find((each) => each.name === p.name)!.description;
        expect(text, `${id} ${p.name}`).toMatch(/default/);
        const written = /default:? "?([^,;(]+)/.exec(text)?.[1] ?? '';
        if (typeof p.default === 'number' && p.name !== 'dewpoint' && p.name !== 'wind')
          expect(Number.parseFloat(written), `${id} ${p.name}: ${text}`).toBe(p.default);
        if (p.kind === 'word') expect(written, `${id} ${p.name}`).toContain(String(p.default));
      }
    },
  );

  it('says the unit of every parameter', () => {
    const unit =
      / \| |no unit|degrees|a date|\bhours\b|minutes|seconds|MJ\/m²|header row|dollars|money|mg\/L|per /;
    for (const each of described)
      for (const p of each.parameters) expect(p.description, `${each.id} ${p.name}`).toMatch(unit);
  });

  it('offers the words of every parameter that chooses one', () => {
    const enums = new Map(metadata.enums.map((each) => [each.id, each.values]));
    for (const [id, { parameters }] of Object.entries(ENTRIES))
      for (const p of parameters) {
        const listed = byId.get(id)!.parameters.find((each) => each.name === p.name)!;
        const choices = PARAMETER_CHOICES[`${id}.${p.name}`] ?? PARAMETER_CHOICES[p.name];
        expect(listed.customEnumId !== undefined, `${id} ${p.name}`).toBe(p.kind === 'word');
        if (p.kind !== 'word') continue;
        expect(enums.get(listed.customEnumId!)?.map((each) => each.stringValue)).toEqual(
          choices?.words,
        );
      }
  });

  it('sends each function to its own help page', () => {
    for (const each of described)
      expect(new URL(each.helpUrl).pathname).toBe(`/help/${each.id}.html`);
  });

  it('has an equation, a range and a source for every function', () => {
    expect(Object.keys(notes)).toEqual(described.map((each) => each.id));
  });
});

describe('ids', () => {
  const ids = Object.keys(FUNCTIONS);
  /** Names of built-in functions, as the grid's engine lists them. */
  const builtIn = new Set(
    Object.entries(gridWords)
      .filter(([name]) => name.startsWith('FUNCTION_NAMES_'))
      .flatMap(([, names]) => Object.values(names as Record<string, string>)),
  );

  it.each(ids)('%s is no cell, no single letter, and holds no dot', (id) => {
    expect(id).toMatch(/^[A-Z][A-Z0-9_]+$/);
    expect(id).not.toMatch(/^[A-Z]{1,3}[1-9]\d*$/);
    expect(id).not.toMatch(/^R\d*C\d*$/);
    expect(id.length).toBeGreaterThan(1);
  });

  it('none is a built-in function, with or without the namespace', () => {
    expect(builtIn.size).toBeGreaterThan(400);
    for (const id of ids)
      for (const name of [`${NAMESPACE}.${id}`, `${NAMESPACE}_${id}`])
        expect(builtIn.has(name), name).toBe(false);
    // A bond's PRICE is built in, too; the namespace keeps the two apart, and ids are for ever.
    expect(ids.filter((id) => builtIn.has(id))).toEqual(['PRICE']);
  });

  it('none becomes another when dots turn into underscores', () => {
    const saved = ids.map((id) => `${NAMESPACE}.${id}`.replaceAll('.', '_').toUpperCase());
    expect(new Set(saved).size).toBe(ids.length);
  });

  it('families share their first word', () => {
    const family = (id: string): string | undefined => notes[id as keyof typeof notes].family;
    for (const id of ids)
      for (const [prefix, name] of [
        ['BAG_', 'bag'],
        ['PAD_', 'gel-pad'],
        ['RULE_', 'rules'],
        ['PLAN_', 'plan'],
      ] as const)
        if (id.startsWith(prefix) && id !== 'RULE_OF_THUMB') expect(family(id)).toBe(name);
  });
});

describe('native twins', () => {
  it('are there for every function the catalogue ticks', () => {
    const ticked = Object.keys(ENTRIES).filter((id) => ENTRIES[id]!.native);
    expect(ticked.filter((id) => !(TWIN_IDS as string[]).includes(id))).toEqual([]);
    // one more than asked: the workbook reckons recharge dates with it
    expect(TWIN_IDS.filter((id) => !ticked.includes(id))).toEqual(['RECHARGE_DATE']);
  });

  it.each(TWIN_IDS)('%s takes the arguments of its function, units apart', (id) => {
    const names = ENTRIES[id]!.parameters.map((p) => p.name).filter((name) => name !== 'units');
    const own = twinArguments(id).map((each) => each.name);
    expect(own.map((name) => (name === 'draw' && id === 'RECHARGE_DATE' ? 'draws' : name))).toEqual(
      names,
    );
  });
});

describe('the entry of the runtime', () => {
  it('ties every id to its function', async () => {
    const associate = vi.fn();
    vi.stubGlobal('CustomFunctions', { associate });
    await import('../../src/functions/functions.js');
    vi.unstubAllGlobals();
    expect(associate.mock.calls).toEqual(Object.entries(FUNCTIONS));
  });
});
