import { constants } from 'node:os';

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
export type StopSignal = (typeof SIGNALS)[number];

/** What a stop by hand does; `again` is true of all but the first. */
type Stop = (signal: StopSignal, again: boolean) => void;

/** A terminal tells its stop to every process, and what has started this one may pass its own on: so close together they are one, ms. */
const ONE_STOP = 1000;

/** Exit code of a command that a signal has ended, as shells count it. */
export const stopCode = (signal: StopSignal): number => 128 + constants.signals[signal];

/** Whoever came last decides. */
const deciding: { stop: Stop; first: number | undefined }[] = [];

function heard(signal: StopSignal): void {
  const last = deciding.at(-1)!;
  const now = performance.now();
  const again = last.first !== undefined;
  if (again && now - last.first! < ONE_STOP) return;
  last.first ??= now;
  last.stop(signal, again);
}

/**
 * Has a stop by hand do something else than end this process where it stands.
 * @returns lets whoever decided before decide again
 */
export function onStop(stop: Stop): () => void {
  const own = { stop, first: undefined };
  if (deciding.push(own) === 1) for (const signal of SIGNALS) process.on(signal, heard);
  return () => {
    const at = deciding.indexOf(own);
    if (at < 0) return;
    deciding.splice(at, 1);
    if (deciding.length === 0) for (const signal of SIGNALS) process.off(signal, heard);
  };
}
