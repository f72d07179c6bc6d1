/** Words of Field check, Functions and Repair, by language. */
import type { Language } from '../parts/format.js';
import { cornersEn, type CornerWords } from './corners-en.js';
import { cornersEs } from './corners-es.js';

export type { CornerWords } from './corners-en.js';

export const cornerWords = (language: Language): CornerWords =>
  language === 'es' ? cornersEs : cornersEn;
