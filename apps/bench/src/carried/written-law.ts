import { plainLaw, type UncertainInput } from '@tubgap/casefile';
import type { Law } from '@tubgap/statistics';
import { UNITS } from '@tubgap/units';

/** A law as a case file writes it. */
export type WrittenLaw = Record<string, string | number>;

/** Standard deviations beyond which an end of a law cuts nothing away. */
const FAR = 8;

/**
 * An input's law in the words of a case file, its numbers in SI with every digit; undefined for laws that a
 * file writes as the measured values that they come from.
 */
export function writtenLaw({ law, each, kind }: UncertainInput): WrittenLaw | undefined {
  const unit = UNITS[kind].find(({ factor, offset }) => factor === 1 && offset === 0)!.name;
  const text = (value: number): string | number => (unit === '' ? value : `${value} ${unit}`);
  const plain: Law = plainLaw(law);
  switch (plain.kind) {
    case 'constant':
      return { law: 'constant', value: text(plain.value), each };
    case 'normal':
      return { law: 'normal', mean: text(plain.mean), sd: text(plain.sd), each };
    case 'log-normal':
      return { law: 'log-normal', median: text(plain.median), cov: plain.cov, each };
    case 'uniform':
      return { law: 'uniform', low: text(plain.low), high: text(plain.high), each };
    case 'triangular':
      return {
        law: 'triangular',
        low: text(plain.low),
        mode: text(plain.mode),
        high: text(plain.high),
        each,
      };
    case 'truncated-normal': {
      const { mean, sd, low, high } = plain;
      return {
        law: 'truncated',
        mean: text(mean),
        sd: text(sd),
        ...(low > mean - FAR * sd ? { low: text(low) } : {}),
        ...(high < mean + FAR * sd ? { high: text(high) } : {}),
        each,
      };
    }
    case 'student-t':
    case 'empirical':
      return undefined;
  }
}
