import { readFileSync } from 'node:fs';
import { chainDiagnostics } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';

interface Row {
  kind: string;
  chains: number[][];
  rHat: number;
  bulk: number;
  tail: number;
}

const rows = JSON.parse(
  readFileSync(new URL('outside/chain-diagnostics/chains.json', import.meta.url), 'utf8'),
) as Row[];

describe('diagnostics of chains against ArviZ', () => {
  it('has seven kinds of chains', () => expect(rows).toHaveLength(7));

  it.each(rows)('$kind: R-hat and effective sizes agree', ({ chains, rHat, bulk, tail }) => {
    const found = chainDiagnostics(chains.map((chain) => Float64Array.from(chain)));
    expect(found.rHat / rHat).toBeCloseTo(1, 6);
    expect(found.bulk / bulk).toBeCloseTo(1, 6);
    expect(Math.abs(found.tail / tail - 1)).toBeLessThan(0.02);
  });
});
