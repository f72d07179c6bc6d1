/**
 * Writes the pages of docs/ beside the built files, and the page a visitor of the bare address sees.
 *
 *   npx tsx scripts/build-docs.ts [folder]     default: dist; webpack.config.js does it in every build
 */
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { markup, type Html } from '../src/help/html.js';
import { fromMarkdown } from './build-docs-markdown.js';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const POLICY =
  "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'";

/** The pages of docs/ that are handed out with the files. */
export const DOCS = [
  'install',
  'install-company',
  'web',
  'sheets',
  'upgrading',
  'troubleshooting',
  'privacy',
  'numbers',
  'limits',
] as const;

interface Frame {
  title: string;
  body: Html;
  /** from the page to the folder the files are served from: "" or "../" */
  up: string;
  links: readonly (readonly [target: string, words: string])[];
  version: string;
}

function pageText({ title, body, up, links, version }: Frame): string {
  return markup`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8" />
<meta http-equiv="Content-Security-Policy" content="${POLICY}" />
<meta name="viewport" content="width=device-width, initial-scale=1" />
<title>${title} · Soakbook</title>
<link rel="icon" href="${up}mark.svg" type="image/svg+xml" />
<link rel="stylesheet" href="${up}panel.css" />
<link rel="stylesheet" href="${up}help/help.css" />
</head>
<body class="help follows-scheme">
<a class="skip" href="#content">To the text</a>
<header class="top">
<p class="name"><img class="mark" src="${up}mark.svg" alt="" /> Soakbook</p>
<nav aria-label="Pages">
<ul>
${links.map(([target, words]) => markup`<li><a href="${target}">${words}</a></li>`)}
</ul>
</nav>
</header>
<main id="content" tabindex="-1">
<h1>${title}</h1>
${body}
</main>
<footer class="foot">
<p>Soakbook ${version}.</p>
</footer>
</body>
</html>
`.text;
}

const FRONT = `# Soakbook

Worksheet functions and a planner that turn a tree inventory into a legal, costed watering schedule.

- [Install it in the spreadsheet program](docs/install.html)
- [Install it for a company](docs/install-company.html)
- [Open the desk](desk.html), a page with its own grid, without the spreadsheet program
- [Function help](help/index.html)
- [manifest.xml](manifest.xml), the file that the spreadsheet program is given
- [Privacy](docs/privacy.html)
- [When something does not work](docs/troubleshooting.html)
`;

/** Writes index.html and docs/*.html into a built folder; gives the number of pages. */
export function writeDocs(dist: string): number {
  const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
    version: string;
  };
  const folder = join(dist, 'docs');
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const linksFrom = (up: string, docs: string): Frame['links'] => [
    [`${up}index.html`, 'Start'],
    [`${docs}install.html`, 'Install'],
    [`${docs}troubleshooting.html`, 'Troubleshooting'],
    [`${up}help/index.html`, 'Function help'],
  ];
  const links = linksFrom('../', '');
  for (const name of DOCS) {
    const file = `docs/${name}.md`;
    const page = fromMarkdown(readFileSync(join(ROOT, file), 'utf8'), file);
    writeFileSync(join(folder, `${name}.html`), pageText({ ...page, up: '../', links, version }));
  }
  const front = fromMarkdown(FRONT);
  const text = pageText({ ...front, up: '', links: linksFrom('', 'docs/'), version });
  writeFileSync(join(dist, 'index.html'), text);
  return DOCS.length + 1;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const folder = process.argv[2] ?? join(ROOT, 'dist');
  process.stdout.write(`${writeDocs(folder)} pages in ${folder}\n`);
}
