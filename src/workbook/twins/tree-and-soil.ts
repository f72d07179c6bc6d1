/** Twins of the functions about trees, soil and intervals. */
import { ESTABLISHMENT } from '../../engine/tree/establishment.js';
import { DEPTH_SHARES } from '../../engine/tree/stock-sizes.js';
import { M_PER_FOOT, MM_PER_INCH } from '../../engine/units.js';
import { metres, need, option, type Twin } from './parts.js';

/** Nested IFs: the value of the first row whose test holds, else that of the last row. */
const firstOf = (rows: readonly (readonly [test: string, value: number])[]): string =>
  rows.reduceRight(
    (rest, [test, value]) => (rest === '' ? String(value) : `IF(${test},${value},${rest})`),
    '',
  );

export const TREE_AND_SOIL_TWINS = {
  TREE_DEMAND: {
    args: [...need('et0', 'canopy'), option('plant_factor', '0.5'), option('site_factor', '1')],
    formula: (a, f) =>
      `${a['et0']}*${f.depth}*${a['plant_factor']}*${a['site_factor']}*PI()/4*(${a['canopy']}*${f.canopy})^2/${f.volume}`,
  },
  BALL_DEPTH: {
    args: need('ball_diameter'),
    formula: (a, f) => {
      const inches = `${a['ball_diameter']}*${f.ball}/${MM_PER_INCH}`;
      const share = DEPTH_SHARES.map(([below, each]) => [`${inches}<${below}`, each] as const);
      return `${a['ball_diameter']}*${firstOf(share)}`;
    },
  },
  ROOT_MONTHS: {
    args: need('caliper', 'zone'),
    formula: (a, f) => {
      const months = ESTABLISHMENT.map(
        (band) => [`${a['zone']}>=${band.from}`, band.months] as const,
      );
      return `${a['caliper']}*${f.ball}/${MM_PER_INCH}*${firstOf(months)}`;
    },
  },
  ROOT_SPREAD: {
    args: [
      ...need('ball_diameter', 'canopy', 'months', 'months_to_establish'),
      option('reach', '1'),
    ],
    formula: (a, f) => {
      const ball = `${metres(a['ball_diameter']!, f.ball)}/${f.canopy}`;
      const share = `MIN(1,${a['months']}/${a['months_to_establish']})`;
      return `${ball}+MAX(0,${a['reach']}*${a['canopy']}-${ball})*${share}`;
    },
  },
  DEPLETION: {
    args: need('base', 'etc'),
    formula: (a, f) => `MIN(0.8,MAX(0.1,${a['base']}+0.04*(5-${a['etc']}*${f.depth})))`,
  },
  STRESS: {
    args: need('depleted', 'total', 'depletion'),
    formula: (a) =>
      `MIN(1,MAX(0,(${a['total']}-${a['depleted']})/((1-${a['depletion']})*${a['total']})))`,
  },
  MULCH_VOLUME: {
    // 0 is a blank cell, as in the function: 1 ft kept clear in both unit systems
    args: [...need('outer_diameter', 'depth'), option('clear_diameter', '0')],
    formula: (a, f) => {
      const outer = `(${a['outer_diameter']}*${f.canopy})`;
      const clear = `IF(${a['clear_diameter']}=0,${M_PER_FOOT},${a['clear_diameter']}*${f.canopy})`;
      return `PI()/4*(${outer}^2-${clear}^2)*${metres(a['depth']!, f.ball)}/${f.heap}`;
    },
  },
  ROOTZONE_VOLUME: {
    args: [...need('diameter', 'depth', 'available'), option('depletion', '0.5')],
    formula: (a, f) =>
      `PI()/4*(${a['diameter']}*${f.ball})^2*${a['depth']}*${f.ball}/1000000*${a['available']}*${a['depletion']}/${f.volume}`,
  },
  INTERVAL: {
    args: [...need('volume', 'demand'), option('rain', '0')],
    formula: (a) =>
      `IF(${a['rain']}>=${a['demand']},NA(),${a['volume']}/(${a['demand']}-${a['rain']}))`,
  },
} satisfies Record<string, Twin>;
