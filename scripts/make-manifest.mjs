/**
 * What differs from one place of service to another: the manifest and the addresses in the descriptions of the
 * functions. manifest.xml in the project's folder is the development variant and the source of every other.
 *
 *   SOAKBOOK_BASE       https address the files are served from; default https://localhost:3000
 *   SOAKBOOK_NAMESPACE  what stands before the dot in =SOAK.ET0(); default SOAK
 */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { NAMESPACE_FORM } from './check-manifest-values.mjs';

/** Where the add-in is served while it is developed, as manifest.xml and src/generated say. */
export const DEVELOPMENT = Object.freeze({ base: 'https://localhost:3000', namespace: 'SOAK' });

/** The add-in's id wherever it is in earnest. For ever: the spreadsheet program knows the add-in by it. */
export const PRODUCTION_ID = '20a3d116-1ba6-4875-aed8-6c8cde5ebf0d';

/**
 * Base and namespace from the environment.
 *
 * @throws Error saying what is accepted
 */
export function settingsFrom(env) {
  const given = env.SOAKBOOK_BASE || DEVELOPMENT.base;
  const namespace = env.SOAKBOOK_NAMESPACE || DEVELOPMENT.namespace;
  const url = URL.canParse(given) ? new URL(given) : undefined;
  if (
    url?.protocol !== 'https:' ||
    url.username !== '' ||
    url.search !== '' ||
    url.hash !== '' ||
    /[\s"<>&]/.test(given)
  )
    throw new Error(
      `SOAKBOOK_BASE must be an https address without "?" or "#", such as https://example.com/soakbook; got "${given}".`,
    );
  if (!NAMESPACE_FORM.test(namespace))
    throw new Error(
      `SOAKBOOK_NAMESPACE must be 3 to 20 capital letters and digits, a letter first; got "${namespace}".`,
    );
  return { base: url.href.replace(/\/+$/, ''), namespace };
}

/** An id of its own for another namespace, always the same one, in the form of a random UUID. */
function idFor(id, namespace) {
  const hex = createHash('sha256').update(`${id} ${namespace}`).digest('hex');
  const variant = '89ab'[Number.parseInt(hex[16], 16) % 4];
  return [
    hex.slice(0, 8),
    hex.slice(8, 12),
    `4${hex.slice(13, 16)}`,
    `${variant}${hex.slice(17, 20)}`,
    hex.slice(20, 32),
  ].join('-');
}

/** Replaces what stands once; a source that has changed its shape is an error and not an unchanged file. */
function replaceOnce(text, pattern, replacement) {
  const found = text.match(new RegExp(pattern, 'g'))?.length ?? 0;
  if (found !== 1)
    throw new Error(`manifest.xml must hold ${pattern} once; it is there ${found} times.`);
  return text.replace(pattern, () => replacement);
}

/**
 * The manifest for one place.
 *
 * @param {string} source - manifest.xml, the development variant
 * @param {{ base: string, namespace: string }} settings
 */
export function manifestFor(source, { base, namespace }) {
  if (base === DEVELOPMENT.base && namespace === DEVELOPMENT.namespace) return source;
  const developed = base === DEVELOPMENT.base;
  const ownId = developed ? /<Id>(.*?)<\/Id>/.exec(source)?.[1] : PRODUCTION_ID;
  const id = namespace === DEVELOPMENT.namespace ? ownId : idFor(ownId, namespace);
  const marks = [
    developed ? 'development' : '',
    namespace === DEVELOPMENT.namespace ? '' : namespace,
  ];
  const mark = marks.filter(Boolean).join(', ');
  let text = replaceOnce(source, /<!-- The development variant[\s\S]*?-->\n/, '');
  text = replaceOnce(text, /<Id>.*?<\/Id>/, `<Id>${id}</Id>`);
  text = replaceOnce(
    text,
    /<DisplayName DefaultValue="[^"]*"/,
    `<DisplayName DefaultValue="Soakbook${mark === '' ? '' : ` (${mark})`}"`,
  );
  text = replaceOnce(
    text,
    /<bt:String id="Functions\.Namespace" DefaultValue="[^"]*"/,
    `<bt:String id="Functions.Namespace" DefaultValue="${namespace}"`,
  );
  text = replaceOnce(
    text,
    /<AppDomain>.*?<\/AppDomain>/,
    `<AppDomain>${new URL(base).origin}</AppDomain>`,
  );
  return text.replaceAll(`"${DEVELOPMENT.base}/`, () => `"${base}/`);
}

/** A description of the functions with its help at another base. */
export function describedAt(described, base) {
  for (const { id, helpUrl } of described.functions)
    if (!helpUrl.startsWith(`${DEVELOPMENT.base}/`))
      throw new Error(`functions.json: the help of ${id} is not at ${DEVELOPMENT.base}.`);
  const functions = described.functions.map((fn) => ({
    ...fn,
    helpUrl: base + fn.helpUrl.slice(DEVELOPMENT.base.length),
  }));
  return { ...described, functions };
}

/**
 * Writes what depends on the place into a built folder: manifest.xml, functions.json, functions-es.json.
 *
 * @param {string} root - the project's folder
 * @param {string} dist - the built folder
 * @param {{ base: string, namespace: string }} settings
 */
export function writePlace(root, dist, settings) {
  const source = readFileSync(join(root, 'manifest.xml'), 'utf8');
  writeFileSync(join(dist, 'manifest.xml'), manifestFor(source, settings));
  for (const name of ['functions.json', 'functions-es.json']) {
    const text = readFileSync(join(root, 'src', 'generated', name), 'utf8');
    const described = describedAt(JSON.parse(text), settings.base);
    writeFileSync(join(dist, name), `${JSON.stringify(described, null, 2)}\n`);
  }
}

/** The stamp of a finished build: when, and for which place. */
export const stampText = ({ base, namespace }) =>
  `${new Date().toISOString()}\n${base}\n${namespace}\n`;

/** The place dist/ was built for, or undefined when there is no finished build. */
export function readStamp(root) {
  const file = join(root, 'dist', 'built.txt');
  if (!existsSync(file)) return undefined;
  const [, base, namespace] = readFileSync(file, 'utf8').split('\n');
  return base && namespace ? { base, namespace } : undefined;
}
