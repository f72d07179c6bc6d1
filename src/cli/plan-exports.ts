/** Files beside the workbook that `npm run plan` writes: calendar, table, paper, copies for crew and client. */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { extname } from 'node:path';
import { dayFromIso, type Day } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import type { CrewLanguage } from '../workbook/crew-words.js';
import { clientCopy } from '../workbook/exports/client-copy.js';
import { clientPages } from '../workbook/exports/client-pdf.js';
import { exportContext, type ExportOptions } from '../workbook/exports/context.js';
import { crewCopy } from '../workbook/exports/crew-copy.js';
import { crewPages } from '../workbook/exports/crew-pdf.js';
import { planCsv } from '../workbook/exports/csv.js';
import { planIcs } from '../workbook/exports/ics.js';
import { FONT_FILES, makePdf, type Fonts } from '../workbook/exports/pdf.js';
import type { PlanJob } from '../workbook/plan-job.js';
import { writeXlsx } from '../workbook/writers/file.js';
import { rasterise } from './rasterise.js';

/** Switches that name a file, with the endings they accept. */
export const EXPORTS = {
  '--csv': ['.csv'],
  '--ics': ['.ics'],
  '--pdf': ['.pdf'],
  '--crew': ['.xlsx'],
  '--client': ['.xlsx', '.pdf'],
} as const;
export type ExportSwitch = keyof typeof EXPORTS;

export const isExport = (word: string): word is ExportSwitch => Object.hasOwn(EXPORTS, word);

export interface Wanted {
  files: Map<ExportSwitch, string>;
  /** the table starts with a byte order mark */
  bom: boolean;
  /** days of the crew sheets on paper */
  days?: [Day, Day];
  /** of the crew's sheets and pages */
  crewLanguage?: CrewLanguage;
}

/** @throws Problem if the file's name does not end as its contents ask */
export function checkEnding(word: ExportSwitch, path: string): string {
  const endings: readonly string[] = EXPORTS[word];
  if (!endings.includes(extname(path).toLowerCase()))
    throw new Problem(`${word} "${path}": the file's name must end in ${endings.join(' or ')}`);
  return path;
}

/** `2027-05-01..2027-05-31`. @throws Problem if it is not two days in order */
export function daysOf(text: string): [Day, Day] {
  const [from, to, ...more] = text.split('..');
  if (from === undefined || to === undefined || more.length > 0)
    throw new Problem(`--pdf-days "${text}": write two days, as in 2027-05-01..2027-05-31`);
  const days: [Day, Day] = [dayFromIso(from), dayFromIso(to)];
  if (days[1] < days[0])
    throw new Problem(`--pdf-days "${text}": the last day is before the first`);
  return days;
}

function fonts(): Fonts {
  const { resolve } = createRequire(import.meta.url);
  const read = (name: string): Uint8Array => readFileSync(resolve(name));
  return { regular: read(FONT_FILES.regular), bold: read(FONT_FILES.bold) };
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Every file's bytes, in the order asked for; nothing is written here. */
export async function exportBytes(
  job: PlanJob,
  options: ExportOptions,
  wanted: Wanted,
): Promise<[path: string, bytes: Uint8Array][]> {
  const { crewLanguage } = wanted;
  const ctx = exportContext(job, { ...options, ...(crewLanguage && { crewLanguage }) });
  const out: [string, Uint8Array][] = [];
  const bytesFor = async (word: ExportSwitch, path: string): Promise<Uint8Array> => {
    switch (word) {
      case '--csv':
        return utf8(planCsv(ctx, { bom: wanted.bom }));
      case '--ics':
        return utf8(planIcs(ctx, existsSync(path) ? { before: readFileSync(path, 'utf8') } : {}));
      case '--pdf':
        return makePdf(crewPages(ctx, wanted.days ? { days: wanted.days } : {}), fonts());
      case '--crew':
        return writeXlsx(crewCopy(ctx), { rasterise });
      case '--client':
        return extname(path).toLowerCase() === '.pdf'
          ? makePdf(clientPages(ctx), fonts())
          : writeXlsx(clientCopy(ctx), { rasterise });
    }
  };
  for (const [word, path] of wanted.files) out.push([path, await bytesFor(word, path)]);
  return out;
}
