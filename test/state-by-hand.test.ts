import { beforeAll, describe, expect, it } from 'vitest';
import { DEMO, ROOT, tubgap } from './end-to-end/command.ts';

const G = 9.80665;
const DIGITS = 5;
const MOMENTS = ['burnout', 'launch', 'gear change', 'finish', 'after the lift', 'parachute'];

type State = Record<string, number> & { inputs: { label: string; value: number }[] };

/** A state as `tubgap state --json` prints it. */
function printed(tyre: string, moment: string): State & { of: (label: string) => number } {
  // Something in inputs that the demo leaves at nothing.
  const set = ['build.addedMass=30 lb', 'build.topHeightError=0.125 in'].flatMap((one) => ['--set', one]);
  const choice = ['--tyre', tyre, '--tub', 'street-42', '--moment', moment, '--height', '40 in'];
  const { out, err } = tubgap(ROOT, 'state', `${DEMO}/case.yaml`, ...choice, ...set, '--json');
  if (out === '') throw new Error(err);
  const state = JSON.parse(out) as State;
  const of = (label: string): number => {
    const found = state.inputs.find((input) => input.label === label);
    if (found === undefined) throw new Error(`no input ${label}`);
    return found.value;
  };
  return Object.assign(state, { of });
}

/** Spring force of a moment before overshoot, by its printed forces: F_s of the sheet. */
const steady = (s: ReturnType<typeof printed>, thrust = 2 * s.tyreThrust!): number =>
  0.5 *
  (s.downforce! +
    s.transfer! -
    (s.of('anti-squat') * thrust * s.of('height of the centre of gravity')) / s.of('wheelbase'));

describe.each(['tall-slick', 'class-radial'])(
  'a printed state of %s can be worked out again by hand',
  (tyre) => {
    let by: Record<string, ReturnType<typeof printed>>;
    beforeAll(() => {
      by = Object.fromEntries(MOMENTS.map((moment) => [moment, printed(tyre, moment)]));
    }, 60_000);

    it.each(MOMENTS)('%s', (moment) => {
      const s = by[moment]!;
      const { of } = s;
      const close = (value: number, name: string): void =>
        expect(value / s[name]!, name).toBeCloseTo(1, DIGITS);
      const weight = of('mass with driver and fuel') * G;
      const rear = weight * of('share of the weight on the rear axle');
      close(s.freeRadius! + s.growth!, 'grownRadius');
      if (tyre === 'tall-slick') {
        const scale = of('growth scale') * of('free radius at the reference pressure');
        close(scale * Math.log(1 + (s.treadSpeed! / s.growthParameter!) ** 2), 'growth');
      } else close(s.growthParameter! * s.freeRadius! * (s.treadSpeed! / 50) ** 2, 'growth');

      const before: Record<string, number> = {
        'after the lift': steady(by.finish!),
        parachute: steady(by['after the lift']!),
      };
      const burning = moment === 'burnout';
      const now = burning ? 0 : steady(s);
      if (!burning) {
        close(0.5 * (rear + s.downforce! + s.transfer!), 'tyreLoad');
        close(now, 'steadySpringForce');
      }
      let force =
        now +
        s.thrustShare! *
          of('wheel rate, per side') *
          of('extra drop of the worse side from driveshaft torque');
      force += 0.5 * G * of('mass on the rear axle that was missing at the build');
      if (before[moment] !== undefined)
        force += (of('overshoot at the lift and at the parachute') - 1) * (now - before[moment]);
      // What the thrust leaves when it is cut at the gear change is not a printed state: its load moves by drag alone.
      if (moment !== 'gear change') close(force, 'springForce');

      const raised = of('body raised on the springs for this tyre');
      const travel = of('free bump travel to the stop') + raised;
      const [k, stop] = [of('wheel rate, per side'), of('rate that the stop adds, per side')];
      const free = s.springForce! / k;
      const drop = free <= travel ? free : travel + (s.springForce! - k * travel) / (k + stop);
      expect(drop - raised).toBeCloseTo(s.bodyDrop!, 7);

      const down = s.bodyDrop! + s.bump!;
      expect(
        of('forward movement of the axle per unit of bump') * down +
          of('forward give of the axle at full thrust') * s.thrustShare!,
      ).toBeCloseTo(s.forward!, 7);
      const error = of('tub top above where it was meant to be');
      const above = s.topHeight! + error - s.staticLoadedRadius! - s.tubRadius! - down;
      expect(above).toBeCloseTo(s.centreAbove!, 7);
      expect(s.centreAtRest! - s.forward!).toBeCloseTo(s.centreAhead!, 7);
      const [sin, cos] = [Math.sin(s.tightAngle!), Math.cos(s.tightAngle!)];
      // Below its centre this tub's legs go straight down.
      const across = s.outlineRadius! * sin - s.centreAhead!;
      const up = Math.max(0, s.outlineRadius! * cos - s.centreAbove!);
      const reach = Math.hypot(across, up);
      expect(s.tubRadius! - reach).toBeCloseTo(s.gap!, 6);
      expect(s.gap! - s.reserve!).toBeCloseTo(s.margin!, 9);
    });
  },
);
