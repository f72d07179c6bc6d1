/** Words about live figures beside a list, by language. Headers and sheet are named as they are written. */
import type { Language } from '../parts/format.js';

const en = {
  title: 'Live figures',
  offers: (headers: string, sheet: string) =>
    `Adds four columns right of your list, filled by functions in the cells: ${headers}. And a sheet “${sheet}” with the example figures they use, to be changed. Your cells stay as they are, and the plan does not use these.`,
  show: 'Show live figures beside the list',
  shown: (sheet: string) =>
    `The live figures stand right of the list; their inputs are on the sheet “${sheet}”.`,
  there: (headers: string, sheet: string) =>
    `Right of the list stand columns filled by functions in the cells: ${headers}. Their inputs are on the sheet “${sheet}”. The plan does not use them.`,
  takeAway: 'Take the live figures away',
  gone: 'The live figures and their sheet of inputs are gone; the list is as it was.',
  goneColumns:
    'The live figures are gone. Their sheet of inputs was not found under its name and stays.',
};
export type LiveWords = typeof en;

const es: LiveWords = {
  title: 'Cifras vivas',
  offers: (headers, sheet) =>
    `Añade cuatro columnas a la derecha de su lista, llenadas por funciones en las celdas: ${headers}. Y una hoja «${sheet}» con las cifras de ejemplo que usan, para cambiarlas. Sus celdas quedan como están, y el plan no las usa.`,
  show: 'Mostrar cifras vivas junto a la lista',
  shown: (sheet) =>
    `Las cifras vivas están a la derecha de la lista; sus datos de entrada, en la hoja «${sheet}».`,
  there: (headers, sheet) =>
    `A la derecha de la lista hay columnas llenadas por funciones en las celdas: ${headers}. Sus datos de entrada están en la hoja «${sheet}». El plan no las usa.`,
  takeAway: 'Quitar las cifras vivas',
  gone: 'Las cifras vivas y su hoja de datos se quitaron; la lista está como estaba.',
  goneColumns:
    'Las cifras vivas se quitaron. Su hoja de datos de entrada no se encontró por su nombre y se queda.',
};

export const liveWords = (language: Language): LiveWords => (language === 'es' ? es : en);
