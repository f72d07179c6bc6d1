/** Words of the step Kit, by language: loaded with what it shows. */
import type { Language } from '../parts/format.js';
import { kitEn, type KitWords } from './kit-en.js';
import { kitEs } from './kit-es.js';

export type { KitWords } from './kit-en.js';

export const kitWords = (language: Language): KitWords => (language === 'es' ? kitEs : kitEn);
