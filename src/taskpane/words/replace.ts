/** Words of the question before an open workbook with unsaved work gives way to another, by language. */
import type { Language } from '../parts/format.js';

const en = {
  title: (name: string) => `Open “${name}”?`,
  own: (name: string) => `“${name}” is open, with changes that are not saved as a file. It is replaced here.`,
  sample: 'You have changed the sample, and the changes are not saved as a file. It is replaced here.',
  kept: (name: string, at: string) =>
    `“${name}”, kept in this browser as of ${at}, was not saved as a file either. Its copy is replaced. To save it, stay and open it again first.`,
  save: 'Save first, then open',
  open: 'Open anyway',
  stay: 'Stay',
  stayed: (name: string) => `“${name}” was not opened; everything is as it was.`,
}; // prettier-ignore
export type ReplaceWords = typeof en;

const es: ReplaceWords = {
  title: (name) => `¿Abrir «${name}»?`,
  own: (name) =>
    `«${name}» está abierto, con cambios que no se han guardado en un archivo. Aquí se reemplaza.`,
  sample:
    'Usted ha cambiado el ejemplo, y los cambios no se han guardado en un archivo. Aquí se reemplaza.',
  kept: (name, at) =>
    `«${name}», guardado en este navegador el ${at}, tampoco se guardó en un archivo. Su copia se reemplaza. Para guardarlo, quédese y ábralo antes de nuevo.`,
  save: 'Guardar primero y abrir',
  open: 'Abrir de todos modos',
  stay: 'Quedarse',
  stayed: (name) => `«${name}» no se abrió; todo está como estaba.`,
};

export const replaceWords = (language: Language): ReplaceWords => (language === 'es' ? es : en);
