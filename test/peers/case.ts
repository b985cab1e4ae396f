import { readFileSync } from 'node:fs';
import {
  CAR_INPUTS,
  type ClearanceSetup,
  type Construction,
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillAxleHeights,
  fillMomentTable,
  type RunTable,
  radialStiffnessFromDrop,
  TYRE_INPUTS,
  type TyreInput,
  type TyreSetup,
} from '@tubgap/core';
import type { Question } from './draws-file.ts';

type Ends = [number, number];

interface CaseFile {
  seed: number;
  runs: number;
  distance: number;
  finishAccelerationIs: 'absolute' | 'relative';
  gripLostChance: number;
  reserve: number;
  growthFactor: number;
  build: { tyre: string; pressure: number };
  tubs: {
    name: string;
    radius: number;
    halfExtent: number;
    centreForward: number;
    legLength: number;
  }[];
  car: Record<string, Ends>;
  tyres: {
    name: string;
    construction: Construction;
    referencePressure: number;
    deflection: { load: number; drop: number };
    inputs: Record<TyreInput, Ends>;
  }[];
}

export const fixture = (name: string): string =>
  readFileSync(new URL(`fixtures/${name}`, import.meta.url), 'utf8');

/** Every input evenly between its ends, run by run, in the order in which numpy/write_answers.py draws them. */
function drawColumns(file: CaseFile): Float64Array[][] {
  const groups = [
    CAR_INPUTS.map((name) => file.car[name]!),
    ...file.tyres.map((tyre) => TYRE_INPUTS.map((name) => tyre.inputs[name])),
  ];
  const columns = groups.map((group) => group.map(() => new Float64Array(file.runs)));
  let x = file.seed;
  for (let run = 0; run < file.runs; run++) {
    groups.forEach((group, g) => {
      group.forEach(([low, high], c) => {
        x = (48271 * x) % 2147483647;
        columns[g]![c]![run] = low + (x / 2147483647) * (high - low);
      });
    });
  }
  return columns;
}

function tyreSetup(tyre: CaseFile['tyres'][number]): TyreSetup {
  const middle = (name: TyreInput): number => (tyre.inputs[name][0] + tyre.inputs[name][1]) / 2;
  return {
    construction: tyre.construction,
    referencePressure: tyre.referencePressure,
    radialStiffness: radialStiffnessFromDrop({
      pressure: tyre.referencePressure,
      ...tyre.deflection,
      freeRadius: middle('referenceRadius'),
      sectionWidth: middle('sectionWidth'),
      treadWidth: middle('treadWidth'),
      carcassPressure: middle('patchCarcassPressure'),
      tangentialRatio: middle('tangentialRatio'),
    }),
  };
}

/** What fixtures/case.json asks: one question a tyre, by the tyre's name. */
export function caseQuestions(): { name: string; question: Question }[] {
  const file = JSON.parse(fixture('case.json')) as CaseFile;
  const clearance: ClearanceSetup = {
    tubs: file.tubs,
    hardPoints: [],
    reserve: file.reserve,
    growthFactor: file.growthFactor,
    distance: file.distance,
    finishAccelerationIs: file.finishAccelerationIs,
    gripLostChance: file.gripLostChance,
  };
  const [carColumns, ...tyreColumns] = drawColumns(file);
  const setups = file.tyres.map(tyreSetup);
  const build = file.tyres.findIndex((tyre) => tyre.name === file.build.tyre);
  return file.tyres.map((tyre, i) => ({
    name: tyre.name,
    question: {
      clearance,
      tyre: setups[i]!,
      axle: { pressure: file.build.pressure, tyre: setups[build]! },
      runs: file.runs,
      carColumns: carColumns!,
      tyreColumns: tyreColumns[i]!,
      buildColumns: tyreColumns[build]!,
    },
  }));
}

/**
 * What openturns/subset.py asks, as plain data: the build tyre in the last tub, and the two ends of every input, those
 * of the car before those of the tyre.
 */
export function rareQuestion(): {
  clearance: ClearanceSetup;
  tyre: TyreSetup;
  build: { tyre: TyreSetup; pressure: number };
  ends: Ends[];
} {
  const file = JSON.parse(fixture('case.json')) as CaseFile;
  const built = file.tyres.find((tyre) => tyre.name === file.build.tyre)!;
  const { clearance } = caseQuestions()[0]!.question;
  const tyre = tyreSetup(built);
  return {
    clearance: { ...clearance, tubs: clearance.tubs.slice(-1) },
    tyre,
    build: { tyre, pressure: file.build.pressure },
    ends: [...CAR_INPUTS.map((name) => file.car[name]!), ...TYRE_INPUTS.map((name) => built.inputs[name])],
  };
}

/** The project's own answers to a question. */
export function ownAnswers(question: Question): RunTable {
  const { clearance, tyre, axle, runs, carColumns, tyreColumns, buildColumns } = question;
  const table = createRunTable(clearance, runs);
  const moments = createMomentTable(runs);
  const axleHeights = new Float64Array(runs);
  if (typeof axle === 'number') axleHeights.fill(axle);
  else fillAxleHeights(axle.tyre, axle.pressure, carColumns, buildColumns, runs, axleHeights);
  fillMomentTable(clearance, carColumns, runs, moments);
  evaluateRuns(clearance, tyre, carColumns, tyreColumns, moments, axleHeights, runs, table);
  return table;
}
