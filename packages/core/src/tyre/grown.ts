import { type TyreInput, tyreColumn } from '../inputs.ts';
import {
  bandMassPerLength,
  biasGrowth,
  biasGrowthSpeed,
  radialGrowth,
  radialGrowthFraction,
} from './growth.ts';
import type { TyreSetup } from './inflated.ts';
import { freeRadius } from './size.ts';

/** A tyre at speed, free of load, m. */
export interface GrownTyre {
  freeRadius: number;
  growth: number;
  /** v_c of a bias slick, m/s; q of a radial, 1. */
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
  const reference = value('referenceRadius');
  const free = freeRadius(reference, value('radiusPerPressure'), pressure, setup.referencePressure);
  const carcass = value('growthCarcassPressure');
  switch (setup.construction) {
    case 'bias': {
      const bandMass = bandMassPerLength(value('mass'), free);
      const flattening =
        value('growthSpeedFactor') *
        biasGrowthSpeed(pressure, carcass, value('sectionWidth'), free, bandMass);
      const growth = biasGrowth(speed, value('growthScale') * reference, flattening);
      return { freeRadius: free, growth, parameter: flattening };
    }
    case 'radial': {
      const fraction = radialGrowthFraction(value('growthScale'), pressure, carcass);
      return { freeRadius: free, growth: radialGrowth(speed, free, fraction), parameter: fraction };
    }
  }
}
