import { openStudy } from '@tubgap/simulation';
import { MADE_BY } from '../options.ts';
import { orderedPlan, workPart } from '../rows/draws-order.ts';
import { type AnyShard, isDraws, type Order } from './kinds.ts';
import { benchHere, openSweep, type SweepPlace, workShard } from './work-shard.ts';

/** What a thread is asked for. */
export interface ShardTask {
  key: string;
  order: Order;
  shard: number;
}

/** Works out any shard of what it was made of. */
type Work = (shard: number) => Promise<AnyShard>;

/** Orders that a thread keeps ready at most. */
const MOST_OPEN = 3;
const open = new Map<string, Work>();

function workOf({ key, order }: ShardTask): Work {
  const there = open.get(key);
  if (there !== undefined) return there;
  const { madeBy } = order.head;
  // A thread that is started late may run what was built meanwhile.
  if (madeBy !== MADE_BY) {
    throw new Error(`the work is of ${madeBy}, this is ${MADE_BY}; use one build everywhere`);
  }
  const work = opened(key, order);
  if (open.size >= MOST_OPEN) open.delete(open.keys().next().value!);
  open.set(key, work);
  return work;
}

/** Makes an order ready. @throws RangeError when it does not fit its own case */
function opened(key: string, order: Order): Work {
  if (isDraws(order)) {
    const plan = orderedPlan(order);
    return async (part) => workPart(order, plan, key, part);
  }
  const place: SweepPlace = openSweep(order);
  return (shard) => workShard(place, shard, (setups, lowest) => benchHere(openStudy(setups, lowest)));
}

/** Works out one shard in a worker thread. */
export default function work(task: ShardTask): Promise<AnyShard> {
  return workOf(task)(task.shard);
}
