/**
 * What the pictures show, as plain numbers in the units people see: the panel draws them, the workbook's charts hold the
 * same. Plain data, so that a worker can hand it over.
 */
import type { Day } from '../engine/dates.js';
import type { Units } from '../engine/units.js';

/** The season by weeks, for all trees together. */
export interface SeasonSeries {
  /** "gal" or "L" */
  unit: string;
  weeks: {
    from: Day;
    to: Day;
    /** what the trees would use */
    demand: number;
    /** rain that counts, on their root zones */
    rain: number;
    watering: number;
    crewHours: number;
    waterings: number;
  }[];
  /** stages as they begin; "" for none in force */
  stages: { day: Day; name: string }[];
}

/** Crew hours of each day of the season. */
export interface CrewSeries {
  /** hours the crews have in a day */
  limit: number;
  days: {
    day: Day;
    hours: number;
    /** the rules close every means of the kit */
    barred: boolean;
    /** no work day of the crew */
    off: boolean;
  }[];
}

/** One tree: water left in ball and ring at the end of each day. */
export interface WaterLeftSeries {
  row: number;
  id: string;
  /** "gal" or "L" */
  unit: string;
  from: Day;
  ball: number[];
  ring: number[];
  /** water in both stores below which the tree is under stress */
  threshold: number[];
  /** what both hold when full */
  full: number[];
  /** rain that counts, as water on its root zone */
  rain: number[];
  stress: boolean[];
  waterings: { day: Day; amount: number; why: string }[];
  /** why this means, in a sentence with its numbers */
  whyMeans: string;
  means: string;
}

/** A soaker hose laid round a tree, to scale. */
export interface CoilSeries {
  name: string;
  /** in English; `coilDrawing` makes it from the facts in other words */
  svg: string;
  alt: string;
  facts: CoilFacts;
}

/** What a drawing of a coil is made from. */
export interface CoilFacts {
  /** the hose, as the kit names it */
  device: string;
  /** hoses of the kit joined into this one */
  joined: number;
  units: Units;
  /** trees that get it, counting rows of several; the tree drawn stands in the middle of them by its dripline */
  trees: number;
  /** of the tree that is drawn */
  id: string;
  /** trunk and ball across [mm] */
  stem: number;
  ball: number;
  /** dripline across [m] */
  canopy: number;
  /** of all joined hoses [m] */
  length: number;
}
