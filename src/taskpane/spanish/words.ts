/**
 * Small vocabularies the planner's sentences are made of, in Spanish. The wording is the project's own, from memory, and not
 * reviewed by a native speaker of the trade; its terms are those of the panel's words.
 */
import { upperFirst } from '../../engine/first-letter.js';
import { KIT_COLUMNS } from '../../tables/kit.js';
import { SITE_INPUTS } from '../../tables/site-inputs.js';
import { kitEs } from '../words/kit-es.js';
import { SITE_NAMES } from '../words/site-es.js';
import type { Pair, Theme } from './match.js';

type Noun = readonly [one: string, many: string, oneEs: string, manyEs: string];
const NOUNS: readonly Noun[] = [
  ['row', 'rows', 'fila', 'filas'],
  ['tree', 'trees', 'árbol', 'árboles'],
  ['stress day', 'stress days', 'día de estrés', 'días de estrés'],
  ['watering', 'waterings', 'riego', 'riegos'],
  ['visit', 'visits', 'visita', 'visitas'],
  ['week', 'weeks', 'semana', 'semanas'],
  ['month', 'months', 'mes', 'meses'],
  ['day', 'days', 'día', 'días'],
  ['site', 'sites', 'sitio', 'sitios'],
  ['crew', 'crews', 'cuadrilla', 'cuadrillas'],
  ['crew day', 'crew days', 'día de cuadrilla', 'días de cuadrilla'],
  ['time', 'times', 'vez', 'veces'],
  ['place', 'places', 'punto', 'puntos'],
];
const FEMININE = /^(fila|visita|semana|cuadrilla|vez)/;
const counted = NOUNS.flatMap(([one, many, oneEs, manyEs]): Pair[] => [
  [`1 ${one}`, `1 ${oneEs}`],
  [`one ${one}`, `${FEMININE.test(oneEs) ? 'una' : 'un'} ${oneEs}`],
  [`{n:num} ${many}`, `{n} ${manyEs}`],
]);

const pairs = (text: string): Pair[] =>
  text.split(', ').map((each) => {
    const [english = '', other = ''] = each.split('=');
    return [english, other];
  });
const WEEKDAYS = 'Monday=lunes, Tuesday=martes, Wednesday=miércoles, Thursday=jueves, Friday=viernes, Saturday=sábado, Sunday=domingo'; // prettier-ignore
const MONTHS = 'January=enero, February=febrero, March=marzo, April=abril, May=mayo, June=junio, July=julio, August=agosto, September=septiembre, October=octubre, November=noviembre, December=diciembre'; // prettier-ignore
const short = (list: string): Pair[] =>
  pairs(list).map(([en, other]) => [en.slice(0, 3), other.slice(0, 3)]);
/** Beside a number, as the panel writes days: `Mar 1 Jun`. */
const capital = (list: readonly Pair[]): Pair[] =>
  list.map(([en, other]) => [en, upperFirst(other)]);

export const vocabulary: Theme = {
  count: counted,
  weekday: pairs(WEEKDAYS),
  weekdays: pairs(WEEKDAYS.replace('sábado', 'sábados').replace('domingo', 'domingos')),
  shortWeekday: short(WEEKDAYS),
  weekdayOf: pairs(WEEKDAYS).map(([en, other]) => [en.slice(0, 3), other]),
  /** `Tue 1 Jun` */
  dayName: [['{w:dayNameWeekday} {n:num} {m:dayNameMonth}', '{w} {n} {m}']],
  dayNameWeekday: capital(short(WEEKDAYS)),
  dayNameMonth: capital(short(MONTHS)),
  month: pairs(MONTHS),
  shortMonth: short(MONTHS),
  monthOf: pairs(MONTHS).map(([en, other]) => [en.slice(0, 3), other]),
  nth: pairs('first=primer, second=segundo, third=tercer, fourth=cuarto, last=último'),
  per: pairs('visit=visita, week=semana, month=mes, season=temporada'),
  siteInput: SITE_INPUTS.map(({ key, name }): Pair => [name, SITE_NAMES[key]]),
  kitColumn: KIT_COLUMNS.map(({ key, name }): Pair => [name, kitEs.columns[key]]),
  /** a means as it is labelled: `2 joined bags (large), part fills + gel pad, ahead` */
  means: [
    ['bag', 'bolsa'],
    ['gel pad', 'almohadilla de gel'],
    ['soaker hose', 'manguera porosa'],
    ['hand watering', 'riego a mano'],
    ['tanker', 'cisterna'],
    ['{n:num} joined bags', '{n} bolsas unidas'],
    ['{n:num} soaker hoses', '{n} mangueras porosas'],
    ['bag ({device})', 'bolsa ({device})'],
    ['gel pad ({device})', 'almohadilla de gel ({device})'],
    ['soaker hose ({device})', 'manguera porosa ({device})'],
    ['hand watering ({device})', 'riego a mano ({device})'],
    ['tanker ({device})', 'cisterna ({device})'],
    ['{n:num} joined bags ({device})', '{n} bolsas unidas ({device})'],
    ['{n:num} soaker hoses ({device})', '{n} mangueras porosas ({device})'],
    ['full fills', 'llenados completos'],
    ['part fills', 'llenados parciales'],
    ['ahead', 'con antelación'],
    ['every allowed day', 'cada día permitido'],
    ['spread over the week', 'repartido en la semana'],
  ],
  /** a family in one word, as tables take it */
  family: pairs('bag=bolsa, pad=almohadilla, soaker=manguera porosa, hand=a mano, tanker=cisterna'),
};

export const vocabularyJoints: Readonly<Record<string, readonly Pair[]>> = {
  means: [[' + ', ' + '], [', ', ', '], [' or ', ' o ']],
  weekdays: [[', ', ', '], [' and ', ' y ']],
  shortWeekday: [[' ', ' ']],
}; // prettier-ignore
