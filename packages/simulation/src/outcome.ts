import { BLOCK } from '@tubgap/statistics';
import { clearWorst, createWorstRun, takeRun } from './count.ts';
import type { BlockRoom } from './run-risk.ts';
import type { CaseSetup } from './setup.ts';

/** What every run of an evaluated block did: [tyre or, last, all tyres][tub or hard point], one element a run. */
export interface BlockOutcome {
  count: number;
  /** How many heights, from the lowest up, the run goes under the reserve at, and touches at. */
  steps: Uint16Array[][];
  contactSteps: Uint16Array[][];
  /** 1 where a leg or its end is touched at the lowest height, and where the hard point is. */
  legs: Uint8Array[][];
  hardPoints: Uint8Array[][];
}

/** Puts what a run did with one tyre to what it did with all: the worst of them counts. */
function worsen(all: readonly (Uint16Array | Uint8Array)[], own: readonly (Uint16Array | Uint8Array)[]) {
  all.forEach((values, t) => {
    const more = own[t]!;
    for (let run = 0; run < values.length; run++) if (more[run]! > values[run]!) values[run] = more[run]!;
  });
}

const outcomes = new WeakMap<object, BlockOutcome>();

function createOutcome({ clearance: { tubs, hardPoints }, tyres }: CaseSetup): BlockOutcome {
  const rows = (columns: readonly unknown[]) => Array.from({ length: tyres.length + 1 }, () => columns);
  const wide = (columns: readonly unknown[]) => columns.map(() => new Uint16Array(BLOCK));
  const flags = (columns: readonly unknown[]) => columns.map(() => new Uint8Array(BLOCK));
  return {
    count: 0,
    steps: rows(tubs).map(wide),
    contactSteps: rows(tubs).map(wide),
    legs: rows(tubs).map(flags),
    hardPoints: rows(hardPoints).map(flags),
  };
}

/** The outcome that belongs to a room's tables, with nothing in the row of all tyres. */
function outcomeOf(setup: CaseSetup, { tables }: Pick<BlockRoom, 'tables'>, count: number): BlockOutcome {
  const outcome = outcomes.get(tables) ?? createOutcome(setup);
  outcomes.set(tables, outcome);
  outcome.count = count;
  for (const part of ['steps', 'contactSteps', 'legs', 'hardPoints'] as const) {
    for (const values of outcome[part].at(-1)!) values.fill(0);
  }
  return outcome;
}

/**
 * Reads off an evaluated block what every run did. A room has one outcome: the next block read in it takes its place.
 * @throws ModelRangeError when a run came out of the model as no number
 */
export function readBlock(setup: CaseSetup, room: Pick<BlockRoom, 'tables'>, count: number): BlockOutcome {
  const { tubs, hardPoints } = setup.clearance;
  const rows = setup.tyres.length + 1;
  const outcome = outcomeOf(setup, room, count);
  const worst = createWorstRun(setup);
  setup.tyres.forEach((_, i) => {
    for (let run = 0; run < count; run++) {
      clearWorst(worst);
      takeRun(setup, i, room.tables[i]!, run, worst);
      for (let t = 0; t < tubs.length; t++) {
        outcome.steps[i]![t]![run] = worst.steps[t]!;
        outcome.contactSteps[i]![t]![run] = worst.contactSteps[t]!;
        outcome.legs[i]![t]![run] = worst.legs[t]!;
      }
      for (let h = 0; h < hardPoints.length; h++) outcome.hardPoints[i]![h]![run] = worst.hardPoints[h]!;
    }
    for (const part of ['steps', 'contactSteps', 'legs', 'hardPoints'] as const) {
      worsen(outcome[part][rows - 1]!, outcome[part][i]!);
    }
  });
  return outcome;
}
