import type { MateOffered, MateWanted } from '../worker/messages.ts';

/** A worker of the page, or what stands for one where the browser lets the page start none. */
export interface PageWorker<Question, Answer> {
  ask: (question: Question) => void;
  /** Gives it another worker that takes pieces of its work, where the machine has a core to spare. */
  addMate: () => void;
  /** Says who hears the answers, and who hears that there will be none; heard at once where that is known already. */
  listen: (take: (answer: Answer) => void, fail: () => void) => void;
  end: () => void;
}

/** A worker that runs the page's own script, strictly and with its names to itself, as the page does. */
function startWorker(): Worker {
  const script = document.getElementById('engine')!.textContent!;
  const address = URL.createObjectURL(
    new Blob([`(()=>{'use strict';${script}\n})()`], { type: 'text/javascript' }),
  );
  return new Worker(address);
}

/** Joins a worker with another one, which then works for it. @returns ends the other one */
function joinMate(worker: Worker): () => void {
  const { port1, port2 } = new MessageChannel();
  const mate = startWorker();
  worker.postMessage({ kind: 'mate', port: port1 } satisfies MateOffered, [port1]);
  mate.postMessage({ kind: 'serve', port: port2 } satisfies MateWanted, [port2]);
  return () => mate.terminate();
}

/** Starts a worker of the page. */
export function openWorker<Question, Answer>(): PageWorker<Question, Answer> {
  let failed = false;
  let tell: (() => void) | undefined;
  const fail = (): void => {
    failed = true;
    tell?.();
  };
  let worker: Worker | undefined;
  let endMate: (() => void) | undefined;
  try {
    worker = startWorker();
    worker.onerror = fail;
  } catch {
    // Some browsers throw where others let the worker tell an error.
    failed = true;
  }
  return {
    ask: (question) => worker?.postMessage(question),
    addMate: () => {
      if (worker !== undefined && !failed && navigator.hardwareConcurrency > 1) endMate = joinMate(worker);
    },
    listen: (take, whenFailed) => {
      tell = whenFailed;
      if (worker !== undefined) worker.onmessage = ({ data }: MessageEvent<Answer>) => take(data);
      if (failed) tell();
    },
    end: () => {
      worker?.terminate();
      endMate?.();
    },
  };
}

let begun: PageWorker<never, never> | undefined;

/** Begins a worker while the page is still being made: it takes as long to start. */
export function beginWorker(): void {
  begun = openWorker();
}

/** The worker that was begun, once; undefined when it is taken. */
export function takeBegunWorker<Question, Answer>(): PageWorker<Question, Answer> | undefined {
  const taken = begun as PageWorker<Question, Answer> | undefined;
  begun = undefined;
  return taken;
}
