/** Numbers keep their units at the end of a line: `4 h 3 min`, `15 gal` and `2 in` are never parted. */

const NO_BREAK = '\u00a0';
const UNIT = 'h|min|gal|L|in|ft|mm|cm|m|m³|lb|kg|%';
const BEFORE_UNIT = new RegExp(`(\\d) (?=(?:${UNIT})(?![\\p{L}\\d]))`, 'gu');
/** Hours and their minutes are one number. */
const BEFORE_MINUTES = / h (?=\d+ min(?![\p{L}\d]))/gu;

/** A text in which blanks between number and unit hold a line together. */
export const unparted = (text: string): string =>
  text
    .replace(BEFORE_MINUTES, `${NO_BREAK}h${NO_BREAK}`)
    .replace(BEFORE_UNIT, (_, digit: string) => `${digit}${NO_BREAK}`);

/** Keys of page data under which words stand; a drawing is left as it is. */
const WORDS: ReadonlySet<string> = new Set([
  'text', 'stack', 'ul', 'ol', 'columns', 'table', 'body', 'content', 'section',
]); // prettier-ignore

/** Page data with every text in it unparted. */
export function unpartedIn<T>(data: T): T {
  const turned: unknown =
    typeof data === 'string'
      ? unparted(data)
      : Array.isArray(data)
        ? data.map(unpartedIn)
        : typeof data === 'object' && data !== null
          ? Object.fromEntries(
              Object.entries(data).map(([key, value]) => [
                key,
                WORDS.has(key) ? unpartedIn<unknown>(value) : (value as unknown),
              ]),
            )
          : data;
  return turned as T;
}
