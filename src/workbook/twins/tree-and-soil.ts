/** Twins of the functions about trees, soil and intervals. */
import { need, option, type Twin } from './parts.js';

export const TREE_AND_SOIL_TWINS = {
  TREE_DEMAND: {
    args: [...need('et0', 'canopy'), option('plant_factor', '0.5'), option('site_factor', '1')],
    formula: (a, f) =>
      `${a['et0']}*${f.depth}*${a['plant_factor']}*${a['site_factor']}*PI()/4*(${a['canopy']}*${f.canopy})^2/${f.volume}`,
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
