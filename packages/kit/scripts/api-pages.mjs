// Writes the API pages of the packages that are of use outside into a folder: npm run api, or npm run api -- FOLDER.
// The generator reads the types with a compiler that still has an interface of its own, which this house's has not any more;
// so both are fetched for this once and belong to no lock file.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const PACKAGES = ['kit', 'core', 'units', 'statistics', 'casefile', 'simulation', 'drawing'];
const to = resolve(process.argv[2] ?? 'api');
const own = mkdtempSync(join(tmpdir(), 'tubgap-api-'));
const tsconfig = join(own, 'tsconfig.json');
writeFileSync(
  tsconfig,
  JSON.stringify({
    extends: join(ROOT, 'tsconfig.base.json'),
    compilerOptions: {
      composite: false,
      noEmit: true,
      typeRoots: [join(ROOT, 'node_modules/@types')],
      types: ['node'],
    },
    files: PACKAGES.map((name) => join(ROOT, 'packages', name, 'src/index.ts')),
  }),
);
const words = [
  ...['exec', '--yes', '--package=typedoc@0.28', '--package=typescript@5.9', '--', 'typedoc'],
  ...['--tsconfig', tsconfig, '--out', to, '--name', 'tubgap', '--readme', 'none', '--disableSources'],
  ...['--excludePrivate', '--logLevel', 'Error', '--entryPoints'],
  ...PACKAGES.map((name) => join(ROOT, 'packages', name, 'src/index.ts')),
];
const { status } = spawnSync('npm', words, {
  cwd: ROOT,
  stdio: 'inherit',
  shell: process.platform === 'win32',
});
rmSync(own, { recursive: true });
if (status === 0) process.stdout.write(`Written to ${join(to, 'index.html')}\n`);
process.exitCode = status ?? 1;
