import { limitsOf, type Result } from '@tubgap/results';
import { angleWords } from '@tubgap/units';
import { existingOn } from '../existing-tub.ts';
import { figuresOf } from '../figures-of.ts';
import type { Dummy } from './dummy.ts';

/** What the template's user has to know, one sentence each; the same on DXF and paper. */
export function boardWords(result: Result, dummy: Dummy): string[] {
  const { length } = figuresOf(result);
  const { gap, angle } = dummy.gap;
  const { nearest } = dummy;
  const bar =
    nearest === undefined
      ? ''
      : nearest.gap <= 0
        ? ` It reaches into ${nearest.name}.`
        : ` It clears ${nearest.name}, the nearest hard point, by about ${length(nearest.gap, 'down')}.`;
  const inTheCar = existingOn(result, 'template');
  const clears = gap <= 0 ? 'it touches' : `it clears the tub by about ${length(gap, 'down')}`;
  return [
    ...(inTheCar === undefined ? [] : [`${inTheCar.standing} ${inTheCar.rest}`]),
    `${result.case.title}${result.case.invented ? ' [an invented car]' : ''}. Tyre ${dummy.tyre}, outline that ${(dummy.share * 100).toFixed(1)} % of the simulated runs stay inside at each angle.`,
    dummy.decides
      ? 'This tyre decides the height of the tub.'
      : 'Another tyre of the car decides the height of the tub: check with its template too.',
    'Seen from the right of the car, front to the right. Turn the board over for the left.',
    'Hold it on the hub with its line plumb. Do not turn it with the wheel: the outline stands still while the tyre turns in it.',
    ...dummy.holes.map(({ mark, use }) => `Hole ${mark} on the centre of the hub: ${use}.`),
    `The holes take up a rare run: body down ${length(dummy.drop, 'up')}, axle forward ${length(dummy.forward, 'up')} (${dummy.moment}).`,
    `With the tub set out at ${length(dummy.setOut, 'up')}, ${length(dummy.least, 'up')} at the least, ${clears}, ${angleWords(angle)}.${bar} To be kept in every run: ${length(limitsOf(result, dummy.tyre).reserve, 'up')}.`,
    'Further down than 120° from the top a level line closes the board; the tyre goes on below it.',
    'Tyre contact at speed can kill. A dummy that clears does not prove that the tyre will: the sanctioning body’s rules, the tyre maker’s limits and a qualified chassis builder come first.',
  ];
}

/** What stands at a mark of the outline's place k, whose middle is the top: '15° ahead'. */
export function degreesText({ outline }: Dummy, k: number): string {
  const degrees = k - Math.floor(outline.length / 2);
  return degrees === 0 ? 'top' : `${Math.abs(degrees)}° ${degrees > 0 ? 'ahead' : 'back'}`;
}
