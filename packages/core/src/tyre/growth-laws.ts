import { tyreColumn } from '../inputs.ts';
import {
  bandMassPerLength,
  biasGrowth,
  biasGrowthSpeed,
  radialGrowth,
  radialGrowthFraction,
} from './growth.ts';

/**
 * How a construction grows with speed. `tyre` is one draw of TYRE_INPUTS; what depends on it and on the pressure alone
 * is worked out once a run, before the moments ask for the growth at their speeds.
 */
export interface GrowthLaw {
  /** What the pressure (gauge, Pa) makes of the law: v_c of a bias slick, m/s; q of a radial, 1. */
  parameter: (tyre: Float64Array, pressure: number, freeRadius: number) => number;
  /** What else of a draw the law asks for: A of a bias slick, m; nothing of a radial, 1. */
  scale: (tyre: Float64Array) => number;
  /** Growth at a tread speed in m/s, m, from the two. */
  growth: (speed: number, scale: number, freeRadius: number, parameter: number) => number;
}

const REFERENCE_RADIUS = tyreColumn('referenceRadius');
const SCALE = tyreColumn('growthScale');
const SPEED_FACTOR = tyreColumn('growthSpeedFactor');
const CARCASS = tyreColumn('growthCarcassPressure');
const MASS = tyreColumn('mass');
const SECTION_WIDTH = tyreColumn('sectionWidth');

/** The growth law of every construction; catalogue, schemas and priors follow this table. */
export const GROWTH_LAWS = {
  bias: {
    parameter: (tyre, pressure, freeRadius) =>
      tyre[SPEED_FACTOR]! *
      biasGrowthSpeed(
        pressure,
        tyre[CARCASS]!,
        tyre[SECTION_WIDTH]!,
        freeRadius,
        bandMassPerLength(tyre[MASS]!, freeRadius),
      ),
    scale: (tyre) => tyre[SCALE]! * tyre[REFERENCE_RADIUS]!,
    growth: (speed, scale, _freeRadius, parameter) => biasGrowth(speed, scale, parameter),
  },
  radial: {
    parameter: (tyre, pressure) => radialGrowthFraction(tyre[SCALE]!, pressure, tyre[CARCASS]!),
    scale: () => 1,
    growth: (speed, _scale, freeRadius, parameter) => radialGrowth(speed, freeRadius, parameter),
  },
} as const satisfies Readonly<Record<string, GrowthLaw>>;

export type Construction = keyof typeof GROWTH_LAWS;

/** The constructions that have a law, in the table's order. */
export const CONSTRUCTIONS = Object.keys(GROWTH_LAWS) as readonly Construction[];
