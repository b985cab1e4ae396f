import { openStudy, performStudyTask, type StudySetup, type StudyTask } from '@tubgap/simulation';
import { workerData } from 'piscina';

/** The setups, handed over once when the worker starts; tasks then travel alone. */
const { setups } = workerData as { setups: StudySetup[] };
const study = openStudy(setups);

/** Works out one study task in a worker thread. */
export default function work(task: StudyTask): ReturnType<typeof performStudyTask> {
  return performStudyTask(study, task);
}
