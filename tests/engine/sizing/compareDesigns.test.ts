import { describe, expect, it } from 'vitest';
import { type Compared, compareDesigns, type LineUp, MOVES, review } from '../../../engine/index.ts';
import { conductorOf } from '../../../engine/sizing/compareDesigns.ts';
import { readExample } from './readExample.ts';

const present = readExample('heron-weir-pumps');
const beside = (name: string, lineUp: LineUp): Compared => ({ name, lineUp, review: review(lineUp) });
const first = beside('present', present);
const cables = present.cables.filter(({ kind }) => kind === 'cable');
const last = cables.at(-1);
if (!last) throw new Error('no cable');
const withLast = (change: object): LineUp => ({
  ...present,
  cables: present.cables.map((each) => (each.id === last.id ? { ...each, ...change } : each)),
});

describe('designs side by side', () => {
  it('alike: no row, and every verdict unchanged', () => {
    const { parts, verdicts, counts } = compareDesigns([first, beside('same', { ...present })]);
    expect([parts, verdicts]).toEqual([[], []]);
    expect(MOVES.filter((move) => move !== 'unchanged').map((move) => counts[1]?.[move])).toEqual([0, 0, 0, 0, 0]);
  });

  it('group differences by part, each value in every column', () => {
    const { parts } = compareDesigns([
      first,
      beside('longer', withLast({ length_m: 300, lengthMost_m: undefined })),
      beside('without', { ...present, cables: present.cables.filter(({ id }) => id !== last.id) }),
    ]);
    const own = parts.find(({ id }) => id === last.id);
    expect(own?.tag).toBe(last.tag);
    expect(own?.rows.find(({ label }) => label === 'Part')?.cells).toEqual(['there', 'there', 'not there']);
    const length = own?.rows.find(({ label }) => label.startsWith('Length'));
    expect(length?.cells[1]).toMatch(/984/);
    expect(length?.cells[2]).toBe('–');
  });

  it('a part that only variants have is compared among them', () => {
    const added = (length_m: number): LineUp => ({
      ...present,
      cables: [...present.cables, { ...last, id: 'c900', tag: 'W-900', length_m, from: {}, to: {} } as LineUp['cables'][number]],
    });
    const { parts } = compareDesigns([first, beside('a', added(10)), beside('b', added(20))]);
    const own = parts.find(({ id }) => id === 'c900');
    expect(own?.rows.find(({ label }) => label === 'Part')?.cells).toEqual(['not there', 'there', 'there']);
    const cells = own?.rows.find(({ label }) => label.startsWith('Length'))?.cells ?? [];
    expect(cells[0]).toBe('–');
    expect(cells[1]).not.toBe(cells[2]);
  });

  it('writes all in the units of the first, and calls that no difference', () => {
    const { parts } = compareDesigns([first, beside('metric', { ...present, project: { ...present.project, units: 'metric' } })]);
    expect(parts).toEqual([]);
  });

  it('tells a value that is taken away as something to ask or worse, never as better', () => {
    const { counts, totals } = compareDesigns([first, beside('unknown', withLast({ length_m: undefined, lengthMost_m: undefined }))]);
    const [, count] = counts;
    expect((count?.asked ?? 0) + (count?.worse ?? 0)).toBeGreaterThan(0);
    expect(totals.find(({ label }) => label.startsWith('Phase conductors, mass'))?.cells[1]).toMatch(/^over .*1 cable not known/);
  });

  it('every finding is counted once a design', () => {
    const other = beside('longer', withLast({ length_m: 300, lengthMost_m: undefined }));
    const { counts, verdicts } = compareDesigns([first, other]);
    const said = new Set(
      [first, other].flatMap((each) =>
        each.review.findings.flatMap(({ id, verdict }) => (['not-applicable', 'out-of-scope'].includes(verdict) ? [] : [id])),
      ),
    );
    expect(MOVES.reduce((sum, move) => sum + (counts[1]?.[move] ?? 0), 0)).toBe(said.size);
    for (const { cells, moves } of verdicts) expect(moves[1] === 'unchanged' && cells[0]?.verdict === cells[1]?.verdict).toBe(false);
  });
});

describe('mass of conductor', () => {
  it('of 1000 ft of 4/0 AWG, three phases: NBS Handbook 100 has 640.5 lb of copper a conductor (from memory)', () => {
    const one = (metal: string): LineUp => ({
      ...present,
      cables: [
        { ...last, length_m: 304.8, lengthMost_m: undefined, conductor: { size: '4/0 AWG', metal, sets: 1 } } as LineUp['cables'][number],
      ],
    });
    const pounds = (metal: string): number => conductorOf(one(metal)).mass_kg / 0.453_592_37 / 3;
    expect(Math.abs(pounds('copper') / 640.5 - 1)).toBeLessThan(0.003);
    expect(conductorOf(one('copper')).left).toBe(0);
    expect(pounds('aluminium')).toBeLessThan(pounds('copper') / 3);
  });
});
