/**
 * Stands in for a worker: answers every job with the point of a shard that is worked out already, so that what the queue
 * itself takes is left. `node stand-in.mjs SHARD ORDER`, the queue at REDIS_URL; on SIGTERM it prints its processor time.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { connect } from '../../apps/montecarlo/dist/queue/connection.js';
import { PREFIX, QUEUE, readJob } from '../../apps/montecarlo/dist/queue/jobs.js';
import { checkShard, shardOf } from '../../apps/montecarlo/dist/shards/shard.js';

const require = createRequire(new URL('../../apps/montecarlo/package.json', import.meta.url));
const { Worker } = require('bullmq');
const [shardFile, orderFile] = process.argv.slice(2);
const { points } = JSON.parse(readFileSync(shardFile, 'utf8'));
const { redis } = await connect();
let of;
const worker = new Worker(
  QUEUE,
  async (job) => {
    const { key, shard } = readJob(job.data);
    of ??= JSON.parse(readFileSync(orderFile, 'utf8')).shards;
    return checkShard(shardOf(key, shard, of, points)).shard;
  },
  { connection: redis, prefix: PREFIX, concurrency: 1 },
);
worker.on('error', () => {});
process.stderr.write('ready\n');
process.on('SIGTERM', () => {
  const { user, system } = process.cpuUsage();
  process.stdout.write(`${JSON.stringify({ processor: (user + system) / 1e6 })}\n`);
  process.exit(0);
});
