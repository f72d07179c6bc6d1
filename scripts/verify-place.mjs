/**
 * What must hold of the files at a place of service, whether a folder or an address: the manifest and all it points
 * to, functions and their descriptions, help, and what the pages ask for.
 */
import { runInNewContext } from 'node:vm';
import { manifestFaults } from './check-manifest.mjs';
import { pathBelow } from './check-manifest-files.mjs';
import { ManifestFault, parseXml, walk } from './check-manifest-xml.mjs';

/** Pages a person can come to; their scripts, styles, pictures and links are followed. */
const PAGES = ['index.html', 'taskpane.html', 'desk.html', 'help/index.html'];
/** The one file of another place: the spreadsheet program's own library. */
const HOST_LIBRARY = 'https://appsforoffice.microsoft.com/lib/1/hosted/office.js';

const TYPES = {
  js: /^(text|application)\/javascript\b/,
  json: /^application\/json\b/,
  html: /^text\/html\b/,
  css: /^text\/css\b/,
  svg: /^image\/svg\+xml\b/,
  png: /^image\/png\b/,
  xml: /^(text|application)\/xml\b/,
  wasm: /^application\/wasm\b/,
};
/** Files that the program on the web reads from its own address. */
const SHARED = ['functions.js', 'functions.json', 'functions-es.json'];

const textOf = (file) => file.bytes.toString('utf8');

/** What functions.js ties to names, run alone as the functions' runtime would. */
function associatedBy(script) {
  const functions = new Map();
  const CustomFunctions = { associate: (id, fn) => functions.set(id, fn) };
  runInNewContext(script, { CustomFunctions }, { timeout: 20_000 });
  return functions;
}

/** The manifest, and everything it points to. */
async function* manifestPart(source, place, version) {
  const file = await source.load('manifest.xml');
  if (file === undefined) return void (yield 'manifest.xml is missing.');
  const text = textOf(file);
  const found = new Map();
  try {
    for (const { attributes } of walk(parseXml(text)))
      for (const url of [attributes.DefaultValue, attributes.Value]) {
        const path = url === undefined ? undefined : pathBelow(place.base, url);
        if (path !== undefined && !found.has(path))
          found.set(path, (await source.load(path))?.bytes);
      }
  } catch (error) {
    if (!(error instanceof ManifestFault)) throw error;
  }
  const read = (path) => found.get(path);
  for (const { line, sentence } of manifestFaults(text, { ...place, version, read }))
    yield `manifest.xml:${line}: ${sentence}`;
}

const signature = ({ functions }) =>
  functions.map(({ id, parameters }) => `${id}(${parameters.map(({ name }) => name).join(', ')})`);

/** Descriptions against the functions themselves, and a help page for each. */
async function* functionsPart(source, { base }, functions) {
  const described = JSON.parse(textOf(await source.load('functions.json')));
  const spanish = JSON.parse(textOf(await source.load('functions-es.json')));
  const ids = described.functions.map(({ id }) => id);
  for (const id of ids)
    if (!functions.has(id)) yield `functions.json describes ${id}, which functions.js lacks.`;
  for (const id of functions.keys())
    if (!ids.includes(id)) yield `functions.js has ${id}, which functions.json does not describe.`;
  if (signature(described).join() !== signature(spanish).join())
    yield 'functions-es.json describes other functions or parameters than functions.json.';
  for (const { id, helpUrl } of [...described.functions, ...spanish.functions]) {
    const path = pathBelow(base, helpUrl);
    if (path === undefined) yield `The help of ${id} is at ${helpUrl}, which is not under ${base}.`;
    else if ((await source.load(path)) === undefined) yield `The help page ${path} is missing.`;
  }
}

/** What a page asks for: scripts, styles, pictures, links. */
const asksFor = (html) =>
  [...html.matchAll(/<(?:script|link|img|a)\b[^>]*?\s(?:src|href)="([^"]*)"/g)].map(([, to]) =>
    to.replace(/[?#].*$/, ''),
  );

/** The pages, followed from the first ones to all that can be reached. */
async function* pagesPart(source) {
  const waiting = PAGES.map((path) => [path, 'the list of pages']);
  const seen = new Set();
  for (const [path, from] of waiting) {
    if (seen.has(path)) continue;
    seen.add(path);
    const file = await source.load(path);
    if (file === undefined) {
      yield `${path} is missing; ${from} asks for it.`;
      continue;
    }
    if (!path.endsWith('.html')) continue;
    const html = textOf(file);
    if (!html.includes('http-equiv="Content-Security-Policy"'))
      yield `${path} carries no content security policy.`;
    for (const to of asksFor(html)) {
      if (to === '' || to === HOST_LIBRARY) continue;
      if (/^[a-z][a-z0-9+.-]*:/i.test(to)) yield `${path} asks another place for ${to}.`;
      else waiting.push([new URL(to, `https://place/${path}`).pathname.slice(1), path]);
    }
  }
}

/** How a server hands the files out. */
async function* headersPart(source, paths) {
  for (const path of paths) {
    const headers = (await source.load(path))?.headers;
    if (headers === undefined) continue;
    const wanted = TYPES[path.split('.').pop()];
    const type = headers['content-type'] ?? 'none';
    if (wanted !== undefined && !wanted.test(type)) yield `${path} comes with the type ${type}.`;
    if (SHARED.includes(path) && headers['access-control-allow-origin'] !== '*')
      yield `${path} comes without "Access-Control-Allow-Origin: *"; the program on the web cannot read it.`;
    if (/no-store/.test(headers['cache-control'] ?? '') && path.startsWith('assets/'))
      yield `${path} comes with no-store; icons that may not be kept are not shown.`;
    const framed = /frame-ancestors/.test(headers['content-security-policy'] ?? '');
    if (path.endsWith('.html') && (headers['x-frame-options'] !== undefined || framed))
      yield `${path} comes with a header that forbids frames; the program on the web shows it in one.`;
  }
}

/**
 * Every fault of a place, a sentence each.
 *
 * @param source - from verify-sources.mjs, remembering
 * @param {string | undefined} address - the address it must have been built for, when it is known
 */
export async function placeFaults(source, address) {
  const stamp = await source.load('built.txt');
  if (stamp === undefined) return [`${source.name} holds no finished build: built.txt is missing.`];
  const [, base = '', namespace = ''] = textOf(stamp).split('\n');
  const faults = [];
  if (address !== undefined && base !== address)
    faults.push(`These files were built for ${base}, not for ${address}; build them for it.`);
  const script = await source.load('functions.js');
  if (script === undefined) return [...faults, 'functions.js is missing.'];
  for (const path of ['functions.json', 'functions-es.json'])
    if ((await source.load(path)) === undefined) return [...faults, `${path} is missing.`];
  let functions;
  try {
    functions = associatedBy(textOf(script));
  } catch (error) {
    return [...faults, `functions.js does not run: ${error.message}`];
  }
  const version = functions.get('SOAK_VERSION')?.();
  const parts = [
    manifestPart(source, { base, namespace }, version),
    functionsPart(source, { base }, functions),
    pagesPart(source),
    headersPart(source, [...PAGES, ...SHARED, 'manifest.xml', 'assets/icon-32.png', 'panel.css']),
  ];
  for (const part of parts) for await (const fault of part) faults.push(fault);
  return [...new Set(faults)];
}
