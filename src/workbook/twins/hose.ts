/** Twins of the functions about hoses and pipes. */
import { need, option, type Twin } from './parts.js';

/** Arc of the spiral r = bθ from its centre to θ, in units of b: (θ√(1+θ²) + asinh θ)/2. */
const spiralArc = (theta: string): string =>
  `(${theta}*SQRT(1+${theta}^2)+LN(${theta}+SQRT(1+${theta}^2)))/2`;

export const HOSE_TWINS = {
  HOSE_FLOW: {
    args: [
      ...need('length', 'rate'),
      option('pressure', '1'),
      option('rated_pressure', '1'),
      option('exponent', '1'),
    ],
    formula: (a, f) =>
      `${a['length']}/${f.rateLength}*${a['rate']}/60*(${a['pressure']}/${a['rated_pressure']})^${a['exponent']}`,
  },
  HOSE_MINUTES: {
    args: [...need('volume', 'flow'), option('efficiency', '0.9')],
    formula: (a) => `${a['volume']}/(${a['flow']}*${a['efficiency']})`,
  },
  COIL_LENGTH: {
    args: need('inner', 'outer', 'spacing'),
    formula: (a, f) => {
      const pitch = `(${a['spacing']}*${f.ball}/1000/${f.canopy}/(2*PI()))`;
      const turn = (diameter: string): string => `(${diameter}/2/${pitch})`;
      return `${pitch}*(${spiralArc(turn(a['outer']!))}-${spiralArc(turn(a['inner']!))})`;
    },
  },
} satisfies Record<string, Twin>;
