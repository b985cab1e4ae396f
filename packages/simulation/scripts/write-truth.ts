/**
 * Counts the true risks that the proofs hold what prints against, and writes them to test/proofs/truth/:
 * `npx tsx scripts/write-truth.ts NAME`, a name of PROOF_CASES. Some minutes of one core each; the same seed, the same file.
 */
import { writeFileSync } from 'node:fs';
import { PROOF_CASES } from '../test/proofs/cases.ts';
import { countTruth, truthTable } from '../test/proofs/truth.ts';

/** Runs and cars: so many that at the accepted risk the counts are known to some hundredths. */
const COUNTS = {
  demo: { runs: 16_000_000, cars: 100_000 },
  ahead: { runs: 16_000_000, cars: 1 },
  bump: { runs: 40_000_000, cars: 2000 },
  season: { runs: 2_000_000, cars: 600_000 },
};

const name = process.argv[2] as keyof typeof COUNTS;
if (!(name in COUNTS))
  throw new RangeError(`read ${name}; one of ${Object.keys(COUNTS).join(', ')} is needed`);
const { runs, cars } = COUNTS[name];
const file = new URL(`../test/proofs/truth/${name}.csv`, import.meta.url);
writeFileSync(file, truthTable(countTruth(PROOF_CASES[name].source, runs, cars)));
