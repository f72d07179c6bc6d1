/** Words about filling blank cells of a list for many rows at once, by language. */
import type { Formats, Language } from '../parts/format.js';

/** A value with its unit, or a word. */
const withUnit = (value: string, unit: string): string =>
  unit === '' ? value : `${value} ${unit}`;
const rowsEn = (f: Formats, n: number): string => `${f.whole(n)} ${n === 1 ? 'row' : 'rows'}`;
const rowsEs = (f: Formats, n: number): string => `${f.whole(n)} ${n === 1 ? 'fila' : 'filas'}`;
const theseEn = (f: Formats, n: number): string => (n === 1 ? 'this row' : `these ${rowsEn(f, n)}`);
const theseEs = (f: Formats, n: number): string =>
  n === 1 ? 'esta fila' : `estas ${rowsEs(f, n)}`;

const en = {
  names: { assumed: 'Assumed', size: 'Caliper' },
  title: (f: Formats, n: number) => `Use a value for ${theseEn(f, n)}`,
  others: 'Fill other blank cells',
  othersLead:
    'Where these are blank, the value of the site or the planner’s own estimate is used. You can put a value in for all of them here.',
  nothing: 'No column the planner reads has blank cells.',
  column: 'Column to fill',
  option: (f: Formats, header: string, n: number) => `${header}: ${rowsEn(f, n)} blank`,
  added: 'a new column',
  value: (name: string) => `Value for ${name}`,
  use: (f: Formats, n: number) => `Use for ${rowsEn(f, n)}`,
  median: (f: Formats, value: string, unit: string, of: number) =>
    `${withUnit(value, unit)} is the median of the ${f.whole(of)} in this list.`,
  commonest: (f: Formats, value: string, of: number) =>
    `“${value}” stands most often among the ${f.whole(of)} in this list.`,
  kind: (
    f: Formats,
    name: string,
    value: string,
    unit: string,
    of: number,
    n: number,
    isNumber: boolean,
  ) =>
    `${rowsEn(f, n)} of ${name}: ${isNumber ? `median of ${f.whole(of)}` : `most often among ${f.whole(of)}`}: ${withUnit(value, unit)}`,
  moreKinds: (f: Formats, n: number) => `and ${f.whole(n)} more ${n === 1 ? 'name' : 'names'}`,
  byKind: (f: Formats, n: number) => `Use each species’ own for ${rowsEn(f, n)}`,
  byKindRest: (value: string, unit: string) =>
    `Rows of a species with fewer than three known values get ${withUnit(value, unit)}.`,
  leaves: (f: Formats, n: number) =>
    `${rowsEn(f, n)} ${n === 1 ? 'has' : 'have'} something in that cell already and ${n === 1 ? 'stays' : 'stay'} as ${n === 1 ? 'it is' : 'they are'}.`,
  means:
    'Only blank cells are written. The plan reckons with the value as if it had been measured, so water, days and price of these trees are as good as the guess. Each row is marked in the column “Assumed”, and the sheet Trees and the crew’s paper say so. Write what you measure over it: the mark then no longer counts.',
  done: (f: Formats, n: number, header: string) =>
    `${header} is assumed for ${rowsEn(f, n)} and marked in the list. Under Trees you can take it out again.`,
  changed: 'The cells have changed meanwhile; nothing was written. Look at the rows again.',
  noRoom: (range: string) =>
    `Only ${range} is read, and the mark needs a column in it. Leave “Only these cells” blank, or take a blank column headed “Assumed” into it.`,
  assumed: 'Assumed values',
  assumedRows: (f: Formats, header: string, n: number) => `${header}: ${rowsEn(f, n)}`,
  assumedMeans:
    'Nobody measured these. The plan’s sheet Trees, its checks and the crew’s paper name them as assumed.',
  takeBack: 'Take the assumed values out again',
  taken: (f: Formats, n: number) => `${rowsEn(f, n)} ${n === 1 ? 'is' : 'are'} blank again.`,
};

export type FillWords = typeof en;

const es: FillWords = {
  names: { assumed: 'Supuesto', size: 'Calibre' },
  title: (f, n) => `Usar un valor para ${theseEs(f, n)}`,
  others: 'Llenar otras celdas en blanco',
  othersLead:
    'Donde están en blanco se usa el valor del sitio o la estimación del planificador. Aquí puede poner un valor en todas.',
  nothing: 'Ninguna columna que lee el planificador tiene celdas en blanco.',
  column: 'Columna que se llena',
  option: (f, header, n) => `${header}: ${rowsEs(f, n)} en blanco`,
  added: 'una columna nueva',
  value: (name) => `Valor para ${name}`,
  use: (f, n) => `Usar en ${rowsEs(f, n)}`,
  median: (f, value, unit, of) =>
    `${withUnit(value, unit)} es la mediana de los ${f.whole(of)} de esta lista.`,
  commonest: (f, value, of) =>
    `«${value}» es lo más frecuente entre los ${f.whole(of)} de esta lista.`,
  kind: (f, name, value, unit, of, n, isNumber) =>
    `${rowsEs(f, n)} de ${name}: ${isNumber ? `mediana de ${f.whole(of)}` : `lo más frecuente entre ${f.whole(of)}`}: ${withUnit(value, unit)}`,
  moreKinds: (f, n) => `y ${f.whole(n)} ${n === 1 ? 'nombre' : 'nombres'} más`,
  byKind: (f, n) => `Usar el de cada especie en ${rowsEs(f, n)}`,
  byKindRest: (value, unit) =>
    `Las filas de una especie con menos de tres valores conocidos reciben ${withUnit(value, unit)}.`,
  leaves: (f, n) =>
    `${rowsEs(f, n)} ya ${n === 1 ? 'tiene' : 'tienen'} algo en esa celda y ${n === 1 ? 'queda' : 'quedan'} como ${n === 1 ? 'está' : 'están'}.`,
  means:
    'Solo se escriben celdas en blanco. El plan calcula con el valor como si se hubiera medido: el agua, los días y el precio de estos árboles valen lo que valga la suposición. Cada fila se marca en la columna «Supuesto», y la hoja Trees y el papel de la cuadrilla lo dicen. Escriba encima lo que mida: la marca deja entonces de contar.',
  done: (f, n, header) =>
    `${header} se supone en ${rowsEs(f, n)} y queda marcado en la lista. En Árboles se puede quitar.`,
  changed: 'Las celdas cambiaron entretanto; no se escribió nada. Mire las filas de nuevo.',
  noRoom: (range) =>
    `Solo se lee ${range}, y la marca necesita una columna ahí. Deje «Solo estas celdas» en blanco, o incluya una columna en blanco con el encabezado «Supuesto».`,
  assumed: 'Valores supuestos',
  assumedRows: (f, header, n) => `${header}: ${rowsEs(f, n)}`,
  assumedMeans:
    'Nadie los midió. La hoja Trees del plan, sus comprobaciones y el papel de la cuadrilla los nombran como supuestos.',
  takeBack: 'Quitar los valores supuestos',
  taken: (f, n) => `${rowsEs(f, n)} ${n === 1 ? 'está' : 'están'} otra vez en blanco.`,
};

export const fillWords = (language: Language): FillWords => (language === 'es' ? es : en);
