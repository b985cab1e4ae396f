import type { CarSpace } from './car-space.ts';
import type { Part } from './parts/part.ts';
import { type Believed, priorPoints } from './posterior.ts';
import type { MarkReading } from './readings.ts';
import { thinned } from './thinned.ts';

/** A reading that the rest makes unlikely. */
export interface Conflict {
  file: string;
  reading: string;
  against: 'the assumptions of the case' | 'the other measurements' | 'the rest of its own file';
  /** Chance of a reading at least that far off, on either side, in view of how many there are. */
  chance: number;
  /** Refused rather than only said. */
  refused: boolean;
  /** The mark that it is, if it is one. */
  mark: MarkReading | undefined;
}

/** Chance below which a reading is refused, and below which it is said. */
const REFUSED = 1e-3;
const SAID = 0.01;
const PRIOR_DRAWS = 1500;
const PRIOR_DRAWS_COSTLY = 300;
const POSTERIOR_DRAWS = 800;

const twoSided = (lower: number): number => Math.min(1, 2 * Math.min(lower, 1 - lower));

/** Weighted mean over cars of the chance of a lower reading, a name. */
function meanLower(rows: readonly (readonly number[])[], weights: readonly number[]): number[] {
  const total = weights.reduce((sum, w) => sum + w, 0);
  return rows[0]!.map((_, k) => rows.reduce((sum, row, i) => sum + weights[i]! * row[k]!, 0) / total);
}

/** Conflicts as they are found: of one reading only the worst. */
function openList() {
  const conflicts: Conflict[] = [];
  return {
    say: (part: Part, lower: readonly number[], against: Conflict['against']): void => {
      lower.forEach((share, k) => {
        const chance = Math.min(1, twoSided(share) * lower.length);
        if (!(chance < SAID)) return;
        const reading = part.names[k]!;
        const known = conflicts.findIndex((other) => other.reading === reading);
        if (known >= 0 && conflicts[known]!.chance <= chance) return;
        if (known >= 0) conflicts.splice(known, 1);
        const refused = chance < REFUSED;
        conflicts.push({ file: part.file, reading, against, chance, refused, mark: part.marks?.[k] });
      });
    },
    sorted: (): Conflict[] => conflicts.sort((a, b) => a.chance - b.chance),
  };
}

/** Chance of a lower reading over cars of the priors, a name. */
function lowerOfPrior(space: CarSpace, part: Part, prior: readonly Float64Array[]): number[] {
  const rows = thinned(prior, part.costly ? PRIOR_DRAWS_COSTLY : PRIOR_DRAWS).map((point) =>
    part.lower(space.at(point)),
  );
  return meanLower(rows, new Array(rows.length).fill(1));
}

/** Marks of touching that the cars of the priors make impossible, asked before anything is learned. */
export function impossibleRubs(space: CarSpace, parts: readonly Part[], seed: number): Conflict[] {
  const { say, sorted } = openList();
  const prior = priorPoints(space, seed, PRIOR_DRAWS);
  for (const part of parts) {
    if (part.marks !== undefined) say(part, lowerOfPrior(space, part, prior), 'the assumptions of the case');
  }
  return sorted().filter(isImpossibleRub);
}

/** Whether a conflict is a mark of touching that nothing in the case can have made: the car then does not run. */
export const isImpossibleRub = ({ refused, mark }: Conflict): boolean => refused && mark?.touched === true;

/**
 * Readings at odds with what the case assumes, with the other measurements, or with their own neighbours. Against the
 * assumptions: the chance over cars of the priors. Against the others: over cars of the posterior, weighted as if the
 * part were not there; where few of them carry the weight the answer errs on the side of saying nothing. Within a file:
 * over cars of the posterior as it is.
 */
export function findConflicts(
  { space, parts, points }: Pick<Believed, 'space' | 'parts' | 'points'>,
  seed: number,
): Conflict[] {
  const { say, sorted } = openList();
  const prior = priorPoints(space, seed, PRIOR_DRAWS);
  const posterior = thinned(points, POSTERIOR_DRAWS);
  for (const part of parts) {
    say(part, lowerOfPrior(space, part, prior), 'the assumptions of the case');
    const own = thinned(posterior, part.costly ? 200 : POSTERIOR_DRAWS);
    const rows = own.map((point) => part.lower(space.at(point)));
    if (parts.length > 1) {
      const levels = own.map((point) => -part.logLikelihood(space.at(point)));
      const top = Math.max(...levels);
      const raw = levels.map((level) => Math.exp(level - top));
      // Weights are cut at √S times their mean, so that no single car speaks for all (Ionides 2008).
      const most = (Math.sqrt(raw.length) * raw.reduce((sum, w) => sum + w, 0)) / raw.length;
      say(
        part,
        meanLower(
          rows,
          raw.map((w) => Math.min(w, most)),
        ),
        'the other measurements',
      );
    }
    if (part.names.length > 2 && part.kind !== 'marks' && part.kind !== 'runs') {
      say(part, meanLower(rows, new Array(rows.length).fill(1)), 'the rest of its own file');
    }
  }
  return sorted();
}
