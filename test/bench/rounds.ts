import type { Contestant } from '../peers/contestant.ts';

/** Smallest and middle value. */
export function bestAndMedian(values: readonly number[]): { best: number; median: number } {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  const median = sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
  return { best: sorted[0]!, median };
}

/**
 * Asks every contestant in turn, round after round, one at a time: a busy machine then slows all of them alike.
 * @param warmUp  rounds before those that count
 * @returns the numbers of each answer: [contestant][round][place]
 */
export async function rounds(
  contestants: readonly Contestant[],
  line: (round: number) => string,
  count: number,
  warmUp: number,
): Promise<number[][][]> {
  const answers: number[][][] = contestants.map(() => []);
  for (let round = -warmUp; round < count; round++) {
    for (const [i, one] of contestants.entries()) {
      const answer = await one.ask(line(round));
      if (round >= 0) answers[i]!.push(answer.split(' ').map(Number));
    }
  }
  for (const one of contestants) one.close();
  return answers;
}

/** Middle of the rounds' ratios: other over own. */
export const ratioOf = (other: readonly number[], own: readonly number[]): number =>
  bestAndMedian(other.map((value, round) => value / own[round]!)).median;
