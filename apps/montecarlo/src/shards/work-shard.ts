import { type Case, issueText, parseCase, type Setting } from '@tubgap/casefile';
import {
  type CellFigures,
  type PerformStudy,
  performStudyTask,
  runStudy,
  type Study,
  type StudyPlan,
  type StudySetup,
  studyFigures,
} from '@tubgap/simulation';
import type { StudyBench } from '../study/bench.ts';
import { looksOf, withTubs } from '../study/compare-setups.ts';
import { swapsFirst } from '../study/swap.ts';
import { pointRecord } from '../study/sweep.ts';
import { type PointAt, pointLabel, pointsOf } from '../study/sweep-points.ts';
import { orderKey, pointTotal, type SweepOrder, type SweepPoint, sampleOf, shardRange } from './order.ts';
import { type Shard, shardOf } from './shard.ts';

/** A sweep made ready to work out shards of it. */
export interface SweepPlace {
  order: SweepOrder;
  key: string;
  base: StudySetup;
  ats: PointAt[];
  /** Of the case as it stands, beside which every shard stands: worked out once wherever shards are. */
  figures?: CellFigures[][];
}

/** Makes a bench of setups that are counted from the same heights as all others of the sweep. */
export type OpenBench = (setups: readonly StudySetup[], lowest: readonly number[]) => StudyBench;

/** Reads the case of an order with some values in place of its own. @throws RangeError when it is none */
function caseOf({ case: { text, named }, head }: SweepOrder, set: readonly Setting[]): Case {
  const load = (name: string): string | undefined => (Object.hasOwn(named, name) ? named[name] : undefined);
  const read = parseCase({ file: head.case.file, text, load, set: swapsFirst([...head.settings, ...set]) });
  if (!read.ok) throw new RangeError(read.issues.map(issueText).slice(0, 3).join('; '));
  return withTubs(
    read.value,
    head.tubs.map(({ name }) => name),
  );
}

/** @throws RangeError when the order does not fit its own case */
export function openSweep(order: SweepOrder): SweepPlace {
  const source = caseOf(order, []);
  source.simulation.seed = order.head.seed;
  const lengths = order.head.varied.map(({ texts }) => texts.length);
  const fits =
    order.values.length === lengths.length &&
    order.values.every((settings, i) => settings.length === lengths[i]) &&
    order.lowest.length === source.tubs.length &&
    order.compared.length === source.tubs.length &&
    order.shards <= pointTotal(order);
  if (!fits) throw new RangeError('the order of the sweep does not fit its own case');
  return {
    order,
    key: orderKey(order),
    base: { label: 'the case as it stands', source },
    ats: pointsOf(order.head.mode, lengths),
  };
}

function setupAt({ order }: SweepPlace, at: PointAt): StudySetup {
  const settings = at.flatMap((value, i) => (value === null ? [] : order.values[i]![value]!));
  const given = at.flatMap((value, i) => {
    const { path, texts } = order.head.varied[i]!;
    return value === null ? [] : [{ path, text: texts[value]! }];
  });
  return { label: pointLabel(given), source: caseOf(order, settings) };
}

/** What every shard runs of each of its points. */
const planOf = ({ order, base }: SweepPlace): StudyPlan => ({
  ...sampleOf(order),
  ...looksOf(base.source, order.head.cars !== null),
  heights: order.compared,
});

/** Figures of the case as it stands. */
async function baseFigures(place: SweepPlace, study: Study, perform: PerformStudy) {
  const { order, base } = place;
  let figures: CellFigures[][] = [];
  const alone: Study = { points: study.points.slice(0, 1), seed: study.seed };
  await runStudy(alone, planOf(place), perform, (totals) => {
    figures = studyFigures(study.points[0]!, totals, base.source.accept.runRisk, order.compared);
  });
  return figures;
}

/** Works tasks out where it is called. */
export const benchHere = (study: Study): StudyBench => ({
  study,
  perform: async (tasks) => tasks.map((task) => performStudyTask(study, task)),
  close: async () => {},
});

/**
 * Works out one shard of a sweep: the same bytes wherever and however often it is done.
 * @throws RangeError that names the setup which the model does not know
 */
export async function workShard(
  place: SweepPlace,
  shard: number,
  open: OpenBench,
  tell: (done: number) => void = () => {},
): Promise<Shard> {
  const { order, key, base, ats } = place;
  const [first, end] = shardRange(pointTotal(order), shard, order.shards);
  const some = ats.slice(Math.max(0, first - 1), end - 1);
  const setups = [base, ...some.map((at) => setupAt(place, at))];
  const { study, perform, close } = open(setups, order.lowest);
  try {
    place.figures ??= await baseFigures(place, study, perform);
    const { figures } = place;
    const points: SweepPoint[] = [];
    if (first === 0) {
      points.push(
        pointRecord(
          order.head.varied.map(() => null),
          base,
          base,
          figures,
        ),
      );
    }
    await runStudy(
      study,
      { ...planOf(place), firstPoint: 1 },
      perform,
      (totals, point) => {
        const { runRisk } = base.source.accept;
        const own = studyFigures(study.points[point]!, totals, runRisk, order.compared, figures);
        points.push(pointRecord(some[point - 1]!, setups[point]!, base, own));
      },
      (done) => tell(done / setups.length),
    );
    return shardOf(key, shard, order.shards, points);
  } finally {
    await close();
  }
}
