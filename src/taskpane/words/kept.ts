/** Words about the workbook that is kept in the browser, by language. */
import type { KeepTrouble } from '../keeper.js';
import type { Language } from '../parts/format.js';

const en = {
  label: 'A workbook kept in this browser',
  found: (name: string, at: string) => `“${name}”, as of ${at}:`,
  open: 'Open it again',
  forget: 'Forget it',
  openNamed: (name: string) => `Open it again: ${name}`,
  forgetNamed: (name: string) => `Forget it: ${name}`,
  opened: (name: string, at: string) => `“${name}” is open again, as of ${at}.`,
  forgotten: (name: string) => `“${name}” is no longer kept in this browser.`,
  waits: 'What you change on the sample is not kept until you open or forget this workbook.',
  willKeep:
    'A workbook you open or change is kept in this browser, until another is or you forget it.',
  kept: (at: string) =>
    `A copy of this workbook is kept in this browser, as of ${at}. On a shared computer, forget it when you are done.`,
  forgetCopy: 'Forget the copy',
  notKept: 'This workbook is not kept in this browser: save it before you leave.',
  keep: 'Keep a copy',
  trouble: {
    refused:
      'This browser keeps no copy of the workbook: it does not let this page store anything. Save the workbook before you leave.',
    full: 'This browser has no room left for a copy of the workbook. Save the workbook before you leave.',
    large:
      'The workbook is too large to be kept in this browser. Save the workbook before you leave.',
  } satisfies Record<KeepTrouble, string>,
};

export type KeptWords = typeof en;

const es: KeptWords = {
  label: 'Un libro guardado en este navegador',
  found: (name, at) => `«${name}», del ${at}:`,
  open: 'Abrirlo de nuevo',
  forget: 'Olvidarlo',
  openNamed: (name) => `Abrirlo de nuevo: ${name}`,
  forgetNamed: (name) => `Olvidarlo: ${name}`,
  opened: (name, at) => `«${name}» está abierto de nuevo, como estaba el ${at}.`,
  forgotten: (name) => `«${name}» ya no se guarda en este navegador.`,
  waits: 'Lo que cambie en el ejemplo no se guarda hasta que abra u olvide este libro.',
  willKeep:
    'El libro que abra o cambie se guarda en este navegador, hasta que se guarde otro o usted lo olvide.',
  kept: (at) =>
    `Este navegador guarda una copia de este libro, del ${at}. En un equipo compartido, olvídela cuando termine.`,
  forgetCopy: 'Olvidar la copia',
  notKept: 'Este libro no se guarda en este navegador: guárdelo en un archivo antes de salir.',
  keep: 'Guardar una copia',
  trouble: {
    refused:
      'Este navegador no guarda ninguna copia del libro: no deja que esta página guarde nada. Guarde el libro en un archivo antes de salir.',
    full: 'En este navegador no queda lugar para una copia del libro. Guarde el libro en un archivo antes de salir.',
    large:
      'El libro es demasiado grande para guardarlo en este navegador. Guárdelo en un archivo antes de salir.',
  },
};

export const keptWords = (language: Language): KeptWords => (language === 'es' ? es : en);
