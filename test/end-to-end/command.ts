import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The repository's root and the front door, as a user has them after the build. */
export const ROOT = fileURLToPath(new URL('../../', import.meta.url));
/** The command that npm links. */
export const FRONT_DOOR = `${ROOT}apps/cli/bin/tubgap.js`;
export const DEMO = `${ROOT}datasets/demo`;

export interface Finished {
  code: number | null;
  out: string;
  err: string;
}

/** Runs `tubgap …` in a folder through the real command line. */
export function tubgap(folder: string, ...words: string[]): Finished {
  const done = spawnSync(process.execPath, [FRONT_DOOR, ...words], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  return { code: done.status, out: done.stdout, err: done.stderr };
}
