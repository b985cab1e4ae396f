import type { LogBin } from '../readings.ts';
import type { LogSamples } from './log-columns.ts';
import { localLine, median, robustSd, spikes } from './smooth.ts';

/** What one run's samples come down to. */
export interface RunBins {
  bins: LogBin[];
  topSpeed: number;
  passedOver: number;
  /** Furthest the wheel moved up, m; undefined without a column for it. */
  travel: number | undefined;
  /** Of the rolling part, Pa; undefined without a column for it. */
  pressure: number | undefined;
}

/** Seconds either side over which speeds are smoothed. */
export const REACH = 0.12;
/** The lift shakes the driveline for about this long, s. */
const SETTLING = 0.35;
/** Below this the shaft's pulses are too far apart, and the engine brakes, m/s. */
const SLOWEST_COAST = 12;
/** Driven samples below this share of the top speed belong to the launch, where slip is anyone's guess. */
const SLOWEST_DRIVEN = 0.4;
/** Width of a bin of speed, m/s, and fewest samples in one. */
const BIN = 5;
const FEWEST = 5;
/** A radius that falls by more than this share under its running middle while driven is wheelspin. */
const WHEELSPIN = 0.04;
/** What the scatter in a bin does not show, m. */
const LEAST_SD = 0.0003;
const SPIKE = 5;

/** Car speed at each sample: its own column, or the slope of the distance. */
function carSpeed(samples: LogSamples, reach: number): { speed: Float64Array; skip: Uint8Array } {
  const { time, speed, distance } = samples;
  if (speed !== undefined) return { speed, skip: spikes(speed, 7, SPIKE, 1) };
  const skip = spikes(distance!, 7, SPIKE, 1);
  return { speed: localLine(time, distance!, skip, reach).slope, skip: new Uint8Array(time.length) };
}

/** Index of the sample at which the engine stops pulling: the throttle's word, or the top of the speed. */
function liftAt(samples: LogSamples, speed: Float64Array): number {
  let top = 0;
  for (let i = 0; i < speed.length; i++) if (speed[i]! > speed[top]!) top = i;
  const { throttle } = samples;
  if (throttle === undefined) return top;
  let lift = top;
  while (lift > 0 && throttle[lift]! < 0.5 && samples.time[top]! - samples.time[lift]! < 3) lift--;
  return throttle[lift]! >= 0.5 ? lift : top;
}

/** When the parachute is taken to be open, s after the lift: from here on the air alone tells how hard it slows. */
const PARACHUTE_OPEN = [1.2, 2.2] as const;
/** By how much more than the air the car must slow before the brakes are taken to be on: a share, and m/s². */
const BRAKING = { share: 0.35, more: 1.2 } as const;

/** First sample after the lift at which something other than air, parachute and driveline holds the wheels. */
function coastEnd(
  samples: LogSamples,
  speed: Float64Array,
  acceleration: Float64Array,
  lift: number,
): number {
  const { brake, time } = samples;
  const since = (i: number): number => time[i]! - time[lift]!;
  const slowing: number[] = [];
  for (let i = lift; i < speed.length; i++) {
    if (since(i) < PARACHUTE_OPEN[0] || since(i) > PARACHUTE_OPEN[1] || Number.isNaN(acceleration[i]!))
      continue;
    slowing.push(-acceleration[i]! / speed[i]! ** 2);
  }
  const byAir = slowing.length > 0 ? median(slowing) : Number.POSITIVE_INFINITY;
  const off = brake === undefined ? 0 : median(Array.from(brake));
  const full = brake === undefined ? 0 : largest(brake) - off;
  for (let i = lift; i < speed.length; i++) {
    if (speed[i]! < SLOWEST_COAST) return i;
    if (brake !== undefined && full > 0 && brake[i]! - off > 0.1 * full) return i;
    const air = byAir * speed[i]! ** 2;
    if (since(i) > PARACHUTE_OPEN[1] && -acceleration[i]! > (1 + BRAKING.share) * air + BRAKING.more)
      return i;
  }
  return speed.length;
}

/**
 * Boils a run's samples down to bins of speed: rolling between the lift and the brakes, where car speed over wheel
 * speed is the rolling radius but for a few parts in a thousand; driven before the lift, where slip comes on top.
 * Spikes and wheelspin are passed over and counted.
 */
export function runBins(samples: LogSamples, axleRatio: number): RunBins {
  const { time } = samples;
  const n = time.length;
  const { speed: raw, skip: speedSpikes } = carSpeed(samples, REACH);
  const shaft = samples.driveshaft!;
  const shaftSpikes = spikes(shaft, 7, SPIKE, 3);
  const { value: speed, slope: acceleration } = localLine(time, raw, speedSpikes, REACH);
  const { value: turning } = localLine(time, shaft, shaftSpikes, REACH);
  const lift = liftAt(samples, speed);
  const end = coastEnd(samples, speed, acceleration, lift);
  const topSpeed = Number.isFinite(speed[lift]!) ? largest(speed.filter(Number.isFinite)) : 0;
  const radius = Float64Array.from({ length: n }, (_, i) => (speed[i]! * axleRatio) / turning[i]!);
  const sound = (i: number): boolean => Number.isFinite(radius[i]!) && turning[i]! / axleRatio > 5;
  let passedOver = 0;
  for (let i = 0; i < n; i++) if (speedSpikes[i] === 1 || shaftSpikes[i] === 1) passedOver++;

  const driven: number[] = [];
  for (let i = 0; i < lift; i++) {
    if (!sound(i) || speed[i]! < SLOWEST_DRIVEN * topSpeed || time[lift]! - time[i]! < 0.1) continue;
    driven.push(i);
  }
  const gripping = driven.filter((i, k) => {
    const near = driven.slice(Math.max(0, k - 60), k + 61).map((j) => radius[j]!);
    return radius[i]! > (1 - WHEELSPIN) * median(near);
  });
  passedOver += driven.length - gripping.length;
  const rolling: number[] = [];
  // The smoothing looks ahead, so that the last samples already know of the brakes.
  const last = end < n ? time[end]! - 2 * REACH : Number.POSITIVE_INFINITY;
  for (let i = lift; i < end; i++) {
    if (sound(i) && time[i]! - time[lift]! > SETTLING && time[i]! < last) rolling.push(i);
  }

  const bins = [...binned('driven', gripping), ...binned('rolling', rolling)];
  const travel = samples.travel === undefined ? undefined : furthest(samples.travel);
  const pressure =
    samples.pressure === undefined || rolling.length === 0
      ? undefined
      : median(rolling.map((i) => samples.pressure![i]!));
  return { bins, topSpeed, passedOver, travel, pressure };

  function binned(phase: LogBin['phase'], chosen: readonly number[]): LogBin[] {
    const groups = new Map<number, number[]>();
    for (const i of chosen) {
      const key = Math.floor(speed[i]! / BIN);
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [i]);
      else group.push(i);
    }
    return [...groups.values()].flatMap((group): LogBin[] => {
      if (group.length < FEWEST) return [];
      const radii = group.map((i) => radius[i]!);
      const middle = median([...radii]);
      const spread = robustSd(radii, middle);
      const seconds = Math.max(time[group.at(-1)!]! - time[group[0]!]!, 1e-3);
      // Smoothed samples nearer than the smoothing's reach are one and the same.
      const independent = Math.max(1, Math.min(group.length, seconds / REACH));
      return [
        {
          phase,
          speed: median(group.map((i) => speed[i]!)),
          radius: middle,
          sd: Math.hypot((1.25 * spread) / Math.sqrt(independent), LEAST_SD),
          perSecondLate: median(group.map((i) => (acceleration[i]! * radius[i]!) / speed[i]!)),
          samples: group.length,
        },
      ];
    });
  }
}

/** A log may have more samples than a call takes arguments. */
const largest = (values: Float64Array): number => values.reduce((most, value) => Math.max(most, value));

/** Largest value that is no single sample's whim. */
function furthest(values: Float64Array): number {
  const sorted = values.slice().sort();
  const zero = sorted[Math.floor(0.02 * (sorted.length - 1))]!;
  const rest = median(Array.from(values.subarray(0, Math.max(5, Math.floor(values.length / 50)))));
  return sorted[Math.ceil(0.995 * (sorted.length - 1))]! - Math.max(zero, rest);
}
