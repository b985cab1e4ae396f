import type { Case, UncertainInput } from '@tubgap/casefile';
import type { CarInput } from '@tubgap/core';
import { type Law, type PlainLaw, scaleLaw } from '@tubgap/uncertainty';
import { SIXTEENTH } from '../inches.ts';
import { createBlockRoom } from '../run-risk.ts';
import { type CaseSetup, caseSetup } from '../setup.ts';
import type { Centres } from '../tail/mixture.ts';
import { normalSpace } from '../tail/normal-space.ts';
import { addTail, emptyTailTallies, tailBlock } from '../tail/tail-risk.ts';
import { weightByHeight } from '../tail/weighted-tally.ts';

const INCH = 16 * SIXTEENTH;
const PSI = 6894.757293168361;
const MPH = 0.44704;
const BLOCKS = 12;

/** Something that could be done to the car, and what it would ask for or give. */
export interface Change {
  label: string;
  /** Top height asked for on top, m; negative: less. */
  heightChange: number;
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
  label: string;
  source: (source: Case, tyre: string) => Case;
  growth?: number;
}

/** What a shop can turn, one at a time, each by an amount that is easy to picture. */
const TRIALS: readonly Trial[] = [
  {
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
    label: 'springs 10 % stiffer',
    source: (source) => withCar(source, 'wheelRate', { factor: 1.1, offset: 0 }),
  },
  {
    label: '1/2 in less bump travel',
    source: (source) => withCar(source, 'bumpTravel', { factor: 1, offset: -0.5 * INCH }),
  },
  {
    label: '10 % less rear downforce',
    source: (source) => withCar(source, 'downforceArea', { factor: 0.9, offset: 0 }),
  },
  {
    label: '5 mph less at the finish',
    source: (source) => withCar(source, 'trapSpeed', { factor: 1, offset: -5 * MPH }),
  },
  {
    label: 'tub 1/2 in further forward',
    source: (source) => withCentre(source, 0.5 * INCH),
  },
  {
    label: 'tub 1/2 in further back',
    source: (source) => withCentre(source, -0.5 * INCH),
  },
  { label: 'growth one quarter larger than assumed', source: (source) => source, growth: 1.25 },
];

const withCentre = (source: Case, offset: number): Case => ({
  ...source,
  tubs: source.tubs.map((tub) => ({ ...tub, centreForward: tub.centreForward + offset })),
});

/** Weighted run risk of one tyre in one tub by height step. */
function tailOf(setup: CaseSetup, centres: Centres, seed: number, tyre: number): (step: number) => number {
  const space = normalSpace(setup);
  const room = createBlockRoom(setup);
  const total = emptyTailTallies(setup);
  for (let block = 0; block < BLOCKS; block++)
    addTail(total, tailBlock(setup, space, centres, seed, block, room));
  const tally = total.tyres[tyre]!;
  const found = weightByHeight(tally.events, tally.tubs[0]!.steps);
  return (step) => found.weight[Math.min(step, found.weight.length - 1)]! / tally.events;
}

/** Step, with its fraction, at which a falling risk passes what is accepted. */
function passes(risk: (step: number) => number, accepted: number, steps: number): number {
  for (let step = 0; step < steps; step++) {
    const here = risk(step);
    if (here > accepted) continue;
    const before = step === 0 ? here : risk(step - 1);
    if (step === 0 || here <= 0 || before <= here) return step;
    return step - Math.log(accepted / here) / Math.log(before / here);
  }
  return Number.NaN;
}

/**
 * What single changes would ask for or give in one tub, with the same draws before and after, so that the difference
 * is the change's own and not the draws'.
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
  const steps = 600;
  const before = tailOf(base, centres, seed, tyre);
  const step = Math.round((topHeight - lowest) / SIXTEENTH);
  const needed = passes(before, source.accept.runRisk, steps);
  const higher: Change = {
    label: 'top 1/2 in higher',
    heightChange: 0,
    runRisk: { before: before(step), after: before(step + 8) },
  };
  const name = source.tyres[tyre]!.name;
  const tried = TRIALS.flatMap((trial): Change[] => {
    if (trial.growth === undefined && !spreadKept(only, trial.source(only, name))) return [];
    const setup = { ...caseSetup(trial.source(only, name), trial.growth), lowestHeights: [lowest] };
    const after = tailOf(setup, centres, seed, tyre);
    const heightChange = (passes(after, source.accept.runRisk, steps) - needed) * SIXTEENTH;
    if (!Number.isFinite(heightChange)) return [];
    return [{ label: trial.label, heightChange, runRisk: { before: before(step), after: after(step) } }];
  });
  return [higher, ...tried];
}

/** Whether a change leaves the same inputs uncertain, so that draws stay common; a car without a wing has none to take. */
function spreadKept(source: Case, changed: Case): boolean {
  return (
    normalSpace(caseSetup(source)).directions.length === normalSpace(caseSetup(changed)).directions.length
  );
}
