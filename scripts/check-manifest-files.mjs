/** What a manifest points to: every address under the base, every file there, icons of their sizes. */
import { walk } from './check-manifest-xml.mjs';

/** Width and height from a PNG's header, or undefined when it is no PNG. */
export function pngSize(bytes) {
  if (bytes.length < 24 || bytes.toString('latin1', 1, 4) !== 'PNG') return undefined;
  return { width: bytes.readUInt32BE(16), height: bytes.readUInt32BE(20) };
}

/** The path below the base that an address names, or undefined when it lies elsewhere. */
export const pathBelow = (base, url) =>
  url.startsWith(`${base}/`)
    ? decodeURIComponent(new URL(url).pathname.slice(new URL(`${base}/`).pathname.length))
    : undefined;

/** Every value that is an address, with its element's name and line. */
function* addresses(root) {
  for (const { name, attributes, line } of walk(root))
    for (const value of [attributes.DefaultValue, attributes.Value])
      if (value !== undefined && /^[a-z][a-z0-9+.-]*:\/\//i.test(value)) yield [name, value, line];
}

function* addressFaults(root, { base, read }) {
  for (const [name, url, line] of addresses(root)) {
    const path = pathBelow(base, url);
    if (!url.startsWith('https://')) yield [line, `<${name}> points to ${url}; it must be https.`];
    else if (path === undefined)
      yield [line, `<${name}> points to ${url}, which is not under ${base}.`];
    else if (read(path) === undefined)
      yield [line, `<${name}> points to ${url}, but there is no file ${path}.`];
  }
  for (const { name, text, line } of walk(root)) {
    if (name !== 'AppDomain') continue;
    const { origin } = new URL(base);
    if (text.trim() !== origin)
      yield [line, `<AppDomain> is "${text.trim()}"; it must be ${origin}.`];
  }
}

/** Addresses that must be addresses: a value without "https:" would pass unseen. */
function* missingAddresses(root, resources) {
  for (const { name, attributes, line } of root.children)
    if (/Url$/.test(name) && !/:\/\//.test(attributes.DefaultValue ?? ''))
      yield [line, `<${name}> must hold an https address.`];
  for (const [id, { value, group, line }] of resources)
    if ((group === 'bt:Urls' || group === 'bt:Images') && !/:\/\//.test(value))
      yield [line, `Resource ${id} must hold an https address.`];
}

function* iconFaults(root, resources, { base, read }) {
  const wanted = [];
  for (const { name, attributes, line } of walk(root)) {
    if (name === 'IconUrl') wanted.push([attributes.DefaultValue, 32, line]);
    if (name === 'HighResolutionIconUrl') wanted.push([attributes.DefaultValue, 64, line]);
    if (name === 'bt:Image' && attributes.size !== undefined)
      wanted.push([resources.get(attributes.resid)?.value, Number(attributes.size), line]);
  }
  for (const [url, size, line] of wanted) {
    const path = url === undefined ? undefined : pathBelow(base, url);
    const bytes = path === undefined ? undefined : read(path);
    if (bytes === undefined) continue;
    const real = pngSize(bytes);
    if (real?.width !== size || real.height !== size)
      yield [line, `${url} must be a PNG of ${size} by ${size} pixels.`];
  }
}

/** Faults of addresses and files, as [line, sentence]. */
export function fileFaults(root, resources, place) {
  return [
    ...missingAddresses(root, resources),
    ...addressFaults(root, place),
    ...iconFaults(root, resources, place),
  ];
}
