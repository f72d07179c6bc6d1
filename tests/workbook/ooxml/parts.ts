/** The parts of an Office Open XML file: taken out of the zip and read as trees, without any program that made them. */
import { inflateRawSync } from 'node:zlib';

/** Part name with its leading slash → its bytes. */
export type Parts = Map<string, Uint8Array>;

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;

/** Every entry of a zip file by its central directory. @throws Error if it is none, or names an entry twice */
export function unzip(bytes: Uint8Array): Parts {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  while (end >= 0 && view.getUint32(end, true) !== END) end--;
  if (end < 0) throw new Error('this is no zip file: its directory is missing');
  const parts: Parts = new Map();
  let at = view.getUint32(end + 16, true);
  for (let i = 0; i < view.getUint16(end + 10, true); i++) {
    if (view.getUint32(at, true) !== CENTRAL) throw new Error('the directory of the zip is broken');
    const [method, size] = [view.getUint16(at + 10, true), view.getUint32(at + 20, true)];
    const [name, extra, comment] = [28, 30, 32].map((k) => view.getUint16(at + k, true)) as [
      number,
      number,
      number,
    ];
    const local = view.getUint32(at + 42, true);
    if (view.getUint32(local, true) !== LOCAL) throw new Error('an entry of the zip is broken');
    const text = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + name));
    const start = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    const held = bytes.subarray(start, start + size);
    if (parts.has(`/${text}`)) throw new Error(`the zip holds ${text} twice`);
    parts.set(`/${text}`, method === 0 ? held : inflateRawSync(held));
    at += 46 + name + extra + comment;
  }
  return parts;
}

export interface Node {
  /** with its prefix, as written */
  name: string;
  attributes: Record<string, string>;
  children: Node[];
  /** all characters directly inside */
  text: string;
}

const ENTITIES: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
const plain = (text: string): string =>
  text.replace(/&(#x?[0-9a-fA-F]+|\w+);/g, (whole, name: string) => {
    if (!name.startsWith('#')) {
      const known = ENTITIES[name];
      if (known === undefined) throw new Error(`${whole} is no entity of XML`);
      return known;
    }
    return String.fromCodePoint(
      name[1] === 'x' ? parseInt(name.slice(2), 16) : Number(name.slice(1)),
    );
  });

const TOKEN =
  /<\?[^]*?\?>|<!--[^]*?-->|<(\/?)([\w.:-]+)((?:\s+[\w.:-]+="[^"<]*")*)\s*(\/?)>|([^<]+)/gy;
const ATTRIBUTE = /([\w.:-]+)="([^"]*)"/g;
// eslint-disable-next-line no-control-regex
const FORBIDDEN = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|&(?!#?\w+;)/;

/** The root of an XML document. @throws Error if it is not well formed, with the place */
export function parse(xml: string): Node {
  const bad = FORBIDDEN.exec(xml);
  if (bad) throw new Error(`a character XML may not hold, at ${bad.index}`);
  const top: Node = { name: '', attributes: {}, children: [], text: '' };
  const open: Node[] = [top];
  TOKEN.lastIndex = 0;
  let at = 0;
  for (let found = TOKEN.exec(xml); found; found = TOKEN.exec(xml)) {
    at = TOKEN.lastIndex;
    const [, closes, name, attributes, empty, text] = found;
    const inside = open.at(-1)!;
    if (text !== undefined) inside.text += plain(text);
    else if (closes === '/') {
      if (inside.name !== name) throw new Error(`</${name}> closes <${inside.name}>, at ${at}`);
      open.pop();
    } else if (name !== undefined) {
      const node: Node = { name, attributes: {}, children: [], text: '' };
      for (const [, key, value] of attributes!.matchAll(ATTRIBUTE)) {
        if (key! in node.attributes) throw new Error(`${name} says ${key} twice, at ${at}`);
        node.attributes[key!] = plain(value!);
      }
      inside.children.push(node);
      if (empty !== '/') open.push(node);
    }
  }
  if (at !== xml.length) throw new Error(`this is no XML: ${xml.slice(at, at + 40)}, at ${at}`);
  if (open.length > 1) throw new Error(`<${open.at(-1)!.name}> is not closed`);
  if (top.children.length !== 1 || top.text.trim() !== '') throw new Error('not one root element');
  return top.children[0]!;
}

export const localName = (node: Node): string => node.name.replace(/^.*:/, '');

/** Children of that local name. */
export const each = (node: Node | undefined, name: string): Node[] =>
  node?.children.filter((child) => localName(child) === name) ?? [];

export const first = (node: Node | undefined, name: string): Node | undefined =>
  each(node, name)[0];

/** Every node below, the node itself first. */
export function* walk(node: Node): Generator<Node> {
  yield node;
  for (const child of node.children) yield* walk(child);
}

export interface Relation {
  id: string;
  type: string;
  /** part name, or the address of something outside */
  target: string;
  outside: boolean;
}

/** `/xl/workbook.xml` → `/xl/_rels/workbook.xml.rels`; `/` → `/_rels/.rels` */
export const relationsName = (part: string): string =>
  part.replace(/^(.*\/)([^/]*)$/, '$1_rels/$2.rels');

/** What a part is related to. */
export function relationsOf(parts: Parts, part: string): Relation[] {
  const bytes = parts.get(relationsName(part));
  if (!bytes) return [];
  return each(parse(new TextDecoder().decode(bytes)), 'Relationship').map(({ attributes: a }) => ({
    id: a['Id'] ?? '',
    type: (a['Type'] ?? '').replace(/^.*\//, ''),
    outside: a['TargetMode'] === 'External',
    target:
      a['TargetMode'] === 'External'
        ? (a['Target'] ?? '')
        : new URL(a['Target'] ?? '', `http://part${part}`).pathname,
  }));
}
