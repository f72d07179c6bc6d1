/** Takes the description of a parameter apart, English or Spanish: what it is, its unit in each system, its default. */

export interface ParameterParts {
  what: string;
  us: string;
  si: string;
  default: string;
}

/** Units that are written alone and hold in both systems. */
const COMMON_UNIT =
  /^(hours|minutes|seconds|days|months|(decimal )?degrees|inches|a date|a date with its time of day|.* in both systems|horas|minutos|segundos|días|meses|grados( decimales)?|pulgadas|una fecha|una fecha con su hora|.* en ambos sistemas)$/;
const IN_BOTH = / (?:in both systems|en ambos sistemas)$/;
/** Where a parameter has no unit. */
export const NO_UNIT = '–';

/**
 * The parts of a description such as "depth of that water, in | cm; default 12 in | 30 cm". A description that
 * names no unit keeps all its words.
 */
export function partsOf({ description }: { name?: string; description: string }): ParameterParts {
  const parts: ParameterParts = { what: '', us: NO_UNIT, si: NO_UNIT, default: '' };
  const what: string[] = [];
  for (const clause of outsideBrackets(description, ';')) {
    const found = /^(?:default|por omisión):?\s+(.*)$/.exec(clause);
    if (found?.[1] !== undefined) {
      parts.default = found[1];
      continue;
    }
    const pieces = outsideBrackets(clause, ',').flatMap((piece) => takeUnit(piece, parts));
    if (pieces.length > 0) what.push(pieces.join(', '));
  }
  return { ...parts, what: what.join('; ') };
}

/** Puts the unit that a piece names into `parts`; gives what else the piece says. */
function takeUnit(piece: string, parts: ParameterParts): string[] {
  if (parts.us !== NO_UNIT) return [piece];
  if (piece === 'no unit' || piece === 'sin unidad') return [];
  const either = /^(?:(.*): )?(\S+) \| (\S+) (?:or|o) (\S+) \| (\S+)$/.exec(piece);
  if (either !== null) {
    const [, before, us, si, otherUs, otherSi] = either;
    parts.us = `${us} or ${otherUs}`;
    parts.si = `${si} or ${otherSi}`;
    return before === undefined ? [] : [before];
  }
  const pair = /^(\S[^|]*?) \| (\S[^|]*)$/.exec(piece);
  if (pair?.[1] !== undefined && pair[2] !== undefined) {
    const like = / (?:as|como) \w+$/.exec(pair[2])?.[0] ?? '';
    parts.us = pair[1] + like;
    parts.si = pair[2];
    return [];
  }
  if (!COMMON_UNIT.test(piece)) return [piece];
  parts.us = parts.si = piece.replace(IN_BOTH, '');
  return [];
}

/** Splits at a sign that stands outside brackets and quotes and is followed by a space. */
function outsideBrackets(text: string, sign: ',' | ';'): string[] {
  const pieces = [''];
  let depth = 0;
  let quoted = false;
  for (const [i, letter] of [...text].entries()) {
    if (letter === '"') quoted = !quoted;
    else if (letter === '(') depth += 1;
    else if (letter === ')') depth -= 1;
    const cuts = letter === sign && depth === 0 && !quoted && [...text][i + 1] === ' ';
    if (cuts) pieces.push('');
    else pieces[pieces.length - 1] += letter;
  }
  return pieces.map((piece) => piece.trim()).filter((piece) => piece !== '');
}
