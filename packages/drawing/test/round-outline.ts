import { standingOutline, TYRE_INPUTS, type TyreSetup, tyreColumn } from '@tubgap/core';

const SETUP: TyreSetup = { construction: 'bias', referencePressure: 41_000, radialStiffness: 7e5 };

/** Outline of an unloaded standing tyre of a radius in m: round, and known without the model. */
export function roundOutline(radius: number): Float64Array {
  const tyre = new Float64Array(TYRE_INPUTS.length);
  tyre[tyreColumn('referenceRadius')] = radius;
  tyre[tyreColumn('sectionWidth')] = 0.42;
  tyre[tyreColumn('treadWidth')] = 0.36;
  tyre[tyreColumn('stiffnessFactor')] = 1;
  tyre[tyreColumn('tangentialRatio')] = 0.7;
  return standingOutline(tyre, SETUP, 41_000, 0);
}
