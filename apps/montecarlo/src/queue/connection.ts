import { Redis } from 'ioredis';
import { StudyFault } from '../study/fault.ts';
import { redisAddress } from './address.ts';

/** How long Redis may take to answer at first, ms. */
const PATIENCE = 5000;

/** Waits for Redis, but not for ever: undefined when it takes too long. */
export async function soon<T>(work: Promise<T>): Promise<T | undefined> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<undefined>((resolve) => {
    timer = setTimeout(() => resolve(undefined), PATIENCE);
  });
  const first = await Promise.race([work, late]);
  clearTimeout(timer);
  return first;
}

/**
 * Connects to Redis; once it has answered, a connection that breaks is waited for and made again.
 * @throws StudyFault when none answers
 */
export async function connect(): Promise<{ redis: Redis; shown: string }> {
  const { options, shown } = redisAddress();
  const redis = new Redis(options);
  let fault = '';
  let away = false;
  redis.on('error', (error) => {
    fault = error.message;
  });
  const answer = await soon(redis.ping().catch((error: Error) => error));
  if (answer !== 'PONG') {
    redis.disconnect();
    const why = answer instanceof Error ? answer.message : fault;
    throw new StudyFault([
      `No Redis answers at ${shown}${why === '' ? '' : ` (${why})`}. Start one (apps/montecarlo/README.md tells how), set REDIS_URL, or leave --queue out: everything then runs on this machine.`,
    ]);
  }
  // The client itself would go on in another database where this one is refused.
  const chosen = await redis.select(options.db).catch((error: Error) => error);
  if (chosen instanceof Error) {
    redis.disconnect();
    throw new StudyFault([
      `Redis at ${shown} has no database ${options.db} for this (${chosen.message}). End REDIS_URL with the number of one that it has, or with none.`,
    ]);
  }
  redis.on('close', () => {
    if (!away && redis.status !== 'end') process.stderr.write(`Redis at ${shown} is away; waiting for it.\n`);
    away = true;
  });
  redis.on('ready', () => {
    if (away) process.stderr.write(`Redis at ${shown} is back.\n`);
    away = false;
  });
  return { redis, shown };
}
