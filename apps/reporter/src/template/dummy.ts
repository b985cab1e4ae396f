import { hardPointGap, tubGap } from '@tubgap/core';
import type { Result } from '@tubgap/results';
import { DEGREE } from '@tubgap/units';
import { hardPointShape } from '../hard-points/hard-shape.ts';
import { chosenTub } from '../sheets/chosen-tub.ts';

/** A point of the template, m from the wheel centre of the outline: ahead and above. */
export interface BoardPoint {
  ahead: number;
  above: number;
}

/** A place of the board that goes on the hub's centre. */
export interface HubHole extends BoardPoint {
  mark: 'A' | 'B' | 'C';
  /** How the car stands when this hole is used. */
  use: string;
}

/** A flat stand-in for the tyre at its largest, held on the hub with its mark plumb; SI. */
export interface Dummy {
  tyre: string;
  /** Whether this is the tyre that decides the height. */
  decides: boolean;
  /** Share of runs whose outline stays inside at each angle. */
  share: number;
  /** The run that the hub holes come from: its deciding moment, body down and axle forward from rest. */
  moment: string;
  drop: number;
  forward: number;
  /** From 120° behind the top round to 120° ahead, every degree; `closing` closes it below. */
  outline: BoardPoint[];
  /** What closes it below by a level line: from the lower of its ends, and straight up to the other. */
  closing: BoardPoint[];
  holes: HubHole[];
  largestRadius: number;
  /** Top height at which the tub is set out, and the least. */
  setOut: number;
  least: number;
  /** Smallest gap to the tub as it is set out, the dummy where the run puts it, and the hub angle of that place. */
  gap: { gap: number; angle: number };
  /** The hard point that it comes nearest to there, and how near; undefined where the case has none. */
  nearest: { name: string; gap: number } | undefined;
}

/** Radius at an angle by a cubic through the four nearest of the result's angles, which stand at equal steps. */
function radiusAt(angles: readonly number[], radii: readonly number[], angle: number): number {
  const step = angles[1]! - angles[0]!;
  const place = (angle - angles[0]!) / step;
  const first = Math.max(0, Math.min(angles.length - 4, Math.floor(place) - 1));
  let radius = 0;
  for (let i = 0; i < 4; i++) {
    let weight = 1;
    for (let j = 0; j < 4; j++) if (j !== i) weight *= (place - first - j) / (i - j);
    radius += weight * radii[first + i]!;
  }
  return radius;
}

/** Middle of an input of the car, SI, as the tyre's class has it where that differs; 0 where the result has neither. */
function middle(result: Result, tyre: string, path: string): number {
  const ofClass = result.inputs.find((input) => input.tyre === tyre && input.path.endsWith(`.class.${path}`));
  const ofCar = result.inputs.find((input) => input.path === path);
  return (ofClass ?? ofCar)?.middle ?? 0;
}

/** The corner that makes the line between an outline's ends level: the one end's place across at the other's lower height. */
function levelClosing(outline: readonly BoardPoint[]): BoardPoint[] {
  const [first, last] = [outline[0]!, outline.at(-1)!];
  const [higher, lower] = first.above > last.above ? [first, last] : [last, first];
  return [{ ahead: higher.ahead, above: lower.above }];
}

/**
 * The dummy of one tyre, at the rarest outline that the result holds: each angle at its own worst, so
 * that it is a little larger than any one run of that rank. Its hub holes take up what the body drops and the axle
 * moves forward in a run of that rank. Undefined when there is no tub to build.
 */
export function dummyOf(result: Result, index: number): Dummy | undefined {
  const chosen = chosenTub(result);
  const { outlines } = result;
  if (chosen === undefined || outlines.pick === null) return undefined;
  const { tub, height, setOut } = chosen;
  const { name } = result.tyres[index]!;
  const own = outlines.tyres[index];
  const run = outlines.pick.shown[index]?.at(-1);
  const radii = own?.quantiles.at(-1);
  if (own === undefined || run === undefined || radii === undefined) return undefined;
  const { angles } = outlines;
  const count = Math.round((angles.at(-1)! - angles[0]!) / DEGREE);
  const outline: BoardPoint[] = [];
  const atHub: { angle: number; radius: number }[] = [];
  for (let k = 0; k <= count; k++) {
    const angle = angles[0]! + k * DEGREE;
    const radius = radiusAt(angles, radii, angle);
    atHub.push({ angle, radius });
    outline.push({ ahead: radius * Math.sin(angle), above: radius * Math.cos(angle) });
  }

  const slope = middle(result, name, 'suspension.axlePathSlope');
  const stop = Math.min(run.drop, middle(result, name, 'suspension.bumpTravel') + own.rideHeightChange);
  const { drop, forward } = run;
  // What the run's place of the tub over the axle is without its own errors of build: the plan.
  const centre = {
    ahead: tub.centreForward - forward + slope * own.rideHeightChange,
    above: setOut - tub.radius - result.build.axleHeight + own.rideHeightChange - drop,
  };
  const side = {
    radius: tub.radius,
    halfExtent: tub.halfExtent,
    legLength: tub.legLength,
    centreForward: tub.centreForward,
    notches: tub.notches,
  };
  let gap = { gap: Number.POSITIVE_INFINITY, angle: 0 };
  outline.forEach((point, k) => {
    const here = tubGap(side, point.ahead - centre.ahead, point.above - centre.above);
    if (here < gap.gap) gap = { gap: here, angle: atHub[k]!.angle };
  });
  // Hard points stand where the body's drop and the axle's path bring them: lower and further back.
  const down = drop - own.rideHeightChange;
  const back = forward - slope * own.rideHeightChange;
  const [nearest] = result.hardPoints
    .map((point) => {
      const shape = hardPointShape(point);
      const gaps = outline.map(({ ahead, above }) => hardPointGap(shape, ahead + back, above + down));
      return { name: point.name, gap: Math.min(...gaps) };
    })
    .sort((a, b) => a.gap - b.gap);
  return {
    tyre: name,
    decides: name === height.limitingTyre,
    setOut,
    least: height.topHeight,
    share: outlines.quantiles.at(-1)!,
    moment: run.moment,
    drop,
    forward,
    outline,
    closing: levelClosing(outline),
    holes: [
      { mark: 'A', ahead: -forward, above: -drop, use: 'car standing at ride height on its springs' },
      {
        mark: 'B',
        ahead: slope * stop - forward,
        above: stop - drop,
        use: 'springs out, body let down until the bump stop just touches',
      },
      { mark: 'C', ahead: 0, above: 0, use: 'body let down by the whole drop and the axle moved forward' },
    ],
    largestRadius: Math.max(...radii),
    gap,
    nearest,
  };
}
