import { describe, expect, it } from 'vitest';
import { makePdf } from '../../../src/workbook/exports/pdf.js';
import { unparted, unpartedIn } from '../../../src/workbook/exports/unparted.js';
import { FONTS, readPdf, skipWithoutPoppler } from './samples.js';

describe('a number on paper', () => {
  it('keeps its unit, and hours their minutes', () => {
    expect(unparted('driving 26 min · in all 4 h 3 min')).toBe(
      'driving 26\u00a0min · in all 4\u00a0h\u00a03\u00a0min',
    );
    expect(unparted('1,234 gal each · 2 in down')).toBe('1,234\u00a0gal each · 2\u00a0in down');
    expect(unparted('250 L en total, 4 h 30 min')).toBe(
      '250\u00a0L en total, 4\u00a0h\u00a030\u00a0min',
    );
  });

  it('is parted from words that only begin like a unit', () => {
    for (const text of ['row 12 hand hose', '3 Lantern Steps', '4 mini trees', '12 ash'])
      expect(unparted(text)).toBe(text);
  });

  it('is left as it is in a drawing and in the settings of a page', () => {
    const data = { stack: [{ svg: 'M 4 h 3 m 2' }, { text: '4 h', id: '4 h' }] };
    expect(unpartedIn(data)).toEqual({
      stack: [{ svg: 'M 4 h 3 m 2' }, { text: '4\u00a0h', id: '4 h' }],
    });
  });

  it.skipIf(skipWithoutPoppler())('stands whole on one line at any width', async () => {
    const texts = Array.from({ length: 40 }, (_, i) => ({
      text: `${'x'.repeat(i)} in all 4 h 3 min`,
      width: 170,
    }));
    const pages = { paper: 'letter' as const, title: 't', madeOn: 46461 };
    const content = texts.map(({ text, width }) => ({ columns: [{ text, width }] }));
    const { text } = readPdf(await makePdf({ ...pages, content }, FONTS));
    expect(text.match(/4 h 3 min/g)).toHaveLength(40);
  });
});
