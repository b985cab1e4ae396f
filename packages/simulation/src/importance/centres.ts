import { type NormalModel, searchCentres } from '@tubgap/statistics';
import { fillSettled } from '../draws.ts';
import { type BlockRoom, evaluateBlock } from '../run-risk.ts';
import type { CaseSetup } from '../setup.ts';
import type { Centres } from './mixture.ts';
import { type NormalSpace, setDirection } from './normal-space.ts';

/** The runs of a case as a model of standard normal numbers: required heights of every tyre in every tub, m. */
function runModel(setup: CaseSetup, space: NormalSpace, room: BlockRoom): NormalModel {
  const { tubs } = setup.clearance;
  return {
    directions: space.directions.map(({ stream }) => stream),
    outputs: setup.tyres.length * tubs.length,
    evaluate: (normals, count, values) => {
      space.directions.forEach((direction, d) => {
        setDirection(direction, normals[d]!, count, room.columns);
      });
      evaluateBlock(setup, room, count);
      room.tables.forEach(({ requiredHeight, capacity }, i) => {
        tubs.forEach((_, t) => {
          const heights = requiredHeight.subarray(t * capacity, t * capacity + count);
          values[i * tubs.length + t]!.set(heights);
        });
      });
    },
  };
}

/**
 * Finds where in normal space touches come from, for every tyre in every tub at once.
 * @throws ModelRangeError that names an input outside the model
 */
export function touchCentres(setup: CaseSetup, space: NormalSpace, seed: number, room: BlockRoom): Centres {
  fillSettled(setup.tyres, room.columns);
  return searchCentres(runModel(setup, space, room), { seed });
}
