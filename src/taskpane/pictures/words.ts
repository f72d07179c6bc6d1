/** Words on the panel's pictures. Spanish is a translation from memory, to be read by a speaker. */
import { weekday, type Day } from '../../engine/dates.js';
import { COIL_WORDS, type CoilWords } from '../../workbook/coil-words.js';
import { formats, type Formats, type Language } from '../parts/format.js';

/** `4 h 40 min`, `25 min`, `3 h`. */
export function hoursAndMinutes(hours: number): string {
  const minutes = Math.round(hours * 60);
  const [h, min] = [Math.floor(minutes / 60), minutes % 60];
  if (h === 0) return `${min} min`;
  return min === 0 ? `${h} h` : `${h} h ${min} min`;
}

export interface SeasonTotals {
  demand: string;
  watering: string;
  rain: string;
  weeks: number;
  /** first day of the week with most watering, and its amount; undefined: nothing is watered */
  most: { from: string; amount: string } | undefined;
}

export interface CrewTotals {
  out: number;
  days: number;
  limit: string;
  hours: string;
  most: { day: string; hours: string } | undefined;
  /** days with more hours than there are */
  over: number;
  barred: number;
  off: number;
}

export interface WaterTotals {
  id: string;
  days: number;
  stress: number;
  /** name of the weekday most stress days fall on, where one stands out */
  mostly: string | undefined;
  firstStress: string;
  lastStress: string;
  least: { amount: string; day: string; threshold: string };
  full: string;
  waterings: number;
  given: string;
  rain: string;
}

export interface PictureWords {
  language: Language;
  f: Formats;
  /** button that opens the table behind a picture */
  numbers: string;
  day: string;
  perWeek: (unit: string) => string;
  weekFrom: string;
  weekTo: string;
  season: {
    title: (t: SeasonTotals, unit: string) => string;
    alt: (t: SeasonTotals, unit: string, stages: string) => string;
    demand: string;
    watering: string;
    rain: string;
    hours: string;
    waterings: string;
    weeks: string;
    stage: (name: string, day: string) => string;
    noStage: string;
  };
  crew: {
    title: (t: CrewTotals) => string;
    alt: (t: CrewTotals) => string;
    filled: (limit: string) => string;
    over: string;
    barred: string;
    off: string;
    hours: string;
    state: string;
    /** Monday first, as short as a column head */
    weekdays: readonly string[];
    week: string;
  };
  water: {
    title: (t: WaterTotals, unit: string) => string;
    alt: (t: WaterTotals, unit: string) => string;
    left: (unit: string) => string;
    ball: string;
    ring: string;
    full: string;
    threshold: string;
    rain: string;
    watering: string;
    stress: string;
    yes: string;
    days: string;
    /** Sunday first, in a sentence: "on Mondays" */
    weekdays: readonly string[];
  };
  coil: CoilWords;
  tree: string;
}

/** 0 Sunday … 6 Saturday */
export const weekdayOf = (day: Day): number => weekday(day);

const day1 = (n: number): string => (n === 1 ? '1 day' : `${n} days`);
const dia1 = (n: number): string => (n === 1 ? '1 día' : `${n} días`);

const EN: Omit<PictureWords, 'f'> = {
  language: 'en',
  numbers: 'The numbers',
  day: 'Day',
  perWeek: (unit) => `${unit} a week`,
  weekFrom: 'Week from',
  weekTo: 'to',
  season: {
    title: (t, unit) =>
      t.most
        ? `The trees would use ${t.demand} ${unit}; the plan waters ${t.watering} ${unit}, most in the week from ${t.most.from}`
        : `The trees would use ${t.demand} ${unit}; nothing is watered`,
    alt: (t, unit, stages) =>
      `Chart of ${t.weeks} weeks. Demand ${t.demand} ${unit}, watering ${t.watering} ${unit}, rain that counts ${t.rain} ${unit}.${t.most ? ` Most watering: ${t.most.amount} ${unit} in the week from ${t.most.from}.` : ''}${stages === '' ? '' : ` Stages: ${stages}.`}`,
    demand: 'what the trees would use',
    watering: 'watering',
    rain: 'rain that counts, on top',
    hours: 'Crew (h)',
    waterings: 'Waterings',
    weeks: 'weeks',
    stage: (name, day) => `${name} from ${day}`,
    noStage: 'no stage',
  },
  crew: {
    title: (t) => {
      if (!t.most) return 'Nobody has to go out this season';
      return t.over > 0
        ? `${day1(t.over)} ${t.over === 1 ? 'asks' : 'ask'} for more than ${t.limit}; the longest is ${t.most.day} with ${t.most.hours}`
        : `Somebody is out on ${t.out} of ${day1(t.days)}; the fullest is ${t.most.day} with ${t.most.hours} of ${t.limit}`;
    },
    alt: (t) =>
      `Calendar of ${day1(t.days)}: ${t.hours} of crew time on ${day1(t.out)}.${t.most ? ` The longest is ${t.most.day} with ${t.most.hours}.` : ''} A day has ${t.limit}; ${day1(t.over)} above that. Barred by the rules: ${t.barred}. No work day: ${t.off}.`,
    filled: (limit) => `share of ${limit}, hours written in`,
    over: 'more hours than the day has',
    barred: 'no watering allowed',
    off: 'no work day',
    hours: 'Crew (h)',
    state: 'State',
    weekdays: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'],
    week: 'hours by day',
  },
  water: {
    title: (t, unit) => {
      if (t.stress === 0)
        return `${t.id} stays out of stress; it is driest on ${t.least.day} with ${t.least.amount} ${unit} left`;
      if (t.mostly) return `${t.id} is under stress on ${day1(t.stress)}, mostly on ${t.mostly}`;
      return t.stress === 1
        ? `${t.id} is under stress on 1 day, ${t.firstStress}`
        : `${t.id} is under stress on ${day1(t.stress)} between ${t.firstStress} and ${t.lastStress}`;
    },
    alt: (t, unit) =>
      `Chart of ${day1(t.days)}. Ball and ring hold up to ${t.full} ${unit}. Least left in the evening: ${t.least.amount} ${unit} on ${t.least.day}, when stress begins at ${t.least.threshold} ${unit}. Waterings: ${t.waterings}, ${t.given} ${unit} in all. Rain that counts: ${t.rain} ${unit}. Stress days: ${t.stress}.`,
    left: (unit) => `water left (${unit})`,
    ball: 'ball',
    ring: 'ring',
    full: 'full',
    threshold: 'stress begins',
    rain: 'rain that counts, from the top',
    watering: 'watering',
    stress: 'stress day',
    yes: 'yes',
    days: 'days',
    weekdays: ['Sundays', 'Mondays', 'Tuesdays', 'Wednesdays', 'Thursdays', 'Fridays', 'Saturdays'],
  },
  coil: COIL_WORDS.en,
  tree: 'Tree',
}; // prettier-ignore

const ES: Omit<PictureWords, 'f'> = {
  language: 'es',
  numbers: 'Los números',
  day: 'Día',
  perWeek: (unit) => `${unit} por semana`,
  weekFrom: 'Semana del',
  weekTo: 'al',
  season: {
    title: (t, unit) =>
      t.most
        ? `Los árboles usarían ${t.demand} ${unit}; el plan riega ${t.watering} ${unit}, sobre todo en la semana del ${t.most.from}`
        : `Los árboles usarían ${t.demand} ${unit}; no se riega nada`,
    alt: (t, unit, stages) =>
      `Gráfico de ${t.weeks} semanas. Demanda ${t.demand} ${unit}, riego ${t.watering} ${unit}, lluvia que cuenta ${t.rain} ${unit}.${t.most ? ` Más riego: ${t.most.amount} ${unit} en la semana del ${t.most.from}.` : ''}${stages === '' ? '' : ` Etapas: ${stages}.`}`,
    demand: 'lo que usarían los árboles',
    watering: 'riego',
    rain: 'lluvia que cuenta, encima',
    hours: 'Cuadrilla (h)',
    waterings: 'Riegos',
    weeks: 'semanas',
    stage: (name, day) => `${name} desde ${day}`,
    noStage: 'sin etapa',
  },
  crew: {
    title: (t) => {
      if (!t.most) return 'Nadie tiene que salir esta temporada';
      return t.over > 0
        ? `${dia1(t.over)} ${t.over === 1 ? 'pide' : 'piden'} más de ${t.limit}; el más largo es ${t.most.day} con ${t.most.hours}`
        : `Hay salida en ${t.out} de ${dia1(t.days)}; el más lleno es ${t.most.day} con ${t.most.hours} de ${t.limit}`;
    },
    alt: (t) =>
      `Calendario de ${dia1(t.days)}: ${t.hours} de cuadrilla en ${dia1(t.out)}.${t.most ? ` El más largo es ${t.most.day} con ${t.most.hours}.` : ''} Un día tiene ${t.limit}; ${dia1(t.over)} por encima. Prohibidos por las reglas: ${t.barred}. Sin trabajo: ${t.off}.`,
    filled: (limit) => `parte de ${limit}, con las horas escritas`,
    over: 'más horas de las que tiene el día',
    barred: 'no se permite regar',
    off: 'día sin trabajo',
    hours: 'Cuadrilla (h)',
    state: 'Estado',
    weekdays: ['Lun', 'Mar', 'Mié', 'Jue', 'Vie', 'Sáb', 'Dom'],
    week: 'horas por día',
  },
  water: {
    title: (t, unit) => {
      if (t.stress === 0)
        return `${t.id} no sufre estrés; su día más seco es ${t.least.day}, con ${t.least.amount} ${unit}`;
      if (t.mostly) return `${t.id} sufre estrés ${dia1(t.stress)}, sobre todo los ${t.mostly}`;
      return t.stress === 1
        ? `${t.id} sufre estrés 1 día, ${t.firstStress}`
        : `${t.id} sufre estrés ${dia1(t.stress)} entre ${t.firstStress} y ${t.lastStress}`;
    },
    alt: (t, unit) =>
      `Gráfico de ${dia1(t.days)}. Cepellón y anillo retienen hasta ${t.full} ${unit}. Lo menos que queda por la tarde: ${t.least.amount} ${unit} el ${t.least.day}, cuando el estrés empieza en ${t.least.threshold} ${unit}. Riegos: ${t.waterings}, ${t.given} ${unit} en total. Lluvia que cuenta: ${t.rain} ${unit}. Días de estrés: ${t.stress}.`,
    left: (unit) => `agua que queda (${unit})`,
    ball: 'cepellón',
    ring: 'anillo',
    full: 'lleno',
    threshold: 'empieza el estrés',
    rain: 'lluvia que cuenta, desde arriba',
    watering: 'riego',
    stress: 'día de estrés',
    yes: 'sí',
    days: 'días',
    weekdays: ['domingos', 'lunes', 'martes', 'miércoles', 'jueves', 'viernes', 'sábados'],
  },
  coil: COIL_WORDS.es,
  tree: 'Árbol',
}; // prettier-ignore

/** The pictures' words, with numbers and days of the same language. */
export function pictureWords(language: Language): PictureWords {
  const f = formats(language);
  if (language === 'en') return { ...EN, f };
  // days stand within sentences here, and Spanish writes them small
  return { ...ES, f: { ...f, day: (day) => f.day(day).toLowerCase() } };
}
