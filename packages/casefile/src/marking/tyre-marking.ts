import { type Construction, rollout as rolloutOf } from '@tubgap/core';
import { formatQuantity, INCH, MM_PER_INCH, plainLetters, readLength, sixteenths } from '@tubgap/units';
import type { MarkingFault } from './marking-fault.ts';

/** What the second figure of an inch marking is; nobody but the maker's own sheet or a tape tells. */
export type WidthMeaning = 'tread' | 'section' | 'unknown';

interface Marked {
  /** What was understood, in one spelling: '315/60R15', '33.5x17.0-16'. */
  understood: string;
  /** Nominal width, m. */
  width: number;
  widthMeans: WidthMeaning;
  /** Rim diameter, m; an inch marking may leave it out. */
  rim?: number;
  /** What R or - before the rim says; neither is proof. */
  construction?: Construction;
  /** A letter behind the width, W or S: the maker's own. */
  letter?: string;
}

/** A tyre as its sidewall or its owner names it; lengths in m. A marking is nominal: what it allows is in `diameterPrior`. */
export type TyreMarking =
  | (Marked & { form: 'metric' /** Section height over section width. */; aspect: number; rim: number })
  | (Marked & { form: 'inch'; diameter: number })
  | { form: 'rollout'; understood: string; rollout: number };

export type MarkingReading = { ok: true; value: TyreMarking } | { ok: false; fault: MarkingFault };

/** Ranges of what a marking may say: in mm, %, in. Wider than what is sold, narrow enough to catch a slip of the keys. */
const METRIC_WIDTH = [125, 455] as const;
const ASPECT = [20, 100] as const;
const INCH_WIDTH = [4, 22] as const;
const DIAMETER = [16, 44] as const;
const RIM = [10, 26] as const;

/** Of a rollout, m: that of the diameters above. */
const ROLLOUT = DIAMETER.map((inches) => rolloutOf((inches * INCH) / 2)) as [number, number];

const RIM_END = String.raw`(?<mark>Z?R-?|[-/XB])(?<rim>\d{2}(?:\.\d)?)`;
const METRIC = new RegExp(
  String.raw`^(?:P|LT)?(?<width>\d{3})(?<letter>[WS])?[/-](?<aspect>\d{2,3})(?:${RIM_END})?`,
);
const INCHES = new RegExp(
  String.raw`^(?<diameter>\d{2}(?:\.\d+)?)(?:X|/)(?<width>\d{1,2}(?:\.\d+)?)(?<letter>[WS])?(?:${RIM_END})?`,
);
/** What may follow: light truck, and what load and speed a road tyre bears. */
const REST = /^(?<truck>LT)?(?:\d{2,3}(?:\/\d{2,3})?[A-Z]\d?)?$/;

/** Capitals without blanks, hyphens for every dash, X for every sign of times. */
const plain = (text: string): string =>
  plainLetters(text).toUpperCase().replace(/[×✕*]/g, 'X').replace(/\s+/g, '');

function constructionOf(mark: string | undefined): { construction?: Construction } {
  if (mark?.includes('R')) return { construction: 'radial' };
  return mark === '-' || mark === 'B' ? { construction: 'bias' } : {};
}

/** The first figure that lies outside of its range. */
function outside(
  read: string,
  figures: readonly (readonly [
    MarkingFault['code'],
    number | undefined,
    readonly [number, number],
    string,
  ])[],
): MarkingFault | undefined {
  for (const [code, value, [least, most], unit] of figures) {
    if (value !== undefined && (value < least || value > most))
      return { code, read, value, least, most, unit };
  }
  return undefined;
}

type Groups = Record<string, string | undefined>;

const separator = (construction: Construction | undefined): string =>
  construction === 'radial' ? 'R' : construction === 'bias' ? '-' : ' on ';

function metricMarking(read: string, { width, letter, aspect, mark, rim }: Groups): MarkingReading {
  if (rim === undefined) return { ok: false, fault: { code: 'rim-missing', read } };
  const [w, a, r] = [Number(width), Number(aspect), Number(rim)];
  const fault = outside(read, [
    ['width', w, METRIC_WIDTH, 'mm'],
    ['aspect', a, ASPECT, '%'],
    ['rim', r, RIM, 'in'],
    ['diameter', (2 * w * (a / 100)) / MM_PER_INCH + r, DIAMETER, 'in'],
  ]);
  if (fault) return { ok: false, fault };
  const its = constructionOf(mark);
  const value = {
    form: 'metric',
    understood: `${w}${letter ?? ''}/${a}${separator(its.construction)}${r}`,
    width: w / 1000,
    widthMeans: 'section',
    aspect: a / 100,
    rim: r * INCH,
    ...its,
    ...(letter ? { letter } : {}),
  } as const;
  return { ok: true, value };
}

function inchMarking(
  read: string,
  { diameter, width, letter, mark, rim }: Groups,
  truck: boolean,
): MarkingReading {
  const [d, w] = [Number(diameter), Number(width)];
  const r = rim === undefined ? undefined : Number(rim);
  const fault = outside(read, [
    ['diameter', d, DIAMETER, 'in'],
    ['width', w, INCH_WIDTH, 'in'],
    ['rim', r, RIM, 'in'],
  ]);
  if (fault) return { ok: false, fault };
  const its = constructionOf(mark);
  const end = r === undefined ? '' : `${separator(its.construction)}${r}`;
  const value = {
    form: 'inch',
    understood: `${diameter}x${width}${letter ?? ''}${end}${truck ? 'LT' : ''}`,
    diameter: d * INCH,
    width: w * INCH,
    // A truck tyre's second figure is its section by the handbooks of vehicles; competition tyres have either.
    widthMeans: truck ? 'section' : 'unknown',
    ...(r === undefined ? {} : { rim: r * INCH }),
    ...its,
    ...(letter ? { letter } : {}),
  } as const;
  return { ok: true, value };
}

function taped(read: string): MarkingReading | undefined {
  const length = readLength(read.trim().replace(/\s*(?:rollout|roll-out|around|round)$/i, ''));
  if (length === undefined) return undefined;
  const [least, most] = ROLLOUT;
  if (length < least || length > most) {
    const [low, high] = [least, most].map((bound) => Math.round(bound / INCH)) as [number, number];
    const value = length / INCH;
    return { ok: false, fault: { code: 'rollout', read, value, least: low, most: high, unit: 'in' } };
  }
  const isTape = Math.abs((length / INCH) * 16 - Math.round((length / INCH) * 16)) < 1e-6;
  const words = isTape ? sixteenths(length, 'nearest') : formatQuantity(length, 'length');
  return { ok: true, value: { form: 'rollout', understood: `rollout ${words}`, rollout: length } };
}

/**
 * Reads a tyre as printed on its sidewall or as its owner says it: metric (315/60R15, P325-50R15, 275/60-15), inch
 * (33.5x17.0-16, 31x10.5R15LT, 28.0/10 R15, 28x10.5), or a rollout with its unit (92 1/2 in). Dashes, blanks, signs of
 * times and capitals as they come; a W or S behind the width is kept and means nothing here.
 * Source of the ways of writing: trade pages; of the LT tyre's width: a vehicle's handbook. There is no standard for the
 * size of a competition tyre: nothing here is a measurement.
 */
export function readTyreMarking(text: string): MarkingReading {
  const read = text.slice(0, 60);
  const found = taped(read);
  if (found) return found;
  const size = plain(read);
  const match = METRIC.exec(size) ?? INCHES.exec(size);
  const rest = match && REST.exec(size.slice(match[0].length));
  if (!match?.groups || !rest) return { ok: false, fault: { code: 'not-a-size', read } };
  return match.groups.aspect === undefined
    ? inchMarking(read, match.groups, rest.groups?.truck !== undefined)
    : metricMarking(read, match.groups);
}
