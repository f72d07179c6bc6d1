import { beforeAll, describe, expect, it } from 'vitest';
import type { Device } from '../../src/engine/plan/model.js';
import { planSeason } from '../../src/engine/plan/season.js';
import { STOCK_IS_ENOUGH } from '../../src/engine/plan/stock.js';
import { clientCopy } from '../../src/workbook/exports/client-copy.js';
import { clientPages } from '../../src/workbook/exports/client-pdf.js';
import { planFromTables, planFromTablesBy, type PlanJob } from '../../src/workbook/plan-job.js';
import { cellsOf } from './cells.js';
import { contextOf } from './exports/samples.js';
import { sampleInput, sampleJob } from './job.js';

/** Everything a sheet of the workbook says, its lines joined: a paragraph goes over several. */
const wordsOn = ({ model }: PlanJob, name: string): string =>
  cellsOf(model.sheets.find((sheet) => sheet.name === name)!)
    .map(({ cell }) => String(cell.value ?? ''))
    .join(' ');

const BAG = /125 lb|under a bag|move bags|Setting out bags|not empty after two days/;

describe('what can hurt, and what is asked of the client', () => {
  let hand: PlanJob;
  let bags: PlanJob;
  beforeAll(async () => {
    const all = (await sampleInput()).kit!;
    const only = (family: Device['family']) => all.filter((device) => device.family === family);
    const inventory = (await sampleInput()).inventory.slice(0, 12);
    hand = await sampleJob({ inventory, kit: only('hand') });
    bags = await sampleJob({ inventory, kit: only('bag') });
  });

  it('does not speak of bags where the plan has none', () => {
    for (const sheet of ['About', 'Estimate']) expect(wordsOn(hand, sheet)).not.toMatch(BAG);
    const ctx = contextOf(hand, 'US');
    expect(JSON.stringify(clientCopy(ctx))).not.toMatch(BAG);
    expect(JSON.stringify(clientPages(ctx))).not.toMatch(BAG);
    expect(wordsOn(hand, 'Estimate')).toContain(
      'Do not water these trees as well: too much water kills, too.',
    );
    expect(wordsOn(hand, 'About')).toContain('Backflow.');
    expect(wordsOn(hand, 'Estimate')).toContain('This is a planning aid: local code');
  });

  it('speaks of bags, and of nothing else that is set out, where they are', () => {
    expect(wordsOn(bags, 'About')).toContain('weigh 125 lb');
    const estimate = wordsOn(bags, 'Estimate');
    expect(estimate).toContain('and do not move bags: too much water kills, too.');
    expect(estimate).toContain('a bag that is not empty after two days');
    expect(estimate).toContain('A full 15 gal (57 L) bag');
    const ctx = contextOf(bags, 'US');
    expect(JSON.stringify(clientPages(ctx))).toMatch(BAG);
  });
});

describe('what stands on About as something to look at', () => {
  it('is not that the stock is enough: that is good news', async () => {
    const input = await sampleInput();
    const kit = input.kit!.map((device) => ({ ...device, stock: 999 }));
    const job = await planFromTablesBy(
      { ...input, inventory: input.inventory.slice(0, 6), kit, site: { ...input.site!, stockOnly: 'yes' } },
      (season) => Promise.resolve(planSeason(season)),
    ); // prettier-ignore
    expect(job.remarks).toContain(STOCK_IS_ENOUGH);
    expect(job.notes).not.toContain(STOCK_IS_ENOUGH);
    expect(wordsOn(job, 'About')).not.toContain('the stock is enough');
    const short = await planFromTablesBy(
      { ...input, inventory: input.inventory.slice(0, 6), kit: kit.map((d) => ({ ...d, stock: 0 })), site: { ...input.site!, stockOnly: 'yes' } },
      (season) => Promise.resolve(planSeason(season)),
    ); // prettier-ignore
    expect(short.notes.join(' ')).toMatch(/stock/i);
  });

  it('nor that it is enough of the devices of which no more may be bought', async () => {
    const input = await sampleInput();
    const inventory = input.inventory.slice(0, 6);
    // one may not be bought, the site lets the others be
    const kit = input.kit!.map((d) => ({ ...d, stock: 999, ...(d.family === 'bag' && { buy: false }) })); // prettier-ignore
    const [bag] = kit.filter(({ family }) => family === 'bag');
    const planner = (season: Parameters<typeof planSeason>[0]) => Promise.resolve(planSeason(season)); // prettier-ignore
    const { remarks, notes } = await planFromTablesBy({ ...input, inventory, kit }, planner);
    const enough = `Every tree has its first choice: the stock of ${bag!.name} is enough.`;
    expect([remarks.includes(enough), notes.includes(enough)]).toEqual([true, false]);
    // a limited device is shared out by the planner that asks a solver, not by the plain one
    expect(() => planFromTables({ ...input, inventory, kit })).toThrow(/within the stock/);
    const every = kit.map((d) => ({ ...d, buy: true }));
    const site = { ...input.site!, stockOnly: 'yes' as const };
    expect(planFromTables({ ...input, inventory, kit: every, site }).plan.trees).not.toEqual([]);
  });

  it('says in grammar that holds for any number of rows whose waterings stay on full days', async () => {
    const { site } = await sampleInput();
    const { notes } = await sampleJob({ site: { ...site!, crewHours: 1 } });
    expect(notes.join(' ')).toMatch(
      /Waterings stay on full days, because earlier ones would leave the trees dry: \d+ rows?\./,
    );
  });
});
