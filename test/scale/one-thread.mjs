/**
 * What one thread takes for the parts of a sweep: `node one-thread.mjs MANIFEST`, with the manifest of a sweep of 16
 * points in 2 shards. Prints seconds as one line of JSON.
 */
import { readFileSync } from 'node:fs';
import { parseCase } from '@tubgap/casefile';
import { openStudy } from '@tubgap/simulation';
import { readOrder } from '../../apps/montecarlo/dist/shards/order.js';
import { benchHere, openSweep, workShard } from '../../apps/montecarlo/dist/shards/work-shard.js';

const order = readOrder(readFileSync(process.argv[2], 'utf8'));
const seconds = async (work) => {
  const start = performance.now();
  await work();
  return (performance.now() - start) / 1000;
};
const open = (setups, lowest) => benchHere(openStudy(setups, lowest));

// Making a point out is reading its case and opening it beside the base; the first ones find the compiler asleep.
const { text, named } = order.case;
const setupAt = (i) => {
  const set = [...order.head.settings, order.values[0][i % order.values[0].length]];
  const read = parseCase({ file: order.head.case.file, text, load: (name) => named[name], set });
  return { label: String(i), source: read.value };
};
openStudy(Array.from({ length: 8 }, (_, i) => setupAt(i)));
const points = 32;
const makingOut = await seconds(async () => openStudy(Array.from({ length: points }, (_, i) => setupAt(i))));

const place = openSweep(order);
// The second shard runs the base and eight points through its draws, the first the base and seven, after it has worked
// out what all shards stand beside.
const first = await seconds(() => workShard(place, 1, open));
const second = await seconds(() => workShard(place, 2, open));
const again = await seconds(() => workShard(place, 2, open));
const shard = Math.min(second, again);
const base = Math.max(0, first - (8 / 9) * shard);
process.stdout.write(`${JSON.stringify({ pointMadeOut: makingOut / points, base, shard })}\n`);
