/** A hose as it is laid: the workbook's drawing in the panel's language and colours. */
import { coilDrawing, coilTitle } from '../../workbook/coil-diagram.js';
import type { CoilSeries } from '../../workbook/series-types.js';
import { figure } from './figure.js';
import type { PictureWords } from './words.js';

/**
 * @param width - of the drawing, at most [px]
 */
export function coilPicture(
  { facts }: CoilSeries,
  words: PictureWords,
  width: number,
): HTMLElement {
  const { svg, alt, width: own, height } = coilDrawing(facts, words.coil, false);
  const read = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  const drawing = document.importNode(read, true) as unknown as SVGElement;
  const shown = Math.min(width, own);
  drawing.setAttribute('width', String(shown));
  drawing.setAttribute('height', String((shown * height) / own));
  // the figure's title and label say the same
  drawing.querySelector('title')?.remove();
  drawing.querySelector('desc')?.remove();
  return figure({
    name: 'picture-coil',
    title: coilTitle(facts, words.coil),
    alt,
    drawing,
    key: [],
  });
}
