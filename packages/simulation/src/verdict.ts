import type { Case } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import type { CaseRisks } from './case-risks.ts';
import { missingRoom } from './envelope.ts';
import { stepAt } from './heights.ts';
import { heightProblem, limitingTyre, lowestAccepted } from './pick.ts';
import type { Risk, RiskByHeight } from './risk.ts';
import type { RunTallies } from './run-tallies.ts';
import type { CaseSetup } from './setup.ts';
import { type SideFault, sideFaults } from './side-rooms.ts';
import { HEIGHT_STEPS, sidesInTheWay } from './tally.ts';
import { heightVerdict, tooFew } from './too-few.ts';

/** How something stands beside what the shop accepts; not known: there were too few runs to tell. */
export type Standing = 'within' | 'not within' | 'not known';

/** How one tyre stands in the tub. */
export interface TyreStanding {
  tyre: string;
  standing: Standing;
  /** Accepted risk of a run where its class has one of its own. */
  accepted?: number | undefined;
  /** Of going under the reserve in a run, and of real contact. */
  runRisk: Risk;
  contactRisk: Risk;
}

/** Risks of one tub at one height: those of the tyre that asks for the most height, and of a season. */
export interface HeightRisks {
  limitingTyre: string;
  runRisk: Risk;
  contactRisk: Risk;
  seasonRisk: Risk;
}

/** What is said of one tub at one height: of that tub, whatever tub would be built anew. */
export interface Verdict extends HeightRisks {
  tub: string;
  /** m, as asked about. */
  topHeight: number;
  /** Of the arc's centre, m ahead of the axle. */
  centreForward: number;
  /** The worst of the tyres, the season and the sides. */
  standing: Standing;
  /** Of a run with the limiting tyre in its class, and of a season. */
  accepted: { runRisk: number; seasonRisk: number };
  tyres: TyreStanding[];
  season: Standing;
  /** The top stands below the lowest height that clears at rest: the risks are those of that height, and here larger. */
  belowRest: boolean;
  /** Lowest height that is looked at, m. */
  lowestHeight: number;
  /** What keeps the car's tyres out at the sides; none when they go in or the case does not say. */
  sides: SideFault[];
  /** Lowest top height at which this tub, where it stands, is within what is accepted, m; undefined when none is found. */
  heightNeeded: number | undefined;
  /** Why none is found; undefined when one is. */
  whyNoHeight: string | undefined;
  /** Share of the runs that come too close to this tub's sides until its ends stand above the tyre's shoulders; 0 if few. */
  narrowRuns: number;
  /** Lengths that the car lacks for the tub at `heightNeeded`, m, one for each side that is short. */
  roomMissing: number[];
  /** How many draws, or cars, the accepted risk asks for before a height can be found; 0 when there are enough. */
  drawsNeeded: number;
  carsNeeded: number;
}

const WORST_FIRST: readonly Standing[] = ['not within', 'not known', 'within'];

const worstOf = (standings: readonly Standing[]): Standing =>
  WORST_FIRST.find((standing) => standings.includes(standing))!;

/**
 * Within: the upper end of the 95 % interval is, here and at every height above. Not within: the lower end is above
 * what is accepted. Between the two more runs would tell.
 */
function standingAt(
  risk: RiskByHeight,
  step: number,
  accepted: number,
  needed: number | undefined,
): Standing {
  const here = risk(step);
  if (needed === undefined ? here.high <= accepted : step >= needed) return 'within';
  return here.low > accepted ? 'not within' : 'not known';
}

/** Of a verdict the risks alone. */
export const heightRisks = ({ limitingTyre, runRisk, contactRisk, seasonRisk }: Verdict): HeightRisks => ({
  limitingTyre,
  runRisk,
  contactRisk,
  seasonRisk,
});

/**
 * Judges one tub of a case at one height by the risks that heights are picked by: at the pick's own height it gives the
 * pick's own figures. Unconditional: of every run and season of every car that fits the case.
 * @param topHeight  m; a height between two sixteenths of an inch counts as the lower one
 */
export function tubVerdict(
  source: Case,
  setup: CaseSetup,
  risks: CaseRisks,
  runs: RunTallies,
  tub: number,
  topHeight: number,
): Verdict {
  const { seasonRisk } = source.accept;
  const accepted = setup.tyres.map((tyre) => tyre.accepted);
  const lowest = setup.lowestHeights[tub]!;
  const step = stepAt(lowest, topHeight);
  const needed = risks.tyres.map((tubs, i) => lowestAccepted(tubs[tub]!.touch, accepted[i]!));
  const seasonNeeded = lowestAccepted(risks.seasons[tub]!, seasonRisk);
  const tyres = setup.tyres.map(({ name }, i): TyreStanding => {
    const { touch, contact } = risks.tyres[i]![tub]!;
    return {
      tyre: name,
      standing: standingAt(touch, step, accepted[i]!, needed[i]),
      runRisk: touch(step),
      contactRisk: contact(step),
      ...(source.tyres[i]!.own?.runRisk === undefined ? {} : { accepted: accepted[i]! }),
    };
  });
  const season = standingAt(risks.seasons[tub]!, step, seasonRisk, seasonNeeded);
  const belowRest = topHeight < lowest - 1e-9;
  const sides = sideFaults(source, source.tubs[tub]!);
  const standings = [...tyres.map(({ standing }) => standing), season];
  const limits = limitingTyre(
    setup,
    risks,
    tub,
    step,
    needed.map((one) => one ?? HEIGHT_STEPS),
  );
  const limiting = tyres[limits]!;
  const found = [...needed, seasonNeeded].filter((one) => one !== undefined);
  const isFound = found.length === needed.length + 1;
  const heightNeeded = isFound ? lowest + Math.max(...found) * SIXTEENTH : undefined;
  const touch = risks.tyres.map((tubs) => tubs[tub]!.touch);
  // Where one event surely has no height, more runs of another tell nothing of it.
  const isNone =
    touch.some((risk, i) => heightVerdict(risk, accepted[i]!) === 'does not fit') ||
    heightVerdict(risks.seasons[tub]!, seasonRisk) === 'does not fit';
  const short = tooFew(touch, risks.seasons[tub]!, { runs: accepted, season: seasonRisk });
  const { drawsNeeded, carsNeeded } = isNone ? { drawsNeeded: 0, carsNeeded: 0 } : short;
  return {
    tub: source.tubs[tub]!.name,
    topHeight,
    centreForward: source.tubs[tub]!.centreForward,
    standing: belowRest || sides.length > 0 ? 'not within' : worstOf(standings),
    accepted: { runRisk: accepted[limits]!, seasonRisk },
    tyres,
    limitingTyre: limiting.tyre,
    runRisk: limiting.runRisk,
    contactRisk: limiting.contactRisk,
    seasonRisk: risks.seasons[tub]!(step),
    season,
    belowRest,
    lowestHeight: lowest,
    sides,
    heightNeeded,
    whyNoHeight: isFound
      ? undefined
      : drawsNeeded > 0 || carsNeeded > 0
        ? short.reason
        : heightProblem(source, setup, runs, tub),
    narrowRuns: sidesInTheWay(runs.all, tub, Math.min(...accepted)),
    roomMissing: heightNeeded === undefined ? [] : missingRoom(source, tub, heightNeeded),
    drawsNeeded,
    carsNeeded,
  };
}
