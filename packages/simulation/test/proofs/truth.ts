import { readFileSync } from 'node:fs';
import type { Case } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import { aboveFloors, findFloors } from '../../src/floors.ts';
import { createBlockRoom } from '../../src/run-risk.ts';
import { emptyRunTallies } from '../../src/run-tallies.ts';
import { tallyRuns } from '../../src/runner.ts';
import { tallySeasons } from '../../src/season-risk.ts';
import { caseSetup } from '../../src/setup.ts';
import { emptyTally, type Tally, touchesByHeight } from '../../src/tally.ts';

/** Touches of plain events in the case's one tub: far more than any pick makes, with streams of another seed. */
export interface TrueCounts {
  /** Name of the tyre whose runs were counted, or `season`. */
  event: string;
  events: number;
  /** Step of the tally's heights from which on they were counted. */
  fromStep: number;
  /** At that step and each above, as long as there are LEAST: known to a tenth. */
  touches: number[];
}

/** A risk and its own standard error. */
export interface TrueRisk {
  risk: number;
  error: number;
}

const LEAST = 100;
/** Of this seed no pick is asked. */
const SEED = 2_000_003;

function countsOf(event: string, tally: Tally, floor: number): TrueCounts {
  const { lowest, steps } = tally.tubs[0]!;
  const fromStep = Math.max(0, Math.round((floor - lowest) / SIXTEENTH));
  const touches = Array.from(touchesByHeight(steps)).slice(fromStep);
  return { event, events: tally.events, fromStep, touches: touches.filter((count) => count >= LEAST) };
}

/** Counts runs with each tyre, and seasons, of a case plainly, from its floors on. */
export function countTruth(of: (seed: number) => Case, runs: number, cars: number): TrueCounts[] {
  const source = of(SEED);
  const { seed } = source.simulation;
  const setup = caseSetup(source);
  const pilotRoom = createBlockRoom(setup);
  const floors = findFloors(source, setup, pilotRoom, []);
  const room = aboveFloors(pilotRoom, floors);
  const tallies = emptyRunTallies(setup);
  tallyRuns(setup, seed, runs, 0, Math.ceil(runs / BLOCK), room, tallies);
  const seasons = emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length);
  tallySeasons(setup, seed, 0, cars, room, seasons);
  const ofTyres = floors.map(([floor]) => floor!);
  return [
    ...tallies.tyres.map((tally, i) => countsOf(setup.tyres[i]!.name, tally, ofTyres[i]!)),
    countsOf('season', seasons, Math.max(...ofTyres)),
  ];
}

/** Counts as a table: event, events in all, step, touches. */
export const truthTable = (truth: readonly TrueCounts[]): string =>
  `event,events,step,touches\n${truth
    .flatMap(({ event, events, fromStep, touches }) =>
      touches.map((count, k) => `${event},${events},${fromStep + k},${count}\n`),
    )
    .join('')}`;

/** The counts that were written down for a case by scripts/write-truth.ts, tyres before the season. */
export function readTruth(name: string): { tyres: TrueCounts[]; season: TrueCounts } {
  const text = readFileSync(new URL(`./truth/${name}.csv`, import.meta.url), 'utf8');
  const truth = new Map<string, TrueCounts>();
  for (const line of text.trim().split('\n').slice(1)) {
    const [event, events, step, touches] = line.split(',') as [string, string, string, string];
    const counts = truth.get(event) ?? { event, events: Number(events), fromStep: Number(step), touches: [] };
    counts.touches.push(Number(touches));
    truth.set(event, counts);
  }
  const { season, ...tyres } = Object.fromEntries(truth);
  return { tyres: Object.values(tyres), season: season! };
}

/**
 * Risk at one step of the tally's heights; above the last that is written down it counts as large as there.
 * @throws RangeError below the step from which on was counted
 */
export function trueRisk({ events, fromStep, touches }: TrueCounts, step: number): TrueRisk {
  if (step < fromStep) throw new RangeError(`step ${step}: counted from ${fromStep} on`);
  const risk = (touches[step - fromStep] ?? touches.at(-1)!) / events;
  return { risk, error: Math.sqrt((risk * (1 - risk)) / events) };
}
