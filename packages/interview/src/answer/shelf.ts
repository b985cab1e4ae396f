import type { Case } from '@tubgap/casefile';
import { tyreColumn } from '@tubgap/core';
import { caseSetup, type Pick, sideFaults, sideWords } from '@tubgap/simulation';
import { INCH } from '@tubgap/units';

/** A tub that is not looked at, and why. */
export interface RefusedTub {
  tub: string;
  reason: string;
}

/** Why a tub cannot take the tyres whatever its height; empty when it can. */
function refusal(source: Case, tub: Case['tubs'][number], diameter: number): string {
  const sides = sideWords(sideFaults(source, tub));
  if (sides !== '') return sides;
  return tub.diameter - 2 * tub.liner > diameter ? '' : 'smaller inside than the tyre';
}

/** Of the tubs in stock, or of the others, those that could take a case's tyres, and what stands against the rest. */
export function shelf(source: Case, inStock: boolean): { tubs: Case['tubs']; refused: RefusedTub[] } {
  const setup = caseSetup(source);
  const diameter = 2 * Math.max(...setup.tyres.map((own) => own.centralTyre[tyreColumn('referenceRadius')]!));
  const judged = source.tubs
    .filter((tub) => (tub.inStock !== false) === inStock)
    .map((tub) => ({ tub, reason: refusal(source, tub, diameter) }));
  return {
    tubs: judged.flatMap(({ tub, reason }) => (reason === '' ? [tub] : [])),
    refused: judged.flatMap(({ tub: { name }, reason }) => (reason === '' ? [] : [{ tub: name, reason }])),
  };
}

/** The smallest of some tubs, in their order. */
export function smallest(tubs: Case['tubs'], most: number): Case['tubs'] {
  const few = tubs.toSorted((a, b) => a.diameter - b.diameter).slice(0, most);
  return tubs.filter((tub) => few.includes(tub));
}

/** A tub that needs so much more of the car than the chosen one is out of the question, m. */
const FAR = 1 * INCH;
/** Tubs that are settled at most. */
const MOST_SETTLED = 4;

/** Of the tubs looked at those whose heights are worth settling: what may be chosen, and the next smaller and larger one. */
export function nearTubs(source: Case, picks: readonly Pick[], chosen: number | undefined): string[] {
  const room = (t: number): number =>
    source.tubs[t]!.diameter + (picks[t]!.height?.topHeight ?? Number.POSITIVE_INFINITY);
  const bySize = source.tubs
    .map((_, t) => t)
    .sort((a, b) => source.tubs[a]!.diameter - source.tubs[b]!.diameter);
  const place = chosen === undefined ? bySize.length - 1 : bySize.indexOf(chosen);
  const wanted = (t: number, k: number): boolean =>
    t === chosen || Math.abs(k - place) === 1 || (chosen !== undefined && room(t) <= room(chosen) + FAR);
  const near = bySize
    .filter(wanted)
    .sort((a, b) => (a === chosen ? -1 : b === chosen ? 1 : room(a) - room(b)))
    .slice(0, MOST_SETTLED);
  return source.tubs.flatMap(({ name }, t) => (near.includes(t) ? [name] : []));
}
