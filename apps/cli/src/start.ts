import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import { constants } from 'node:os';
import { dirname, join } from 'node:path';

const require = createRequire(import.meta.url);

/** The apps whose commands the front door starts; none is imported. */
export type App = 'montecarlo' | 'reporter' | 'learner' | 'bench';

function commandOf(app: App): string {
  const manifest = require.resolve(`@tubgap/${app}/package.json`);
  const { bin } = require(manifest) as { bin: Record<string, string> };
  return join(dirname(manifest), Object.values(bin)[0]!);
}

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
/** Signals that are passed on as they are; whoever sends more wants an end. */
const PATIENCE = 2;

/** What an app's command left: its exit code, and its output when that was kept. */
export interface Started {
  code: number;
  output: string;
}

/** The results folder that an app has printed: its line without the end, for a name may begin or end with blanks. */
export const placeIn = ({ output }: Started): string => output.replace(/\n$/, '');

/** As shells count a command that a signal has ended. */
const codeOf = (signal: NodeJS.Signals): number => 128 + constants.signals[signal];

function run(
  app: App,
  words: readonly string[],
  keepOutput: boolean,
): Promise<Started & { told: NodeJS.Signals | undefined }> {
  const child = spawn(process.execPath, [commandOf(app), ...words], {
    stdio: ['inherit', keepOutput ? 'pipe' : 'inherit', 'inherit'],
  });
  let output = '';
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    output += text;
  });
  let told: NodeJS.Signals | undefined;
  let times = 0;
  const pass = (signal: NodeJS.Signals): void => {
    told ??= signal;
    times++;
    child.kill(times > PATIENCE ? 'SIGKILL' : signal);
  };
  for (const signal of SIGNALS) process.on(signal, pass);
  return new Promise((resolve, reject) => {
    child.on('error', reject).on('close', (code, signal) => {
      for (const one of SIGNALS) process.off(one, pass);
      resolve({ code: code ?? codeOf(signal!), output, told });
    });
  });
}

/**
 * Starts an app's own command and waits; stderr passes through, stdout is kept or passes through. Signals pass on to it,
 * and when it has ended of one so does this command: nothing is done after a stop.
 */
export async function start(app: App, words: readonly string[], keepOutput: boolean): Promise<Started> {
  const { told, ...done } = await run(app, words, keepOutput);
  if (told !== undefined) process.exit(codeOf(told));
  return done;
}

/** Lets an app's own command take this one's place: what a signal means is for it to say, its exit code is given back. */
export const hand = async (app: App, words: readonly string[]): Promise<number> =>
  (await run(app, words, false)).code;
