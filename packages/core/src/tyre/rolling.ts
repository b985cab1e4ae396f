import { tyreColumn } from '../inputs.ts';
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

/** A tyre that rolls freely at a speed, m. */
export interface RollingTyre {
  freeRadius: number;
  growth: number;
  /** Drop of the axle under the load, of the grown tyre. */
  drop: number;
}

/**
 * A tyre rolling without slip at a speed under a load: what a log of road and shaft speed can be compared with.
 * @param tyre  one draw of TYRE_INPUTS
 * @param pressure  of the air in it at that moment, gauge, Pa
 * @param speed  m/s, ≥ 0
 * @param load  N
 */
export function rollingTyre(
  tyre: Float64Array,
  setup: TyreSetup,
  pressure: number,
  speed: number,
  load: number,
): RollingTyre {
  const value = (name: Parameters<typeof tyreColumn>[0]): number => tyre[tyreColumn(name)]!;
  const reference = value('referenceRadius');
  const free = freeRadius(reference, value('radiusPerPressure'), pressure, setup.referencePressure);
  const carcass = value('growthCarcassPressure');
  const growth =
    setup.construction === 'bias'
      ? biasGrowth(
          speed,
          value('growthScale') * reference,
          value('growthSpeedFactor') *
            biasGrowthSpeed(
              pressure,
              carcass,
              value('sectionWidth'),
              free,
              bandMassPerLength(value('mass'), free),
            ),
        )
      : radialGrowth(speed, free, radialGrowthFraction(value('growthScale'), pressure, carcass));
  const radius = free + growth;
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
  return { freeRadius: free, growth, drop: axleDrop(band, load, halfPatch) };
}
