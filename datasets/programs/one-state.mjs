import { oneState } from '@tubgap/kit';
import { demoCase } from './demo-case.mjs';

// The finish of a middling run, the tub's inside top 39 1/4 in above the track.
const state = oneState(demoCase(), {
  tyre: 'tall-slick',
  tub: 'street-42',
  topHeight: 39.25 * 0.0254,
  moment: 'finish',
});
console.log(
  `smallest gap ${(1000 * state.gap).toFixed(1)} mm, ${((180 / Math.PI) * state.tightAngle).toFixed(0)}° ahead of the top`,
);
console.log(
  `the tub would have to stand ${(1000 * state.requiredHeight).toFixed(1)} mm high to leave the gap to be kept`,
);
