/**
 * The coordinator of a sweep of so many shards of one point each, whose shards stand-ins make at once:
 * `node coordinator.mjs MANIFEST SHARDS FOLDER`, the queue at REDIS_URL. Prints what it took as one line of JSON.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { queueExecutor } from '../../apps/montecarlo/dist/queue/queue-executor.js';
import { runShards } from '../../apps/montecarlo/dist/shards/run-shards.js';
import { openShardFolder } from '../../apps/montecarlo/dist/shards/shard-folder.js';

const [manifest, count, place] = process.argv.slice(2);
const order = JSON.parse(readFileSync(manifest, 'utf8'));
const shards = Number(count);
const [varied] = order.head.varied;
const many = (list) => Array.from({ length: shards - 1 }, (_, i) => list[i % list.length]);
order.shards = shards;
order.head.varied = [{ ...varied, texts: many(varied.texts), values: many(varied.values) }];
order.values = [many(order.values[0])];

const folder = openShardFolder(place, order);
writeFileSync(`${place}.order`, JSON.stringify({ key: folder.key, shards }));
const megabytes = () => process.resourceUsage().maxRSS / 1024;
const before = megabytes();
let passing = 0;
const start = performance.now();
const processor = process.cpuUsage();
let used;
let seconds = 0;
await runShards(folder, await queueExecutor(), (done) => {
  if (done < 1) return;
  passing = megabytes();
  used = process.cpuUsage(processor);
  seconds = (performance.now() - start) / 1000;
});
process.stdout.write(
  `${JSON.stringify({ before, passing, gathered: megabytes(), seconds, processor: (used.user + used.system) / 1e6 })}\n`,
);
process.exit(0);
