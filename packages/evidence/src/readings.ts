/** A row that was left out, and why; line 0 speaks of the whole file. */
export interface Rejected {
  file: string;
  line: number;
  /** Where a single cell is at fault, from 1. */
  column?: number;
  reason: string;
  /** Where it stands for more than one line: for how many. */
  lines?: number;
}

/** Lines and files that were left out, counted. */
export const countLeftOut = (rejected: readonly Rejected[]): number =>
  rejected.reduce((sum, { lines }) => sum + (lines ?? 1), 0);

/** Where something was left out: 'rollout.csv:4:12', or the file alone. */
export const placeText = ({ file, line, column }: Rejected): string =>
  `${file}${line > 0 ? `:${line}` : ''}${column === undefined ? '' : `:${column}`}`;

interface Reading {
  file: string;
  line: number;
  /** As the file gives it; empty when it gives none. */
  date: string;
}

/** Rollout taped round the free tyre at a pressure; m, Pa. */
export interface RolloutReading extends Reading {
  tyre: string;
  pressure: number;
  rollout: number;
  sd: number;
}

/** Mass of a bare tyre, kg. */
export interface MassReading extends Reading {
  tyre: string;
  mass: number;
  sd: number;
}

/** Axle above the ground under a load at a pressure; m, N, Pa. */
export interface LoadedReading extends Reading {
  tyre: string;
  pressure: number;
  load: number;
  radius: number;
  sd: number;
}

/** Furthest bump travel at the wheel over some runs, m. */
export interface TellTaleReading extends Reading {
  tyre: string;
  travel: number;
  runs: number;
  sd: number;
}

/** The tub that was in the car; m. */
export interface AsBuilt {
  tub: string;
  topHeight: number;
  /** Undefined: where the case has it. */
  centreForward: number | undefined;
}

/** Gap from the standing tyre's point at a hub angle to the tub; m, rad. */
export interface GapReading extends Reading {
  side: string;
  angle: number;
  gap: number;
  sd: number;
  built: AsBuilt;
}

/** Something on the check sheet that passes or fails the car. */
export type CheckedPlace =
  | { kind: 'gap'; angle: number }
  | { kind: 'hard point'; name: string }
  | { kind: 'top height' }
  | { kind: 'centre forward' };

/** One blank of the check sheet, filled or not, with what passes; m. */
export interface CheckReading extends Reading {
  side: string;
  place: CheckedPlace;
  /** Undefined: nothing is written there. */
  measured: number | undefined;
  /** Undefined where the table gives none. */
  least: number | undefined;
  most: number | undefined;
}

/**
 * Whether the tyre came within a thickness of the tub at a hub angle in some runs; 0 is the skin itself. That it did not is
 * known only where something was stuck on that place which would show it.
 */
export interface MarkReading extends Reading {
  tyre: string;
  angle: number;
  touched: boolean;
  thickness: number;
  runs: number;
  built: AsBuilt;
}

/** Whether a tub stands twice at the same place. */
export const sameBuilt = (a: AsBuilt, b: AsBuilt): boolean =>
  a.tub === b.tub && a.topHeight === b.topHeight && a.centreForward === b.centreForward;

/** Some runs after which the whole tub was looked at, and whether there was a mark then that was not there before. */
export interface RunsReading extends Reading {
  tyre: string;
  runs: number;
  /** Speed of the car at the finish, from slowest to fastest run, m/s; undefined: as the case has it. */
  speeds: { low: number; high: number } | undefined;
  marked: boolean;
  built: AsBuilt;
}

/** A stretch of one run's log with nearly one speed. */
export interface LogBin {
  /** rolling: no torque to speak of; driven: the engine pulls, so the tread slips. */
  phase: 'rolling' | 'driven';
  /** Of the car, m/s. */
  speed: number;
  /** Car speed over the wheel's turning, m, slip and all. */
  radius: number;
  /** Standard error from the scatter within, m. */
  sd: number;
  /** Change of the radius for one second by which one of the two signals is late, m/s. */
  perSecondLate: number;
  samples: number;
}

/** What one run's log says of the tyre's growth. */
export interface LogReading extends Reading {
  tyre: string;
  bins: LogBin[];
  /** Gauge, hot, Pa; undefined when the log has none. */
  pressure: number | undefined;
  topSpeed: number;
  /** Samples read, and those passed over as spikes or wheelspin. */
  samples: number;
  passedOver: number;
}

/** Everything that was measured, sorted by kind. */
export interface Readings {
  rollouts: RolloutReading[];
  masses: MassReading[];
  loaded: LoadedReading[];
  tellTales: TellTaleReading[];
  gaps: GapReading[];
  marks: MarkReading[];
  runs: RunsReading[];
  logs: LogReading[];
  /** What passes or fails the car; nothing is learned from it. */
  checks: CheckReading[];
}

/** Rows of a file that some readings come from, each once. */
export const rowsOf = (readings: Readings, file: string): number =>
  new Set(
    Object.values(readings)
      .flat()
      .flatMap((reading) => (reading.file === file ? [reading.line] : [])),
  ).size;

export const noReadings = (): Readings => ({
  rollouts: [],
  masses: [],
  loaded: [],
  tellTales: [],
  gaps: [],
  marks: [],
  runs: [],
  logs: [],
  checks: [],
});
