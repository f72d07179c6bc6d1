/** The client's copy of the workbook: About, Estimate without costs, and what the client has to do. */
import { isoDate } from '../../engine/dates.js';
import { estimate, type Estimate } from '../../engine/money/estimate.js';
import { Problem } from '../../engine/problems.js';
import { asked, caution } from '../estimate-words.js';
import {
  cell,
  lines,
  SheetDraft,
  type RichCell,
  type Sheet,
  type WorkbookModel,
} from '../model.js';
import type { Context } from '../sheets/context.js';
import { estimateSheet, type EstimateSources } from '../sheets/estimate.js';
import { cautionsOf } from '../words.js';
import { atAGlance, months, shortOfWater, visits } from './client-words.js';
import { valuesOnly } from './values-only.js'; // prettier-ignore

/** Characters of a line of text. */
const WIDTH = 108;

const paragraph = (text: string, style: 'text' | 'note' | 'caution'): RichCell[] =>
  lines(text, WIDTH).map((line) => cell(line, style));

/** Client cells are values: nothing on the office's sheets is pointed at. */
const OFFICE = new Proxy({} as EstimateSources, {
  get: (_, key) => {
    throw new Problem(`the client's copy may not point at the office's ${String(key)}`);
  },
});

/** What the copy is and who it is for, in a sentence. */
export const clientOpening = ({ plan, madeOn }: Context): string =>
  `How the trees of ${plan.site.name} are to be watered from ${isoDate(plan.site.seasonFrom)} to ${isoDate(plan.site.seasonTo)}, what it costs, and what we ask of you. Prepared ${isoDate(madeOn)}.`;

function about(ctx: Context): Sheet {
  const draft = new SheetDraft('About', 'About', { orientation: 'portrait' });
  draft.text([
    cell(ctx.title, 'title'),
    ...paragraph(clientOpening(ctx), 'text'),
    ...paragraph('This copy holds values only: it opens anywhere and changes nothing.', 'note'),
  ]);
  draft.skip();
  const facts = atAGlance(ctx);
  draft.text([cell('The season at a glance', 'heading')]);
  draft.table(
    'Glance',
    [
      { key: 'what', header: 'What', width: 36 },
      { key: 'value', header: 'Number', width: 27, style: 'result', align: 'right' },
      { key: 'note', header: 'Meaning', width: 36, style: 'note' },
      { key: 'more', header: 'Where', width: 22, style: 'note' },
    ],
    facts.length,
    (i) => {
      const [what, value, note] = facts[i]!;
      const at = note.indexOf('named on To do') === 0;
      const shown = { value, ...(typeof value === 'number' && { format: 'whole' as const }) };
      return [what, shown, at ? note.slice(14).replace(/^, /, '') : note, at ? { value: 'To do', jump: "'To do'!A1" } : ''];
    },
  );
  draft.skip();
  const all = months(ctx.plan);
  draft.text([cell('Month by month', 'heading')]);
  const place = draft.table(
    'Months',
    [
      { key: 'month', header: 'Month', width: 36 },
      { key: 'water', header: `Water (${ctx.unit('volume')})`, width: 27, style: 'result', format: 'whole' },
      { key: 'waterings', header: 'Waterings of single trees', width: 36, format: 'whole' },
      { key: 'days', header: 'Crew days', width: 22, format: 'whole' },
    ],
    all.length,
    (i) => {
      const { name, litres, waterings, crewDays } = all[i]!;
      return [name, ctx.show('volume', litres), waterings, crewDays];
    },
  );
  draft.skip();
  const most = all.reduce((best, m) => (m.litres > best.litres ? m : best), all[0]!);
  const unit = ctx.unit('volume');
  const amount = `${Math.round(ctx.show('volume', most.litres)).toLocaleString('en-US')} ${unit}`;
  draft.chart(
    {
      kind: 'column',
      title: `Most water is needed in ${most.name}`,
      x: 'Month',
      y: `Water (${unit})`,
      dates: false,
      series: [{ name: 'Water', values: place.range('water'), categories: place.range('month'), look: 'thick' }],
      alt: `Columns of water by month; the highest is ${most.name} with ${amount}.`,
    },
    15,
    4,
  );
  draft.skip();
  draft.text([
    cell('What can hurt', 'heading'),
    ...cautionsOf(ctx.plan).flatMap((text) => paragraph(text, 'caution')),
  ]);
  return draft.done();
} // prettier-ignore

function toDo(ctx: Context): Sheet {
  const { plan } = ctx;
  const draft = new SheetDraft('To do', 'What we ask of you', { orientation: 'landscape' });
  draft.text([
    cell('What we ask of you', 'title'),
    ...asked(ctx).flatMap((text) => paragraph(`– ${text}`, 'text')),
    ...paragraph(caution(ctx), 'caution'),
  ]);
  draft.skip();
  const all = visits(plan);
  draft.text([cell('Where the crew comes and what water it uses', 'heading')]);
  draft.table(
    'Visits',
    [
      { key: 'site', header: 'Site', width: 30, wrap: true },
      { key: 'address', header: 'Address', width: 30, wrap: true },
      { key: 'water', header: 'Water from', width: 16, wrap: true },
      { key: 'days', header: 'Days', width: 8, style: 'result', format: 'whole' },
      { key: 'first', header: 'First day', width: 12, format: 'date' },
      { key: 'last', header: 'Last day', width: 12, format: 'date' },
      { key: 'hours', header: 'Hours allowed', width: 26, wrap: true },
    ],
    all.length,
    (i) => {
      const v = all[i]!;
      return [v.site, v.address, v.waters, v.days, v.first, v.last, v.hours];
    },
  );
  const dry = shortOfWater(plan);
  if (dry.length > 0) {
    draft.skip();
    draft.text([cell('Short of water on some days even with this plan', 'heading')]);
    draft.table(
      'ShortOfWater',
      [
        { key: 'tree', header: 'Tree', width: 30, wrap: true },
        { key: 'help', header: 'What would help', width: 30, wrap: true },
      ],
      dry.length,
      (i) => {
        const { tree, advice } = dry[i]!;
        return [nameOf(tree), advice];
      },
    );
  }
  const { notPlanned } = plan;
  if (notPlanned.length > 0) {
    draft.skip();
    draft.text([cell('Not planned and not in the price', 'heading')]);
    draft.table(
      'NotPlanned',
      [
        { key: 'row', header: 'Row of the inventory', width: 30 },
        { key: 'why', header: 'Why', width: 30, wrap: true },
      ],
      notPlanned.length,
      (i) => [rowName(notPlanned[i]!), plainReason(notPlanned[i]!.reason)],
    );
  }
  return draft.done();
}

export const nameOf = (tree: { id: string; species: string; row: number }): string =>
  [tree.id || `row ${tree.row}`, tree.species].filter(Boolean).join(' · ');

export const rowName = ({ row, id }: { row: number; id: string }): string =>
  id ? `${row} · ${id}` : String(row);

export const plainReason = (reason: string): string => reason.replace(/^Row \d+: /, '');

/** The client's price; the same for the workbook and for paper. */
export const clientEstimate = (ctx: Context): Estimate => estimate(ctx.plan, ctx.kit);

export const clientEstimateSheet = (ctx: Context): Sheet =>
  estimateSheet(ctx, clientEstimate(ctx), OFFICE, 'client').sheet;

export function clientCopy(ctx: Context): WorkbookModel {
  return valuesOnly({
    title: ctx.title,
    description: `Client's copy of the watering plan made ${isoDate(ctx.madeOn)}`,
    madeOn: ctx.madeOn,
    paper: ctx.paper ?? (ctx.units === 'US' ? 'letter' : 'a4'),
    sheets: [about(ctx), clientEstimateSheet(ctx), toDo(ctx)],
    names: {},
  });
}
