/** All help pages as texts by file name. */
import { checksPage } from './checks-page.js';
import type { HelpData } from './data.js';
import { functionPage } from './function-page.js';
import { pageText } from './layout.js';
import { conventionsPage, indexPage } from './pages.js';

export function helpPages(data: HelpData): Map<string, string> {
  const pages = [
    indexPage(data),
    conventionsPage(data),
    checksPage(data),
    ...data.functions.map((fn) => functionPage(data, fn)),
  ];
  return new Map(pages.map((page) => [page.file, pageText(page, data.version)]));
}
