/**
 * SVG to PNG without a browser, by resvg as WebAssembly. It has no fonts but those handed in, so the same drawing gives
 * the same bytes on every machine.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { initWasm, Resvg } from '@resvg/resvg-wasm';
import { Problem } from '../engine/problems.js';
import type { Rasterise } from '../workbook/model.js';

const require = createRequire(import.meta.url);
const FACE = 'DejaVu Sans';
const FONTS = ['DejaVuSans.ttf', 'DejaVuSans-Bold.ttf'];

interface Ready {
  fonts: Uint8Array[];
}

let ready: Promise<Ready> | undefined;

/** Loads the program and the typeface, once. */
async function load(): Promise<Ready> {
  await initWasm(readFileSync(require.resolve('@resvg/resvg-wasm/index_bg.wasm')));
  const fonts = FONTS.map((file) =>
    Uint8Array.from(readFileSync(require.resolve(`dejavu-fonts-ttf/ttf/${file}`))),
  );
  return { fonts };
}

/**
 * @param svg - a whole SVG document
 * @param pixelsWide - width of the image; its height follows
 * @throws Problem if the text is no SVG, or the width no whole number from 1 to 8000
 */
export const rasterise: Rasterise = async (svg, pixelsWide) => {
  if (!(Number.isInteger(pixelsWide) && pixelsWide >= 1 && pixelsWide <= 8000))
    throw new Problem(`a picture ${pixelsWide} px wide; whole numbers from 1 to 8000 are accepted`);
  const { fonts } = await (ready ??= load());
  let drawing: InstanceType<typeof Resvg>;
  try {
    drawing = new Resvg(svg, {
      fitTo: { mode: 'width', value: pixelsWide },
      font: { fontBuffers: fonts, defaultFontFamily: FACE, sansSerifFamily: FACE },
    });
  } catch (error) {
    throw new Problem(`a picture cannot be drawn: ${error instanceof Error ? error.message : String(error)}`); // prettier-ignore
  }
  const image = drawing.render();
  try {
    return image.asPng();
  } finally {
    image.free();
    drawing.free();
  }
};
