import { assess, riskRows } from '@tubgap/kit';
import { demoCase } from './demo-case.mjs';

// "~" moves the middle of a law and keeps its spread. A case is plain data: one tub of it, so that it is soon done.
const whole = demoCase({ 'run.trapSpeed': '~230 mph', 'simulation.draws': '8192', 'simulation.cars': '64' });
const source = { ...whole, tubs: whole.tubs.filter(({ name }) => name === 'street-42') };
for (const { tyre, topHeight, risk } of riskRows(source, await assess(source))) {
  if (tyre !== 'any') continue;
  const [estimate, low, high] = [risk.estimate, risk.low, risk.high].map((chance) => chance.toPrecision(3));
  console.log(`${(topHeight / 0.0254).toFixed(2)} in: ${estimate} (${low} to ${high}), ${risk.method}`);
}
