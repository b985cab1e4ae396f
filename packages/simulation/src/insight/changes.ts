import type { Case, UncertainInput } from '@tubgap/casefile';
import type { CarInput } from '@tubgap/core';
import { type Law, type PlainLaw, scaleLaw } from '@tubgap/statistics';
import { INCH, MPH, PSI, SIXTEENTH } from '@tubgap/units';
import type { Centres } from '../importance/mixture.ts';
import { normalSpace } from '../importance/normal-space.ts';
import { addTail, emptyTailTallies } from '../importance/tail-risk.ts';
import { type WeightByHeight, weightByHeight } from '../importance/weighted-tally.ts';
import { createBlockRoom } from '../run-risk.ts';
import { tailRuns, weightedParts } from '../runner.ts';
import { type CaseSetup, caseSetup } from '../setup.ts';
import { HEIGHT_STEPS } from '../tally.ts';

const BLOCKS = 12;
/** Effective touching draws from which a weighted figure is believed. */
const LEAST_EFFECTIVE = 50;

/** What is changed, one thing at a time. */
export const CHANGES = [
  'top higher',
  'pressure',
  'springs',
  'travel',
  'downforce',
  'speed',
  'tub forward',
  'tub back',
  'larger growth',
] as const;

/** Something that could be done to the car, and what it would ask for or give. */
export interface Change {
  code: (typeof CHANGES)[number];
  label: string;
  /**
   * What it asks of the tub: another height; none, for no height keeps the accepted risk any more; or not known, for too
   * few draws say that no height does.
   */
  asks: 'height' | 'no height' | 'not known';
  /** Top height asked for on top, m; negative: less; null where no height is told. */
  heightChange: number | null;
  /** Run risk of the limiting tyre at the pick's height, before and after. */
  runRisk: { before: number; after: number };
}

type Shift = { factor: number; offset: number };

function movedLaw(law: Law, { factor, offset }: Shift, floor: number): Law {
  if (law.kind === 'updated') {
    return { ...law, from: movedLaw(law.from, { factor, offset }, floor) as PlainLaw };
  }
  // A log-normal has no shift; its middle is moved instead.
  if (law.kind === 'log-normal' && offset !== 0) {
    return { ...law, median: Math.max(floor, law.median + offset) };
  }
  return scaleLaw(law, factor, offset);
}

const moved = (input: UncertainInput, shift: Shift): UncertainInput => ({
  ...input,
  law: movedLaw(input.law, shift, input.floor ?? Number.NEGATIVE_INFINITY),
});

/** A case with one input of the car moved, in every class that has its own. */
function withCar(source: Case, name: CarInput, shift: Shift): Case {
  return {
    ...source,
    car: { ...source.car, [name]: moved(source.car[name], shift) },
    tyres: source.tyres.map((tyre) => {
      const own = tyre.car?.[name];
      return own === undefined ? tyre : { ...tyre, car: { ...tyre.car, [name]: moved(own, shift) } };
    }),
  };
}

interface Trial {
  code: Change['code'];
  label: string;
  source: (source: Case, tyre: string) => Case;
  growth?: number;
}

/** What a shop can turn, one at a time, each by an amount that is easy to picture. */
const TRIALS: readonly Trial[] = [
  {
    code: 'pressure',
    label: '1 psi more in the limiting tyre',
    source: (source, name) => ({
      ...source,
      tyres: source.tyres.map((tyre) =>
        tyre.name === name
          ? {
              ...tyre,
              inputs: {
                ...tyre.inputs,
                coldPressure: moved(tyre.inputs.coldPressure, { factor: 1, offset: PSI }),
              },
            }
          : tyre,
      ),
    }),
  },
  {
    code: 'springs',
    label: 'springs 10 % stiffer',
    source: (source) => withCar(source, 'wheelRate', { factor: 1.1, offset: 0 }),
  },
  {
    code: 'travel',
    label: '1/2 in less bump travel',
    source: (source) => withCar(source, 'bumpTravel', { factor: 1, offset: -0.5 * INCH }),
  },
  {
    code: 'downforce',
    label: '10 % less rear downforce',
    source: (source) => withCar(source, 'downforceArea', { factor: 0.9, offset: 0 }),
  },
  {
    code: 'speed',
    label: '5 mph less at the finish',
    source: (source) => withCar(source, 'trapSpeed', { factor: 1, offset: -5 * MPH }),
  },
  {
    code: 'tub forward',
    label: 'tub 1/2 in further forward',
    source: (source) => withCentre(source, 0.5 * INCH),
  },
  {
    code: 'tub back',
    label: 'tub 1/2 in further back',
    source: (source) => withCentre(source, -0.5 * INCH),
  },
  {
    code: 'larger growth',
    label: 'growth one quarter larger than assumed',
    source: (source) => source,
    growth: 1.25,
  },
];

const withCentre = (source: Case, offset: number): Case => ({
  ...source,
  tubs: source.tubs.map((tub) => ({ ...tub, centreForward: tub.centreForward + offset })),
});

/** Weighted run risk of one tyre in one tub by height step. */
function tailOf(setup: CaseSetup, centres: Centres, seed: number, tyre: number): WeightByHeight {
  const space = normalSpace(setup);
  const room = createBlockRoom(setup);
  const total = emptyTailTallies(setup);
  for (const range of weightedParts(BLOCKS)) {
    addTail(total, tailRuns(setup, centres, seed, range, room, space));
  }
  const tally = total.tyres[tyre]!;
  return weightByHeight(tally.events, tally.tubs[0]!.steps);
}

const riskAt = ({ weight, events }: WeightByHeight, step: number): number =>
  weight[Math.min(step, HEIGHT_STEPS - 1)]! / events;

/** Step, with its fraction, at which a falling risk passes what is accepted; undefined when it never does. */
function passes(found: WeightByHeight, accepted: number): number | undefined {
  for (let step = 0; step < HEIGHT_STEPS; step++) {
    const here = riskAt(found, step);
    if (here > accepted) continue;
    const before = step === 0 ? here : riskAt(found, step - 1);
    if (step === 0 || here <= 0 || before <= here) return step;
    return step - Math.log(accepted / here) / Math.log(before / here);
  }
  return undefined;
}

/** Whether enough draws touch at every height to say that none keeps the risk; a few heavy ones could be chance. */
function manyTouch({ weight, square }: WeightByHeight): boolean {
  const last = HEIGHT_STEPS - 1;
  return weight[last]! ** 2 / square[last]! >= LEAST_EFFECTIVE;
}

/**
 * What single changes would ask for or give in one tub, with the same draws before and after, so that the difference
 * is the change's own and not the draws'. What leaves no height stands first: nothing asks for more.
 * @param tyre  index of the limiting tyre
 * @param topHeight  of the pick, m
 */
export function findChanges(
  source: Case,
  centres: Centres,
  tyre: number,
  tub: number,
  topHeight: number,
): Change[] {
  const only: Case = { ...source, tubs: [source.tubs[tub]!] };
  const { seed } = source.simulation;
  const base = caseSetup(only);
  const lowest = base.lowestHeights[0]!;
  const before = tailOf(base, centres, seed, tyre);
  const step = Math.round((topHeight - lowest) / SIXTEENTH);
  const needed = passes(before, source.accept.runRisk);
  const higher: Change = {
    code: 'top higher',
    label: 'top 1/2 in higher',
    asks: 'height',
    heightChange: 0,
    runRisk: { before: riskAt(before, step), after: riskAt(before, step + 8) },
  };
  const name = source.tyres[tyre]!.name;
  const tried = TRIALS.flatMap(({ code, label, source: change, growth }): Change[] => {
    if (growth === undefined && !spreadKept(only, change(only, name))) return [];
    const setup = { ...caseSetup(change(only, name), growth), lowestHeights: [lowest] };
    const after = tailOf(setup, centres, seed, tyre);
    const then = passes(after, source.accept.runRisk);
    const runRisk = { before: riskAt(before, step), after: riskAt(after, step) };
    if (then === undefined) {
      return [
        { code, label, asks: manyTouch(after) ? 'no height' : 'not known', heightChange: null, runRisk },
      ];
    }
    // Nothing to compare with: the pick stands on the plain count, and these draws see more risk than it does.
    if (needed === undefined) return [{ code, label, asks: 'not known', heightChange: null, runRisk }];
    return [{ code, label, asks: 'height', heightChange: (then - needed) * SIXTEENTH, runRisk }];
  });
  const changes = [higher, ...tried];
  return (['no height', 'not known', 'height'] as const).flatMap((asks) =>
    changes.filter((change) => change.asks === asks),
  );
}

/** Whether a change leaves the same inputs uncertain, so that draws stay common; a car without a wing has none to take. */
function spreadKept(source: Case, changed: Case): boolean {
  return (
    normalSpace(caseSetup(source)).directions.length === normalSpace(caseSetup(changed)).directions.length
  );
}
