/** The draft kept in a workbook. Common practice, no source. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  draftFrom,
  draftFromSiteFile,
  draftText,
  emptyDraft,
  inUnits,
} from '../../src/taskpane/draft.js';
import { readSite } from '../../src/tables/site.js';
import { SITE_INPUTS } from '../../src/tables/site-inputs.js';
import { setupFromJson } from '../../src/workbook/setup.js';

describe('a draft', () => {
  it('comes back from its text; corrections are kept elsewhere', () => {
    const draft = {
      ...emptyDraft(),
      units: 'SI' as const,
      crewLanguage: 'both' as const,
      corrections: { Tag: 'id' },
      site: { latitude: 33.4, seasonFrom: '2027-04-01' },
      kit: [['Device', 'Family'], ['b', 'bag']],
      starter: 'x',
    }; // prettier-ignore
    expect(draftFrom(draftText(draft))).toEqual({ ...draft, corrections: {} });
  });

  it.each([
    ['not json', 'they are no JSON'],
    ['[]', 'they are no object'],
    ['{"units":"US","crewLanguage":"fr","site":{},"starter":""}', 'crew language'],
    ['{"units":"US","crewLanguage":"en","site":{"latitud":1},"starter":""}', 'site, latitud'],
    ['{"units":"US","crewLanguage":"en","site":{},"starter":"","kit":[{}]}', 'kit'],
  ])('text that is none of ours is refused, naming the part: %s', (text, part) => {
    expect(() => draftFrom(text)).toThrow(`cannot be read (${part})`);
  });

  it('keeps its quantities when the units change, there and back', () => {
    const draft = { ...emptyDraft(), site: { elevation: 1000, driveKmh: 25, zone: 9, name: 'x' } };
    const metric = inUnits(draft, 'SI');
    expect(metric.site.elevation).toBeCloseTo(304.8, 6);
    expect(metric.site.driveKmh).toBeCloseTo(40.2336, 6);
    expect([metric.site.zone, metric.site.name]).toEqual([9, 'x']);
    expect(inUnits(metric, 'US').site).toEqual(draft.site);
  });

  it('of the sample’s site file is the site the command line reads from it', () => {
    const given: unknown = JSON.parse(readFileSync('sample-workbooks/site.json', 'utf8'));
    const { site } = draftFromSiteFile(given, 'US');
    const rows = SITE_INPUTS.filter(({ key }) => key in site).map((input) => [
      input.name,
      site[input.key] ?? null,
      input.unitUS,
    ]);
    const read = readSite(rows);
    const wanted = setupFromJson(given).setup.site!;
    expect(read.problems).toEqual([]);
    for (const [key, value] of Object.entries(wanted))
      if (typeof value === 'number') expect(read.site[key as 'zone'], key).toBeCloseTo(value, 6);
      else expect(read.site[key as 'zone'], key).toEqual(value);
  });
});
