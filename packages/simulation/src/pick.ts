import type { Case } from '@tubgap/casefile';
import { buildLoad, staticGaps } from '@tubgap/core';
import { firstWithin } from '@tubgap/statistics';
import { DEGREE, SIXTEENTH, wholeText } from '@tubgap/units';
import type { CaseRisks } from './case-risks.ts';
import { missingRoom } from './envelope.ts';
import { heightOf } from './heights.ts';
import type { Risk, RiskByHeight } from './risk.ts';
import type { RunTallies } from './run-tallies.ts';
import type { CaseSetup } from './setup.ts';
import { sideFaults, sideWords } from './side-rooms.ts';
import { HEIGHT_STEPS, shareInTheWay, sidesInTheWay } from './tally.ts';
import { heightVerdict, type PickVerdict, tooFew } from './too-few.ts';
import { passedOver, preferred, type TubRoom } from './tub-preference.ts';

/** Hub angles of the gaps a fabricator measures, degrees from straight up, forward positive. */
export const GAP_ANGLES = [-30, -15, 0, 15, 30, 45, 60, 75, 90] as const;

/** What is found for one tub. */
export interface Pick {
  tub: string;
  /** Whether the tub takes the tyres: at the sides, and at some height within the accepted risks. */
  verdict: PickVerdict;
  /** Why there is no height, or why the tub does not fit; empty when all is well. */
  reason: string;
  /** About how many draws, or cars, would tell what is not known; 0 when there are enough. */
  drawsNeeded: number;
  carsNeeded: number;
  /** Lowest height of each tyre alone for the accepted risk of a run, m; null when none is supported. */
  alone: (number | null)[];
  /** Undefined when no height is supported. */
  height?: PickedHeight;
}

export interface PickedHeight {
  /** m, a multiple of 1/16 in. */
  topHeight: number;
  /** How much lower the pick could come out with any number of draws, m: from the lower ends of the intervals. */
  mayFall: number;
  limitingTyre: string;
  decidedBy: 'run risk' | 'season risk' | 'rest';
  runRisk: Risk;
  contactRisk: Risk;
  seasonRisk: Risk;
  /** Static gaps of the build tyre at build pressure, all at middle values, m, in the order of GAP_ANGLES. */
  staticGaps: number[];
}

/** Lowest step from which on one end of the 95 % interval stays within what is accepted. */
export const lowestAccepted = (
  risk: RiskByHeight,
  accepted: number,
  end: 'high' | 'low' = 'high',
): number | undefined => firstWithin(risk, HEIGHT_STEPS, accepted, end);

/** Why no height keeps the risk: what is touched whatever the height. */
export function heightProblem(source: Case, setup: CaseSetup, runs: RunTallies, tub: number): string {
  const { all } = runs;
  const accepted = Math.min(...setup.tyres.map((tyre) => tyre.accepted));
  const told = (name: string, touches: number): string =>
    `${name} (${wholeText(touches)} of ${wholeText(all.events)} runs)`;
  const points = source.hardPoints
    .map(({ name }, h) => ({ name, touches: all.hardTouches[h]! }))
    .filter(({ touches }) => shareInTheWay(touches, all, accepted) > 0)
    .map(({ name, touches }) => told(name, touches));
  const legs = all.tubs[tub]!.legTouches;
  const sides = sidesInTheWay(all, tub, accepted) > 0 ? [told('the sides of the tub', legs)] : [];
  const culprits = [...points, ...sides];
  const none = 'no height of the 50 in searched keeps the accepted risk';
  if (culprits.length === 0) return `${none}: the tub is too small for this tyre where it stands`;
  const mend = sides.length > 0 ? ['choose another tub or place'] : [];
  if (points.length > 0) mend.unshift('move what is in the way');
  const helpless = points.length > 0 ? 'no height helps' : none;
  return `${helpless}: too close to ${culprits.join(' and ')}; ${mend.join(', and ')}`;
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
    angles.map((degrees) => degrees * DEGREE),
  );
}

/**
 * For every tub the lowest top height, to the next 1/16 in, at which the upper 95 % bounds of every tyre's run risk
 * and of the car's season risk are within what the shop accepts.
 */
export function pickHeights(source: Case, setup: CaseSetup, risks: CaseRisks, runs: RunTallies): Pick[] {
  const { seasonRisk } = source.accept;
  const accepted = setup.tyres.map((tyre) => tyre.accepted);
  return source.tubs.map((tub, t): Pick => {
    const faults = sideFaults(source, tub);
    const side = sideWords(faults);
    const touch = risks.tyres.map((tubs) => tubs[t]!.touch);
    const season = risks.seasons[t]!;
    const byTyre = touch.map((risk, i) => lowestAccepted(risk, accepted[i]!));
    const bySeason = lowestAccepted(season, seasonRisk);
    const heights = [
      ...touch.map((risk, i) => heightVerdict(risk, accepted[i]!)),
      heightVerdict(season, seasonRisk),
    ];
    const pick: Pick = {
      tub: tub.name,
      verdict: faults.length === 0 ? 'fits' : 'does not fit',
      reason: side,
      drawsNeeded: 0,
      carsNeeded: 0,
      alone: byTyre.map((step) => (step === undefined ? null : heightOf(setup.lowestHeights[t]!, step))),
    };
    if (heights.includes('does not fit')) {
      const reason = [side, heightProblem(source, setup, runs, t)].filter(Boolean).join('; ');
      return { ...pick, verdict: 'does not fit', reason };
    }
    if (bySeason === undefined || byTyre.includes(undefined)) {
      const short = tooFew(touch, season, { runs: accepted, season: seasonRisk });
      if (faults.length > 0) return { ...pick, reason: [side, short.reason].join('; ') };
      return { ...pick, verdict: 'not known', ...short };
    }
    const steps = byTyre as number[];
    const runStep = Math.max(...steps);
    const step = Math.max(runStep, bySeason);
    const limiting = limitingTyre(setup, risks, t, step, steps);
    const topHeight = heightOf(setup.lowestHeights[t]!, step);
    return {
      ...pick,
      height: {
        topHeight,
        mayFall: (step - hopefulStep(setup, risks, t, seasonRisk)) * SIXTEENTH,
        limitingTyre: setup.tyres[limiting]!.name,
        decidedBy: step === 0 ? 'rest' : bySeason > runStep ? 'season risk' : 'run risk',
        runRisk: risks.tyres[limiting]![t]!.touch(step),
        contactRisk: risks.tyres[limiting]![t]!.contact(step),
        seasonRisk: risks.seasons[t]!(step),
        staticGaps: middleStaticGaps(setup, t, topHeight, GAP_ANGLES),
      },
    };
  });
}

/** For every tub the lowest top height that the run risks alone ask for, m; undefined where none is supported. */
export const heightsByRuns = (setup: CaseSetup, { tyres }: CaseRisks): (number | undefined)[] =>
  setup.lowestHeights.map((lowest, t) => {
    const steps = tyres.map((tubs, i) => lowestAccepted(tubs[t]!.touch, setup.tyres[i]!.accepted));
    return steps.includes(undefined) ? undefined : heightOf(lowest, Math.max(...(steps as number[])));
  });

/** The step that would be picked if every risk stood at the lower end of its interval. */
function hopefulStep({ tyres }: CaseSetup, risks: CaseRisks, tub: number, seasonRisk: number): number {
  const steps = risks.tyres.map(
    (tubs, i) => lowestAccepted(tubs[tub]!.touch, tyres[i]!.accepted, 'low') ?? 0,
  );
  return Math.max(...steps, lowestAccepted(risks.seasons[tub]!, seasonRisk, 'low') ?? 0);
}

/** The tyre that asks for the most height; when several ask for the same, the one that touches most of what is accepted. */
export function limitingTyre(
  setup: CaseSetup,
  risks: CaseRisks,
  tub: number,
  step: number,
  steps: readonly number[],
): number {
  let limiting = 0;
  steps.forEach((needed, i) => {
    const touch = (tyre: number): number =>
      risks.tyres[tyre]![tub]!.touch(step).estimate / setup.tyres[tyre]!.accepted;
    if (needed > steps[limiting]! || (needed === steps[limiting] && touch(i) > touch(limiting))) limiting = i;
  });
  return limiting;
}

/** What the choice of a tub looks at. */
type Candidate = Readonly<{ verdict: PickVerdict; height?: Readonly<{ topHeight: number }> | undefined }>;

/** What each tub takes of the car; undefined for one that does not fit tyres and car, or has no height. */
const roomsOf = (source: Case, picks: readonly Candidate[]): (TubRoom | undefined)[] =>
  picks.map(({ verdict, height }, t) =>
    verdict !== 'fits' || height === undefined || missingRoom(source, t, height.topHeight).length > 0
      ? undefined
      : {
          diameter: source.tubs[t]!.diameter,
          topHeight: height.topHeight,
          order: source.tubs[t]!.inStock === false,
        },
  );

/**
 * The tub to build: of those that fit tyres and car and have a height, one in stock before any other, and of these the
 * one that takes least room, see `takesLessRoom`; as a rule the smallest. Undefined when none does.
 */
export function chosenTub(source: Case, picks: readonly Candidate[]): number | undefined {
  const rooms = roomsOf(source, picks);
  let chosen: number | undefined;
  rooms.forEach((room, t) => {
    if (room === undefined) return;
    if (chosen === undefined || preferred(room, rooms[chosen]!)) chosen = t;
  });
  return chosen;
}

/** Smaller tubs that would do but need more extra height than they save in diameter, by index. */
export const passedOverTubs = (
  source: Case,
  picks: readonly Candidate[],
  chosen: number | undefined,
): number[] => passedOver(roomsOf(source, picks), chosen);

/**
 * The tub that fits the tyres and for which least of the car would have to give way: the fewest sides, then the least
 * length in all. Undefined when no tub fits the tyres.
 */
export function nearestTub(source: Case, picks: readonly Candidate[]): number | undefined {
  const found = picks.flatMap(({ verdict, height }, t) => {
    if (verdict !== 'fits' || height === undefined) return [];
    const missing = missingRoom(source, t, height.topHeight);
    return [{ t, sides: missing.length, length: missing.reduce((sum, more) => sum + more, 0) }];
  });
  return found.sort((a, b) => a.sides - b.sides || a.length - b.length)[0]?.t;
}
