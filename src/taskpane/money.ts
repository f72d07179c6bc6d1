/** Amounts of money as the panel shows them: with the sign the site names. */
import { text } from '../tables/cells.js';
import type { Session } from './session.js';
import { buildWords } from './words/build.js';

/** The site's sign before amounts, "$" by default; "" while the site is not read. */
export const currencyOf = ({ setup }: Pick<Session, 'setup'>): string =>
  text(setup?.site.find(({ key }) => key === 'currency')?.value ?? null);

/** A price as it was typed, cents and all: "$ 26.5". @param amount - in the site's currency */
export function priceOf(
  session: Pick<Session, 'setup' | 'language' | 'formats'>,
  amount: number,
): string {
  const currency = currencyOf(session);
  const plain = session.formats.plain(amount);
  return currency === '' ? plain : buildWords(session.language).currency(plain, currency);
}
