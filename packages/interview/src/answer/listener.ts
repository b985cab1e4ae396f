import type { Case } from '@tubgap/casefile';
import { type AssumedCost, type Perform, performHere } from '@tubgap/simulation';
import type { VerdictReport } from '@tubgap/wording';
import type { CallFault } from './call-files.ts';
import type { Found } from './found.ts';

/** How the answering of a call goes on. */
export type CallAnswer =
  | { kind: 'faults'; faults: CallFault[] }
  | { kind: 'found'; found: Found }
  /** How the tub that is in the car already stands. */
  | { kind: 'existing'; judged: VerdictReport }
  | { kind: 'cost'; cost: AssumedCost }
  /** All that a question asks for is costed. */
  | { kind: 'questions costed' }
  | { kind: 'costs done' };

/** Who hears the answers, and says between two pieces of work whether they are still wanted. */
export interface Listener {
  tell: (answer: CallAnswer) => void;
  goOn: () => Promise<boolean>;
}

/** Another question came: nobody wants to know this any more. */
export class Outdated extends Error {}

/** Works out tasks one by one and stops between two of them when there is a newer question. */
export const performWhileWanted = (source: Case, { goOn }: Listener): Perform => {
  const here = performHere(source);
  return async (tasks) => {
    const results: Awaited<ReturnType<Perform>> = [];
    for (const task of tasks) {
      if (!(await goOn())) throw new Outdated();
      results.push(...(await here([task], () => {})));
    }
    return results;
  };
};
