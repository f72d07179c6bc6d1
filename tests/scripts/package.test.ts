/** Everything that is handed out says the same: package, manifest, descriptions, help, pages, icons. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { DOCS } from '../../scripts/build-docs.js';
import { fromMarkdown } from '../../scripts/build-docs-markdown.js';
import { translated } from '../../scripts/build-metadata-words.mjs';
import { pathBelow, pngSize } from '../../scripts/check-manifest-files.mjs';
import { parseXml, walk } from '../../scripts/check-manifest-xml.mjs';
import { drawMark, ICON_SIZES } from '../../scripts/draw-mark.js';
import { DEVELOPMENT, PRODUCTION_ID } from '../../scripts/make-manifest.mjs';
import { NAMESPACE } from '../../src/desk/registration.js';
import { soakVersion } from '../../src/functions/crew.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import { builtText } from './built.js';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const file = (...path: string[]): string => readFileSync(join(root, ...path), 'utf8');
interface Described {
  functions: {
    id: string;
    name: string;
    description: string;
    helpUrl: string;
    parameters: { name: string; description: string; customEnumId?: string }[];
  }[];
}
const described = JSON.parse(file('src', 'generated', 'functions.json')) as Described;
const spanish = JSON.parse(file('src', 'generated', 'functions-es.json')) as Described;
const manifest = parseXml(file('manifest.xml'));
const { version } = JSON.parse(file('package.json')) as { version: string };

describe('what is handed out agrees', () => {
  it('on the version: package, manifest, SOAK_VERSION, the foot of help and pages', () => {
    const stated = manifest.children.find(({ name }) => name === 'Version')?.text;
    expect(stated).toBe(`${version}.0`);
    expect(soakVersion()).toBe(version);
    for (const page of [
      ['help', 'index.html'],
      ['help', 'ET0.html'],
      ['docs', 'install.html'],
      ['index.html'],
    ])
      expect(builtText(...page), page.join('/')).toContain(`Soakbook ${version}.`);
  });

  it('on the namespace: manifest, desk, what a build takes when nothing is said', () => {
    const { attributes } = [...walk(manifest)].find(
      (element) => element.attributes['id'] === 'Functions.Namespace',
    )!;
    expect(attributes['DefaultValue']).toBe(NAMESPACE);
    expect(DEVELOPMENT.namespace).toBe(NAMESPACE);
  });

  it('on the functions: registered, described, described in Spanish, helped', () => {
    const ids = Object.keys(FUNCTIONS).sort();
    expect(described.functions.map(({ id }) => id)).toEqual(ids);
    expect(spanish.functions.map(({ id }) => id)).toEqual(ids);
    for (const { id, helpUrl } of [...described.functions, ...spanish.functions]) {
      const path = pathBelow(DEVELOPMENT.base, helpUrl) ?? '';
      expect(path).toBe(`help/${id}.html`);
      expect(builtText(path)).toContain(`· Soakbook</title>`);
    }
  });

  it('on the addresses: each one of the manifest is a file of dist', () => {
    const paths = [...walk(manifest)]
      .flatMap(({ attributes }) => [attributes['DefaultValue'], attributes['Value']])
      .filter((value) => value?.startsWith('https://'))
      .map((url) => pathBelow(DEVELOPMENT.base, url ?? ''));
    expect(paths.length).toBeGreaterThan(12);
    for (const path of paths)
      expect(existsSync(join(root, 'dist', path ?? 'none')), path).toBe(true);
  });

  it('development and production are two add-ins', () => {
    expect(manifest.children[0]?.text).not.toBe(PRODUCTION_ID);
  });
});

describe('the icons', () => {
  it('are what the script draws, byte for byte, and have their sizes', async () => {
    const drawn = await drawMark();
    expect([...drawn.keys()].sort()).toEqual(readdirSync(join(root, 'assets')).sort());
    for (const [name, content] of drawn)
      expect(
        Buffer.compare(readFileSync(join(root, 'assets', name)), Buffer.from(content)),
        `${name}: run npm run mark`,
      ).toBe(0);
    for (const size of ICON_SIZES)
      expect(pngSize(readFileSync(join(root, 'assets', `icon-${size}.png`)))).toEqual({
        width: size,
        height: size,
      });
  });
});

describe('the Spanish descriptions', () => {
  const { sentences, note } = JSON.parse(file('src', 'functions', 'words-es.json')) as {
    sentences: Record<string, string>;
    note: string;
  };

  it('have a sentence for every English one, and none nobody uses', () => {
    const { missing, unused } = translated(described, sentences);
    expect(missing, 'to be translated in src/functions/words-es.json').toEqual([]);
    expect(unused, 'to be taken out of src/functions/words-es.json').toEqual([]);
  });

  it('keep ids, names, parameter names and lists of words', () => {
    const bones = ({ functions }: Described): unknown =>
      functions.map(({ id, name, parameters }) => [
        id,
        name,
        parameters.map((parameter) => [parameter.name, parameter.customEnumId]),
      ]);
    expect(bones(spanish)).toEqual(bones(described));
  });

  it('say the same numbers, the same units and the same words in quotes', () => {
    const facts = (text: string): string[] =>
      [
        ...(text.match(/\d[\d.,]*\d|\d/g) ?? []),
        ...(text.match(/[\w/³°]+ \| [\w/³°]+/g) ?? []),
        ...(text.match(/"[\w #]+"/g) ?? []),
      ].sort();
    // said in words, and so said otherwise
    const inWords = new Set(['"hasta"', 'yards | m³', 'bicas | m³']);
    const told = (text: string): string[] => facts(text).filter((fact) => !inWords.has(fact));
    for (const [english, other] of Object.entries(sentences))
      expect(told(other), english).toEqual(told(english));
  });

  it('are Spanish: no sentence is the English one, and the file says where they come from', () => {
    for (const [english, other] of Object.entries(sentences)) expect(other).not.toBe(english);
    expect(note).toContain('from memory');
  });
});

describe('the pages of docs', () => {
  it('are the files of docs, each with a title', () => {
    const names = readdirSync(join(root, 'docs')).filter((name) => name.endsWith('.md'));
    for (const name of DOCS) expect(names).toContain(`${name}.md`);
    for (const name of DOCS) expect(fromMarkdown(file('docs', `${name}.md`)).title).not.toBe('');
  });

  it('link only to pages that are there', () => {
    for (const name of DOCS) {
      const text = file('docs', `${name}.md`);
      for (const [, target = ''] of text.matchAll(/\]\(([^)#]+)/g))
        expect(
          existsSync(join(root, 'dist', 'docs', target.replace(/\.md$/, '.html'))),
          `${name}: ${target}`,
        ).toBe(true);
    }
  });

  it('name only commands that the scripts know', () => {
    const { scripts } = JSON.parse(file('package.json')) as { scripts: Record<string, string> };
    for (const name of DOCS)
      for (const [, command = ''] of file('docs', `${name}.md`).matchAll(/npm run ([\w:]+)/g))
        expect(Object.keys(scripts), `${name}: npm run ${command}`).toContain(command);
  });
});

describe('the Markdown of docs', () => {
  const body = (text: string): string => fromMarkdown(`# T\n\n${text}`).body.text;

  it('makes what it knows and escapes what it is given', () => {
    expect(body('a `b<c` **d** [e](f.md#g)')).toBe(
      '<p>a <code>b&lt;c</code> <strong>d</strong> <a href="f.html#g">e</a></p>',
    );
    expect(body('- a\n  b\n- c')).toBe('<ul><li>a b</li><li>c</li></ul>');
    expect(body('1. a\n2. b')).toBe('<ol><li>a</li><li>b</li></ol>');
    expect(body('## A “b” c')).toBe('<h2 id="a-b-c">A “b” c</h2>');
    expect(body('```\na\n\n<b>\n```')).toBe('<pre><code>a\n\n&lt;b&gt;</code></pre>');
    expect(body('| a | b |\n|---|---|\n| 1 | 2 |')).toContain('<tr><td>1</td><td>2</td></tr>');
  });

  it.each([
    ['> quoted', 'is no Markdown these pages know'],
    ['#### deep', 'must be of level 2 or 3'],
    ['| a | b |\n| 1 | 2 |', 'lacks its rule of dashes'],
    ['| a | b |\n|---|---|\n| 1 |', 'another number of cells'],
    ['```\na', 'is not closed'],
  ])('refuses %j instead of guessing', (text, sentence) => {
    expect(() => body(text)).toThrow(sentence);
  });
});
