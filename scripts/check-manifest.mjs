/** Checks manifest.xml without any network: order, resources, files, icon sizes, version, namespace. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const BASE = 'https://localhost:3000';
const LONGEST = { resid: 32, 'bt:ShortStrings': 125, 'bt:LongStrings': 250, 'bt:Urls': 2048 };

/** Children a parent may have, in the order the schema asks for. */
const ORDER = {
  OfficeApp: [
    'Id',
    'AlternateId',
    'Version',
    'ProviderName',
    'DefaultLocale',
    'DisplayName',
    'Description',
    'IconUrl',
    'HighResolutionIconUrl',
    'SupportUrl',
    'AppDomains',
    'Hosts',
    'Requirements',
    'DefaultSettings',
    'Permissions',
    'VersionOverrides',
  ],
  VersionOverrides: ['Description', 'Requirements', 'Hosts', 'Resources'],
  'Host/Workbook': ['Runtimes', 'AllFormFactors', 'DesktopFormFactor'],
  DesktopFormFactor: ['GetStarted', 'FunctionFile', 'ExtensionPoint'],
  CustomFunctions: ['Script', 'Page', 'Metadata', 'Namespace'],
  GetStarted: ['Title', 'Description', 'LearnMoreUrl'],
  Group: ['Label', 'Icon', 'Control'],
  Control: ['Label', 'Supertip', 'Icon', 'Action'],
  Resources: ['bt:Images', 'bt:Urls', 'bt:ShortStrings', 'bt:LongStrings'],
};
const REQUIRED = [
  'Id',
  'Version',
  'ProviderName',
  'DefaultLocale',
  'DisplayName',
  'Description',
  'IconUrl',
  'HighResolutionIconUrl',
  'Hosts',
  'DefaultSettings',
  'Permissions',
  'VersionOverrides',
];

function decode(text) {
  const names = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
  return text.replace(/&(amp|lt|gt|quot|apos);/g, (_, name) => names[name]);
}

/** A small reader for this one kind of file: elements, attributes, text. Throws on unbalanced tags. */
export function parseXml(source) {
  const root = { name: '', attributes: {}, children: [], text: '' };
  const open = [root];
  const token =
    /<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<(\/?)([\w:.]+)((?:\s+[\w:.]+="[^"]*")*)\s*(\/?)>|[^<]+|</g;
  for (const [whole, closing, name, attributes, empty] of source.matchAll(token)) {
    const current = open.at(-1);
    if (whole.startsWith('<!--') || whole.startsWith('<?')) continue;
    if (name === undefined) {
      if (whole === '<') throw new Error('A tag cannot be read.');
      current.text += decode(whole);
      continue;
    }
    if (closing === '/') {
      if (current.name !== name) throw new Error(`</${name}> closes <${current.name}>.`);
      open.pop();
      continue;
    }
    const element = { name, attributes: {}, children: [], text: '' };
    for (const [, key, value] of attributes.matchAll(/([\w:.]+)="([^"]*)"/g)) {
      element.attributes[key] = decode(value);
    }
    current.children.push(element);
    if (empty !== '/') open.push(element);
  }
  if (open.length !== 1) throw new Error(`<${open.at(-1).name}> is not closed.`);
  if (root.children.length !== 1) throw new Error('There must be one outermost element.');
  return root.children[0];
}

function* walk(element) {
  yield element;
  for (const child of element.children) yield* walk(child);
}

function orderOf({ name, attributes }) {
  const kind = attributes['xsi:type'];
  if (name === 'Host' && kind !== undefined) return ORDER[`Host/${kind}`];
  return name === 'ExtensionPoint' ? ORDER[kind] : ORDER[name];
}

function orderFaults(root) {
  const faults = [];
  for (const element of walk(root)) {
    const order = orderOf(element);
    if (order === undefined) continue;
    let last = 0;
    for (const child of element.children) {
      const place = order.indexOf(child.name);
      if (place === -1) faults.push(`<${child.name}> may not stand in <${element.name}>.`);
      else if (place < last) faults.push(`<${child.name}> stands too late in <${element.name}>.`);
      else last = place;
    }
  }
  return faults;
}

function resourceFaults(root) {
  const faults = [];
  const resources = new Map();
  for (const group of walk(root)) {
    if (!['bt:Images', 'bt:Urls', 'bt:ShortStrings', 'bt:LongStrings'].includes(group.name))
      continue;
    for (const { attributes } of group.children) {
      const { id, DefaultValue: value } = attributes;
      if (resources.has(id)) faults.push(`Resource ${id} is declared twice.`);
      resources.set(id, { value, group: group.name });
      if (id.length > LONGEST.resid) faults.push(`Resource id ${id} is longer than 32 characters.`);
      if ((value ?? '') === '') faults.push(`Resource ${id} is empty.`);
      else if (value.length > (LONGEST[group.name] ?? Infinity)) {
        faults.push(`Resource ${id} is longer than ${LONGEST[group.name]} characters.`);
      }
    }
  }
  const used = new Set();
  for (const { name, attributes } of walk(root)) {
    if (attributes.resid === undefined) continue;
    used.add(attributes.resid);
    if (!resources.has(attributes.resid)) {
      faults.push(`<${name}> asks for resource ${attributes.resid}, which is not declared.`);
    }
  }
  for (const id of resources.keys()) {
    if (!used.has(id)) faults.push(`Resource ${id} is declared and never used.`);
  }
  return { faults, resources };
}

/** Width and height from a PNG's header, or undefined when it is no PNG. */
export function pngSize(bytes) {
  if (bytes.length < 24 || bytes.toString('latin1', 1, 4) !== 'PNG') return undefined;
  return { width: bytes.readUInt32BE(16), height: bytes.readUInt32BE(20) };
}

function fileFor(root, url) {
  const path = new URL(url).pathname;
  return path.startsWith('/assets/') ? join(root, path) : join(root, 'dist', path);
}

function urlFaults(root, manifest) {
  const faults = [];
  for (const { name, attributes } of walk(manifest)) {
    const url = attributes.DefaultValue;
    if (url === undefined || !/^https?:/.test(url)) continue;
    if (!url.startsWith(`${BASE}/`)) {
      faults.push(`<${name}> points to ${url}, which is not under ${BASE}.`);
    } else if (!existsSync(fileFor(root, url))) {
      faults.push(`<${name}> points to ${url}, but no such file is built or kept in assets.`);
    }
  }
  return faults;
}

function iconFaults(root, manifest, resources) {
  const wanted = [];
  for (const { name, attributes } of walk(manifest)) {
    if (name === 'IconUrl') wanted.push([attributes.DefaultValue, 32]);
    if (name === 'HighResolutionIconUrl') wanted.push([attributes.DefaultValue, 64]);
    if (name === 'bt:Image' && attributes.size !== undefined) {
      wanted.push([resources.get(attributes.resid)?.value, Number(attributes.size)]);
    }
  }
  const faults = [];
  for (const [url, size] of wanted) {
    if (url === undefined || !existsSync(fileFor(root, url))) continue;
    const real = pngSize(readFileSync(fileFor(root, url)));
    if (real?.width !== size || real.height !== size) {
      faults.push(`${url} must be a PNG of ${size} by ${size} pixels.`);
    }
  }
  return faults;
}

/**
 * Every fault of a manifest, a sentence each.
 *
 * @param {string} source - the manifest's text
 * @param {{ root: string, version: string, namespace: string }} project
 */
export function manifestFaults(source, { root, version, namespace }) {
  let manifest;
  try {
    manifest = parseXml(source);
  } catch (error) {
    return [`The manifest is not well formed: ${error.message}`];
  }
  const faults = orderFaults(manifest);
  const child = (name) => manifest.children.find((element) => element.name === name);
  for (const name of REQUIRED) {
    if (child(name) === undefined) faults.push(`<${name}> is missing.`);
  }
  const id = child('Id')?.text.trim() ?? '';
  if (!/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/.test(id)) {
    faults.push('<Id> must be a random UUID in small letters.');
  }
  const stated = child('Version')?.text.trim();
  if (stated !== `${version}.0`) {
    faults.push(`<Version> is ${stated}; package.json makes it ${version}.0.`);
  }
  const { faults: found, resources } = resourceFaults(manifest);
  faults.push(...found, ...urlFaults(root, manifest), ...iconFaults(root, manifest, resources));
  const spaces = [...walk(manifest)].filter((element) => element.name === 'Namespace');
  const space = resources.get(spaces[0]?.attributes.resid)?.value;
  if (spaces.length !== 1 || space !== namespace) {
    faults.push(`The functions' namespace is ${space ?? 'missing'}; it must be ${namespace}.`);
  }
  const residOf = (name) =>
    [...walk(manifest)].find((element) => element.name === name)?.attributes.resid;
  const page = [...walk(manifest)].find((element) => element.name === 'Page');
  const shared = [residOf('Runtime'), residOf('FunctionFile'), page?.children[0]?.attributes.resid];
  if (new Set(shared).size !== 1) {
    faults.push('Runtime, functions page and function file must share one resource (one runtime).');
  }
  return faults;
}

function main() {
  const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
  const source = readFileSync(join(ROOT, 'manifest.xml'), 'utf8');
  const faults = manifestFaults(source, { root: ROOT, version, namespace: 'SOAK' });
  for (const fault of faults) process.stderr.write(`manifest.xml: ${fault}\n`);
  if (faults.length === 0) process.stdout.write('manifest.xml agrees with the project.\n');
  return faults.length === 0 ? 0 : 1;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) process.exitCode = main();
