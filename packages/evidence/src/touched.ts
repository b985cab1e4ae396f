import { wholeDegrees } from '@tubgap/units';
import type { MarkReading, RunsReading } from './readings.ts';

/** Lengths closer than this, m, count as the same. */
const SAME = 1e-9;

/** Marks that show a tyre to have been where the gap to be kept should be: said before all else. @param reserve  m */
export const insideReserve = (marks: readonly MarkReading[], reserve: number): MarkReading[] =>
  marks.filter(({ touched, thickness }) => touched && thickness <= reserve + SAME);

/** 'tall-slick at 34°': which tyre, and where on the tub. */
export const touchPlace = ({ tyre, angle }: MarkReading): string => `${tyre} at ${wholeDegrees(angle)}°`;

/** What is to be done when a tyre has been inside the gap to be kept. @param places  where, in words */
export const touchText = (places: readonly string[]): string =>
  `the tyre has been inside the gap to be kept: ${places.join(', ')}. Do not run until the cause is found and the gaps are measured again`;

/** What is to be done when runs have left a mark on the tub. */
export const runMarkText = (runs: readonly RunsReading[]): string =>
  `runs have left a mark on the tub: ${runs.map(({ tyre, file, line, date }) => `${tyre}${date === '' ? '' : `, ${date}`} (${file}:${line})`).join('; ')}. Do not run until the cause is found and the gaps are measured again`;
