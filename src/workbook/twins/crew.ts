/** Twins of the functions about crews and money. */
import { option, need, type Twin } from './parts.js';

export const CREW_TWINS = {
  TANK_LOADS: {
    args: [...need('volume', 'tank'), option('usable', '0.9')],
    // a volume of exactly n loads must not become n + 1 through rounding
    formula: (a) => `ROUNDUP(MAX(0,${a['volume']}/(${a['usable']}*${a['tank']})-0.000000001),0)`,
  },
  STOP_MINUTES: {
    args: [...need('volume', 'flow'), option('setup', '4')],
    formula: (a) => `${a['setup']}+${a['volume']}/${a['flow']}`,
  },
  PRICE: {
    args: need('cost', 'margin'),
    formula: (a) => `${a['cost']}/(1-${a['margin']})`,
  },
} satisfies Record<string, Twin>;
