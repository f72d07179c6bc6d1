/** Drawings are hung anew; every other part of the file comes out as it went in. */
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { exactPictures } from '../../src/workbook/writers/exact-pictures.js';

const anchor = (tag: string, inside: string): string => `<xdr:${tag}>${inside}</xdr:${tag}>`;
const PICTURE = '<xdr:pic><a:ext cx="7" cy="9"/></xdr:pic>';
const FROM = '<xdr:from>f</xdr:from>';
const STRETCHED = anchor('twoCellAnchor', `${FROM}<xdr:to>t</xdr:to>${PICTURE}`);
const EXACT = anchor('oneCellAnchor', `${FROM}<xdr:ext cx="7" cy="9"/>${PICTURE}`);

const noise = Uint8Array.from({ length: 200_000 }, (_, i) => (i * i * 31) % 251);
const file = (): Uint8Array =>
  zipSync(
    {
      '[Content_Types].xml': strToU8('<Types/>'),
      'xl/worksheets/sheet1.xml': strToU8('<row/>'.repeat(50_000)),
      'xl/media/image1.png': [noise, { level: 0 }],
      'xl/drawings/drawing1.xml': strToU8(STRETCHED),
      'xl/empty.xml': new Uint8Array(),
    },
    { mtime: new Date(2001, 2, 3) },
  );

describe('a file whose pictures were made exact', () => {
  const [before, bytes] = [file(), exactPictures(file())];
  const after = unzipSync(bytes);

  it('has its parts in the same order, drawings hung on one cell, all else byte for byte', () => {
    const parts = unzipSync(before);
    expect(Object.keys(after)).toEqual(Object.keys(parts));
    expect(strFromU8(after['xl/drawings/drawing1.xml']!)).toBe(EXACT);
    for (const [name, content] of Object.entries(parts))
      if (!name.includes('drawing')) expect(Buffer.compare(after[name]!, content), name).toBe(0);
  });
  it('is the same whenever it is made, and hardly larger', () => {
    expect(Buffer.compare(exactPictures(file()), bytes)).toBe(0);
    expect(bytes.length).toBeLessThan(before.length + 500);
  });
});
