import { buildLoad, standingHardGap, standingOutline, tyreColumn } from '@tubgap/core';
import { sampleQuantile } from '@tubgap/statistics';
import { mostFrequentMoment } from '../most-frequent-moment.ts';
import type { Risk } from '../risk.ts';
import type { CaseSetup } from '../setup.ts';
import type { HardPointInspection, HardRuns } from './hard-gaps.ts';
import { type HardCount, hardRisk, rareGap } from './hard-risk.ts';

/** Share of the accepted risk of a run that a hard point may take: so little hardly moves the pick. */
const OWN_SHARE = 0.1;
const TIGHTEST = 0.05;

/** One tyre at one hard point. Gaps in m, before the reserve is taken off; angles in rad. */
export interface HardFigures {
  /** Standing on this tyre, all at middle values: what a feeler finds, and at which place of the tyre. */
  atRest: number;
  atRestAngle: number;
  /** Smallest gap of a run: median, and one run in 20 leaves less. */
  p50: number;
  p05: number;
  /** As often as the case accepts a run leaves less than this, at most; null where the runs cannot speak of so small a chance. */
  rare: number | null;
  /** Median angle and most frequent moment of the smallest gap; the same among the tightest twentieth. */
  angle: number;
  moment: string;
  tightestAngle: number;
  tightestMoment: string;
  /** Chance that a run leaves less than the reserve at this point, and that it touches it. No height changes it. */
  risk: Risk;
  contact: Risk;
  /**
   * How much nearer the point may stand before it takes more than a tenth of the accepted risk, as far as causes of
   * touches were seen, m; null: unknown.
   */
  spare: number | null;
  /** How much further away it would have to stand to take no more than that, m; 0 when it does not. */
  moveBy: number;
  /** Shares of all touches of this tyre at the pick: of this point alone, and with something else; null without a pick. */
  atPick: { alone: number; together: number } | null;
}

/** Middles from the runs that were looked at closely, what is rarer from all. */
function runFigures({ close, gap: all }: HardRuns) {
  const { gap, angle, moment } = close;
  const sorted = gap.toSorted();
  const limit = sampleQuantile(sorted, TIGHTEST);
  const tightest = Array.from(gap.keys()).filter((run) => gap[run]! <= limit);
  const smallest = all.toSorted();
  return {
    p50: sampleQuantile(sorted, 0.5),
    p05: sampleQuantile(smallest, TIGHTEST),
    angle: sampleQuantile(angle.toSorted(), 0.5),
    moment: mostFrequentMoment(moment),
    tightestAngle: sampleQuantile(Float64Array.from(tightest, (run) => angle[run]!).sort(), 0.5),
    tightestMoment: mostFrequentMoment(tightest.map((run) => moment[run]!)),
  };
}

/** Plain runs of the whole simulation in which each hard point is touched, [tyre][point], of `events`. */
export interface HardCounts {
  touches: number[][];
  /** Of them those where the mixture of the weighted runs does not lead to. */
  unseen: number[][];
  events: number;
}

/** Plain runs of the look itself that touch a hard point. */
function contactCount({ gap }: HardRuns, { seen }: HardPointInspection): HardCount {
  const touching = Array.from(gap.keys()).filter((run) => gap[run]! < 0);
  const unseen = touching.filter((run) => seen[run] === 0);
  return { touches: touching.length, unseen: unseen.length, events: gap.length };
}

/** What is known of every hard point, each tyre by itself: [point][tyre]. */
export function hardFigures(
  setup: CaseSetup,
  counts: HardCounts,
  look: HardPointInspection,
): HardFigures[][] {
  const { hardPoints } = setup.clearance;
  const standing = setup.tyres.map((tyre, i) =>
    standingOutline(
      tyre.centralTyre,
      tyre.setup,
      i === setup.buildIndex ? setup.buildPressure : tyre.centralTyre[tyreColumn('coldPressure')]!,
      buildLoad(tyre.centralCar),
    ),
  );
  return hardPoints.map((fan, h) =>
    setup.tyres.map((tyre, i): HardFigures => {
      const own = look.runs[h]![i]!;
      const moved = { gaps: own.weightedGap, weights: look.weights };
      const rest = standingHardGap(standing[i]!, fan, tyre.centralCar, tyre.centralTyre);
      const plain = { gaps: own.gap, seen: look.seen };
      const { accepted, run } = tyre;
      const { reserve } = run;
      const rare = rareGap(plain, moved, accepted);
      const rarer = rareGap(plain, moved, OWN_SHARE * accepted);
      const risk = hardRisk(moved, reserve, {
        touches: counts.touches[i]![h]!,
        unseen: counts.unseen[i]![h]!,
        events: counts.events,
      });
      // Whatever no run of the whole simulation comes too close to, none of them touches.
      const none = { touches: 0, unseen: 0, events: counts.events };
      const contact = hardRisk(moved, 0, risk.touches === 0 ? none : contactCount(own, look));
      const all = look.atPick?.all[i] ?? 0;
      const touches = look.atPick?.touches[h]?.[i];
      const smallest = own.gap.reduce((least, gap) => Math.min(least, gap), Number.POSITIVE_INFINITY);
      const tooOften = risk.estimate > OWN_SHARE * accepted;
      return {
        atRest: rest.gap,
        atRestAngle: rest.angle,
        ...runFigures(own),
        rare: rare ?? null,
        risk,
        // Who touches has come too close: the bound of the one holds for the other.
        contact: { ...contact, high: Math.min(contact.high, risk.high) },
        spare: rarer === undefined ? null : Math.max(0, rarer - reserve),
        moveBy: tooOften ? Math.max(0, reserve - (rarer ?? smallest)) : 0,
        atPick:
          touches === undefined
            ? null
            : {
                alone: all > 0 ? touches.alone / all : 0,
                together: all > 0 ? touches.together / all : 0,
              },
      };
    }),
  );
}
