// Builds without a word, so that `npm start` begins with the decision; says everything when the build fails.
import { spawn } from 'node:child_process';

const PATIENCE = 2000;

const build = spawn('npx turbo run build --output-logs=errors-only', { shell: true });
const said = [];
build.stdout.on('data', (part) => said.push(part));
build.stderr.on('data', (part) => said.push(part));
const waiting = setTimeout(
  () => process.stderr.write('Building; the first time it takes about a minute.\n'),
  PATIENCE,
);
build.on('close', (code) => {
  clearTimeout(waiting);
  if (code !== 0) process.stderr.write(Buffer.concat(said));
  process.exitCode = code ?? 1;
});
