/** Words of the box of days that do not fit, by language. */
import type { Language } from '../parts/format.js';
import { enoughEn, type EnoughWords } from './enough-en.js';
import { enoughEs } from './enough-es.js';

export type { EnoughWords } from './enough-en.js';

export const enoughWords = (language: Language): EnoughWords =>
  language === 'es' ? enoughEs : enoughEn;
