import { openStudy } from '@tubgap/simulation';
import { MADE_BY } from '../options.ts';
import type { SweepOrder } from './order.ts';
import type { Shard } from './shard.ts';
import { benchHere, openSweep, type SweepPlace, workShard } from './work-shard.ts';

/** What a thread is asked for. */
export interface ShardTask {
  key: string;
  order: SweepOrder;
  shard: number;
}

/** Sweeps that a thread keeps ready at most. */
const MOST_OPEN = 3;
const open = new Map<string, SweepPlace>();

function placeOf({ key, order }: ShardTask): SweepPlace {
  const there = open.get(key);
  if (there !== undefined) return there;
  const { madeBy } = order.head;
  // A thread that is started late may run what was built meanwhile.
  if (madeBy !== MADE_BY) {
    throw new Error(`the sweep is of ${madeBy}, this is ${MADE_BY}; use one build everywhere`);
  }
  const place = openSweep(order);
  if (open.size >= MOST_OPEN) open.delete(open.keys().next().value!);
  open.set(key, place);
  return place;
}

/** Works out one shard in a worker thread. */
export default function work(task: ShardTask): Promise<Shard> {
  return workShard(placeOf(task), task.shard, (setups, lowest) => benchHere(openStudy(setups, lowest)));
}
