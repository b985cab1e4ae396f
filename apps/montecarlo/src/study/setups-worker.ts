import { openStudy, performStudyTask, type Study, type StudySetup, type StudyTask } from '@tubgap/simulation';

/** One task of the study of some setups, which have a number of their own among those of a bench. */
export interface SetupsTask {
  number: number;
  setups: readonly StudySetup[];
  task: StudyTask;
}

let last: { number: number; study: Study } | undefined;

/** Works out one task in a worker thread; the study is made ready with the first of its tasks. */
export default function work({ number, setups, task }: SetupsTask): ReturnType<typeof performStudyTask> {
  if (last?.number !== number) last = { number, study: openStudy(setups) };
  return performStudyTask(last.study, task);
}
