import { type TyreInput, tyreColumn } from '../inputs.ts';
import { GROWTH_LAWS } from './growth-laws.ts';
import type { TyreSetup } from './inflated.ts';
import { freeRadius } from './size.ts';

/** A tyre at speed, free of load, m. */
export interface GrownTyre {
  freeRadius: number;
  growth: number;
  /** Of its growth law at the pressure: v_c of a bias slick, m/s; q of a radial, 1. */
  parameter: number;
}

/**
 * Free radius and growth of a tyre at a pressure and a tread speed, m, in plain steps; `inflated.ts` has the same for
 * the kernel.
 * @param tyre  one draw of TYRE_INPUTS
 * @param pressure  of the air in it at that moment, gauge, Pa
 * @param speed  of the tread, m/s, ≥ 0
 */
export function grownTyre(tyre: Float64Array, setup: TyreSetup, pressure: number, speed: number): GrownTyre {
  const value = (name: TyreInput): number => tyre[tyreColumn(name)]!;
  const free = freeRadius(
    value('referenceRadius'),
    value('radiusPerPressure'),
    pressure,
    setup.referencePressure,
  );
  const law = GROWTH_LAWS[setup.construction];
  const parameter = law.parameter(tyre, pressure, free);
  return { freeRadius: free, growth: law.growth(speed, law.scale(tyre), free, parameter), parameter };
}
