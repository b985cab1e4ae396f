import type { Case } from '@tubgap/casefile';
import { type AssumedItem, type AssumedPlace, assumedCosts, choiceCost } from '@tubgap/simulation';
import type { Answers } from '../answers.ts';
import type { Answered } from '../call-answers.ts';
import type { InterviewedCase } from '../to-case.ts';
import { assumedItems } from './assumed-items.ts';
import { type Listener, studyWhileWanted } from './listener.ts';
import { KIND, otherKinds } from './other-kinds.ts';

/** A call, in what it comes to and as it was answered. */
export interface CostedCall {
  interviewed: InterviewedCase;
  answers: Answers;
  answered: Answered;
  /** Text of the shop's catalogue. */
  tubs: string;
  /** What no question tells stays without a cost. */
  questionsOnly?: true | undefined;
}

/** Tells what each thing costs that is assumed: first what a question would tell, the kind of car among it, then the rest. */
export async function tellCosts(
  source: Case,
  { interviewed, answers, answered, tubs, questionsOnly }: CostedCall,
  place: AssumedPlace,
  listener: Listener,
): Promise<void> {
  const { tell } = listener;
  const perform = studyWhileWanted(listener);
  const { asked, rest } = assumedItems(source, interviewed, answered);
  const costs = (items: readonly AssumedItem[]): Promise<void> =>
    assumedCosts(source, items, place, perform, (cost) => tell({ kind: 'cost', cost }));
  await costs(asked);
  if (!interviewed.kind.told) {
    const others = otherKinds(source, answers, tubs, source.tubs[place.tub]!.name, interviewed.book);
    const cost = await choiceCost(source, { name: KIND, others }, place, perform);
    if (cost !== undefined) tell({ kind: 'cost', cost });
  }
  tell({ kind: 'questions costed' });
  if (!questionsOnly) await costs(rest);
  tell({ kind: 'costs done' });
}
