import { type Lock, lockResults } from './lock.ts';
import { ResultsHeld } from './results-error.ts';

/** Between two looks whether a folder has been let go, ms. */
const LOOK = 50;

/**
 * Takes the right to write a folder as soon as whoever writes it now is done.
 * @param patience  how long that is waited for, ms
 * @throws ResultsRefused when it is still held then, or the place can hold none
 */
export async function lockSoon(parent: string, name: string, patience: number): Promise<Lock> {
  const end = performance.now() + patience;
  for (;;) {
    try {
      return lockResults(parent, name);
    } catch (error) {
      if (!(error instanceof ResultsHeld) || performance.now() > end) throw error;
      await new Promise((resolve) => setTimeout(resolve, LOOK));
    }
  }
}
