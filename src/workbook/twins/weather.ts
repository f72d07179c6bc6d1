/** Twins of the weather functions. */
import { need, type Twin } from './parts.js';

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

export const WEATHER_TWINS = {
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
} satisfies Record<string, Twin>;
