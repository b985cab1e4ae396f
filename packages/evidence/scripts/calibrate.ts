import { caseSetup } from '@tubgap/simulation';
import { evidenceParts } from '../src/index.ts';
import { calibrationFit, outsideNineTenths, rootMeanSquare } from '../test/calibration.ts';
import { sixTellTales, withRolloutsAndMarks } from '../test/calibration-readings.ts';
import { demoCase } from '../test/demo.ts';

/**
 * Holds learning against cars of the priors at length: npx tsx scripts/calibrate.ts [tales|all] [fits] [first].
 * Prints how far the truth lies off in believed spreads (1 expected), how often outside the central nine tenths (1 in 10)
 * and how many consistent sets of readings are refused as at odds.
 */
const [which = 'tales', fits = '500', first = '0'] = process.argv.slice(2);
const source = demoCase();
const setup = caseSetup(source);
const readings = which === 'all' ? withRolloutsAndMarks() : sixTellTales();
const template = evidenceParts(source, setup, readings);
const streams = ['car/bumpTravel', 'car/wheelRate', 'car/downforceArea'];
if (which === 'all') streams.push('tyre/tall-slick/growthScale', 'tyre/tall-slick/referenceRadius');
const z = streams.map((): number[] => []);
const places = streams.map((): number[] => []);
let refused = 0;
const count = Number(fits);
for (let n = 0; n < count; n++) {
  const fit = calibrationFit(setup, template, streams, Number(first) + n, { draws: 32, pilot: 16 }, true);
  streams.forEach((_, k) => {
    z[k]!.push(fit.z[k]!);
    places[k]!.push(fit.place[k]!);
  });
  if (fit.refused.length > 0) {
    refused++;
    console.log(`refused, car ${Number(first) + n}: ${fit.refused.join('; ')}`);
  }
  if ((n + 1) % 25 !== 0 && n + 1 !== count) continue;
  console.log(`${n + 1} fits, ${refused} refused`);
  streams.forEach((stream, k) => {
    const off = rootMeanSquare(z[k]!).toFixed(3);
    const outside = outsideNineTenths(places[k]!);
    console.log(
      `  ${stream}: rms ${off}, outside nine tenths ${outside} (${((100 * outside) / (n + 1)).toFixed(1)} %)`,
    );
  });
}
