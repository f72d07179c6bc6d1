/** The sheets of contract, shortage, log, service, meters, clocks and prices, and the totals in which they must agree. */
import type { Estimate } from '../../engine/money/estimate.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import { formula, type Sheet, type TablePlace } from '../model.js';
import type { ServicePapers } from '../service-papers.js';
import type { Total } from './checks.js';
import { clocksSheet } from './clocks.js';
import type { Context } from './context.js';
import { contractSheet } from './contract.js';
import type { EstimateRefs } from './estimate.js';
import { logSheet } from './log.js';
import { metersSheet } from './meters.js';
import { priceViewsSheet } from './price-views.js';
import { dueKeys, plannedVisits, serviceSheet } from './service.js';
import { shortageSheet } from './shortage.js';

export interface PaperSources {
  kit: TablePlace;
  site: (key: SiteKey) => string;
  money: Estimate;
  estimate: EstimateRefs;
}

export function paperSheets(
  ctx: Context,
  papers: ServicePapers,
  { kit, site, money, estimate }: PaperSources,
): { sheets: Sheet[]; totals: Total[] } {
  const contract = papers.contractRows.length > 0 ? contractSheet(ctx, papers) : undefined;
  const shortage = papers.shortage && shortageSheet(ctx, papers.shortage);
  const due = plannedVisits(ctx, papers.log);
  const clocks = clocksSheet(ctx, papers);
  const log = logSheet(ctx, papers, {
    clocks: clocks.refs.column,
    kit,
    due: () => dueKeys(due),
    planned: due,
  });
  const service = serviceSheet(ctx, papers, due, log.refs);
  const meters = metersSheet(ctx, papers, log.refs.place);
  const prices = priceViewsSheet(ctx, money, estimate, site);
  const gal = ctx.unit('volume');
  const applied = papers.log.reduce((sum, row) => sum + (row.applied ?? 0), 0);
  const visits = papers.log.filter((row) => (row.applied ?? 0) > 0).length;
  const sides = (what: string, left: string, right: string, value: number): Total => ({
    what,
    left: formula(left, value),
    right: formula(right, value),
  });
  const totals = [
    ...(contract?.refs.totals ?? []),
    ...(shortage?.refs.totals ?? []),
    sides(`Water in the log (${gal}): Log = Service`, `SUM(${log.refs.place.range('applied')})`, `SUM(${service.refs.trees.range('applied')})`, ctx.show('volume', applied)),
    sides('Visits with water: Log = Service', `SUM(${log.refs.place.range('water')})`, `SUM(${service.refs.trees.range('made')})`, visits),
  ]; // prettier-ignore
  return {
    sheets: [
      ...(contract ? [contract.sheet] : []),
      ...(shortage ? [shortage.sheet] : []),
      log.sheet,
      service.sheet,
      meters.sheet,
      clocks.sheet,
      prices.sheet,
    ],
    totals,
  };
}
