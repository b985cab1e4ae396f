import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The repository's root and the front door, as a user has them after the build. */
export const ROOT = fileURLToPath(new URL('../../', import.meta.url));
export const DEMO = `${ROOT}datasets/demo`;

export interface Finished {
  code: number | null;
  out: string;
  err: string;
}

/** Runs `tubgap …` in a folder through the real command line. */
export function tubgap(folder: string, ...words: string[]): Finished {
  const done = spawnSync(process.execPath, [`${ROOT}apps/cli/dist/main.js`, ...words], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  return { code: done.status, out: done.stdout, err: done.stderr };
}
