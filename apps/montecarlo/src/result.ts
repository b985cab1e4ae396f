import type { Case, CaseTyre, Setting, UncertainInput } from '@tubgap/casefile';
import { issueText } from '@tubgap/casefile';
import { type DecidedResult, RESULT_VERSION, type Result } from '@tubgap/results';
import {
  type Assessment,
  type CaseSetup,
  type Decision,
  GAP_ANGLES,
  middleValue,
  type Tally,
  tyreSides,
} from '@tubgap/simulation';
import { DEGREE } from '@tubgap/units';

const inputRow = (tyre: string, input: UncertainInput): Result['inputs'][number] => ({
  tyre,
  path: input.path,
  label: input.label,
  group: input.group,
  each: input.each,
  source: input.source,
  basis: input.basis,
  shown: input.shown,
  kind: input.kind,
  middle: middleValue(input),
});

/** What is another in a tyre's class than in the case, inputs apart. */
function inClass({ name, tyre, own }: CaseTyre): Pick<Result['tyres'][number], 'inClass'> {
  const { distance, gripLostChance, reserve, runRisk: acceptedRunRisk } = own ?? {};
  const all = { ...(tyre === name ? {} : { tyre }), distance, gripLostChance, reserve, acceptedRunRisk };
  const told = Object.entries(all).filter(([, value]) => value !== undefined);
  return told.length === 0 ? {} : { inClass: Object.fromEntries(told) };
}

/** Every input of the tyres and their classes; what is told of a tyre in its first class is not told again. */
function tyreInputs({ tyres }: Case): Result['inputs'] {
  const told = new Set<string>();
  return tyres.flatMap((tyre) =>
    [...Object.values(tyre.car ?? {}), ...Object.values(tyre.inputs)].flatMap((input) => {
      if (told.has(input.path)) return [];
      told.add(input.path);
      return [inputRow(tyre.name, input)];
    }),
  );
}

const tallyRow = (tally: Tally): Result['seasons'] => ({
  events: tally.events,
  hardTouches: tally.hardTouches,
  tubs: tally.tubs.map((tub) => ({
    lowest: tub.lowest,
    steps: Array.from(tub.steps),
    contactSteps: Array.from(tub.contactSteps),
    legTouches: tub.legTouches,
  })),
});

const gapsOf = ({ pickGaps }: Decision): Result['pickGaps'] =>
  pickGaps.map((tubs) => tubs.map((gap) => gap ?? null));

const outlinesOf = ({ outlines: { gaps, ...outlines }, shownRuns }: Assessment): Result['outlines'] => ({
  ...outlines,
  pick: gaps === undefined ? null : { shown: shownRuns, gaps },
});

/** The decision, as the results folder keeps it. */
export function decidedResult(
  source: Case,
  settings: readonly Setting[],
  setup: CaseSetup,
  found: Decision,
  existing: Result['existing'],
  madeBy: string,
): DecidedResult {
  return {
    format: 'tubgap result',
    version: RESULT_VERSION,
    madeBy,
    case: {
      name: source.name,
      title: source.title,
      invented: source.invented,
      file: source.file,
      ...(source.units === 'mm' && { units: source.units }),
      settings: settings.map(({ path, value }) => ({ path, value })),
    },
    ...(source.book && { book: source.book }),
    seed: source.simulation.seed,
    draws: found.runs.all.events,
    drawsAllowed: source.simulation.draws,
    cars: source.simulation.cars,
    ...(existing === undefined ? {} : { existing }),
    accept: source.accept,
    build: {
      tyre: source.build.tyre,
      pressure: source.build.pressure,
      reserve: source.build.reserve,
      axleHeight: setup.centralAxleHeight,
      axleHeightMeasured: source.build.axleHeight !== undefined,
      staticGapAngles: GAP_ANGLES.map((degrees) => degrees * DEGREE),
    },
    tyres: source.tyres.map((tyre) => ({
      name: tyre.name,
      construction: tyre.construction,
      condition: tyre.condition,
      runsPerSeason: tyre.runsPerSeason,
      ...inClass(tyre),
      ...tyreSides(source, tyre),
      ...(tyre.rim && { backspacing: tyre.rim.backspacing }),
      ...(tyre.listed && { listed: tyre.listed }),
    })),
    ...(source.sideRoom && {
      across: { innerPanel: source.sideRoom.innerPanel, bodySide: source.sideRoom.bodySide },
    }),
    tubs: source.tubs.map((tub, t) => ({
      name: tub.name,
      diameter: tub.diameter,
      radius: setup.clearance.tubs[t]!.radius,
      insideWidth: tub.insideWidth,
      centreForward: tub.centreForward,
      halfExtent: setup.clearance.tubs[t]!.halfExtent,
      legLength: tub.legLength,
      notches: tub.notches,
      liner: tub.liner,
      skinThickness: tub.skinThickness,
      arealDensity: tub.arealDensity,
      ...(tub.listed && { listed: tub.listed }),
      ...(tub.inStock !== undefined && { inStock: tub.inStock }),
    })),
    envelope: source.envelope,
    hardPoints: source.hardPoints,
    track: { distance: source.distance, gripLostChance: source.gripLostChance },
    inputs: [
      // The toss that decides whether grip is lost is a chance at work, not something to know of the car.
      ...Object.values(source.car)
        .filter((input) => input !== source.car.gripLostToss)
        .map((input) => inputRow('', input)),
      ...tyreInputs(source),
    ],
    assumed: source.assumed,
    runs: { tyres: found.runs.tyres.map(tallyRow), all: tallyRow(found.runs.all) },
    seasons: tallyRow(found.seasons),
    heights: found.heights,
    risks: found.risks,
    contactRisks: found.contactRisks,
    picks: found.picks,
    bestPlaces: found.bestPlaces.map((search) => search ?? null),
    pickGaps: gapsOf(found),
    chosen: found.chosen ?? null,
    passedOver: found.passedOver,
    nearest: found.nearest ?? null,
    tolerances: found.tolerances ?? null,
    asSetOut: found.asSetOut ?? null,
    cautions: found.cautions,
    warnings: source.warnings.map(issueText),
  };
}

/** All that was found, as the results folder keeps it. */
export function resultOf(decided: DecidedResult, found: Assessment): Result {
  return {
    ...decided,
    pickGaps: gapsOf(found),
    hardPointFigures: found.hardPoints,
    gaps: found.gaps.map((tubs) => tubs.map((list) => list.map((gap) => gap ?? null))),
    shares: found.shares,
    outlines: outlinesOf(found),
    ...(found.drivers === undefined
      ? {}
      : {
          drivers: found.drivers.drivers,
          driverGroups: found.drivers.groups,
          measureNext: found.drivers.measureNext,
        }),
    ...(found.changes === undefined ? {} : { changes: found.changes }),
    ...(found.notches === undefined ? {} : { notches: found.notches }),
    ...(found.carSpread === undefined ? {} : { carSpread: found.carSpread }),
    bounds: found.bounds,
  };
}
