import { fileURLToPath } from 'node:url';
import { contestant } from '../peers/contestant.ts';
import { demoSetup } from './demo-setup.ts';
import { bestAndMedian, ratioOf, rounds } from './rounds.ts';
import type { Row } from './table.ts';

const program = fileURLToPath(new URL('./demo.mjs', import.meta.url));
const BLOCK = 1024;
const BLOCKS = 8;
const ROUNDS = 7;
const MILLION = 1e6;

const demo = (name: string, tubs: number, tyres: number) =>
  contestant(name, [process.execPath, program], String(tubs), String(tyres));

/** Speed of the demo on one core, where its time goes, and what more tubs and tyres cost. */
export async function demoRows(): Promise<Row[]> {
  const runs = BLOCKS * BLOCK;
  const setup = demoSetup();
  const tubs = setup.clearance.tubs.length;
  const tyres = setup.tyres.length;
  const [all, one, five] = await rounds(
    [demo('demo', tubs, tyres), demo('one tub', 1, tyres), demo('five tyres', tubs, 5)],
    () => String(BLOCKS),
    ROUNDS,
    2,
  );
  const total = (answers: number[][]): number[] => answers.map(([draw, run, count]) => draw! + run! + count!);
  const perSecond = bestAndMedian(total(all!).map((seconds) => runs / seconds));
  const fastest = Math.max(...total(all!).map((seconds) => runs / seconds));
  const parts = ['draw', 'evaluate', 'count'].map((name, part): Row => {
    const micro = bestAndMedian(all!.map((answer) => (1e6 * answer[part]!) / runs));
    const share = ratioOf(
      all!.map((answer) => answer[part]!),
      total(all!),
    );
    return {
      what: `demo: ${name}`,
      unit: 'µs/run of the car',
      ...micro,
      ratio: share,
      against: 'the whole',
      note: '',
    };
  });
  const scaled = bestAndMedian(total(five!).map((seconds) => (seconds * MILLION) / runs));
  return [
    {
      what: `demo: ${tyres} tyres, ${tubs} tubs, hard points`,
      unit: 'runs of the car/s',
      best: fastest,
      median: perSecond.median,
      ratio: undefined,
      against: '',
      note: 'one core',
    },
    ...parts,
    {
      what: `demo: ${tubs} tubs`,
      unit: 's',
      ...bestAndMedian(total(all!)),
      ratio: ratioOf(total(all!), total(one!)),
      against: 'one tub',
      note: `${runs} runs of the car`,
    },
    {
      what: `a million runs, all moments, 5 tyres, ${tubs} tubs`,
      unit: 's',
      ...scaled,
      ratio: undefined,
      against: '',
      note: `scaled from ${runs} runs; one core`,
    },
  ];
}
