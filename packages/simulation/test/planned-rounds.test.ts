import { BLOCK, fillUniforms } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import { describe, expect, it } from 'vitest';
import { emptyWeightedTallies } from '../src/importance/weighted-risk.ts';
import { addWeight } from '../src/importance/weighted-tally.ts';
import { pickHeights } from '../src/pick.ts';
import { emptyRunTallies } from '../src/run-tallies.ts';
import { caseSetup } from '../src/setup.ts';
import { simulateUntilSettled } from '../src/simulate.ts';
import { emptyTally } from '../src/tally.ts';
import { findingRisks, type Task, type TaskResult } from '../src/tasks.ts';
import { demoCase } from './demo.ts';

// A stand-in for the model: the risk of step n is ½ exp(−FALL (n + offset)), known exactly; a sixteenth of an inch takes
// as much off it as in the demo.
const FALL = 0.235;
const ACCEPTED = 1e-3;
const SEEDS = 100;

const demo = demoCase(200_000, 100);
const source = {
  ...demo,
  hardPoints: [],
  tyres: demo.tyres.slice(0, 1),
  tubs: demo.tubs.slice(1, 2),
  accept: { runRisk: ACCEPTED, seasonRisk: 0.05 },
};
const setup = caseSetup(source);
const riskAt = (step: number, offset: number): number => 0.5 * Math.exp(-FALL * (step + offset));

const uniforms = new Float64Array(BLOCK);
/** How many heights each run of a block touches. */
function drawnSteps(seed: number, stream: string, block: number, offset: number): number[] {
  fillUniforms(seed, stream, block, uniforms, BLOCK);
  return Array.from(uniforms, (u) => Math.max(0, Math.ceil(Math.log(0.5 / u) / FALL - offset)));
}

/** Works out tasks from the stand-in: nothing is weighted, no season touches. */
function performed(task: Task, seed: number, offset: number): TaskResult {
  switch (task.kind) {
    case 'floors':
      return { kind: 'floors', floors: [] };
    case 'centres':
      return { kind: 'centres', centres: { points: [] } };
    case 'seasons': {
      const tally = emptyTally(setup.lowestHeights, 0);
      tally.events = task.endCar - task.firstCar;
      return { kind: 'seasons', tally, unseen: tally };
    }
    case 'runs': {
      const tallies = emptyRunTallies(setup);
      for (let block = task.firstBlock; block < task.endBlock; block++) {
        for (const n of drawnSteps(seed, 'run', block, offset)) {
          tallies.tyres[0]!.tubs[0]!.steps[n]!++;
          tallies.unseen.tyres[0]!.tubs[0]!.steps[n]!++;
        }
      }
      const events = (task.endBlock - task.firstBlock) * BLOCK;
      for (const tally of [tallies.tyres[0]!, tallies.all]) tally.events = events;
      return { kind: 'runs', tallies };
    }
    case 'tail': {
      const tallies = emptyWeightedTallies(setup);
      for (let block = task.firstBlock; block < task.endBlock; block++) {
        for (const n of drawnSteps(seed, 'tail', block, offset)) {
          addWeight(tallies.tyres[0]!.tubs[0]!.steps, n, 1);
        }
      }
      const events = (task.endBlock - task.firstBlock) * BLOCK;
      for (const tally of [tallies.tyres[0]!, tallies.all]) tally.events = events;
      return { kind: 'tail', tallies };
    }
    default:
      throw new Error(`no ${task.kind} here`);
  }
}

describe('how many runs are simulated', () => {
  it('is settled before any is looked at: other runs beside the same weighted ones are as many', async () => {
    // Looked at after every round and stopped once the interval was short, counts that came out low stopped sooner.
    const lengths = new Set<number>();
    for (let seed = 0; seed < 12; seed++) {
      const events: number[] = [];
      for (const other of [0, 1000, 2000]) {
        const perform = async (tasks: readonly Task[]): Promise<TaskResult[]> =>
          tasks.map((task) => performed(task, task.kind === 'runs' ? seed + other : seed, seed / 12));
        const { found } = await simulateUntilSettled(source, setup, perform, () => {});
        const [pick] = pickHeights(source, setup, findingRisks(found), found.runs);
        expect(pick!.verdict).toBe('fits');
        events.push(found.runs.all.events);
      }
      expect(new Set(events).size).toBe(1);
      lengths.add(events[0]!);
    }
    // And not always the same.
    expect(lengths.size).toBeGreaterThan(1);
  });

  it('picks no height whose true risk is above the accepted one in more than 2.5 % of seeds', async () => {
    let above = 0;
    for (let seed = 0; seed < SEEDS; seed++) {
      const offset = seed / SEEDS;
      const perform = async (tasks: readonly Task[]): Promise<TaskResult[]> =>
        tasks.map((task) => performed(task, seed, offset));
      const { found } = await simulateUntilSettled(source, setup, perform, () => {});
      const { height } = pickHeights(source, setup, findingRisks(found), found.runs)[0]!;
      const step = Math.round((height!.topHeight - setup.lowestHeights[0]!) / SIXTEENTH);
      if (riskAt(step, offset) > ACCEPTED) above++;
    }
    expect(above / SEEDS).toBeLessThanOrEqual(0.025);
  });
});
