import { type ChildProcess, spawn } from 'node:child_process';
import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { machineName } from '../bench/machine.ts';
import { hasRedis, type OwnRedis, ownRedis } from '../end-to-end/redis.ts';
import { demoFolder, NAME, type Running, startApp, until } from '../end-to-end/small-sweep.ts';
import { busyShare, type Costs, PREDICTED, predictedSeconds } from './prediction.ts';

/**
 * Measures what a sweep on many machines costs: workers side by side, the queue's own time, the coordinator's memory, and
 * what a cost model makes of them for more cores than are here. Prints a table and writes it to scale.csv beside this
 * file. Some four minutes; use a machine that does nothing else. Never fails a build: a machine is no test.
 */
const DRAWS = ['--draws', '8192', '--seed', '3'];
const vary = (points: number): string[] => [
  ...['sweep', 'demo/case.yaml', '--vary', `run.trapSpeed = 200 mph to ${200 + points - 2} mph by 1 mph`],
  ...DRAWS,
];
const WORKERS = [1, 2, 4];
const SHARDS_A_WORKER = 12;
const STANDINS = [1000, 10_000];

/** One line of the table. */
interface Row {
  what: string;
  unit: string;
  value: number;
  note: string;
}

const row = (what: string, unit: string, value: number, note = ''): Row => ({ what, unit, value, note });

const figure = (value: number): string =>
  value >= 1000 ? Math.round(value).toString() : value.toPrecision(3);
const cells = ({ what, unit, value, note }: Row): string[] => [what, figure(value), unit, note];
const quoted = (cell: string): string => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

const own = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

interface Script<T> {
  child: ChildProcess;
  printed: Promise<T>;
}

/** Starts a script of this folder; what it prints is read when it has ended. */
function script<T>(name: string, words: readonly string[], env: NodeJS.ProcessEnv = {}): Script<T> {
  const child = spawn(process.execPath, [own(name), ...words], {
    env: { ...process.env, ...env },
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  let out = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text;
  });
  const printed = new Promise<T>((resolve, reject) => {
    child.on('close', (code) => {
      if (code === 0) resolve(JSON.parse(out) as T);
      else reject(new Error(`${name} ended with ${code}`));
    });
  });
  return { child, printed };
}

/** Shards a second of so many workers, after each has worked out its base; and seconds of a shard on its worker. */
async function throughput(
  folder: string,
  redis: OwnRedis,
  workers: number,
): Promise<{ rate: number; shard: number }> {
  const shards = SHARDS_A_WORKER * Math.max(2, workers);
  const hands: Running[] = Array.from({ length: workers }, () =>
    startApp(folder, ['work', '--workers', '1'], redis.env),
  );
  try {
    await until('the workers', () => hands.every((hand) => hand.said().includes('At redis')));
    const words = [...vary(shards), '--results', `by-${workers}`, '--queue', '--shards', String(shards)];
    const run = startApp(folder, words, redis.env);
    const done: { at: number; seconds: number }[][] = hands.map(() => []);
    const count = (): number => done.reduce((sum, some) => sum + some.length, 0);
    await until('all shards', () => {
      hands.forEach((hand, h) => {
        const told = [...hand.said().matchAll(/shard \d+ of \d+ in ([\d.]+) s/g)];
        for (const [, seconds] of told.slice(done[h]!.length)) {
          done[h]!.push({ at: performance.now(), seconds: Number(seconds) });
        }
      });
      return count() >= shards;
    });
    const { code } = await run.end;
    if (code !== 0) throw new Error(`the sweep ended with ${code}: ${run.said()}`);
    // From when every worker has its base ready: the latest of their first shards.
    const begin = Math.max(...done.map(([first]) => first!.at));
    const after = done.flat().filter(({ at }) => at > begin);
    const end = Math.max(...after.map(({ at }) => at));
    return {
      rate: (1000 * after.length) / (end - begin),
      shard: after.reduce((sum, { seconds }) => sum + seconds, 0) / after.length,
    };
  } finally {
    for (const { child } of hands) child.kill('SIGKILL');
  }
}

interface Coordinated {
  before: number;
  passing: number;
  gathered: number;
  seconds: number;
  processor: number;
}

const redisSeconds = (redis: OwnRedis): number =>
  [...redis.ask('info', 'cpu').matchAll(/^used_cpu_(?:user|sys):([\d.]+)/gm)].reduce(
    (sum, [, seconds]) => sum + Number(seconds),
    0,
  );

/** A sweep whose shards stand-ins make at once: what the queue itself takes, processor seconds. */
async function standIn(
  folder: string,
  redis: OwnRedis,
  shards: number,
  manifest: string,
  shardFile: string,
): Promise<Coordinated & { worker: number; redis: number }> {
  const place = join(folder, `stood-in-${shards}`);
  const before = redisSeconds(redis);
  const hand = script<{ processor: number }>('stand-in.mjs', [shardFile, `${place}.order`], redis.env);
  const words = [manifest, String(shards), place];
  const coordinated = await script<Coordinated>('coordinator.mjs', words, redis.env).printed;
  hand.child.kill('SIGTERM');
  const { processor } = await hand.printed;
  return { ...coordinated, worker: processor, redis: redisSeconds(redis) - before };
}

if (!hasRedis()) process.exit(0);
const folder = demoFolder('scale');
const redis = await ownRedis();
const rows: Row[] = [];
const add = (...more: Row[]): void => {
  rows.push(...more);
  for (const one of more) console.log(cells(one).join('  ').trimEnd());
};
try {
  const [load] = loadavg();
  add(row('load of the machine before', 'processes', load!, 'above 0.5 its figures are not to be trusted'));
  // A manifest and a shard to measure by.
  const parts = ['--results', 'parts', '--shard', '1/2'];
  if ((await startApp(folder, [...vary(16), ...parts]).end).code !== 0) throw new Error('no first shard');
  const place = join(folder, 'parts', `${NAME}-shards`);
  const manifest = join(place, 'manifest.json');
  const alone = await script<Pick<Costs, 'pointMadeOut' | 'base' | 'shard'>>('one-thread.mjs', [manifest])
    .printed;
  const runs = `${DRAWS[1]} runs and as many weighted ones a point, one tub, two tyres`;
  add(
    row('a point made out', 's', alone.pointMadeOut, 'by one core, before anything is run'),
    row('the base of a sweep', 's', alone.base, 'once a thread'),
    row('a shard of eight points', 's', alone.shard, runs),
  );
  const cores = availableParallelism();
  for (const workers of WORKERS) {
    const { rate, shard } = await throughput(folder, redis, workers);
    const more = workers > cores ? `; more than the ${cores} cores there are` : '';
    add(
      row(
        `throughput, ${workers} ${workers === 1 ? 'worker' : 'workers'}`,
        'shards/s',
        rate,
        `shards of one point${more}`,
      ),
      row(`a shard of one point, ${workers} ${workers === 1 ? 'worker' : 'workers'}`, 's', shard, runs),
    );
  }
  if ((await startApp(folder, [...vary(3), '--results', 'one', '--shard', '1/3']).end).code !== 0) {
    throw new Error('no shard of one point');
  }
  const oneFolder = join(folder, 'one', `${NAME}-shards`);
  const shardFile = join(oneFolder, readdirSync(oneFolder).find((name) => name.startsWith('shard-'))!);
  let costs: Costs | undefined;
  for (const shards of STANDINS) {
    const took = await standIn(folder, redis, shards, join(oneFolder, 'manifest.json'), shardFile);
    const queue = (took.worker + took.redis + took.processor) / shards;
    costs = { ...alone, queue, coordinator: took.processor / shards };
    const all = `${shards.toLocaleString('en-GB')} shards made by a stand-in`;
    add(
      row(
        `the queue's time for a shard, ${all}`,
        's',
        queue,
        'processor time of worker, coordinator and Redis',
      ),
      row(`of that the coordinator's, ${all}`, 's', costs.coordinator),
      row(
        `the queue's share of a shard of eight points, ${all}`,
        '%',
        (100 * queue) / (alone.shard + queue),
        'at most 5',
      ),
      row(
        `the coordinator's memory, ${all}`,
        'MB',
        took.passing,
        `${took.before.toFixed(0)} before the first shard`,
      ),
      row(`its memory once all are read for the results, ${all}`, 'MB', took.gathered, 'all points together'),
    );
  }
  const { points, shards } = PREDICTED;
  const what = `${points.toLocaleString('en-GB')} points in ${shards.toLocaleString('en-GB')} shards`;
  for (const many of [1, 10, 100, 1000]) {
    const name = `${many.toLocaleString('en-GB')} ${many === 1 ? 'core' : 'cores'}`;
    add(
      row(
        `PREDICTED ${what}, ${name}`,
        's',
        predictedSeconds(costs!, many),
        'by the cost model, not measured',
      ),
      row(
        `PREDICTED share of the cores' time that is work, ${name}`,
        '%',
        100 * busyShare(costs!, many),
        'not measured',
      ),
    );
  }
  const machine = machineName();
  const lines = [
    ['what', 'value', 'unit', 'note', 'machine'],
    ...rows.map((one) => [...cells(one), machine]),
  ];
  writeFileSync(own('scale.csv'), `${lines.map((line) => line.map(quoted).join(',')).join('\n')}\n`);
  console.log(machine);
} finally {
  await redis.remove();
  rmSync(folder, { recursive: true, force: true });
}
