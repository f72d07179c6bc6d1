/** The host's description of the functions in another language. */

/**
 * Puts sentences of another language in the place of the English ones. Ids, names, parameter names and the words a
 * parameter takes stay, so that a workbook means the same everywhere.
 *
 * @param {object} described - functions.json
 * @param {Record<string, string>} sentences - by their English
 * @returns the description in the other language; English sentences that have no other yet; sentences nobody uses
 */
export function translated(described, sentences) {
  const used = new Set();
  const missing = new Set();
  const say = (english) => {
    used.add(english);
    const other = sentences[english];
    if (other === undefined) missing.add(english);
    return other ?? english;
  };
  const functions = described.functions.map((fn) => ({
    ...fn,
    description: say(fn.description),
    parameters: fn.parameters.map((parameter) => ({
      ...parameter,
      description: say(parameter.description),
    })),
  }));
  const unused = Object.keys(sentences).filter((english) => !used.has(english));
  return { described: { ...described, functions }, missing: [...missing], unused };
}
