/** Words of the step Build, by language. */
import type { Language } from '../parts/format.js';
import { buildEn, type BuildWords } from './build-en.js';
import { buildEs } from './build-es.js';

export type { BuildWords } from './build-en.js';

export const buildWords = (language: Language): BuildWords =>
  language === 'es' ? buildEs : buildEn;
