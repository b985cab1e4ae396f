import type { Case } from '@tubgap/casefile';
import type { GapFigures, Risk } from '@tubgap/simulation';
import { angleWords, chanceText, gapWords, wholeText } from '@tubgap/units';
import type { Known } from './estimate.ts';
import type { Risks } from './risks.ts';
import { figureOf, type Mark, type Told, verdict } from './told-risk.ts';
import { lengthText, type Units } from './words.ts';

interface Props {
  source: Case;
  known: Known;
  /** Whether the page began with the pick's own figures. */
  anew: boolean;
  risks: Risks | undefined;
  told: Told;
  tyre: string;
  units: Units;
  /** Least gap of the rare run; and where the tightest runs are tight, undefined until that is looked at. */
  tight: { gap: number; run: string; tightest: GapFigures | undefined } | undefined;
}

interface ChanceProps {
  title: string;
  /** Undefined while nothing is counted. */
  risk: Risk | undefined;
  /** Whether it can be told. */
  told: boolean;
  of: string;
  /** What is accepted. */
  limit?: number;
}

/** One chance: what it is, how large, and whether it keeps the limit. */
function Chance({ title, risk, told, of, limit }: ChanceProps) {
  // What cannot be told yet takes the room that it will have, so that nothing moves when it can.
  const figure = risk === undefined || !told ? { main: '…', worst: 'counting…' } : figureOf(risk, of);
  const mark: Mark | undefined =
    risk === undefined || !told || limit === undefined ? undefined : verdict(risk, limit);
  return (
    <div class={`chance ${mark?.name ?? ''}`} data-touches={risk?.touches} data-events={risk?.events}>
      <h3>{title}</h3>
      <p class="main">{figure.main}</p>
      <p class="worst">{figure.worst}</p>
      {limit !== undefined && (
        <p class="verdict">
          {mark?.word ?? 'your limit'} <span class="limit">({chanceText(limit)})</span>
        </p>
      )}
    </div>
  );
}

/** How far the counting has come. @param anew  after a change of what the pick was made for */
function progress({ runs, seasons, picked, outdated, problem }: Known, anew: boolean): string {
  if (problem !== undefined) return runs === undefined ? 'Nothing was counted.' : 'No more is counted.';
  if (runs === undefined) return 'Counting…';
  if (outdated) return 'Counting anew…';
  if (picked)
    return `The pick’s own figures: ${wholeText(runs.tally.events)} runs, ${wholeText(seasons!.tally.events)} seasons, rare ones weighed. A change counts anew.`;
  const counted = `${wholeText(runs.tally.events)} runs${runs.done ? '' : ' so far'}`;
  const done = anew ? 'Counted anew' : 'Counted';
  if (seasons === undefined) return `${done}: ${counted}.`;
  const cars = `${wholeText(seasons.tally.events)} seasons${seasons.done ? '' : ' so far'}`;
  const rare = seasons.done ? (runs.weighed ? ' Rare ones weighed.' : ' Weighing the rare ones…') : '';
  return `${done}: ${counted}, ${cars}.${rare}`;
}

/** The chances, large, with what they are held against. */
export function Answer({ source, known, anew, risks, told, tyre, units, tight }: Props) {
  const { accept, build, tyres } = source;
  const season = tyres.reduce((sum, one) => sum + one.runsPerSeason, 0);
  return (
    <>
      <section class="answer" aria-labelledby="answer-title" aria-busy={known.outdated === true}>
        <h2 id="answer-title" class="quiet">
          Risk with {tyre}
        </h2>
        {known.problem !== undefined && (
          <p class="fault" role="alert">
            <b>No risk can be given.</b> {known.problem}
          </p>
        )}
        {(risks !== undefined || known.problem === undefined) && (
          <div class="chances">
            <Chance
              title={`Closer than ${lengthText(build.reserve, 'up', units)}, a run`}
              risk={risks?.close}
              told={told.close}
              of="run"
              limit={accept.runRisk}
            />
            <Chance title="Real contact, a run" risk={risks?.contact} told={told.contact} of="run" />
            <Chance
              title={`Closer, a season${tyres.length > 1 ? ', all tyres' : ''} (${wholeText(season)} runs)`}
              risk={risks?.season}
              told={told.season}
              of="season"
              limit={accept.seasonRisk}
            />
          </div>
        )}
      </section>
      <div class="found">
        {tight === undefined ? (
          <p class="tight">
            Tightest place of the rare run: {known.problem === undefined ? 'counting…' : 'not known'}
          </p>
        ) : (
          <p class="tight">
            Tightest{' '}
            {tight.tightest === undefined
              ? 'place: looking…'
              : `${angleWords(tight.tightest.tightestAngle)}, ${tight.tightest.tightestMoment}`}
            ; {tight.run} leaves <b>{gapWords(tight.gap, units)}</b>.
          </p>
        )}
        <p class="progress" role="status">
          {progress(known, anew)}
        </p>
      </div>
    </>
  );
}
