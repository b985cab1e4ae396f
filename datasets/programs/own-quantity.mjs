import { eachBlock } from '@tubgap/kit';
import { demoCase } from './demo-case.mjs';

// By how much the gap at 30° shrinks for one m/s more at the finish: least squares over the draws of the case.
const gaps = { tub: 'street-42', topHeight: 39.25 * 0.0254, angles: [Math.PI / 6] };
let [n, x, y, xx, xy] = [0, 0, 0, 0, 0];
await eachBlock(demoCase(), { draws: 8192, gaps }, ({ tyre, count, inputs, gaps: [at30] }) => {
  if (tyre !== 'tall-slick') return;
  for (let run = 0; run < count; run++) {
    const speed = inputs['run.trapSpeed'][run];
    const gap = at30[run];
    n += 1;
    x += speed;
    y += gap;
    xx += speed * speed;
    xy += speed * gap;
  }
});
const slope = (n * xy - x * y) / (n * xx - x * x);
console.log(
  `${n} runs: the gap at 30° changes by ${(1000 * slope).toFixed(2)} mm for one m/s more at the finish`,
);
