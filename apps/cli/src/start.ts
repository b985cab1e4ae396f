import { spawn, spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

const require = createRequire(import.meta.url);

/** The apps whose commands the front door starts; none is imported. */
export type App = 'montecarlo' | 'reporter' | 'learner' | 'bench';

function commandOf(app: App): string {
  const manifest = require.resolve(`@tubgap/${app}/package.json`);
  const { bin } = require(manifest) as { bin: Record<string, string> };
  return join(dirname(manifest), Object.values(bin)[0]!);
}

/** What an app's command left: its exit code, and its output when that was kept. */
export interface Started {
  code: number;
  output: string;
}

/** Starts an app's own command and waits; stderr passes through, stdout is kept or passes through. */
export function start(app: App, words: readonly string[], keepOutput: boolean): Started {
  const done = spawnSync(process.execPath, [commandOf(app), ...words], {
    stdio: ['inherit', keepOutput ? 'pipe' : 'inherit', 'inherit'],
    encoding: 'utf8',
  });
  if (done.error) throw done.error;
  // A command that was cut by a signal has no code; 1 says that it did not finish.
  return { code: done.status ?? 1, output: done.stdout ?? '' };
}

/** Lets an app's own command take this one's place: signals pass on to it, and its exit code is given back. */
export function hand(app: App, words: readonly string[]): Promise<number> {
  const child = spawn(process.execPath, [commandOf(app), ...words], { stdio: 'inherit' });
  // From a terminal every process of the group gets the signal by itself.
  process.on('SIGINT', () => {});
  process.on('SIGTERM', () => child.kill('SIGTERM'));
  return new Promise((resolve, reject) => {
    child.on('error', reject).on('exit', (code) => resolve(code ?? 1));
  });
}
