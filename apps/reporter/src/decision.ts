import type { DecidedResult, Result } from '@tubgap/results';
import {
  alongText,
  angleHeading,
  angleWords,
  oneIn,
  percentText,
  psiText,
  sixteenths,
  wholeText,
} from '@tubgap/units';
import {
  boundCell,
  carSpreadWords,
  comesClose,
  inputWords,
  leastLine,
  riskWords,
  row,
  seasonWords,
  subjectOf,
  wrapped,
} from '@tubgap/wording';
import Table from 'cli-table3';
import { chosenPlaceText } from './best-place.ts';
import { askedHeight, reportedChanges } from './change-words.ts';
import { ANEW, askedHeightWords, existingRows } from './existing-tub.ts';
import { noHeightWord } from './fit-words.ts';
import { hardPointWords } from './hard-points/hard-words.ts';
import { LEARNED_BY } from './learned-by.ts';
import { noTubOutlook, noTubWords, tubNote } from './no-tub.ts';
import { type ChosenTub, chosenTub, isSetHigher, setOutGaps } from './sheets/chosen-tub.ts';
import { limitingGap } from './tables.ts';
import { choiceWords } from './tub-choice.ts';

function summary(result: DecidedResult, chosen: ChosenTub): string[] {
  const { index: t } = chosen;
  const { tub, height, setOut, asSetOut } = chosen;
  const gap = limitingGap(result, t);
  const least = sixteenths(height.topHeight, 'up');
  const runs = result.tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0);
  const asked = askedHeightWords(result);
  return [
    row(
      'BUILD',
      `${tub.name} tub (${sixteenths(tub.diameter, 'down')} inside), top set out at ${sixteenths(setOut, 'up')} above the track, ${isSetHigher(chosen) ? `${least} at the least` : 'the least that will do'}, centre ${alongText(tub.centreForward, 'inch')}`,
    ),
    ...(asked === undefined ? [] : [row('you asked', asked)]),
    row(
      'measured',
      `with ${result.build.tyre} at ${psiText(result.build.pressure)}, standing still, built and loaded as the case says`,
    ),
    row(
      'Risk, a run',
      `${isSetHigher(chosen) ? `at ${sixteenths(setOut, 'up')}: ` : ''}${comesClose(result.build.reserve)} in ${riskWords(asSetOut.runRisk, 'run')} (accepted: ${oneIn(result.accept.runRisk)})`,
    ),
    row('', `real contact: ${riskWords(asSetOut.contactRisk, 'run')}`),
    row(
      'a season',
      `${wholeText(runs)} runs: ${seasonWords(asSetOut, result.tyres)} (accepted: ${oneIn(result.accept.seasonRisk)})`,
    ),
    ...(isSetHigher(chosen) ? [leastLine(height, subjectOf(result))] : []).map(({ label, text }) =>
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
function outlook(result: Result): string[] {
  const changes = reportedChanges(result, 4);
  const words =
    changes.length > 0
      ? changes.map((change) => `${change.label}: ${askedHeight(change)}`).join('; ')
      : 'see changes.csv';
  const assumed = result.inputs.filter((input) => input.source === 'assumed').length;
  const [first, second] = result.measureNext ?? [];
  const { carSpread } = result;
  const place = chosenPlaceText(result);
  const notches = (result.notches ?? []).map(
    (notch) =>
      `the notch ${angleWords(notch.angle)} costs ${notch.height > 1e-6 ? `${sixteenths(notch.height, 'up')} of` : 'no'} height; at this height it may be ${sixteenths(notch.deepest, 'down')} deep (it is ${sixteenths(notch.depth, 'up')})`,
  );
  return [
    ...(place === undefined ? [] : [row('Place', place)]),
    ...hardPointWords(result).map((text) => row('Hard points', text)),
    row(
      'Assumed',
      `${assumed} of ${result.inputs.length} inputs are assumed, not measured on this car: listed in READ-ME.txt of the results`,
    ),
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

function gapsToSee(result: Result, chosen: ChosenTub): string {
  const table = new Table({
    style: { head: [], border: [] },
    colAligns: result.build.staticGapAngles.map(() => 'right' as const),
  });
  table.push(
    result.build.staticGapAngles.map((angle) => angleHeading(angle)),
    setOutGaps(result, chosen).map((gap) => sixteenths(gap, 'up')),
  );
  return table.toString();
}

function tubTable(result: Result): string {
  const table = new Table({
    head: ['tub', 'inside', 'top at least', 'gap 15° ahead', 'a run', 'real contact', 'a season', ''],
    style: { head: [], border: [] },
    colAligns: ['left', 'right', 'right', 'right', 'right', 'right', 'right', 'left'],
    wordWrap: true,
    colWidths: [null, null, null, null, null, null, null, 34],
  });
  const ahead = result.build.staticGapAngles.findIndex((angle) => Math.abs(angle - Math.PI / 12) < 1e-6);
  result.picks.forEach((pick, t) => {
    const tub = result.tubs[t]!;
    const { height } = pick;
    const note = tubNote(result, t);
    const inside = sixteenths(tub.diameter, 'down');
    if (height === undefined)
      table.push([pick.tub, inside, noHeightWord(pick.verdict), '', '', '', '', note]);
    else {
      table.push([
        pick.tub,
        inside,
        sixteenths(height.topHeight, 'up'),
        sixteenths(height.staticGaps[ahead]!, 'up'),
        boundCell(height.runRisk.high),
        boundCell(height.contactRisk.high),
        boundCell(height.seasonRisk.high),
        note,
      ]);
    }
  });
  return table.toString();
}

const CAUTION =
  'Tyre contact at speed can kill. These figures come from a model with assumed inputs. The sanctioning body’s rules, the ' +
  'tyre maker’s limits and a qualified chassis builder come first. Check the gaps on the car, look for marks after the ' +
  'first runs, and stop when you find one.';

/** The decision itself in words and sixteenths of an inch, for the terminal. */
export function decisionRows(result: DecidedResult): string {
  const { case: source } = result;
  const chosen = chosenTub(result);
  const rows =
    chosen === undefined
      ? noTubWords(result).map(({ label, text }) => row(label, text))
      : summary(result, chosen);
  const standing = existingRows(result);
  const title = `${source.title}${source.invented ? '  [an invented car]' : ''}`;
  const first =
    standing.length === 0
      ? []
      : [...standing.map(({ label, text }) => row(label, text)), '', `  ${ANEW}:`, ''];
  return ['', title, '', ...first, ...rows, ''].join('\n');
}

/** The decision, and all that is said of it. */
export const decisionText = (result: Result): string => decisionRows(result) + decisionRest(result);

/** What is said below the decision. */
export function decisionRest(result: Result): string {
  const chosen = chosenTub(result);
  const parts: string[] = [];
  if (chosen === undefined) {
    parts.push(...noTubOutlook(result).map(({ label, text }) => row(label, text)), '');
  } else {
    parts.push(
      ...outlook(result),
      '',
      `  Gap to see standing still with the top at ${sixteenths(chosen.setOut, 'up')}, from the tyre’s point at that angle straight to the nearest\n  place of the tub:`,
      gapsToSee(result, chosen),
      '',
    );
  }
  parts.push(
    '  Every tub at its lowest top height for the accepted risk (≤: surely no more often than):',
    tubTable(result),
    '',
    ...(result.draws < result.drawsAllowed
      ? [
          `  Stopped after ${wholeText(result.draws)} of ${wholeText(result.drawsAllowed)} simulated runs: by the weighted runs more could move no pick by more than 1/16 in.`,
        ]
      : []),
    ...result.bounds.map(
      (bound) =>
        `  Note: the tightest runs of ${bound.tyre} lie at the ${bound.end} end of what the case allows for “${inputWords(bound.label)}”. That end decides; what lies past it is not known.`,
    ),
    ...result.cautions.map((caution) => `  Note: ${wrapped(caution.text, '  ')}`),
    ...result.warnings.map((warning) => `  Note: ${wrapped(warning, '  ')}`),
    '',
    `  ${wrapped(CAUTION, '  ')}`,
    '',
  );
  return parts.join('\n');
}
