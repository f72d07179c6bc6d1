/** The panel's host while the grid is on its way: sheets in hand are read, what needs the grid waits for it. */
import { describe, expect, it } from 'vitest';
import { deskHost, type ComingBook } from '../../src/desk/desk-host.js';
import type { DeskGrid } from '../../src/desk/grid.js';
import { plainSheet } from '../../src/desk/sheets.js';

const book = (): ComingBook => ({
  title: 'Invented',
  sheets: [
    plainSheet('Trees', { cells: [['Tree'], ['T1']] }),
    plainSheet('Rules', { cells: [['Rule'], ['R1']] }),
  ],
  settings: new Map([['draft', 'kept']]),
});

/** A grid of which nothing is used but what is given. */
const gridOf = (parts: Partial<DeskGrid>): DeskGrid => parts as DeskGrid;
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

describe('the desk before its grid is there', () => {
  it('reads the sheets and settings that are about to go into it', async () => {
    const host = deskHost(Promise.resolve(book()), new Promise(() => undefined));
    expect(await host.openSheets()).toEqual(['Trees', 'Rules']);
    expect(await host.sheetName()).toBe('Trees');
    expect((await host.readActiveTable()).cells).toEqual([['Tree'], ['T1']]);
    expect((await host.readTable('Rules')).cells).toEqual([['Rule'], ['R1']]);
    expect((await host.readTable('None')).cells).toEqual([]);
    expect(await host.readSetting('draft')).toBe('kept');
  });

  it('keeps a setting where the grid will find it', async () => {
    const given = book();
    const host = deskHost(Promise.resolve(given), new Promise(() => undefined));
    await host.writeSetting('language', 'es');
    expect(given.settings.get('language')).toBe('es');
    expect(await host.readSetting('language')).toBe('es');
  });

  it('says what went wrong with the sample to whoever reads it', async () => {
    const host = deskHost(Promise.reject(new Error('not served')), new Promise(() => undefined));
    await expect(host.openSheets()).rejects.toThrow('not served');
  });

  it('does in the grid what was asked before it came, and reads from it afterwards', async () => {
    const asked: string[] = [];
    let bring: (grid: DeskGrid) => void = () => undefined;
    const coming = new Promise<DeskGrid>((resolve) => (bring = resolve));
    const host = deskHost(Promise.resolve(book()), coming);
    host.onChange(() => asked.push('a change'));
    const shown = host.showCell(3, 1, 'Trees');
    await settled();
    expect(asked).toEqual([]);
    bring(
      gridOf({
        onChange: (listener) => listener(),
        showCell: async (row, column, sheet) => void asked.push(`${sheet} ${row} ${column}`),
        openSheets: async () => ['Trees', 'Rules', 'Plan'],
      }),
    );
    await shown;
    expect(asked).toEqual(['a change', 'Trees 3 1']);
    expect(await host.openSheets()).toEqual(['Trees', 'Rules', 'Plan']);
  });
});
