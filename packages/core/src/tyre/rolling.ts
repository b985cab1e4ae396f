import { type TyreInput, tyreColumn } from '../inputs.ts';
import { airTension } from './band.ts';
import { axleDrop } from './deflection.ts';
import {
  bandMassPerLength,
  biasGrowth,
  biasGrowthSpeed,
  radialGrowth,
  radialGrowthFraction,
} from './growth.ts';
import type { TyreSetup } from './inflated.ts';
import { patchHalfAngle } from './patch.ts';
import { freeRadius } from './size.ts';

/** A tyre at speed, free of load, m. */
export interface GrownTyre {
  freeRadius: number;
  growth: number;
}

/**
 * Free radius and growth of a tyre at a pressure and a tread speed, m.
 * @param tyre  one draw of TYRE_INPUTS
 * @param pressure  of the air in it at that moment, gauge, Pa
 * @param speed  of the tread, m/s, ≥ 0
 */
export function grownTyre(tyre: Float64Array, setup: TyreSetup, pressure: number, speed: number): GrownTyre {
  const value = (name: TyreInput): number => tyre[tyreColumn(name)]!;
  const reference = value('referenceRadius');
  const free = freeRadius(reference, value('radiusPerPressure'), pressure, setup.referencePressure);
  const carcass = value('growthCarcassPressure');
  if (setup.construction === 'radial') {
    const fraction = radialGrowthFraction(value('growthScale'), pressure, carcass);
    return { freeRadius: free, growth: radialGrowth(speed, free, fraction) };
  }
  const bandMass = bandMassPerLength(value('mass'), free);
  const flattening =
    value('growthSpeedFactor') * biasGrowthSpeed(pressure, carcass, value('sectionWidth'), free, bandMass);
  return { freeRadius: free, growth: biasGrowth(speed, value('growthScale') * reference, flattening) };
}

/**
 * Drop of the axle, m, of a tyre that rolls freely at a speed under a load in N: with the growth, less than standing.
 * The rolling radius, car speed over the wheel's turning, lies some share of it below the grown radius.
 */
export function rollingDrop(
  tyre: Float64Array,
  setup: TyreSetup,
  pressure: number,
  speed: number,
  load: number,
): number {
  const value = (name: TyreInput): number => tyre[tyreColumn(name)]!;
  const grown = grownTyre(tyre, setup, pressure, speed);
  const radius = grown.freeRadius + grown.growth;
  const stiffness = setup.radialStiffness * value('stiffnessFactor');
  const band = {
    radius,
    radialStiffness: stiffness,
    tangentialStiffness: stiffness * value('tangentialRatio'),
    airTension: airTension(pressure, value('sectionWidth'), radius),
    bending: 0,
  };
  const halfPatch = patchHalfAngle(
    load,
    pressure,
    value('patchCarcassPressure'),
    value('treadWidth'),
    radius,
  );
  return axleDrop(band, load, halfPatch);
}
