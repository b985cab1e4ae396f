import { centralValue } from '@tubgap/uncertainty';
import type { Case, CaseTub, CaseTyre } from './case.ts';
import { DEFAULTS, tyreSpec } from './defaults.ts';
import { distanceFromAxle, outlineFault } from './hard-points.ts';
import { givenLaw, linkGeometry } from './inputs.ts';
import type { Problem } from './issue.ts';
import { uncertain } from './law-text.ts';
import { readQuantity } from './quantity.ts';
import type { WrittenCase } from './schema.ts';
import { type Located, locatedProblems, type Path } from './schema-issue.ts';
import { formatQuantity } from './units.ts';

/** A fault that no single field shows: it takes two of them, or a catalogue. */
export interface Finding extends Located {
  severity: 'error' | 'warning';
}

const inches = (value: number) => formatQuantity(value, 'length', 'in');

function finding(path: Path, code: Problem['code'], reason: string, hint?: string): Finding {
  return {
    path,
    at: 'value',
    severity: 'error',
    problem: { code, reason, ...(hint === undefined ? {} : { hint }) },
  };
}

const freeRadius = (tyre: CaseTyre) => centralValue(tyre.inputs.referenceRadius.law);
const sectionWidth = (tyre: CaseTyre) => centralValue(tyre.inputs.sectionWidth.law);

/** Pressures and the like against the range of the tyre's own construction, which the schema cannot know. */
export function constructionFindings(
  raw: WrittenRaw,
  tyres: readonly (CaseTyre & { index: number })[],
): Finding[] {
  const found: Finding[] = [];
  const pressureRow = DEFAULTS.tyre.find(({ name }) => name === 'coldPressure')!;
  for (const tyre of tyres) {
    const entry = raw.tyres[tyre.index] ?? {};
    const slick = tyre.construction === 'bias' ? 'a bias tyre' : 'a radial';
    for (const row of DEFAULTS.tyre) {
      if (entry[row.name] === undefined) continue;
      const spec = { ...tyreSpec(row, tyre.construction), label: `${row.label} of ${slick}` };
      const read = uncertain(spec).safeParse(entry[row.name], { reportInput: true });
      for (const issue of read.error?.issues ?? []) {
        for (const { path, at, problem } of locatedProblems(issue)) {
          found.push({ path: ['tyres', tyre.index, row.name, ...path], at, severity: 'error', problem });
        }
      }
    }
    const gauge = { ...tyreSpec(pressureRow, tyre.construction) };
    const pressures: [Path, unknown, string][] = [
      [['tyres', tyre.index, 'referencePressure'], entry.referencePressure, 'reference pressure'],
    ];
    if (raw.build.tyre === tyre.name)
      pressures.push([['build', 'pressure'], raw.build.pressure, 'build pressure']);
    for (const [path, value, label] of pressures) {
      const read =
        value === undefined ? undefined : readQuantity(value, { ...gauge, label: `${label} of ${slick}` });
      if (read?.ok === false) found.push({ path, at: 'value', severity: 'error', problem: read.problem });
    }
  }
  return found;
}

/** The part of the file, as YAML gave it, that is read again. */
export interface WrittenRaw {
  build: Record<string, unknown>;
  tyres: Record<string, unknown>[];
}

/** Why no tyre of the case could ever stand in this tub; undefined when all can. */
export function tubTooSmall(tub: CaseTub, tyres: readonly CaseTyre[], reserve: number): string | undefined {
  const room = tub.diameter / 2 - tub.liner;
  for (const tyre of tyres) {
    const needed = freeRadius(tyre) + reserve;
    if (room < needed) {
      const inside = `${inches(2 * room)} inside its liner`;
      return `tub ${tub.name} has ${inches(tub.diameter)}, ${inside}; tyre ${tyre.name} standing still needs more than ${inches(2 * needed)}`;
    }
    if (tub.insideWidth < sectionWidth(tyre)) {
      return `tub ${tub.name} is ${inches(tub.insideWidth)} wide inside, tyre ${tyre.name} ${inches(sectionWidth(tyre))}`;
    }
  }
  return undefined;
}

function tyreFindings(tyre: CaseTyre & { index: number }, entry: WrittenCase['tyres'][number]): Finding[] {
  const found: Finding[] = [];
  const at = (...path: Path): Path => ['tyres', tyre.index, ...path];
  const section = sectionWidth(tyre);
  const tread = centralValue(tyre.inputs.treadWidth.law);
  if (tread > section) {
    const path = givenLaw(entry, 'treadWidth') ? at('treadWidth') : at('sectionWidth');
    found.push(
      finding(
        path,
        'contradiction',
        `the tread is ${inches(tread)} wide, the section only ${inches(section)}`,
      ),
    );
  }
  if (tyre.deflection > 0.5 * freeRadius(tyre)) {
    found.push(finding(at('deflection'), 'contradiction', 'this is more than half of the free radius'));
  }
  const rim = tyre.rim;
  if (rim && rim.width > section) {
    found.push(
      finding(at('rim', 'width'), 'contradiction', `the rim is wider than the section, ${inches(section)}`),
    );
  }
  if (rim && rim.backspacing > rim.width + 2 * rim.flange) {
    const whole = inches(rim.width + 2 * rim.flange);
    found.push(finding(at('rim', 'backspacing'), 'contradiction', `the whole rim is only ${whole} wide`));
  }
  return found;
}

function hardPointFindings(the: Case): Finding[] {
  const largest = Math.max(0, ...the.tyres.map(freeRadius));
  const names = new Set<string>();
  return the.hardPoints.flatMap((hardPoint, index) => {
    const found: Finding[] = [];
    const at = (...path: Path): Path => ['hardPoints', index, ...path];
    if (names.has(hardPoint.name))
      found.push(finding(at('name'), 'duplicate-name', 'two hard points have this name'));
    names.add(hardPoint.name);
    const fault = hardPoint.shape === 'polygon' ? outlineFault(hardPoint.points) : undefined;
    if (fault !== undefined) {
      const hint = 'Give a bent shape as two or more convex ones';
      found.push(
        finding(
          at('points'),
          'contradiction',
          `${fault}; corners must form a convex outline, in order`,
          hint,
        ),
      );
    } else if (distanceFromAxle(hardPoint) < largest) {
      const reason = `it is ${inches(distanceFromAxle(hardPoint))} from the axle, inside the standing tyre of radius ${inches(largest)}`;
      found.push(
        finding(at(), 'contradiction', reason, 'Measure ahead of and above the axle, the car at rest'),
      );
    }
    return found;
  });
}

function linkFindings(written: WrittenCase, the: Case): Finding[] {
  const centre = written.suspension?.instantCentre;
  if (centre === undefined) return [];
  const path: Path = ['suspension', 'instantCentre'];
  const geometry = linkGeometry(written);
  if (geometry === undefined) {
    return [
      finding(path, 'missing', 'it needs build.axleHeight, the height of the axle above the track at rest'),
    ];
  }
  const limits = [
    ['antiSquat', 0.1],
    ['axlePathSlope', 0.03],
  ] as const;
  return limits.flatMap(([name, most]): Finding[] => {
    const given = centralValue(the.car[name].law);
    if (Math.abs(given - geometry[name]) <= most) return [];
    const reason = `it gives ${name} ${geometry[name].toFixed(2)}, the case says ${given.toFixed(2)}; the case's number is used`;
    return [{ ...finding(path, 'contradiction', reason), severity: 'warning' }];
  });
}

function heightFindings(the: Case): Finding[] {
  const tallest = Math.max(0, ...the.tyres.map((tyre) => 2 * freeRadius(tyre) - tyre.deflection));
  const lowest = the.heights?.[0];
  if (lowest === undefined || lowest > tallest) return [];
  const reason = `a top height of ${inches(lowest)} is below the top of the standing tyre, about ${inches(tallest)} above the track`;
  return [finding(['heights'], 'contradiction', reason)];
}

function buildFindings(the: Case): Finding[] {
  const tyre = the.tyres.find(({ name }) => name === the.build.tyre);
  const { axleHeight } = the.build;
  if (tyre === undefined || axleHeight === undefined) return [];
  const free = freeRadius(tyre);
  if (axleHeight < free && axleHeight > 0.75 * free) return [];
  const reason = `the axle must be lower than the free radius of tyre ${tyre.name}, ${inches(free)}, and above three quarters of it`;
  return [finding(['build', 'axleHeight'], 'contradiction', reason)];
}

function limitFindings(the: Case): Finding[] {
  const found: Finding[] = [];
  if (the.accept.seasonRisk < the.accept.runRisk) {
    found.push(
      finding(['accept', 'seasonRisk'], 'contradiction', 'a season cannot be safer than one of its runs'),
    );
  }
  if (the.simulation.cars > the.simulation.draws) {
    const reason = `${the.simulation.draws} draws cannot be shared among ${the.simulation.cars} cars`;
    found.push(finding(['simulation', 'cars'], 'contradiction', reason));
  }
  return found;
}

/** Physical nonsense and contradictions in a case whose every field is sound by itself. */
export function findings(
  written: WrittenCase,
  the: Case,
  tyres: readonly (CaseTyre & { index: number })[],
): Finding[] {
  const downforceArea = givenLaw(written, 'aero.downforceArea');
  const { rearDownforce } = written.aero;
  const found: Finding[] = [];
  if (downforceArea === undefined && rearDownforce === undefined) {
    const hint = 'A car without a wing says downforceArea: 0 m2';
    found.push(finding(['aero'], 'missing', 'downforceArea is missing, or rearDownforce in its place', hint));
  }
  if (downforceArea !== undefined && rearDownforce !== undefined) {
    found.push(
      finding(
        ['aero', 'rearDownforce'],
        'contradiction',
        'downforceArea is given as well; keep one of the two',
      ),
    );
  }
  written.tyres.forEach((entry, index) => {
    if (entry.rollout && givenLaw(entry, 'referenceRadius')) {
      found.push(
        finding(['tyres', index, 'rollout'], 'contradiction', 'referenceRadius is given as well; keep one'),
      );
    }
  });
  return [
    ...found,
    ...tyres.flatMap((tyre) => tyreFindings(tyre, written.tyres[tyre.index]!)),
    ...hardPointFindings(the),
    ...linkFindings(written, the),
    ...heightFindings(the),
    ...buildFindings(the),
    ...limitFindings(the),
  ];
}
