import { readFileSync } from 'node:fs';
import { cumulative, density, type Law, mean, quantile, variance } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';

interface Row {
  law: Law;
  points: { u: number; x: number; cumulative: number; density: number }[];
  mean: number | null;
  variance: number | null;
}

const rows = JSON.parse(readFileSync(new URL('outside/laws/laws.json', import.meta.url), 'utf8')) as Row[];

describe('laws against SciPy', () => {
  it('has thirteen laws with eight points each', () => {
    expect(rows.map(({ points }) => points.length)).toEqual(new Array(13).fill(8));
  });

  it.each(rows.map((row) => [JSON.stringify(row.law), row] as const))('%s', (_, row) => {
    const { law, points } = row;
    const spread = points[6]!.x - points[2]!.x;
    for (const point of points) {
      expect(Math.abs(quantile(law, point.u) - point.x)).toBeLessThan(1e-9 * spread);
      expect(Math.abs(cumulative(law, point.x) - point.u)).toBeLessThan(1e-9);
      // At its median a learned law's density jumps from one side's spread to the other's.
      if (law.kind === 'updated' && point.u === 0.5) continue;
      expect(Math.abs(density(law, point.x) / point.density - 1)).toBeLessThan(1e-8);
    }
    if (row.mean !== null) expect(Math.abs(mean(law) - row.mean)).toBeLessThan(1e-9 * spread);
    if (row.variance !== null && Number.isFinite(row.variance)) {
      expect(Math.abs(variance(law) / row.variance - 1)).toBeLessThan(1e-9);
    }
  });
});
