/**
 * The plan room in this thread: the whole of it in Node, and the body of the page's worker. It keeps the last plan, and
 * the last readings of inventories, which several questions share.
 */
import { dayFromIso } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import type { Solve } from '../engine/plan/solve.js';
import type { Tree } from '../engine/plan/model.js';
import type { WhatIfRow } from '../engine/plan/what-if.js';
import type { Grid } from '../tables/cells.js';
import { readInventory, type InventoryReading } from '../tables/inventory/index.js';
import { exampleSetup } from '../workbook/example-setup.js';
import type { WorkbookModel } from '../workbook/model.js';
import { planFromTablesBy, type PlanJob } from '../workbook/plan-job.js';
import type { LivingPapers } from '../workbook/service-papers.js';
import { seriesSource, waterLeftSeries } from '../workbook/series.js';
import type { ContractAsk, LogAsk, ShortageWish } from './contract-types.js';
import type { Draft, ExportWish, PlanAsk, PlanRoom, PlanSummary, PlanWatch } from './plan-room.js';
import type { BlanksAsk, FillAsk, TakeBackAsk } from './fill-types.js';
import { contractReport } from './room-contract.js';
import type { Means } from './room-files.js';
import { blanksOf, fillingOf, takingBack } from './room-fill.js';
import { functionAnswer, type FunctionAsk } from './room-function.js';
import { logReport } from './room-log.js';
import { openedFile } from './room-opening.js';
import { breath, planInSlices, planSummary, whatIfLines, whatIfRows } from './room-plan.js';
import { inventedNumbers } from './room-invented.js';
import { ownLatitude, sheetReading } from './room-reading.js';
import { rulesInUse, rulesReport, STARTERS } from './room-rules.js';
import { EXAMPLE_LATITUDE, setupOf, setupReport, siteOf } from './room-setup.js';
import { shortageReport } from './room-shortage.js';
import type { SeasonPlanner } from './pool.js';

export interface RoomParts extends Means {
  /** plans a season; default in slices in this thread */
  planSeason?: SeasonPlanner;
  /** an exact solver, for short stock and for who is served; without one those answers may be unproven, and say so */
  solve?: Solve;
}

/** The plan that questions are asked about. */
interface Kept {
  job: PlanJob;
  ask: PlanAsk;
  /** built once, and again when answers come to it, or papers are others than it was built with */
  model?: { book: WorkbookModel; papers: string } | undefined;
  whatIf?: WhatIfRow[];
}

const READINGS_KEPT = 3;

/** Readings of inventories: like cells under like corrections are read once. */
class Readings {
  private readonly kept: { cells: Grid['cells']; key: string; reading: InventoryReading }[] = [];

  of({ cells, dateCells }: Grid, draft: Draft): InventoryReading {
    const { corrections, units } = draft;
    const seasonFrom = siteOf(draft, undefined).site.seasonFrom;
    const key = JSON.stringify([corrections, units, seasonFrom]);
    const known = this.kept.find((r) => r.cells === cells && r.key === key);
    if (known) return known.reading;
    const reading = readInventory(cells, {
      seasonFrom,
      matches: corrections,
      ...(dateCells && { dateCells }),
      // US is the draft's default: then headers, language and coordinates of the sheet may still say metric
      ...(units === 'SI' && { units }),
      sayIn: units,
    });
    this.kept.unshift({ cells, key, reading });
    this.kept.splice(READINGS_KEPT);
    return reading;
  }
}

function bookOf(kept: Kept, fresh: LivingPapers | undefined): WorkbookModel {
  const papers = JSON.stringify(fresh ?? null);
  if (kept.model?.papers !== papers)
    kept.model = { book: kept.job.workbook(kept.whatIf, fresh), papers };
  return kept.model.book;
}

class RoomHere implements PlanRoom {
  readonly starters = STARTERS;
  private readonly readings = new Readings();
  private kept: Kept | undefined;
  /** the one plan beside it that can be gone back to */
  private held: Kept | undefined;
  private turn = 0;

  constructor(private readonly parts: RoomParts) {}

  async open(name: string, bytes: Uint8Array): ReturnType<PlanRoom['open']> {
    return openedFile(name, bytes);
  }

  async read(trees: Grid, draft: Draft): ReturnType<PlanRoom['read']> {
    return sheetReading(this.readings.of(trees, draft), trees.cells);
  }

  async setup(trees: Grid, draft: Draft): ReturnType<PlanRoom['setup']> {
    return setupReport(draft, this.latitude(trees, draft), () => this.treesOf(trees, draft));
  }

  async rules(ask: PlanAsk): ReturnType<PlanRoom['rules']> {
    const { trees, draft, today } = ask;
    const latitude = this.latitude(trees, draft);
    const { site } = siteOf(draft, latitude);
    const { setup } = setupOf(draft, latitude);
    const kit = setup.kit ?? exampleSetup(site.latitude, draft.units).kit;
    return rulesReport(
      rulesInUse(ask, site.latitude),
      this.treesOf(trees, draft),
      site,
      kit,
      dayFromIso(today),
    );
  }

  async plan(ask: PlanAsk, watch?: PlanWatch): Promise<PlanSummary> {
    const turn = ++this.turn;
    const { trees, source, draft, today } = ask;
    const reading = this.readings.of(trees, draft);
    const { setup, problems } = setupOf(draft, ownLatitude(reading));
    const rules = rulesInUse(ask, setup.site?.latitude ?? ownLatitude(reading) ?? EXAMPLE_LATITUDE);
    await breath();
    const job = await planFromTablesBy(
      {
        ...setup,
        ...ask.papers,
        ...(!rules.builtIn && { rules: rules.reading.rows, stages: rules.reading.stages }),
        ...watch,
        inventory: trees.cells,
        reading,
        fileName: source,
        madeOn: dayFromIso(today),
        units: draft.units,
        crewLanguage: draft.crewLanguage,
        notes: [...problems, ...rules.notes],
      },
      this.parts.planSeason ?? planInSlices,
      this.parts.solve,
    );
    const summary = planSummary(job, draft.units, inventedNumbers(job.setup.kit, draft.kit));
    if (turn === this.turn) this.kept = { job, ask };
    return summary;
  }

  async hold(): Promise<void> {
    this.held = this.kept;
  }

  async back(): Promise<boolean> {
    const { held } = this;
    if (!held) return false;
    // what is being planned now must not take its place
    this.turn++;
    this.kept = held;
    this.held = undefined;
    return true;
  }

  async release(): Promise<void> {
    this.held = undefined;
  }

  async whatIf(watch?: PlanWatch): ReturnType<PlanRoom['whatIf']> {
    const kept = this.planned();
    if (!kept.whatIf) {
      kept.whatIf = await whatIfRows(kept.job, watch);
      kept.model = undefined;
    }
    return whatIfLines(kept.whatIf, kept.ask.draft.units);
  }

  async tree(row: number): ReturnType<PlanRoom['tree']> {
    const { job, ask } = this.planned();
    return waterLeftSeries(seriesSource(job, ask.draft.units), row);
  }

  async contract(ask: ContractAsk): ReturnType<PlanRoom['contract']> {
    return contractReport(ask, ask.judge ? this.planned().job : undefined);
  }

  async shortage(wish: ShortageWish): ReturnType<PlanRoom['shortage']> {
    const { job, ask } = this.planned();
    return shortageReport(wish, job, ask.draft.units, this.parts.solve);
  }

  async log(ask: LogAsk): ReturnType<PlanRoom['log']> {
    const { trees, draft, planned } = ask;
    if (trees.cells.length === 0)
      throw new Problem('there are no trees to ask the log about; name their sheet under Trees');
    return logReport(ask, this.readings.of(trees, draft), planned ? this.planned().job : undefined);
  }

  async answer(ask: FunctionAsk): ReturnType<PlanRoom['answer']> {
    return functionAnswer(ask);
  }

  async blanks(ask: BlanksAsk): ReturnType<PlanRoom['blanks']> {
    return blanksOf(ask, this.readings.of(ask.trees, ask.draft));
  }

  async fill(ask: FillAsk): ReturnType<PlanRoom['fill']> {
    const read = (trees: Grid) => this.readings.of(trees, ask.draft);
    return fillingOf(ask, read(ask.trees), read);
  }

  async takeBack(ask: TakeBackAsk): ReturnType<PlanRoom['takeBack']> {
    return takingBack(ask, this.readings.of(ask.trees, ask.draft));
  }

  async model(fresh?: LivingPapers): Promise<WorkbookModel> {
    return bookOf(this.planned(), fresh);
  }

  async file(wish: ExportWish, fresh?: LivingPapers): ReturnType<PlanRoom['file']> {
    const kept = this.planned();
    const { planFile } = await import('./room-files.js');
    return planFile(kept.job, kept.ask, wish, this.parts, () => bookOf(kept, fresh));
  }

  end(): void {
    this.kept = undefined;
    this.held = undefined;
  }

  private latitude(trees: Grid, draft: Draft): number | undefined {
    return trees.cells.length > 0 ? ownLatitude(this.readings.of(trees, draft)) : undefined;
  }

  private treesOf(trees: Grid, draft: Draft): Tree[] {
    if (trees.cells.length === 0) return [];
    return this.readings.of(trees, draft).rows.flatMap(({ tree }) => tree ?? []);
  }

  private planned(): Kept {
    if (!this.kept) throw new Problem('there is no plan yet: plan the season first');
    return this.kept;
  }
}

/** A plan room without a worker. */
export const roomHere = (parts: RoomParts): PlanRoom => new RoomHere(parts);
