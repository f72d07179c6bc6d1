/** The field card stands behind the crew sheet, in both languages and unit systems, and fits its page. */
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { writeFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { FIELD_CARD, FIELD_CARD_SOURCE, PROBES } from '../../src/engine/contract/field-card.js';
import { FieldCard } from '../../src/workbook/field-card-words.js';
import { type Sheet, type WorkbookModel } from '../../src/workbook/model.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { cellsOf, column } from './cells.js';
import { sampleJob } from './job.js';
import { inFolder, PROGRAMS, skipWithout } from './programs.js';

let job: PlanJob;
beforeAll(async () => {
  job = await sampleJob({ crewLanguage: 'both' });
});

const sheet = (name: string): Sheet => job.model.sheets.find((s) => s.name === name)!;
const texts = (name: string): string[] =>
  cellsOf(sheet(name)).map(({ cell }) => String(cell.value ?? ''));

describe('the field card', () => {
  it('holds the four published rows and both probes, each with what to do', () => {
    for (const language of ['en', 'es'] as const) {
      const card = new FieldCard(language, 'US');
      expect(card.rows()).toHaveLength(FIELD_CARD.length);
      expect(card.probes()).toHaveLength(PROBES.length);
    }
    expect(new FieldCard('en', 'US').rows()[0]).toEqual(['slightly drooping, hazy green', 'dry', 'water soon']); // prettier-ignore
    expect(new FieldCard('es', 'US').rows()[3]![2]).toBe('no riegue más');
  });

  it('says depths in inches or in centimetres', () => {
    const depths = (units: 'US' | 'SI') => new FieldCard('en', units).probes().map(([, d]) => d);
    expect(depths('US')).toEqual(['6 in', '12 in']);
    expect(depths('SI')).toEqual(['15 cm', '30 cm']);
  });

  it('stands below the last round of Crew and Cuadrilla, behind a page break', () => {
    for (const [name, title, act] of [
      ['Crew', 'Field card', 'water soon'],
      ['Cuadrilla', 'Tarjeta de campo', 'riegue pronto'],
    ] as const) {
      const all = texts(name);
      const at = all.findIndex((text) => text.startsWith(title));
      expect(at).toBeGreaterThan(0);
      expect(all.indexOf(act)).toBeGreaterThan(at);
      const heading = cellsOf(sheet(name))[at]!.at;
      expect(sheet(name).print.breaks.at(-1)).toBe(Number(heading.slice(1)) - 1);
    }
  });

  it('names publishers only; where to find them, and how sure it is, stands on Sources for every row', () => {
    for (const name of ['Crew', 'Cuadrilla']) {
      const all = texts(name).join('\n');
      for (const { publisher, source } of [FIELD_CARD_SOURCE, ...PROBES]) {
        expect(all).toContain(publisher);
        expect(all).not.toContain(source);
      }
    }
    const rows = (key: string) => column(job.model, 'FieldCardSources', key);
    const from = [...FIELD_CARD.map(() => FIELD_CARD_SOURCE), ...PROBES];
    expect(rows('source')).toEqual(from.map(({ source }) => source));
    expect(rows('publisher')).toEqual(from.map(({ publisher }) => publisher));
    expect(rows('certainty')).toEqual(from.map(({ certainty }) => certainty));
    for (const [i, { act }] of [...FIELD_CARD, ...PROBES].entries())
      expect(rows('says')[i]).toContain(act);
  });

  for (const paper of ['letter', 'a4'] as const)
    it.skipIf(skipWithout('LibreOffice'))(`fits one page of ${paper} in both languages`, async () => {
      // the card alone, with the heads that are repeated above it: the last block of the sheet
      const cards = ['Crew', 'Cuadrilla'].map((name) => cardOnly(sheet(name)));
      const model: WorkbookModel = { ...job.model, paper, sheets: cards, names: {} };
      expect(pagesOf(await writeXlsx(model))).toBe(2);
    }); // prettier-ignore
});

/** A crew sheet with its first line of work and its card. */
function cardOnly(from: Sheet): Sheet {
  const blocks = from.blocks.map((block) =>
    block.kind === 'table' ? { ...block, rows: block.rows.slice(0, 1) } : block,
  );
  const table = blocks.find((block) => block.kind === 'table')!;
  let top = table.top + 2;
  const moved = blocks.map((block) => {
    if (block.top <= table.top || block.kind === 'table') return block;
    const at = { ...block, top };
    top += block.lines.length;
    return at;
  });
  return { ...from, blocks: moved, print: { ...from.print, breaks: [] } };
}

function pagesOf(bytes: Uint8Array): number {
  return inFolder((folder) => {
    const file = join(folder, 'book.xlsx');
    writeFileSync(file, bytes);
    execFileSync(PROGRAMS.LibreOffice!, [`-env:UserInstallation=file://${join(folder, 'profile')}`, '--headless', '--convert-to', 'pdf', '--outdir', folder, file], { stdio: 'ignore' }); // prettier-ignore
    const info = execFileSync('pdfinfo', [join(folder, 'book.pdf')], { encoding: 'utf8' });
    return Number(/^Pages: +(\d+)$/m.exec(info)?.[1]);
  });
}
