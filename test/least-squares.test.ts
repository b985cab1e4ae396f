import { readFileSync } from 'node:fs';
import { leastSquares } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';

interface Problem {
  name: string;
  x: number[];
  y: number[];
  parameters: number[];
  sd: number[];
  sumOfSquares: number;
  residualSd: number;
  starts: number[][];
}

const problems = JSON.parse(
  readFileSync(new URL('outside/least-squares/nist-strd.json', import.meta.url), 'utf8'),
) as Problem[];

const CURVES: Record<string, (x: number, b: Float64Array) => number> = {
  Misra1a: (x, b) => b[0]! * (1 - Math.exp(-b[1]! * x)),
  Thurber: (x, b) =>
    (b[0]! + x * (b[1]! + x * (b[2]! + x * b[3]!))) / (1 + x * (b[4]! + x * (b[5]! + x * b[6]!))),
};

const relative = (found: number, certified: number): number => Math.abs(found / certified - 1);

describe('least squares against NIST’s certified values', () => {
  it('has both problems whole', () => {
    expect(problems.map(({ name, x, y }) => [name, x.length, y.length])).toEqual([
      ['Misra1a', 14, 14],
      ['Thurber', 37, 37],
    ]);
  });

  for (const problem of problems) {
    problem.starts.forEach((start, s) => {
      it(`${problem.name} from start ${s + 1} comes out with the certified digits`, () => {
        const fit = leastSquares({ curve: CURVES[problem.name]!, x: problem.x, y: problem.y, start });
        const digits = problem.name === 'Misra1a' ? 1e-8 : 1e-7;
        problem.parameters.forEach((certified, k) => {
          expect(relative(fit.parameters[k]!, certified)).toBeLessThan(digits);
          expect(relative(fit.sd[k]!, problem.sd[k]!)).toBeLessThan(1e-7);
        });
        expect(relative(fit.sumOfSquares, problem.sumOfSquares)).toBeLessThan(1e-8);
        expect(relative(fit.residualSd, problem.residualSd)).toBeLessThan(1e-8);
      });
    });
  }
});
