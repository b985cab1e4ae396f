import { numberSource } from '@tubgap/statistics';
import { type Instant, type InventedCar, inventedRollingRadius } from './invented-car.ts';

/** What the invented logger adds to the truth. */
export interface LoggerFaults {
  /** Of the speed: scale, delay in s, noise in m/s. */
  speedScale: number;
  speedDelay: number;
  speedNoise: number;
  /** Of the shaft's turning, as a share. */
  shaftNoise: number;
  /** Share of samples of either that are nonsense. */
  spikes: number;
}

export const DEMO_FAULTS: LoggerFaults = {
  speedScale: 1.0015,
  speedDelay: 0.02,
  speedNoise: 0.12,
  shaftNoise: 0.0025,
  spikes: 0.006,
};

const MPH = 0.44704;
const RATE = 50;

/** A run as an invented logger would export it, marked as invented. */
export function loggedRun(
  car: InventedCar,
  run: readonly Instant[],
  faults: LoggerFaults,
  seed: number,
): string {
  const { uniform, normal } = numberSource(seed, 'logger');
  const at = (time: number): Instant => run[Math.max(0, Math.min(run.length - 1, Math.round(time / 0.002)))]!;
  const lines = [
    '# Invented run of an invented car, made by datasets/demo-measurements/generate.ts. No real logger, no real tyre.',
    'Time [s],GPS speed [mph],Driveshaft [rpm],Throttle [%]',
  ];
  const last = run.at(-1)!.time;
  for (let sample = 0; sample / RATE <= last; sample++) {
    const time = sample / RATE;
    const now = at(time);
    const seen = at(time - faults.speedDelay).speed;
    let mph = (seen * faults.speedScale + faults.speedNoise * normal()) / MPH;
    const wheel = (now.speed * (1 + now.slip)) / inventedRollingRadius(car, now.speed * (1 + now.slip));
    let rpm = (wheel * car.axleRatio * 60) / (2 * Math.PI);
    rpm = Math.round((rpm * (1 + faults.shaftNoise * normal())) / 5) * 5;
    if (uniform() < faults.spikes) mph *= 0.6 + 0.8 * uniform();
    if (uniform() < faults.spikes) rpm = uniform() < 0.5 ? 0 : rpm * 1.4;
    lines.push(
      [time.toFixed(2), Math.max(0, mph).toFixed(1), Math.max(0, rpm).toFixed(0), now.throttle * 100].join(
        ',',
      ),
    );
  }
  return `${lines.join('\n')}\n`;
}
