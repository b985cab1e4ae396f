import { type GrowthPicture, growthPicture, type Markup, markup } from '@tubgap/drawing';
import { chanceOfFew, figuresIn, INCH, percentText, SIXTEENTH, wholeText } from '@tubgap/units';
import { inputNamed, inputWords, shareWords } from '@tubgap/wording';
import { buildWords, riskWords, sureWords, worthWords } from './learn-words.ts';
import type { Learning } from './learning.ts';
import type { Outcome } from './outcome.ts';
import { CAUTION, listOf, pageOf, tableOf } from './page.ts';
import { seenPart } from './seen-page.ts';

/** The pictures of the growth curves, one a tyre. */
export function growthPictures({ source, growth, finishSpeed }: Learning): { tyre: string; svg: string }[] {
  const { units, fine, speedText } = figuresIn(source.units);
  return growth.map(({ tyre, speeds, before, after, points }, i) => {
    const top = speeds.length - 1;
    const drawn: GrowthPicture = {
      words: {
        id: `growth-${i}`,
        title: `Growth of ${tyre} by speed`,
        description: `At ${speedText(speeds[top]!)} the radius grows by ${fine(after.middle[top]!)} as learned, nine in ten between ${fine(after.low[top]!)} and ${fine(after.high[top]!)}; before, by ${fine(before.middle[top]!)}, between ${fine(before.low[top]!)} and ${fine(before.high[top]!)}. ${points.length} points from run logs.`,
      },
      speeds,
      before,
      after,
      points: points.map(({ speed, growth: value, sd, phase }) => ({
        speed,
        value,
        sd,
        free: phase === 'rolling',
      })),
      finish: finishSpeed,
      units,
    };
    return { tyre, svg: growthPicture(drawn) };
  });
}

function picksTable({ source, before, after }: Learning): Markup {
  const { length, more, tapeDifference } = figuresIn(source.units);
  const height = (of: Learning['before'], t: number): string => {
    const found = of.picks[t]?.height?.topHeight;
    return found === undefined ? 'none' : length(found, 'up');
  };
  return tableOf({
    caption:
      'Lowest top height that keeps the accepted risks, above the track with the build tyre at build pressure',
    head: ['tub', 'before', 'now', 'change', 'run risk now at the height of before'],
    rows: source.tubs.map(({ name }, t) => {
      const was = before.picks[t]?.height?.topHeight;
      const is = after.picks[t]?.height?.topHeight;
      const there = after.risks[t];
      const risk = there && Math.max(...there.touch.map(({ estimate }) => estimate));
      return [
        name,
        height(before, t),
        height(after, t),
        was === undefined || is === undefined ? '' : more(tapeDifference([is, 'up'], [was, 'up'])),
        risk == null ? '' : chanceOfFew(risk),
      ];
    }),
  });
}

const NOT_TOLD = 'not told';

function contributionTable({ source, contributions, quickHolds }: Learning): Markup {
  const { more, fine } = figuresIn(source.units);
  return tableOf({
    caption:
      'Each alone, as if it were the only measurement; they overlap and do not add up. Heights from a quick estimate, good for comparing',
    head: [
      'measurement',
      'readings',
      'moved or narrowed most',
      'of its spread left',
      'height for the accepted risk',
    ],
    rows: [
      ...contributions.parts.map(
        ({ kind, file, readings, tyre, label, spreadLeft, heightChange: change }) => [
          `${kind} (${file})`,
          String(readings),
          `${inputWords(label)}${tyre === '' ? '' : `, ${tyre}`}`,
          percentText(spreadLeft),
          quickHolds ? more(change) : NOT_TOLD,
        ],
      ),
      [
        'all together',
        String(contributions.parts.reduce((sum, { readings }) => sum + readings, 0)),
        `spread between cars ${fine(contributions.spreadAfter)}, was ${fine(contributions.spreadBefore)}`,
        '',
        quickHolds ? more(contributions.all.heightChange) : NOT_TOLD,
      ],
    ],
  });
}

function worthTable({ source, worths, quickHolds }: Learning): Markup {
  const { units, length, more, step } = figuresIn(source.units);
  return tableOf({
    caption: quickHolds
      ? 'What a measurement is worth: how far the height may fall, on average and in eight outcomes of ten'
      : 'What a measurement is worth is not told: the height hangs on where the legs of this tub end, which quick figures do not follow',
    head: ['measurement', 'saves on average', 'eight in ten outcomes'],
    rows: (quickHolds ? worths : [])
      .slice(0, 8)
      .map(({ label, expected, low, high }) => [
        label,
        expected < step / 2 ? `under ${units === 'mm' ? '1/2 mm' : '1/32 in'}` : length(expected, 'nearest'),
        `${more(low)} to ${more(high)}`,
      ]),
  });
}

function sharesTable({ shares, source, tyre }: Learning): Markup | undefined {
  const { fine } = figuresIn(source.units);
  if (shares === undefined) return undefined;
  const whole = (rows: typeof shares.before) =>
    rows.filter(({ share }) => share === 'whole closing').sort((a, b) => b.p50 - a.p50)[0];
  const moment = whole(shares.before)?.moment;
  if (moment === undefined) return undefined;
  return tableOf({
    caption: `Where the gap of ${source.tyres[tyre]!.name} goes at its tightest moment (${moment}); ranked one by one, so the rows do not add up`,
    head: [
      'part',
      'before, middle',
      'now, middle',
      'before, one run in a hundred',
      'now, one run in a hundred',
    ],
    rows: shares.before.flatMap((row, k): string[][] => {
      const now = shares.after[k]!;
      if (row.moment !== moment || Math.max(Math.abs(row.p50), Math.abs(now.p50), row.p99) < SIXTEENTH)
        return [];
      return [[shareWords(row.share), fine(row.p50), fine(now.p50), fine(row.p99), fine(now.p99)]];
    }),
  });
}

const inputsTable = ({ learned }: Learning): Markup =>
  tableOf({
    caption: 'Every input that moved: its middle value, and in brackets the range that holds nine in ten',
    head: ['input', 'before', 'now'],
    rows: learned.inputs.map(({ label, tyre, before, after }) => [
      `${inputNamed(label)}${tyre === undefined ? '' : `, ${tyre}`}`,
      before,
      after,
    ]),
  });

function logWords({ source, growth }: Learning): string[] {
  const { units, fine, speedText } = figuresIn(source.units);
  return growth.flatMap(({ tyre, logAlone, runScatter }) =>
    logAlone === undefined
      ? []
      : [
          `${tyre}: the logs alone show ${fine(logAlone.growth)} (± ${fine(logAlone.sd)}) more rolling radius at ${speedText(logAlone.to)} than at ${speedText(logAlone.from)}${
            runScatter === undefined
              ? ''
              : `; from run to run their level differs by ${units === 'mm' ? fine(runScatter) : `${(runScatter / INCH).toFixed(3)} in`}`
          }.`,
        ],
  );
}

function originTable({ measured }: Learning): Markup {
  return tableOf({
    caption: 'What it was learned from',
    head: ['file', 'kind', 'rows used', 'rows left out', 'dates', 'fingerprint (SHA-256)'],
    rows: measured.origins.map(({ file, kind, rows, leftOut, dates, sha256 }) => [
      file,
      kind,
      String(rows),
      String(leftOut),
      dates.join(', '),
      sha256.slice(0, 16),
    ]),
  });
}

/** Before and after on one page. */
export function learnPage(outcome: Outcome, learning: Learning): string {
  const { source, learned, measured, conflicts, summary } = learning;
  const risk = riskWords(learning);
  const { fine } = figuresIn(source.units);
  const shares = sharesTable(learning);
  const logs = logWords(learning);
  const body = markup`${seenPart(outcome)}<div class="answer"><p class="first">Build anew: ${buildWords(learning)}</p>
${risk !== undefined && markup`<p>${risk}</p>`}
<p>Measure next: ${worthWords(learning, 1)}</p></div>
${CAUTION}
<h2>Growth</h2>
${growthPictures(learning).map(
  ({ svg, tyre }) =>
    markup`<figure>${{ markup: svg }}<figcaption>${tyre}: growth of the free radius at the hot pressure of an ordinary run. Points are from the logs, raised by what a rolling tyre reads less than a free one. A bar is how far a point may be off: two in three lie within it, and a part of it moves all points together. A speed signal that reads wrong or comes late is left in the points; the learned curve allows for it.</figcaption></figure>`,
)}
${logs.length > 0 && listOf(logs)}
<h2>Before and now</h2>
${picksTable(learning)}
${shares !== undefined && shares}
<h2>What each measurement taught</h2>
${contributionTable(learning)}
<h2>What to measure next</h2>
${worthTable(learning)}
<h2>What moved</h2>
${inputsTable(learning)}
${
  (conflicts.length > 0 || measured.rejected.length > 0) &&
  markup`<h2>What to look at again</h2>${listOf([
    ...conflicts.map(
      ({ reading, against, chance }) =>
        `${reading}: sits badly with ${against}; about 1 time in ${Math.round(1 / chance)}.`,
    ),
    ...measured.rejected.map(
      ({ file, line, reason }) => `${file}${line > 0 ? `, line ${line}` : ''}: left out; ${reason}.`,
    ),
  ])}`
}
<h2>How it was learned</h2>
<p>All measurements together weigh every car that the case’s assumptions allow: each by how likely it makes all readings at once.</p>
<p><b>How sure:</b> ${sureWords(learning)}.</p>
<p>The learned file keeps the answer in short. The height that an ordinary run needs, by the whole answer and by the short one: ${summary.check
    .map((row) => `${percentText(row.quantile)} of cars within ${fine(row.draws)} and ${fine(row.summary)}`)
    .join('; ')}.</p>
<p class="soft">Technically: ${String(learned.sampling.chains)} chains of ${wholeText(learned.sampling.draws)} draws (${learned.sampling.method}).</p>
<p class="soft">Rolling radius is car speed over the wheel’s turning. It is less than the grown radius by a share of the axle’s drop, which is learned along with the rest; slip under power is only guessed, so free rolling after the lift counts most.</p>
${originTable(learning)}`;
  return pageOf(
    `Learned: ${source.title}`,
    source.invented,
    body,
    `${learned.madeBy}, case ${source.name}, seed ${learned.seed}.`,
  );
}
