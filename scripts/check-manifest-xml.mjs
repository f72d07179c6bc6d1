/** The XML of manifests as a tree, with the line each element began on. What is not well formed, saxes finds. */
import { SaxesParser } from 'saxes';

/** What is wrong in a manifest and the line it is on, counted from 1. */
export class ManifestFault extends Error {
  constructor(line, sentence) {
    super(sentence);
    this.line = line;
  }
}

/** An "&" that begins none of the five names of XML and no number. */
const BARE = /&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[\da-f]+);)[^;\s]{0,10};?/i;

/** The line of a place in a text, from 1. */
const lineAt = (source, index) => source.slice(0, index).split('\n').length;

/**
 * The fault the parser met, in our words.
 *
 * @param {string} message - the parser's
 * @param {{ source: string, since: number, parser: SaxesParser, open: object[] }} state - `since`: where the parser
 *   last finished something; `open`: elements not yet closed, the document first
 */
function faultOf(message, { source, since, parser, open }) {
  const here = source.slice(since, parser.position);
  const bare = BARE.exec(here);
  // the parser takes an "&" for the begin of a name up to the next ";", which may be many lines on or never come
  if (bare !== null && /entity|unclosed tag|unexpected end/.test(message))
    return new ManifestFault(
      lineAt(source, since + bare.index),
      `"${bare[0]}" is no character of XML; write &amp; for "&".`,
    );
  const { name, line } = open.at(-1);
  const [kind, subject = ''] = message.replace(/\.$/, '').split(': ');
  const sentences = {
    'duplicate attribute': `The attribute ${subject} is given twice.`,
    'unmatched closing tag': `</${subject}> closes nothing.`,
    'documents may contain only one root': 'There must be one outermost element.',
    'document must contain a root element': 'There must be one outermost element.',
  };
  if (kind === 'unclosed tag') return new ManifestFault(line, `<${name}> is not closed.`);
  return new ManifestFault(
    parser.line,
    sentences[kind] ?? `What stands here cannot be read (${kind}).`,
  );
}

/**
 * Reads a manifest.
 *
 * @param {string} source
 * @returns the outermost element
 * @throws ManifestFault with the line, where the text is not well formed
 */
export function parseXml(source) {
  const parser = new SaxesParser({ position: false });
  const root = { name: '', attributes: {}, children: [], text: '', line: 1 };
  const open = [root];
  let since = 0;
  const on = (event, act) =>
    parser.on(event, (given) => {
      act(given);
      since = parser.position;
    });
  parser.on('error', ({ message }) => {
    throw faultOf(message, { source, since, parser, open });
  });
  on('doctype', () => {
    throw new ManifestFault(parser.line, 'A manifest holds no document type.');
  });
  on('opentagstart', ({ name }) => {
    // the name ends with the character just read, which may already be the line's end
    const line = lineAt(source, parser.position - 1);
    const element = { name, attributes: {}, children: [], text: '', line };
    open.at(-1).children.push(element);
    open.push(element);
  });
  on('attribute', () => undefined);
  on('opentag', ({ attributes }) => Object.assign(open.at(-1).attributes, attributes));
  on('closetag', ({ name, isSelfClosing }) => {
    const { line } = open.pop();
    // the parser tells what it closes, not what is written there
    const read = source.slice(0, parser.position);
    const closing = read.slice(read.lastIndexOf('<'));
    if (!isSelfClosing && closing.slice(2, -1).trim() !== name)
      throw new ManifestFault(parser.line, `${closing} closes <${name}> of line ${line}.`);
  });
  on('comment', () => undefined);
  const text = (said) => {
    open.at(-1).text += said;
  };
  parser.on('text', text);
  parser.on('cdata', text);
  parser.write(source).close();
  return root.children[0];
}

/** An element and everything inside it, in the order of the text. */
export function* walk(element) {
  yield element;
  for (const child of element.children) yield* walk(child);
}
