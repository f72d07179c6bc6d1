/**
 * What twins of worksheet functions are written with: the factors of a unit system as text, and how a twin says
 * its arguments. Constants are those of `engine/units.ts`, written out in full.
 */
import {
  KG_PER_POUND,
  KPA_PER_PSI,
  L_PER_GALLON,
  M3_PER_CUBIC_YARD,
  M_PER_FOOT,
  MM_PER_INCH,
  type Units,
} from '../../engine/units.js';

/** Engine units in one shown unit, as text for a formula. */
export interface Factors {
  /** litres in a volume unit */
  volume: string;
  /** millimetres in a unit of small length: hole, ball (US) */
  inch: string;
  /** millimetres in a unit of water depth */
  depth: string;
  /** millimetres in a unit of trunk, ball, spacing, water level */
  ball: string;
  /** metres in a unit of canopy or hose */
  canopy: string;
  /** cubic metres in a unit of bulk: mulch */
  heap: string;
  /** kilopascals in a unit of pressure */
  pressure: string;
  /** kilograms in a unit of weight */
  weight: string;
  /** hose length on which a rate is stated, in hose units */
  rateLength: string;
  celsius: (t: string) => string;
}

export const FACTORS: Record<Units, Factors> = {
  US: {
    volume: String(L_PER_GALLON),
    inch: String(MM_PER_INCH),
    depth: String(MM_PER_INCH),
    ball: String(MM_PER_INCH),
    canopy: String(M_PER_FOOT),
    heap: String(M3_PER_CUBIC_YARD),
    pressure: String(KPA_PER_PSI),
    weight: String(KG_PER_POUND),
    rateLength: '100',
    celsius: (t) => `((${t}-32)*5/9)`,
  },
  SI: {
    volume: '1',
    inch: '1',
    depth: '1',
    ball: '10',
    canopy: '1',
    heap: '1',
    pressure: '1',
    weight: '1',
    rateLength: '1',
    celsius: (t) => `(${t}*1)`,
  },
};

export interface TwinArgument {
  name: string;
  /** used when the argument is left out; an argument without one is required */
  fallback?: string;
}

export interface Twin {
  args: TwinArgument[];
  /** `a` holds each argument by name, safe to put beside any operator */
  formula: (a: Record<string, string>, f: Factors) => string;
}

export const need = (...names: string[]): TwinArgument[] => names.map((name) => ({ name }));
export const option = (name: string, fallback: string): TwinArgument => ({ name, fallback });

/** A small length as metres inside a formula. */
export const metres = (value: string, millimetres: string): string =>
  `(${value}*${millimetres}/1000)`;
