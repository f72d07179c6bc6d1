/** Twins of the functions about bags and gel pads. */
import { GRAVITY } from '../../engine/units.js';
import { metres, need, option, type Twin } from './parts.js';

/** Area of a hole of a bag times speed under the full head, without the head: n·Cd·√(2g). */
const discharge = (a: Record<string, string>): string =>
  `(${a['holes']}*${a['discharge']}*SQRT(2*${GRAVITY}))`;

export const BAG_AND_PAD_TWINS = {
  BAG_HOURS: {
    args: [
      ...need('volume', 'holes', 'hole', 'depth'),
      option('discharge', '0.62'),
      option('left', '0'),
    ],
    formula: (a, f) => {
      const head = metres(a['depth']!, f.ball);
      const floor = `(${a['volume']}*${f.volume}/1000/${head})`;
      const hole = `(PI()/4*${metres(a['hole']!, f.inch)}^2)`;
      return `2*${floor}/(${discharge(a)}*${hole})*(SQRT(${head})-SQRT(${head}*${a['left']}/${a['volume']}))/3600`;
    },
  },
  BAG_LEFT: {
    args: [...need('volume', 'hours', 'holes', 'hole', 'depth'), option('discharge', '0.62')],
    formula: (a, f) => {
      const head = metres(a['depth']!, f.ball);
      const floor = `(${a['volume']}*${f.volume}/1000/${head})`;
      const hole = `(PI()/4*${metres(a['hole']!, f.inch)}^2)`;
      const full = `(2*${floor}/(${discharge(a)}*${hole})*SQRT(${head})/3600)`;
      return `${a['volume']}*MAX(0,1-${a['hours']}/${full})^2`;
    },
  },
  BAG_HOLE: {
    args: [...need('volume', 'holes', 'hours', 'depth'), option('discharge', '0.62')],
    formula: (a, f) => {
      const head = metres(a['depth']!, f.ball);
      const floor = `(${a['volume']}*${f.volume}/1000/${head})`;
      return `SQRT(4/PI()*2*${floor}*SQRT(${head})/(${discharge(a)}*${a['hours']}*3600))*1000/${f.inch}`;
    },
  },
  BAG_OPEN_HOLES: {
    args: [...need('holes', 'rated_hours', 'hours'), option('left', '0')],
    formula: (a) => `${a['holes']}*${a['rated_hours']}*(1-SQRT(${a['left']}))/${a['hours']}`,
  },
  WATER_WEIGHT: {
    args: need('volume'),
    formula: (a, f) => `${a['volume']}*${f.volume}/${f.weight}`,
  },
  PAD_VOLUME: {
    args: [...need('saturated', 'dry'), option('usable', '0.9')],
    formula: (a, f) => `(${a['saturated']}-${a['dry']})*${f.weight}*${a['usable']}/${f.volume}`,
  },
  PAD_CHARGED: {
    args: [...need('volume', 'hours'), option('half_time', '2')],
    formula: (a) => `${a['volume']}*(1-2^(0-${a['hours']}/${a['half_time']}))`,
  },
  PAD_DAYS: {
    args: [...need('volume', 'draw'), option('reserve', '0.1')],
    formula: (a) => `${a['volume']}*(1-${a['reserve']})/${a['draw']}`,
  },
  RECHARGE_DATE: {
    args: [...need('charged', 'volume', 'draw'), option('reserve', '0.1')],
    formula: (a) =>
      `${a['charged']}+ROUNDUP(ROUND(${a['volume']}*(1-${a['reserve']})/${a['draw']},9),0)`,
  },
} satisfies Record<string, Twin>;
