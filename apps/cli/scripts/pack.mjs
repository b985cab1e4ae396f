// Makes one tarball of the built program, to be installed as the command `tubgap` without this repository. The packages of
// the program travel inside of it (bundleDependencies), as they were built; what comes from outside is asked of the registry
// in the very versions that are installed here, so that the installed build is known by the same digest.
import { execFileSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const to = resolve(process.argv[2] ?? '.');
const json = (file) => JSON.parse(readFileSync(file, 'utf8'));
const write = (file, value) => writeFileSync(file, `${JSON.stringify(value, null, 2)}\n`);

/** Version of a package from outside as a workspace gets it. */
function installed(name, folder) {
  for (let at = folder; ; at = dirname(at)) {
    const manifest = join(at, 'node_modules', name, 'package.json');
    if (existsSync(manifest)) return json(manifest).version;
    if (at === dirname(at)) throw new Error(`${name} is not installed for ${folder}; run npm ci first`);
  }
}

const workspaces = ['packages', 'apps'].flatMap((kind) =>
  readdirSync(join(ROOT, kind)).map((name) => join(ROOT, kind, name)),
);
/** What Node runs of a workspace: an app's built files, a package's bundle; neither types nor maps nor what a build left. */
function isRun(folder, file) {
  if (!/\.(?:js|html)$/.test(file)) return false;
  const path = file.slice(join(folder, 'dist').length + 1);
  if (folder.endsWith(join('apps', 'cli'))) return path === 'tubgap.js';
  return existsSync(join(folder, 'dist', 'node')) ? path.startsWith('node') : true;
}

const stage = mkdtempSync(join(tmpdir(), 'tubgap-pack-'));
try {
  const dependencies = {};
  const bundled = [];
  for (const folder of workspaces) {
    const { name, version, type, exports, bin, dependencies: own = {} } = json(join(folder, 'package.json'));
    const inside = join(stage, 'node_modules', name);
    mkdirSync(inside, { recursive: true });
    for (const file of readdirSync(join(folder, 'dist'), { recursive: true, withFileTypes: true })) {
      const from = join(file.parentPath, file.name);
      if (file.isFile() && isRun(folder, from)) cpSync(from, join(inside, from.slice(folder.length)));
    }
    if (existsSync(join(folder, 'bin')))
      cpSync(join(folder, 'bin'), join(inside, 'bin'), { recursive: true });
    if (existsSync(join(folder, 'THIRD-PARTY.md')))
      cpSync(join(folder, 'THIRD-PARTY.md'), join(inside, 'THIRD-PARTY.md'));
    write(join(inside, 'package.json'), {
      name,
      version,
      type,
      exports,
      ...(name === '@tubgap/cli' && { bin }),
    });
    bundled.push(name);
    for (const dependency of Object.keys(own)) {
      if (!dependency.startsWith('@tubgap/')) dependencies[dependency] = installed(dependency, folder);
    }
  }
  const { description, license, engines } = json(join(ROOT, 'package.json'));
  const { name: cli, version, bin } = json(join(ROOT, 'apps/cli/package.json'));
  write(join(stage, 'package.json'), {
    name: 'tubgap',
    version,
    private: true,
    description,
    license,
    type: 'module',
    engines,
    bin: { tubgap: join('node_modules', cli, bin.tubgap) },
    dependencies: {
      ...dependencies,
      ...Object.fromEntries(
        bundled.map((name) => [name, json(join(stage, 'node_modules', name, 'package.json')).version]),
      ),
    },
    bundleDependencies: bundled,
  });
  cpSync(join(ROOT, 'LICENSE'), join(stage, 'LICENSE'));
  const words = ['pack', '--ignore-scripts', '--silent', '--pack-destination', to];
  const name = execFileSync('npm', words, {
    cwd: stage,
    encoding: 'utf8',
    shell: process.platform === 'win32',
  }).trim();
  process.stdout.write(`${join(to, name)}\n`);
} finally {
  rmSync(stage, { recursive: true });
}
