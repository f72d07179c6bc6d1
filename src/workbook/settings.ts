/**
 * Settings kept inside a workbook file, as custom properties of the document. A property holds 255 characters in
 * spreadsheet programs, so a longer text is kept in several, numbered from 1.
 */

/** Texts by key. */
export type Settings = Readonly<Record<string, string>>;

const MARK = 'Soakbook';
/** Longest piece kept in one property [UTF-16 units]. */
const PIECE = 240;
const NAME = new RegExp(`^${MARK} (.+) (\\d+)$`);

/** Cuts a text into pieces, never between the halves of a pair. */
function pieces(text: string): string[] {
  const out: string[] = [];
  for (let at = 0; at < text.length;) {
    let end = Math.min(text.length, at + PIECE);
    if (end < text.length && /[\ud800-\udbff]/.test(text[end - 1]!)) end--;
    out.push(text.slice(at, end));
    at = end;
  }
  return out;
}

/** Properties of a file that hold these settings; blank ones are left out. */
export function propertiesOf(settings: Settings): Record<string, string> {
  return Object.fromEntries(
    Object.entries(settings).flatMap(([key, text]) =>
      pieces(text).map((piece, i) => [`${MARK} ${key} ${i + 1}`, piece]),
    ),
  );
}

/** The settings among the custom properties of a file; those of other programs are passed over. */
export function settingsOf(properties: Readonly<Record<string, unknown>>): Record<string, string> {
  const found = new Map<string, string[]>();
  for (const [name, value] of Object.entries(properties)) {
    const [, key, number] = NAME.exec(name) ?? [];
    if (key === undefined || number === undefined) continue;
    const parts = found.get(key) ?? [];
    parts[Number(number) - 1] = String(value);
    found.set(key, parts);
  }
  return Object.fromEntries([...found].map(([key, parts]) => [key, parts.join('')]));
}
