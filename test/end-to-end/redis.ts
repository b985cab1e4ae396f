import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer, connect as openSocket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { until } from './small-sweep.ts';

const has = (command: string): boolean => {
  try {
    execFileSync('sh', ['-c', `command -v ${command}`], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
};

/** Whether this machine has Redis; says loudly what is left out where it has not. */
export function hasRedis(): boolean {
  if (has('redis-server')) return true;
  process.stderr.write(
    '\nSKIPPED: the tests of the queue need redis-server (Debian: apt-get install redis-server).\n\n',
  );
  return false;
}

/** Where libfaketime is on this machine; says so loudly where it is not. */
export function fakeTime(): string | undefined {
  try {
    const found = execFileSync('sh', ['-c', 'ls /usr/lib/*/faketime/libfaketimeMT.so.1'], { stdio: 'pipe' });
    return found.toString().trim().split('\n')[0];
  } catch {
    process.stderr.write(
      '\nSKIPPED: clock jumps need libfaketime (Debian: apt-get install libfaketime).\n\n',
    );
    return undefined;
  }
}

const freePort = (): Promise<number> =>
  new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });

/** A Redis of a test's own, on loopback, that writes down all it is told. */
export interface OwnRedis {
  env: { REDIS_URL: string };
  start: () => Promise<void>;
  /** Ends it in the middle of whatever it does. */
  kill: () => Promise<void>;
  ask: (...words: string[]) => string;
  remove: () => Promise<void>;
}

const answers = (port: number): Promise<boolean> =>
  new Promise((resolve) => {
    const socket = openSocket(port, '127.0.0.1', () => socket.write('PING\r\n'));
    socket.on('data', (data) => {
      socket.destroy();
      resolve(data.toString().startsWith('+PONG'));
    });
    socket.on('error', () => resolve(false));
  });

export async function ownRedis(): Promise<OwnRedis> {
  const port = await freePort();
  const place = mkdtempSync(join(tmpdir(), 'tubgap-redis-'));
  let child: ChildProcess | undefined;
  const start = async (): Promise<void> => {
    const words = ['--bind', '127.0.0.1', '--port', String(port), '--dir', place, '--save', ''];
    const durable = ['--appendonly', 'yes', '--appendfsync', 'everysec', '--maxmemory-policy', 'noeviction'];
    child = spawn('redis-server', [...words, ...durable], { stdio: 'ignore' });
    let up = false;
    void (async () => {
      while (!up) {
        up = await answers(port);
        await new Promise((resolve) => setTimeout(resolve, 50));
      }
    })();
    await until('Redis to start', () => up);
  };
  const kill = async (): Promise<void> => {
    if (child === undefined) return;
    const gone = new Promise((resolve) => child!.on('exit', resolve));
    child.kill('SIGKILL');
    await gone;
    child = undefined;
  };
  await start();
  return {
    env: { REDIS_URL: `redis://127.0.0.1:${port}` },
    start,
    kill,
    ask: (...words) => execFileSync('redis-cli', ['-p', String(port), ...words]).toString(),
    remove: async () => {
      await kill();
      rmSync(place, { recursive: true, force: true });
    },
  };
}
