import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DEMO, type Finished, ROOT } from './command.ts';

/** A sweep of the demo that takes a few seconds: one tub, five points, four shards. */
export const SWEEP = [
  ...['sweep', 'demo/case.yaml', '--vary', 'run.trapSpeed = 216 mph to 228 mph by 4 mph'],
  ...['--draws', '2048', '--seed', '3'],
];
export const SHARDS = 4;
export const NAME = 'winged-door-car-sweep';

/** A fresh folder with the demo in it, its catalogue cut to one tub and its accepted risk to one that few runs support. */
export function demoFolder(name: string): string {
  const folder = mkdtempSync(join(tmpdir(), `tubgap-${name}-`));
  cpSync(DEMO, join(folder, 'demo'), { recursive: true });
  const file = join(folder, 'demo', 'case.yaml');
  writeFileSync(
    file,
    readFileSync(file, 'utf8')
      .replace('tubs: all', 'tubs: [street-42]')
      .replace(/runRisk: .*/, 'runRisk: 1 in 100'),
  );
  return folder;
}

/** Every file below a folder, by its name. */
export function filesBelow(place: string, before = ''): Record<string, string> {
  return Object.fromEntries(
    readdirSync(place)
      .toSorted()
      .flatMap((name) => {
        const file = join(place, name);
        if (statSync(file).isDirectory()) return Object.entries(filesBelow(file, `${before}${name}/`));
        return [[before + name, readFileSync(file, 'utf8')]];
      }),
  );
}

/** A command that runs beside the test. */
export interface Running {
  child: ChildProcess;
  said: () => string;
  end: Promise<Finished>;
}

/** The simulating app as it is built here. */
export const APP = `${ROOT}apps/montecarlo/dist/main.js`;

/**
 * Starts the simulating app itself, so that a signal meets it and nothing in front of it.
 * @param within  a command that makes room for it and then becomes it
 * @param main  the file that it starts with: another build's
 */
export function startApp(
  folder: string,
  words: readonly string[],
  env: NodeJS.ProcessEnv = {},
  within: readonly string[] = [],
  main = APP,
): Running {
  const [first, ...rest] = [...within, process.execPath, main, ...words];
  const child = spawn(first!, rest, {
    cwd: folder,
    env: { ...process.env, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let out = '';
  let err = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text;
  });
  return {
    child,
    said: () => out + err,
    end: new Promise((resolve) => child.on('close', (code) => resolve({ code, out, err }))),
  };
}

/**
 * Waits until something is so, however long a busy machine takes: only the limit of the whole test ends it.
 * @param _what  what is waited for, for whoever reads the call
 */
export async function until(_what: string, is: () => boolean): Promise<void> {
  while (!is()) await new Promise((resolve) => setTimeout(resolve, 20));
}
