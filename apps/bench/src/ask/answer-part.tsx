import { type Found, leastWords, pickedOf, tubWords } from '@tubgap/interview';
import { GAP_ANGLES, type PickedHeight, type Risk, WHOLE_CLOSING } from '@tubgap/simulation';
import { angleWords, SIXTEENTH, shownLength, wholeText } from '@tubgap/units';
import { riskWords, shareWords, unbroken } from '@tubgap/wording';
import { beyondModel } from '../page/cautions-part.tsx';
import { lengthText, type Units } from '../page/words.ts';
import type { KnownCall } from './use-call.ts';

/** Gap to see with the car standing still, at an angle of GAP_ANGLES. */
export const gapAt = (gaps: readonly number[], degrees: (typeof GAP_ANGLES)[number]): number =>
  gaps[GAP_ANGLES.indexOf(degrees)]!;

const DECIDED: Readonly<Record<PickedHeight['decidedBy'], string>> = {
  'run risk': 'the chance of a touch in a run',
  'season risk': 'the chance of a touch in a season',
  rest: 'the tyre standing still',
};

/** What takes most of the gap where it is tight. */
function mostOfClosing({ look }: Found, units: Units): string {
  const rows = look?.shares.filter(
    ({ moment, share }) => moment === look.tight.tightestMoment && share !== WHOLE_CLOSING,
  );
  const most = rows?.toSorted((a, b) => b.p50 - a.p50)[0];
  return most === undefined || most.p50 < SIXTEENTH
    ? ''
    : `; most of the gap goes by ${shareWords(most.share)}, ${lengthText(most.p50, 'up', units)} of an ordinary run’s`;
}

/** What the height may never fall below, said once where both are one. */
function atLeastWords({ topHeight }: PickedHeight, passes: number, units: Units): string {
  const [least, never] = [topHeight, passes].map((height) => lengthText(height, 'up', units));
  return least === never
    ? `${least} above the track, as built and measured`
    : `${least} above the track; never under ${never} as built and measured`;
}

/** One line of the answer, with the counts that stand behind it. */
function Line({ label, text, risk }: { label: string; text: string; risk?: Risk }) {
  return (
    <div class="line" {...(risk && { 'data-touches': risk.touches, 'data-events': risk.events })}>
      <dt>{label}</dt>
      <dd>{unbroken(text)}</dd>
    </div>
  );
}

function progressWords({ found, outdated, problem, faults }: KnownCall): string {
  if (problem !== undefined || faults.length > 0) return 'Nothing was counted.';
  if (found === undefined) return 'Counting…';
  if (outdated) return 'Counting anew…';
  const runs = `${wholeText(found.runs)} runs${found.seasons > 0 ? `, ${wholeText(found.seasons)} seasons` : ''}`;
  return found.settled
    ? `Settled: ${runs}, rare ones weighed. The command line finds the same for the saved case.`
    : `First ${runs}; settling…`;
}

/** Why no tub of the list is the answer, tub by tub. */
function NoTub({ found }: { found: Found }) {
  const reasons = [
    ...found.refused,
    ...found.picks.map(({ tub, verdict, reason }) => ({
      tub,
      reason: reason || (verdict === 'fits' ? 'no room on the car' : 'not known yet'),
    })),
  ];
  return (
    <>
      <p class="headline">None of the shop’s tubs {found.settled ? 'fits' : 'is known to fit yet'}</p>
      <ul>
        {reasons.map(({ tub, reason }) => (
          <li key={tub}>
            {tub}: {unbroken(reason)}
          </li>
        ))}
      </ul>
    </>
  );
}

/** The answer: tub, height, gap to see, how often it comes closer, where it is tight, what limits it. */
export function AnswerPart({ known, units }: { known: KnownCall; units: Units }) {
  const { found, outdated, problem, faults } = known;
  const pick = found && pickedOf(found);
  const look = found?.look;
  const risks = look?.setOut?.risks ?? pick?.height;
  const gaps = look?.setOut?.staticGaps ?? pick?.height.staticGaps;
  return (
    <section class="answer call" aria-labelledby="call-answer" aria-busy={outdated === true}>
      <h2 id="call-answer" class="quiet">
        Answer
      </h2>
      {problem !== undefined && (
        <p class="fault" role="alert">
          <b>No answer can be given.</b> {problem}
        </p>
      )}
      {faults
        .filter(({ tub }) => tub === undefined)
        .map(({ words }) => (
          <p class="fault" key={words} role="alert">
            {words}
          </p>
        ))}
      {faults.some(({ tub }) => tub !== undefined) && (
        <p class="fault" role="alert">
          The shop’s list of tubs has a fault: see there.
        </p>
      )}
      {found && pick === undefined && <NoTub found={found} />}
      {found && pick && risks && gaps && (
        <>
          <p class="headline">
            <span class="tub-name">{unbroken(tubWords(found, pick, units))}</span>{' '}
            <span class="height">
              {look?.setOut ? (
                <>
                  top set out at <b>{lengthText(look.setOut.topHeight, 'up', units)}</b>
                </>
              ) : (
                <>
                  top at least <b>{unbroken(leastWords(pick.height, found.settled, units))}</b>
                </>
              )}
            </span>
          </p>
          {found.order && (
            <p class="note">No tub in stock fits; this is the smallest on the list that does.</p>
          )}
          <dl>
            {look?.setOut && (
              <Line label="At least" text={atLeastWords(pick.height, look.setOut.passes, units)} />
            )}
            <Line
              label="Gap to see"
              text={`${lengthText(gapAt(gaps, 15), 'up', units)} 15° ahead of the top, ${lengthText(gapAt(gaps, 0), 'up', units)} straight up, standing still`}
            />
            <Line
              label={`Closer than ${shownLength(found.source.build.reserve, 'up')[units]}`}
              text={riskWords(risks.runRisk, 'run')}
              risk={risks.runRisk}
            />
            <Line label="Real contact" text={riskWords(risks.contactRisk, 'run')} risk={risks.contactRisk} />
            <Line label="In a season" text={riskWords(risks.seasonRisk, 'season')} risk={risks.seasonRisk} />
            {look && (
              <Line
                label="Tight"
                text={`${angleWords(look.tight.tightestAngle)}, ${look.tight.tightestMoment}, with ${pick.height.limitingTyre}`}
              />
            )}
            <Line
              label="Limited by"
              text={`${DECIDED[pick.height.decidedBy]}${mostOfClosing(found, units)}`}
            />
          </dl>
          {beyondModel(found.cautions).map(({ code, text }) => (
            <p class="beyond" key={code}>
              <b>Beyond the model:</b> {text}
            </p>
          ))}
        </>
      )}
      <p class="progress" role="status">
        {progressWords(known)}
      </p>
    </section>
  );
}
