import type { Case, UncertainInput } from '@tubgap/casefile';
import type { CarInput } from '@tubgap/core';
import { relocateLaw } from '@tubgap/statistics';
import { INCH, MPH, PSI, SIXTEENTH } from '@tubgap/units';
import { normalSpace } from '../importance/normal-space.ts';
import type { Risk } from '../risk.ts';
import { caseSetup } from '../setup.ts';
import type { CellFigures } from '../study/study-figures.ts';
import { figuresNear } from '../study/study-near.ts';
import type { StudySetup } from '../study/study-point.ts';
import { openStudy, type PerformStudy, type StudySample } from '../study/study-tasks.ts';

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
  /** Top height that the whole car asks for on top, m; negative: less; null where no height is told. */
  heightChange: number | null;
  /** Run risk of the tyre that limits, before and after, at the pick's height. */
  runRisk: { before: number; after: number };
}

interface Shift {
  factor: number;
  offset: number;
}

const moved = (input: UncertainInput, { factor, offset }: Shift): UncertainInput => ({
  ...input,
  law: relocateLaw(input.law, factor, offset, input.floor),
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

/** A case with its one tub, and each change that can be made to it. */
interface Trials {
  setups: StudySetup[];
  /** Code of each setup but the first, which is the case as it stands. */
  codes: Change['code'][];
}

/**
 * The setups whose difference is told: the case as it stands in one tub, and each change of it.
 * @param tyre  index of the limiting tyre
 */
export function changedSetups(source: Case, tyre: number, tub: number): Trials {
  const only: Case = { ...source, tubs: [source.tubs[tub]!] };
  const name = source.tyres[tyre]!.name;
  const tried = TRIALS.flatMap(({ code, label, source: change, growth }) => {
    const changed = change(only, name);
    const isTried = growth !== undefined || spreadKept(only, changed);
    return isTried ? [{ code, setup: { label, source: changed, growthFactor: growth } }] : [];
  });
  return {
    setups: [{ label: source.name, source: only }, ...tried.map(({ setup }) => setup)],
    codes: tried.map(({ code }) => code),
  };
}

/** The tyre that asks for the most height by itself; of several the one that touches most. */
function limitingRow(figures: readonly (readonly CellFigures[])[]): number {
  const needs = (row: number): number => figures[row]![0]!.topHeight ?? Number.POSITIVE_INFINITY;
  const risk = (row: number): number => figures[row]![0]!.compared[0]!.risk.estimate;
  const rows = figures.slice(0, -1).map((_, row) => row);
  return rows.reduce((most, row) =>
    needs(row) > needs(most) || (needs(row) === needs(most) && risk(row) > risk(most)) ? row : most,
  );
}

/**
 * What single changes would ask for or give in the tub of the pick: differences of heights and risks of the whole car,
 * by all draws of the pick and the rule of a sweep, so that a sweep of the same has the very figures. What leaves no height
 * stands first: nothing asks for more.
 * @param sample  the pick's draws
 * @param limiting  run risk by height of the limiting tyre, the pick's own
 * @param perform  works out tasks of the study of `changedSetups`
 */
export async function findChanges(
  source: Case,
  { tyre, tub, topHeight }: Readonly<{ tyre: number; tub: number; topHeight: number }>,
  sample: StudySample,
  limiting: (height: number) => Risk,
  perform: PerformStudy,
): Promise<Change[]> {
  const { setups, codes } = changedSetups(source, tyre, tub);
  const figures = await figuresNear(openStudy(setups), sample, topHeight, source.accept.runRisk, perform);
  const before = limiting(topHeight).estimate;
  const riskOf = (p: number): number => figures[p]![limitingRow(figures[p]!)]![0]!.compared[0]!.risk.estimate;
  const higher: Change = {
    code: 'top higher',
    label: 'top 1/2 in higher',
    asks: 'height',
    heightChange: 0,
    runRisk: { before, after: limiting(topHeight + 8 * SIXTEENTH).estimate },
  };
  const tried = codes.map((code, k): Change => {
    const { verdict, heightDifference } = figures[k + 1]!.at(-1)![0]!;
    const asks =
      heightDifference !== undefined ? 'height' : verdict === 'does not fit' ? 'no height' : 'not known';
    return {
      code,
      label: setups[k + 1]!.label,
      asks,
      heightChange: heightDifference?.estimate ?? null,
      runRisk: { before, after: riskOf(k + 1) },
    };
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
