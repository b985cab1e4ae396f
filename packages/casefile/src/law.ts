import { type Law, lawProblem, silvermanBandwidth } from '@tubgap/statistics';
import { findUnit, type QuantityKind } from '@tubgap/units';
import { z } from 'zod';
import type { Each } from './defaults/row.ts';
import { type InputSpec, lawWords } from './defaults.ts';
import type { Problem } from './issue.ts';
import { type QuantitySpec, readQuantity, readSpread } from './quantity.ts';
import { definition, fail, forward, leaf, section, writtenForm } from './schema-parts.ts';

/** An uncertain number as read: its law in SI and the same in the file's words. */
export interface ReadLaw {
  law: Law;
  each: Each;
  shown: string;
  /** Written as a single value: nothing was said of its spread. */
  bare?: true;
  /** The measured values that the law was made of, SI, as written, and how to print one. */
  measured?: { values: readonly number[]; kind: QuantityKind; unit: string };
}

/** Fewest measured values from which a spread is taken: with three, Student's law has no variance. */
const FEWEST_VALUES = 4;
/** A smoothed law sums over all values wherever its table is made; more say nothing that a tub would show. */
const MOST_VALUES = 1000;
/** A normal law this many standard deviations above zero falls below it about once in 30,000 draws. */
const CLEAR_OF_ZERO = 4;

const each = z.enum(['car', 'run']).meta({
  description: 'car: one value that stays with this car. run: a new value every run.',
});
const share = { label: 'coefficient of variation', kind: 'ratio', min: 1e-6, max: 2, unit: '' } as const;

/** The laws that a case may name, and what each needs. */
function lawForms(spec: InputSpec) {
  const own = { $ref: definition(spec.kind, false) };
  const middle = leaf((raw) => readQuantity(raw, spec)).meta(own);
  const spread = leaf((raw) => readSpread(raw, spec)).meta(own);
  const cov = leaf((raw) => readQuantity(raw, share)).meta({ $ref: definition('ratio', false) });
  const named = <Name extends string>(name: Name) => ({ law: z.literal(name), each });
  return {
    constant: () => section({ ...named('constant'), value: middle }),
    normal: () => section({ ...named('normal'), mean: middle, sd: spread }),
    truncated: () =>
      section({
        ...named('truncated'),
        mean: middle,
        sd: spread,
        low: middle.optional(),
        high: middle.optional(),
      }),
    'log-normal': () => section({ ...named('log-normal'), median: middle, cov }),
    triangular: () => section({ ...named('triangular'), low: middle, mode: middle, high: middle }),
    uniform: () => section({ ...named('uniform'), low: middle, high: middle }),
    measured: () => section({ ...named('measured'), values: z.array(middle).min(FEWEST_VALUES) }),
    empirical: () =>
      section({
        ...named('empirical'),
        values: z.array(middle).min(FEWEST_VALUES).max(MOST_VALUES),
        smoothed: z
          .boolean()
          .optional()
          .meta({
            description:
              "Whether each value is smeared by Silverman's rule of thumb, so that draws lie between and beyond the values. " +
              'false: no draw is any other value, none beyond the outermost. Default: true.',
          }),
      }),
  };
}

function lawSchema(spec: InputSpec) {
  const forms = lawForms(spec);
  return z.discriminatedUnion('law', [
    forms.constant(),
    forms.normal(),
    forms.truncated(),
    forms['log-normal'](),
    forms.triangular(),
    forms.uniform(),
    forms.measured(),
    forms.empirical(),
  ]);
}

/** The form of the one law that is named, where it is known by its name; of all laws else. */
function namedSchema(name: unknown, spec: InputSpec): z.ZodType<WrittenLaw> {
  const forms = lawForms(spec);
  return typeof name === 'string' && Object.hasOwn(forms, name)
    ? forms[name as keyof typeof forms]()
    : lawSchema(spec);
}

/** The laws as JSON Schema, for any quantity of a kind. */
export function lawForm(kind: QuantityKind): Record<string, unknown> {
  return writtenForm(lawSchema({ label: kind, kind, min: 0, max: 1, unit: '', each: 'car' }));
}

type WrittenLaw = z.output<ReturnType<typeof lawSchema>>;

/**
 * Predictive law of measured values: Student's t with n − 1 degrees of freedom about their mean.
 * The scale is s/√n for one value that stays (the mean itself is what is unknown) and s √(1 + 1/n) for the next of
 * many. Derived: normal values of unknown mean and variance, uniform prior on mean and log variance.
 * @param low  least that the quantity can be, SI: with few values the law's tails would reach below nothing
 */
export function measuredLaw(values: readonly number[], holds: Each, low?: number): Law {
  const n = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1));
  const scale = holds === 'car' ? sd / Math.sqrt(n) : sd * Math.sqrt(1 + 1 / n);
  return { kind: 'student-t', mean, scale, dof: n - 1, ...(low === undefined ? {} : { low }) };
}

/**
 * The measured values themselves as a law, smoothed or as they are.
 * @param low  least that the quantity can be, SI: a smoothed law would reach below it
 */
function empiricalLaw(measured: readonly number[], smoothed: boolean, low?: number): Law {
  const values = [...measured].sort((a, b) => a - b);
  const bandwidth = smoothed ? silvermanBandwidth(values) : 0;
  return { kind: 'empirical', values, bandwidth, ...(low === undefined || bandwidth === 0 ? {} : { low }) };
}

function lawOf(written: WrittenLaw, spec: QuantitySpec): Law {
  switch (written.law) {
    case 'constant':
      return { kind: 'constant', value: written.value };
    case 'normal':
      return { kind: 'normal', mean: written.mean, sd: written.sd };
    case 'truncated': {
      const { mean, sd, low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY } = written;
      return { kind: 'truncated-normal', mean, sd, low, high };
    }
    case 'log-normal':
      return { kind: 'log-normal', median: written.median, cov: written.cov };
    case 'triangular':
      return { kind: 'triangular', low: written.low, mode: written.mode, high: written.high };
    case 'uniform':
      return { kind: 'uniform', low: written.low, high: written.high };
    case 'measured':
      return measuredLaw(written.values, written.each, spec.min < 0 ? undefined : spec.min);
    case 'empirical':
      return empiricalLaw(
        written.values,
        written.smoothed ?? true,
        spec.min < 0 ? undefined : Math.min(spec.min, ...written.values),
      );
  }
}

/** Why the ends of a law are the wrong way round. */
function outOfOrder(law: Law): string | undefined {
  switch (law.kind) {
    case 'triangular':
      return law.low <= law.mode && law.mode <= law.high && law.low < law.high
        ? undefined
        : 'low, mode and high must rise in this order';
    case 'uniform':
      return law.low < law.high ? undefined : 'low must be less than high';
    case 'truncated-normal':
      return law.low < law.high ? undefined : 'low must be less than high';
    default:
      return undefined;
  }
}

/** Why a law cannot stand for this quantity although each of its numbers is in range. */
export function unfit(law: Law, spec: InputSpec): Problem | undefined {
  const isSame =
    (law.kind === 'student-t' && law.scale === 0) ||
    (law.kind === 'empirical' && law.values[0] === law.values.at(-1));
  if (isSame) {
    const reason = 'all measured values are the same, which says nothing of the spread';
    return { code: 'law', reason, hint: 'Measure finer, or write { law: uniform, low: …, high: … }' };
  }
  const order = outOfOrder(law);
  if (order !== undefined) return { code: 'law', reason: order };
  const unusable = lawProblem(law);
  if (unusable !== undefined) {
    const isCutAway = law.kind === 'truncated-normal';
    const reason = isCutAway
      ? 'low and high lie so far from the mean that nothing of the law is left'
      : unusable;
    return { code: 'law', reason };
  }
  if (law.kind === 'normal' && spec.min >= 0 && law.mean < CLEAR_OF_ZERO * law.sd) {
    const reason = `this normal law falls below 0, but ${spec.label} cannot be negative`;
    return { code: 'law', reason, hint: 'Use law: truncated with a low of 0, or law: log-normal' };
  }
  return undefined;
}

/** A law in words; of a smoothed one by how much. */
function shownLaw(raw: Record<string, unknown>, law: Law, { kind, unit }: InputSpec): string {
  if (law.kind !== 'empirical') return lawWords(raw);
  const { smoothed: _, ...told } = raw;
  // A spread: the unit's factor without its zero.
  const sd = Number((law.bandwidth / (findUnit(kind, unit)?.factor ?? 1)).toPrecision(3));
  const how = sd === 0 ? 'as they are' : `smoothed, each with an sd of ${`${sd} ${unit}`.trim()}`;
  return lawWords({ ...told, law: `empirical, ${how}` });
}

/**
 * An uncertain number of the case: a quantity, taken as exact, or a law with `each`.
 * Anything else ends as a problem of the zod issue, at the place of the part that is wrong.
 */
export function uncertain(spec: InputSpec) {
  return z.unknown().transform((raw, context): ReadLaw => {
    if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
      const read = readQuantity(raw, spec);
      if (!read.ok) return fail(context, read.problem);
      return {
        law: { kind: 'constant', value: read.value },
        each: spec.each,
        shown: lawWords({ law: 'constant', value: raw }),
        bare: true,
      };
    }
    // Made where a case writes a law: those of all inputs together take longer than reading a whole case.
    const written = forward(namedSchema((raw as { law?: unknown }).law, spec), raw, context);
    if (written === undefined) return z.NEVER;
    const law = lawOf(written, spec);
    const problem = unfit(law, spec);
    if (problem) return fail(context, problem);
    const read = { law, each: written.each, shown: shownLaw(raw as Record<string, unknown>, law, spec) };
    if (written.law !== 'measured' && written.law !== 'empirical') return read;
    return { ...read, measured: { values: written.values, kind: spec.kind, unit: spec.unit } };
  });
}
