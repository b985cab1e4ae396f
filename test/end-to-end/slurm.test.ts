import { chmodSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FRONT_DOOR, ROOT } from './command.ts';
import { noSlurm, type Slurm, startSlurm } from './slurm.ts';
import { demoFolder, filesBelow, NAME, SHARDS, SWEEP, startApp } from './small-sweep.ts';

/** The batch lines of the guide to many machines, run by a real Slurm. */
const reason = noSlurm();
if (reason !== undefined) console.warn(`LEFT OUT: array jobs of Slurm, for ${reason}`);

describe.skipIf(reason !== undefined)('an array job of Slurm', () => {
  let slurm: Slurm;
  let folder: string;
  beforeAll(async () => {
    folder = demoFolder('slurm');
    slurm = await startSlurm();
  });
  afterAll(async () => {
    await slurm?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('works out the shards by the line of the guide, and what waits for it merges them to the bytes of one run', async () => {
    const guide = readFileSync(join(ROOT, 'apps/montecarlo/README.md'), 'utf8');
    const line = guide.match(/^tubgap sweep mycar\.yaml (.*--shard \$SLURM_ARRAY_TASK_ID\/)40$/m)![1]!;
    expect(line).toContain('--file sweep.yaml --results /shared');
    // The guide's own line, with this sweep in place of the file's and a folder of this test's.
    const asked = line
      .replace(
        '--file sweep.yaml',
        SWEEP.slice(2)
          .map((word) => `"${word}"`)
          .join(' '),
      )
      .replace('/shared', 'array');
    const script = (name: string, body: string): string => {
      const file = join(folder, name);
      writeFileSync(file, `#!/bin/sh\ncd ${folder}\n${body}\n`);
      chmodSync(file, 0o755);
      return file;
    };
    const tubgap = `${process.execPath} ${FRONT_DOOR}`;
    const logs = ['--output', join(folder, 'log-%j'), '--parsable'];
    const shard = script('sweep.sh', `${tubgap} sweep demo/case.yaml --workers 1 ${asked}${SHARDS}`);
    const array = slurm.run('sbatch', ...logs, `--array=1-${SHARDS}`, shard).trim();
    const merge = script('merge.sh', `${tubgap} merge array/${NAME}-shards`);
    const after = [`--dependency=afterok:${array}`, '--kill-on-invalid-dep=yes'];
    const merging = slurm.run('sbatch', ...logs, ...after, merge).trim();
    expect((await startApp(folder, [...SWEEP, '--results', 'one']).end).code).toBe(0);
    await slurm.over(merging);
    const { 'written.json': _, ...one } = filesBelow(join(folder, 'one', NAME));
    expect(filesBelow(join(folder, 'array', NAME))).toMatchObject(one);
  });

  it('fills one folder of draws from its tasks, the same bytes as one command', async () => {
    const words = `draws demo/case.yaml --draws 40000 --workers 1`;
    const file = join(folder, 'draws.sh');
    const tubgap = `${process.execPath} ${FRONT_DOOR}`;
    writeFileSync(
      file,
      `#!/bin/sh\ncd ${folder}\n${tubgap} ${words} --to many --shard $SLURM_ARRAY_TASK_ID/2\n`,
    );
    const job = slurm
      .run('sbatch', '--output', join(folder, 'log-%j'), '--parsable', '--array=1-2', file)
      .trim();
    expect((await startApp(folder, [...words.split(' '), '--to', 'one-draws']).end).code).toBe(0);
    await slurm.over(job);
    expect(filesBelow(join(folder, 'many'))).toEqual(filesBelow(join(folder, 'one-draws')));
  });
});
