/** The weather functions a second time, in other forms of the same published equations. */
import {
  Big,
  big,
  bisect,
  celsius,
  fromSi,
  integral,
  PI,
  toSi,
  type Draw,
  type Oracles,
} from './precise.js';

interface Sun {
  latitude: Big;
  declination: Big;
  distance: Big;
  /** sin φ sin δ and cos φ cos δ */
  steady: Big;
  swing: Big;
}

/** Day of the year by the formula of the note to FAO-56 Table 2.5. */
function dayNumber(serial: number): number {
  const civil = new Date((serial - 25569) * 86_400_000);
  const [year, month] = [civil.getUTCFullYear(), civil.getUTCMonth() + 1];
  const j = Math.floor((275 * month) / 9 - 30 + civil.getUTCDate()) - 2;
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  if (month < 3) return j + 2;
  return leap ? j + 1 : j;
}

/** FAO-56 Eq. 23, 24; the sine of Eq. 24 as a cosine. */
function sunOf(latitudeDegrees: number, serial: number): Sun {
  const turn = PI.times(2).times(dayNumber(serial)).div(365);
  const latitude = PI.times(latitudeDegrees).div(180);
  const declination = big('0.409').times(Big.cos(PI.div(2).minus(turn).plus('1.39')));
  return {
    latitude,
    declination,
    distance: big('0.033').times(Big.cos(turn)).plus(1),
    steady: Big.sin(latitude).times(Big.sin(declination)),
    swing: Big.cos(latitude).times(Big.cos(declination)),
  };
}

/** Sine of the height of the sun at an hour angle. */
const height = (sun: Sun, hour: Big): Big => sun.steady.plus(sun.swing.times(Big.cos(hour)));

/** Hour angle of sunset where the sun's height passes zero; the whole half turn or none of it in polar day and night. */
function sunsetByHeight(sun: Sun): Big {
  if (height(sun, big(0)).lte(0)) return big(0);
  if (height(sun, PI).gte(0)) return PI;
  return bisect((hour) => height(sun, hour), big(0), PI);
}

/** The same by the half-angle formula, tan²(ω/2) = cos(φ − δ)/cos(φ + δ). */
function sunsetByHalfAngle(sun: Sun): Big {
  const noon = Big.cos(sun.latitude.minus(sun.declination));
  const midnight = Big.cos(sun.latitude.plus(sun.declination));
  if (noon.lte(0)) return big(0);
  if (midnight.lte(0)) return PI;
  return Big.atan(noon.div(midnight).sqrt()).times(2);
}

/** Eq. 21 as what it is: the height of the sun summed over the day, 0.0820 MJ/m² a minute. */
function energy(sun: Sun): Big {
  const half = integral((hour) => height(sun, hour), big(0), sunsetByHalfAngle(sun));
  const minutesPerTurn = big(1440).div(PI.times(2));
  return half.times(2).times(minutesPerTurn).times('0.0820').times(sun.distance);
}

const [LATITUDE, POLAR] = [65, 90];
const place = (draw: Draw, widest: number): { latitude: number; date: number } => ({
  latitude: draw.number(-widest, widest),
  date: draw.date(),
});

/** Eq. 11 to the base ten. */
const RATE = big('17.27').div(Big.ln(10));
const saturation = (t: Big): Big =>
  big('0.6108').times(Big.pow(10, RATE.times(t).div(t.plus('237.3'))));

/** Eq. 6 as a weighted mean of an energy term and an air term, W = Δ/(Δ + γ(1 + 0.34 u)). */
function penmanMonteith(w: {
  tmax: Big;
  tmin: Big;
  dew: Big;
  wind: Big;
  solar: Big | undefined;
  elevation: Big;
  sun: Sun;
}): Big {
  const mean = w.tmax.plus(w.tmin).div(2);
  const slope = saturation(mean).times(4098).div(mean.plus('237.3').pow(2));
  const lapse = Big.ln(big(1).minus(w.elevation.times('0.0065').div(293)));
  const gamma = big('0.000665')
    .times('101.3')
    .times(Big.exp(lapse.times('5.26')));
  const deficit = saturation(w.tmax).plus(saturation(w.tmin)).div(2).minus(saturation(w.dew));

  const ra = energy(w.sun);
  const clear = ra.times(big('0.75').plus(w.elevation.times('0.00002')));
  const solar = w.solar ?? ra.times('0.16').times(w.tmax.minus(w.tmin).sqrt());
  const clearness = Big.min(1, Big.max('0.3', solar.div(clear)));
  const emitted = [w.tmax, w.tmin]
    .map((t) => t.plus('273.16').div(100).pow(4))
    .reduce((a, b) => a.plus(b))
    .div(2)
    .times('0.4903'); // σ · 100⁴
  const longwave = emitted
    .times(big('0.34').minus(saturation(w.dew).sqrt().times('0.14')))
    .times(clearness.times('1.35').minus('0.35'));
  const net = solar.times('0.77').minus(longwave);

  const damped = gamma.times(w.wind.times('0.34').plus(1));
  const weight = slope.div(slope.plus(damped));
  const energyTerm = net.times('0.408');
  const airTerm = big(900)
    .div(mean.plus(273))
    .times(w.wind)
    .times(deficit)
    .div(w.wind.times('0.34').plus(1));
  return weight.times(energyTerm).plus(big(1).minus(weight).times(airTerm));
}

export const WEATHER_ORACLES: Oracles = {
  ET0: {
    source:
      'FAO-56 Eq. 6 as a weighted mean of energy and air; vapour pressure to base ten, Ra by quadrature over the day',
    tolerance: 1e-9,
    draw(draw) {
      const { units } = draw;
      const { latitude, date } = place(draw, LATITUDE);
      const low = draw.number(-8, 26);
      const cellOf = (c: number): number => (units === 'US' ? c * 1.8 + 32 : c);
      const [tmin, tmax] = [cellOf(low), cellOf(low + draw.number(1, 22))];
      const dew = draw.maybe(() => cellOf(low - draw.number(-0.5, 18)));
      const wind = draw.maybe(() => draw.cell('speed', 0.1, 9));
      const solar = draw.maybe(() => draw.number(2, 34));
      const elevation = draw.maybe(() => draw.cell('span', -80, 3500));
      const expected = penmanMonteith({
        tmax: celsius(tmax, units),
        tmin: celsius(tmin, units),
        dew: celsius(dew ?? tmin, units),
        wind: wind === undefined ? big(2) : toSi(wind, 'speed', units),
        solar: solar === undefined ? undefined : big(solar),
        elevation: elevation === undefined ? big(0) : toSi(elevation, 'span', units),
        sun: sunOf(latitude, date),
      });
      // Near zero the terms cancel and a relative difference says nothing; below zero the cell shows 0.
      if (expected.lt('0.05')) return undefined;
      return {
        args: [tmax, tmin, latitude, date, dew, wind, solar, elevation, units],
        expected: fromSi(expected, 'depth', units),
      };
    },
  },
  ET0_TEMP: {
    source: 'FAO-56 Eq. 52 with the square root as a power and Ra by quadrature over the day',
    tolerance: 1e-9,
    draw(draw) {
      const { units } = draw;
      const { latitude, date } = place(draw, LATITUDE);
      const [tmin, tmax] = [draw.temperature(-8, 26), draw.temperature(27, 48)];
      const [high, low] = [celsius(tmax, units), celsius(tmin, units)];
      const depth = Big.exp(Big.ln(high.minus(low)).div(2))
        .times(high.plus(low).plus('35.6'))
        .times('0.00115')
        .times(energy(sunOf(latitude, date)))
        .times('0.408');
      if (depth.lt('0.001')) return undefined;
      return { args: [tmax, tmin, latitude, date, units], expected: fromSi(depth, 'depth', units) };
    },
  },
  SUN_ENERGY: {
    source:
      'FAO-56 Eq. 21 by quadrature of the height of the sun, sunset by the half-angle formula; to the poles',
    tolerance: 1e-9,
    draw(draw) {
      const { latitude, date } = place(draw, POLAR);
      const expected = energy(sunOf(latitude, date));
      // In the first days of the polar sun the terms of Eq. 21 cancel to a few hundredths.
      if (expected.gt(0) && expected.lt('0.01')) return undefined;
      return { args: [latitude, date], expected };
    },
  },
  SUN_HOURS: {
    source: 'FAO-56 Eq. 34, sunset by halving on the height of the sun; to the poles',
    tolerance: 1e-9,
    draw(draw) {
      const { latitude, date } = place(draw, POLAR);
      return {
        args: [latitude, date],
        expected: sunsetByHeight(sunOf(latitude, date)).times(24).div(PI),
      };
    },
  },
};
