import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { save } from '../../../engine/index.ts';
import { randomLineUp } from '../../second/randomLineUp.ts';

/** A folder of line-ups judged with `--out`: what is ready is never lost, whenever the process is killed. */

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const FILES = 200;
const folder = mkdtempSync(join(tmpdir(), 'copperline-'));
const site = join(folder, 'site');
afterAll(() => rmSync(folder, { recursive: true }));
beforeAll(() => {
  for (let i = 0; i < FILES; i++) {
    const lot = join(site, `lot-${i % 5}`);
    mkdirSync(lot, { recursive: true });
    writeFileSync(join(lot, `line-${i}.json`), i === 77 ? '{"format":"copperline"' : save(randomLineUp(i)));
  }
});

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}
/** The process itself, not a shell round it, so that a kill meets it. */
const start = (...args: readonly string[]): { readonly child: ChildProcess; readonly ended: Promise<Ended> } => {
  const child = spawn(process.execPath, ['--import', 'tsx', join(ROOT, 'engine/cli/main.ts'), ...args], { cwd: ROOT });
  let [out, err] = ['', ''];
  child.stdout.on('data', (text) => {
    out += text;
  });
  child.stderr.on('data', (text) => {
    err += text;
  });
  return { child, ended: new Promise((resolve) => child.once('close', (code) => resolve({ code, out, err }))) };
};
const run = (...args: readonly string[]): Promise<Ended> => start(...args).ended;

const namesIn = (kept: string): readonly string[] => readdirSync(kept, { recursive: true, encoding: 'utf8' }).sort();
const resultsIn = (kept: string): ReadonlyMap<string, string> =>
  new Map(
    namesIn(kept)
      .filter((name) => name.endsWith('.result.json'))
      .map((name) => [name, readFileSync(join(kept, name), 'utf8')]),
  );
const judgedIn = (err: string): number => Number(/200 of 200, (\d+) judged/.exec(err)?.[1]);

describe('check FOLDER --out', () => {
  const whole = join(folder, 'whole');
  const kept = join(folder, 'kept');

  it('keeps one result a file, tells how far it is, and goes on past a file that is cut off', async () => {
    const { code, out, err } = await run(site, '--out', whole);
    expect(code).toBe(2);
    expect(resultsIn(whole).size).toBe(FILES);
    expect(judgedIn(err)).toBe(FILES);
    expect(err).toContain('line-77.json, line 1');
    expect(out.trim().split('\n').length).toBe(FILES - 1);
  });

  it('killed in the middle, it loses no result that was ready and comes to the same set', async () => {
    const { child, ended } = start(site, '--out', kept);
    mkdirSync(kept, { recursive: true });
    while (resultsIn(kept).size < FILES / 3 && child.exitCode === null) await new Promise((next) => setTimeout(next, 20));
    child.kill('SIGKILL');
    expect((await ended).code).toBeNull();
    const ready = resultsIn(kept);
    expect(ready.size).toBeGreaterThan(FILES / 4);
    expect(ready.size).toBeLessThan(FILES);
    for (const text of ready.values()) expect(() => JSON.parse(text)).not.toThrow();
    const when = new Map([...ready.keys()].map((name) => [name, statSync(join(kept, name)).mtimeMs]));

    const { code, err } = await run(site, '--out', kept);
    expect(code).toBe(2);
    expect(judgedIn(err)).toBe(FILES - ready.size);
    for (const [name, time] of when) expect([name, statSync(join(kept, name)).mtimeMs]).toEqual([name, time]);
    expect(resultsIn(kept)).toEqual(resultsIn(whole));
    expect(namesIn(kept).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('judges again what was changed, what another question was asked of and a result that is damaged, and nothing else', async () => {
    writeFileSync(join(site, 'lot-0', 'line-0.json'), save(randomLineUp(FILES)));
    writeFileSync(join(kept, 'lot-1', 'line-1.result.json'), '{"input":');
    const damaged = join(kept, 'lot-2', 'line-2.result.json');
    writeFileSync(damaged, readFileSync(damaged, 'utf8').replace(/"build": "../, '"build": "zz'));
    writeFileSync(join(kept, 'lot-3', 'line-3.result.json.999999999.part'), 'half');
    expect(judgedIn((await run(site, '--out', kept)).err)).toBe(3);
    expect(namesIn(kept).filter((name) => name.endsWith('.part'))).toEqual([]);
    expect(judgedIn((await run(site, '--out', kept)).err)).toBe(0);
    expect(judgedIn((await run(site, '--out', kept, '--basis', 'iec')).err)).toBe(FILES);
  });

  it('results kept inside the folder are not taken for line-ups', async () => {
    const small = join(folder, 'small');
    mkdirSync(small);
    writeFileSync(join(small, 'a.json'), save(randomLineUp(1)));
    for (const again of [1, 2])
      expect([again, (await run(small, '--out', join(small, 'kept'))).err]).toEqual([again, expect.stringContaining('1 of 1,')]);
  });

  it('a file that cannot be written says so, with 2', async () => {
    const blocked = join(folder, 'blocked');
    mkdirSync(join(blocked, 'a.result.json'), { recursive: true });
    const { code, err } = await run(join(folder, 'small', 'a.json'), '--out', blocked);
    expect(code).toBe(2);
    expect(err).toMatch(/a\.result\.json: it cannot be written/);
  });

  it.each([
    [() => [site, '--out'], /--out takes the folder/],
    [() => [site, '--out', kept, '--json'], /--out does not go with/],
    [
      () => [site, join(site, 'lot-0', 'line-5.json'), join(site, 'lot-0', '..', 'lot-0', 'line-5.json'), '--out', kept],
      /two files are called line-5/,
    ],
    [() => [whole.replace('whole', 'empty')], /no line-up|cannot be read/],
  ])('2 for wrong usage', async (args, says) => {
    mkdirSync(join(folder, 'empty'), { recursive: true });
    const { code, err } = await run(...args());
    expect(code).toBe(2);
    expect(err).toMatch(says);
  });
});
