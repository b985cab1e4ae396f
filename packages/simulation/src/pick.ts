import type { Case, CaseTub } from '@tubgap/casefile';
import { buildLoad, sideRoom, staticGaps } from '@tubgap/core';
import { centralValue, clopperPearson, drawsToSupport } from '@tubgap/uncertainty';
import { SIXTEENTH } from './inches.ts';
import type { RunTallies } from './run-risk.ts';
import type { CaseSetup } from './setup.ts';
import { HEIGHT_STEPS, type Tally, touchesByHeight } from './tally.ts';

/** Hub angles of the gaps a fabricator measures, degrees from straight up, forward positive. */
export const GAP_ANGLES = [-30, -15, 0, 15, 30, 45, 60, 75, 90] as const;

/** A share of touches with its 95 % interval. */
export interface Risk {
  touches: number;
  events: number;
  estimate: number;
  low: number;
  high: number;
}

export const riskOf = (touches: number, events: number): Risk => {
  const { low, high } = clopperPearson(touches, events);
  return { touches, events, estimate: touches / events, low, high };
};

/** What is found for one tub. */
export interface Pick {
  tub: string;
  /** Whether the tub takes the tyres at the sides. */
  fits: boolean;
  /** Why there is no height, or why the tub does not fit; empty when all is well. */
  reason: string;
  /** How many draws, or cars, the accepted risk asks for; 0 when there are enough. */
  drawsNeeded: number;
  carsNeeded: number;
  /** Undefined when no height is supported. */
  height?: PickedHeight;
}

export interface PickedHeight {
  /** m, a multiple of 1/16 in. */
  topHeight: number;
  /** Index of the tyre that decides, and the season when it does. */
  limitingTyre: string;
  decidedBy: 'run risk' | 'season risk' | 'rest';
  runRisk: Risk;
  contactRisk: Risk;
  seasonRisk: Risk;
  /** Static gaps of the build tyre at build pressure, all at middle values, m, in the order of GAP_ANGLES. */
  staticGaps: number[];
}

/** Lowest step at which touches are few enough for the upper 95 % bound to be within what is accepted. */
function lowestAccepted(tally: Tally, tub: number, accepted: number): number | undefined {
  const touches = touchesByHeight(tally.tubs[tub]!.steps);
  let low = 0;
  let high = HEIGHT_STEPS;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (clopperPearson(touches[middle]!, tally.events).high <= accepted) high = middle;
    else low = middle + 1;
  }
  return low < HEIGHT_STEPS ? low : undefined;
}

/** Why the tub's sides do not take the car's tyres; empty when they do or the case does not say. */
function sideProblem(source: Case, tub: CaseTub): string {
  const space = source.sideRoom;
  const problems: string[] = [];
  for (const tyre of source.tyres) {
    const width = centralValue(tyre.inputs.sectionWidth.law);
    const play = space?.sidePlay ?? 0;
    const reserve = space?.sideReserve ?? 0;
    const needed = width + 2 * (play + reserve);
    if (tub.insideWidth < needed) {
      problems.push(
        `too narrow for ${tyre.name}: ${inches(tub.insideWidth)} inside, ${inches(needed)} needed`,
      );
    }
    if (space === undefined || tyre.rim === undefined) continue;
    const room = sideRoom(
      {
        sectionWidth: width,
        rimWidth: tyre.rim.width,
        backspacing: tyre.rim.backspacing,
        flange: tyre.rim.flange,
      },
      space,
    );
    if (room.innerGap < reserve)
      problems.push(`${tyre.name} comes within ${inches(room.innerGap)} of the inner panel`);
    if (room.outerGap < reserve)
      problems.push(`${tyre.name} comes within ${inches(room.outerGap)} of the body side`);
  }
  return problems.join('; ');
}

const inches = (metres: number): string => `${(metres / 0.0254).toFixed(2)} in`;

/** Why no height keeps the risk: what is touched whatever the height. */
function heightProblem(source: Case, runs: RunTallies, tub: number, accepted: number): string {
  const { all } = runs;
  const share = (touches: number): number => touches / all.events;
  const culprits = source.hardPoints
    .filter((_, h) => share(all.hardTouches[h]!) > accepted / 2)
    .map((point, h) => `${point.name} (${all.hardTouches[h]} of ${all.events} runs)`);
  const legs = all.tubs[tub]!.legTouches;
  if (share(legs) > accepted / 2) culprits.push(`the sides of the tub (${legs} of ${all.events} runs)`);
  return culprits.length > 0
    ? `no height helps: touches ${culprits.join(' and ')}; move it, or choose another tub or place`
    : 'no height of the 50 in searched keeps the accepted risk: the tub is too small for this tyre where it stands';
}

/** Static gaps of the build tyre at build pressure at a top height, all at middle values, m. */
export function middleStaticGaps(
  setup: CaseSetup,
  tub: number,
  topHeight: number,
  angles: readonly number[],
): number[] {
  const build = setup.tyres[setup.buildIndex]!;
  return staticGaps(
    build.centralTyre,
    build.setup,
    setup.buildPressure,
    buildLoad(build.centralCar),
    setup.clearance.tubs[tub]!,
    topHeight - setup.centralAxleHeight,
    angles.map((degrees) => (degrees * Math.PI) / 180),
  );
}

/**
 * For every tub the lowest top height, to the next 1/16 in, at which the upper 95 % bounds of every tyre's run risk
 * and of the car's season risk are within what the shop accepts.
 */
export function pickHeights(source: Case, setup: CaseSetup, runs: RunTallies, seasons: Tally): Pick[] {
  const { runRisk, seasonRisk } = source.accept;
  const drawsNeeded = drawsToSupport(runRisk);
  const carsNeeded = drawsToSupport(seasonRisk);
  const shortDraws = runs.all.events < drawsNeeded ? drawsNeeded : 0;
  const shortCars = seasons.events < carsNeeded ? carsNeeded : 0;
  return source.tubs.map((tub, t): Pick => {
    const side = sideProblem(source, tub);
    const pick: Pick = {
      tub: tub.name,
      fits: side === '',
      reason: side,
      drawsNeeded: shortDraws,
      carsNeeded: shortCars,
    };
    if (shortDraws > 0 || shortCars > 0) {
      const wants = [
        ...(shortDraws > 0 ? [`${shortDraws} draws (this run has ${runs.all.events})`] : []),
        ...(shortCars > 0 ? [`${shortCars} cars (this run has ${seasons.events})`] : []),
      ];
      return { ...pick, reason: `too few draws for the accepted risk: it needs ${wants.join(' and ')}` };
    }
    const byTyre = runs.tyres.map((tally) => lowestAccepted(tally, t, runRisk));
    const bySeason = lowestAccepted(seasons, t, seasonRisk);
    if (bySeason === undefined || byTyre.includes(undefined)) {
      return {
        ...pick,
        fits: false,
        reason: [side, heightProblem(source, runs, t, runRisk)].filter(Boolean).join('; '),
      };
    }
    const steps = byTyre as number[];
    const runStep = Math.max(...steps);
    const step = Math.max(runStep, bySeason);
    const limiting = limitingTyre(runs, t, step, steps);
    const tally = runs.tyres[limiting]!;
    const at = (counts: Float64Array, events: number): Risk => riskOf(touchesByHeight(counts)[step]!, events);
    const topHeight = tally.tubs[t]!.lowest + step * SIXTEENTH;
    return {
      ...pick,
      height: {
        topHeight,
        limitingTyre: setup.tyres[limiting]!.name,
        decidedBy: step === 0 ? 'rest' : bySeason > runStep ? 'season risk' : 'run risk',
        runRisk: at(tally.tubs[t]!.steps, tally.events),
        contactRisk: at(tally.tubs[t]!.contactSteps, tally.events),
        seasonRisk: at(seasons.tubs[t]!.steps, seasons.events),
        staticGaps: middleStaticGaps(setup, t, topHeight, GAP_ANGLES),
      },
    };
  });
}

/** The tyre that asks for the most height; when several ask for the same, the one that touches most. */
function limitingTyre(runs: RunTallies, tub: number, step: number, steps: readonly number[]): number {
  let limiting = 0;
  steps.forEach((needed, i) => {
    const touches = (tyre: number): number => touchesByHeight(runs.tyres[tyre]!.tubs[tub]!.steps)[step]!;
    if (needed > steps[limiting]! || (needed === steps[limiting] && touches(i) > touches(limiting)))
      limiting = i;
  });
  return limiting;
}

/**
 * The tub to build: of those that fit and have a height, the smallest in diameter, for a bigger one eats the car;
 * of equal ones the lowest. Undefined when none does.
 */
export function chosenTub(source: Case, picks: readonly Pick[]): number | undefined {
  let chosen: number | undefined;
  picks.forEach((pick, t) => {
    if (!pick.fits || pick.height === undefined) return;
    if (chosen === undefined) {
      chosen = t;
      return;
    }
    const size = source.tubs[t]!.diameter - source.tubs[chosen]!.diameter;
    const lower = pick.height.topHeight < picks[chosen]!.height!.topHeight;
    if (size < 0 || (size === 0 && lower)) chosen = t;
  });
  return chosen;
}
