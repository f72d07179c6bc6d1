/** What keeps a field of an order from being used, in the panel's words. */
import { upperFirst } from '../../engine/first-letter.js';
import type { LineTrouble } from '../../workbook/order-lines.js';
import type { OrderWords } from '../words/order.js';
import type { Speaker } from './pieces.js';

/** The sentence at a field; "" where nothing is wrong with it. */
export function troubleAt(
  troubles: readonly LineTrouble[],
  field: string,
  o: OrderWords,
  speaker: Speaker,
): string {
  const found = troubles.find((t) => t.field === field);
  if (!found) return '';
  const t = o.troubles;
  switch (found.kind) {
    case 'noMeans':
    case 'half':
    case 'perWeek':
    case 'every':
      return t[found.kind];
    case 'time':
      return t.time(found.typed);
    case 'ends':
      return (found.overnight ? t.overnight : t.ends)(found.from, found.to);
    case 'reader': {
      const { text } = speaker.spoken(found.sentence);
      return upperFirst(text);
    }
  }
}
