import { buildLoad, rollout, tyreColumn } from '@tubgap/core';
import type { CaseSetup, RunTyre } from '@tubgap/simulation';
import { MM_PER_INCH, POUND, POUND_FORCE, PSI } from '@tubgap/units';
import type { Readings, Rejected } from './readings.ts';

/** A slip that would explain a number so many times too large. */
type Slip = readonly [factor: number, words: string];

const PRESSURE_SLIPS: readonly Slip[] = [
  [PSI / 1000, 'this looks like kPa read as psi'],
  [1000 / PSI, 'this looks like psi read as kPa'],
  [1e5 / PSI, 'this looks like psi read as bar'],
];
const LENGTH_SLIPS: readonly Slip[] = [
  [MM_PER_INCH, 'this looks like mm read as inches'],
  [1 / MM_PER_INCH, 'this looks like inches read as mm'],
  [MM_PER_INCH / 10, 'this looks like cm read as inches'],
  [1 / Math.PI, 'this looks like the diameter'],
  [0.5 / Math.PI, 'this looks like the radius'],
  [2, 'this looks like a diameter'],
];
const FORCE_SLIPS: readonly Slip[] = [
  [POUND_FORCE, 'this looks like N read as lbf'],
  [POUND, 'this looks like kg read as lbf'],
  [1 / POUND_FORCE, 'this looks like lbf read as N'],
];
const MASS_SLIPS: readonly Slip[] = [
  [1 / POUND, 'this looks like lb read as kg'],
  [POUND, 'this looks like kg read as lb'],
];

/** Why a number is not believed: further from what the case leads one to expect than `within`, 1 being no distance. */
function doubt(
  what: string,
  value: number,
  expected: number,
  within: number,
  slips: readonly Slip[],
): string | undefined {
  const ratio = value / expected;
  if (Math.abs(Math.log(ratio)) <= Math.log(within)) return undefined;
  const slip = slips.find(
    ([factor]) => Math.abs(Math.log(ratio / factor)) < Math.log(Math.min(within, 1.35)),
  );
  const times = ratio > 1 ? `${ratio.toPrecision(2)} times` : `only ${(100 * ratio).toFixed(0)} % of`;
  return `${what} is ${times} what the case leads one to expect${
    slip === undefined ? '; check unit, tyre and reading' : `: ${slip[1]}`
  }`;
}

/**
 * Takes out of some readings what the case's own tyre and car make implausible, unit slips above all: a number that is
 * wrong by such a factor would pull everything with it.
 * @param readings  changed in place
 */
export function removeImplausible(setup: CaseSetup, readings: Readings): Rejected[] {
  const rejected: Rejected[] = [];
  const tyreOf = (name: string): RunTyre => setup.tyres.find((tyre) => tyre.name === name)!;
  const radius = tyreColumn('referenceRadius');
  const kept = <R extends { file: string; line: number }>(
    rows: readonly R[],
    ...doubts: ((row: R) => string | undefined)[]
  ): R[] =>
    rows.filter((row) => {
      const reason = doubts.map((ask) => ask(row)).find((found) => found !== undefined);
      if (reason !== undefined) rejected.push({ file: row.file, line: row.line, reason });
      return reason === undefined;
    });
  const pressure = ({ tyre, pressure: read }: { tyre: string; pressure: number }) =>
    doubt('this pressure', read, tyreOf(tyre).setup.referencePressure, 3, PRESSURE_SLIPS);
  readings.rollouts = kept(readings.rollouts, pressure, (row) =>
    doubt('this rollout', row.rollout, rollout(tyreOf(row.tyre).centralTyre[radius]!), 1.08, LENGTH_SLIPS),
  );
  readings.masses = kept(readings.masses, (row) =>
    doubt('this mass', row.mass, tyreOf(row.tyre).centralTyre[tyreColumn('mass')]!, 1.5, MASS_SLIPS),
  );
  readings.loaded = kept(
    readings.loaded,
    pressure,
    (row) => doubt('this load', row.load, buildLoad(tyreOf(row.tyre).centralCar), 3.2, FORCE_SLIPS),
    (row) =>
      doubt(
        'this loaded radius',
        row.radius,
        0.95 * tyreOf(row.tyre).centralTyre[radius]!,
        1.12,
        LENGTH_SLIPS,
      ),
  );
  return rejected;
}
