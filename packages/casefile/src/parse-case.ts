import type { Case, CaseTub } from './case.ts';
import {
  type Catalogue,
  type CatalogueRow,
  type CatalogueTyre,
  readTubs,
  readTyres,
} from './catalogue/catalogue.ts';
import { lastPart, openCatalogue } from './catalogue/catalogue-file.ts';
import { type Issue, inLineOrder, issueAt, type Problem, type Read } from './issue.ts';
import { didYouMean, nameList } from './nearest-name.ts';
import { carInputs } from './parts/car.ts';
import { constructionFaults, type WrittenNumbers } from './parts/construction-range.ts';
import { contradictions, type ListedTyre } from './parts/contradictions.ts';
import { type Basis, exactDefault } from './parts/input.ts';
import { caseTub, tubTooSmall } from './parts/tub.ts';
import { caseTyre } from './parts/tyre.ts';
import { caseSchema, type WrittenCase } from './schema.ts';
import { type Fault, faultsOf } from './schema-issue.ts';
import { soundPart, touchesFault } from './sound-part.ts';
import { readCaseText } from './text/case-text.ts';
import type { Path } from './text/node-place.ts';

/** A case file's text, what to call it, and how to get at the catalogues beside it. */
export interface CaseSource {
  file: string;
  text: string;
  /** Text of a file in the case's folder or below it; undefined when there is none. */
  load: (relativePath: string) => string | undefined;
}

type Report = (path: Path, problem: Problem, severity?: Issue['severity'], at?: Fault['at']) => void;

function unknownName(what: string, read: string, names: readonly string[]): Problem {
  const hint = didYouMean(read, names);
  const allowed = nameList(names);
  const reason = `the catalogue has no ${what} of this name${hint ? '' : `; it has ${allowed}`}`;
  return { code: 'unknown-name', reason, allowed, ...(hint ? { hint } : {}) };
}

/** Finds a name in a catalogue; reports one that is listed twice or, in a catalogue without faults, unknown. */
function finder<Row extends CatalogueRow>(what: string, { rows, issues }: Catalogue<Row>, report: Report) {
  const seen = new Set<string>();
  return (name: string, path: Path): Row | undefined => {
    const row = rows.find((candidate) => candidate.name === name);
    if (seen.has(name)) report(path, { code: 'duplicate-name', reason: `this ${what} is listed twice` });
    else if (!row && issues.length === 0) {
      report(
        path,
        unknownName(
          what,
          name,
          rows.map((candidate) => candidate.name),
        ),
      );
    }
    seen.add(name);
    return row;
  };
}

function listTyres(
  written: WrittenCase,
  catalogue: Catalogue<CatalogueTyre>,
  basis: Basis,
  report: Report,
): ListedTyre[] {
  const find = finder('tyre', catalogue, report);
  const { build, tyres } = written;
  const names = tyres.map(({ tyre }) => tyre);
  if (!names.includes(build.tyre)) {
    const hint = didYouMean(build.tyre, names);
    const reason = `it must be one of the case's tyres: ${nameList(names)}`;
    report(['build', 'tyre'], { code: 'unknown-name', reason, ...(hint ? { hint } : {}) });
  }
  return tyres.flatMap((entry, index): ListedTyre[] => {
    const tyre = find(entry.tyre, ['tyres', index, 'tyre']);
    if (tyre === undefined) return [];
    return [
      { ...caseTyre({ entry, index, tyre, catalogue: lastPart(catalogue.file), build, basis }), index },
    ];
  });
}

/** Tubs by name; one that no tyre could stand in is a fault when it was asked for, and left out of "all". */
function listTubs(
  written: WrittenCase,
  catalogue: Catalogue<CatalogueRow>,
  tyres: readonly ListedTyre[],
  report: Report,
): CaseTub[] {
  const find = finder('tub', catalogue, report);
  const everywhere = written.tubCentreForward ?? exactDefault('tubCentreForward');
  const reserve = written.build.reserve ?? exactDefault('build.reserve');
  const all = written.tubs === 'all';
  const entries = written.tubs === 'all' ? catalogue.rows.map(({ name }) => name) : written.tubs;
  const tubs = entries.flatMap((entry, index): CaseTub[] => {
    const { tub: name, centreForward = everywhere } = typeof entry === 'string' ? { tub: entry } : entry;
    const path = all ? ['tubs'] : ['tubs', index, ...(typeof entry === 'string' ? [] : ['tub'])];
    const row = find(name, path);
    if (row === undefined) return [];
    const tub = caseTub(row, centreForward);
    const reason = tubTooSmall(tub, tyres, reserve);
    if (reason === undefined) return [tub];
    if (all) report(path, { code: 'skipped', reason: `left out: ${reason}` }, 'warning');
    else report(path, { code: 'contradiction', reason });
    return [];
  });
  if (all && tubs.length === 0 && catalogue.issues.length === 0) {
    report(['tubs'], { code: 'contradiction', reason: 'the catalogue has no tub that takes the tyres' });
  }
  return tubs;
}

const MOST_HEIGHTS = 500;

/** Top heights of a list or of from, to and step, ascending, each once. */
function listHeights({ heights }: WrittenCase, report: Report): number[] | undefined {
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

type Listed = Pick<Case, 'tyres' | 'tubs'> & { heights: number[] | undefined };

/** The case as read, with every gap filled from the table of defaults. */
function complete(written: WrittenCase, file: string, basis: Basis, { tyres, tubs, heights }: Listed): Case {
  const { build, run, sideRoom, simulation } = written;
  const car = carInputs(written, basis);
  return {
    name: written.name,
    title: written.title ?? written.name,
    invented: written.invented ?? false,
    file,
    car,
    finishAccelerationIs: car.finishAcceleration.source === 'case' ? 'absolute' : 'relative',
    gripLostChance: run.gripLost?.chance ?? exactDefault('run.gripLost.chance'),
    distance: run.distance,
    build: {
      tyre: build.tyre,
      pressure: build.pressure,
      ...(build.axleHeight === undefined ? {} : { axleHeight: build.axleHeight }),
      reserve: build.reserve ?? exactDefault('build.reserve'),
    },
    tyres,
    tubs,
    ...(heights === undefined ? {} : { heights }),
    hardPoints: written.hardPoints ?? [],
    ...(sideRoom && {
      sideRoom: {
        innerPanel: sideRoom.innerPanel,
        bodySide: sideRoom.bodySide,
        sidePlay: sideRoom.sidePlay ?? exactDefault('sideRoom.sidePlay'),
        sideReserve: sideRoom.sideReserve ?? exactDefault('sideRoom.sideReserve'),
      },
    }),
    accept: written.accept,
    simulation: {
      draws: simulation?.draws ?? exactDefault('simulation.draws'),
      cars: simulation?.cars ?? exactDefault('simulation.cars'),
      seed: simulation?.seed ?? exactDefault('simulation.seed'),
    },
    warnings: [],
  };
}

/**
 * Reads a case file and its catalogues: a complete case in SI, or every fault with its place, in the order of the
 * lines. It opens no file itself, and bad input never throws.
 */
export function parseCase(source: CaseSource): Read<Case> {
  const { file, load } = source;
  const text = readCaseText(file, source.text);
  if (!text.ok) return text;
  const { raw, placeOf } = text.value;
  const issues = [...text.value.issues];
  const report: Report = (path, problem, severity = 'error', at = 'value') => {
    issues.push(issueAt(placeOf(path, at), problem, severity));
  };
  const basis: Basis = (path) => `${lastPart(file)}:${placeOf(path).line}`;

  const first = caseSchema.safeParse(raw, { reportInput: true });
  const faults = first.error?.issues.flatMap(faultsOf) ?? [];
  for (const { path, problem, at } of faults) report(path, problem, 'error', at);

  const named = (raw as { catalogues?: { tubs?: unknown; tyres?: unknown } } | null)?.catalogues;
  const tubs = openCatalogue(named?.tubs, file, load, readTubs);
  const tyres = openCatalogue(named?.tyres, file, load, readTyres);
  const files = [file];
  for (const [which, catalogue] of Object.entries({ tubs, tyres })) {
    if (catalogue === undefined) continue;
    if ('problem' in catalogue) report(['catalogues', which], catalogue.problem);
    else {
      issues.push(...catalogue.issues);
      files.push(catalogue.file);
    }
  }

  const sound = first.success ? { raw, written: first.data } : soundPart(raw, faults);
  let value: Case | undefined;
  if (sound && tubs && tyres && 'rows' in tubs && 'rows' in tyres) {
    const { written } = sound;
    const judge: Report = (path, ...rest) => {
      if (!touchesFault(path, faults)) report(path, ...rest);
    };
    const listed = listTyres(written, tyres, basis, judge);
    const parts = { tubs: listTubs(written, tubs, listed, judge), heights: listHeights(written, judge) };
    value = complete(written, file, basis, { tyres: listed.map(({ index: _, ...tyre }) => tyre), ...parts });
    for (const tyre of listed) {
      for (const { path, problem, at } of constructionFaults(sound.raw as WrittenNumbers, tyre, tyre.index)) {
        judge(path, problem, 'error', at);
      }
    }
    for (const { path, problem, severity, at } of contradictions(written, value, listed)) {
      judge(path, problem, severity, at);
    }
  }
  const ordered = inLineOrder(issues, files);
  const sure = value !== undefined && ordered.every(({ severity }) => severity === 'warning');
  return sure && value
    ? { ok: true, value: { ...value, warnings: ordered }, warnings: ordered }
    : { ok: false, issues: ordered };
}
