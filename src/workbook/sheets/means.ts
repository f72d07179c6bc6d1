/** Means: every tree, like trees together, with every way of watering it; the chosen one marked. */
import type { MeansOutcome, TreePlan } from '../../engine/plan/model.js';
import { trunkUsed } from '../../engine/money/against-rules.js';
import { cell, formula, SheetDraft, type ModelCell, type TablePlace } from '../model.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

/** Trees with the same sizes, the same outcomes and the same choice. */
export interface LikeTrees {
  first: TreePlan;
  rows: number;
  trees: number;
}

/** Most rows of Means: more nobody reads, and every choice stands on Trees as well. */
export const MOST_MEANS_ROWS = 10_000;

export const CHOSEN = '✓ chosen';

const outcomeKey = (o: MeansOutcome): string =>
  `${o.label}|${o.feasible}|${o.waterings}|${o.litres}|${o.visits}|${o.stressDays}|${o.cost}|${o.verdict}`;

/** Groups in the order of the inventory. */
export function likeTrees(plans: readonly TreePlan[], zone: number): LikeTrees[] {
  const groups = new Map<string, LikeTrees>();
  // like trees often share one list of outcomes: it is spelt out once
  const spelt = new Map<MeansOutcome[], string>();
  for (const t of plans) {
    let outcomes = spelt.get(t.options);
    if (outcomes === undefined)
      spelt.set(t.options, (outcomes = t.options.map(outcomeKey).join('\n')));
    const key = `${trunkUsed(t, zone)}\n${outcomeKey(t.chosen)}\n${outcomes}`;
    const group = groups.get(key) ?? { first: t, rows: 0, trees: 0 };
    group.rows += 1;
    group.trees += t.tree.count;
    groups.set(key, group);
  }
  return [...groups.values()];
}

/** The groups that fit, those with most trees first where not all do; in the order they came. */
export function groupsShown(groups: readonly LikeTrees[], most: number): LikeTrees[] {
  const size = (g: LikeTrees): number => g.first.options.length;
  const total = groups.reduce((sum, g) => sum + size(g), 0);
  if (total <= most) return [...groups];
  const kept = new Set<LikeTrees>();
  let room = most;
  for (const g of [...groups].sort((a, b) => b.trees - a.trees)) {
    if (size(g) > room) break;
    room -= size(g);
    kept.add(g);
  }
  return groups.filter((g) => kept.has(g));
}

/** Number of the outcome that was chosen, or -1. */
const chosenAt = ({ options, chosen }: TreePlan): number => {
  const same = options.indexOf(chosen);
  if (same >= 0) return same;
  const key = outcomeKey(chosen);
  return options.findIndex((o) => outcomeKey(o) === key);
};

/** What is said of a means beside its numbers: the verdict, and for those not taken what they cost more. */
function remark(o: MeansOutcome, t: TreePlan, currency: string): string {
  const { chosen } = t;
  if (!o.feasible || o === chosen) return o.verdict;
  const more = o.cost - chosen.cost;
  const money = `${currency}${Math.abs(more).toFixed(2)}`;
  return `${o.verdict}; ${money} ${more >= 0 ? 'more' : 'less'}`;
}

export interface MeansRefs {
  place: TablePlace;
  /** every group is shown, so the chosen rows add up to the water of the season */
  complete: boolean;
  /** water of the chosen rows shown [L] */
  litres: number;
}

export function meansSheet(ctx: Context, most = MOST_MEANS_ROWS): Built<MeansRefs> {
  const { plan } = ctx;
  const gal = ctx.unit('volume');
  const money = plan.site.currency;
  const all = likeTrees(plan.trees, plan.site.zone);
  const groups = groupsShown(all, most);
  const complete = groups.length === all.length;
  const rows = groups.flatMap((group, g) => {
    const at = chosenAt(group.first);
    return group.first.options.map((outcome, i) => ({ group, g, outcome, chosen: i === at }));
  }); // prettier-ignore
  const draft = new SheetDraft('Means', 'Means');
  draft.text([
    cell('Means', 'title'),
    cell(
      'Every way of watering each tree, simulated day by day under the rules. The cheapest with no more stress days than accepted is chosen; if none, the one with the least stress.',
      'note',
    ),
    complete
      ? cell(`Like trees stand together: ${groups.length.toLocaleString('en-US')} groups.`, 'note')
      : cell(
          `▲ ${groups.length.toLocaleString('en-US')} of ${all.length.toLocaleString('en-US')} groups of like trees are shown, those with most trees; the choice for every row stands on Trees.`,
          'look',
        ),
  ]);
  draft.skip();
  const place = draft.table(
    'Means',
    [
      { key: 'group', header: 'Group', width: 8, style: 'calculation', format: 'whole' },
      { key: 'like', header: 'Tree, + rows like it', width: 26, wrap: true },
      { key: 'count', header: 'Number of trees', width: 9, style: 'calculation', format: 'whole' },
      { key: 'trunk', header: `Trunk (${ctx.unit('trunk')})`, width: 8, style: 'calculation', format: 'one' },
      { key: 'means', header: 'Means', width: 28, wrap: true },
      { key: 'mark', header: 'Choice', width: 11, style: 'result' },
      { key: 'waterings', header: 'Waterings', width: 11, style: 'calculation', format: 'whole' },
      { key: 'visits', header: 'Visits', width: 8, style: 'calculation', format: 'whole' },
      { key: 'each', header: `One tree (${gal})`, width: 10, style: 'calculation', format: 'whole' },
      { key: 'volume', header: `All (${gal})`, width: 10, style: 'calculation', format: 'whole' },
      { key: 'stress', header: 'Stress days', width: 9, style: 'calculation', format: 'whole' },
      { key: 'cost', header: `Cost (${money} a tree)`, width: 11, style: 'calculation', format: 'two' },
      { key: 'costAll', header: `Cost, all (${money})`, width: 12, style: 'calculation', format: 'two' },
      { key: 'verdict', header: 'Verdict; cost of a tree against the chosen', width: 52, wrap: true, style: 'note' },
    ],
    rows.length,
    (i, at): ModelCell[] => {
      const { group, g, outcome: o, chosen } = rows[i]!;
      const { first, rows: like, trees } = group;
      const name = [first.tree.id, first.tree.species].filter(Boolean).join(' ');
      const others = like > 1 ? `, +${(like - 1).toLocaleString('en-US')}` : '';
      const text = (value: string): ModelCell => (chosen ? cell(value, 'result') : value);
      const number = (value: number): ModelCell => (o.feasible ? value : null);
      const product = (key: string, value: number): ModelCell =>
        o.feasible ? formula(`${at.here(key, i)}*${at.here('count', i)}`, value) : null;
      const each = ctx.show('volume', o.litres);
      return [
        g + 1,
        `${name}${others}`,
        trees,
        ctx.show('trunk', trunkUsed(first, plan.site.zone)),
        text(o.label),
        chosen ? CHOSEN : null,
        number(o.waterings),
        number(o.visits),
        number(each),
        product('each', each * trees),
        number(o.stressDays),
        number(o.cost),
        product('cost', o.cost * trees),
        remark(o, first, money),
      ];
    },
  ); // prettier-ignore
  draft.freeze(place.headerRow, 2).repeat(place.headerRow, place.headerRow);
  const litres = groups.reduce((sum, g) => sum + g.first.chosen.litres * g.trees, 0);
  return { sheet: draft.done(), refs: { place, complete, litres } };
}
