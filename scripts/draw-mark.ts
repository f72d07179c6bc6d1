/** Draws assets/mark.svg and the icons from the coil's own formula: npm run mark. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { initWasm, Resvg } from '@resvg/resvg-wasm';
import { markSvg } from '../src/taskpane/mark.js';

const WATER = '#0b5c8f';
const STEM = '#3b2f2a';
/** Sizes a ribbon and its dialogs ask for [px]. */
export const ICON_SIZES = [16, 32, 64, 80] as const;

/** Files of assets/ by name: the mark as SVG, the icons as PNG. The same drawing gives the same bytes. */
export async function drawMark(): Promise<Map<string, string | Uint8Array>> {
  const wasm = createRequire(import.meta.url).resolve('@resvg/resvg-wasm/index_bg.wasm');
  await initWasm(readFileSync(wasm));
  const files = new Map<string, string | Uint8Array>([
    ['mark.svg', markSvg('full', WATER, STEM)],
    ['mark-small.svg', markSvg('small', WATER, STEM)],
  ]);
  for (const size of ICON_SIZES) {
    const svg = markSvg(size === 16 ? 'small' : 'full', WATER, STEM);
    const drawing = new Resvg(svg, { fitTo: { mode: 'width', value: size } });
    files.set(`icon-${size}.png`, drawing.render().asPng());
    drawing.free();
  }
  return files;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const assets = join(dirname(fileURLToPath(import.meta.url)), '..', 'assets');
  mkdirSync(assets, { recursive: true });
  for (const [name, content] of await drawMark()) writeFileSync(join(assets, name), content);
}
