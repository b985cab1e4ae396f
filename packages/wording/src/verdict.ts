import {
  type CarSpread,
  type GapFigures,
  type LeastHeight,
  type Move,
  sideWords,
  type Verdict,
} from '@tubgap/simulation';
import { angleWords, figuresIn, type LengthUnits, oneIn, wholeText } from '@tubgap/units';
import { carSpreadWords } from './car-spread.ts';
import { comesClose, riskWords } from './risk.ts';
import { type SeasonRuns, seasonWords } from './season.ts';

/** One line of a verdict: what it is about, and what is said. */
export interface ReportLine {
  label: string;
  text: string;
}

/** A verdict with what is known beside it. */
export interface VerdictReport {
  verdict: Verdict;
  /** The least height that will do, where the verdict is on the one that is set out. */
  least?: LeastHeight | undefined;
  tight?: GapFigures | undefined;
  /** Null where too few draws tell; left out where nobody looked. */
  carSpread?: CarSpread | null | undefined;
  /** Null where a move was looked for and none was found; left out where none was looked for. */
  move?: Move | null | undefined;
}

/** What the case says that a verdict's words need. */
export interface VerdictSubject {
  /** Gap to be kept, m. */
  reserve: number;
  /** Of tyres whose class has a gap of its own to be kept, by name, m. */
  ownReserves?: Readonly<Record<string, number>>;
  tyres: SeasonRuns;
  /** In which its lengths are told; left out: inches. */
  units?: LengthUnits | undefined;
}

type OwnGap = Readonly<{ reserve?: number | undefined }>;

/** Gap to be kept in the runs of a tyre, m. */
export const reserveWith = ({ reserve, ownReserves }: VerdictSubject, tyre: string): number =>
  ownReserves?.[tyre] ?? reserve;

/** What the words of a verdict need of its case. */
export const subjectOf = ({
  build,
  tyres,
  units,
}: Readonly<{
  build: Readonly<{ reserve: number }>;
  /** Of a case, or of its result. */
  tyres: readonly (SeasonRuns[number] &
    Readonly<{ own?: OwnGap | undefined; inClass?: OwnGap | undefined }>)[];
  units?: LengthUnits | undefined;
}>): VerdictSubject => ({
  reserve: build.reserve,
  ownReserves: Object.fromEntries(
    tyres.flatMap(({ name, own, inClass }) => {
      const reserve = (own ?? inClass)?.reserve;
      return reserve === undefined ? [] : [[name, reserve]];
    }),
  ),
  tyres,
  units,
});

const NEGLIGIBLE = 1e-4;

const STANDING_WORDS = {
  within: 'within what is accepted',
  'not within': 'NOT within what is accepted',
  'not known': 'whether it is within what is accepted is NOT KNOWN from so few runs',
} as const;

const LABELS = { within: 'WITHIN', 'not within': 'NOT WITHIN', 'not known': 'NOT KNOWN' } as const;

/** The tub that was asked about and how it stands, in one line. @param isSetOut  whether it is set out there, and does not stand yet */
export function standingWords(
  { tub, topHeight, centreForward, standing }: Verdict,
  units?: LengthUnits,
  isSetOut = false,
): string {
  const { length, along } = figuresIn(units);
  return `${tub} tub, top ${length(topHeight, isSetOut ? 'up' : 'down')} above the track, centre ${along(centreForward)}: ${STANDING_WORDS[standing]}`;
}

/** What the car lacks of room for a tub; empty when it lacks none. */
const roomWords = (missing: readonly number[], units?: LengthUnits): string =>
  missing.length === 0
    ? ''
    : ` (the car lacks ${missing.map((lacks) => figuresIn(units).length(lacks, 'up')).join(' and ')} of room for that)`;

/** How far the tub has to go up, or why no height helps: 'raise it by 1 7/16 in, to 40 1/16 in'. */
export function raiseWords(
  { topHeight, heightNeeded, whyNoHeight, narrowRuns, drawsNeeded, carsNeeded, roomMissing }: Verdict,
  units?: LengthUnits,
): string {
  const { length, tapeDifference } = figuresIn(units);
  if (heightNeeded !== undefined) {
    const by = length(tapeDifference([heightNeeded, 'up'], [topHeight, 'down']), 'up');
    const to = `${length(heightNeeded, 'up')}${roomWords(roomMissing, units)}`;
    return narrowRuns > 0
      ? `a larger tub, or another place for its centre, is what to look for first: in ${oneIn(narrowRuns)} runs the tyre comes too close to the sides of this one, until its ends stand above the tyre’s shoulders, ${by} higher, top ${to}`
      : `raise it by ${by}, to ${to}`;
  }
  if (drawsNeeded > 0 || carsNeeded > 0) return `how far it must go up is not known: ${whyNoHeight}`;
  return whyNoHeight ?? '';
}

function moveWords(move: Move | null | undefined, stands: number, units?: LengthUnits): string[] {
  const { length, along } = figuresIn(units);
  if (move === undefined) return [];
  if (move === null) return ['moving it along the car alone does not do it'];
  const { by, centreForward, topHeight, roomMissing } = move;
  const height =
    topHeight > stands + NEGLIGIBLE ? `raise it to ${length(topHeight, 'up')}` : 'leave the height';
  const way = `move it ${length(Math.abs(by), 'nearest')} ${by > 0 ? 'forward' : 'back'}`;
  return [`or ${height} and ${way}: centre ${along(centreForward)}${roomWords(roomMissing, units)}`];
}

/** What would bring a tub within what is accepted. */
export const TO_MEND = 'To mend';

function mendLine({ verdict, move }: VerdictReport, { units }: VerdictSubject): ReportLine {
  const { length, tapeDifference, wordsOf } = figuresIn(units);
  const { standing, heightNeeded, topHeight, sides } = verdict;
  if (standing === 'within') {
    const spare =
      heightNeeded === undefined ? 0 : Math.max(0, tapeDifference([topHeight, 'down'], [heightNeeded, 'up']));
    return {
      label: TO_MEND,
      text: `nothing; the lowest height that is within is ${length(heightNeeded ?? topHeight, 'up')}${spare < NEGLIGIBLE ? ', where it stands' : `, ${length(spare, 'down')} lower`}`,
    };
  }
  const isUp = heightNeeded === undefined || heightNeeded > topHeight + NEGLIGIBLE;
  const words = [
    ...(sides.length === 0 ? [] : [`another tub or wheel: ${wordsOf(sideWords(sides))}`]),
    ...(isUp ? [raiseWords(verdict, units)] : []),
    ...moveWords(move, topHeight, units),
    ...(standing === 'not known' ? ['or simulate more runs to know'] : []),
  ];
  return { label: TO_MEND, text: words.join('; ') };
}

/** What a tub that is set out higher than it must be would risk at the least height that will do. */
export const leastLine = ({ topHeight, ...risks }: LeastHeight, subject: VerdictSubject): ReportLine => ({
  label: 'at the least',
  text: `${figuresIn(subject.units).length(topHeight, 'up')}: ${comesClose(reserveWith(subject, risks.limitingTyre), subject.units)} in ${riskWords(risks.runRisk, 'run')}; real contact: ${riskWords(risks.contactRisk, 'run')}; a season: ${seasonWords(risks, subject.tyres)}`,
});

const isSetHigher = (least: LeastHeight, { topHeight }: Verdict): boolean =>
  topHeight > least.topHeight + NEGLIGIBLE;

/** Which height it is where none was given. */
const heightLines = ({ verdict, least }: VerdictReport, { units }: VerdictSubject): ReportLine[] =>
  least === undefined
    ? []
    : [
        {
          label: 'Height',
          text: `none was given: this is the one that every paper of a pick sets out, ${isSetHigher(least, verdict) ? `${figuresIn(units).length(least.topHeight, 'up')} is the least that will do` : 'the least that will do'}`,
        },
      ];

function riskLines({ verdict, least, carSpread }: VerdictReport, subject: VerdictSubject): ReportLine[] {
  const { accepted, runRisk, contactRisk, limitingTyre, tyres, belowRest, lowestHeight } = verdict;
  const { units } = subject;
  const reserve = reserveWith(subject, limitingTyre);
  const runs = subject.tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0);
  const others = tyres.filter(({ tyre, standing }) => tyre !== limitingTyre && standing !== 'within');
  return [
    ...(belowRest
      ? [
          {
            label: 'At rest',
            text: `lower than ${figuresIn(units).length(lowestHeight, 'up')}, the lowest that clears at rest; the risks below are those at that height, and here they are greater`,
          },
        ]
      : []),
    {
      label: 'Risk, a run',
      text: `${limitingTyre} ${comesClose(reserve, units)} in ${riskWords(runRisk, 'run')} (accepted: ${oneIn(accepted.runRisk)}); real contact: ${riskWords(contactRisk, 'run')}`,
    },
    ...others.map(({ tyre, runRisk: risk, accepted: own }) => ({
      label: '',
      text: `${tyre}: ${riskWords(risk, 'run')}${own === undefined ? '' : ` (accepted: ${oneIn(own)})`}`,
    })),
    ...(carSpread === undefined
      ? []
      : [
          {
            label: 'cars like it',
            text: carSpreadWords(carSpread),
          },
        ]),
    {
      label: 'a season',
      text: `${wholeText(runs)} runs: ${seasonWords(verdict, subject.tyres)} (accepted: ${oneIn(accepted.seasonRisk)})`,
    },
    ...(least !== undefined && isSetHigher(least, verdict) ? [leastLine(least, subject)] : []),
  ];
}

/** A verdict in lines: how the tub stands, its risks, where it is tight, and what would bring it there. */
export function verdictLines(report: VerdictReport, subject: VerdictSubject): ReportLine[] {
  const { verdict, tight } = report;
  const { gapLeft } = figuresIn(subject.units);
  return [
    {
      label: LABELS[verdict.standing],
      text: standingWords(verdict, subject.units, report.least !== undefined),
    },
    ...heightLines(report, subject),
    ...riskLines(report, subject),
    ...(tight === undefined
      ? []
      : [
          {
            label: 'Tight',
            text: `${verdict.limitingTyre}, ${tight.tightestMoment}, ${angleWords(tight.tightestAngle)}; smallest gap of an ordinary run ${gapLeft(tight.p50)}, of one in twenty ${gapLeft(tight.p05)}`,
          },
        ]),
    mendLine(report, subject),
  ];
}
