import { type Case, type CaseTub, type CaseTyre, numbersIn, type UncertainInput } from '@tubgap/casefile';
import {
  buildLoad,
  CAR_INPUTS,
  type ClearanceSetup,
  carColumn,
  clearsAtRest,
  hardPointFan,
  radialStiffnessFromDrop,
  staticLoadedRadius,
  type Tub,
  TYRE_INPUTS,
  type TyreInput,
  type TyreSetup,
  tyreColumn,
} from '@tubgap/core';
import { centralValue } from '@tubgap/statistics';
import { ceilTo, SIXTEENTH } from '@tubgap/units';

/** What of a clearance is a class's own. */
export type ClassRun = Pick<
  ClearanceSetup,
  'distance' | 'finishAccelerationIs' | 'gripLostChance' | 'reserve'
>;

/** A tyre of a case in its class, ready for the kernel: a class is a car, a tyre and its runs. */
export interface RunTyre {
  /** Of the tyre in its class: its runs' streams go by it. */
  name: string;
  /** Of the tyre itself: its inputs' streams go by it, so that in all its classes it is one and the same. */
  tyreName: string;
  setup: TyreSetup;
  run: ClassRun;
  /** Accepted chance that one of its runs goes under the reserve. */
  accepted: number;
  runsPerSeason: number;
  /** One input a CAR_INPUTS name: the car's, with what this tyre's class changes. */
  car: readonly UncertainInput[];
  /** One input a TYRE_INPUTS name; what is the same in several classes of a tyre is one object. */
  tyre: readonly UncertainInput[];
  /** All at their middle values. */
  centralCar: Float64Array;
  centralTyre: Float64Array;
}

/** Whether an input is the toss that decides if grip is lost: its ends are those of a chance, not of a measurement. */
export const isBernoulli = (tyre: RunTyre, input: UncertainInput): boolean =>
  input === tyre.car[carColumn('gripLostToss')];

/** A case made ready: what no draw changes. */
export interface CaseSetup {
  tyres: readonly RunTyre[];
  buildIndex: number;
  buildPressure: number;
  /** Measured axle height, m; undefined: from the build tyre in each draw. */
  axleHeight: number | undefined;
  /** Axle height with everything at its middle value, m. */
  centralAxleHeight: number;
  /** What all classes have in common; `clearanceOf` has the rest. */
  clearance: Omit<ClearanceSetup, keyof ClassRun>;
  /** Lowest height in question of each tub, m: a multiple of 1/4 in. */
  lowestHeights: readonly number[];
}

/** All that the kernel asks of the runs of one class. */
export const clearanceOf = (
  { clearance, tyres }: Pick<CaseSetup, 'clearance' | 'tyres'>,
  tyre: number,
): ClearanceSetup => ({ ...clearance, ...tyres[tyre]!.run });

/** Whether the same draws of a car have the same moments. */
export const isSameTrack = (one: ClassRun, other: ClassRun): boolean =>
  one.distance === other.distance &&
  one.finishAccelerationIs === other.finishAccelerationIs &&
  one.gripLostChance === other.gripLostChance;

/** Whether two inputs have the same values wherever their streams are the same. */
export const isSameInput = (one: UncertainInput, other: UncertainInput): boolean =>
  one === other ||
  JSON.stringify([one.law, one.each, one.floor, one.follows]) ===
    JSON.stringify([other.law, other.each, other.floor, other.follows]);

/** Inputs of a case's tyres, one object for what a tyre has in several classes. */
function tyreInputs(tyres: readonly CaseTyre[]): UncertainInput[][] {
  const read: UncertainInput[][] = [];
  tyres.forEach(({ tyre, inputs }) => {
    const isSame = (k: number): boolean => tyres[k]!.tyre === tyre;
    read.push(
      TYRE_INPUTS.map((name, index) => {
        const own = inputs[name];
        const known = read.find((other, k) => isSame(k) && isSameInput(other[index]!, own));
        // What two tyres are told by one object is still two numbers.
        const isTaken = read.some((other, k) => !isSame(k) && other[index] === own);
        return known?.[index] ?? (isTaken ? { ...own } : own);
      }),
    );
  });
  return read;
}

const middle = (inputs: readonly UncertainInput[]): Float64Array =>
  Float64Array.from(inputs, (input) => centralValue(input.law));

function tyreSetup(tyre: CaseTyre): TyreSetup {
  const central = (name: TyreInput): number => centralValue(tyre.inputs[name].law);
  return {
    construction: tyre.construction,
    referencePressure: tyre.referencePressure,
    radialStiffness: radialStiffnessFromDrop({
      pressure: tyre.referencePressure,
      load: tyre.deflectionLoad,
      drop: tyre.deflection,
      freeRadius: central('referenceRadius'),
      sectionWidth: central('sectionWidth'),
      treadWidth: central('treadWidth'),
      carcassPressure: central('patchCarcassPressure'),
      tangentialRatio: central('tangentialRatio'),
    }),
  };
}

/** Side view of a catalogue's tub: bare skin less the liner. */
export function tubProfile(tub: CaseTub): Tub {
  return {
    radius: 0.5 * tub.diameter - tub.liner,
    halfExtent: 0.5 * tub.arcExtent,
    legLength: tub.legLength,
    centreForward: tub.centreForward,
    ...(tub.notches.length > 0 ? { notches: tub.notches } : {}),
  };
}

/**
 * Makes a case ready for the kernel.
 * @param growthFactor  on the growth of every tyre, 1 as modelled
 * @throws RangeError when no sidewall gives a tyre's measured deflection
 */
export function caseSetup(source: Case, growthFactor = 1): CaseSetup {
  const ofTyres = tyreInputs(source.tyres);
  const tyres = source.tyres.map((tyre, i): RunTyre => {
    const car = CAR_INPUTS.map((name) => tyre.car?.[name] ?? source.car[name]);
    const inputs = ofTyres[i]!;
    const { runRisk: accepted, ...run } = numbersIn(source, tyre);
    return {
      name: tyre.name,
      tyreName: tyre.tyre,
      setup: tyreSetup(tyre),
      run,
      accepted,
      runsPerSeason: tyre.runsPerSeason,
      car,
      tyre: inputs,
      centralCar: middle(car),
      centralTyre: middle(inputs),
    };
  });
  const buildIndex = tyres.findIndex((tyre) => tyre.name === source.build.tyre);
  const build = tyres[buildIndex];
  if (build === undefined) throw new RangeError(`the build tyre ${source.build.tyre} is not among the tyres`);
  const centralAxleHeight =
    source.build.axleHeight ??
    staticLoadedRadius(build.centralCar, build.centralTyre, build.setup, source.build.pressure);

  const lowestHeights: number[] = [];
  const tubs = source.tubs.map((tub): Tub => {
    const profile = tubProfile(tub);
    const clears = Math.max(
      ...tyres.map((tyre) =>
        clearsAtRest(
          tyre.centralTyre,
          tyre.setup,
          tyre.centralTyre[tyreColumn('coldPressure')]!,
          buildLoad(tyre.centralCar),
          profile,
          centralAxleHeight,
        ),
      ),
    );
    const first = Number.isFinite(clears) ? ceilTo(clears, 4 * SIXTEENTH) : 2 * profile.radius;
    const lowest = Math.min(first, ...(source.heights ?? []));
    lowestHeights.push(Math.floor(lowest / (4 * SIXTEENTH) + 1e-9) * 4 * SIXTEENTH);
    return profile;
  });

  const hardPoints = source.hardPoints.map((point) =>
    hardPointFan(
      point.shape === 'circle'
        ? { shape: 'circle', ahead: point.ahead, above: point.above, radius: point.radius }
        : {
            shape: 'polygon',
            xy: Float64Array.from(point.points.flatMap((corner) => [corner.ahead, corner.above])),
          },
    ),
  );
  return {
    tyres,
    buildIndex,
    buildPressure: source.build.pressure,
    axleHeight: source.build.axleHeight,
    centralAxleHeight,
    lowestHeights,
    clearance: { tubs, hardPoints, growthFactor },
  };
}
