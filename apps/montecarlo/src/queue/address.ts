import type { RedisOptions } from 'ioredis';
import { StudyFault } from '../study/fault.ts';

/** Where the queue is when REDIS_URL does not say: this machine alone. */
const DEFAULT = 'redis://127.0.0.1:6379';
const EXAMPLE = 'redis://127.0.0.1:6379 or rediss://:PASSWORD@queue.shop.lan:6379';
const LOOPBACK = /^(localhost|127(\.\d{1,3}){3}|\[::1\])$/;

/** A name or password out of an address. @throws StudyFault that does not show it */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    throw new StudyFault([
      'REDIS_URL has a % in its name or password that begins no letter of an address; write a % itself as %25.',
    ]);
  }
}

/** An address of Redis: for the client, and as it may be shown. */
export interface Address {
  options: RedisOptions & { db: number };
  /** Without name and password. */
  shown: string;
}

/**
 * Reads where Redis is. An address of another machine is taken only with a password, since whoever reaches the queue
 * can hand out work and answers.
 * @throws StudyFault that says what is wrong with it, never with the password in it
 */
export function redisAddress(text = process.env.REDIS_URL ?? DEFAULT): Address {
  let url: URL;
  try {
    url = new URL(text);
  } catch {
    throw new StudyFault([`REDIS_URL is no address; write it as in ${EXAMPLE}.`]);
  }
  const { protocol, hostname, port, username, password, pathname } = url;
  if ((protocol !== 'redis:' && protocol !== 'rediss:') || hostname === '') {
    throw new StudyFault([
      `REDIS_URL begins with "${protocol}"; redis:// or rediss:// is needed, as in ${EXAMPLE}.`,
    ]);
  }
  const db = pathname === '' || pathname === '/' ? 0 : Number(pathname.slice(1));
  if (!Number.isInteger(db) || db < 0 || db > 1000) {
    throw new StudyFault([
      `REDIS_URL ends with "${pathname}"; only the number of a database may stand there.`,
    ]);
  }
  const [user, word] = [username, password].map(decoded) as [string, string];
  const shown = `${protocol}//${hostname}:${port || '6379'}`;
  if (!LOOPBACK.test(hostname) && password === '') {
    throw new StudyFault([
      `REDIS_URL leads to another machine (${shown}) and has no password. Give Redis one (requirepass), and write it into REDIS_URL as in ${EXAMPLE}.`,
    ]);
  }
  return {
    shown,
    options: {
      host: hostname.replace(/^\[|\]$/g, ''),
      port: Number(port || 6379),
      db,
      ...(user === '' ? {} : { username: user }),
      ...(word === '' ? {} : { password: word }),
      ...(protocol === 'rediss:' ? { tls: {} } : {}),
      // A command waits for Redis to come back, however long that takes.
      maxRetriesPerRequest: null,
      retryStrategy: (times) => Math.min(2000, 100 * times),
    },
  };
}
