import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import type { Program } from './programs.ts';

/** A program that answers each line with a line. */
export interface Contestant {
  name: string;
  ask(line: string): Promise<string>;
  close(): void;
}

/** Starts a contestant; it reads its files once and waits for lines. */
export function contestant(name: string, [program, ...given]: Program, ...files: string[]): Contestant {
  const child = spawn(program, [...given, ...files], { stdio: ['pipe', 'pipe', 'inherit'] });
  // A program that has ended closes its input; its missing answer says so.
  child.stdin.on('error', () => {});
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  return {
    name,
    async ask(line) {
      child.stdin.write(`${line}\n`);
      const { value, done } = await lines.next();
      if (done) throw new Error(`${name} ended without an answer to "${line}"`);
      return value;
    },
    close: () => child.stdin.end(),
  };
}
