import { bookInUseWords } from '@tubgap/casefile';
import { type DecidedResult, limitsOf, type Result } from '@tubgap/results';
import { angleHeading, angleWords, oneIn, percentText, SIXTEENTH, wholeText } from '@tubgap/units';
import {
  BLANK,
  type Block,
  boundWords,
  carSpreadWords,
  comesClose,
  figureTable,
  heading,
  inputWords,
  leastLine,
  line,
  paragraph,
  riskWords,
  row,
  rowsOf,
  SURELY,
  seasonWords,
  strongRow,
} from '@tubgap/wording';
import { chosenPlaceText } from './best-place.ts';
import { askedHeight, reportedChanges } from './change-words.ts';
import { ANEW, askedHeightWords, existingRows } from './existing-tub.ts';
import { figuresOf, subjectIn } from './figures-of.ts';
import { noHeightWord } from './fit-words.ts';
import { hardPointWords } from './hard-points/hard-words.ts';
import { LEARNED_BY } from './learned-by.ts';
import { noTubOutlook, noTubWords, tubNote } from './no-tub.ts';
import { type ChosenTub, chosenTub, isSetHigher, setOutGaps } from './sheets/chosen-tub.ts';
import { limitingGap } from './tables.ts';
import { choiceWords } from './tub-choice.ts';

/** Where the gap is seen that is nearest to the tight place, and how much of it. */
function gapToSee(result: DecidedResult, chosen: ChosenTub): string {
  const { length } = figuresOf(result);
  const tight = limitingGap(result, chosen.index)?.tightestAngle ?? 0;
  const gaps = setOutGaps(result, chosen);
  const nearest = result.build.staticGapAngles
    .map((angle, i) => ({ angle, gap: gaps[i]! }))
    .reduce((best, one) => (Math.abs(one.angle - tight) < Math.abs(best.angle - tight) ? one : best));
  return `${length(nearest.gap, 'up')} or more to see standing still, ${angleWords(nearest.angle)}, near where it is tight`;
}

/** What is read out on the phone: which tub and how high, the gap to see and where, how often it comes too close. */
const readOut = (result: DecidedResult, chosen: ChosenTub): Block[] => [
  strongRow(
    'BUILD',
    `${chosen.tub.name} tub, top set out at ${figuresOf(result).length(chosen.setOut, 'up')} above the track`,
  ),
  strongRow('GAP', gapToSee(result, chosen)),
  strongRow(
    'TOO CLOSE',
    `a run ${comesClose(limitsOf(result, chosen.asSetOut.limitingTyre).reserve, result.case.units)}: ${boundWords(chosen.asSetOut.runRisk.high)}`,
  ),
];

function summary(result: DecidedResult, chosen: ChosenTub): Block[] {
  const { length, along, pressureText } = figuresOf(result);
  const { index: t } = chosen;
  const { tub, height, setOut, asSetOut } = chosen;
  const { reserve, runRisk } = limitsOf(result, asSetOut.limitingTyre);
  const gap = limitingGap(result, t);
  const least = length(height.topHeight, 'up');
  const runs = result.tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0);
  const asked = askedHeightWords(result);
  return [
    ...readOut(result, chosen),
    BLANK,
    row(
      'Tub',
      `${length(tub.diameter, 'down')} inside, ${isSetHigher(chosen) ? `top ${least} at the least` : 'that top is the least that will do'}, centre ${along(tub.centreForward)}`,
    ),
    ...(asked === undefined ? [] : [row('you asked', asked)]),
    row(
      'measured',
      `with ${result.build.tyre} at ${pressureText(result.build.pressure)}, standing still, built and loaded as the case says`,
    ),
    row(
      'Risk, a run',
      `${isSetHigher(chosen) ? `at ${length(setOut, 'up')}: ` : ''}${comesClose(reserve, result.case.units)} in ${riskWords(asSetOut.runRisk, 'run')} (accepted: ${oneIn(runRisk)})`,
    ),
    row('', `real contact: ${riskWords(asSetOut.contactRisk, 'run')}`),
    row(
      'a season',
      `${wholeText(runs)} runs: ${seasonWords(asSetOut, result.tyres)} (accepted: ${oneIn(result.accept.seasonRisk)})`,
    ),
    ...(isSetHigher(chosen) ? [leastLine(height, subjectIn(result))] : []).map(({ label, text }) =>
      row(label, text),
    ),
    row(
      'Tight',
      `${height.limitingTyre}, ${gap?.tightestMoment ?? ''}, ${gap === undefined ? '' : angleWords(gap.tightestAngle)}; decided by the ${height.decidedBy}`,
    ),
    ...choiceWords(result).map(({ label, text }) => row(label, text)),
  ];
}

/** What else is near, what was assumed, what would change the pick, what to measure first, and how much cars differ. */
function outlook(result: Result): Block[] {
  const { length, wordsOf } = figuresOf(result);
  const changes = reportedChanges(result, 4);
  const words =
    changes.length > 0
      ? changes
          .map((change) => `${wordsOf(change.label)}: ${askedHeight(change, figuresOf(result))}`)
          .join('; ')
      : 'see changes.csv';
  const assumed = result.inputs.filter((input) => input.source === 'assumed').length;
  const [first, second] = result.measureNext ?? [];
  const { carSpread } = result;
  const place = chosenPlaceText(result);
  const notches = (result.notches ?? []).map(
    (notch) =>
      `the notch ${angleWords(notch.angle)} costs ${notch.height > 1e-6 ? `${length(notch.height, 'up')} of` : 'no'} height; at this height it may be ${length(notch.deepest, 'down')} deep (it is ${length(notch.depth, 'up')})`,
  );
  return [
    ...(place === undefined ? [] : [row('Place', place)]),
    ...hardPointWords(result).map((text) => row('Hard points', text)),
    row(
      'Assumed',
      `${assumed} of ${result.inputs.length} inputs are assumed, not measured on this car: listed in READ-ME.txt of the results`,
    ),
    ...(result.book === undefined ? [] : [row("Shop's book", bookInUseWords(result.book))]),
    row('Would change', words),
    ...notches.map((text) => row('Notch', text)),
    ...(first === undefined
      ? []
      : [
          row(
            'Measure first',
            `${inputWords(first.label)} (${LEARNED_BY[first.each]}; it makes ${percentText(first.share)} of the spread in height)` +
              (second === undefined
                ? ''
                : `, then ${inputWords(second.label)} (${LEARNED_BY[second.each]}; ${percentText(second.share)})`),
          ),
        ]),
    ...(carSpread === undefined ? [] : [row('Cars differ', carSpreadWords(carSpread))]),
  ];
}

/** The gaps to see by the angle at the axle, side by side where there is room. */
const gapsToSee = (result: Result, chosen: ChosenTub): Block => ({
  kind: 'table',
  head: result.build.staticGapAngles.map((angle) => angleHeading(angle)),
  rows: [setOutGaps(result, chosen).map((gap) => figuresOf(result).length(gap, 'up'))],
  named: false,
});

function tubTable(result: Result): Block {
  const { length } = figuresOf(result);
  const ahead = result.build.staticGapAngles.findIndex((angle) => Math.abs(angle - Math.PI / 12) < 1e-6);
  const rows = result.picks.map(({ tub, verdict, height }, t) => {
    const inside = length(result.tubs[t]!.diameter, 'down');
    if (height === undefined) return [tub, inside, noHeightWord(verdict), '', '', '', ''];
    const { topHeight, staticGaps, runRisk, contactRisk, seasonRisk } = height;
    return [
      tub,
      inside,
      length(topHeight, 'up'),
      length(staticGaps[ahead]!, 'up'),
      ...[runRisk, contactRisk, seasonRisk].map(({ high }) => oneIn(high)),
    ];
  });
  return figureTable(
    ['tub', 'inside', 'top at least', 'gap 15° ahead', 'a run*', 'real contact*', 'a season*'],
    rows,
    result.picks.map((_, t) => tubNote(result, t)),
  );
}

const CAUTION =
  'Tyre contact at speed can kill. These figures come from a model with assumed inputs. The sanctioning body’s rules, the ' +
  'tyre maker’s limits and a qualified chassis builder come first. Check the gaps on the car, look for marks after the ' +
  'first runs, and stop when you find one.';

/** The decision itself in words and on the marks of a tape, for the terminal. */
export function decisionRows(result: DecidedResult): Block[] {
  const { case: source } = result;
  const chosen = chosenTub(result);
  const rows =
    chosen === undefined
      ? noTubWords(result).map(({ label, text }, i) => (i === 0 ? strongRow(label, text) : row(label, text)))
      : summary(result, chosen);
  const standing = existingRows(result);
  const title = `${source.title}${source.invented ? '  [an invented car]' : ''}`;
  const first = standing.length === 0 ? [] : [...rowsOf(standing), BLANK, line(`  ${ANEW}:`), BLANK];
  return [BLANK, heading(title), BLANK, ...first, ...rows];
}

/** The decision, and all that is said of it. */
export const decisionText = (result: Result): Block[] => [...decisionRows(result), ...decisionRest(result)];

/** What is said below the decision. */
export function decisionRest(result: Result): Block[] {
  const { length, wordsOf } = figuresOf(result);
  const chosen = chosenTub(result);
  const about =
    chosen === undefined
      ? rowsOf(noTubOutlook(result))
      : [
          ...outlook(result),
          row('Surely', SURELY),
          BLANK,
          paragraph(
            `Gap to see standing still with the top at ${length(chosen.setOut, 'up')}, from the tyre’s point at that angle straight to the nearest place of the tub:`,
          ),
          BLANK,
          gapsToSee(result, chosen),
        ];
  const stopped =
    result.draws < result.drawsAllowed
      ? [
          `Stopped after ${wholeText(result.draws)} of ${wholeText(result.drawsAllowed)} simulated runs: by the weighted runs more could move no pick by more than ${length(SIXTEENTH, 'up')}.`,
        ]
      : [];
  const bounds = result.bounds.map(
    ({ tyre, end, label }) =>
      `Note: the tightest runs of ${tyre} lie at the ${end} end of what the case allows for “${inputWords(label)}”. That end decides; what lies past it is not known.`,
  );
  const notes = [...result.cautions.map(({ text }) => text), ...result.warnings].map(
    (text) => `Note: ${wordsOf(text)}`,
  );
  return [
    ...about,
    BLANK,
    paragraph('Every tub at its lowest top height for the accepted risk (* surely no more often than):'),
    BLANK,
    tubTable(result),
    BLANK,
    ...[...stopped, ...bounds, ...notes].map(paragraph),
    BLANK,
    paragraph(CAUTION),
  ];
}
