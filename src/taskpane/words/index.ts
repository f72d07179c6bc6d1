/** The panel's words, by language. */
import type { Language } from '../parts/format.js';
import { en, type Words } from './en.js';
import { es } from './es.js';

export type { Words } from './en.js';

export const LANGUAGES: readonly Language[] = ['en', 'es'];
/** Each language's name for itself. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = { en: 'English', es: 'Español' };

export const words = (language: Language): Words => (language === 'es' ? es : en);
