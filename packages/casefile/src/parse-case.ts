import type { Case, CaseTub, CaseTyre } from './case.ts';
import { type CaseText, readCaseText } from './case-text.ts';
import { type Catalogue, type CatalogueRow, type CatalogueTyre, readTubs, readTyres } from './catalogue.ts';
import { carInputs, exactValue, tyreInputs } from './inputs.ts';
import { type Issue, inLineOrder, issueAt, type Problem, type Read } from './issue.ts';
import { didYouMean, nameList } from './nearest-name.ts';
import { caseSchema, type WrittenCase } from './schema.ts';
import { type Located, locatedProblems, type Path } from './schema-issue.ts';
import { constructionFindings, findings, tubTooSmall, type WrittenRaw } from './sense.ts';

/** A case file's text, what to call it, and how to get at the catalogues beside it. */
export interface CaseSource {
  file: string;
  text: string;
  /** Text of a file in the case's folder or below it; undefined when there is none. */
  load: (relativePath: string) => string | undefined;
}

const lastPart = (file: string) => file.slice(1 + Math.max(file.lastIndexOf('/'), file.lastIndexOf('\\')));
const folderOf = (file: string) => file.slice(0, 1 + Math.max(file.lastIndexOf('/'), file.lastIndexOf('\\')));

type Report = (located: Located, severity?: Issue['severity']) => void;

/** Why a catalogue's path is refused: it must not lead out of the case's folder. */
function pathProblem(path: string): Problem | undefined {
  const parts = path.split(/[/\\]/);
  const outside = parts.includes('..') || /^([/\\]|[a-z]:)/i.test(path) || path.includes('\0');
  if (!outside) return undefined;
  const reason = "a catalogue must lie in the case file's folder or below it";
  return { code: 'file', reason, hint: 'Put it there and write its name, such as tyres.csv' };
}

function openCatalogue<Row extends CatalogueRow>(
  which: 'tubs' | 'tyres',
  raw: unknown,
  source: CaseSource,
  report: Report,
  read: (file: string, text: string) => Catalogue<Row>,
): Catalogue<Row> | undefined {
  const path = (raw as { catalogues?: Record<string, unknown> } | null)?.catalogues?.[which];
  if (typeof path !== 'string' || path === '') return undefined;
  const refuse = (problem: Problem) => report({ path: ['catalogues', which], at: 'value', problem });
  const problem = pathProblem(path);
  if (problem) refuse(problem);
  const text = problem ? undefined : source.load(path);
  if (problem === undefined && text === undefined) {
    refuse({ code: 'file', reason: "there is no such file in the case file's folder" });
  }
  return text === undefined ? undefined : read(folderOf(source.file) + path, text);
}

/** A copy without the fields at fault, so that the rest can still be judged. */
function withoutFaults(raw: unknown, faults: readonly Located[]): unknown {
  const copy = structuredClone(raw);
  for (const { path } of faults) {
    const key = path.findLastIndex((part) => typeof part === 'string');
    let group = copy as Record<string | number, unknown> | undefined;
    for (const part of path.slice(0, key)) group = group?.[part] as typeof group;
    if (key >= 0 && typeof group === 'object' && group !== null) delete group[path[key]!];
  }
  return copy;
}

function unknownName(what: string, read: string, names: readonly string[]): Problem {
  const hint = didYouMean(read, names);
  const allowed = nameList(names);
  const reason = `the catalogue has no ${what} of this name${hint === undefined ? `; it has ${allowed}` : ''}`;
  return { code: 'unknown-name', reason, allowed, ...(hint === undefined ? {} : { hint }) };
}

type ListedTyre = CaseTyre & { index: number };

function listTyres(
  written: WrittenCase,
  catalogue: Catalogue<CatalogueTyre>,
  text: CaseText,
  report: Report,
): ListedTyre[] {
  const names = catalogue.rows.map((row) => row.name);
  const seen = new Set<string>();
  return written.tyres.flatMap((entry, index): ListedTyre[] => {
    const refuse = (problem: Problem) => report({ path: ['tyres', index, 'tyre'], at: 'value', problem });
    if (seen.has(entry.tyre)) refuse({ code: 'duplicate-name', reason: 'this tyre is listed twice' });
    seen.add(entry.tyre);
    const tyre = catalogue.rows.find((row) => row.name === entry.tyre);
    if (tyre === undefined) {
      if (!catalogue.faulty) refuse(unknownName('tyre', entry.tyre, names));
      return [];
    }
    const basis = (path: Path) => basisAt(text, path);
    const from = { entry, index, tyre, catalogue: lastPart(catalogue.file), build: written.build, basis };
    const condition = entry.condition ?? 'run-in';
    const rim = entry.rim && {
      width: entry.rim.width ?? tyre.values.width!,
      backspacing: entry.rim.backspacing,
      flange: entry.rim.flange ?? exactValue('tyres[].rim.flange'),
    };
    return [
      {
        index,
        name: tyre.name,
        label: `${tyre.name}, ${condition}`,
        construction: tyre.construction,
        condition,
        runsPerSeason: entry.runsPerSeason,
        referencePressure: entry.referencePressure ?? tyre.values.referencePressure!,
        deflection: entry.deflection ?? tyre.values.deflection!,
        deflectionLoad: entry.deflectionLoad ?? tyre.values.deflectionLoad!,
        lobeHalfWidth: entry.lobeHalfWidth ?? exactValue('tyres[].lobeHalfWidth'),
        inputs: tyreInputs(from),
        ...(rim ? { rim } : {}),
      },
    ];
  });
}

/** 'case.yaml:14': the file's own name only, so that a record reads the same on every machine. */
function basisAt(text: CaseText, path: Path): string {
  const { file, line } = text.placeOf(path);
  return `${lastPart(file)}:${line}`;
}

function listTubs(
  written: WrittenCase,
  catalogue: Catalogue<CatalogueRow>,
  tyres: ListedTyre[],
  report: Report,
): CaseTub[] {
  const names = catalogue.rows.map((row) => row.name);
  const everywhere = written.tubCentreForward ?? exactValue('tubCentreForward');
  const reserve = written.build.reserve ?? exactValue('build.reserve');
  const all = written.tubs === 'all';
  const entries = written.tubs === 'all' ? names : written.tubs;
  const seen = new Set<string>();
  return entries.flatMap((entry, index): CaseTub[] => {
    const { tub: name, centreForward = everywhere } = typeof entry === 'string' ? { tub: entry } : entry;
    const path: Path = all ? ['tubs'] : typeof entry === 'string' ? ['tubs', index] : ['tubs', index, 'tub'];
    const refuse = (problem: Problem, severity?: 'warning') =>
      report({ path, at: 'value', problem }, severity);
    if (seen.has(name)) refuse({ code: 'duplicate-name', reason: 'this tub is listed twice' });
    seen.add(name);
    const row = catalogue.rows.find((candidate) => candidate.name === name);
    if (row === undefined) {
      if (!catalogue.faulty) refuse(unknownName('tub', name, names));
      return [];
    }
    const { insideDiameter, liner, arcExtent, legLength, insideWidth, skinThickness, arealDensity } =
      row.values;
    const tub = {
      name,
      diameter: insideDiameter!,
      liner: liner!,
      arcExtent: arcExtent!,
      legLength: legLength!,
      insideWidth: insideWidth!,
      skinThickness: skinThickness!,
      arealDensity: arealDensity!,
      centreForward,
    };
    const reason = tubTooSmall(tub, tyres, reserve);
    if (reason === undefined) return [tub];
    if (all) refuse({ code: 'skipped', reason: `left out: ${reason}` }, 'warning');
    else refuse({ code: 'contradiction', reason });
    return [];
  });
}

/** Top heights of a list or of from, to and step, ascending, each once. */
function heightsOf(written: WrittenCase, report: Report): number[] | undefined {
  const given = written.heights;
  if (given === undefined) return undefined;
  if (Array.isArray(given)) return [...new Set(given)].sort((a, b) => a - b);
  const steps = Math.floor((given.to - given.from) / given.step + 1e-9);
  const refuse = (reason: string) =>
    report({ path: ['heights'], at: 'value', problem: { code: 'contradiction', reason } });
  if (steps < 0) refuse('from must not be above to');
  else if (steps > 499) refuse(`these are ${steps + 1} heights, 500 are allowed; take a larger step`);
  else return Array.from({ length: steps + 1 }, (_, index) => given.from + index * given.step);
  return undefined;
}

function assemble(
  written: WrittenCase,
  text: CaseText,
  tyres: CaseTyre[],
  tubs: CaseTub[],
  heights: number[] | undefined,
): Case {
  const { build, sideRoom, simulation } = written;
  const car = carInputs(written, (path) => basisAt(text, path));
  return {
    name: written.name,
    title: written.title ?? written.name,
    invented: written.invented ?? false,
    file: text.placeOf([]).file,
    car,
    finishAccelerationIs: car.finishAcceleration.source === 'case' ? 'absolute' : 'relative',
    gripLostChance: written.run.gripLost?.chance ?? exactValue('run.gripLost.chance'),
    distance: written.run.distance,
    build: {
      tyre: build.tyre,
      pressure: build.pressure,
      ...(build.axleHeight === undefined ? {} : { axleHeight: build.axleHeight }),
      reserve: build.reserve ?? exactValue('build.reserve'),
    },
    tyres,
    tubs,
    ...(heights === undefined ? {} : { heights }),
    hardPoints: written.hardPoints ?? [],
    ...(sideRoom
      ? {
          sideRoom: {
            innerPanel: sideRoom.innerPanel,
            bodySide: sideRoom.bodySide,
            sidePlay: sideRoom.sidePlay ?? exactValue('sideRoom.sidePlay'),
            sideReserve: sideRoom.sideReserve ?? exactValue('sideRoom.sideReserve'),
          },
        }
      : {}),
    accept: written.accept,
    simulation: {
      draws: simulation?.draws ?? exactValue('simulation.draws'),
      cars: simulation?.cars ?? exactValue('simulation.cars'),
      seed: simulation?.seed ?? exactValue('simulation.seed'),
    },
    warnings: [],
  };
}

/**
 * Reads a case file and its catalogues: a complete case in SI, or every fault with its place, in the order of the
 * lines. It opens no file itself; `source.load` gives the text of a catalogue.
 */
export function parseCase(source: CaseSource): Read<Case> {
  const read = readCaseText(source.file, source.text);
  if (!read.ok) return read;
  const text = read.value;
  const issues: Issue[] = [];
  const report: Report = ({ path, at, problem }, severity = 'error') => {
    issues.push(issueAt(text.placeOf(path, at), problem, severity));
  };

  const first = caseSchema.safeParse(text.raw, { reportInput: true });
  const faults = first.error?.issues.flatMap(locatedProblems) ?? [];
  for (const fault of faults) report(fault);

  const tubCatalogue = openCatalogue('tubs', text.raw, source, report, readTubs);
  const tyreCatalogue = openCatalogue('tyres', text.raw, source, report, readTyres);
  const files = [source.file, ...[tubCatalogue, tyreCatalogue].flatMap((each) => (each ? [each.file] : []))];
  issues.push(...(tubCatalogue?.issues ?? []), ...(tyreCatalogue?.issues ?? []));

  const raw = first.success ? text.raw : withoutFaults(text.raw, faults);
  const written = first.success ? first.data : caseSchema.safeParse(raw).data;
  let value: Case | undefined;
  if (written && tyreCatalogue && tubCatalogue) {
    const tyres = listTyres(written, tyreCatalogue, text, report);
    if (!written.tyres.some(({ tyre }) => tyre === written.build.tyre)) {
      const names = written.tyres.map(({ tyre }) => tyre);
      const hint = didYouMean(written.build.tyre, names);
      const reason = `it must be one of the case's tyres: ${nameList(names)}`;
      report({
        path: ['build', 'tyre'],
        at: 'value',
        problem: { code: 'unknown-name', reason, ...(hint ? { hint } : {}) },
      });
    }
    const tubs = listTubs(written, tubCatalogue, tyres, report);
    value = assemble(written, text, tyres, tubs, heightsOf(written, report));
    const rest = [...constructionFindings(raw as WrittenRaw, tyres), ...findings(written, value, tyres)];
    for (const { severity, ...located } of rest) report(located, severity);
  }
  const ordered = inLineOrder(issues, files);
  if (value === undefined || ordered.some(({ severity }) => severity === 'error'))
    return { ok: false, issues: ordered };
  return { ok: true, value: { ...value, warnings: ordered }, warnings: ordered };
}
