import { describe, expect, it } from 'vitest';
import type { Cable, Choice } from '../../../engine/index.ts';
import { area_mm2, choiceOf, choicesOf, resized, resizing, standardSizes, volume_m3 } from '../../../engine/sizing/choices.ts';
import type { Ladder } from '../../../engine/sizing/ladder.ts';
import { firstThat, type Judging, stepsOf } from '../../../engine/sizing/sizeSteps.ts';
import { CABLE } from '../checks/scopes.ts';

/** What a cable may be made of, and in which order other sizes are tried. */

const made = (conductor: object, more: object = {}): Cable => ({ ...CABLE, ...more, conductor: { ...CABLE.conductor, ...conductor } });
const of = (size: string, sets = 1): Choice => ({ size, sets });

describe('a choice', () => {
  it('is the size and sets of the cable, one set where none is said, and none where no table has the size', () => {
    expect(choiceOf(made({ size: '35 mm2', sets: 2 }))).toEqual(of('35 mm2', 2));
    expect(choiceOf(made({ sets: undefined }))).toEqual(of('2 AWG'));
    expect([choiceOf(made({ size: undefined })), choiceOf(made({ size: '7 AWG' }))]).toEqual([null, null]);
  });
  it('has the area of its sets, and three phases of the length at its long end', () => {
    expect([area_mm2(of('35 mm2', 3)), area_mm2(of('7 AWG', 3))]).toEqual([105, 0]);
    // 60 m × 3 × 2 × 35 mm² = 12 600 mm² m.
    expect(volume_m3(CABLE, of('35 mm2', 2))).toBeCloseTo(0.0126, 12);
    expect(volume_m3({ ...CABLE, lengthMost_m: 120 }, of('35 mm2', 2))).toBeCloseTo(0.0252, 12);
    expect(volume_m3({ ...CABLE, length_m: undefined }, of('35 mm2'))).toBe(0);
  });
  it('is of the sizes that its metal is made in, in its own system, else in that of the project', () => {
    const ends = (cable: Cable, basis: 'us' | 'iec') => {
      const sizes = standardSizes(cable, basis);
      return [sizes[0], sizes.at(-1), sizes.length];
    };
    // NEC Chapter 9 Table 8 and IEC 60228 have so many; Table 2 of the latter gives aluminium from 10 mm² on.
    expect(ends(made({}), 'iec')).toEqual(['18 AWG', '1000 kcmil', 26]);
    expect(ends(made({ size: '35 mm2' }), 'us')).toEqual(['0.5 mm2', '630 mm2', 22]);
    expect(ends(made({ size: undefined }), 'us')[0]).toBe('18 AWG');
    expect(ends(made({ size: undefined }), 'iec')[0]).toBe('0.5 mm2');
    expect(standardSizes(made({ size: '35 mm2', metal: 'aluminium' }), 'us').slice(0, 3)).toEqual(['10 mm2', '16 mm2', '25 mm2']);
    expect(standardSizes(made({ metal: 'aluminium' }), 'us')).toContain('12 AWG');
  });
  it('is one of all sizes and sets, by area, the fewer sets first', () => {
    expect(choicesOf(['25 mm2', '50 mm2', '35 mm2'], 2)).toEqual([
      of('25 mm2'),
      of('35 mm2'),
      of('50 mm2'),
      of('25 mm2', 2),
      of('35 mm2', 2),
      of('50 mm2', 2),
    ]);
  });
});

describe('a cable of another size', () => {
  const sheet = made(
    {},
    { outerDiameter_mm: 30, insulation: { type: 'XHHW-2', wall_mm: 1.1 }, shieldArea_mm2: 8, wave: { impedance_ohm: 60 } },
  );
  it('is without what the data sheet of the old size says, and keeps the rest', () => {
    const other = resized(sheet, of('1 AWG'));
    expect([other.conductor, other.outerDiameter_mm, other.insulation, other.shieldArea_mm2, other.wave]).toEqual([
      { size: '1 AWG', metal: 'copper', sets: 1 },
      undefined,
      { type: 'XHHW-2' },
      undefined,
      undefined,
    ]);
    expect(resizing(CABLE, of('1 AWG')).map(({ path }) => path)).toEqual(['conductor.size']);
  });
  it('of its own size is itself, whatever its sheet says', () => {
    expect(resizing(sheet, of('2 AWG'))).toEqual([]);
    expect(resized(sheet, of('2 AWG'))).toEqual(sheet);
  });
  it('of several sets has them alike, each with all phases, unless it is said how they are', () => {
    const edits = (cable: Cable, choice: Choice) => resizing(cable, choice).map(({ id, path, value }) => [id, path, value]);
    expect(edits(CABLE, of('2 AWG', 2))).toEqual([
      ['c1', 'conductor.sets', 2],
      ['c1', 'setsAlike', true],
      ['c1', 'setsHoldAllPhases', true],
    ]);
    expect(edits({ ...CABLE, setsAlike: false, setsHoldAllPhases: false }, of('2 AWG', 2))).toEqual([['c1', 'conductor.sets', 2]]);
    expect(edits(made({ sets: 3 }), of('2 AWG', 1))).toEqual([['c1', 'conductor.sets', 1]]);
  });
});

describe('steps from what cables have', () => {
  const METRIC = ['25 mm2', '35 mm2', '50 mm2', '70 mm2'];
  const ladder = (id: string, sets = 1, sizes = METRIC) =>
    ({ cable: { ...CABLE, id }, choices: choicesOf(sizes, sets), least: of('25 mm2') }) as unknown as Ladder;
  const told = (steps: readonly (readonly ReadonlyMap<string, Choice>[])[]) =>
    steps.map((side) => side.map((step) => [...step].map(([id, { size, sets }]) => `${id}: ${sets} × ${size}`).join(', ')));

  it('are those next to them first, above, below or both', () => {
    const from = new Map([['a', of('35 mm2')]]);
    expect(told(stepsOf([ladder('a')], from, true))).toEqual([['a: 1 × 50 mm2', 'a: 1 × 70 mm2']]);
    expect(told(stepsOf([ladder('a')], from, false))).toEqual([['a: 1 × 25 mm2']]);
    // 10 down, 15 up, 35 up.
    expect(told(stepsOf([ladder('a')], from, null))).toEqual([['a: 1 × 25 mm2', 'a: 1 × 50 mm2', 'a: 1 × 70 mm2']]);
  });
  it('of several cables bring each at least to one size, or at most', () => {
    const from = new Map([
      ['a', of('35 mm2')],
      ['b', of('50 mm2')],
    ]);
    expect(told(stepsOf([ladder('a'), ladder('b')], from, true))).toEqual([['a: 1 × 50 mm2', 'a: 1 × 70 mm2, b: 1 × 70 mm2']]);
    expect(told(stepsOf([ladder('a'), ladder('b')], from, false))).toEqual([['b: 1 × 35 mm2', 'a: 1 × 25 mm2, b: 1 × 25 mm2']]);
  });
  it('keep the sets first, and then take other numbers, the fewest first', () => {
    expect(told(stepsOf([ladder('a', 3)], new Map([['a', of('50 mm2', 2)]]), true))).toEqual([
      ['a: 2 × 70 mm2'],
      // One set of 70 is less than two of 50.
      [],
      ['a: 3 × 35 mm2', 'a: 3 × 50 mm2', 'a: 3 × 70 mm2'],
    ]);
  });
  it('give each cable sizes of its own system, and no more sets than it may have', () => {
    // 2 AWG is 33.6 mm², 1 AWG 42.4, 1/0 AWG 53.5.
    const mixed = [ladder('a'), ladder('b', 1, ['2 AWG', '1 AWG', '1/0 AWG'])];
    const from = new Map([
      ['a', of('25 mm2')],
      ['b', of('2 AWG')],
    ]);
    expect(told(stepsOf(mixed, from, true))[0]?.slice(0, 3)).toEqual([
      'a: 1 × 35 mm2',
      'a: 1 × 35 mm2, b: 1 × 1 AWG',
      'a: 1 × 50 mm2, b: 1 × 1 AWG',
    ]);
    const large = new Map([
      ['a', of('70 mm2')],
      ['b', of('1/0 AWG')],
    ]);
    expect(told(stepsOf(mixed, large, false))[0]?.slice(0, 2)).toEqual(['a: 1 × 50 mm2', 'a: 1 × 50 mm2, b: 1 × 1 AWG']);
    const sets = [ladder('a', 2), ladder('b', 1)];
    const one = new Map([
      ['a', of('70 mm2')],
      ['b', of('50 mm2')],
    ]);
    // Of two sets only the first may be.
    expect(told(stepsOf(sets, one, true))).toEqual([['b: 1 × 70 mm2'], ['a: 2 × 50 mm2', 'a: 2 × 70 mm2']]);
    // Where they differ in their sets, each number is another for one of them.
    const unlike = new Map([
      ['a', of('35 mm2', 2)],
      ['b', of('50 mm2')],
    ]);
    expect(told(stepsOf(sets, unlike, true))).toEqual([
      ['a: 2 × 50 mm2', 'a: 2 × 70 mm2, b: 1 × 70 mm2'],
      ['b: 1 × 70 mm2'],
      ['a: 2 × 50 mm2', 'a: 2 × 70 mm2'],
    ]);
  });
  it('begin at the least where a cable has none', () => {
    expect(told(stepsOf([ladder('a')], new Map(), true))).toEqual([['a: 1 × 35 mm2', 'a: 1 × 50 mm2', 'a: 1 × 70 mm2']]);
    expect(stepsOf([], new Map(), true)).toEqual([[]]);
  });
});

describe('the first step that holds', () => {
  const steps = Array.from({ length: 16 }, (_, i) => new Map([['a', of(`${i}`)]]));
  const search = (holds: (i: number) => boolean, once: boolean) => {
    const asked: number[] = [];
    const judging = firstThat(
      steps,
      function* (step): Judging<boolean> {
        yield step;
        const i = Number(step.get('a')?.size);
        asked.push(i);
        return holds(i);
      },
      once,
    );
    let at = judging.next();
    while (!at.done) at = judging.next([]);
    return { found: at.value?.get('a')?.size ?? null, asked };
  };
  it('is sought one by one where one says nothing of the next', () => {
    expect(search((i) => i === 3 || i === 9, false)).toEqual({ found: '3', asked: [0, 1, 2, 3] });
    expect(search(() => false, false)).toEqual({ found: null, asked: steps.map((_, i) => i) });
  });
  it('is found by halving where it holds from there on', () => {
    for (let first = 0; first < 16; first++) {
      const { found, asked } = search((i) => i >= first, true);
      expect(found).toBe(`${first}`);
      // The last, and four halvings of sixteen.
      expect(asked.length).toBeLessThanOrEqual(5);
    }
    expect(search(() => false, true)).toEqual({ found: null, asked: [15] });
  });
  it('is none of none', () => {
    for (const once of [true, false]) {
      const none = firstThat(
        [],
        () => {
          throw new Error('asked');
        },
        once,
      );
      expect(none.next()).toEqual({ done: true, value: null });
    }
  });
});
