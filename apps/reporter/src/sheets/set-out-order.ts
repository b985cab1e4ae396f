import { type Markup, markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { figuresOf } from '../figures-of.ts';
import type { ChosenTub } from './chosen-tub.ts';

/** How the tub comes to its place, in five steps, and how it is held there. Order and fixing: common practice, no source. */
export function setOutOrder(result: Result, { tub, setOut, passes }: ChosenTub): Markup {
  const { length, both, alongBoth, pressureText } = figuresOf(result);
  const { build } = result;
  const axle = both(build.axleHeight, 'nearest');
  const centre = both(setOut - tub.radius, 'nearest');
  const strip =
    tub.liner > 0
      ? ` Put the liner strip of ${length(tub.liner, 'up')} in first: every length is to its face.`
      : '';
  return markup`<ol>
<li><b>Level floor, build tyre.</b> Level the floor under all four wheels; ${build.tyre} on both sides at ${pressureText(build.pressure)}, rolled to settle.</li>
<li><b>Ride height.</b> The car at race weight, or blocked there: axle centre ${axle} above the floor on both sides.</li>
<li><b>Centre.</b> Drop a plumb line through the axle; mark the arc’s centre ${alongBoth(tub.centreForward)} and ${centre} above the floor, on both sides.</li>
<li><b>Tack.</b> Hang the tub with its top inside at ${length(setOut, 'up')}, square across the car, and tack it at the top and at all four leg ends.${strip}</li>
<li><b>Measure, then lock.</b> Take every gap of the check sheet; no top under ${length(passes, 'up')}. Then fix it from the top down, both sides in turn, and measure once more.</li>
</ol>
<p><b>Held by:</b> the flat end panel on tabs of frame rail and cage, the return on the body; fasteners with their heads inside no further than the liner, edges sealed, and a part that comes out for a look inside on quarter-turn fasteners. <span class="soft">Order and fixing: common practice, no source.</span></p>`;
}
