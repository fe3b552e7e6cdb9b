import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Script } from 'node:vm';
import { build } from 'vite';
import { type Collected, standIn } from './standIn.ts';

/**
 * Which small changes of one file its tests do not notice: `npx tsx tests/mutation/mutate.ts FILE[:FIRST-LAST] TEST…`
 *
 * Stryker's own mutants, all written into the file at once, each behind a switch; the tests are bundled with it and asked
 * again in the same process for each, only those that come by it. So a mutant costs the time of its tests and no more.
 */

interface Place {
  readonly line: number;
  readonly column: number;
}
interface Mutant {
  readonly id: string;
  readonly mutatorName: string;
  readonly replacement: string;
  readonly location: { readonly start: Place; readonly end: Place };
}
interface Instrumenter {
  instrument(
    files: readonly { name: string; content: string; mutate: true | { start: Place; end: Place }[] }[],
    options: object,
  ): Promise<{ readonly files: readonly { readonly content: string }[]; readonly mutants: readonly Mutant[] }>;
}
/** By these names what Stryker writes into the file speaks with whoever runs it. */
interface Switch {
  activeMutant?: string | undefined;
  currentTestId?: string | undefined;
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> };
}

const [asked = '', ...tests] = process.argv.slice(2);
const [, target = '', first, last] = /^(.*?)(?::(\d+)-(\d+))?$/.exec(asked) ?? [];
const file = resolve(target);
const source = readFileSync(file, 'utf8');

// Fetched when wanted, not kept: named so that neither the types nor the list of packages ask for it.
const fetched: string = '@stryker-mutator/instrumenter';
const { Instrumenter: Made } = (await import(fetched)) as { Instrumenter: new (log: object) => Instrumenter };
const silent = () => undefined;
const instrumenter = new Made({ debug: silent, info: silent, warn: silent, isDebugEnabled: () => false });
const lines = first && last ? [{ start: { line: Number(first) - 1, column: 0 }, end: { line: Number(last) - 1, column: 999 } }] : true;
const { files, mutants: made } = await instrumenter.instrument([{ name: file, content: source, mutate: lines }], {
  plugins: null,
  ignorers: [],
  excludedMutations: [],
  noHeader: false,
});

const starts = [0, ...[...source.matchAll(/\n/g)].map((each) => each.index + 1)];
const at = ({ line, column }: Place) => (starts[line] ?? 0) + column;
const before = ({ location }: Mutant) => source.slice(at(location.start), at(location.end));
/** A sentence that reads otherwise decides nothing: other tests read those. */
const mutants = made.filter((mutant) => !(mutant.mutatorName === 'StringLiteral' && /\s/.test(before(mutant).trim())));

/** A loop that waits for promises is beyond a limit of time: it is ended by how often it comes by any mutant. */
const counted = (code: string): string => {
  const asks = 'function isActive(id) {';
  if (!code.includes(asks)) throw new Error('the instrumenter asks for its mutants in another way');
  return code.replace(asks, `${asks} if (--globalThis.left < 0) throw new Error('without end');`);
};

const ENTRY = '\0tests';
const built = await build({
  configFile: false,
  logLevel: 'error',
  ssr: { noExternal: true },
  build: {
    ssr: true,
    write: false,
    minify: false,
    rolldownOptions: { input: ENTRY, external: ['vitest'], treeshake: false, output: { format: 'cjs', codeSplitting: false } },
  },
  plugins: [
    {
      name: 'mutants',
      enforce: 'pre',
      resolveId: (id) => (id === ENTRY ? id : null),
      load: (id) => (id === ENTRY ? tests.map((test) => `import ${JSON.stringify(resolve(test))};`).join('\n') : null),
      transform(code, id) {
        const own = id === file ? counted(files[0]?.content ?? code) : code;
        return own
          .replaceAll('import.meta.dirname', JSON.stringify(dirname(id)))
          .replaceAll('import.meta.url', JSON.stringify(pathToFileURL(id).href));
      },
    },
  ],
});
const [chunk] = 'output' in built ? built.output : [];
if (chunk?.type !== 'chunk') throw new Error('nothing was built');
const bundle = new Script(`(require, module, exports) => {${chunk.code}\n}`, { filename: 'bundle.cjs' });

const told = globalThis as unknown as { __stryker__: Switch; asked: () => unknown; left: number };
const require = createRequire(import.meta.url);

/** A loop that a mutant never leaves is ended. */
const withLimit = <T>(ask: () => T, limit_ms: number): T => {
  told.asked = ask;
  return new Script('asked()').runInThisContext({ timeout: Math.ceil(limit_ms) }) as T;
};

/** All tests, freshly read, so that nothing that an earlier mutant left is remembered. */
async function collect(limit_ms: number): Promise<readonly Collected[]> {
  const collected: Collected[] = [];
  const vitest = standIn(collected);
  const load = bundle.runInThisContext() as (require: unknown, module: object, exports: object) => void;
  withLimit(() => load((name: string) => (name === 'vitest' ? vitest : require(name)), { exports: {} }, {}), limit_ms);
  for (const hook of vitest.hooks) await hook();
  return collected;
}

/** Longer than this a test is not asked: each mutant that survives would wait for it. Of the processor, since others may keep it busy. */
const SLOW_ms = 500;
const processor_ms = (): number => process.cpuUsage().user / 1000;

told.__stryker__ = {};
told.left = Number.MAX_SAFE_INTEGER;
const sound = await collect(600_000);
const times: number[] = [];
/** How often each test comes by a mutant. */
const passed: number[] = [];
for (const [i, test] of sound.entries()) {
  told.__stryker__.currentTestId = `${i}`;
  const start = processor_ms();
  const left = told.left;
  try {
    await withLimit(test.run, 600_000);
  } catch (fault) {
    throw new Error(`${test.name} fails without any mutant`, { cause: fault });
  }
  times.push(processor_ms() - start);
  passed.push(left - told.left);
}
const time = (i: number) => times[i] ?? 0;
const quick = [...sound.keys()].filter((i) => time(i) < SLOW_ms).sort((a, b) => time(a) - time(b));
const reached = told.__stryker__.mutantCoverage ?? { static: {}, perTest: {} };

/** Whether all of these tests still pass with this mutant switched on. */
async function unnoticed(id: string, which: readonly number[]): Promise<boolean> {
  told.__stryker__ = { activeMutant: id };
  try {
    told.left = Number.MAX_SAFE_INTEGER;
    const fresh = await collect(20_000);
    for (const i of which) {
      told.left = 10_000 + 20 * (passed[i] ?? 0);
      await withLimit(() => fresh[i]?.run(), 5000 + 10 * time(i));
    }
    return true;
  } catch {
    return false;
  }
}
// Else a bundle that cannot be asked again would look like the best of scores.
if (!(await unnoticed('none', quick))) throw new Error('the tests fail when they are asked twice');

const short = (text: string) => text.replace(/\s+/g, ' ').slice(0, 120);
let survived = 0;
for (const mutant of mutants) {
  const which = quick.filter((i) => mutant.id in reached.static || mutant.id in (reached.perTest[`${i}`] ?? {}));
  if (which.length > 0 && !(await unnoticed(mutant.id, which))) continue;
  survived++;
  const { line, column } = mutant.location.start;
  console.log(`${target}:${line + 1}:${column + 1} (${which.length} tests) ${short(before(mutant))} → ${short(mutant.replacement)}`);
}
const noticed = mutants.length - survived;
const score = mutants.length === 0 ? '' : `${((100 * noticed) / mutants.length).toFixed(1)} %`;
const named = tests.map((test) => `\`${test.slice(6, -8)}\``).join(', ');
console.log(`| \`${asked}\` | ${named} | ${mutants.length} | ${noticed} | ${survived} | ${score} |`);
console.log(`${made.length - mutants.length} in sentences; ${(process.cpuUsage().user / 1e6).toFixed(0)} s of the processor`);
process.exit(0);
