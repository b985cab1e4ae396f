import { expect, test } from 'vitest';
import { createBlockRoom, drawBlock, evaluateBlock } from '../src/run-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { demoCase } from './demo.ts';

test('a run that comes out as no number is refused, and the input that made it one is named with its value', () => {
  const source = demoCase(1024, 10);
  const [first, ...rest] = source.tyres;
  const pressure = first!.inputs.coldPressure;
  const reaches = { ...pressure, law: { kind: 'normal', mean: 41_000, sd: 60_000 } as const };
  const setup = caseSetup({
    ...source,
    tyres: [{ ...first!, inputs: { ...first!.inputs, coldPressure: reaches } }, ...rest],
  });
  const room = createBlockRoom(setup);
  drawBlock(setup, 1, 0, 1024, room);
  expect(() => evaluateBlock(setup, room, 1024)).toThrow(
    /no number: tyres\[0\]\.coldPressure \(cold pressure\) was -?\d.* psi, which is outside what the model knows/,
  );
});
