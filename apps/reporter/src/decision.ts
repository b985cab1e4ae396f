import type { Result } from '@tubgap/results';
import {
  angleWords,
  centreWords,
  inputWords,
  oneIn,
  riskWords,
  row,
  sixteenths,
  wholeText,
  wrapped,
} from '@tubgap/wording';
import Table from 'cli-table3';
import { hardPointWords } from './hard-points/hard-words.ts';
import { noTubWords, tubNote } from './no-tub.ts';
import { limitingGap } from './tables.ts';

function summary(result: Result, t: number): string[] {
  const pick = result.picks[t]!;
  const height = pick.height!;
  const tub = result.tubs[t]!;
  const gap = limitingGap(result, t);
  const psi = (result.build.pressure / 6894.757293168361).toFixed(1);
  const runs = result.tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0);
  const assumed = result.inputs.filter((input) => input.source === 'assumed').length;
  const larger = result.largerGrowth[t];
  return [
    row(
      'BUILD',
      `${tub.name} tub (${sixteenths(tub.diameter, 'down')} inside), top ${sixteenths(height.topHeight, 'up')} above the track, ${centreWords(tub.centreForward)}`,
    ),
    row(
      'measured',
      `with ${result.build.tyre} at ${psi} psi, standing still, built and loaded as the case says`,
    ),
    row(
      'Risk, a run',
      `goes under the ${sixteenths(result.build.reserve, 'up')} reserve in ${riskWords(height.runRisk, 'run')} (accepted: ${oneIn(result.accept.runRisk)})`,
    ),
    row('', `real contact: ${riskWords(height.contactRisk, 'run')}`),
    row(
      'a season',
      `${runs} runs: ${riskWords(height.seasonRisk, 'season')} (accepted: ${oneIn(result.accept.seasonRisk)})`,
    ),
    row(
      'Tight',
      `${height.limitingTyre}, ${gap?.tightestMoment ?? ''}, ${gap === undefined ? '' : angleWords(gap.tightestAngle)}; decided by the ${height.decidedBy}`,
    ),
    ...hardPointWords(result).map((told) => row('Hard points', told)),
    row(
      'Assumed',
      `${assumed} of ${result.inputs.length} inputs are assumed, not measured on this car: listed in READ-ME.txt of the results`,
    ),
    ...outlook(result, larger),
  ];
}

/** A change of height in words: '1/4 in less height'. Less is rounded down, more up. */
function heightWords(change: number): string {
  if (Math.abs(change) < 0.0254 / 32) return 'no change of height';
  return change > 0
    ? `${sixteenths(change, 'up')} more height`
    : `${sixteenths(-change, 'down')} less height`;
}

/** What would change the pick, what to measure first, and how much cars differ. */
function outlook(result: Result, larger: number | null | undefined): string[] {
  const changes = (result.changes ?? []).filter((change) => Math.abs(change.heightChange) > 0.0254 / 16);
  const told =
    changes.length > 0
      ? changes
          .toSorted((a, b) => Math.abs(b.heightChange) - Math.abs(a.heightChange))
          .slice(0, 4)
          .map((change) => `${change.label}: ${heightWords(change.heightChange)}`)
          .join('; ')
      : larger === null || larger === undefined
        ? 'see changes.csv'
        : `growth one quarter larger than assumed: ${heightWords(larger)}`;
  const [first, second] = result.measureNext ?? [];
  const { carSpread } = result;
  const notches = (result.notches ?? []).map(
    (notch) =>
      `the notch ${angleWords(notch.angle)} costs ${notch.height > 1e-6 ? `${sixteenths(notch.height, 'up')} of` : 'no'} height; at this height it may be ${sixteenths(notch.deepest, 'down')} deep (it is ${sixteenths(notch.depth, 'up')})`,
  );
  const percent = (share: number): string => `${Math.round(100 * share)} %`;
  return [
    row('Would change', told),
    ...notches.map((told) => row('Notch', told)),
    ...(first === undefined
      ? []
      : [
          row(
            'Measure first',
            `${inputWords(first.label)} (makes ${percent(first.share)} of what sets one such car apart from another)` +
              (second === undefined ? '' : `, then ${inputWords(second.label)} (${percent(second.share)})`),
          ),
        ]),
    ...(carSpread === undefined
      ? []
      : [
          row(
            'Cars differ',
            `the tightest ${percent(carSpread.worstShare)} of such cars make ${carSpread.worstTouches > 0.99 ? 'nearly all' : percent(carSpread.worstTouches)} of the touches ` +
              `(${oneIn(carSpread.worst)} runs); the rest ${carSpread.rest > 0 ? `touch in ${oneIn(carSpread.rest)} runs` : 'hardly ever touch'}`,
          ),
        ]),
  ];
}

function gapsToSee(result: Result, t: number): string {
  const height = result.picks[t]!.height!;
  const table = new Table({
    style: { head: [], border: [] },
    colAligns: result.build.staticGapAngles.map(() => 'right' as const),
  });
  table.push(
    result.build.staticGapAngles.map((angle) => {
      const degrees = Math.round((angle * 180) / Math.PI);
      if (degrees === 0) return 'top';
      return degrees > 0 ? `${degrees}° fwd` : `${-degrees}° back`;
    }),
    height.staticGaps.map((gap) => sixteenths(gap, 'up')),
  );
  return table.toString();
}

function tubTable(result: Result): string {
  const table = new Table({
    head: ['tub', 'inside', 'top at least', 'gap 15° fwd', 'a run', 'real contact', 'a season', ''],
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
    if (height === undefined) table.push([pick.tub, inside, 'none', '', '', '', '', note]);
    else {
      table.push([
        pick.tub,
        inside,
        sixteenths(height.topHeight, 'up'),
        sixteenths(height.staticGaps[ahead]!, 'up'),
        `≤ ${oneIn(height.runRisk.high)}`,
        `≤ ${oneIn(height.contactRisk.high)}`,
        `≤ ${oneIn(height.seasonRisk.high)}`,
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

/** The decision in words and sixteenths of an inch, for the terminal. */
export function decisionText(result: Result): string {
  const { case: source, chosen } = result;
  const parts: string[] = ['', `${source.title}${source.invented ? '  [an invented car]' : ''}`, ''];
  if (chosen === null) {
    parts.push(...noTubWords(result).map(({ label, text }) => row(label, text)), '');
  } else {
    parts.push(
      ...summary(result, chosen),
      '',
      '  Gap to see standing still, from the tyre’s point at that angle straight to the nearest place of the tub:',
      gapsToSee(result, chosen),
      '',
    );
  }
  parts.push(
    '  Every tub at its lowest top height for the accepted risk (risks are what they may be at worst, 95 %):',
    tubTable(result),
    '',
    ...(result.draws < result.drawsAllowed
      ? [
          `  Stopped after ${wholeText(result.draws)} of ${wholeText(result.drawsAllowed)} simulated runs: more could move no pick by more than 1/16 in.`,
        ]
      : []),
    ...result.bounds.map(
      (bound) =>
        `  Note: the tightest runs of ${bound.tyre} crowd against the ${bound.end} end of the law of “${inputWords(bound.label)}”. Its hard end decides; past it the risk is not known.`,
    ),
    ...result.cautions.map((caution) => `  Note: ${wrapped(caution.text, '  ')}`),
    ...result.warnings.map((warning) => `  Note: ${wrapped(warning, '  ')}`),
    '',
    `  ${wrapped(CAUTION, '  ')}`,
    '',
  );
  return parts.join('\n');
}
