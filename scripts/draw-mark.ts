/** Draws assets/mark.svg and the icons from the coil's own formula: npm run mark. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { markSvg } from '../src/taskpane/mark.js';
import { findBrowser } from './find-browser.mjs';

const WATER = '#0b5c8f';
const STEM = '#3b2f2a';
const assets = join(dirname(fileURLToPath(import.meta.url)), '..', 'assets');
mkdirSync(assets, { recursive: true });
writeFileSync(join(assets, 'mark.svg'), markSvg('full', WATER, STEM));
writeFileSync(join(assets, 'mark-small.svg'), markSvg('small', WATER, STEM));

const executablePath = findBrowser();
if (executablePath === undefined) throw new Error('No browser found to draw the icons with.');
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
const page = await browser.newPage();
for (const size of [16, 32, 64, 80]) {
  await page.setViewportSize({ width: size, height: size });
  const svg = markSvg(size === 16 ? 'small' : 'full', WATER, STEM);
  await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw}</style>${svg}`);
  await page.screenshot({ path: join(assets, `icon-${size}.png`), omitBackground: true });
}
await browser.close();
