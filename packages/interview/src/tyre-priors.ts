import {
  diameterPrior,
  type LawText,
  type LengthRange,
  sectionOnRim,
  type TyreMarking,
  type WidthMeaning,
  type Widths,
  widthsOf,
} from '@tubgap/casefile';
import { type Construction, freeRadiusFromRollout } from '@tubgap/core';
import { INCH, POUND } from '@tubgap/units';
import { type KindOfCar, type KindRange, type Mark, RANGES } from './kind-ranges.ts';
import type { TyreBuild } from './kinds-of-car.ts';
import { logNormalOf } from './law-text.ts';

/** The construction of the core that grows as such a tyre does. */
export const CONSTRUCTION_OF: Readonly<Record<TyreBuild, Construction>> = {
  'bias slick': 'bias',
  'radial slick': 'radial',
  'treaded radial': 'radial',
};

const range = (low: number, high: number, reason: string, mark: Mark): KindRange => ({
  low,
  high,
  reason,
  mark,
});

/** Cold pressure when nobody says, psi: the lower, the more a tyre bulges, so ordinary road radials (28 to 35 psi) lie on the safe side. */
export function coldPressure(build: TyreBuild, kind: KindOfCar): KindRange {
  if (build === 'radial slick') return range(9, 16, 'radial slicks', 'common practice, no source');
  if (build === 'treaded radial') {
    return range(12, 22, 'drag radials; 12 psi is a maker’s least', 'seen in trade pages');
  }
  if (kind === 'open') return range(5.5, 8, 'about 7 psi is told of the quickest', 'seen in trade pages');
  if (kind === 'street' || kind === 'small-tyre') return range(6, 12, 'small bias slicks', 'judgement');
  return range(4.5, 7, 'tall bias slicks', 'common practice, no source');
}

/** The size of a tyre as far as the answers tell it, m. */
export interface TyreSize extends Widths {
  freeDiameter: LengthRange;
  reason: string;
  mark: Mark;
}

/** What was told of a tyre's size. */
export interface ToldSize {
  marking?: TyreMarking | undefined;
  /** m */
  rollout?: number | undefined;
  widthMeans?: WidthMeaning | undefined;
  /** m, between the flanges. */
  rimWidth?: number | undefined;
}

const rolled = (length: number): LengthRange => {
  const nominal = 2 * freeRadiusFromRollout(length);
  return { low: nominal, nominal, high: nominal };
};

/** Widths of a tyre of which only the rollout is known: those of the kind of car. */
function usualWidths(kind: KindOfCar): Pick<TyreSize, 'section' | 'tread' | 'reason' | 'mark'> {
  const { low, high, reason, mark } = RANGES[kind].sectionWidth;
  const { section, tread } = widthsOf(((low + high) / 2) * INCH, 'section');
  const least = low * INCH;
  return {
    section: { ...section, low: least, high: high * INCH },
    tread: { ...tread, high: Math.min(tread.high, least), low: Math.min(tread.low, 0.95 * least) },
    reason: `width of such cars' tyres: ${reason}`,
    mark,
  };
}

/** Diameter and widths of a tyre: a rollout sets the diameter, a marking the rest. One of the two must be there: else RangeError. */
export function tyreSize(told: ToldSize, build: TyreBuild, kind: KindOfCar): TyreSize {
  const { marking } = told;
  const rollout = told.rollout ?? (marking?.form === 'rollout' ? marking.rollout : undefined);
  if (marking === undefined || marking.form === 'rollout') {
    if (rollout === undefined) throw new RangeError('a tyre needs its marking or its rollout');
    return { freeDiameter: rolled(rollout), ...usualWidths(kind) };
  }
  const freeDiameter =
    rollout === undefined ? diameterPrior(marking, CONSTRUCTION_OF[build]) : rolled(rollout);
  if (marking.form === 'metric') {
    const width = told.rimWidth === undefined ? marking.width : sectionOnRim(marking.width, told.rimWidth);
    const reason = 'a marking is nominal; limits of new road tyres by the regulation';
    return { freeDiameter, ...widthsOf(width, 'section'), reason, mark: 'from memory' };
  }
  const means = marking.widthMeans === 'unknown' ? (told.widthMeans ?? 'unknown') : marking.widthMeans;
  const unknown = means === 'unknown' ? '; whether the width is of tread or section is not known' : '';
  const reason = `a marking is nominal, and no standard fixes a competition tyre${unknown}`;
  return { freeDiameter, ...widthsOf(marking.width, means), reason, mark: 'judgement' };
}

/** Law of a tyre's mass, kg, in a case file: nine of ten tyres within about a quarter. */
export function massLaw(mass: number): LawText {
  const middle = mass / POUND;
  return logNormalOf(middle * 0.78, middle * 1.28, 'lb', 'car');
}
