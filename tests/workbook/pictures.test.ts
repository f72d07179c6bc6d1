import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { rasterise } from '../../src/cli/rasterise.js';
import { tablesOf, type Picture, type WorkbookModel } from '../../src/workbook/model.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { hungOnOneCell } from '../../src/workbook/writers/exact-pictures.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { sampleJob } from './job.js';
import { inFolder, PROGRAMS, skipWithout } from './programs.js';

let job: PlanJob;
let pictures: Picture[];
beforeAll(async () => {
  job = await sampleJob();
  pictures = job.model.sheets.flatMap((s) => s.pictures);
});

/** The sheet with the pictures alone. */
const chartsOnly = (): WorkbookModel => ({
  ...job.model,
  names: {},
  sheets: job.model.sheets
    .filter((s) => s.name === 'Charts')
    .map((s) => ({ ...s, charts: [], blocks: s.blocks.filter((b) => b.kind === 'text') })),
});

const READ = `
import json, re, struct, sys, zipfile
with zipfile.ZipFile(sys.argv[1]) as z:
    bad = z.testzip()
    xml = "".join(z.read(n).decode() for n in z.namelist() if re.match(r"xl/drawings/drawing\\d+\\.xml", n))
    hung = [dict(row=int(a.group(1)), cx=int(a.group(2)), cy=int(a.group(3)), alt=a.group(4)) for a in re.finditer(
        r'<xdr:oneCellAnchor><xdr:from>.*?<xdr:row>(\\d+)</xdr:row>.*?</xdr:from><xdr:ext cx="(\\d+)" cy="(\\d+)"/><xdr:pic>.*?descr="([^"]*)"', xml, re.S)]
    images = [struct.unpack(">II", z.read(n)[16:24]) for n in sorted(z.namelist()) if n.startswith("xl/media/")]
    json.dump(dict(bad=bad, hung=hung, images=images, stretched=len(re.findall(r"<xdr:twoCellAnchor[^>]*>(?:(?!</xdr:twoCellAnchor>).)*<xdr:pic>", xml, re.S))), sys.stdout)
`;

interface FileRead {
  bad: string | null;
  hung: { row: number; cx: number; cy: number; alt: string }[];
  images: [number, number][];
  stretched: number;
}

const EMU_A_PIXEL = 9525;

describe('pictures of the workbook', () => {
  it('stand on Charts, each by itself, with its own name and words', () => {
    expect(pictures.length).toBeGreaterThan(1);
    const sheet = job.model.sheets.find((s) => s.name === 'Charts')!;
    expect(sheet.pictures).toEqual(pictures);
    expect(new Set(pictures.map((p) => p.name)).size).toBe(pictures.length);
    for (const { svg, alt, width, height } of pictures) {
      expect(alt).toMatch(/wets? \d.*dripline.*to scale.*stem/);
      expect(svg).toMatch(/^<svg [^>]*width="\d+" height="\d+"/);
      const [, w, h] = /width="(\d+)" height="(\d+)"/.exec(svg)!.map(Number);
      expect(width / height).toBeCloseTo(w! / h!, 2);
    }
  });

  it('cover no cell that holds anything, at 20 px a row', () => {
    const sheet = job.model.sheets.find((s) => s.name === 'Charts')!;
    const tops = [
      ...tablesOf(sheet).map((t) => t.top),
      ...sheet.blocks.filter((b) => b.kind === 'text').map((b) => b.top),
    ];
    for (const { at, height } of pictures) {
      const below = at.row + height / 20;
      expect(tops.filter((top) => top >= at.row && top < below)).toEqual([]);
    }
  });

  it.skipIf(skipWithout('openpyxl'))(
    'are in the file as PNG of twice their size, hung on one cell at their own size',
    async () => {
      const bytes = await writeXlsx(job.model, { rasterise });
      const read = inFolder((folder) => {
        const path = join(folder, 'book.xlsx');
        writeFileSync(path, bytes);
        return JSON.parse(
          execFileSync(PROGRAMS.openpyxl!, ['-c', READ, path], { encoding: 'utf8' }),
        ) as FileRead;
      });
      expect(read.bad).toBeNull();
      expect(read.stretched).toBe(0);
      expect(read.images).toHaveLength(pictures.length);
      expect(read.hung.map(({ row, cx, cy, alt }) => [row + 1, cx / EMU_A_PIXEL, cy / EMU_A_PIXEL, alt])).toEqual(
        pictures.map((p) => [p.at.row, p.width, p.height, p.alt]),
      );
      for (const [wide] of read.images) expect(wide).toBe(2 * pictures[0]!.width);
    },
  ); // prettier-ignore

  it.skipIf(skipWithout('LibreOffice'))(
    'keep their shape in LibreOffice: a circle stays a circle',
    async () => {
      const bytes = await writeXlsx(chartsOnly(), { rasterise });
      const frames = inFolder((folder) => {
        const path = join(folder, 'book.xlsx');
        mkdirSync(join(folder, 'out'));
        writeFileSync(path, bytes);
        execFileSync(
          PROGRAMS.LibreOffice!,
          [`-env:UserInstallation=file://${join(folder, 'profile')}`, '--headless', '--convert-to', 'fods', '--outdir', join(folder, 'out'), path],
          { stdio: 'ignore' },
        ); // prettier-ignore
        const xml = readFileSync(join(folder, 'out', 'book.fods'), 'utf8');
        return [...xml.matchAll(/<draw:frame [^>]*>/g)].map(([tag]) =>
          ['width', 'height'].map((side) =>
            Number(new RegExp(` svg:${side}="([\\d.]+)`).exec(tag)![1]),
          ),
        );
      });
      expect(frames).toHaveLength(pictures.length);
      const shapes = pictures.map((p) => p.width / p.height).sort();
      frames
        .map(([wide, high]) => wide! / high!)
        .sort()
        .forEach((shape, i) => expect(shape / shapes[i]!).toBeCloseTo(1, 2));
    },
  );

  it('are left out when asked, and refused when nothing can draw them', async () => {
    await expect(writeXlsx(chartsOnly())).rejects.toThrow(/pictures/);
    const bytes = await writeXlsx(chartsOnly(), { pictures: false });
    expect(new TextDecoder('latin1').decode(bytes)).not.toContain('xl/media/');
  });

  it('leave charts between their cells, and a drawing without a size as it was', () => {
    const chart = '<xdr:twoCellAnchor><xdr:from>f</xdr:from><xdr:to>t</xdr:to><xdr:graphicFrame/></xdr:twoCellAnchor>'; // prettier-ignore
    const sizeless = '<xdr:twoCellAnchor><xdr:from>f</xdr:from><xdr:to>t</xdr:to><xdr:pic></xdr:pic><xdr:clientData/></xdr:twoCellAnchor>'; // prettier-ignore
    const picture = '<xdr:twoCellAnchor><xdr:from>f</xdr:from><xdr:to>t</xdr:to><xdr:pic><a:ext cx="7" cy="9"/></xdr:pic><xdr:clientData/></xdr:twoCellAnchor>'; // prettier-ignore
    expect(hungOnOneCell(chart + sizeless + picture + chart)).toBe(
      `${chart}${sizeless}<xdr:oneCellAnchor><xdr:from>f</xdr:from><xdr:ext cx="7" cy="9"/><xdr:pic><a:ext cx="7" cy="9"/></xdr:pic><xdr:clientData/></xdr:oneCellAnchor>${chart}`,
    );
  });
});
