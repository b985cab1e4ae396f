import type { Case } from '@tubgap/casefile';
import { INCH } from '@tubgap/units';
import { demoCase } from '../demo.ts';

/** A case whose picks are held against its true risks, in one tub. */
export interface ProofCase {
  name: string;
  /** As the product is given it, with a seed of its own. */
  source: (seed: number) => Case;
}

/** Place in the demo's list of the tub that it picks, street-42. */
const PICKED = 1;

const inOneTub = (source: Case): Case => ({ ...source, tubs: source.tubs.slice(PICKED, PICKED + 1) });
const seeded =
  (source: Case) =>
  (seed: number): Case => ({
    ...source,
    simulation: { ...source.simulation, seed },
  });

/** The demo as it stands, both tyres. */
const demo = inOneTub(demoCase(200_000, 500));
/** The slick alone over a bump whose tail is heavy: what needs most height lies far from the middle of the rest. */
const bump = inOneTub(
  demoCase(200_000, 500, [
    { path: 'run.bump', value: '{ law: log-normal, median: 0.05 in, cov: 1.8, each: run }' },
    { path: 'accept.runRisk', value: '1 in 20,000' },
  ]),
);
/** Few runs and a rare season: plain cars cannot support what is accepted, weighted ones stand beside them. */
const shortSeason = inOneTub(demoCase(32_768, 1024, [{ path: 'accept.seasonRisk', value: '1 in 500' }]));

/** How much further ahead its tub stands in the case `ahead`, m: 3/4 in. */
const AHEAD = 0.75 * INCH;
/** The demo with its tub further ahead: how much more height it then asks for is told with an interval. */
const ahead: Case = {
  ...demo,
  tubs: demo.tubs.map((tub) => ({ ...tub, centreForward: tub.centreForward + AHEAD })),
};

export const PROOF_CASES = {
  demo: { name: 'demo', source: seeded(demo) },
  ahead: { name: 'ahead', source: seeded(ahead) },
  bump: { name: 'bump', source: seeded({ ...bump, tyres: bump.tyres.slice(0, 1) }) },
  season: {
    name: 'season',
    source: seeded({
      ...shortSeason,
      tyres: shortSeason.tyres.slice(0, 1).map((tyre) => ({ ...tyre, runsPerSeason: 6 })),
    }),
  },
} as const satisfies Record<string, ProofCase>;
