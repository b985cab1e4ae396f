import type { Case } from '@tubgap/casefile';
import {
  type AssumedCost,
  openStudy,
  openWorkplace,
  type Perform,
  type PerformSetups,
  performStudyTask,
  performTask,
  type StudySetup,
  type StudyTask,
  type StudyTaskResult,
  type Task,
  type TaskResult,
} from '@tubgap/simulation';
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

/** A task that can be worked out anywhere, with all that it is of: a case, or the setups of a study. */
export type Piece =
  | { of: 'case'; source: Case; task: Task }
  | { of: 'study'; setups: readonly StudySetup[]; task: StudyTask };

/** What came of a piece. */
export type PieceResult = TaskResult | StudyTaskResult;

/** Who hears the answers, and says between two pieces of work whether they are still wanted. */
export interface Listener {
  tell: (answer: CallAnswer) => void;
  goOn: () => Promise<boolean>;
  /** Who works out pieces elsewhere meanwhile, each with the number of what it is of; undefined where there is nobody. */
  mate?: ((number: number, piece: Piece) => Promise<PieceResult>) | undefined;
}

/** Another question came: nobody wants to know this any more. */
export class Outdated extends Error {}

/** Makes ready what pieces are of, and gives what works out each of its tasks. */
export function openPiece(piece: Piece): (task: Task | StudyTask) => PieceResult {
  if (piece.of === 'case') {
    const place = openWorkplace(piece.source);
    return (task) => performTask(place, task as Task);
  }
  const study = openStudy(piece.setups);
  return (task) => performStudyTask(study, task as StudyTask);
}

let number = 0;

/**
 * Works out tasks one by one, here and at a mate's, and stops between two of them when there is a newer question. What comes
 * back is in the order of the tasks, whoever worked them out.
 */
function whileWanted<T extends Task | StudyTask, R extends PieceResult>(
  { goOn, mate }: Listener,
  pieceOf: (task: T) => Piece,
): (tasks: readonly T[]) => Promise<R[]> {
  const own = number++;
  let here: ((task: T) => PieceResult) | undefined;
  return async (tasks) => {
    const results: PieceResult[] = [];
    let next = 0;
    const work = async (perform: (task: T) => PieceResult | Promise<PieceResult>): Promise<void> => {
      while (next < tasks.length) {
        if (!(await goOn())) throw new Outdated();
        if (next === tasks.length) return;
        const k = next++;
        results[k] = await perform(tasks[k]!);
      }
    };
    const elsewhere = mate && tasks.length > 1 ? [work((task) => mate(own, pieceOf(task)))] : [];
    await Promise.all([
      ...elsewhere,
      work((task) => {
        here ??= openPiece(pieceOf(task));
        return here(task);
      }),
    ]);
    return results as R[];
  };
}

/** Works out tasks of a case as long as they are wanted. */
export const performWhileWanted = (source: Case, listener: Listener): Perform =>
  whileWanted<Task, TaskResult>(listener, (task) => ({ of: 'case', source, task }));

/** Works out tasks of the study of some setups as long as they are wanted. */
export const studyWhileWanted =
  (listener: Listener): PerformSetups =>
  (setups) =>
    whileWanted<StudyTask, StudyTaskResult>(listener, (task) => ({ of: 'study', setups, task }));
