import { createHash } from 'node:crypto';
import { existsSync, readFileSync, realpathSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const PROGRAM = 'tubgap 0.1.0';
/** Packages of this program; all others are known by name and version. */
const OWN = '@tubgap/';
/** What a built file brings in: an import, or a file that a thread is started from. */
const BROUGHT_IN = /(?:\bfrom|\bimport|\bimport\(|\bnew URL\()\s*['"]([^'"\n]+)['"]/g;
/** Digits of the digest by which a build goes: enough that two never share them by chance. */
const SHOWN = 12;

/** Version of a package from outside, as it is installed for a file; empty where it cannot be told. */
function versionOf(name: string, file: string): string {
  for (let folder = dirname(file); ; folder = dirname(folder)) {
    const manifest = join(folder, 'node_modules', name, 'package.json');
    if (existsSync(manifest))
      return (JSON.parse(readFileSync(manifest, 'utf8')) as { version: string }).version;
    if (folder === dirname(folder)) return '';
  }
}

/** 'name' or '@scope/name' of what an import asks for. */
const packageOf = (asked: string): string =>
  asked
    .split('/')
    .slice(0, asked.startsWith('@') ? 2 : 1)
    .join('/');

/**
 * Digest of the built code that a program runs: the text of its entry and of every file of this program that this brings
 * in, however far away, and the versions of the packages from outside. Two builds with the same digest work out the same;
 * places and leftovers of earlier builds do not enter.
 * @param entry  built file that the program starts with
 * @returns SHA-256, 64 hexadecimal digits
 */
export function buildDigest(entry: string): string {
  const hash = createHash('sha256');
  const seen = new Set<string>();
  const visit = (file: string): void => {
    if (seen.has(file)) return;
    seen.add(file);
    const text = readFileSync(file, 'utf8');
    hash.update(`${text.length}\n${text}`);
    for (const [, asked] of text.matchAll(BROUGHT_IN)) {
      if (asked!.startsWith('.')) {
        const beside = resolve(dirname(file), asked!);
        if (beside.endsWith('.js') && existsSync(beside)) visit(realpathSync(beside));
      } else if (asked!.startsWith(OWN)) {
        visit(realpathSync(createRequire(file).resolve(asked!)));
      } else if (!asked!.startsWith('node:')) {
        const name = packageOf(asked!);
        hash.update(`${name} ${versionOf(name, file)}\n`);
      }
    }
  };
  visit(realpathSync(entry));
  return hash.digest('hex');
}

/** Which build of a program works, and how its results name it: program, version and build. */
export interface Build {
  build: string;
  madeBy: string;
}

/** The build that a program is of. @param entry  address of the built file that it starts with */
export function buildOf(entry: URL): Build {
  const build = buildDigest(fileURLToPath(entry)).slice(0, SHOWN);
  return { build, madeBy: `${PROGRAM}, build ${build}` };
}
