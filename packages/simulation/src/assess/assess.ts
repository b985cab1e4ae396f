import type { Case } from '@tubgap/casefile';
import { gapHeights } from '../heights.ts';
import { namedSteps } from '../replay/named-runs.ts';
import { caseSetup } from '../setup.ts';
import { type Perform, performHere, simulateUntilSettled } from '../simulate.ts';
import { findBestPlaces } from '../study/best-place.ts';
import { findingRisks, hardPointTasks, insightTasks } from '../tasks.ts';
import { heightRisks, tubVerdict } from '../verdict.ts';
import { closeLooks, inspectionTasks, type Looked, only } from './close-looks.ts';
import { countedPart, type Decision, pickedHeights, placeSetOut } from './decision.ts';
import { drawsOfPick, type Insights, insights, performTubs, pickPlace, variantsAt } from './insights.ts';

/** Everything that is found out about a case. */
export type Assessment = Decision & Looked & Insights;

/** Told as the work goes on: part done of a whole, 0 to 1. */
export type Progress = (stage: 'simulating' | 'looking closely', done: number) => void;

/**
 * Assesses a case: risk of a run and of a season in every tub at every height, gaps, picks and shares. The same case
 * and seed give the same answer to the last bit, however the tasks are shared out.
 * @param decided  told of the decision as soon as it is settled, while the rest is looked at
 * @throws ModelRangeError when a draw leaves what the model knows; RangeError when a tyre's deflection fits no sidewall
 */
export async function assessCase(
  source: Case,
  perform: Perform = performHere(source),
  progress: Progress = () => {},
  decided: (decision: Decision) => Promise<void> | void = () => {},
): Promise<Assessment> {
  const setup = caseSetup(source);
  const { found, centres } = await simulateUntilSettled(source, setup, perform, (done) =>
    progress('simulating', done),
  );
  const counted = countedPart(source, setup, found);
  const { heights, picks, chosen } = counted;
  progress('looking closely', 0);
  const settling = await perform(
    chosen === undefined
      ? []
      : [
          { kind: 'tolerances', picks, chosen },
          { kind: 'gaps', heights: picks.map((pick, t) => (t === chosen ? pickedHeights(pick) : [])) },
        ],
    (share) => progress('looking closely', 0.1 * share),
  );
  const { tolerances } = only(settling, 'tolerances') ?? {};
  const { setOut } = tolerances ?? {};
  const findPlaces = () => findBestPlaces(source, counted, drawsOfPick(source, found), performTubs(perform));
  const noTubPlaces = chosen === undefined ? await findPlaces() : undefined;
  const chosenGaps = only(settling, 'gaps')?.gaps ?? [];
  const decision: Decision = {
    ...counted,
    pickGaps: counted.risks.map((tubs, row) => tubs.map((_, t) => chosenGaps[row]?.[t]?.[0])),
    tolerances,
    asSetOut:
      setOut &&
      heightRisks(tubVerdict(source, setup, findingRisks(found), found.runs, chosen!, setOut.topHeight)),
    bestPlaces: noTubPlaces ?? picks.map(() => undefined),
  };
  const told = decided(decision);
  const place = pickPlace(setup, counted, centres);
  const built = placeSetOut(decision);
  const shares = [0, 0];
  const tell = (part: 0 | 1) => (share: number) => {
    shares[part] = share;
    progress('looking closely', 0.1 + 0.45 * (shares[0]! + shares[1]!));
  };
  const [results, variants, bestPlaces] = await Promise.all([
    perform(
      [
        ...(place === undefined ? [] : insightTasks(place)),
        { kind: 'named runs', centres, wanted: namedSteps(source, findingRisks(found)) },
        ...hardPointTasks(setup, found, place),
        ...inspectionTasks(decision, built),
        {
          kind: 'gaps',
          heights: heights.map((list, t) => [
            ...gapHeights(list, source.heights),
            ...(t === chosen ? [] : pickedHeights(picks[t]!)),
          ]),
        },
      ],
      tell(0),
    ),
    place === undefined ? {} : variantsAt(source, found, place, perform, tell(1)),
    noTubPlaces ?? findPlaces(),
    told,
  ]);
  return {
    ...decision,
    bestPlaces,
    ...closeLooks(source, decision, setup, found, built, results),
    ...insights(results),
    ...variants,
  };
}
