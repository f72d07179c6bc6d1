/** functions.json, the functions and the design's catalogue say the same. */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, vi } from 'vitest';
import { FUNCTIONS } from '../../src/functions/index.js';
import metadata from '../../src/generated/functions.json' with { type: 'json' };
import notes from '../../src/generated/function-notes.json' with { type: 'json' };
import { CATALOGUE } from './catalogue.js';

interface Described {
  id: string;
  name: string;
  description: string;
  parameters: {
    name: string;
    description: string;
    optional?: boolean;
    type: string;
    dimensionality?: string;
  }[];
}
const described = metadata.functions as Described[];
const byId = new Map(described.map((each) => [each.id, each]));
const PLAN_TOTALS = ['trees', 'site', 'weather', 'rules', 'kit', '[stages]'];
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

  it.each([
    ...Object.entries(CATALOGUE).map(
      ([id, ps]) => [id, ps.map((p) => (p.optional ? `[${p.name}]` : p.name))] as const,
    ),
    ['PLAN_TOTALS', PLAN_TOTALS] as const,
  ])('%s has the parameters of the catalogue', (id, parameters) => {
    const each = byId.get(id);
    expect(each?.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name))).toEqual(parameters);
    expect(each?.name).toBe(id);
  });

  it('asks for ranges only where a range is meant', () => {
    const ranges = described.flatMap((each) =>
      each.parameters
        .filter((p) => p.dimensionality === 'matrix')
        .map((p) => `${each.id} ${p.name}`),
    );
    expect(ranges).toEqual([
      ...PLAN_TOTALS.map((name) => `PLAN_TOTALS ${name.replace(/[[\]]/g, '')}`),
      'RECHARGE_DATE draws',
    ]);
  });

  it('says the unit of every parameter, and the default of every optional one', () => {
    const unit = / \| |no unit|degrees|a date|hours|minutes|MJ\/m²|header row/;
    for (const each of described)
      for (const p of each.parameters) {
        expect(p.description, `${each.id} ${p.name}`).toMatch(unit);
        if (p.optional) expect(p.description, `${each.id} ${p.name}`).toMatch(/default/);
      }
  });

  it('has an equation, a range and a source for every function', () => {
    expect(Object.keys(notes)).toEqual(described.map((each) => each.id));
  });
});

describe('ids', () => {
  it.each(Object.keys(FUNCTIONS))('%s is no cell, no single letter, and holds no dot', (id) => {
    expect(id).toMatch(/^[A-Z][A-Z0-9_]+$/);
    expect(id).not.toMatch(/^[A-Z]{1,3}[1-9]\d*$/);
    expect(id).not.toMatch(/^R\d*C\d*$/);
    expect(id.length).toBeGreaterThan(1);
  });

  it('families share their first word', () => {
    const family = (id: string): string | undefined => notes[id as keyof typeof notes].family;
    for (const id of Object.keys(FUNCTIONS).filter((each) => each.startsWith('BAG_')))
      expect(family(id)).toBe('bag');
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
