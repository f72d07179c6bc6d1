/** What the planner asks of an exact solver for whole-number problems. The solver itself is bound outside the engine. */

/** Σ value·x over the columns of a row lies between low and high. */
export interface Row {
  columns: number[];
  values: number[];
  low: number;
  high: number;
}

/** Minimise Σ cost·x, every x a whole number from 0 to `most`. */
export interface WholeNumberModel {
  cost: number[];
  most: number[];
  rows: Row[];
}

export interface WholeNumberAnswer {
  /** undefined when the solver stopped without any solution, or there is none */
  x: number[] | undefined;
  /** a proven lower limit of the objective; equal to the objective where the optimum is proven */
  bound: number;
  proven: boolean;
  /** the solver's own word for how it ended */
  status: string;
}

export type Solve = (model: WholeNumberModel) => Promise<WholeNumberAnswer>;
