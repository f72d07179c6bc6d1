/** The plan as files: all that writes them, loaded when the first one is asked for. */
import { dayFromIso, type Day } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import { plainLabel } from '../tables/cells.js';
import { clientCopy } from '../workbook/exports/client-copy.js';
import { clientPages } from '../workbook/exports/client-pdf.js';
import { exportContext } from '../workbook/exports/context.js';
import { crewCopy } from '../workbook/exports/crew-copy.js';
import { checkInPlan, crewPages } from '../workbook/exports/crew-pdf.js';
import { planCsv } from '../workbook/exports/csv.js';
import { planIcs } from '../workbook/exports/ics.js';
import { makePdf, type Fonts, type Pages } from '../workbook/exports/pdf.js';
import type { Rasterise, WorkbookModel } from '../workbook/model.js';
import type { PlanJob } from '../workbook/plan-job.js';
import { writeXlsx } from '../workbook/writers/file.js';
import type { ExportWish, PlanAsk } from './plan-room.js';

/** What only the place where the room stands can do. */
export interface Means {
  /** typefaces for PDF files */
  fonts(): Promise<Fonts>;
  /** turns drawings into images for workbooks */
  rasterise: Rasterise;
}

const NAMES = {
  workbook: 'plan.xlsx',
  'crew.xlsx': 'crew.xlsx',
  'crew.pdf': 'crew.pdf',
  'client.xlsx': 'client.xlsx',
  'client.pdf': 'client.pdf',
  'plan.ics': 'plan.ics',
  'plan.csv': 'plan.csv',
} as const satisfies Record<ExportWish['kind'], string>;

/** "Harbour row.csv" and a crew sheet in Spanish → "harbour-row-crew-es.pdf" */
function fileName(source: string, { kind, language }: ExportWish): string {
  const stem = plainLabel(source.replace(/\.[a-z]{2,4}$/i, '')).replace(/ /g, '-') || 'watering';
  const name = NAMES[kind];
  return `${stem}-${language === 'es' ? name.replace('.', '-es.') : name}`;
}

function daysOf(days: ExportWish['days'], { plan }: PlanJob): { days?: [Day, Day] } {
  if (!days) return {};
  if (days[1] < days[0])
    throw new Problem(`the last day, ${days[1]}, is before the first, ${days[0]}`);
  checkInPlan(days, plan.site);
  return { days: [dayFromIso(days[0]), dayFromIso(days[1])] };
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

async function bookBytes(
  model: WorkbookModel,
  { rasterise }: Means,
  settings?: ExportWish['settings'],
): Promise<Uint8Array> {
  return writeXlsx(model, { rasterise, ...(settings && { settings }) });
}

const pdf = async (pages: Pages, { fonts }: Means): Promise<Uint8Array> =>
  makePdf(pages, await fonts());

/**
 * @param model - the workbook of the plan, asked for only where it is the file
 * @throws Problem as the exports themselves
 */
export async function planFile(
  job: PlanJob,
  { draft, source }: PlanAsk,
  wish: ExportWish,
  means: Means,
  model: () => WorkbookModel,
): Promise<{ name: string; bytes: Uint8Array }> {
  const crewLanguage = wish.language ?? draft.crewLanguage;
  const ctx = exportContext(job, { units: draft.units, source, crewLanguage });
  const bytes = async (): Promise<Uint8Array> => {
    switch (wish.kind) {
      case 'workbook':
        return bookBytes(model(), means, wish.settings);
      case 'crew.xlsx':
        return bookBytes(crewCopy(ctx), means);
      case 'client.xlsx':
        return bookBytes(clientCopy(ctx), means);
      case 'crew.pdf':
        return pdf(crewPages(ctx, daysOf(wish.days, job)), means);
      case 'client.pdf':
        return pdf(clientPages(ctx), means);
      case 'plan.ics':
        return utf8(planIcs(ctx));
      case 'plan.csv':
        return utf8(planCsv(ctx, { bom: wish.bom ?? false }));
    }
  };
  return { name: fileName(source, wish), bytes: await bytes() };
}
