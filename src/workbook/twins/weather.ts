/** Twins of the weather functions. */
import { SCS_STORAGE } from '../../engine/weather/rainfall.js';
import { MM_PER_INCH } from '../../engine/units.js';
import { need, option, type Twin } from './parts.js';

/** FAO-56 Eq. 24, 25: latitude, turn of the year, declination and sunset hour angle [rad]. */
function sunPath(
  latitude: string,
  date: string,
): Record<'phi' | 'year' | 'declination' | 'sunset', string> {
  const phi = `(${latitude}*PI()/180)`;
  const year = `2*PI()*(INT(${date})-DATE(YEAR(${date}),1,1)+1)/365`;
  const declination = `(0.409*SIN(${year}-1.39))`;
  const sunset = `ACOS(MAX(-1,MIN(1,0-TAN(${phi})*TAN${declination})))`;
  return { phi, year, declination, sunset };
}

/** FAO-56 Eq. 21–25: energy of the sun at the top of the air [MJ/m² a day]. */
function sunEnergy(latitude: string, date: string): string {
  const { phi, year, declination, sunset } = sunPath(latitude, date);
  return (
    `MAX(0,24*60/PI()*0.082*(1+0.033*COS(${year}))*(${sunset}*SIN(${phi})*SIN${declination}` +
    `+COS(${phi})*COS${declination}*SIN(${sunset})))`
  );
}

export const WEATHER_TWINS = {
  SUN_ENERGY: {
    args: need('latitude', 'date'),
    formula: (a) => sunEnergy(a['latitude']!, a['date']!),
  },
  SUN_HOURS: {
    args: need('latitude', 'date'),
    formula: (a) => `24/PI()*${sunPath(a['latitude']!, a['date']!).sunset}`,
  },
  RAIN_MONTH: {
    // 0 is a blank cell, as in the function: 3 in of storage in both unit systems
    args: [...need('rain', 'etc'), option('storage', '0')],
    formula: (a, f) => {
      const inches = (value: string): string => `(${value}*${f.depth}/${MM_PER_INCH})`;
      const d = `IF(${a['storage']}=0,${SCS_STORAGE / MM_PER_INCH},${inches(a['storage']!)})`;
      const storageFactor = `(0.531747+0.295164*${d}-0.057697*${d}^2+0.003804*${d}^3)`;
      const rain = `(0.70917*${inches(a['rain']!)}^0.82416-0.11556)`;
      const effective = `${storageFactor}*${rain}*10^(0.02426*${inches(a['etc']!)})`;
      return `MAX(0,MIN(${effective}*${MM_PER_INCH}/${f.depth},${a['rain']},${a['etc']}))`;
    },
  },
  RAIN_DAY: {
    args: need('rain'),
    formula: (a, f) => {
      const inches = `${a['rain']}*${f.depth}/${MM_PER_INCH}`;
      return `(MAX(0,MIN(${inches},1)-0.1)+2/3*MAX(0,MIN(${inches},2)-1))*${MM_PER_INCH}/${f.depth}`;
    },
  },
  ET0_TEMP: {
    args: need('tmax', 'tmin', 'latitude', 'date'),
    formula: (a, f) => {
      const [hot, cold] = [f.celsius(a['tmax']!), f.celsius(a['tmin']!)];
      return `0.0023*((${hot}+${cold})/2+17.8)*SQRT(${hot}-${cold})*0.408*${sunEnergy(a['latitude']!, a['date']!)}/${f.depth}`;
    },
  },
} satisfies Record<string, Twin>;
