import { z } from 'zod';
import {
  anyTyreSpec,
  carSpec,
  DEFAULTS,
  describeCarInput,
  describeField,
  describeTyreInput,
  exactField,
  fieldSpec,
} from './defaults.ts';
import { uncertain } from './law.ts';
import { nameList } from './nearest-name.ts';
import { misplaced, type QuantitySpec, type Reading, readQuantity } from './quantity.ts';
import { definition, eitherForm, leaf, section } from './schema-parts.ts';

function readWhole(raw: unknown, spec: QuantitySpec): Reading<number> {
  const read = readQuantity(raw, spec);
  if (!read.ok || Number.isInteger(read.value)) return read;
  const reason = `${spec.label} must be a whole number`;
  return { ok: false, problem: { code: 'not-a-number', reason } };
}

/** An exact number of the table. */
function exact(path: string) {
  const row = exactField(path);
  const spec = fieldSpec(row);
  return leaf((raw) => (row.whole ? readWhole(raw, spec) : readQuantity(raw, spec))).meta({
    description: describeField(row),
    $ref: definition(row.kind, false),
  });
}

/** An exact number of the table that may be given with a law. */
function exactOrLaw(path: string) {
  const row = exactField(path);
  return uncertain({ ...fieldSpec(row), each: 'car' }).meta({
    description: describeField(row),
    $ref: definition(row.kind, true),
  });
}

/** Every input of the table that stands directly under a section of the file. */
function inputsUnder(place: string) {
  const rows = DEFAULTS.car.filter(({ path }) => path.slice(0, path.lastIndexOf('.')) === place);
  return Object.fromEntries(
    rows.map((row) => {
      const read = uncertain(carSpec(row)).meta({
        description: describeCarInput(row),
        $ref: definition(row.kind, true),
      });
      return [row.path.slice(place.length + 1), given.has(row.path) ? read : read.optional()];
    }),
  );
}

/** Inputs without a prior; of rear downforce there are two forms, so the case is asked later. */
const given = new Set(DEFAULTS.car.filter((row) => row.prior.law === undefined).map((row) => row.path));
given.delete('run.finishAcceleration');
given.delete('aero.downforceArea');

const tyreInputs = () =>
  Object.fromEntries(
    DEFAULTS.tyre.map((row) => {
      const meta = { description: describeTyreInput(row), $ref: definition(row.kind, true) };
      return [row.name, uncertain(anyTyreSpec(row)).meta(meta).optional()];
    }),
  );

/** A name of the shop's own: text, or a number that serves as one. */
const name = (description: string) =>
  leaf((raw): Reading<string> => {
    const text = typeof raw === 'string' || typeof raw === 'number' ? String(raw).trim() : '';
    if (text !== '' && text.length <= 80) return { ok: true, value: text };
    const found = raw === undefined ? 'this is missing' : misplaced(raw);
    const code = raw === undefined ? 'missing' : 'wrong-type';
    return { ok: false, problem: { code, reason: `${found}; expected a name of 1 to 80 letters` } };
  }).meta({ description, type: ['string', 'number'] });

const CONDITIONS = ['new', 'run-in', 'worn'] as const;

const tyre = section({
  tyre: name("Name in the tyres' catalogue."),
  runsPerSeason: exact('tyres[].runsPerSeason'),
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
});

const placedTub = section({
  tub: name("Name in the tubs' catalogue."),
  centreForward: exact('tubs[].centreForward').optional(),
});

const tubEntry = eitherForm(
  name("Name in the tubs' catalogue."),
  placedTub,
  (raw) => typeof raw !== 'object' || raw === null,
);

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

/** The whole file: groups, fields, kinds and ranges. What no single field can tell is checked afterwards. */
export const caseSchema = section({
  name: z
    .string()
    .regex(/^[a-z0-9][a-z0-9-]{0,59}$/)
    .meta({ description: 'Short name for files and folders: small letters, digits, hyphens.' }),
  title: z.string().max(200).optional().meta({ description: 'What it is, for people. Default: the name.' }),
  invented: z.boolean().optional().meta({ description: 'True when the car is made up. Default: false.' }),
  catalogues: section({ tubs: tableFile('tubs'), tyres: tableFile('tyres') }),
  car: section(inputsUnder('car')),
  aero: section({
    ...inputsUnder('aero'),
    rearDownforce: section({
      force: exactOrLaw('aero.rearDownforce.force'),
      at: exact('aero.rearDownforce.at'),
      airDensity: exact('aero.rearDownforce.airDensity').optional(),
    }).optional(),
  }),
  suspension: section({
    ...inputsUnder('suspension'),
    instantCentre: section({
      ahead: exact('suspension.instantCentre.ahead'),
      height: exact('suspension.instantCentre.height'),
    }).optional(),
    antiRollBar: z.boolean().optional().meta({
      description:
        'Whether the rear axle has an anti-roll bar; sets the default of torqueRoll. Default: false.',
    }),
  }).optional(),
  build: section({
    tyre: name('The tyre that stood on the car when the place of the tub was measured.'),
    pressure: exact('build.pressure'),
    axleHeight: exact('build.axleHeight').optional(),
    reserve: exact('build.reserve').optional(),
    ...inputsUnder('build'),
  }),
  run: section({
    distance: exact('run.distance'),
    ...inputsUnder('run'),
    gripLost: section({
      chance: exact('run.gripLost.chance').optional(),
      ...inputsUnder('run.gripLost'),
    }).optional(),
  }),
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
  accept: section({ runRisk: exact('accept.runRisk'), seasonRisk: exact('accept.seasonRisk') }),
  simulation: section({
    draws: exact('simulation.draws').optional(),
    cars: exact('simulation.cars').optional(),
    seed: exact('simulation.seed').optional(),
  }).optional(),
});

/** A case file after reading: SI numbers and laws, names as written. */
export type WrittenCase = z.output<typeof caseSchema>;
export type WrittenTyre = z.output<typeof tyre>;
