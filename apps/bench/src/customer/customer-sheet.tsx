import { bookInUseWords } from '@tubgap/casefile';
import { answerTo, costlyOf, costName, type InterviewedCase, pickedOf, tubWords } from '@tubgap/interview';
import { alongText } from '@tubgap/units';
import { existingBrief, riskWords, unbroken } from '@tubgap/wording';
import { useMemo } from 'preact/hooks';
import { gapAt } from '../ask/answer-part.tsx';
import type { Call } from '../ask/ask-state.ts';
import type { KnownCall } from '../ask/use-call.ts';
import { lengthText, pressureText, type Units } from '../page/words.ts';
import { customerDrawing } from './customer-drawing.ts';
import { toldRows } from './told-rows.ts';

/** Assumed things that the sheet names, the dearest first. */
const MOST_ASSUMED = 6;
/** What is measured on the car before anything is cut, whatever was told. */
const MEASURE = [
  'rollout of both tyres, taped at their pressure, after a run if they are bias',
  'height of the axle above the track, driver in, on this tyre and pressure',
  'travel from there to the stop',
  'width of the tyre at its widest, on its rim',
];
const GAPS = [0, 15, 30] as const;

interface Props {
  known: KnownCall;
  interviewed: InterviewedCase;
  call: Call;
  units: Units;
  onCall: (call: Call) => void;
  onBack: () => void;
}

/** Today as a date is written, in the browser's own zone. */
function today(): string {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** A field of the sheet's head, printed as it is typed. */
function HeadField({
  label,
  value,
  onValue,
}: {
  label: string;
  value: string;
  onValue: (value: string) => void;
}) {
  return (
    <label>
      {label}{' '}
      <input
        type="text"
        autocomplete="off"
        value={value}
        onChange={(event) => onValue(event.currentTarget.value)}
      />
    </label>
  );
}

/** One sheet for the caller: car as told, tub, height, place, gap to see, what was assumed and is to be measured, cautions. */
export function CustomerSheet({ known, interviewed, call, units, onCall, onBack }: Props) {
  const { found, existing, costs } = known;
  const pick = found && pickedOf(found);
  const out = found?.look?.setOut;
  const topHeight = out?.topHeight ?? pick?.height.topHeight;
  const drawing = useMemo(
    () => (found && topHeight !== undefined ? customerDrawing(found, topHeight, out, units) : ''),
    [found?.source, found?.chosen, topHeight, out, units],
  );
  if (!found || !pick || topHeight === undefined) {
    return (
      <main class="sheet">
        <p>There is no tub to tell of yet.</p>
        <button type="button" class="screen-only" onClick={onBack}>
          Back to the questions
        </button>
      </main>
    );
  }
  const { source } = found;
  const owner = answerTo(call.answers, 'title') ?? undefined;
  const tub = source.tubs[found.chosen!]!;
  const gaps = out?.staticGaps ?? pick.height.staticGaps;
  const risks = out?.risks ?? pick.height;
  const inTheCar =
    existing && existingBrief({ ...existing, limits: [] }, { ...source.build, units }, 'sheet');
  return (
    <main class="sheet" aria-labelledby="sheet-title">
      <div class="row screen-only">
        <button type="button" onClick={onBack}>
          Back to the questions
        </button>
        <button type="button" class="strong" onClick={() => print()}>
          Print the sheet
        </button>
      </div>
      <header>
        <h1 id="sheet-title">{owner === undefined ? 'Wheel tub' : `Wheel tub for ${owner}`}</h1>
        <div class="sheet-fields">
          <HeadField label="Job" value={call.job} onValue={(job) => onCall({ ...call, job })} />
          <HeadField
            label="Date"
            value={call.date || today()}
            onValue={(date) => onCall({ ...call, date })}
          />
        </div>
      </header>
      <p class="sheet-caution">
        <b>Tyre contact at speed can kill.</b> These figures come from a telephone call and a model; much is
        assumed. The sanctioning body’s rules, the tyre maker’s limits and a qualified chassis builder come
        first. Cut nothing before the car is measured.
      </p>
      <div class="sheet-columns">
        <div>
          {inTheCar && (
            <p class="sheet-caution in-the-car">
              <b>{unbroken(inTheCar.standing)}</b> {unbroken(inTheCar.rest)}
            </p>
          )}
          {interviewed.existing && !inTheCar && (
            <p class="sheet-caution in-the-car">The tub that is in the car is not judged yet.</p>
          )}
          <h2>Tub</h2>
          <dl class="key">
            <dt>Tub</dt>
            <dd>
              <b>{unbroken(tubWords(found, pick, units))}</b>
            </dd>
            <dt>Top, inside</dt>
            <dd>
              <b>{lengthText(topHeight, 'up', units)}</b> above the track; at the least{' '}
              {lengthText(pick.height.topHeight, 'up', units)}
            </dd>
            <dt>Place</dt>
            <dd>centre {unbroken(alongText(tub.centreForward, units))}</dd>
            {GAPS.map((degrees) => (
              <>
                <dt>{degrees === 0 ? 'Gap straight up' : `Gap ${degrees}° ahead`}</dt>
                <dd>
                  <b>{lengthText(gapAt(gaps, degrees), 'up', units)}</b>
                </dd>
              </>
            ))}
          </dl>
          <p>
            Measure the gap with the car standing on {source.build.tyre}, driver in, at{' '}
            {pressureText(source.build.pressure, units)}: from the tyre at that angle from straight up,
            straight to the nearest place of the tub.
          </p>
          <p>
            The gap then stays over {lengthText(source.build.reserve, 'up', units)} but for{' '}
            {unbroken(riskWords(risks.runRisk, 'run'))}; real contact:{' '}
            {unbroken(riskWords(risks.contactRisk, 'run'))}.
          </p>
        </div>
        <figure dangerouslySetInnerHTML={{ __html: drawing }} />
        <div>
          <h2>Car as told</h2>
          <dl class="told">
            {toldRows(call.answers).map(({ id, label, text }) => (
              <div key={id}>
                <dt>{label}</dt>
                <dd>{unbroken(text)}</dd>
              </div>
            ))}
          </dl>
          <h2>Measure before cutting</h2>
          <ul>
            {MEASURE.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
          <h2>Assumed</h2>
          <p>
            {costlyOf(costs)
              .slice(0, MOST_ASSUMED)
              .map((cost) => costName(cost, call.answers))
              .join('; ') || `${interviewed.assumed.length} values that nobody told`}
            {costs.length > 0 && `; and ${Math.max(0, interviewed.assumed.length - MOST_ASSUMED)} more`}.
          </p>
          {source.book !== undefined && <p>From the shop’s book: {bookInUseWords(source.book)}.</p>}
          <p class="sheet-caution">
            After the first runs look for marks on tub and tyre, and stop when there is one. New bias slicks
            grow: tape the rollout again. Another tyre, pressure, spring or speed is another case.
          </p>
        </div>
      </div>
    </main>
  );
}
