/** The exact solver of whole-number problems: HiGHS, compiled to WebAssembly. Loaded when first asked. */
import type { Highs, InitOptions } from 'highs';
import type { Solve, WholeNumberAnswer, WholeNumberModel } from '../engine/plan/solve.js';

/** Above this many columns a small gap is accepted, and said [-]; below, the optimum is proven. */
const EXACT_COLUMNS = 20_000;
const SMALL_GAP = 1e-4;
/** A last stop for very large models; what is reached by then depends on the machine [s]. */
const MOST_SECONDS = 60;
/** Branches after which the search stops and says how far it came: the same on every machine, unlike a time. */
const MOST_NODES = 20_000;

/** The package's types speak of its CommonJS form; here it is a module whose default is the loader. */
type Load = (options: InitOptions) => Promise<Highs>;

/**
 * A solver that loads HiGHS on its first call.
 *
 * @param options - where the page finds highs.wasm: `{ locateFile: () => 'vendor/highs.wasm' }`; nothing on Node
 */
export function highsSolver(options: InitOptions = {}): Solve {
  let loading: Promise<Highs> | undefined;
  return async (model) => {
    loading ??= import('highs').then((module) => (module.default as unknown as Load)(options));
    return solveWith(await loading, model);
  };
}

function solveWith(highs: Highs, model: WholeNumberModel): WholeNumberAnswer {
  const { infinity, constants } = highs;
  const limit = (value: number): number =>
    Number.isFinite(value) ? value : Math.sign(value) * infinity;
  const starts = [0];
  for (const row of model.rows) starts.push(starts[starts.length - 1]! + row.columns.length);
  const numCols = model.cost.length;
  const numRows = model.rows.length;
  return highs.withModel(
    {
      numCols,
      numRows,
      colCost: model.cost,
      colLower: new Float64Array(numCols),
      colUpper: model.most,
      rowLower: model.rows.map((row) => limit(row.low)),
      rowUpper: model.rows.map((row) => limit(row.high)),
      matrix: {
        format: 'csr',
        numRows,
        numCols,
        starts,
        indices: model.rows.flatMap((row) => row.columns),
        values: model.rows.flatMap((row) => row.values),
      },
      integrality: new Int32Array(numCols).fill(constants.variableType.integer),
    },
    (instance): WholeNumberAnswer => {
      instance.options.set({
        output_flag: false,
        random_seed: 0,
        mip_rel_gap: numCols > EXACT_COLUMNS ? SMALL_GAP : 0,
        time_limit: MOST_SECONDS,
        mip_max_nodes: MOST_NODES,
      });
      instance.run();
      const status = instance.getModelStatus();
      const bound = Number(instance.info.get('mip_dual_bound'));
      const reached = instance.getObjectiveValue();
      const proven =
        status === constants.modelStatus.optimal &&
        reached - bound <= ROUNDING * Math.max(1, Math.abs(reached));
      const some = Number(instance.info.get('primal_solution_status')) === 2;
      return {
        x: some ? [...instance.getSolution().colValue] : undefined,
        bound,
        proven,
        status: wordOf(status, constants.modelStatus),
      };
    },
  );
}

/** Part of an objective that is rounding, not a gap. */
const ROUNDING = 1e-6;

/** `timeLimit` → "time limit" */
function wordOf(status: number, names: Readonly<Record<string, number>>): string {
  const name = Object.keys(names).find((key) => names[key] === status);
  return name === undefined ? `status ${status}` : name.replace(/([A-Z])/g, ' $1').toLowerCase();
}
