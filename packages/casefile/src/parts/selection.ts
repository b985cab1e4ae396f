import type { Case, CaseTub } from '../case.ts';
import type { Catalogue, CatalogueRow, CatalogueTub, CatalogueTyre } from '../catalogue/catalogue.ts';
import { lastPart } from '../catalogue/catalogue-file.ts';
import type { Issue, Problem } from '../issue.ts';
import { didYouMean, nameList } from '../nearest-name.ts';
import type { WrittenCase } from '../schema.ts';
import type { Fault } from '../schema-issue.ts';
import type { Path } from '../text/node-place.ts';
import { exactDefault } from './input.ts';
import type { Ledger } from './ledger.ts';
import { caseTub, tubTooSmall } from './tub.ts';
import { caseTyre, type ListedTyre } from './tyre.ts';
import { firstOfTyre } from './tyre-again.ts';
import { tyreBySize } from './tyre-by-size.ts';

/** Takes a fault or a warning about a place of the case. */
export type Report = (path: Path, problem: Problem, severity?: Issue['severity'], at?: Fault['at']) => void;

function unknownName(what: string, read: string, names: readonly string[]): Problem {
  const hint = didYouMean(read, names);
  const allowed = nameList(names);
  const reason = `the catalogue has no ${what} of this name${hint ? '' : `; it has ${allowed}`}`;
  return { code: 'unknown-name', reason, allowed, ...(hint ? { hint } : {}) };
}

const isSound = ({ issues }: Catalogue<CatalogueRow>) =>
  issues.every(({ severity }) => severity === 'warning');

/**
 * Finds a name in a catalogue; reports one that is listed twice or, in a catalogue without faults, unknown.
 * @param instead  what stands in for a row that is not there; 'refused' where it has told why none does
 */
function finder<Row extends CatalogueRow>(
  what: string,
  catalogue: Catalogue<Row>,
  report: Report,
  instead: (name: string, path: Path) => Row | 'refused' | undefined = () => undefined,
) {
  const { rows } = catalogue;
  const seen = new Set<string>();
  return (name: string, path: Path): Row | undefined => {
    const row = rows.find((candidate) => candidate.name === name) ?? instead(name, path);
    if (seen.has(name)) report(path, { code: 'duplicate-name', reason: `this ${what} is listed twice` });
    else if (!row && isSound(catalogue)) {
      const names = rows.map((candidate) => candidate.name);
      report(path, unknownName(what, name, names));
    }
    seen.add(name);
    return row === 'refused' ? undefined : row;
  };
}

/** A tyre's name says nothing where no catalogue has it. */
const NO_CATALOGUE: Problem = {
  code: 'unknown-name',
  reason: 'the case names no catalogue of tyres, and this is no size as printed on one',
  hint: 'Write the size, as 33.5x17.0-16 or 315/60R15, or name the catalogue: tyres: tyres.csv under catalogues',
};

/** The case's tyres; one that the catalogue does not know is reported and left out. */
export function listTyres(
  written: WrittenCase,
  catalogue: Catalogue<CatalogueTyre>,
  car: Case['car'],
  ledger: Ledger,
  report: Report,
): ListedTyre[] {
  const { build, tyres } = written;
  const find = finder('tyre', catalogue, report, (name, path) => {
    const own = tyres.find((entry) => entry.tyre === name);
    const found = tyreBySize(name, own?.construction, catalogue.rows);
    if (found !== undefined && 'name' in found) return found;
    if (found === undefined && catalogue.file !== '') return undefined;
    report(path, found ?? NO_CATALOGUE);
    return 'refused';
  });
  const names = tyres.map(({ tyre }) => tyre);
  if (!names.includes(build.tyre)) {
    const hint = didYouMean(build.tyre, names);
    const reason = `it must be one of the case's tyres: ${nameList(names)}`;
    report(['build', 'tyre'], { code: 'unknown-name', reason, ...(hint ? { hint } : {}) });
  }
  const listed: ListedTyre[] = [];
  const read = new Map<number, { from: CatalogueTyre; own: ListedTyre }>();
  tyres.forEach((entry, index) => {
    const at = firstOfTyre(written, index);
    const first = at === index ? undefined : read.get(at);
    // One that could not be read the first time was told there.
    const isFirst = at === index;
    const tyre = isFirst ? find(entry.tyre, ['tyres', index, 'tyre']) : first?.from;
    if (tyre === undefined) return;
    if (entry.construction !== undefined && entry.construction !== tyre.construction) {
      const reason = `the catalogue has ${entry.tyre} as ${tyre.construction}`;
      report(['tyres', index, 'construction'], { code: 'contradiction', reason });
    }
    const from = { entry, index, tyre, catalogue: lastPart(catalogue.file), written, car, ledger };
    listed.push({ ...caseTyre({ ...from, first: first?.own }), index });
    read.set(index, { from: tyre, own: listed.at(-1)! });
  });
  return listed;
}

/** A tub of the catalogue in which a tyre cannot stand. */
interface LeftOut {
  name: string;
  lacks: 'diameter' | 'width';
  reason: string;
}

/** Why tubs were left out: of a single one its figures, of a whole ladder what each lacks. */
function leftOutWords(tubs: readonly LeftOut[]): string {
  if (tubs.length === 1) return `left out: ${tubs[0]!.reason}`;
  const namesOf = (lacks: LeftOut['lacks']): string =>
    tubs.flatMap((tub) => (tub.lacks === lacks ? [tub.name] : [])).join(', ');
  const told = [
    ['too small inside for a tyre that stands still, with the reserve', namesOf('diameter')],
    ['too narrow inside for a tyre', namesOf('width')],
  ].flatMap(([why, names]) => (names === '' ? [] : [`${why}: ${names}`]));
  return `left out: ${told.join('; ')}`;
}

/** Tubs by name; one that no tyre could stand in is a fault when it was asked for, and left out of "all". */
export function listTubs(
  written: WrittenCase,
  catalogue: Catalogue<CatalogueTub>,
  tyres: readonly ListedTyre[],
  ledger: Ledger,
  report: Report,
): CaseTub[] {
  const find = finder('tub', catalogue, report);
  const everywhere = () => written.tubCentreForward ?? ledger.assume('tubCentreForward');
  const reserve = written.build.reserve ?? exactDefault('build.reserve');
  const all = written.tubs === 'all';
  const leftOut: LeftOut[] = [];
  const entries = written.tubs === 'all' ? catalogue.rows.map(({ name }) => name) : written.tubs;
  const tubs = entries.flatMap((entry, index): CaseTub[] => {
    const {
      tub: name,
      centreForward = everywhere(),
      notches = [],
    } = typeof entry === 'string' ? { tub: entry } : entry;
    const path = all ? ['tubs'] : ['tubs', index, ...(typeof entry === 'string' ? [] : ['tub'])];
    const row = find(name, path);
    if (row === undefined) return [];
    const tub = { ...caseTub(row, lastPart(catalogue.file), centreForward, ledger), notches };
    const small = tubTooSmall(tub, tyres, reserve);
    if (small === undefined) return [tub];
    if (all) leftOut.push({ name, ...small });
    else report(path, { code: 'contradiction', reason: small.reason });
    return [];
  });
  if (leftOut.length > 0) report(['tubs'], { code: 'skipped', reason: leftOutWords(leftOut) }, 'warning');
  if (all && tubs.length === 0 && isSound(catalogue)) {
    report(['tubs'], { code: 'contradiction', reason: 'the catalogue has no tub that takes the tyres' });
  }
  return tubs;
}

const MOST_HEIGHTS = 500;

/** Top heights of a list or of from, to and step, ascending, each once. */
export function listHeights({ heights }: WrittenCase, report: Report): number[] | undefined {
  if (heights === undefined) return undefined;
  if (Array.isArray(heights)) return [...new Set(heights)].sort((a, b) => a - b);
  const { from, to, step } = heights;
  const count = 1 + Math.floor((to - from) / step + 1e-9);
  const refuse = (reason: string) => report(['heights'], { code: 'contradiction', reason });
  if (count < 1) refuse('from is above to');
  else if (count > MOST_HEIGHTS)
    refuse(`these are ${count} heights, ${MOST_HEIGHTS} are allowed; take a larger step`);
  else return Array.from({ length: count }, (_, index) => from + index * step);
  return undefined;
}
