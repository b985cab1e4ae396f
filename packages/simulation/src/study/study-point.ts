import type { Case } from '@tubgap/casefile';
import { INCH } from '@tubgap/units';
import { type NormalSpace, normalSpace } from '../importance/normal-space.ts';
import { type CaseSetup, caseSetup, type RunTyre } from '../setup.ts';

/** One setup of a study: a case, and what to call it in messages. */
export interface StudySetup {
  label: string;
  source: Case;
  /** On the growth of every tyre; 1 as modelled when left out. */
  growthFactor?: number | undefined;
}

/** A setup ready for the kernel, tied to the base so that both are drawn with the same random numbers. */
export interface StudyPoint {
  label: string;
  /** Its heights are counted from the lowest ones of the whole study. */
  setup: CaseSetup;
  /** Its tyres under the names of those of the base that they stand beside: so their streams are the base's, where those of no two tyres become one. */
  drawn: readonly RunTyre[];
  /** Lowest height in question of each of its tubs by itself, m: no height below it is told. */
  atRest: readonly number[];
  /** Run risk that the study accepts, and of each tyre that of its class where it has one of its own. */
  accepted: number;
  ownAccepted: readonly (number | undefined)[];
  /** Names of its hard points. */
  hardPoints: readonly string[];
  /** Its uncertain inputs, under the streams of the base wherever this has them. */
  space: NormalSpace;
  /** Tyre and tub of the base that each of this setup's stands beside; -1 where there is none. */
  tyreOf: readonly number[];
  tubOf: readonly number[];
}

/** Tyres of a setup beside those of the base: by name, else by place in the list where both names stand alone. */
function tyresBeside(base: readonly string[], names: readonly string[]): number[] {
  return names.map((name, i) => {
    const same = base.indexOf(name);
    if (same >= 0) return same;
    const opposite = base[i];
    return opposite === undefined || names.includes(opposite) ? -1 : i;
  });
}

/** Heights are counted from so far below the lowest one in question: an easy run of a small tyre asks for less. */
const BELOW = 12 * INCH;

function readySetup({ label, source, growthFactor }: StudySetup): CaseSetup {
  try {
    return caseSetup(source, growthFactor);
  } catch (error) {
    if (error instanceof RangeError) throw new RangeError(`${label}: ${error.message}`);
    throw error;
  }
}

/**
 * Makes the setups of a study ready; the first is the base. Tubs of one name count heights from one lowest height, so
 * that setups can be compared run for run.
 * @param counted  heights that each of the base's tubs is counted from, m, where these setups are some of a larger
 *   study; found from the setups when left out
 * @throws RangeError that names the setup, when no sidewall gives a tyre's measured deflection
 */
export function studyPoints(setups: readonly StudySetup[], counted?: readonly number[]): StudyPoint[] {
  const ready = setups.map(readySetup);
  const base = ready[0]!;
  const baseTyres = base.tyres.map((tyre) => tyre.name);
  const baseTubs = setups[0]!.source.tubs.map((tub) => tub.name);
  const tubOf = setups.map(({ source }, p) =>
    source.tubs.map((tub, t) => (p === 0 ? t : baseTubs.indexOf(tub.name))),
  );
  const lowest = [...(counted ?? base.lowestHeights)];
  ready.forEach((setup, p) => {
    if (counted !== undefined) return;
    setup.lowestHeights.forEach((height, t) => {
      const tub = tubOf[p]![t]!;
      if (tub >= 0) lowest[tub] = Math.min(lowest[tub]!, height - BELOW);
    });
  });
  return ready.map((setup, p): StudyPoint => {
    const tyreOf = tyresBeside(
      baseTyres,
      setup.tyres.map((tyre) => tyre.name),
    );
    const nameBeside = (i: number) => base.tyres[tyreOf[i]!]?.tyreName;
    const streamName = (i: number): string => {
      const own = setup.tyres[i]!.tyreName;
      const beside = nameBeside(i);
      const isTaken = setup.tyres.some((other, k) => other.tyreName !== own && nameBeside(k) === beside);
      return beside === undefined || isTaken ? own : beside;
    };
    const underBaseNames = setup.tyres.map((tyre, i) => ({
      ...tyre,
      name: baseTyres[tyreOf[i]!] ?? tyre.name,
      tyreName: streamName(i),
    }));
    return {
      label: setups[p]!.label,
      setup: {
        ...setup,
        lowestHeights: setup.lowestHeights.map((height, t) => lowest[tubOf[p]![t]!] ?? height - BELOW),
      },
      drawn: underBaseNames,
      atRest: setup.lowestHeights,
      accepted: setups[0]!.source.accept.runRisk,
      ownAccepted: setups[p]!.source.tyres.map(({ own }) => own?.runRisk),
      hardPoints: setups[p]!.source.hardPoints.map(({ name }) => name),
      space: normalSpace({ ...setup, tyres: underBaseNames }),
      tyreOf,
      tubOf: tubOf[p]!,
    };
  });
}
