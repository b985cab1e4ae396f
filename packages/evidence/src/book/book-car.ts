import type { Case } from '@tubgap/casefile';
import type { CaseSetup } from '@tubgap/simulation';
import type { CarSpace } from '../car-space.ts';
import type { Part } from '../parts/part.ts';
import { OFFSET_OF, PRESSURE_OF } from '../parts/rolling.ts';
import { TAPE } from '../parts/standing.ts';

/** A car of a shop's book with all that was seen of it. */
export interface BookCar {
  /** Its name in the book; no other car has it. */
  name: string;
  /** As it was measured, nothing learned in it. */
  source: Case;
  setup: CaseSetup;
  /** Errors of the shop's tools as nuisances, see `evidenceParts`. */
  parts: readonly Part[];
  /** By the case's name of a tyre: its row of the catalogue, and batch or date code where known. */
  tyres: Readonly<Record<string, { model: string; batch?: string }>>;
  /** Runs after which nothing had touched, and marks that were found, as counts for whoever reads the priors. */
  seen?: { unmarkedRuns: number; marks: number };
  /** Who set out its tub, and with which tape the shop measures; left out where nobody knows. */
  builder?: string;
  tape?: string;
}

/** What hangs together by the same shares of the variance: see `shares.ts`. */
export type Family = 'tyre' | 'car' | 'builder' | 'tool';

/** Where a coordinate of a car has its place in the book. */
export interface Place {
  /** Coordinates of other cars with this name stand for the same thing: 'tyre/growthScale'. */
  kind: string;
  family: Family;
  /** Groups, outermost first. */
  groups: readonly string[];
  /** Index of the tyre that it belongs to. */
  tyre?: number;
}

/** Groups of one tyre: construction, row of the catalogue, batch. */
export function tyreGroups({ source, tyres }: BookCar, name: string): string[] {
  const { construction, tyre } = source.tyres.find((own) => own.name === name)!;
  const { model, batch } = tyres[name] ?? { model: tyre };
  return [construction, model, ...(batch === undefined ? [] : [batch])];
}

/** Before the stream of an input that the case states. */
export const STATED = 'stated ';
/** The group of all cars of a shop. */
export const SHOP = 'shop';
/** Kind of a tape's own error. */
export const TAPE_KIND = 'tool/tape';

const shared = (kind: string, family: Family, group: string | undefined): Place | undefined =>
  group === undefined ? undefined : { kind, family, groups: [group] };

/**
 * Where each coordinate of a car's space has its place, or nowhere. A tyre's input hangs together with those of its model
 * only where the case leaves it to the program: a law of the case's own says something else. A free radius that the
 * case states was taped, and has the tape's error in common with the others.
 */
export function placesOf(car: BookCar, { directions, nuisances }: CarSpace): (Place | undefined)[] {
  const indexOf = (name: string): number => car.setup.tyres.findIndex((tyre) => tyre.name === name);
  const ofTyre = (what: string, name: string): Place => ({
    kind: `tyre/${what}`,
    family: 'tyre',
    groups: tyreGroups(car, name),
    tyre: indexOf(name),
  });
  return [
    ...directions.map(({ stream, targets }): Place | undefined => {
      const { input, group, tyre } = targets[0]!;
      if (group === 'car') {
        // What the shop states of its cars may be off together; where cars lie in the program's prior is another thing.
        const kind = input.source === 'case' ? `${STATED}${stream}` : stream;
        return input.group === 'builder' ? shared(kind, 'builder', car.builder) : shared(kind, 'car', SHOP);
      }
      const { name, tyreName } = car.setup.tyres[tyre]!;
      const what = stream.slice(`tyre/${tyreName}/`.length);
      if (input.source !== 'case') return ofTyre(what, name);
      return what === 'referenceRadius' ? shared('taped/referenceRadius', 'tool', car.tape) : undefined;
    }),
    ...nuisances.map((name): Place | undefined => {
      if (name.startsWith(OFFSET_OF)) return ofTyre('rolling offset', name.slice(OFFSET_OF.length));
      if (name.startsWith(PRESSURE_OF)) return undefined;
      if (name === TAPE) return shared(TAPE_KIND, 'tool', car.tape);
      return shared(`shop/${name}`, 'tool', SHOP);
    }),
  ];
}
