import type { Case } from '@tubgap/casefile';
import { buildLoad, carColumn, staticGaps, staticLoadedRadius, type Tub, type TyreInput } from '@tubgap/core';
import { type CaseSetup, carStream, tyreStream } from '@tubgap/simulation';
import { formatQuantity, INCH, wholeDegrees } from '@tubgap/units';
import type { CarState } from '../car-space.ts';
import type { AsBuilt, GapReading } from '../readings.ts';
import { commonCovariance, normalPart, type Part } from './part.ts';

/** Error that all gaps of one sheet share. Prior: engineering judgement. */
const COMMON = 0.03 * INCH;

/** The tub of a case where it was built in. */
export function builtTub(source: Case, setup: CaseSetup, { tub, centreForward }: AsBuilt): Tub {
  const found = setup.clearance.tubs[source.tubs.findIndex(({ name }) => name === tub)];
  if (found === undefined) throw new RangeError(`the case has no tub ${tub}`);
  return centreForward === undefined ? found : { ...found, centreForward };
}

const TYRE_USED: readonly TyreInput[] = [
  'referenceRadius',
  'radiusPerPressure',
  'patchCarcassPressure',
  'sectionWidth',
  'treadWidth',
  'stiffnessFactor',
  'tangentialRatio',
];

/** Gaps of the standing car with its build tyre at build pressure, typed back from the check sheet. */
export function gapPart(
  source: Case,
  setup: CaseSetup,
  readings: readonly GapReading[],
  built: AsBuilt,
): Part {
  const i = setup.buildIndex;
  const tyre = setup.tyres[i]!;
  const tub = builtTub(source, setup, built);
  const angles = readings.map(({ angle }) => angle);
  const topError = carColumn('topHeightError');
  const centreError = carColumn('centreError');
  const predicted = (state: CarState): number[] => {
    const car = state.car[i]!;
    const own = state.tyre[i]!;
    const axle = setup.axleHeight ?? staticLoadedRadius(car, own, tyre.setup, setup.buildPressure);
    return staticGaps(
      own,
      tyre.setup,
      setup.buildPressure,
      buildLoad(car),
      { ...tub, centreForward: tub.centreForward + car[centreError]! },
      built.topHeight + car[topError]! - axle,
      angles,
    );
  };
  return normalPart(
    {
      kind: 'gaps at rest',
      file: readings[0]!.file,
      names: readings.map(
        ({ file, line, gap, angle, side }) =>
          `${file}:${line}, ${formatQuantity(gap, 'length')} at ${wholeDegrees(angle)}° ${side}`,
      ),
      streams: new Set([
        ...(['mass', 'rearShare', 'addedMass', 'topHeightError', 'centreError'] as const).map(carStream),
        ...TYRE_USED.map((name) => tyreStream(tyre.tyreName, name)),
      ]),
      nuisances: [],
      costly: false,
    },
    {
      values: readings.map(({ gap }) => gap),
      covariance: commonCovariance(
        readings.map(({ sd }) => sd),
        COMMON,
      ),
      predicted,
    },
  );
}
