/**
 * Elements of an XML part one after another, as the strict parser saxes reads them. Document types are refused, so
 * nothing outside the file is ever asked for and no entity can grow. The parser keeps what is open and what a tag says
 * without end, so both have a limit here.
 */
import { SaxesParser } from 'saxes';
import { Problem } from '../../engine/problems.js';
import { damaged } from './zip.js';

export const DOCTYPE =
  'the workbook holds a document type, which no spreadsheet program writes and which may point outside the file; open it and save it again as .xlsx';

/** Elements within each other; parts of workbooks have about ten. */
const DEEPEST = 256;
/** Attributes of one element; those of workbooks have up to thirty. */
const MOST_ATTRIBUTES = 1_000;
/** Bytes turned into text at a time, so that a large part is never one text [bytes]. */
const SLICE = 65_536;

/** By the names as they are written, prefixes included; without any inherited ones. */
export type Attributes = Readonly<Record<string, string>>;

export interface Handler {
  /** `name` without its prefix */
  open?(name: string, attributes: Attributes): void;
  close?(name: string): void;
  text?(text: string): void;
}

const local = (name: string): string => name.slice(name.indexOf(':') + 1);

/** The value of an attribute, with or without a prefix; undefined when it is not there. */
export function attribute(attributes: Attributes, name: string): string | undefined {
  const plain = attributes[name];
  if (plain !== undefined) return plain;
  for (const key in attributes)
    if (key.length > name.length && local(key) === name) return attributes[key];
  return undefined;
}

/** The text of a part in pieces: UTF-8, or UTF-16 by its mark. @throws Problem when its bytes are no text */
function* piecesOf(part: string, bytes: Uint8Array): Generator<string> {
  const [a, b] = bytes;
  const wide = (a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff);
  const encoding = !wide ? 'utf-8' : a === 0xff ? 'utf-16le' : 'utf-16be';
  const decoder = new TextDecoder(encoding, { fatal: true });
  for (let at = 0; at < bytes.length; at += SLICE)
    try {
      const more = at + SLICE < bytes.length;
      yield decoder.decode(bytes.subarray(at, at + SLICE), { stream: more });
    } catch {
      throw damaged(`${part} holds bytes that are no text`);
    }
}

/**
 * Reads a part from its first element to its last.
 * @param part - its name, for the sentence
 * @throws Problem when the part is no text, not well formed, or holds a document type
 */
export function walk(part: string, bytes: Uint8Array, to: Handler): void {
  const parser = new SaxesParser({ position: false, xmlns: false });
  const wrong = (what: string): Problem =>
    damaged(`${part}, line ${parser.line}, character ${parser.column}: ${what.replace(/\.$/, '')}`);
  let depth = 0;
  let attributes = 0;
  parser.on('error', ({ message }) => {
    // a name no entity has is no damage: it stays in the text as it is written
    if (message !== 'undefined entity.') throw wrong(message);
  });
  parser.on('doctype', () => {
    throw new Problem(DOCTYPE);
  });
  parser.on('attribute', () => {
    attributes += 1;
    if (attributes > MOST_ATTRIBUTES) throw wrong(`more than ${MOST_ATTRIBUTES} attributes`);
  });
  parser.on('opentag', (tag) => {
    attributes = 0;
    depth += 1;
    if (depth > DEEPEST) throw wrong(`more than ${DEEPEST} elements within each other`);
    to.open?.(local(tag.name), tag.attributes);
  });
  parser.on('closetag', (tag) => {
    depth -= 1;
    to.close?.(local(tag.name));
  });
  const text = (said: string): void => to.text?.(said);
  parser.on('text', text);
  parser.on('cdata', text);
  for (const piece of piecesOf(part, bytes)) parser.write(piece);
  parser.close();
}
