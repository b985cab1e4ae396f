import { writeFileSync } from 'node:fs';
import type { ClearanceSetup, TyreSetup } from '@tubgap/core';

/** What a peer is asked: one tyre's runs in every tub of a case. */
export interface Question {
  clearance: ClearanceSetup;
  tyre: TyreSetup;
  /** Measured axle height, m, or what the axle stands on when the tub's place is set, its draws in `buildColumns`. */
  axle: number | { pressure: number; tyre: TyreSetup };
  runs: number;
  /** One array a CAR_INPUTS name, TYRE_INPUTS name, and TYRE_INPUTS name of the build tyre; SI. */
  carColumns: readonly Float64Array[];
  tyreColumns: readonly Float64Array[];
  buildColumns: readonly Float64Array[];
}

/** The setup of a question as lines of text: a key and its values, SI. */
function setupText(question: Question): string {
  const { clearance, tyre, axle, runs } = question;
  const lines: (string | number)[][] = [
    ['runs', runs],
    ['distance', clearance.distance],
    ['finishAccelerationIs', clearance.finishAccelerationIs],
    ['gripLostChance', clearance.gripLostChance],
    ['reserve', clearance.reserve],
    ['growthFactor', clearance.growthFactor],
    ['construction', tyre.construction],
    ['tyre', tyre.referencePressure, tyre.radialStiffness],
    typeof axle === 'number'
      ? ['axleHeight', axle]
      : ['build', axle.pressure, axle.tyre.referencePressure, axle.tyre.radialStiffness],
    ...clearance.tubs.map((tub) => ['tub', tub.radius, tub.halfExtent, tub.centreForward, tub.legLength]),
  ];
  return `${lines.map((line) => line.join(' ')).join('\n')}\n`;
}

/** Writes a question for the peers: `<stem>.txt`, and `<stem>.bin` with the draws as doubles, column by column. */
export function writeQuestion(question: Question, stem: string): { setup: string; draws: string } {
  const { runs, carColumns, tyreColumns, buildColumns, axle } = question;
  const columns = [...carColumns, ...tyreColumns, ...(typeof axle === 'number' ? [] : buildColumns)];
  const values = new Float64Array(columns.length * runs);
  columns.forEach((column, c) => {
    values.set(column.subarray(0, runs), c * runs);
  });
  const files = { setup: `${stem}.txt`, draws: `${stem}.bin` };
  writeFileSync(files.setup, setupText(question));
  writeFileSync(files.draws, new Uint8Array(values.buffer));
  return files;
}
