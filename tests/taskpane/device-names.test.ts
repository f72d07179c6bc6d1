/** Names that go with the numbers of a device, and names that stay. Common practice, no source. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Family } from '../../src/engine/plan/model.js';
import { isDescription, nameAfter, type Described } from '../../src/taskpane/kit/device-names.js';
import { SIZE_OF } from '../../src/taskpane/kit/kit-cells.js';
import type { DeviceCells } from '../../src/taskpane/kit-table.js';

const device = (family: Family, size: number, unit: string, more: DeviceCells = {}): Described => ({
  family,
  cells: { family, [SIZE_OF[family]]: size, ...more },
  unit,
});
const after = (name: string, before: Described, now: Described, wanted = now.unit, others: string[] = []) =>
  nameAfter(name, before, now, wanted, 'en', others); // prettier-ignore

describe('a name that only describes the device', () => {
  it.each<[string, Described, Described, string]>([
    ['15 gal bag', device('bag', 15, 'gal'), device('bag', 20, 'gal'), '20 gal bag'],
    ['500 gal truck', device('tanker', 500, 'gal'), device('tanker', 300, 'gal'), '300 gal truck'],
    ['soaker, 40 ft on a timer', device('soaker', 40, 'ft', { automatic: 'yes' }), device('soaker', 50, 'ft', { automatic: 'yes' }), 'soaker, 50 ft on a timer'],
    ['soaker, 40 ft on a timer', device('soaker', 40, 'ft', { automatic: 'yes' }), device('soaker', 40, 'ft', { automatic: 'no' }), 'soaker, 40 ft'],
    ['bolsa de 15 gal', device('bag', 15, 'gal'), device('bag', 20, 'gal'), 'bolsa de 20 gal'],
    ['15 gal bag (2)', device('bag', 15, 'gal'), device('bag', 20, 'gal'), '20 gal bag'],
    // an example's name says nothing that is true of one's own
    ['example bag', device('bag', 15, 'gal'), device('bag', 15, 'gal', { stock: 40 }), '15 gal bag'],
    ['example soaker on a timer', device('soaker', 40, 'ft', { automatic: 'yes' }), device('soaker', 50, 'ft', { automatic: 'yes' }), '50 ft soaker hose on a timer'],
    // the sheet is metric, the person is not
    ['15 gal bag', device('bag', 56.78117676, 'L'), device('bag', 75.70823568, 'L'), '75.71 L bag'],
  ])('%s goes with it', (name, before, now, expected) => {
    expect(isDescription(name, before)).toBe(true);
    expect(after(name, before, now)).toBe(expected);
  }); // prettier-ignore

  it('is said in the units of the panel, whatever the sheet’s are', () => {
    expect(after('15 gal bag', device('bag', 56.78117676, 'L'), device('bag', 75.70823568, 'L'), 'gal')).toBe('20 gal bag'); // prettier-ignore
  });

  it('stays unlike the others', () => {
    const [before, now] = [device('bag', 15, 'gal'), device('bag', 20, 'gal')];
    expect(after('15 gal bag', before, now, 'gal', ['20 gal bag'])).toBe('20 gal bag (2)');
  });

  it('stays where the size does', () => {
    const [before, now] = [device('bag', 15, 'gal'), device('bag', 15, 'gal', { price: 30 })];
    expect(after('15 gal bag (2)', before, now, 'gal', ['15 gal bag'])).toBe('15 gal bag (2)');
  });
});

describe('a name of a person’s own', () => {
  it.each(['15 gal bag, north yard', 'the good bag', '20 gal bag', 'bag', 'our example bag', 'Example'])(
    '“%s” stays',
    (name) => {
      const [before, now] = [device('bag', 15, 'gal'), device('bag', 25, 'gal')];
      expect(isDescription(name, before)).toBe(false);
      expect(after(name, before, now)).toBe(name);
    },
  ); // prettier-ignore

  it('of any text without the device’s size stays, whatever changes', () => {
    fc.assert(
      fc.property(
        fc.string({ minLength: 1 }).filter((s) => s.trim() === s && !/15|example|\s\s/.test(s)),
        fc.integer({ min: 1, max: 500 }),
        (name, size) => {
          fc.pre(!/[\u200b\ufeff]|[^\S ]/.test(name));
          expect(after(name, device('bag', 15, 'gal'), device('bag', size, 'gal'))).toBe(name);
        },
      ),
    );
  });
});
