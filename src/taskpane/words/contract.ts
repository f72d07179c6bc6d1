/** Words of the corner Contract, by language. */
import type { Language } from '../parts/format.js';
import { contractEn, type ContractWords } from './contract-en.js';
import { contractEs } from './contract-es.js';

export type { ContractWords } from './contract-en.js';

export const contractWords = (language: Language): ContractWords =>
  language === 'es' ? contractEs : contractEn;
