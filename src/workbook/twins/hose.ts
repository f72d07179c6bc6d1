/** Twins of the functions about hoses and pipes. */
import { GRAVITY, L_PER_GALLON, MM_PER_INCH } from '../../engine/units.js';
import { need, option, type Twin } from './parts.js';

/** Arc of the spiral r = bθ from its centre to θ, in units of b: (θ√(1+θ²) + asinh θ)/2. */
const spiralArc = (theta: string): string =>
  `(${theta}*SQRT(1+${theta}^2)+LN(${theta}+SQRT(1+${theta}^2)))/2`;

/** Christiansen's factor, 1 where there are no outlets. */
const outletShare = (outlets: string, m: string): string =>
  `IF(${outlets}=0,1,MIN(1,1/(${m}+1)+1/(2*MAX(1,${outlets}))+SQRT(${m}-1)/(6*MAX(1,${outlets})^2)))`;

export const HOSE_TWINS = {
  BUCKET_FLOW: {
    args: need('volume', 'seconds'),
    formula: (a) => `${a['volume']}*60/${a['seconds']}`,
  },
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
  HOSE_LOSS: {
    args: [...need('flow', 'length', 'bore'), option('c', '140'), option('outlets', '0')],
    formula: (a, f) => {
      const gpm = `(${a['flow']}*${f.volume}/${L_PER_GALLON})`;
      const inches = `(${a['bore']}*${f.inch}/${MM_PER_INCH})`;
      const per100 = `0.2083*(100/${a['c']})^1.852*${gpm}^1.852/${inches}^4.8655`;
      return `${per100}*${a['length']}*${f.canopy}/100*${GRAVITY}/${f.pressure}*${outletShare(a['outlets']!, '1.852')}`;
    },
  },
  OUTLET_FACTOR: {
    args: [...need('outlets'), option('m', '1.852')],
    formula: (a) => outletShare(a['outlets']!, a['m']!),
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
