/** The workbook of a season plan. */
import { Problem } from '../engine/problems.js';
import { isoDate } from '../engine/dates.js';
import { estimate } from '../engine/money/estimate.js';
import type { WhatIfRow } from '../engine/plan/what-if.js';
import { tablesOf, type WorkbookModel } from './model.js';
import { languagesOf } from './crew-words.js';
import { aboutSheet } from './sheets/about.js';
import { balanceSheet, PICKS } from './sheets/balance.js';
import { balanceTreesSheet } from './sheets/balance-trees.js';
import { calendarSheet } from './sheets/calendar.js';
import { chartsSheet } from './sheets/charts.js';
import { checksSheet } from './sheets/checks.js';
import { context, type BuildInput } from './sheets/context.js';
import { crewSheet } from './sheets/crew.js';
import { estimateSheet } from './sheets/estimate.js';
import { FIELD_LISTS, fieldChecksSheet } from './sheets/field-checks.js';
import { kitSheet, siteSheet, weatherSheet } from './sheets/inputs.js';
import { materialsSheet } from './sheets/materials.js';
import { meansSheet } from './sheets/means.js';
import { planSheet } from './sheets/plan.js';
import { ruleSheets } from './sheets/rules.js';
import { sourcesSheet } from './sheets/sources.js';
import { treesSheet } from './sheets/trees.js';
import { paperSheets } from './sheets/papers.js';
import { whatIfSheet } from './sheets/what-if.js';

export type { BuildInput } from './sheets/context.js';

/**
 * Sheets of a plan: About, Site, Weather, Rules, Rule days, Kit, Trees, Means, Plan, Calendar, Charts, Crew, Materials,
 * Estimate, Contract, Shortage, Log, Service, Meters, Clocks and Price views (where such papers were given), Field checks, Balance, Balance trees, Checks, Sources. Numbers are those of the engine; where a native twin exists the cell holds it, with the
 * engine's number as its result.
 *
 * @param whatIf - rows of the sheet What if, after Estimate; without them there is no such sheet
 */
export function buildWorkbook(input: BuildInput, whatIf?: readonly WhatIfRow[]): WorkbookModel {
  const ctx = context(input);
  const site = siteSheet(ctx);
  const weather = weatherSheet(ctx);
  const sources = sourcesSheet(ctx);
  const trees = treesSheet(ctx, {
    peakEt0: weather.refs.peak,
    site: site.refs.value,
    thumb: sources.refs,
  });
  const plan = planSheet(ctx);
  const crews = languagesOf(input.crewLanguage).map((language) => crewSheet(ctx, language));
  const crew = crews[0]!;
  const money = estimate(input.plan, input.kit);
  const means = meansSheet(ctx);
  const calendar = calendarSheet(ctx, plan.refs);
  const { days } = calendar.refs;
  const materials = materialsSheet(ctx, money, { days, site: site.refs.value });
  const charts = chartsSheet(ctx, {
    plan: plan.refs.place,
    planRows: plan.refs.rows,
    calendar: days,
  });
  const kit = kitSheet(ctx);
  const field = fieldChecksSheet(ctx, { kit: kit.refs.place, site: site.refs.value });
  const balanceTrees = balanceTreesSheet(ctx);
  const balance = balanceSheet(ctx, {
    site: site.refs.value,
    weather: weather.refs.days,
    trees: trees.refs.place,
    plan: plan.refs.place,
    balanceTrees: balanceTrees?.refs,
  });
  const cells = { days, materials: materials.refs, site: site.refs.value };
  const priced = estimateSheet(ctx, money, cells);
  const papers = ctx.papers
    ? paperSheets(ctx, ctx.papers, {
        kit: kit.refs.place,
        site: site.refs.value,
        money,
        estimate: priced.refs,
      })
    : undefined;
  const checks = checksSheet(ctx, {
    trees: trees.refs.place,
    plan: plan.refs.place,
    planRows: plan.refs.rows,
    crew: crew.refs.place,
    peakEt0: weather.refs.peak,
    site: site.refs.value,
    means: means.refs,
    calendar: calendar.refs,
    materials: materials.refs,
    estimate: { ...priced.refs, money },
    charts: charts.refs,
    otherCrews: crews.slice(1).map((each) => each.refs.place),
    balance: balance.refs,
    papers: papers?.totals ?? [],
  });
  const rest = [
    site.sheet,
    weather.sheet,
    ...ruleSheets(ctx),
    kit.sheet,
    trees.sheet,
    means.sheet,
    plan.sheet,
    calendar.sheet,
    charts.sheet,
    ...crews.map((each) => each.sheet),
    materials.sheet,
    priced.sheet,
    ...(whatIf ? [whatIfSheet(ctx, whatIf).sheet] : []),
    ...(papers?.sheets ?? []),
    field.sheet,
    balance.sheet,
    ...(balanceTrees ? [balanceTrees.sheet] : []),
    checks.sheet,
    sources.sheet,
  ];
  const about = aboutSheet(ctx, {
    trees: trees.refs.place,
    plan: plan.refs.place,
    planRows: plan.refs.rows,
    crewDays: crew.refs.days,
    crewSheet: crew.sheet.name,
    total: checks.refs.total,
    toLook: checks.refs.toLook,
    others: rest.map((sheet) => sheet.name),
  });
  const model: WorkbookModel = {
    title: input.title,
    description: `Watering plan made ${isoDate(input.madeOn)} from ${input.source}`,
    madeOn: input.madeOn,
    paper: input.paper ?? (input.units === 'US' ? 'letter' : 'a4'),
    sheets: [about, ...rest],
    names: {
      Peak_ET0: weather.refs.peak,
      Season_From: site.refs.value('seasonFrom'),
      Season_To: site.refs.value('seasonTo'),
      To_Look_At: checks.refs.total,
      [FIELD_LISTS.trees]: trees.refs.place.range(trees.refs.id),
      [FIELD_LISTS.devices]: kit.refs.place.range('c0'),
      ...(balanceTrees && { [PICKS]: balanceTrees.refs.place.range('pick') }),
    },
  };
  checkNames(model);
  return model;
}

/** Sheet, table and cell names share one space in a workbook and may not meet. */
function checkNames(model: WorkbookModel): void {
  const seen = new Set<string>();
  const names = [
    ...model.sheets.flatMap((sheet) => tablesOf(sheet).map((t) => t.name)),
    ...Object.keys(model.names),
  ];
  for (const name of names) {
    if (seen.has(name.toLowerCase())) throw new Problem(`the name ${name} is used twice`);
    seen.add(name.toLowerCase());
  }
}
