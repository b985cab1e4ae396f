import { CONSTRUCTIONS } from '@tubgap/core';
import { z } from 'zod';
import { LOG_COLUMNS } from './case.ts';
import { nameList } from './nearest-name.ts';
import { CASE_UNITS } from './parts/case-units.ts';
import { aero, run, suspension, tyreClass } from './schema-car.ts';
import { exact, exactOrLaw, inputsUnder, name, title, tyreInputs } from './schema-fields.ts';
import { eitherForm, section } from './schema-parts.ts';

const CONDITIONS = ['new', 'run-in', 'worn'] as const;

const tyre = section({
  tyre: name("Name in the tyres' catalogue, or the size printed on the tyre: 315/60R15, 33.5x17.0-16."),
  construction: z
    .enum(CONSTRUCTIONS)
    .optional()
    .meta({
      description: `How the tyre is built: ${CONSTRUCTIONS.join(' or ')}. Needed where its size stands in for a row of the catalogue.`,
    }),
  runsPerSeason: exact('tyres[].runsPerSeason').optional(),
  condition: z
    .enum(CONDITIONS)
    .optional()
    .meta({ description: `State of the tyre that was measured: ${nameList(CONDITIONS)}. Default: run-in.` }),
  rollout: exactOrLaw('tyres[].rollout').optional(),
  ...tyreInputs(),
  referencePressure: exact('tyres[].referencePressure').optional(),
  deflection: exact('tyres[].deflection').optional(),
  deflectionLoad: exact('tyres[].deflectionLoad').optional(),
  rim: section({
    width: exact('tyres[].rim.width').optional(),
    backspacing: exact('tyres[].rim.backspacing'),
    flange: exact('tyres[].rim.flange').optional(),
  }).optional(),
  class: tyreClass.optional(),
});

const notch = section({
  angle: exact('tubs[].notches[].angle'),
  depth: exact('tubs[].notches[].depth'),
});

const placedTub = section({
  tub: name("Name in the tubs' catalogue."),
  centreForward: exact('tubs[].centreForward').optional(),
  notches: z.array(notch).max(8).optional().meta({
    description:
      'Notches cut into this tub, each closed by a flat panel square to the radius at its angle. They move with the tub.',
  }),
});

const tubEntry = eitherForm(
  name("Name in the tubs' catalogue."),
  placedTub,
  (raw) => typeof raw !== 'object' || raw === null,
);

const existing = section({
  tub: name(
    "Name in the tubs' catalogue. Left out: insideDiameter and insideWidth say what it is.",
  ).optional(),
  insideDiameter: exact('tubs[].insideDiameter').optional(),
  insideWidth: exact('tubs[].insideWidth').optional(),
  liner: exact('tubs[].liner').optional(),
  arcExtent: exact('tubs[].arcExtent').optional(),
  legLength: exact('tubs[].legLength').optional(),
  topHeight: exact('build.existing.topHeight'),
  centreForward: exact('tubs[].centreForward').optional(),
});

const point = section({ ahead: exact('hardPoints[].ahead'), above: exact('hardPoints[].above') });

const hardPoint = z.discriminatedUnion('shape', [
  section({
    name: name('What it is, in a few words.'),
    shape: z.literal('circle'),
    ahead: exact('hardPoints[].ahead'),
    above: exact('hardPoints[].above'),
    radius: exact('hardPoints[].radius'),
  }),
  section({
    name: name('What it is, in a few words.'),
    shape: z.literal('polygon'),
    points: z
      .array(point)
      .min(3)
      .max(40)
      .meta({ description: 'Corners in order; the outline must be convex.' }),
  }),
]);

const heights = eitherForm(
  z.array(exact('heights[]')).min(1).max(500),
  section({ from: exact('heights.from'), to: exact('heights.to'), step: exact('heights.step') }),
  (raw) => Array.isArray(raw) || typeof raw !== 'object',
);

const tableFile = (what: string) =>
  z
    .string()
    .min(1)
    .max(200)
    .meta({ description: `Table of ${what}, a CSV file in this file's folder or below it.` });

const logColumn = eitherForm(
  name('Head of the column, with its unit in it, as "GPS speed [mph]".'),
  section({ head: name('Head of the column.'), unit: name('Its unit, such as mph, rpm, psi, in or s.') }),
  (raw) => typeof raw !== 'object' || raw === null,
);

const runLog = section({
  tyre: name('The tyre that was on the car. Default: the build tyre.').optional(),
  axleRatio: exact('runLog.axleRatio'),
  travelRatio: exact('runLog.travelRatio').optional(),
  columns: section(
    Object.fromEntries(LOG_COLUMNS.map((column) => [column, logColumn.optional()])) as Record<
      (typeof LOG_COLUMNS)[number],
      z.ZodOptional<typeof logColumn>
    >,
  ).optional(),
});

/** The whole file: groups, fields, kinds and ranges. What no single field can tell is checked afterwards. */
export const caseSchema = section({
  name: z
    .string()
    .regex(/^[a-z0-9][a-z0-9-]{0,59}$/)
    .meta({ description: 'Short name for files and folders: small letters, digits, hyphens.' }),
  title: title('What it is, for people. Default: the name.').optional(),
  invented: z.boolean().optional().meta({ description: 'True when the car is made up. Default: false.' }),
  units: z.enum(CASE_UNITS).optional().meta({
    description:
      'In which papers and answers speak: inch (sixteenths of an inch) or metric (whole millimetres). Default: as most lengths of the case are written.',
  }),
  catalogues: section({
    tubs: tableFile('tubs'),
    tyres: tableFile('tyres')
      .optional()
      .meta({ description: 'Left out where every tyre of the case is a size as printed on one.' }),
  }),
  car: section(inputsUnder('car')),
  aero: aero.optional(),
  suspension: suspension.optional(),
  build: section({
    tyre: name('The tyre that stood on the car when the place of the tub was measured.'),
    pressure: exact('build.pressure'),
    axleHeight: exact('build.axleHeight').optional(),
    reserve: exact('build.reserve').optional(),
    existing: existing.optional().meta({
      description:
        'The tub that is in the car already: judged where it stands before anything is said of a new one.',
    }),
    ...inputsUnder('build'),
  }),
  run,
  weather: section(inputsUnder('weather')).optional(),
  tyres: z.array(tyre).min(1).max(20).meta({ description: 'The tyres that this car runs.' }),
  tubs: eitherForm(z.literal('all'), z.array(tubEntry).min(1).max(200), (raw) => raw === 'all').meta({
    description:
      'Tubs to judge: "all" of the catalogue, or a list of names, each with a place of its own if need be.',
  }),
  tubCentreForward: exact('tubCentreForward').optional(),
  heights: heights
    .optional()
    .meta({ description: 'Top heights to judge. Left out: the height that meets accept is searched.' }),
  hardPoints: z
    .array(hardPoint)
    .max(40)
    .optional()
    .meta({ description: 'What else the tyre may hit, fixed to the body, seen from the side.' }),
  sideRoom: section({
    innerPanel: exact('sideRoom.innerPanel'),
    bodySide: exact('sideRoom.bodySide'),
    sidePlay: exact('sideRoom.sidePlay').optional(),
    sideReserve: exact('sideRoom.sideReserve').optional(),
  }).optional(),
  envelope: section({
    highestTop: exact('envelope.highestTop').optional(),
    lowestLeg: exact('envelope.lowestLeg').optional(),
    furthestAhead: exact('envelope.furthestAhead').optional(),
    furthestBehind: exact('envelope.furthestBehind').optional(),
  }).optional(),
  accept: section({
    runRisk: exact('accept.runRisk').optional(),
    seasonRisk: exact('accept.seasonRisk').optional(),
  }).optional(),
  learned: eitherForm(
    z.string().min(1).max(200),
    z.record(z.string(), z.unknown()),
    (raw) => typeof raw !== 'object' || raw === null,
  )
    .optional()
    .meta({
      description:
        "What measurements of this car taught: a file in this file's folder or below it, written by tubgap learn, or what such a file holds, itself.",
    }),
  builder: z.string().trim().min(1).max(80).optional().meta({
    description:
      "Who sets the tub out, as the shop's book calls its builder: what the book has learned of how that builder's tubs stand is then taken over.",
  }),
  book: z.string().min(1).max(200).optional().meta({
    description:
      "What other cars of the shop taught: a file in this file's folder or below it, written by tubgap book learn.",
  }),
  runLog: runLog.optional().meta({ description: 'How run logs of this car are to be read.' }),
  simulation: section({
    draws: exact('simulation.draws').optional(),
    cars: exact('simulation.cars').optional(),
    seed: exact('simulation.seed').optional(),
  }).optional(),
});

/** A case file after reading: SI numbers and laws, names as written. */
export type WrittenCase = z.output<typeof caseSchema>;
export type WrittenTyre = z.output<typeof tyre>;
