import type { BenchState } from './bench-state.ts';

/** What was set before, what is set, and what was taken back. */
export interface History {
  past: readonly BenchState[];
  now: BenchState;
  future: readonly BenchState[];
  /** What changed last, so that steps of one drag are taken back together. */
  last: string;
}

export type Change =
  /** A new state; changes of the same `what` are one step back. */
  | { kind: 'set'; what: string; state: BenchState }
  | { kind: 'undo' }
  | { kind: 'redo' }
  /** The next change begins a step of its own. */
  | { kind: 'rest' }
  | { kind: 'open'; state: BenchState };

const MOST = 200;

export const begin = (now: BenchState): History => ({ past: [], now, future: [], last: '' });

/** The history after a change. */
export function changed(history: History, change: Change): History {
  const { past, now, future } = history;
  switch (change.kind) {
    case 'set': {
      const together = change.what !== '' && change.what === history.last;
      return {
        past: together ? past : [...past, now].slice(-MOST),
        now: change.state,
        future: [],
        last: change.what,
      };
    }
    case 'undo': {
      const before = past.at(-1);
      return before === undefined
        ? history
        : { past: past.slice(0, -1), now: before, future: [now, ...future], last: '' };
    }
    case 'redo': {
      const [next, ...rest] = future;
      return next === undefined ? history : { past: [...past, now], now: next, future: rest, last: '' };
    }
    case 'rest':
      return { ...history, last: '' };
    case 'open':
      return begin(change.state);
  }
}
