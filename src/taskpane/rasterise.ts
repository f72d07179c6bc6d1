/**
 * SVG to PNG by the browser itself: the drawing is loaded as an image and laid on a canvas. An image runs no script and
 * fetches nothing. The page's policy must allow images from `blob:`.
 */
import { Problem } from '../engine/problems.js';
import type { Rasterise } from '../workbook/model.js';

const cannot = (why: string): Problem => new Problem(`a picture cannot be drawn: ${why}`);

async function load(svg: string): Promise<HTMLImageElement> {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  const image = new Image();
  image.src = address;
  try {
    await image.decode();
  } catch {
    throw cannot('this browser does not read it as an SVG drawing');
  } finally {
    URL.revokeObjectURL(address);
  }
  if (image.naturalWidth === 0 || image.naturalHeight === 0)
    throw cannot('it has no width and height of its own');
  return image;
}

/**
 * @param svg - a whole SVG document with width and height
 * @param pixelsWide - width of the image; its height follows
 * @throws Problem if the drawing cannot be read, or the width is no whole number from 1 to 8000
 */
export const rasterise: Rasterise = async (svg, pixelsWide) => {
  if (!(Number.isInteger(pixelsWide) && pixelsWide >= 1 && pixelsWide <= 8000))
    throw new Problem(`a picture ${pixelsWide} px wide; whole numbers from 1 to 8000 are accepted`);
  const image = await load(svg);
  const canvas = document.createElement('canvas');
  canvas.width = pixelsWide;
  canvas.height = Math.round((pixelsWide * image.naturalHeight) / image.naturalWidth);
  const ground = canvas.getContext('2d');
  if (!ground) throw cannot('this browser gives no canvas to draw on');
  ground.drawImage(image, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
  if (!blob) throw cannot('this browser makes no PNG image of it');
  return new Uint8Array(await blob.arrayBuffer());
};
