import { carColumn, tyreColumn } from '@tubgap/core';
import { HORSEPOWER, hundredths, PSI } from '@tubgap/units';
import { byTyre, type Caution } from './caution.ts';
import { GAP_ANGLES, middleStaticGaps } from './pick.ts';
import type { CaseSetup, RunTyre } from './setup.ts';
import { caseState } from './state.ts';

/** A radial at this cold pressure or more is a street tyre rather than one made for the strip, Pa. */
const STREET_PRESSURE = 20 * PSI;

/**
 * Thrust over load at the launch beyond which something of a case is more likely wrong than the tyre that good.
 * Judgement, no source: set above what the quickest cars of each kind show by their times.
 */
function mostGrip({ setup, centralTyre }: RunTyre): { grip: number; kind: string } {
  if (setup.construction === 'bias') return { grip: 4.5, kind: 'a slick' };
  return centralTyre[tyreColumn('coldPressure')]! >= STREET_PRESSURE
    ? { grip: 2, kind: 'a street radial' }
    : { grip: 3.3, kind: 'a drag radial' };
}

/**
 * Power at the tread over the least that takes the car to its trap speed, m v³/(3 x), from which something is more
 * likely wrong. Judgement: the trade's rule of trap speed and weight stands at 1.8, drag and slip of the engine's
 * power in it.
 */
const MOST_POWER = 2.5;

/** Whatever height and tub: forces at the launch and at the finish do not depend on them. */
const HEIGHT = 1;

function launchGrip(setup: CaseSetup): Caution[] {
  return byTyre(setup, 'launch-grip', (tyre, index) => {
    const { tyreThrust, tyreLoad } = caseState(setup, {
      tyre: index,
      tub: 0,
      topHeight: HEIGHT,
      moment: 'launch',
    });
    const asked = tyreThrust / tyreLoad;
    const { grip, kind } = mostGrip(tyre);
    if (asked <= grip) return undefined;
    return (
      `The launch asks the rear tyres for a grip of ${asked.toFixed(1)}, thrust over load; ${kind} hardly gives more than ` +
      `${grip.toFixed(1)}. Check the launch acceleration against the 60 ft time, the weight on the rear axle, the height ` +
      'of the centre of gravity, and the tyre.'
    );
  });
}

function power(setup: CaseSetup): Caution[] {
  return byTyre(setup, 'power', ({ centralCar, run }, index) => {
    const most = Math.max(
      ...(['gear change', 'finish'] as const).map((moment) => {
        const { tyreThrust, carSpeed } = caseState(setup, { tyre: index, tub: 0, topHeight: HEIGHT, moment });
        return 2 * tyreThrust * carSpeed;
      }),
    );
    const mass = centralCar[carColumn('mass')]!;
    const least = (mass * centralCar[carColumn('trapSpeed')]! ** 3) / (3 * run.distance);
    if (most <= MOST_POWER * least) return undefined;
    return (
      `This run takes about ${Math.round(most / HORSEPOWER / 100) * 100} hp at the tread, ${(most / least).toFixed(1)} times ` +
      'the least that takes this mass to its trap speed over this distance. Check mass, drag area, trap speed, distance ' +
      'and, where it is given, the acceleration at the finish.'
    );
  });
}

/** What of a case is hardly possible at its middle values, with what to check. */
export const senseChecks = (setup: CaseSetup): Caution[] => [...launchGrip(setup), ...power(setup)];

/** Hub angles at which the standing tyre is held against the tub, degrees: those of the pick, and as far behind. */
const ANGLES = [-90, -75, -60, -45, ...GAP_ANGLES];

/** A place of a tub that is picked or asked for. */
export interface StandingPlace {
  tub: number;
  name: string;
  /** m */
  topHeight: number;
}

/** Says where the build tyre stands in the skin of a tub before it has turned once. */
export function restCautions(setup: CaseSetup, places: readonly StandingPlace[]): Caution[] {
  return places.flatMap(({ tub, name, topHeight }): Caution[] => {
    const gaps = middleStaticGaps(setup, tub, topHeight, ANGLES);
    const least = Math.min(...gaps);
    if (least >= 0) return [];
    const angle = ANGLES[gaps.indexOf(least)]!;
    const where = angle === 0 ? 'straight up' : `${Math.abs(angle)}° ${angle > 0 ? 'ahead' : 'behind'}`;
    return [
      {
        code: 'no-static-gap',
        text:
          `${name} with its top at ${hundredths(topHeight)} has no gap at all: standing still the build tyre is ` +
          `${hundredths(-least)} through it ${where}. Check that height, the tub’s size and centre, the height of the axle ` +
          'and the tyre’s radius.',
      },
    ];
  });
}
