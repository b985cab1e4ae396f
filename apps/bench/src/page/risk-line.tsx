import type { Case } from '@tubgap/casefile';
import type { Known } from './estimate.ts';
import type { Risks } from './risks.ts';
import { figureOf, type Told, wholeVerdict } from './told-risk.ts';
import { lengthText, type Units } from './words.ts';

interface Props {
  source: Case;
  known: Known;
  risks: Risks | undefined;
  told: Told;
  units: Units;
}

/** The verdict and its two chances in a line or two, to stay in sight over the crown while a thumb moves the tub. */
export function RiskLine({ source, known, risks, told, units }: Props) {
  const mark = wholeVerdict(risks, told, source.accept);
  const waits = known.problem === undefined ? 'counting…' : 'not known';
  const run = risks && told.close ? figureOf(risks.close, 'run').main : undefined;
  const season = risks?.season && told.season ? figureOf(risks.season, 'season').main : undefined;
  return (
    <div class={`risk-line ${mark?.name ?? ''}`} aria-busy={known.outdated === true}>
      <p class="word">{mark?.word ?? waits}</p>
      <p>
        Closer than {lengthText(source.build.reserve, 'up', units)}:{' '}
        {run !== undefined || season !== undefined ? (
          <>
            <b>{run ?? waits}</b> a run, <b>{season ?? waits}</b> a season
          </>
        ) : (
          <b>…</b>
        )}
      </p>
    </div>
  );
}
