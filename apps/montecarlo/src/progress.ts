import type { Progress } from '@tubgap/simulation';
import cliProgress from 'cli-progress';

/** A bar on stderr while it is a terminal; silent otherwise. */
export function progressBar(): {
  tell: Progress;
  stop: () => void;
  /** Takes the bar away while something else is printed. */
  aside: (print: () => void | Promise<void>) => Promise<void>;
} {
  const bar = new cliProgress.SingleBar({
    format: '{bar} {percentage}% {stage}',
    stream: process.stderr,
    noTTYOutput: false,
    clearOnComplete: true,
    hideCursor: true,
    barsize: 30,
  });
  const start = (): void => bar.start(100, 0, { stage: '' });
  start();
  return {
    tell: (stage, done) => bar.update(Math.round(done * 100), { stage }),
    stop: () => bar.stop(),
    aside: async (print) => {
      bar.stop();
      await print();
      start();
    },
  };
}
