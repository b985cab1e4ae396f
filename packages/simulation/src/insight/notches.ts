import type { Case } from '@tubgap/casefile';
import type { Tub } from '@tubgap/core';
import { SIXTEENTH } from '@tubgap/units';
import type { Centres } from '../importance/mixture.ts';
import { normalSpace } from '../importance/normal-space.ts';
import { addTail, emptyTailTallies } from '../importance/tail-risk.ts';
import { weightByHeight } from '../importance/weighted-tally.ts';
import { createBlockRoom } from '../run-risk.ts';
import { tailRuns, weightedParts } from '../runner.ts';
import { type CaseSetup, caseSetup } from '../setup.ts';

/** What one notch of a tub costs, and how deep it could be. */
export interface NotchCost {
  /** rad from the tub's top, forward positive; m. */
  angle: number;
  depth: number;
  /** Deepest flat at this angle that keeps the accepted run risk at the pick's height, m, rounded down to 1/16 in. */
  deepest: number;
  /** Top height that this notch costs, m: against the same tub without it. */
  height: number;
}

const BLOCKS = 8;
const DEEPEST = 6 * 16;

/**
 * Costs of the notches of one tub at its pick, with the same draws for every depth.
 * @param topHeight  of the pick, m
 */
export function notchCosts(source: Case, centres: Centres, tub: number, topHeight: number): NotchCost[] {
  const setup = caseSetup(source);
  const own = setup.clearance.tubs[tub]!;
  const lowest = setup.lowestHeights[tub]!;
  const step = Math.round((topHeight - lowest) / SIXTEENTH);
  return (own.notches ?? []).map((notch, index) => {
    const others = (own.notches ?? []).filter((_, i) => i !== index);
    const withDepth = (depth: number | undefined): Tub => ({
      ...own,
      notches: depth === undefined ? others : [...others, { ...notch, depth }],
    });
    const depths = Array.from({ length: DEEPEST / 2 + 1 }, (_, i) => 2 * i * SIXTEENTH);
    const tubs = [withDepth(undefined), withDepth(notch.depth), ...depths.map(withDepth)];
    const risk = riskOfTubs(setup, centres, source.simulation.seed, tubs, lowest);
    const accepted = source.accept.runRisk;
    const keeps = depths.filter((_, i) => risk(2 + i, step) <= accepted);
    return {
      angle: notch.angle,
      depth: notch.depth,
      deepest: keeps.length === 0 ? 0 : keeps.at(-1)!,
      height: (lowestStep(risk, 1, accepted) - lowestStep(risk, 0, accepted)) * SIXTEENTH,
    };
  });
}

type RiskOfTub = (tub: number, step: number) => number;

function lowestStep(risk: RiskOfTub, tub: number, accepted: number): number {
  let step = 0;
  while (step < 799 && risk(tub, step) > accepted) step++;
  return step;
}

/** Weighted risk that any of the car's tyres touches, for tubs that stand in one place. */
function riskOfTubs(
  setup: CaseSetup,
  centres: Centres,
  seed: number,
  tubs: readonly Tub[],
  lowest: number,
): RiskOfTub {
  const local: CaseSetup = {
    ...setup,
    lowestHeights: tubs.map(() => lowest),
    clearance: { ...setup.clearance, tubs },
  };
  const space = normalSpace(local);
  const total = emptyTailTallies(local);
  const room = createBlockRoom(local);
  for (const range of weightedParts(BLOCKS)) {
    addTail(total, tailRuns(local, centres, seed, range, room, space));
  }
  const found = total.all.tubs.map((tally) => weightByHeight(total.all.events, tally.steps));
  return (tub, step) => found[tub]!.weight[Math.max(0, Math.min(799, step))]! / total.all.events;
}
