import type { Result } from '@tubgap/results';
import { type Figures, SIXTEENTH } from '@tubgap/units';
import { figuresOf } from './figures-of.ts';

type Change = NonNullable<Result['changes']>[number];

/** What a change asks of the top height, in words: '1/4 in more height'. */
export function askedHeight({ asks, heightChange }: Change, { changeText }: Figures): string {
  if (asks === 'no height') return 'then no height of this tub does';
  if (asks === 'not known' || heightChange === null) {
    return 'too few simulated runs to say whether any height of this tub does then';
  }
  const words = changeText(heightChange);
  return words === undefined ? 'no change of height' : `${words} height`;
}

/** Changes that are worth a word: those without a height, then at most `most` others by what they move. */
export function reportedChanges(result: Result, most: number): Change[] {
  const changes = result.changes ?? [];
  const moves = ({ heightChange }: Change): number => Math.abs(heightChange ?? 0);
  return [
    ...changes.filter(({ asks }) => asks !== 'height'),
    ...changes
      .filter((change) => moves(change) > SIXTEENTH)
      .toSorted((a, b) => moves(b) - moves(a))
      .slice(0, most),
  ];
}

/** What lowers the height that a tub needs by a mark of the tape or more, the most first; m, rounded down. */
export function loweringChanges(result: Result): { label: string; gives: number }[] {
  const { onTape, wordsOf } = figuresOf(result);
  return (result.changes ?? [])
    .map(({ label, heightChange }) => ({
      label: wordsOf(label),
      gives: onTape(-(heightChange ?? 0), 'down'),
    }))
    .filter(({ gives }) => gives > 0)
    .sort((a, b) => b.gives - a.gives);
}

/** What a growth one quarter larger than reckoned would ask for, as a sentence; undefined when nobody looked. */
export function largerGrowthSentence(result: Result): string | undefined {
  const { length } = figuresOf(result);
  const change = result.changes?.find(({ code }) => code === 'larger growth');
  if (change === undefined) return undefined;
  const begin = 'With a growth one quarter larger than reckoned';
  if (change.asks === 'no height') return `${begin} no height of this tub keeps the accepted risk`;
  if (change.heightChange === null) {
    return `${begin} too few runs were simulated to say whether any height of this tub keeps the accepted risk`;
  }
  return `${begin} the tub would need ${length(Math.max(0, change.heightChange), 'up')} more height`;
}
