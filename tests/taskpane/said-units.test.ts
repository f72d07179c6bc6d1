/** Who chose US units is told nothing in metric ones alone, and the other way round. Common practice, no source. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Units } from '../../src/engine/units.js';
import { SITE_INPUTS } from '../../src/tables/site-inputs.js';
import { kitRows } from '../../src/tables/kit.js';
import { weatherRows } from '../../src/tables/weather.js';
import { DRAFT, freshRoom, table } from './said/room.js';

const METRIC = /\d (mm|cm|m|L|m³|km\/h|L\/min|L\/h)(?![\w/])|per m³/;
const US = /\d (in|ft|gal|mph|gpm)(?![\w/])|per 1000 gal|per yd³/;
const CUSTOM: Readonly<Record<Units, string>> = {
  US: 'Tree ID | DBH (in) | Girth (in) | Canopy (ft) | Tap\n1 | | | | yes\n2 | 3000 | | | yes\n3 | 3 | 30 | 4 | 900 ft\n4 | 3 | 9.5 | 900 | no',
  SI: 'Tree ID | DBH (cm) | Girth (cm) | Canopy (m) | Tap\n1 | | | | yes\n2 | 3000 | | | yes\n3 | 30 | 300 | 4 | 900 m\n4 | 30 | 95 | 900 | no',
};
const said = new Map<Units, string[]>();

beforeAll(async () => {
  for (const units of ['US', 'SI'] as const) {
    const room = freshRoom();
    const site = Object.fromEntries(SITE_INPUTS.map(({ key }) => [key, key === 'name' ? 'x' : -1e12])); // prettier-ignore
    const kit = kitRows([], units);
    kit.push(['Bag', 'bag', ...kit[0]!.slice(2).map(() => 1e12)]);
    const weather = weatherRows([{ month: 4, et0: 900, rain: 10, share: 0.5 }], units);
    const draft = { ...DRAFT, units, site, kit, weather };
    const blocks = { ...DRAFT, units, site: { block1UpTo: 500, block2UpTo: 400 } };
    const { look, notes } = await room.read({ cells: table(CUSTOM[units]) }, draft);
    const report = await room.setup({ cells: [] }, draft);
    const block = await room.setup({ cells: [] }, blocks);
    said.set(units, [
      ...look.flatMap(({ reasons }) => reasons.map(({ sentence }) => sentence)),
      ...notes,
      ...[...report.site, ...block.site].map(({ trouble }) => trouble),
      ...report.kit.problems,
    ]);
  }
});

describe('limits that are said', () => {
  it('are many, with units', () => {
    for (const [units, own] of [
      ['US', US],
      ['SI', METRIC],
    ] as const)
      // prettier-ignore
      expect(said.get(units)!.filter((sentence) => own.test(sentence)).length).toBeGreaterThan(12);
  });
  it.each([
    ['US', METRIC],
    ['SI', US],
  ] as const)('are in the units chosen: %s', (units, other) => {
    expect(said.get(units)!.filter((sentence) => other.test(sentence))).toEqual([]);
  });
});
