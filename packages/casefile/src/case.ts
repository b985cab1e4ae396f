import type { CarInput, Construction, TyreInput } from '@tubgap/core';
import type { Law } from '@tubgap/statistics';
import type { LengthUnits, QuantityKind } from '@tubgap/units';
import type { Each, Group } from './defaults/row.ts';
import type { Issue } from './issue.ts';

/** An uncertain number of the case, with all that a report needs to say where it comes from. */
export interface UncertainInput {
  /** Place in the file: 'suspension.wheelRate', 'tyres[0].coldPressure'. */
  path: string;
  label: string;
  /** SI. */
  law: Law;
  each: Each;
  group: Group;
  kind: QuantityKind;
  source: 'case' | 'catalogue' | 'assumed';
  /** 'case.yaml:14', 'tyres.csv:3', or where an assumed law comes from. */
  basis: string;
  /** In words and in the file's units: 'normal, mean 190 lbf/in, sd 15 lbf/in, one value per car'. */
  shown: string;
  /** Least value that means anything, SI; a law without bounds may have to be cut here. */
  floor?: number;
  /**
   * Learned together with other inputs: its standard normal number is the sum of these inputs' own ones times their
   * shares, itself among them. Left out: it goes its own way.
   */
  follows?: readonly Follows[];
}

/** One input that another follows. */
export interface Follows {
  /** Left out for an input of the car. */
  tyre?: string;
  input: string;
  share: number;
}

/** Columns that a run log may have. */
export const LOG_COLUMNS = [
  'time',
  'speed',
  'distance',
  'driveshaft',
  'pressure',
  'travel',
  'throttle',
  'brake',
] as const;
export type LogColumn = (typeof LOG_COLUMNS)[number];

/** How the case's run logs are to be read. */
export interface RunLog {
  /** Turns of the driveshaft for one of the rear wheels. */
  axleRatio: number;
  /** Wheel travel for one of the sensor's. */
  travelRatio: number;
  tyre: string;
  /** Heads of the columns as the log has them; the unit is the one given, or else it stands in the head. */
  columns: Partial<Record<LogColumn, { head: string; unit?: string }>>;
}

/** An exact number, or a choice, that the case leaves open and a default fills. */
export interface AssumedValue {
  /** Place in the file where it could stand: 'build.reserve', 'tyres[0].rim.flange'. */
  path: string;
  label: string;
  /** '0.5 in' */
  shown: string;
  basis: string;
}

/** Exact numbers that a class may change: m; chances. */
export interface ClassNumbers {
  distance: number;
  finishAccelerationIs: 'absolute' | 'relative';
  gripLostChance: number;
  reserve: number;
  runRisk: number;
}

/** A tyre that the car runs in a class: the same one may run in several. SI. */
export interface CaseTyre {
  /** Of the tyre in its class, one of its kind in the case: 'tall-slick', or 'tall-slick (quarter)' of several classes. */
  name: string;
  /** Of the tyre itself, as its catalogue has it: what is one and the same in all its classes goes by it. */
  tyre: string;
  label: string;
  construction: Construction;
  condition: string;
  runsPerSeason: number;
  /** Pa, gauge; of the free radius and of the deflection. */
  referencePressure: number;
  /** m, drop of the axle under `deflectionLoad` (N) at the reference pressure. */
  deflection: number;
  deflectionLoad: number;
  inputs: Record<TyreInput, UncertainInput>;
  /** Inputs of the car that are others in this tyre's class, at places such as 'tyres[1].class.run.trapSpeed'. */
  car?: Partial<Record<CarInput, UncertainInput>>;
  /** Exact numbers of the car that are others in this tyre's class; left out where none is. */
  own?: Partial<ClassNumbers>;
  /** What the shop's list says of it in columns of its own. */
  listed?: Readonly<Record<string, string>>;
  /** m, for the room at the sides. */
  rim?: { width: number; backspacing: number; flange: number };
}

/** A tub to judge. SI. */
export interface CaseTub {
  name: string;
  /** m, inside the bare skin; a strip or liner takes `liner` off each side. */
  diameter: number;
  liner: number;
  /** rad, in total. */
  arcExtent: number;
  legLength: number;
  insideWidth: number;
  skinThickness: number;
  /** kg/m² */
  arealDensity: number;
  /** m, centre ahead of the axle at rest. */
  centreForward: number;
  /** Cut into this tub, each closed by a flat: angle from the crown, forward positive, rad; depth inside the arc, m. */
  notches: { angle: number; depth: number }[];
  /** What the shop's list says of it in columns of its own: price, supplier, note. */
  listed?: Readonly<Record<string, string>>;
  /** False where that list says that it is not there; undefined where it says nothing. */
  inStock?: boolean;
}

/** Something fixed to the body, seen from the side; m ahead of and above the axle at rest. A polygon is convex. */
export type HardPoint =
  | { name: string; shape: 'circle'; ahead: number; above: number; radius: number }
  | { name: string; shape: 'polygon'; points: { ahead: number; above: number }[] };

/** Where on the car a tub may stand, as far as the case says; m, outside of its skin, the car at rest. */
export interface Envelope {
  /** Above the track. */
  highestTop?: number;
  lowestLeg?: number;
  /** Of the axle. */
  furthestAhead?: number;
  furthestBehind?: number;
}

/** The file with a shop's priors that a case starts from, what that rests on, and what it gave. */
export interface BookInUse {
  file: string;
  /** Of the book. */
  name: string;
  /** Of the newest entry that it rests on; empty: none has one. */
  date: string;
  cars: number;
  unmarkedRuns: number;
  marks: number;
  /** What has at least one input from the book, tyres by name and the rest as `OF_THE_CAR`, and how many inputs in all. */
  tyres: string[];
  inputs: number;
  /** What the book speaks of and the case has a word of its own for, which stays. */
  own: string[];
}

/** A case, complete: what the file says, and priors where it says nothing. SI throughout. */
export interface Case {
  name: string;
  title: string;
  invented: boolean;
  /** The case file's own name, without the folders: results are handed on, and folders are no one's business. */
  file: string;
  /** In which its papers speak: those in which most of its lengths are written. */
  units: LengthUnits;
  car: Record<CarInput, UncertainInput>;
  /** relative: `car.finishAcceleration` is a factor on what the point mass gives. */
  finishAccelerationIs: 'absolute' | 'relative';
  gripLostChance: number;
  /** m */
  distance: number;
  /** pressure Pa gauge, lengths m. */
  build: { tyre: string; pressure: number; axleHeight?: number; reserve: number };
  tyres: CaseTyre[];
  tubs: CaseTub[];
  /** The tub that is in the car already, and its inside top, m above the track. */
  existing?: { tub: CaseTub; topHeight: number };
  /** m above the track, ascending; left out when the height is to be searched. */
  heights?: number[];
  hardPoints: HardPoint[];
  /** m, from the wheel's mounting face inward to the panel or frame rail, outward to the body side. */
  sideRoom?: { innerPanel: number; bodySide: number; sidePlay: number; sideReserve: number };
  envelope: Envelope;
  accept: { runRisk: number; seasonRisk: number };
  simulation: { draws: number; cars: number; seed: number };
  /** A file with what was learned stands in place of priors: its name, and the measurements that it comes from. */
  learned?: { file: string; from: string[] };
  /** The shop's own priors stand in place of the program's. */
  book?: BookInUse;
  runLog?: RunLog;
  /** Exact defaults in use. What is assumed of an uncertain number stands with that number. */
  assumed: AssumedValue[];
  /** Files named from the case's folder. */
  warnings: Issue[];
}
