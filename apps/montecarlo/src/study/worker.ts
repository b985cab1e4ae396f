import { openStudy, performStudyTask, type StudySetup, type StudyTask } from '@tubgap/simulation';
import { workerData } from 'piscina';

/** The setups, handed over once when the worker starts; tasks then travel alone. */
const { setups, lowest } = workerData as { setups: StudySetup[]; lowest: number[] | undefined };
const study = openStudy(setups, lowest);

/** Works out one study task in a worker thread. */
export default function work(task: StudyTask): ReturnType<typeof performStudyTask> {
  return performStudyTask(study, task);
}
