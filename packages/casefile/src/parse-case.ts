import type { Case, Envelope } from './case.ts';
import { type Catalogue, type CatalogueTyre, readTubs, readTyres } from './catalogue/catalogue.ts';
import { folderOf, lastPart, openCatalogue } from './catalogue/catalogue-file.ts';
import { type Issue, inLineOrder, issueAt, type Read } from './issue.ts';
import { withTaught } from './learned/taught-case.ts';
import { carInputs } from './parts/car.ts';
import { caseUnits } from './parts/case-units.ts';
import { tyreNamed } from './parts/class-name.ts';
import { constructionFaults, type WrittenNumbers } from './parts/construction-range.ts';
import { contradictions } from './parts/contradictions.ts';
import { existingTub } from './parts/existing-tub.ts';
import { exactDefault } from './parts/input.ts';
import { type Ledger, openLedger } from './parts/ledger.ts';
import { runLogOf } from './parts/run-log.ts';
import { listHeights, listTubs, listTyres, type Report } from './parts/selection.ts';
import { overlapsFault, readablePart } from './readable-part.ts';
import { caseSchema, type WrittenCase } from './schema.ts';
import { faultsOf, toldOnce } from './schema-issue.ts';
import { readCaseText } from './text/case-text.ts';
import { applySettings, type Setting } from './text/setting.ts';

/** What a case has that names no catalogue of tyres: each of its tyres is a size as printed. */
const NO_TYRES: Catalogue<CatalogueTyre> = { file: '', rows: [], issues: [] };

/** A case file's text, what to call it, and how to get at the catalogues beside it. */
export interface CaseSource {
  file: string;
  text: string;
  /** What the case's own values call the file that they come from; left out: its own name. Faults name `file`. */
  called?: string;
  /** Text of a file in the case's folder or below it; undefined when there is none. */
  load: (relativePath: string) => string | undefined;
  /** Values in place of the file's, judged as if they stood in it. */
  set?: readonly Setting[];
}

type Parts = Pick<Case, 'units' | 'car' | 'tyres' | 'tubs'> & {
  existing: Case['existing'] | undefined;
  heights: number[] | undefined;
};

/** The limits that the case gives, and no others. */
function envelopeOf({ envelope }: WrittenCase): Envelope {
  const given = Object.entries(envelope ?? {}).filter(([, limit]) => limit !== undefined);
  return Object.fromEntries(given) satisfies Envelope;
}

/** The issues of a case with its files named from its folder, and the case file itself as it is to be called. */
function from(file: string, called: string, issues: readonly Issue[]): Issue[] {
  return issues.map((issue) => ({
    ...issue,
    file: issue.file === file ? called : issue.file.replace(folderOf(file), ''),
  }));
}

/** The case as read, with every gap filled from the table of defaults. */
function complete(
  written: WrittenCase,
  file: string,
  ledger: Ledger,
  { units, car, tyres, tubs, existing, heights }: Parts,
): Case {
  const { accept, build, run, sideRoom, simulation } = written;
  const nameOf = (tyre: string): string => tyreNamed(tyres, tyre) ?? tyre;
  return {
    name: written.name,
    title: written.title ?? written.name,
    invented: written.invented ?? false,
    file,
    units,
    car,
    finishAccelerationIs: car.finishAcceleration.source === 'case' ? 'absolute' : 'relative',
    gripLostChance: run.gripLost?.chance ?? ledger.assume('run.gripLost.chance'),
    distance: run.distance ?? ledger.assume('run.distance'),
    build: {
      tyre: nameOf(build.tyre),
      pressure: build.pressure,
      ...(build.axleHeight === undefined ? {} : { axleHeight: build.axleHeight }),
      reserve: build.reserve ?? ledger.assume('build.reserve'),
    },
    tyres,
    tubs,
    ...(existing === undefined ? {} : { existing }),
    ...(heights === undefined ? {} : { heights }),
    hardPoints: written.hardPoints ?? [],
    ...(sideRoom && {
      sideRoom: {
        innerPanel: sideRoom.innerPanel,
        bodySide: sideRoom.bodySide,
        sidePlay: sideRoom.sidePlay ?? ledger.assume('sideRoom.sidePlay'),
        sideReserve: sideRoom.sideReserve ?? ledger.assume('sideRoom.sideReserve'),
      },
    }),
    envelope: envelopeOf(written),
    accept: {
      runRisk: accept?.runRisk ?? ledger.assume('accept.runRisk'),
      seasonRisk: accept?.seasonRisk ?? ledger.assume('accept.seasonRisk'),
    },
    simulation: {
      draws: simulation?.draws ?? exactDefault('simulation.draws'),
      cars: simulation?.cars ?? exactDefault('simulation.cars'),
      seed: simulation?.seed ?? exactDefault('simulation.seed'),
    },
    ...(written.runLog && { runLog: runLogOf(written.runLog, build.tyre, nameOf) }),
    assumed: ledger.assumed(),
    warnings: [],
  };
}

/**
 * Reads a case file and its catalogues: a complete case in SI, or every fault with its place, in the order of the
 * lines. It opens no file itself, and bad input never throws.
 */
export function parseCase(source: CaseSource): Read<Case> {
  const { file, called = lastPart(file), load, set = [] } = source;
  const read = readCaseText(file, source.text);
  if (!read.ok) return read;
  const { text, moves } = applySettings(read.value, set);
  const { raw, placeOf } = text;
  const issues = [...text.issues];
  const report: Report = (path, problem, severity = 'error', at = 'value') => {
    issues.push(issueAt(placeOf(path, at), problem, severity));
  };
  const ledger = openLedger((path) => {
    const place = placeOf(path);
    return place.line === undefined ? `${place.file} ${place.path}` : `${called}:${place.line}`;
  }, moves);

  const first = caseSchema.safeParse(raw, { reportInput: true, jitless: true });
  const faults = first.error?.issues.flatMap(faultsOf) ?? [];
  for (const { path, problem, at } of toldOnce(faults)) report(path, problem, 'error', at);

  const named = (raw as { catalogues?: { tubs?: unknown; tyres?: unknown } } | null)?.catalogues;
  const tubs = openCatalogue(named?.tubs, file, load, readTubs);
  const needsNoTyres = typeof named === 'object' && named !== null && named.tyres === undefined;
  const tyres = needsNoTyres ? NO_TYRES : openCatalogue(named?.tyres, file, load, readTyres);
  const files = [file];
  for (const [which, catalogue] of Object.entries({ tubs, tyres })) {
    if (catalogue === undefined) continue;
    if ('problem' in catalogue) report(['catalogues', which], catalogue.problem);
    else {
      issues.push(...catalogue.issues);
      if (catalogue !== NO_TYRES) files.push(catalogue.file);
    }
  }

  const sound = first.success ? { raw, written: first.data } : readablePart(raw, faults);
  let value: Case | undefined;
  if (sound && tubs && tyres && 'rows' in tubs && 'rows' in tyres) {
    const { written } = sound;
    const judge: Report = (path, ...rest) => {
      if (!overlapsFault(path, faults)) report(path, ...rest);
    };
    const car = carInputs(written, ledger);
    const listed = listTyres(written, tyres, car, ledger, judge);
    const listedTubs = listTubs(written, tubs, listed, ledger, judge);
    value = complete(written, called, ledger, {
      units: caseUnits(raw, written.units),
      car,
      tyres: listed.map(({ index: _, ...tyre }) => tyre),
      tubs: listedTubs,
      existing: existingTub(written, tubs, listedTubs, ledger, judge),
      heights: listHeights(written, judge),
    });
    const numbers = sound.raw as WrittenNumbers;
    const outside = listed.flatMap((tyre) => constructionFaults(numbers, tyre, tyre.index));
    for (const { path, problem, at } of outside) judge(path, problem, 'error', at);
    faults.push(...outside);
    for (const { path, problem, severity, at } of contradictions(written, value, listed)) {
      judge(path, problem, severity, at);
    }
    if (value.runLog && !value.tyres.some(({ name }) => name === value?.runLog?.tyre)) {
      judge(['runLog', 'tyre'], { code: 'unknown-name', reason: "it must be one of the case's tyres" });
    }
    issues.push(...ledger.moveFaults());
    if (!issues.some(({ severity }) => severity === 'error')) {
      const taught = withTaught(value, written, load);
      if ('problem' in taught) judge([taught.field], taught.problem);
      else value = taught;
    }
  }
  const ordered = inLineOrder(issues, files);
  const sure = value !== undefined && ordered.every(({ severity }) => severity === 'warning');
  return sure && value
    ? { ok: true, value: { ...value, warnings: from(file, called, ordered) }, warnings: ordered }
    : { ok: false, issues: ordered };
}
