import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { buildId } from '../../engine/cli/buildId.ts';
import { ADDRESSES, FLOORS, LICENCES, LICENCES_OF_TOOLS } from './rules.ts';

/** What the program is made of, and that the same source makes the same files. */

const ROOT = join(import.meta.dirname, '../..');
const text = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

interface Locked {
  readonly version?: string;
  readonly resolved?: string;
  readonly integrity?: string;
  readonly license?: string;
  readonly dev?: boolean;
  readonly link?: boolean;
}
const LOCKED = Object.entries((JSON.parse(text('package-lock.json')) as { packages: Record<string, Locked> }).packages).filter(
  ([path]) => path !== '',
);
const nameOf = (path: string): string => path.split('node_modules/').at(-1) ?? path;

/** What is wrong with one package of the tree. */
function objections(path: string, { version = '', resolved, integrity = '', license = '', dev, link }: Locked): readonly string[] {
  const name = nameOf(path);
  const floor = FLOORS[name];
  return [
    ...(link || !/^sha512-/.test(integrity) ? [`${name} has no sha512`] : []),
    ...(resolved !== undefined && !/^https:\/\/[^/]+\/.*\.tgz$/.test(resolved) ? [`${name} is not of a registry: ${resolved}`] : []),
    ...(LICENCES.includes(license) || (dev && LICENCES_OF_TOOLS.includes(license)) ? [] : [`${name} is under ${license || 'no licence'}`]),
    ...(floor && (floor.atLeast === null || older(version, floor.atLeast)) ? [`${name} ${version}: ${floor.because}`] : []),
  ];
}
function older(version: string, floor: string): boolean {
  const [a, b] = [version, floor].map((each) => each.split(/[.-]/).map(Number));
  for (let i = 0; i < 3; i++) if (a?.[i] !== b?.[i]) return !((a?.[i] ?? 0) > (b?.[i] ?? 0));
  return false;
}

describe('packages', () => {
  it('are named by exact versions', () => {
    const { dependencies, devDependencies } = JSON.parse(text('package.json')) as Record<string, Record<string, string>>;
    for (const [name, version] of Object.entries({ ...dependencies, ...devDependencies })) expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
  });
  it('run no scripts when they are installed, and are saved exactly', () => {
    const lines = text('.npmrc').split('\n');
    expect(lines).toContain('ignore-scripts=true');
    expect(lines).toContain('save-exact=true');
  });
  it('come from a registry with their hash, under a licence that allows it, and without known holes', () => {
    expect(LOCKED.length).toBeGreaterThan(100);
    expect(LOCKED.flatMap(([path, each]) => objections(path, each))).toEqual([]);
  });
  it('are objected to otherwise', () => {
    const good: Locked = { version: '4.2.1', integrity: 'sha512-a', license: 'MIT' };
    expect(objections('node_modules/jspdf', good)).toEqual([]);
    expect(objections('node_modules/jspdf', { ...good, version: '4.2.0' })).toHaveLength(1);
    expect(objections('node_modules/jspdf', { ...good, version: '10.0.0' })).toEqual([]);
    expect(objections('node_modules/a/node_modules/xlsx', good)).toHaveLength(1);
    expect(objections('node_modules/a', { ...good, integrity: 'sha1-a' })).toHaveLength(1);
    expect(objections('node_modules/a', { ...good, resolved: 'git+ssh://git@a.test/a.git#1' })).toHaveLength(1);
    expect(objections('node_modules/a', { ...good, resolved: 'http://a.test/a.tgz' })).toHaveLength(1);
    expect(objections('node_modules/a', { ...good, license: 'GPL-3.0' })).toHaveLength(1);
    expect(objections('node_modules/a', { ...good, license: 'MPL-2.0' })).toHaveLength(1);
    expect(objections('node_modules/a', { ...good, license: 'MPL-2.0', dev: true })).toEqual([]);
  });
});

const CODE_FROM_TEXT =
  /\b(inner|outer)HTML\b|dangerouslySetInnerHTML|insertAdjacentHTML|document\.write|\bsrcdoc\b|createContextualFragment|DOMParser|\beval\s*\(|\bnew Function\b|javascript:|set(Timeout|Interval)\(\s*['"`]/;
const filesIn = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((path) => /\.(tsx?|mjs|js|css|html|webmanifest|json|svg)$/.test(path));

describe('the source', () => {
  it('turns no text into markup or code', () => {
    const wrong = ['engine', 'editor'].flatMap((folder) =>
      filesIn(join(ROOT, folder)).flatMap((path) => {
        const found = CODE_FROM_TEXT.exec(text(join(folder, path)));
        return found ? [`${folder}/${path}: ${found[0]}`] : [];
      }),
    );
    expect(wrong).toEqual([]);
  });
  it.each([
    'a.innerHTML = b',
    'eval (a)',
    'new Function(a)',
    "setTimeout('a', 1)",
    'dangerouslySetInnerHTML={a}',
    "location = 'javascript:a'",
  ])('would be caught with %s', (line) => expect(line).toMatch(CODE_FROM_TEXT));
});

/** Builds a copy of the source in a folder of its own; the hash of each file. */
function built(): { readonly hashes: Readonly<Record<string, string>>; readonly addresses: readonly string[] } {
  const folder = mkdtempSync(join(tmpdir(), 'copperline-build-'));
  for (const path of [
    'editor',
    'engine',
    'examples',
    'public',
    'index.html',
    'package.json',
    'package-lock.json',
    'vite.config.ts',
    'tsconfig.json',
    'tsconfig.base.json',
  ])
    cpSync(join(ROOT, path), join(folder, path), { recursive: true });
  symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'));
  execFileSync('npx', ['vite', 'build', '--logLevel', 'error'], { cwd: folder, env: { ...process.env, NODE_ENV: 'production' } });
  const dist = join(folder, 'dist');
  const hashes: Record<string, string> = {};
  const addresses = new Set<string>();
  for (const path of readdirSync(dist, { recursive: true, withFileTypes: true })) {
    if (!path.isFile()) continue;
    const name = join(path.parentPath, path.name);
    const bytes = readFileSync(name);
    hashes[name.slice(dist.length + 1)] = createHash('sha256').update(bytes).digest('hex');
    if (/\.(js|css|html|webmanifest)$/.test(name))
      for (const [address] of bytes.toString().matchAll(/https?:\/\/[^"'`\s)<>\\,;]+/g)) addresses.add(address);
  }
  rmSync(folder, { recursive: true });
  return { hashes, addresses: [...addresses] };
}

describe('the build', () => {
  const [first, second] = [built(), built()];
  it('is the same in two folders', () => {
    expect(Object.keys(first.hashes).length).toBeGreaterThan(50);
    expect(second.hashes).toEqual(first.hashes);
  });
  it('names no address that is not accounted for', () => {
    expect(first.addresses.length).toBeGreaterThan(3);
    expect(first.addresses.filter((each) => !ADDRESSES.some((allowed) => allowed.test(each)))).toEqual([]);
  });
  it('is named in the command line as in the site', () => {
    const { stdout } = spawnSync('npx', ['tsx', join(ROOT, 'engine/cli/main.ts'), '--version'], { encoding: 'utf8' });
    expect(stdout).toBe(`Copperline ${(JSON.parse(text('package.json')) as { version: string }).version} (${buildId()})\n`);
  });
});
