import { execFileSync } from 'node:child_process';
import { availableParallelism, cpus } from 'node:os';

const firstLine = (program: string, ...given: string[]): string => {
  try {
    return execFileSync(program, given, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).split(
      '\n',
    )[0]!;
  } catch {
    return `no ${program}`;
  }
};

/** Processor, cores, versions and day of a measurement. */
export function machineName(): string {
  const compiler = 'gcc';
  return [
    `${cpus()[0]?.model.trim() ?? 'unknown processor'}, ${availableParallelism()} cores`,
    `node ${process.version}`,
    firstLine(compiler, '--version'),
    new Date().toISOString().slice(0, 10),
  ].join('; ');
}
