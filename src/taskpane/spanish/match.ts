/**
 * Sentences of the planner in another language, by patterns with holes: `row {n:num} has {name}`. A whole sentence must fit;
 * what stands in a hole is copied, or must itself be a phrase of a named group and is then put into the other language too.
 * Nothing is guessed: a sentence no pattern fits has no translation.
 */

/** A pattern in English and the same in the other language, with the same holes. */
export type Pair = readonly [english: string, other: string];
/** Patterns by group; `say` holds whole sentences without their full stop. */
export type Theme = Readonly<Record<string, readonly Pair[]>>;
/** What may stand between phrases of a group: `a, b or c`. */
export type Joints = Readonly<Record<string, readonly Pair[]>>;

/** A translation, and the patterns it was made by. */
export interface Found {
  text: string;
  pairs: readonly Pair[];
}

interface Hole {
  name: string;
  kind: string;
  /** nothing at all may stand there */
  optional: boolean;
}
interface Pattern {
  pair: Pair;
  /** literals at even places, holes between them */
  literals: readonly string[];
  holes: readonly Hole[];
}
interface Group {
  exact: Map<string, Pattern>;
  byWord: Map<string, Pattern[]>;
  /** patterns that begin with a hole */
  open: Pattern[];
  joints: readonly Pair[];
}

const HOLE = /\{([a-z]\w*)(\?)?(?::([a-zA-Z]\w*))?\}/g;
const SENTENCES = 'say';
/** Most fillings of holes that are tried for one text: cells full of commas could else hold up the page. */
const MOST_TRIES = 50_000;
const TOO_LONG = new Error('no translation was found within the tries allowed');
/** Most translations that are remembered. */
const MOST_KEPT = 4000;

const verbatim =
  (pattern: RegExp) =>
  (text: string): string | undefined =>
    pattern.test(text) ? text : undefined;
/** Two sentences about a cell each, joined: what stands between their quotes is no cell. */
const TWO_SAID = /" .*; "/;
const requoted =
  (open: string, close: string) =>
  (text: string): string | undefined =>
    text.length > 1 && text.startsWith(open) && text.endsWith(close) && !TWO_SAID.test(text)
      ? `«${text.slice(1, -1)}»`
      : undefined;

/** What a hole copies: any text, a quoted cell, a quoted name, a number, a day, a time, a list of words one must type. */
const COPIED: Readonly<Record<string, (text: string) => string | undefined>> = {
  // a whole sentence within would pass as a name
  text: (text) => (text === '' || /[^\s.]{4,}[.?] \p{Lu}/u.test(text) ? undefined : text),
  cell: requoted('"', '"'),
  name: requoted('“', '”'),
  num: verbatim(/^[-−]?[\d.,]*\d$/),
  day: verbatim(/^\d{4}-\d\d-\d\d$/),
  clock: verbatim(/^\d\d:\d\d$/),
  list: verbatim(/^[\w°³/()'-]+( [\w°³/()'-]+)*(, [\w°³/()'-]+( [\w°³/()'-]+)*)*$/u),
  header: verbatim(/^(?!.* and )[^,]+$/),
  device: verbatim(/^[^;]+$/),
  // a name in a rule does not go on into the next part of it
  ruleName: verbatim(
    /^(?!stage )(?!.* (and|or) (not )?(odd|even|in|of|on|ending|without|addresses)\b).+$/i,
  ),
  ownNote: verbatim(/^(?!the day on which the window |planting day is )/),
  ordinal: (text) => /^(\d+)(st|nd|rd|th)$/.exec(text)?.[1],
};

/** Names of the holes of a pattern, in the order they stand. */
export const holesOf = (text: string): string[] =>
  [...text.matchAll(HOLE)].map(([, name]) => name!);

function compiled(pair: Pair): Pattern {
  const [english] = pair;
  const holes: Hole[] = [];
  const literals: string[] = [];
  let from = 0;
  for (const match of english.matchAll(HOLE)) {
    const [whole, name = '', optional, kind = 'text'] = match;
    literals.push(english.slice(from, match.index));
    holes.push({ name, kind, optional: optional !== undefined });
    from = match.index + whole.length;
  }
  literals.push(english.slice(from));
  return { pair, literals, holes };
}

const wordOf = (text: string): string | undefined => {
  const end = text.indexOf(' ');
  return end < 0 ? undefined : text.slice(0, end);
};

function grouped(themes: readonly Theme[], joints: Joints): Map<string, Group> {
  const groups = new Map<string, Group>();
  for (const theme of themes)
    for (const [name, pairs] of Object.entries(theme)) {
      if (name in COPIED)
        throw new Error(`a group may not be called ${name}: holes of that kind are copied`);
      const group: Group = groups.get(name) ?? {
        exact: new Map(),
        byWord: new Map(),
        open: [],
        joints: joints[name] ?? [],
      };
      groups.set(name, group);
      for (const pattern of pairs.map(compiled)) {
        const first = wordOf(pattern.literals[0] ?? '');
        if (pattern.holes.length === 0) group.exact.set(pattern.pair[0], pattern);
        else if (first === undefined) group.open.push(pattern);
        else group.byWord.set(first, [...(group.byWord.get(first) ?? []), pattern]);
      }
    }
  return groups;
}

/** The text with its first letter in the other case, or undefined if it has none. */
function turned(text: string): string | undefined {
  const at = text.search(/[\p{L}\p{N}]/u);
  const first = text[at] ?? '';
  const other = first === first.toLowerCase() ? first.toUpperCase() : first.toLowerCase();
  return other === first ? undefined : text.slice(0, at) + other + text.slice(at + 1);
}

/** `y` before i is `e`, `o` before o is `u`. */
function joined(left: string, joint: string, right: string): string {
  if (joint === ' y ' && /^h?i(?!e)/i.test(right)) return `${left} e ${right}`;
  if (joint === ' o ' && /^h?o/i.test(right)) return `${left} u ${right}`;
  return left + joint + right;
}

export class Catalogue {
  private readonly groups: Map<string, Group>;
  private tries = 0;
  private readonly kept = new Map<string, Found | undefined>();

  constructor(themes: readonly Theme[], joints: Joints) {
    this.groups = grouped(themes, joints);
  }

  /** One or several sentences. @returns undefined where one of them fits no pattern, or it takes too long to tell */
  find(text: string): Found | undefined {
    this.tries = 0;
    try {
      return this.phrase(SENTENCES, text);
    } catch (error) {
      if (error !== TOO_LONG) throw error;
      this.kept.set(`${SENTENCES}\n${text}`, undefined);
      return undefined;
    }
  }

  private phrase(name: string, text: string): Found | undefined {
    const key = `${name}\n${text}`;
    if (this.kept.has(key)) return this.kept.get(key);
    const group = this.groups.get(name);
    if (!group) throw new Error(`a pattern names the group ${name}, which there is not`);
    const found = name === SENTENCES ? this.sentences(group, text) : this.list(group, text);
    if (this.kept.size >= MOST_KEPT) this.kept.clear();
    this.kept.set(key, found);
    return found;
  }

  /** Sentences one after the other; the shortest first one that fits is taken, for cells may hold full stops too. */
  private sentences(group: Group, text: string): Found | undefined {
    for (const { index } of text.matchAll(/(?<=[.?]) /g)) {
      const left = this.sentence(group, text.slice(0, index));
      const right = left && this.phrase(SENTENCES, text.slice(index + 1));
      if (right)
        return { text: `${left.text} ${right.text}`, pairs: [...left.pairs, ...right.pairs] };
    }
    return this.sentence(group, text);
  }

  /** With or without a full stop, with a large or a small first letter. */
  private sentence(group: Group, text: string): Found | undefined {
    const asItStands = this.turnable(group, text);
    if (asItStands || !text.endsWith('.')) return asItStands;
    const found = this.turnable(group, text.slice(0, -1));
    return found && { ...found, text: `${found.text}.` };
  }

  private turnable(group: Group, text: string): Found | undefined {
    const found = this.single(group, text);
    if (found) return found;
    const other = turned(text);
    const again = other === undefined ? undefined : this.single(group, other);
    return again && { ...again, text: turned(again.text) ?? again.text };
  }

  private list(group: Group, text: string): Found | undefined {
    const one = this.single(group, text);
    if (one) return one;
    for (const [joint, other] of group.joints)
      for (let at = text.indexOf(joint); at >= 0; at = text.indexOf(joint, at + 1)) {
        const left = this.single(group, text.slice(0, at));
        const right = left && this.list(group, text.slice(at + joint.length));
        if (right)
          return {
            text: joined(left.text, other, right.text),
            pairs: [...left.pairs, ...right.pairs],
          };
      }
    return undefined;
  }

  private single(group: Group, text: string): Found | undefined {
    const exact = group.exact.get(text);
    if (exact) return { text: exact.pair[1], pairs: [exact.pair] };
    for (const pattern of [...(group.byWord.get(wordOf(text) ?? text) ?? []), ...group.open]) {
      const found = this.fitted(pattern, text);
      if (found) return found;
    }
    return undefined;
  }

  private fitted(pattern: Pattern, text: string): Found | undefined {
    if (!text.startsWith(pattern.literals[0]!)) return undefined;
    const values = this.filled(pattern, 0, text, pattern.literals[0]!.length);
    if (!values) return undefined;
    const said = new Map(pattern.holes.map(({ name }, i) => [name, values[i]!.text]));
    return {
      text: pattern.pair[1].replace(HOLE, (_, name: string) => said.get(name) ?? ''),
      pairs: [pattern.pair, ...values.flatMap(({ pairs }) => pairs)],
    };
  }

  /** What stands in the holes from one on, each as short as lets the rest fit. */
  private filled(pattern: Pattern, at: number, text: string, from: number): Found[] | undefined {
    const hole = pattern.holes[at];
    if (!hole) return from === text.length ? [] : undefined;
    const next = pattern.literals[at + 1]!;
    const last = at === pattern.holes.length - 1;
    const least = hole.optional ? from : from + 1;
    for (let end = least; end <= text.length; end++) {
      if (next === '' ? last : true) {
        end =
          next === ''
            ? text.length
            : last
              ? Math.max(end, text.length - next.length)
              : text.indexOf(next, end);
        if (end < 0 || !text.startsWith(next, end)) return undefined;
      }
      const value = this.value(hole, text.slice(from, end));
      const rest = value && this.filled(pattern, at + 1, text, end + next.length);
      if (rest) return [value, ...rest];
    }
    return undefined;
  }

  private value({ kind, optional }: Hole, text: string): Found | undefined {
    if (++this.tries > MOST_TRIES) throw TOO_LONG;
    if (text === '' && optional) return { text, pairs: [] };
    const copy = COPIED[kind];
    if (!copy) return this.phrase(kind, text);
    const copied = copy(text);
    return copied === undefined ? undefined : { text: copied, pairs: [] };
  }
}
