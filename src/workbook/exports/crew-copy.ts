/** The crew's copy of the workbook: the crew sheet alone, or one a language, values only, ready to print. */
import { isoDate } from '../../engine/dates.js';
import { languagesOf } from '../crew-words.js';
import type { WorkbookModel } from '../model.js';
import type { Context } from '../sheets/context.js';
import { crewSheet } from '../sheets/crew.js';
import { valuesOnly } from './values-only.js';

export function crewCopy(ctx: Context): WorkbookModel {
  return valuesOnly({
    title: `Crew sheets, ${ctx.plan.site.name}`,
    description: `Crew sheets of the watering plan made ${isoDate(ctx.madeOn)} from ${ctx.source}`,
    madeOn: ctx.madeOn,
    paper: ctx.paper ?? (ctx.units === 'US' ? 'letter' : 'a4'),
    sheets: languagesOf(ctx.crewLanguage).map((language) => crewSheet(ctx, language).sheet),
    names: {},
  });
}
