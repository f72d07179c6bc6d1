import { beforeAll, describe, expect, it } from 'vitest';
import { rasterise } from '../../src/cli/rasterise.js';
import { coilDiameter, coiledArea, coilLength, COIL_SPACING } from '../../src/engine/means/soaker-hose.js'; // prettier-ignore
import { Problem } from '../../src/engine/problems.js';
import { M_PER_FOOT, MM_PER_INCH } from '../../src/engine/units.js';
import { coilDrawing, coilShape, coilTitle, COIL_WORDS } from '../../src/workbook/coil-diagram.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { coilSeries, seriesSource } from '../../src/workbook/series.js';
import type { CoilFacts } from '../../src/workbook/series-types.js';
import { sampleJob } from './job.js';

const FACTS: CoilFacts = {
  device: 'hose', joined: 2, units: 'US', trees: 3, id: 'T-7', stem: 3 * MM_PER_INCH, ball: 32 * MM_PER_INCH,
  canopy: 14 * M_PER_FOOT, length: 80 * M_PER_FOOT,
}; // prettier-ignore
const draw = (more: Partial<CoilFacts> = {}): ReturnType<typeof coilDrawing> =>
  coilDrawing({ ...FACTS, ...more }, COIL_WORDS.en);

/** An attribute of the first element of a class. */
function attribute(svg: string, kind: string, name: string): string {
  const tag = new RegExp(`<\\w+ [^>]*class="${kind}"[^>]*>`).exec(
    svg.slice(svg.indexOf('translate(0')),
  )?.[0];
  const value = new RegExp(` ${name}="([^"]*)"`).exec(tag ?? '')?.[1];
  if (value === undefined) throw new Error(`no ${name} of ${kind}`);
  return value;
}
const radius = (svg: string, kind: string): number => Number(attribute(svg, kind, 'r'));
const pointsOf = (path: string): [number, number][] =>
  path.slice(1).split(' L').map((p) => p.split(',').map(Number) as [number, number]); // prettier-ignore
const lengthOf = (points: [number, number][]): number =>
  points.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - points[i]![0], y - points[i]![1]), 0); // prettier-ignore

describe('the drawing of a coil', () => {
  it('is to scale: stem, ball, dripline, hose, wetted strip and scale bar share one scale', () => {
    for (const facts of [FACTS, { ...FACTS, canopy: 1.2, length: 12.192, joined: 1 }, { ...FACTS, units: 'SI' as const, canopy: 9 }]) {
      const { svg, inner, outer } = coilDrawing(facts, COIL_WORDS.en);
      const scale = (2 * radius(svg, 'coil-dripline')) / facts.canopy;
      expect((2 * radius(svg, 'coil-ball')) / scale).toBeCloseTo(facts.ball / 1000, 2);
      expect((2 * radius(svg, 'coil-stem')) / scale).toBeCloseTo(facts.stem / 1000, 2);
      const hose = pointsOf(attribute(svg, 'coil-hose', 'd'));
      expect(lengthOf(hose) / scale / facts.length).toBeCloseTo(1, 2);
      expect(Number(attribute(svg, 'coil-wet', 'stroke-width')) / scale).toBeCloseTo(COIL_SPACING, 1);
      expect(coilLength(inner, outer, COIL_SPACING)).toBeCloseTo(facts.length, 9);
      const bar = pointsOf(attribute(svg, 'coil-scale', 'd'));
      const said = />([\d.]+) (ft|m)<\/text><\/g>/.exec(svg)!;
      const metres = Number(said[1]) * (said[2] === 'ft' ? M_PER_FOOT : 1);
      expect((bar[2]![0] - bar[1]![0]) / scale / metres).toBeCloseTo(1, 2);
    }
  }); // prettier-ignore

  it('begins half a spacing from the bark and wets the strip the planner counts with', () => {
    const { inner, wet } = coilShape(FACTS);
    expect((inner - COIL_SPACING) / 2).toBeCloseTo(FACTS.stem / 2000, 12);
    expect(wet).toBe(coiledArea(FACTS.length));
  });

  it('marks where one hose ends and the next begins', () => {
    const { svg, inner } = draw({ joined: 4 });
    const plan = svg.slice(0, svg.indexOf('coil-scale'));
    const joints = [...plan.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="4" class="coil-joint"/g)].map((m) => Math.hypot(Number(m[1]) - 180, Number(m[2]) - 180)); // prettier-ignore
    const scale = (2 * radius(svg, 'coil-dripline')) / FACTS.canopy;
    expect(joints).toHaveLength(3);
    joints.forEach((from, i) => {
      const across = coilDiameter((FACTS.length * (i + 1)) / 4, inner, COIL_SPACING);
      expect((2 * from) / scale).toBeCloseTo(across, 1);
    });
    expect(draw({ joined: 1 }).svg).not.toContain('coil-joint');
  });

  it('says in its title whether the coil stays under the dripline', () => {
    expect(coilTitle(FACTS, COIL_WORDS.en)).toBe(
      '2 hoses of 40 ft wet 80 ft² of the 154 ft² under the dripline',
    );
    const { outer } = coilShape({ ...FACTS, canopy: 2 });
    const past = ((outer + COIL_SPACING - 2) / 2 / M_PER_FOOT).toFixed(1).replace(/\.0$/, '');
    expect(coilTitle({ ...FACTS, canopy: 2 }, COIL_WORDS.en)).toBe(
      `2 hoses of 40 ft wet 80 ft², to ${past} ft beyond the dripline`,
    );
    expect(coilTitle({ ...FACTS, joined: 1, units: 'SI', length: 12 }, COIL_WORDS.es)).toMatch(
      /^Una manguera de 12 m moja 3.7 m² de los 14 m² bajo la copa$/,
    );
  });

  it('gives its numbers in the text for people who do not see it', () => {
    const { alt, turns } = draw();
    for (const words of ['tree T-7', '3 trees', 'stem, 3 in', 'ball edge, 32 in', 'dripline, 14 ft', '2 of 40 ft', 'turns 12 in apart', `${turns.toFixed(1)} turns`, '80 ft²'])
      expect(alt).toContain(words);
  }); // prettier-ignore

  it('tells its lines apart without colour: no two have the same weight and dash', () => {
    const { svg } = draw();
    const looks = ['coil-ball', 'coil-dripline', 'coil-hose'].map((kind) => {
      const tag = new RegExp(`class="${kind}"[^>]*`).exec(svg)![0];
      return `${/stroke-width="([^"]*)"/.exec(tag)![1]} ${/stroke-dasharray="([^"]*)"/.exec(tag)?.[1]}`;
    });
    expect(new Set(looks).size).toBe(looks.length);
  });

  it('takes names as text, never as markup', () => {
    const { svg } = draw({ id: '<b>&"T"', trees: 1 });
    expect(svg).toContain('&lt;b&gt;&amp;&quot;T&quot;');
    expect(svg).not.toContain('<b>');
    expect(svg).not.toMatch(/<(script|style|image|use|foreignObject)|href=|url\(/i);
  });

  it('refuses sizes that are none, naming them', () => {
    for (const bad of [{ length: 0 }, { ball: NaN }, { stem: -1 }, { canopy: Infinity }, { stem: 900 }])
      expect(() => draw(bad)).toThrow(Problem);
    expect(() => draw({ length: 0 })).toThrow('length is 0; a number above 0 is accepted');
  }); // prettier-ignore
});

describe('coils of a plan', () => {
  let job: PlanJob;
  beforeAll(async () => {
    job = await sampleJob();
  });

  it('are one for each hose size in use, with the trees that get it', () => {
    const coils = coilSeries(seriesSource(job, 'US'));
    const labels = new Map<string, number>();
    for (const { tree, chosen } of job.plan.trees)
      if (chosen.families.includes('soaker'))
        labels.set(chosen.label, (labels.get(chosen.label) ?? 0) + tree.count);
    expect(coils.map(({ facts }) => [facts.joined === 1 ? 'soaker hose' : `${facts.joined} soaker hoses`, facts.trees])).toEqual(
      expect.arrayContaining([...labels]),
    );
    expect(coils).toHaveLength(labels.size);
    expect(coils.length).toBeGreaterThan(1);
    for (const { facts, svg } of coils) {
      expect(facts.length).toBeCloseTo(facts.joined * 40 * M_PER_FOOT, 9);
      expect(svg).toContain(facts.id);
    }
  }); // prettier-ignore

  it('are none where no tree gets a hose', () => {
    const plan = { ...job.plan, trees: job.plan.trees.filter((t) => !t.chosen.families.includes('soaker')) }; // prettier-ignore
    expect(coilSeries(seriesSource({ ...job, plan }, 'US'))).toEqual([]);
  });
});

describe('the rasteriser of the command line', () => {
  const size = (png: Uint8Array): [number, number] => {
    const view = new DataView(png.buffer, png.byteOffset);
    return [view.getUint32(16), view.getUint32(20)];
  };

  it('makes a PNG of the width asked for, the same bytes every time', async () => {
    const { svg, width, height } = draw();
    const png = await rasterise(svg, 2 * width);
    expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    expect(size(png)).toEqual([2 * width, 2 * height]);
    expect(await rasterise(svg, 2 * width)).toEqual(png);
  });

  it('draws the words: without them the picture is another', async () => {
    const { svg } = draw();
    const silent = svg.replace(/<text.*?<\/text>/g, '');
    const [spoken, mute] = [await rasterise(svg, 720), await rasterise(silent, 720)];
    expect(spoken.length).toBeGreaterThan(mute.length * 1.1);
  });

  it('refuses what is no SVG, and widths that are none', async () => {
    await expect(rasterise('<p>no drawing</p>', 100)).rejects.toThrow(/a picture cannot be drawn/);
    for (const width of [0, 1.5, NaN, 9000])
      await expect(rasterise(draw().svg, width)).rejects.toThrow(Problem);
  });
});
