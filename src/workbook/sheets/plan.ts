/** Plan: one row a watering, in the order of days. */
import { WEEKDAYS, weekday, type Day } from '../../engine/dates.js';
import type { TreePlan, Watering } from '../../engine/plan/model.js';
import {
  cell,
  formula,
  SheetDraft,
  type ColumnSpec,
  type ModelCell,
  type TablePlace,
} from '../model.js';
import { joinKey, type Context } from './context.js';
import type { Built } from './inputs.js';

interface Event {
  day: Day;
  site: string;
  address: string;
  tree: string;
  species: string;
  count: number;
  /** rows of the inventory joined here, and the row itself where there is one */
  rows: number;
  row: number | null;
  device: string;
  family: string;
  hours: string;
  /** the part of them within the crew's day, where a person does it */
  within: string;
  litres: number; // all trees [L]
  minutes: number; // one tree, the longest [min]
  cycles: number;
  visit: string;
  why: string;
}

const event = (t: TreePlan, w: Watering, i: number): Event => ({
  day: w.day,
  site: t.tree.site,
  address: t.tree.address,
  tree: t.tree.id,
  species: t.tree.species,
  count: t.tree.count,
  rows: 1,
  row: t.tree.row,
  device: w.device,
  family: w.family,
  hours: w.hours,
  within: w.within ?? '',
  litres: w.litres * t.tree.count,
  minutes: w.minutes,
  cycles: w.cycles,
  visit: `${i + 1} of ${t.chosen.plan.length}`,
  why: w.why,
});

const collator = new Intl.Collator('en', { numeric: true });

/** All waterings; like ones of a site and day joined when there are too many for a sheet. */
export function events(ctx: Context): Event[] {
  const out: Event[] = [];
  const groups = new Map<string, Event>();
  for (const t of ctx.plan.trees)
    t.chosen.plan.forEach((w, i) => {
      const one = event(t, w, i);
      if (ctx.joined === 'no') {
        out.push(one);
        return;
      }
      const key = `${one.day}${joinKey(ctx.joined, one.site, one.device, one.hours)}`;
      const group = groups.get(key);
      if (!group) {
        groups.set(key, one);
        return;
      }
      group.rows += 1;
      group.count += one.count;
      group.litres += one.litres;
      group.minutes = Math.max(group.minutes, one.minutes);
      group.cycles = Math.max(group.cycles, one.cycles);
      group.tree = `${group.rows} rows`;
      group.row = null;
      group.species = '';
      group.visit = '';
      if (group.site !== one.site) {
        group.site = 'several sites';
        group.address = '';
      }
      group.why = 'joined: see the trees of the site on Trees';
    });
  const all = ctx.joined === 'no' ? out : [...groups.values()];
  return all.sort(
    (a, b) => a.day - b.day || collator.compare(a.site, b.site) || collator.compare(a.tree, b.tree),
  );
}

export function planSheet(ctx: Context): Built<{ place: TablePlace; rows: number }> {
  const all = events(ctx);
  const gal = ctx.unit('volume');
  const draft = new SheetDraft('Plan', 'Plan');
  draft.text([
    cell('Plan', 'title'),
    cell(
      ctx.joined !== 'no'
        ? `So many waterings that those of one ${ctx.joined === 'by site' ? 'site, day' : 'day'} and means are joined into one row.`
        : 'One row a watering. Gallons are what leaves the hose, before losses.'.replace(
            'Gallons',
            ctx.units === 'US' ? 'Gallons' : 'Litres',
          ),
      ctx.joined === 'no' ? 'note' : 'look',
    ),
  ]);
  draft.skip();
  const columns: ColumnSpec[] = [
    { key: 'date', header: 'Date', width: 12, style: 'result', format: 'date' },
    { key: 'weekday', header: 'Day', width: 6 },
    { key: 'hours', header: 'Allowed hours', width: 16, wrap: true },
    { key: 'within', header: 'Within crew day', width: 14, wrap: true },
    { key: 'site', header: 'Site', width: 20, wrap: true },
    { key: 'tree', header: 'Tree', width: 12 },
    { key: 'species', header: 'Species', width: 22, wrap: true },
    { key: 'count', header: 'Trees', width: 7, format: 'whole' },
    { key: 'device', header: 'Means', width: 20, style: 'result', wrap: true },
    { key: 'by', header: 'By', width: 7 },
    { key: 'each', header: `Each (${gal})`, width: 9, style: 'calculation', format: 'one' },
    { key: 'volume', header: `All (${gal})`, width: 10, style: 'result', format: 'one' },
    { key: 'minutes', header: 'Runs (min)', width: 8, style: 'calculation', format: 'whole' },
    { key: 'cycles', header: 'Cycles', width: 7, format: 'whole' },
    { key: 'visit', header: 'Visit', width: 10 },
    { key: 'row', header: 'Row', width: 7, format: 'whole' },
    { key: 'why', header: 'Why this day', width: 58, wrap: true, style: 'note' },
  ];
  const withFormula = all.length <= 20_000;
  const place = draft.table('Plan', columns, all.length, (i, at): ModelCell[] => {
    const e = all[i]!;
    const volume = ctx.show('volume', e.litres);
    return [
      e.day,
      WEEKDAYS[weekday(e.day)]!,
      e.hours,
      e.within,
      e.site,
      e.tree,
      e.species,
      e.count,
      e.device,
      ctx.automatic(e.device) ? 'timer' : 'crew',
      ctx.show('volume', e.litres / e.count),
      withFormula ? formula(`${at.here('each', i)}*${at.here('count', i)}`, volume) : volume,
      e.minutes,
      e.cycles,
      e.visit,
      e.row,
      e.why,
    ];
  });
  draft.freeze(place.headerRow, 1).repeat(place.headerRow, place.headerRow);
  return { sheet: draft.done(), refs: { place, rows: all.length } };
}
