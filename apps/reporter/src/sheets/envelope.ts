import type { DecidedResult, Result } from '@tubgap/results';
import {
  countedRisk,
  type EnvelopeRoom,
  envelopeRoom,
  stepAt,
  type TubReach,
  touchesByHeight,
  tubReach,
} from '@tubgap/simulation';
import type { Figures } from '@tubgap/units';
import { type BestPlace, betterPlace, placeText, reasonText } from '../best-place.ts';

/** Something that would have to give way for a tub, and by how much, m. */
export interface Shortage {
  what: 'above' | 'ahead' | 'behind' | 'width' | 'inner panel' | 'body side';
  tyre?: string;
  by: number;
}

/** How one tub of the case stands to the car and to its tyres. */
export interface TubFit {
  name: string;
  /** At the pick; at the lowest height that clears at rest where there is no pick. */
  topHeight: number;
  reach: TubReach;
  room: EnvelopeRoom;
  /** Whether it finds room on the car at some height, and whether its pick does with the accepted risk. */
  fitsCar: boolean;
  fitsTyre: boolean;
  /** The same of the tyres with what is not known told from what does not fit, and of both. */
  tyreVerdict: Result['picks'][number]['verdict'];
  bothVerdict: Result['picks'][number]['verdict'];
  fitsBoth: boolean;
  /** What is missing for both; undefined when no length says it: `reason` does. */
  shortages: Shortage[] | undefined;
  reason: string;
  /** The place along the car at which it fits both, or asks for less height; undefined where none is known. */
  elsewhere: BestPlace | undefined;
  /** Upper 95 % bound of the run risk with the top as high as the car lets it; undefined without such a limit. */
  riskAtLimit: number | undefined;
}

const EPSILON = 1e-9;
const missing = (room: number | undefined): number => (room === undefined ? 0 : Math.max(0, -room));

function sideShortages(result: DecidedResult, insideWidth: number): Shortage[] {
  const found: Shortage[] = [];
  const widest = Math.max(...result.tyres.map((tyre) => tyre.widthNeeded));
  if (insideWidth < widest - EPSILON) found.push({ what: 'width', by: widest - insideWidth });
  for (const tyre of result.tyres) {
    const inner = tyre.sideReserve - (tyre.innerGap ?? tyre.sideReserve);
    const outer = tyre.sideReserve - (tyre.outerGap ?? tyre.sideReserve);
    if (inner > EPSILON) found.push({ what: 'inner panel', tyre: tyre.name, by: inner });
    if (outer > EPSILON) found.push({ what: 'body side', tyre: tyre.name, by: outer });
  }
  return found;
}

function riskAtLimit(result: DecidedResult, t: number, highest: number | undefined): number | undefined {
  if (highest === undefined) return undefined;
  const tub = result.tubs[t]!;
  const inside = highest - tub.skinThickness - tub.liner;
  return Math.max(
    ...result.runs.tyres.map((tally) => {
      const { lowest, steps } = tally.tubs[t]!;
      return countedRisk(touchesByHeight(steps)[stepAt(lowest, inside)]!, tally.events).high;
    }),
  );
}

function tubFit(result: DecidedResult, t: number): TubFit {
  const tub = result.tubs[t]!;
  const pick = result.picks[t]!;
  const { envelope } = result;
  const lowest = result.runs.all.tubs[t]!.lowest;
  const topHeight = pick.height?.topHeight ?? lowest;
  const reach = tubReach(tub, topHeight, envelope.lowestLeg);
  const room = envelopeRoom(envelope, reach);
  const atLowest = envelopeRoom(envelope, tubReach(tub, lowest, envelope.lowestLeg));
  const fitsCar = [atLowest.above, atLowest.ahead, atLowest.behind].every((left) => missing(left) <= EPSILON);
  const fitsTyre = pick.verdict === 'fits' && pick.height !== undefined;
  const ofCar = (['above', 'ahead', 'behind'] as const)
    .map((what): Shortage => ({ what, by: missing(room[what]) }))
    .filter(({ by }) => by > EPSILON);
  const fitsBoth = fitsTyre && ofCar.length === 0;
  return {
    name: tub.name,
    topHeight,
    reach,
    room,
    fitsCar,
    fitsTyre,
    tyreVerdict: pick.verdict,
    fitsBoth,
    bothVerdict: fitsBoth ? 'fits' : pick.verdict === 'not known' && fitsCar ? 'not known' : 'does not fit',
    shortages: pick.height === undefined ? undefined : [...ofCar, ...sideShortages(result, tub.insideWidth)],
    reason: reasonText(result, t),
    elsewhere: betterPlace(result, t),
    riskAtLimit: riskAtLimit(result, t, envelope.highestTop),
  };
}

/** Every tub of the case against the limits of the car and the accepted risk, in the order of the case. */
export const tubFits = (result: DecidedResult): TubFit[] => result.tubs.map((_, t) => tubFit(result, t));

/** A shortage as a shop says it, rounded up: '3/8 in more room under the window or body'. */
function shortageText({ what, tyre, by }: Shortage, { length }: Figures): string {
  const much = length(by, 'up');
  if (what === 'above') return `${much} more room under the window or body`;
  if (what === 'ahead' || what === 'behind')
    return `${much} more room ${what} of the axle`.replace('behind of', 'behind');
  if (what === 'width') return `a tub ${much} wider inside`;
  if (what === 'inner panel') return `${much} more between ${tyre} and the inner panel`;
  return `the body side ${much} further out for ${tyre}`;
}

/** What would bring a tub in, in one line; empty when it is in. */
export function changeText(fit: TubFit, figures: Figures): string {
  if (fit.fitsBoth) return '';
  if (fit.shortages === undefined) return fit.reason;
  const elsewhere = fit.elsewhere === undefined ? '' : ` (or ${placeText(fit.elsewhere, figures)})`;
  return fit.shortages.map((shortage) => shortageText(shortage, figures)).join('; ') + elsewhere;
}

/** Tubs that a change of lengths would bring in, the least first: by how many things give way, then by how much in all. */
export function leastPain(fits: readonly TubFit[]): TubFit[] {
  const total = (fit: TubFit): number => fit.shortages!.reduce((sum, shortage) => sum + shortage.by, 0);
  return fits
    .filter((fit) => !fit.fitsBoth && fit.shortages !== undefined && fit.shortages.length > 0)
    .sort((a, b) => a.shortages!.length - b.shortages!.length || total(a) - total(b));
}
