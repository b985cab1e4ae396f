import { eachBlock, oneState, withLaw } from '@tubgap/kit';
import { demoCase } from './demo-case.mjs';

// Speeds of ten invented passes, m/s: a law of the program's statistics package, fitted here to their middle and spread.
const passes = [99.2, 99.8, 100.1, 100.3, 100.4, 100.6, 100.7, 101.0, 101.2, 101.9];
const mean = passes.reduce((sum, x) => sum + x, 0) / passes.length;
const sd = Math.sqrt(passes.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (passes.length - 1));
const source = withLaw(demoCase(), 'run.trapSpeed', { kind: 'normal', mean, sd });

const heights = [];
await eachBlock(source, { draws: 4096 }, ({ tyre, count, requiredHeight }) => {
  if (tyre === 'tall-slick') heights.push(...requiredHeight['street-42'].subarray(0, count));
});
heights.sort((a, b) => a - b);
const place = { tyre: 'tall-slick', tub: 'street-42', topHeight: 1, moment: 'finish' };
console.log(`middle run ${(1000 * oneState(source, place).requiredHeight).toFixed(1)} mm`);
console.log(
  `of ${heights.length} runs 1 in 100 needs more than ${(1000 * heights[Math.floor(0.99 * heights.length)]).toFixed(1)} mm`,
);
