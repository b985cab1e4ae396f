import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('.', import.meta.url));

/** A program with its first arguments; files and answers follow. */
export type Program = readonly [string, ...string[]];

const runs = (program: string, ...given: string[]): boolean => {
  try {
    execFileSync(program, given, { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
};

/** The C peer, compiled into a folder; undefined without a C compiler. */
export function compiledPeer(into: string): Program | undefined {
  if (!runs('gcc', '--version')) return undefined;
  const sources = readdirSync(join(folder, 'c')).filter((name) => name.endsWith('.c'));
  const program = join(into, 'peer');
  execFileSync('gcc', [
    ...[
      '-O3',
      '-march=native',
      '-flto',
      '-std=c11',
      '-D_POSIX_C_SOURCE=200809L',
      '-Wall',
      '-Wextra',
      '-Werror',
    ],
    ...sources.map((name) => join(folder, 'c', name)),
    ...['-o', program, '-lm'],
  ]);
  return [program];
}

/** A Python that has these modules, the system's own included; undefined where there is none. */
export function pythonWith(...modules: string[]): string | undefined {
  return ['python3', '/usr/bin/python3'].find((python) => runs(python, '-c', `import ${modules.join(', ')}`));
}

/** The numpy peer; undefined without python3-numpy. */
export function numpyPeer(): Program | undefined {
  const python = pythonWith('numpy');
  return python === undefined ? undefined : [python, '-B', join(folder, 'numpy', 'serve.py')];
}

/** Runs a peer on a question's files; its answers, height by height: with the reserve, and without. */
export function peerAnswers(
  [program, ...given]: Program,
  files: { setup: string; draws: string },
): [Float64Array, Float64Array] {
  const out = `${files.draws}.out`;
  execFileSync(program, [...given, files.setup, files.draws, out], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  const bytes = readFileSync(out);
  const all = new Float64Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  const size = all.length / 2;
  return [all.subarray(0, size), all.subarray(size)];
}
