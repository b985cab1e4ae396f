import { type Markup, markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { limitingGap } from '../tables.ts';
import { angleWords, wholeText } from '../words.ts';
import { angleHeading, centrePlace, chance, inches, inchesAndMm, pressureText } from './measures.ts';
import { list } from './parts.ts';

type Risk = Result['risks'][number][number][number];

/** A risk for a reader without statistics: what to expect, what it may be at worst, what was accepted. */
function riskText(risk: Risk, event: string, what: string, accepted?: number): Markup {
  const expected =
    risk.estimate === 0
      ? markup`none of ${wholeText(risk.events)} simulated ${event}s ${what}`
      : markup`${chance(risk.estimate)} ${event}s ${what}`;
  return markup`${expected}, at worst <b>${chance(risk.high)}</b>${accepted !== undefined && ` (accepted: ${chance(accepted)})`}`;
}

const CAUTION = markup`<p class="caution"><b>Tyre contact at speed can kill.</b> A model’s figures, not your car’s. The sanctioning body’s
rules, the tyre maker’s limits and a qualified chassis builder come first. Check the gaps before the car runs, look for
marks after the first runs, and stop when you find one.</p>`;

/** Hub angles of the gaps on the first screen and in the side view, degrees. */
export const SEEN_ANGLES = [0, 15, 30];

/** Gaps to see of a pick at some of the angles: angle in rad and gap in m. */
export function gapsToSee(result: Result, tub: number): { angle: number; gap: number }[] {
  const gaps = result.picks[tub]?.height?.staticGaps ?? [];
  return SEEN_ANGLES.flatMap((degrees) => {
    const k = result.build.staticGapAngles.findIndex(
      (angle) => Math.abs(angle - (degrees * Math.PI) / 180) < 1e-6,
    );
    const gap = gaps[k];
    return gap === undefined ? [] : [{ angle: result.build.staticGapAngles[k]!, gap }];
  });
}

const mm = (metres: number): number => Math.ceil(metres * 1000 - 1e-6);

const row = (name: string, text: Markup): Markup => markup`<dt>${name}</dt><dd>${text}</dd>`;

function picked(result: Result, t: number): Markup {
  const tub = result.tubs[t]!;
  const height = result.picks[t]!.height!;
  const gap = limitingGap(result, t);
  const runs = result.tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0);
  const assumed = result.inputs.filter((input) => input.source === 'assumed').length;
  const reserve = inches(result.build.reserve, 'up');
  const seen = gapsToSee(result, t).map(
    ({ angle, gap: see }, i) => markup`${i > 0 && ' · '}${angleHeading(angle)} <b>${inches(see, 'up')}</b>`,
  );
  return markup`<div class="answer"><h2>Build ${tub.name}, top at ${inches(height.topHeight, 'up')}</h2>
<p>or higher (${mm(height.topHeight)} mm): inside of the tub above the track, car standing on ${result.build.tyre} at
${pressureText(result.build.pressure)}.</p>
<dl>${[
    row('Tub', markup`${inchesAndMm(tub.diameter, 'down')} inside, centre ${centrePlace(tub.centreForward)}`),
    row('Gap to see', markup`${seen}, or more, standing still`),
    row(
      'Too close',
      riskText(height.runRisk, 'run', `leaves less than the ${reserve} to be kept`, result.accept.runRisk),
    ),
    row('Contact', riskText(height.contactRisk, 'run', 'really touches')),
    row(
      'Season',
      riskText(
        height.seasonRisk,
        'season',
        `of ${wholeText(runs)} runs gets too close`,
        result.accept.seasonRisk,
      ),
    ),
    row(
      'Tightest',
      markup`${height.limitingTyre}${gap !== undefined && markup`, ${gap.tightestMoment}, ${angleWords(gap.tightestAngle)}`}`,
    ),
    row(
      'Assumed',
      markup`<a href="#inputs">${assumed} of ${result.inputs.length} inputs</a>, not measured on this car`,
    ),
  ]}</dl>${CAUTION}</div>`;
}

/** What stands in the way of each tub, when none can be named. */
function withoutPick(result: Result): Markup {
  const draws = Math.max(...result.picks.map((pick) => pick.drawsNeeded));
  const cars = Math.max(...result.picks.map((pick) => pick.carsNeeded));
  const short = draws > 0 || cars > 0;
  const reasons = result.picks.map(
    (pick) => markup`<b>${pick.tub}</b>: ${pick.reason || 'no height found'}.`,
  );
  const mend = short
    ? [
        draws > 0 && `Simulate at least ${wholeText(draws)} runs (this one has ${wholeText(result.draws)}).`,
        cars > 0 && `Simulate at least ${wholeText(cars)} cars (this one has ${wholeText(result.cars)}).`,
      ].filter((line) => line !== false)
    : [
        'Put a wider or larger tub on the list, or move the centre of the tub along the car.',
        'Move what is fixed in the way, if a hard point is named above.',
        'Measure the inputs marked assumed below: a narrower spread asks for less room.',
        'Lower speed, more pressure within the tyre maker’s limits, or a smaller tyre ask for less room.',
        'Accept a larger risk only with the chassis builder’s consent.',
      ];
  return markup`<div class="answer"><h2>No tub can be named</h2>
<p>${
    short
      ? 'Too few runs were simulated to speak of the risk that you accept.'
      : 'None of these tubs keeps the risk that you accept.'
  } You accept ${chance(result.accept.runRisk)} a run and ${chance(result.accept.seasonRisk)} a season of eating into the
${inches(result.build.reserve, 'up')} to be kept.</p>
<h3>Why</h3>${list(reasons)}<h3>What would help</h3>${list(mend)}${CAUTION}</div>`;
}

/** The first thing on the page: what to build, how sure that is, and what it rests on. */
export const decisionPart = (result: Result): Markup =>
  result.chosen === null ? withoutPick(result) : picked(result, result.chosen);
