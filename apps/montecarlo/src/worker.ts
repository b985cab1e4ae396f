import type { Case } from '@tubgap/casefile';
import { openWorkplace, performTask, type Task, type TaskResult } from '@tubgap/simulation';
import { workerData } from 'piscina';

/** The case, handed over once when the worker starts; tasks then travel alone. */
const { source } = workerData as { source: Case };
const place = openWorkplace(source);

/** Works out one task in a worker thread. */
export default function work(task: Task): TaskResult {
  return performTask(place, task);
}
