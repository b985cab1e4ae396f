import { sideView } from '@tubgap/drawing';
import type { Found } from '@tubgap/interview';
import { caseSetup, type RunPlace } from '@tubgap/simulation';
import { standingAt } from '../page/shown.ts';
import { frameOf, sideDrawing } from '../page/side-drawing.ts';
import type { Units } from '../page/words.ts';

/** The picked tub from the side at a height, the car standing still on its build tyre: where the gaps are seen. */
export function customerDrawing({ source }: Found, tub: number, topHeight: number, units: Units): string {
  const setup = caseSetup(source);
  const place: RunPlace = { setup, tub, tyre: setup.buildIndex, topHeight };
  return sideView(
    sideDrawing({
      place,
      source,
      standing: standingAt(place),
      units,
      cloud: 'none',
      frame: frameOf(place, source, undefined, false),
    }),
  );
}
