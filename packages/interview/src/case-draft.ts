import { type LawText, type StandingDefault, standingDefaults } from '@tubgap/casefile';
import type { Construction } from '@tubgap/core';
import type { PriorRow } from './kinds-of-car.ts';

export type Path = readonly (string | number)[];
export type CaseValue = LawText | string | number | boolean;

/** A value of the case that rests on an answer. */
export interface ToldItem {
  /** Place in the case file: 'tyres[0].rollout'. */
  path: string;
  value: CaseValue;
  /** What was told, and what was made of it. */
  words: string;
}

/** A value that nobody told. */
export interface AssumedItem {
  path: string;
  /** As the case file writes it. */
  value: CaseValue;
  reason: string;
  /** 'judgement', 'common practice, no source', 'derived', …; of a default of the case file, its own words. */
  mark: string;
  /** It stands in the case; else the reader of the case takes it, of itself. */
  written: boolean;
}

/** 'tyres[0].class.run.trapSpeed' */
export const pathText = (path: Path): string =>
  path.map((part, i) => (typeof part === 'number' ? `[${part}]` : i === 0 ? part : `.${part}`)).join('');

type Group = Record<string | number, unknown>;

function place(root: Group, path: Path, value: unknown): void {
  let group = root;
  for (const [i, part] of path.slice(0, -1).entries()) {
    group[part] ??= typeof path[i + 1] === 'number' ? [] : {};
    group = group[part] as Group;
  }
  // A law of the tables of priors may stand in several places: each gets its own, or a YAML text would refer to the first.
  group[path.at(-1)!] = typeof value === 'object' ? { ...value } : value;
}

/** A case file in the making: every value with where it comes from. */
export interface CaseDraft {
  document: Record<string, unknown>;
  told: ToldItem[];
  assumed: AssumedItem[];
  tell(path: Path, value: CaseValue, words: string): void;
  assume(path: Path, value: CaseValue, reason: string, mark: string): void;
}

export function openDraft(document: Record<string, unknown>): CaseDraft {
  const told: ToldItem[] = [];
  const assumed: AssumedItem[] = [];
  return {
    document,
    told,
    assumed,
    tell(path, value, words) {
      place(document, path, value);
      told.push({ path: pathText(path), value, words });
    },
    assume(path, value, reason, mark) {
      place(document, path, value);
      assumed.push({ path: pathText(path), value, reason, mark, written: true });
    },
  };
}

/** Defaults of the case file that stand although the table has their place elsewhere: those of catalogue, lists and settings. */
const NOT_OF_A_CALLER = /^(?:simulation|sideRoom|hardPoints|runLog|tyres\[\]\.rim)\b/;
/** Defaults that give way to another place of the case, and such as stand only beside one. */
const GIVES_WAY: Readonly<Record<string, string>> = { 'suspension.torqueRoll': 'suspension.antiRollBar' };
const STANDS_BESIDE: Readonly<Record<string, string>> = {
  'aero.rearDownforce.airDensity': 'aero.rearDownforce.force',
};

/**
 * What the reader of the case assumes beside what is written: the table's own defaults, a tyre's by its construction.
 * @param constructions  of the case's tyres, in its order
 */
export function standing(
  { told, assumed }: Pick<CaseDraft, 'told' | 'assumed'>,
  constructions: readonly Construction[],
): AssumedItem[] {
  const written = new Set([...told, ...assumed].map(({ path }) => path));
  const item = (path: string, { label, value, basis }: StandingDefault): AssumedItem[] => {
    const beside = STANDS_BESIDE[path];
    if (written.has(path) || basis === undefined || written.has(GIVES_WAY[path] ?? '')) return [];
    if (beside !== undefined && !written.has(beside)) return [];
    return [{ path, value, reason: label, mark: basis, written: false }];
  };
  const ofTyre = ({ path }: StandingDefault) => path.startsWith('tyres[].');
  const wanted = ({ path }: StandingDefault) => !NOT_OF_A_CALLER.test(path);
  const first = standingDefaults(constructions[0]!).filter(wanted);
  return [
    ...first.filter((one) => !ofTyre(one)).flatMap((one) => item(one.path, one)),
    ...constructions.flatMap((construction, i) =>
      standingDefaults(construction)
        .filter((one) => wanted(one) && ofTyre(one))
        .flatMap((one) => item(one.path.replace('[]', `[${i}]`), one)),
    ),
  ];
}

/** A row of priors at its place of the case. */
export const placeOf = ({ path }: PriorRow): Path => path.split('.');
