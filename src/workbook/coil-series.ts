/** Soaker hoses of a plan as drawings: one for every size in use. */
import { joinedFor } from '../engine/plan/choose-means.js';
import type { Device, TreePlan } from '../engine/plan/model.js';
import { trunkUsed } from '../engine/money/against-rules.js';
import { coilDrawing, coilTitle, COIL_WORDS } from './coil-diagram.js';
import type { SeriesSource } from './series.js';
import type { CoilFacts, CoilSeries } from './series-types.js';

const squareMetres = (diameter: number): number => (Math.PI / 4) * diameter * diameter;

/** A hose of the kit in the number in which trees get it. */
interface CoilInUse {
  device: Device;
  joined: number;
  plans: TreePlan[];
}

function coilsInUse({ plan, kit }: SeriesSource): CoilInUse[] {
  const soakers = new Map(kit.filter((d) => d.family === 'soaker').map((d) => [d.name, d]));
  const found = new Map<string, CoilInUse>();
  for (const t of plan.trees)
    for (const name of t.chosen.devices) {
      const device = soakers.get(name);
      if (!device) continue;
      const caliper = t.tree.caliper ?? t.facts.ballDiameter / 12;
      const joined = joinedFor(device, caliper, squareMetres(t.facts.establishedDiameter));
      const key = `${joined} ${name}`;
      const use = found.get(key) ?? { device, joined, plans: [] };
      use.plans.push(t);
      found.set(key, use);
    }
  return [...found.values()].sort((a, b) => lengthOf(a) - lengthOf(b));
}

const lengthOf = ({ device, joined }: CoilInUse): number => (device.length ?? 0) * joined;

/** The tree in the middle by its dripline stands for all. */
function typical(plans: readonly TreePlan[]): TreePlan {
  const sorted = [...plans].sort((a, b) => a.facts.canopy - b.facts.canopy || a.tree.row - b.tree.row); // prettier-ignore
  return sorted[Math.floor((sorted.length - 1) / 2)]!;
}

function factsOf(use: CoilInUse, { plan, units }: SeriesSource): CoilFacts {
  const t = typical(use.plans);
  return {
    device: use.device.name,
    joined: use.joined,
    units,
    trees: use.plans.reduce((sum, { tree }) => sum + tree.count, 0),
    id: t.tree.id,
    stem: trunkUsed(t, plan.site.zone),
    ball: t.facts.ballDiameter,
    canopy: t.facts.canopy,
    length: lengthOf(use),
  };
}

/** Every hose size of the kit that the plan uses, shortest first, each round the middle one of its trees, to scale. */
export function coilSeries(source: SeriesSource): CoilSeries[] {
  return coilsInUse(source).map((use) => {
    const facts = factsOf(use, source);
    const { svg, alt } = coilDrawing(facts, COIL_WORDS.en);
    return { name: coilTitle(facts, COIL_WORDS.en), svg, alt, facts };
  });
}
