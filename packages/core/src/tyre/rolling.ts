import { type TyreInput, tyreColumn } from '../inputs.ts';
import { airTension } from './band.ts';
import { axleDrop } from './deflection.ts';
import { grownTyre } from './grown.ts';
import type { TyreSetup } from './inflated.ts';
import { patchHalfAngle } from './patch.ts';

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
