import { execFile } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, describe, expect, it } from 'vitest';
import { report } from '../../../engine/cli/reportSchema.ts';
import { CHECKS, VERDICTS } from '../../../engine/index.ts';
import { FORMATS } from '../../../engine/submittal/formats.ts';

/** The command line as a user runs it: a process, its two streams and its exit code. */

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const TSX = join(ROOT, 'node_modules/.bin/tsx');
const MAIN = join(ROOT, 'engine/cli/main.ts');
const run = async (...args: readonly string[]): Promise<{ code: number; out: string; err: string }> => {
  try {
    const { stdout, stderr } = await promisify(execFile)(TSX, [MAIN, ...args], { cwd: ROOT, maxBuffer: 1e8 });
    return { code: 0, out: stdout, err: stderr };
  } catch (fault) {
    const { code, stdout, stderr } = fault as { code: number; stdout: string; stderr: string };
    return { code, out: stdout, err: stderr };
  }
};

const folder = mkdtempSync(join(tmpdir(), 'copperline-'));
afterAll(() => rmSync(folder, { recursive: true }));
const put = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const example = (name: string): string => join(ROOT, 'examples', name);
const heron = JSON.parse(readFileSync(example('heron-weir-pumps.json'), 'utf8')) as Record<string, unknown>;

describe('check --least-copper', () => {
  it('adds the sizes to text and report', async () => {
    const text = await run(example('alder-mill-fan.json'), '--least-copper');
    expect(text.out).toMatch(/size +F-1 +6 AWG → 10 AWG; 12 AWG breaks feeder-ampacity/);
    const { code, out } = await run(example('alder-mill-fan.json'), '--least-copper', '--sets', '2', '--json');
    expect(code).toBe(0);
    const [told] = report.parse(JSON.parse(out));
    expect(told?.sizing?.cables.map(({ tag, least }) => [tag, least?.size])).toEqual([
      ['F-1', '10 AWG'],
      ['W-1', '10 AWG'],
    ]);
  });
  it('asks for a number of sets only with it', async () => {
    expect((await run(example('alder-mill-fan.json'), '--sets', '2')).code).toBe(2);
    expect((await run(example('alder-mill-fan.json'), '--least-copper', '--sets', 'two')).err).toContain('--sets takes a number');
  });
});

describe('check, exit codes', () => {
  it('0 when nothing fails, worst first, one line a finding', async () => {
    const { code, out } = await run(example('alder-mill-fan.json'));
    expect(code).toBe(0);
    const ranks = out
      .split('\n')
      .slice(1)
      .filter((line) => line !== '')
      .map((line) => VERDICTS.indexOf(line.trim().split(/\s+/)[0] as (typeof VERDICTS)[number]));
    expect(ranks.length).toBeGreaterThan(20);
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    expect(ranks.every((rank) => rank >= 0)).toBe(true);
  });
  it('1 when something fails, and the file is named with its verdict', async () => {
    const { code, out } = await run(example('heron-weir-pumps.json'));
    expect(code).toBe(1);
    expect(out).toMatch(/heron-weir-pumps\.json: FAIL {2}\d+ fail, \d+ open/);
  });
  it.each([
    ['a file that is not there', () => join(folder, 'nothing.json'), /nothing\.json: it cannot be read/],
    ['not JSON', () => put('words.json', 'hello'), /words\.json/],
    ['cut off', () => put('cut.json', readFileSync(example('heron-weir-pumps.json'), 'utf8').slice(0, 900)), /cut\.json.*line \d+/],
    ['another version', () => put('later.json', JSON.stringify({ ...heron, version: 99 })), /later\.json.*version/i],
    [
      'a cable to a part that is not there',
      () => put('dangling.json', JSON.stringify(heron).replace('"element":"e1"', '"element":"e99"')),
      /e99/,
    ],
    ['a length below zero', () => put('below.json', JSON.stringify(heron).replace(/"length_m":[\d.]+/, '"length_m":-3')), /length_m/],
    ['colder than can be', () => put('cold.json', JSON.stringify(heron).replace(/"ambient_C":[\d.]+/, '"ambient_C":-300')), /ambient_C/],
  ])('2 for %s: what, where and how to mend it', async (_name, file, says) => {
    const { code, out, err } = await run(file());
    expect([code, out]).toEqual([2, '']);
    expect(err.replaceAll('\n', ' ')).toMatch(says);
  });
  it('2 when one of several is bad, and the others are judged', async () => {
    const { code, out, err } = await run(example('alder-mill-fan.json'), put('bad.json', '{'));
    expect(code).toBe(2);
    expect(out).toContain('alder-mill-fan.json');
    expect(err).toContain('bad.json');
  });
  it.each([
    [['--frobnicate', 'x.json'], /--frobnicate is not an option/],
    [[], /no file is named/],
    [['--basis', 'mars', 'x.json'], /--basis takes us or iec/],
    [['--pdf'], /--pdf takes/],
    [['--package'], /--package takes/],
    [['x.json', '--pdf', 'x.pdf', '--sheets', 'cover,plinth'], /--sheets takes names of sheets/],
    [['x.json', '--sheets', 'cover'], /--sheets goes with/],
    [['x.json', 'y.json', '--package', 'out', '--against', 'z.json'], /--against takes one line-up/],
    [['a/x.json', 'b/x.json', '--package', 'out'], /two files are called x/],
  ])('2 for wrong usage %j, with the usage', async (args, says) => {
    const { code, err } = await run(...args);
    expect(code).toBe(2);
    expect(err).toMatch(says);
    expect(err).toContain('usage:');
  });
  it('0 where only the usage is asked for', async () => {
    const { code, out, err } = await run('--help');
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^usage: .*--package/);
  });
});

describe('check --json', () => {
  const names = readdirSync(join(ROOT, 'examples')).map(example);
  it('is of the documented shape for every example, in either basis', async () => {
    for (const basis of ['us', 'iec']) {
      const { out } = await run(...names, '--json', '--basis', basis);
      const said: unknown = JSON.parse(out);
      const parsed = report.safeParse(said);
      expect(parsed.error?.issues ?? []).toEqual([]);
      expect((said as unknown[]).length).toBe(names.length);
    }
  });
  it('names what is missing where it cannot judge, and the case, inputs and working where it can', async () => {
    const { out } = await run(example('fennel-lane-capping.json'), '--json');
    const [file] = report.parse(JSON.parse(out));
    const open = file?.findings.filter((each) => each.verdict === 'open') ?? [];
    expect(open.length).toBeGreaterThan(0);
    for (const each of open) expect(each.missing.length > 0 || each.text.length > 20).toBe(true);
    const ampacity = file?.findings.find((each) => each.check === 'feeder-ampacity');
    expect(ampacity?.case).toBe('rated');
    expect(ampacity?.inputs.map((each) => each.origin)).toContain('looked up');
    expect(ampacity?.working.length).toBeGreaterThan(2);
  });
});

describe('check, other answers', () => {
  it('--list prints every check with slug, title, authority and source', async () => {
    const { code, out } = await run('--list');
    expect(code).toBe(0);
    for (const { slug, title, authority, source } of CHECKS) {
      const line = out.split('\n').find((each) => each.startsWith(`${slug} `));
      expect(line).toContain(title);
      expect(line).toContain(authority);
      expect(line).toContain(source);
    }
  });
  it('--docs prints rule, source and example of every check, and every table', async () => {
    const { code, out } = await run('--docs');
    expect(code).toBe(0);
    for (const { title, slug, rule } of CHECKS) {
      expect(out).toContain(`## ${title} (\`${slug}\`)`);
      expect(out).toContain(rule);
    }
    expect(out).toContain('NEC Table 250.122');
  });
  it('limits of the project and checks it switches off stand before the findings, in text and JSON', async () => {
    const project = heron['project'] as Record<string, unknown>;
    const own = {
      ...heron,
      project: { ...project, limits: { leadDrop_pct: 2 }, checks: { harmonics: { off: true, reason: 'a study is at hand' } } },
    };
    const file = put('own.json', JSON.stringify(own));
    const says = 'Limits of this project: drop in a motor lead 2 %. Switched off for this project: harmonics (a study is at hand).';
    expect((await run(file)).out.split('\n')[1]?.trim()).toBe(says);
    const [json] = report.parse(JSON.parse((await run(file, '--json')).out));
    expect(json?.rules).toBe(says);
    expect(json?.findings.filter((each) => each.check === 'harmonics').map((each) => each.verdict)).toContain('out-of-scope');
  });
  it('--pdf writes a PDF', async () => {
    const file = join(folder, 'out.pdf');
    const { code } = await run(example('alder-mill-fan.json'), '--pdf', file);
    expect(code).toBe(0);
    expect(readFileSync(file).subarray(0, 5).toString()).toBe('%PDF-');
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });
  it('--pdf into a folder that is not there says so', async () => {
    const { code, err } = await run(example('alder-mill-fan.json'), '--pdf', join(folder, 'no/such/out.pdf'));
    expect(code).toBe(2);
    expect(err).toMatch(/cannot be written/);
  });
  it('--package writes every form of every file side by side, tells how far it is, and goes on past a bad file', async () => {
    const out = join(folder, 'made/here');
    const said = await run(example('alder-mill-fan.json'), put('bad.json', '{'), example('heron-weir-pumps.json'), '--package', out);
    expect(said.code).toBe(2);
    expect(said.err).toMatch(/bad\.json, line 1/);
    expect(said.err).toContain('3 of 3: ');
    expect(said.out.indexOf('alder-mill-fan')).toBeLessThan(said.out.indexOf('heron-weir-pumps'));
    const written = readdirSync(out);
    expect(written.some((name) => name.startsWith('bad') || name.endsWith('.part'))).toBe(false);
    for (const name of ['alder-mill-fan', 'heron-weir-pumps'])
      for (const ending of [
        ...Object.keys(FORMATS).filter((each) => each !== 'csv' && each !== 'json'),
        'issued.json',
        'cables.csv',
        'equipment.csv',
        'motors.csv',
      ])
        expect(written).toContain(`${name}.${ending}`);
    expect(readFileSync(join(out, 'alder-mill-fan.issued.json'), 'utf8')).toBe(readFileSync(example('alder-mill-fan.json'), 'utf8'));
  });
  it('--sheets writes those alone, and --against lists what changed since another file', async () => {
    const old = put(
      'old.json',
      JSON.stringify({ ...heron, project: { ...(heron['project'] as object), revision: '0' } }).replace('2 AWG', '4 AWG'),
    );
    const file = join(folder, 'chosen.pdf');
    const { code } = await run(example('heron-weir-pumps.json'), '--pdf', file, '--sheets', 'revisions', '--against', old);
    expect(code).toBe(1);
    const pdf = await getDocument({ data: new Uint8Array(readFileSync(file)) }).promise;
    expect(pdf.numPages).toBe(1);
    const said = (await (await pdf.getPage(1)).getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join(' ');
    expect(said).toContain('Changes since revision 0');
    expect(said.replaceAll('\u00a0', ' ')).toContain('4 AWG');
    const missing = await run(example('heron-weir-pumps.json'), '--pdf', file, '--against', join(folder, 'nothing.json'));
    expect(missing.code).toBe(2);
    expect(missing.err).toMatch(/nothing\.json: it cannot be read/);
  });
  it('text of a file never drives the terminal', async () => {
    const hostile = JSON.stringify(heron).replace('"DS-2"', JSON.stringify('\u001b[31mDS\u202e-2\u0007'));
    const { out } = await run(put('hostile.json', hostile));
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/u);
    expect(out).toContain('[31mDS-2');
  });
});
