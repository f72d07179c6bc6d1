/** Words of the form that writes an order, by language. */
import type { Language } from '../parts/format.js';
import { orderEn, type OrderWords } from './order-en.js';
import { orderEs } from './order-es.js';

export type { OrderWords } from './order-en.js';

export const orderWords = (language: Language): OrderWords =>
  language === 'es' ? orderEs : orderEn;
