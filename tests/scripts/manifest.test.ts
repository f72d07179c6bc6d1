import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { manifestFaults } from '../../scripts/check-manifest.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
  version: string;
};
const source = readFileSync(join(root, 'manifest.xml'), 'utf8');
const faults = (text: string): string[] =>
  manifestFaults(text, { root, version, namespace: 'SOAK' });

/** The manifest with one thing changed; the change must have found its place. */
function changed(from: string | RegExp, to: string): string[] {
  const text = source.replace(from, to);
  expect(text).not.toBe(source);
  return faults(text);
}

describe('the manifest check', () => {
  it('finds nothing wrong with ours', () => {
    expect(faults(source)).toEqual([]);
  });

  it.each([
    ['an element out of order', /(<Hosts>\s*<Host Name[\s\S]*?<\/Hosts>)\s*(<Requirements>[\s\S]*?<\/Requirements>)/, '$2$1', '<Hosts> stands too late in <OfficeApp>.'],
    ['a resource nobody declared', 'resid="Start.Title"', 'resid="Start.Titel"', '<Title> asks for resource Start.Titel, which is not declared.'],
    ['a resource declared twice', '<bt:String id="Start.Title"', '<bt:String id="Group.Label"', 'Resource Group.Label is declared twice.'],
    ['a resource id that is too long', /Start\.Text/g, 'Start.TextOfMoreThanThirtyTwoLetters', 'Resource id Start.TextOfMoreThanThirtyTwoLetters is longer than 32 characters.'],
    ['a page that is not built', 'taskpane.html" />\n      </bt:Urls>', 'pane.html" />\n      </bt:Urls>', '<bt:Url> points to https://localhost:3000/pane.html, but no such file is built or kept in assets.'],
    ['a page elsewhere', 'https://localhost:3000/functions.js"', 'https://elsewhere.example/functions.js"', '<bt:Url> points to https://elsewhere.example/functions.js, which is not under https://localhost:3000.'],
    ['an icon of the wrong size', 'icon-16.png', 'icon-32.png', 'https://localhost:3000/assets/icon-32.png must be a PNG of 16 by 16 pixels.'],
    ['another version', /<Version>.*?<\/Version>/, '<Version>9.9.9.0</Version>', `<Version> is 9.9.9.0; package.json makes it ${version}.0.`],
    ['another namespace', 'DefaultValue="SOAK"', 'DefaultValue="SOAKS"', "The functions' namespace is SOAKS; it must be SOAK."],
    ['two runtimes', '<FunctionFile resid="Pane.Url" />', '<FunctionFile resid="Functions.Script" />', 'Runtime, functions page and function file must share one resource (one runtime).'],
    ['a missing element', /<Permissions>.*?<\/Permissions>/, '', '<Permissions> is missing.'],
  ])('reports %s', (_, from, to, sentence) => {
    expect(changed(from, to)).toContain(sentence);
  }); // prettier-ignore

  it('reports a tag that is not closed instead of guessing', () => {
    expect(changed('</Resources>', '')).toEqual([
      'The manifest is not well formed: </VersionOverrides> closes <Resources>.',
    ]);
  });
});
