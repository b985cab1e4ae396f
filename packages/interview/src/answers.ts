import {
  type Fault,
  faultsOf,
  leaf,
  markingProblem,
  type Problem,
  type Reading,
  readAt,
  readTyreMarking,
  section,
  type TyreMarking,
} from '@tubgap/casefile';
import { z } from 'zod';
import { KINDS_OF_CAR } from './kind-ranges.ts';
import { PARACHUTES, TYRE_BUILDS, WINGS } from './kinds-of-car.ts';
import { CONSTRUCTION_OF } from './tyre-priors.ts';

/** A quantity as it was told, and in SI. */
export interface Told {
  text: string;
  value: number;
}

/** Whether nothing is told: null, an empty field, or a group of such. */
const isNothing = (raw: unknown): boolean =>
  raw === null ||
  raw === undefined ||
  (typeof raw === 'string' && raw.trim() === '') ||
  (typeof raw === 'object' && Object.values(raw).every(isNothing));

/** The answer "don't know" is nothing told. */
const mayBeUnknown = <Schema extends z.ZodType>(schema: Schema) =>
  z.preprocess((raw) => (isNothing(raw) ? undefined : raw), schema.optional());

const as = (text: unknown, read: Reading<number>): Reading<Told> =>
  read.ok ? { ok: true, value: { text: String(text).trim(), value: read.value } } : read;

/** A quantity of the kind and range that the case file has at a place. */
const at = (path: string) => mayBeUnknown(leaf((raw) => as(raw, readAt(path, raw))));

const LENGTHS: Readonly<Record<string, string>> = {
  eighth: '660 ft',
  '1/8': '660 ft',
  '1/8 mile': '660 ft',
  'thousand foot': '1000 ft',
  quarter: '1320 ft',
  '1/4': '1320 ft',
  '1/4 mile': '1320 ft',
};

const distance = mayBeUnknown(
  leaf((raw) => {
    const text = LENGTHS[String(raw).trim().toLowerCase()] ?? raw;
    return as(text, readAt('run.distance', text));
  }),
);

/** A time of a slip, with or without s behind it: seconds alone are told. */
function seconds(label: string, least: number, most: number) {
  return mayBeUnknown(
    leaf((raw): Reading<Told> => {
      const number = /^(\d+\.?\d*|\.\d+)\s*(?:s|sec|seconds?)?$/.exec(String(raw).trim())?.[1];
      const value = Number(number ?? Number.NaN);
      if (value >= least && value <= most) return { ok: true, value: { text: `${number} s`, value } };
      const allowed = `${least} to ${most} s`;
      const reason = `${label} must be ${allowed}`;
      return { ok: false, problem: { code: number ? 'out-of-range' : 'not-a-number', reason, allowed } };
    }),
  );
}

const size = mayBeUnknown(
  leaf((raw): Reading<TyreMarking> => {
    const read = readTyreMarking(String(raw));
    return read.ok ? read : { ok: false, problem: markingProblem(read.fault) };
  }),
);

/** 60-foot times, s: of launches that a case file takes, 0.3 to 4.8 g in the mean. */
const SIXTY_FOOT = [0.78, 3] as const;

/** What is told of one tyre; speed and times where it runs in a class of its own. */
const tyre = section({
  size,
  rollout: at('tyres[].rollout'),
  widthIs: mayBeUnknown(z.enum(['tread', 'section'])),
  build: z.enum(TYRE_BUILDS),
  rimWidth: at('tyres[].rim.width'),
  pressure: at('tyres[].coldPressure'),
  runsPerSeason: at('tyres[].runsPerSeason'),
  speed: at('run.trapSpeed'),
  sixtyFoot: seconds('a 60-foot time', ...SIXTY_FOOT),
  elapsed: seconds('an elapsed time', 2, 30),
}).transform((its, context) => {
  const say = (path: string, problem: Problem) =>
    context.addIssue({ code: 'custom', params: { problem }, path: [path], input: undefined });
  if (its.size === undefined && its.rollout === undefined) {
    const hint = 'Write it as on the sidewall, 33.5x17.0-16 or 315/60R15, or tape round it: 105 7/8 in';
    say('size', { code: 'missing', reason: "the tyre's size or its rollout is needed", hint });
    return z.NEVER;
  }
  const pressure =
    its.pressure && readAt('tyres[].coldPressure', its.pressure.text, CONSTRUCTION_OF[its.build]);
  if (pressure && !pressure.ok) {
    say('pressure', pressure.problem);
    return z.NEVER;
  }
  return its;
});

const downforce = section({
  force: leaf((raw) => as(raw, readAt('aero.rearDownforce.force', poundsOfForce(raw)))),
  at: leaf((raw) => as(raw, readAt('aero.rearDownforce.at', raw))),
});

/** A wing's pounds are a force, whatever they are called. */
function poundsOfForce(raw: unknown): unknown {
  return typeof raw === 'string' ? raw.trim().replace(/\s*(?:lbs?|pounds?)$/, ' lbf') : raw;
}

/** The tub that is in the car already. */
const existing = section({
  diameter: leaf((raw) => as(raw, readAt('tubs[].insideDiameter', raw))),
  topHeight: leaf((raw) => as(raw, readAt('heights[]', raw))),
  centreForward: at('tubs[].centreForward'),
});

/**
 * What a racer or a shop has answered, as typed: quantities are text with their unit. Tyre, build and speed are required;
 * anything else may be left out or null, which is "don't know".
 */
export const answersSchema = section({
  title: mayBeUnknown(z.string().max(200)),
  kind: mayBeUnknown(z.enum(KINDS_OF_CAR)),
  tyres: z.array(tyre).min(1).max(6),
  speed: leaf((raw) => as(raw, readAt('run.trapSpeed', raw))),
  /** Of a slip, a mean over the last 66 ft, or at the line itself. Left out: of a slip. */
  speedIs: mayBeUnknown(z.enum(['slip', 'line'])),
  distance,
  sixtyFoot: seconds('a 60-foot time', ...SIXTY_FOOT),
  elapsed: seconds('an elapsed time', 2, 30),
  mass: at('car.mass'),
  wheelbase: at('car.wheelbase'),
  rearShare: at('car.rearShare'),
  wing: mayBeUnknown(z.enum(WINGS)),
  downforce: mayBeUnknown(downforce),
  parachutes: mayBeUnknown(z.enum(PARACHUTES)),
  axleHeight: at('build.axleHeight'),
  bumpTravel: at('suspension.bumpTravel'),
  wheelRate: at('suspension.wheelRate'),
  antiRollBar: mayBeUnknown(z.enum(['yes', 'no'])),
  runRisk: at('accept.runRisk'),
  seasonRisk: at('accept.seasonRisk'),
  existing: mayBeUnknown(existing),
});

/** A field as typed; "don't know" is null, or nothing. */
type Typed = string | number | null | undefined;
type Fields<Names extends string> = { [Name in Names]?: Typed };

/** Answers as they are typed, stored and sent: what page, terminal and link hold. */
export interface WrittenAnswers
  extends Fields<
    | 'title'
    | 'kind'
    | 'speed'
    | 'speedIs'
    | 'distance'
    | 'sixtyFoot'
    | 'elapsed'
    | 'mass'
    | 'wheelbase'
    | 'rearShare'
    | 'wing'
    | 'parachutes'
    | 'axleHeight'
    | 'bumpTravel'
    | 'wheelRate'
    | 'antiRollBar'
    | 'runRisk'
    | 'seasonRisk'
  > {
  tyres?: readonly Fields<
    | 'size'
    | 'rollout'
    | 'widthIs'
    | 'build'
    | 'rimWidth'
    | 'pressure'
    | 'runsPerSeason'
    | 'speed'
    | 'sixtyFoot'
    | 'elapsed'
  >[];
  downforce?: Fields<'force' | 'at'> | null;
  existing?: Fields<'diameter' | 'topHeight' | 'centreForward'> | null;
}
/** Answers as read. */
export type Answers = z.output<typeof answersSchema>;
export type TyreAnswers = Answers['tyres'][number];

/** The answers, or every fault with the place of its answer. */
export function readAnswers(raw: unknown): { ok: true; value: Answers } | { ok: false; faults: Fault[] } {
  const read = answersSchema.safeParse(raw, { reportInput: true, jitless: true });
  return read.success
    ? { ok: true, value: read.data }
    : { ok: false, faults: read.error.issues.flatMap(faultsOf) };
}
