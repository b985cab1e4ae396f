import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { DEMO, type Finished, tubgap } from '../end-to-end/command.ts';

/** So few draws that its pick is soon made. */
export const FEW_DRAWS = ['--draws', '20480', '--cars', '128'];

declare module 'vitest' {
  interface ProvidedContext {
    /** Results folder of the demo, from few draws. */
    demo: string;
    /** What its pick printed. */
    picked: Finished;
  }
}

/** Makes the small results once, for all tests of papers. */
export default function makeResults(project: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'tubgap-papers-'));
  cpSync(DEMO, join(folder, 'demo'), { recursive: true });
  const done = tubgap(folder, 'pick', 'demo/case.yaml', ...FEW_DRAWS);
  if (done.code !== 0) throw new Error(`tubgap pick ended with ${done.code}: ${done.err}${done.out}`);
  const results = join(folder, 'results');
  project.provide('picked', done);
  project.provide('demo', join(results, readdirSync(results)[0]!));
  return () => rmSync(folder, { recursive: true, force: true });
}
