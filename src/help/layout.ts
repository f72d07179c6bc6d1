/** The frame every help page stands in. */
import { coilPath, MARK } from '../taskpane/mark.js';
import { joined, markup, NOTHING, type Html } from './html.js';

/** Styles and pictures from the page's own place; no script but the index's search. */
const policy = (hasScript: boolean): string =>
  `default-src 'none'; style-src 'self'; img-src 'self'; ${hasScript ? "script-src 'self'; " : ''}base-uri 'none'; form-action 'none'`;

export const PAGES = [
  { file: 'index.html', title: 'All functions' },
  { file: 'conventions.html', title: 'Units, blanks, errors, dates' },
  { file: 'checks.html', title: 'How the numbers are checked' },
] as const;

export interface Page {
  file: string;
  title: string;
  description: string;
  body: Html;
  script?: string;
}

const mark = (): Html => {
  const { coil, stroke, dot } = MARK.full;
  return markup`<svg class="mark" viewBox="0 0 64 64" aria-hidden="true">
<path class="mark-hose" stroke-width="${stroke}" d="${coilPath(coil)}" />
<circle class="mark-stem" cx="32" cy="32" r="${dot}" />
</svg>`;
};

/** A name that may break after its dot and underscores. */
const breakable = (name: string): Html => joined(name.split(/(?<=[._])/), markup`<wbr />`);

/** A whole page as text. */
export function pageText(
  { file, title, description, body, script }: Page,
  version: string,
): string {
  const links = PAGES.map(
    (page) =>
      markup`<li>
<a href="${page.file}"${page.file === file ? markup` aria-current="page"` : ''}>${page.title}</a>
</li>`,
  );
  return markup`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8" />
<meta http-equiv="Content-Security-Policy" content="${policy(script !== undefined)}" />
<meta name="viewport" content="width=device-width, initial-scale=1" />
<meta name="description" content="${description}" />
<title>${title} · Soakbook</title>
<link rel="icon" href="../mark.svg" type="image/svg+xml" />
<link rel="stylesheet" href="../panel.css" />
<link rel="stylesheet" href="help.css" />
${script === undefined ? NOTHING : markup`<script defer src="${script}"></script> `}
</head>
<body class="help follows-scheme">
<a class="skip" href="#content">To the text</a>
<header class="top">
<p class="name">${mark()} Soakbook</p>
<nav aria-label="Help">
<ul>
${links}
</ul>
</nav>
</header>
<main id="content" tabindex="-1">
<h1>${breakable(title)}</h1>
${body}
</main>
<footer class="foot">
<p>Soakbook ${version}. Made from the functions’ own declarations and reference data.</p>
</footer>
</body>
</html> `.text;
}
