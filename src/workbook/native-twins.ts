/**
 * The worksheet functions that have a twin made of the spreadsheet's own functions, so that a file shows
 * and recalculates the right number where nothing is installed.
 *
 * Only functions that every spreadsheet program of the last ten years has. Constants are those of
 * `engine/units.ts`, written out in full. A twin answers #N/A where the question has no answer; it does
 * not repeat the sentences of its function about bad input.
 */
import { Problem } from '../engine/problems.js';
import {
  GRAVITY,
  KG_PER_POUND,
  L_PER_GALLON,
  M_PER_FOOT,
  MM_PER_INCH,
  type Units,
} from '../engine/units.js';

/** Engine units in one shown unit, as text for a formula. */
interface Factors {
  /** litres in a volume unit */
  volume: string;
  /** millimetres in a unit of small length: hole, ball (US) */
  inch: string;
  /** millimetres in a unit of water depth */
  depth: string;
  /** millimetres in a unit of trunk, ball, spacing, water level */
  ball: string;
  /** metres in a unit of canopy or hose */
  canopy: string;
  /** kilograms in a unit of weight */
  weight: string;
  /** hose length on which a rate is stated, in hose units */
  rateLength: string;
  celsius: (t: string) => string;
}

const FACTORS: Record<Units, Factors> = {
  US: {
    volume: String(L_PER_GALLON),
    inch: String(MM_PER_INCH),
    depth: String(MM_PER_INCH),
    ball: String(MM_PER_INCH),
    canopy: String(M_PER_FOOT),
    weight: String(KG_PER_POUND),
    rateLength: '100',
    celsius: (t) => `((${t}-32)*5/9)`,
  },
  SI: {
    volume: '1',
    inch: '1',
    depth: '1',
    ball: '10',
    canopy: '1',
    weight: '1',
    rateLength: '1',
    celsius: (t) => `(${t}*1)`,
  },
};

interface TwinArgument {
  name: string;
  /** used when the argument is left out; an argument without one is required */
  fallback?: string;
}

interface Twin {
  args: TwinArgument[];
  /** `a` holds each argument by name, safe to put beside any operator */
  formula: (a: Record<string, string>, f: Factors) => string;
}

const need = (...names: string[]): TwinArgument[] => names.map((name) => ({ name }));
const option = (name: string, fallback: string): TwinArgument => ({ name, fallback });

/** FAO-56 Eq. 21–25: energy of the sun at the top of the air [MJ/m² a day]. */
function sunEnergy(latitude: string, date: string): string {
  const phi = `(${latitude}*PI()/180)`;
  const year = `2*PI()*(INT(${date})-DATE(YEAR(${date}),1,1)+1)/365`;
  const declination = `(0.409*SIN(${year}-1.39))`;
  const sunset = `ACOS(MAX(-1,MIN(1,0-TAN(${phi})*TAN${declination})))`;
  return (
    `MAX(0,24*60/PI()*0.082*(1+0.033*COS(${year}))*(${sunset}*SIN(${phi})*SIN${declination}` +
    `+COS(${phi})*COS${declination}*SIN(${sunset})))`
  );
}

/** Arc of the spiral r = bθ from its centre to θ, in units of b: (θ√(1+θ²) + asinh θ)/2. */
const spiralArc = (theta: string): string =>
  `(${theta}*SQRT(1+${theta}^2)+LN(${theta}+SQRT(1+${theta}^2)))/2`;

/** Area of a hole of a bag times speed under the full head, without the head: n·Cd·√(2g). */
const discharge = (a: Record<string, string>): string =>
  `(${a['holes']}*${a['discharge']}*SQRT(2*${GRAVITY}))`;

const metres = (value: string, millimetres: string): string => `(${value}*${millimetres}/1000)`;

const TWINS = {
  SUN_ENERGY: {
    args: need('latitude', 'date'),
    formula: (a) => sunEnergy(a['latitude']!, a['date']!),
  },
  ET0_TEMP: {
    args: need('tmax', 'tmin', 'latitude', 'date'),
    formula: (a, f) => {
      const [hot, cold] = [f.celsius(a['tmax']!), f.celsius(a['tmin']!)];
      return `0.0023*((${hot}+${cold})/2+17.8)*SQRT(${hot}-${cold})*0.408*${sunEnergy(a['latitude']!, a['date']!)}/${f.depth}`;
    },
  },
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
  PAD_VOLUME: {
    args: [...need('saturated', 'dry'), option('usable', '0.9')],
    formula: (a, f) => `(${a['saturated']}-${a['dry']})*${f.weight}*${a['usable']}/${f.volume}`,
  },
  RECHARGE_DATE: {
    args: [...need('charged', 'volume', 'draw'), option('reserve', '0.1')],
    formula: (a) =>
      `${a['charged']}+ROUNDUP(ROUND(${a['volume']}*(1-${a['reserve']})/${a['draw']},9),0)`,
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
  COIL_LENGTH: {
    args: need('inner', 'outer', 'spacing'),
    formula: (a, f) => {
      const pitch = `(${a['spacing']}*${f.ball}/1000/${f.canopy}/(2*PI()))`;
      const turn = (diameter: string): string => `(${diameter}/2/${pitch})`;
      return `${pitch}*(${spiralArc(turn(a['outer']!))}-${spiralArc(turn(a['inner']!))})`;
    },
  },
} satisfies Record<string, Twin>;

export type TwinId = keyof typeof TWINS;
export const TWIN_IDS = Object.keys(TWINS) as TwinId[];

/** Names of the arguments of a twin, in order. */
export const twinArguments = (id: TwinId): TwinArgument[] => TWINS[id].args;

/** References and plain numbers stand as they are; anything else is wrapped. */
const safe = (text: string): string => (/^[A-Za-z0-9_.$!]+$/.test(text) ? text : `(${text})`);

/**
 * The formula of a twin, without the leading equals sign.
 *
 * @param id - function id without namespace
 * @param args - cell references or literals in the function's order; '' or nothing for one left out
 * @param units - units of the arguments and of the result
 * @throws Problem if a required argument is missing or there are too many
 */
export function twin(id: TwinId, args: readonly string[], units: Units): string {
  const { args: wanted, formula }: Twin = TWINS[id];
  if (args.length > wanted.length)
    throw new Problem(`${id} takes ${wanted.length} arguments; got ${args.length}`);
  const named: Record<string, string> = {};
  wanted.forEach(({ name, fallback }, i) => {
    const given = args[i] ?? '';
    if (given === '' && fallback === undefined)
      throw new Problem(`${id} needs its argument ${name}`);
    named[name] = safe(given === '' ? fallback! : given);
  });
  return formula(named, FACTORS[units]);
}
