import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { setValue } from '../../../editor/store/edits.ts';
import { type Finding, type LineUp, load, review } from '../../../engine/index.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { feet, horsepower, inSteel, LineUpBuilder } from '../lineUpBuilder.ts';

/** The protective conductor, by NEC Table 250.122 and IEC 60364-5-54 Table 54.2, typed here a second time. */

const loaded = load(readFileSync(new URL('../../../examples/alder-mill-fan.json', import.meta.url), 'utf8'));
if (!loaded.ok) throw new Error(loaded.what);
const MILL = loaded.lineUp;
const id = (tag: string): string => [...MILL.elements, ...MILL.cables].find((each) => each.tag === tag)?.id ?? '';
type Change = readonly [path: string, value: unknown, tag?: string];
const judged = (basis: 'us' | 'iec', ...changes: readonly Change[]): Finding | undefined => {
  const start: LineUp = { ...MILL, project: { ...MILL.project, basis } };
  const lineUp = changes.reduce((before, [path, value, tag = 'F-1']) => setValue(before, id(tag), path, value), start);
  return review(lineUp).findings.find((each) => each.check === 'protective-earth' && each.subject.tag === 'F-1');
};

describe('NEC Table 250.122', () => {
  // Beside a phase that is larger than any of them, so that 250.122(A) does not bind.
  const phase: Change = ['conductor.size', '500 kcmil'];
  // A drive that needs them, so that 250.122(B) does not bind: 1.25 × 300 A, 335 A on 400 kcmil and 380 A on 500 (Table 310.16, 75 °C).
  const drawn: Change = ['inputCurrent_A', 300, 'VFD-1'];
  it.each([
    [15, '14 AWG', '16 AWG'],
    [20, '12 AWG', '14 AWG'],
    [60, '10 AWG', '12 AWG'],
    [100, '8 AWG', '10 AWG'],
    [200, '6 AWG', '8 AWG'],
    [300, '4 AWG', '6 AWG'],
    [400, '3 AWG', '4 AWG'],
    [500, '2 AWG', '3 AWG'],
    [600, '1 AWG', '2 AWG'],
    [800, '1/0 AWG', '1 AWG'],
    [1000, '2/0 AWG', '1/0 AWG'],
  ])('behind %i A copper of %s passes and %s does not; behind an ampere more neither', (tripCurrent_A, size, smaller) => {
    const at = (ground: string, amperes: number) =>
      judged('us', phase, drawn, ['tripCurrent_A', amperes, 'CB-1'], ['grounds.size', ground])?.verdict;
    expect([at(size, tripCurrent_A), at(smaller, tripCurrent_A), at(size, tripCurrent_A + 1)]).toEqual(['pass', 'fail', 'fail']);
  });
  it('aluminium is larger: 8 AWG copper or 6 AWG aluminium behind 100 A', () => {
    const at = (size: string) =>
      judged('us', phase, drawn, ['tripCurrent_A', 100, 'CB-1'], ['grounds.metal', 'aluminium'], ['grounds.size', size])?.verdict;
    expect([at('6 AWG'), at('8 AWG')]).toEqual(['pass', 'fail']);
  });
  it('never larger than the phase of the same metal (250.122(A)), in full in each set (250.122(F))', () => {
    const at = (...changes: readonly Change[]) => judged('us', ['tripCurrent_A', 1000, 'CB-1'], ['conductor.size', '6 AWG'], ...changes);
    expect([at(['grounds.size', '6 AWG'])?.verdict, at(['grounds.size', '8 AWG'])?.verdict]).toEqual(['pass', 'fail']);
    expect(at(['grounds.size', '6 AWG'], ['grounds.metal', 'aluminium'])?.verdict).toBe('fail');
    const sets = judged(
      'us',
      phase,
      ['inputCurrent_A', 600, 'VFD-1'],
      ['tripCurrent_A', 100, 'CB-1'],
      ['grounds.size', '8 AWG'],
      ['conductor.sets', 2],
    );
    expect(sets?.verdict).toBe('pass');
    expectClose(sets?.limit ?? 0, 2 * 8.367, { relative: 1e-9 }, 'two of 8 AWG');
    expect(sets?.text).toContain('8 AWG in each of 2 sets is asked');
  });
  it.each([
    'grounds.count',
    'grounds.size',
    'grounds.metal',
    'conductor.size',
    'conductor.metal',
    'from.groundsLanded',
    'to.groundsLanded',
  ])('without %s it is open, and says so', (path) => {
    const found = judged('us', [path, undefined]);
    expect([found?.verdict, found?.missing.map((each) => each.field)]).toEqual(['open', [path]]);
  });
  it('without a rating, or beyond the end of the table, it is open', () => {
    expect(judged('us', ['tripCurrent_A', undefined, 'CB-1'])?.missing.map((each) => [each.tag, each.field])).toEqual([
      ['CB-1', 'tripCurrent_A'],
    ]);
    expect(judged('us', ['tripCurrent_A', 6001, 'CB-1'])?.verdict).toBe('open');
  });
  it('none at all fails, but steel conduit may serve (250.118)', () => {
    const none: Change = ['grounds.count', 0];
    expect(judged('us', none, ['installation.raceway', 'steel-conduit'])?.verdict).toBe('note');
    expect(judged('us', none, ['installation.raceway', 'plastic-conduit'])?.verdict).toBe('fail');
    expect(judged('us', none, ['installation.raceway', undefined])?.missing.map((each) => each.field)).toEqual(['installation.raceway']);
    expect(judged('us', none, ['installation.raceway', 'tray'], ['construction', 'corrugated-armour'])?.verdict).toBe('note');
  });
});

describe('beside phases that were made larger (NEC 250.122(B))', () => {
  // Table 310.16, copper, 75 °C: 12 AWG 25 A, 8 AWG 50 A, 6 AWG 65 A, 3/0 200 A, 4/0 230 A, 250 kcmil 255 A, 350 kcmil 310 A.
  const made = (phase: string, device_A: number, input_A: number, ground: string, ...more: readonly Change[]) =>
    judged(
      'us',
      ['conductor.size', phase],
      ['tripCurrent_A', device_A, 'CB-1'],
      ['inputCurrent_A', input_A, 'VFD-1'],
      ['grounds.size', ground],
      ...more,
    );
  it('250 to 350 kcmil behind 300 A: 4 AWG becomes 350 / 250 × 41 740 = 58 436 cmil, 2 AWG (after the NEC Handbook’s example)', () => {
    // 1.25 × 200 A = 250 A ask 250 kcmil.
    expect([made('350 kcmil', 300, 200, '2 AWG')?.verdict, made('350 kcmil', 300, 200, '3 AWG')?.verdict]).toEqual(['pass', 'fail']);
    expect(made('250 kcmil', 300, 200, '4 AWG')?.verdict).toBe('pass');
    const found = made('350 kcmil', 300, 200, '4 AWG');
    // In mm², which the tables round: 58 436 cmil are 29.61 mm².
    expectClose(found?.limit ?? 0, 58_436 * 5.067e-4, { relative: 0.006 }, '58 436 cmil');
    expect(found?.text).toContain('its phases of 350 kcmil are larger than 250 kcmil, the least that carries the 250.0 A asked of them');
  });
  it('3/0 to 500 kcmil behind 200 A: 6 AWG becomes 78 188 cmil, 1 AWG (a trade question after the same)', () => {
    // 1.25 × 160 A = 200 A ask 3/0.
    expect([made('500 kcmil', 200, 160, '1 AWG')?.verdict, made('500 kcmil', 200, 160, '2 AWG')?.verdict]).toEqual(['pass', 'fail']);
    expectClose(made('500 kcmil', 200, 160, '6 AWG')?.limit ?? 0, 78_188 * 5.067e-4, { relative: 0.006 }, '78 188 cmil');
  });
  it('12 to 6 AWG behind 20 A: the ground becomes 6 AWG, no larger than the phase (a code column)', () => {
    // 1.25 × 16.2 A = 20.25 A: 14 AWG carries 20 A.
    expect([made('6 AWG', 20, 16.2, '6 AWG')?.verdict, made('6 AWG', 20, 16.2, '8 AWG')?.verdict]).toEqual(['pass', 'fail']);
  });
  it('that only the device asks for are a note: nobody says whether they follow it (240.4(B)) or were made larger', () => {
    // 3 AWG behind 100 A (240.4(B): 85 A of 4 AWG take 90 A at most) where 1.25 × 65 A = 81.25 A ask 4 AWG: 8.367 × 26.67 / 21.15 = 10.55 mm².
    const found = made('3 AWG', 100, 65, '8 AWG');
    expect(found?.verdict).toBe('note');
    expectClose(found?.limit ?? 0, (8.367 * 26.67) / 21.15, { relative: 1e-3 }, 'in proportion');
    expect(found?.text).toContain('100 A of CB-1 would ask for as much');
    expect(made('3 AWG', 100, 65, '6 AWG')?.verdict).toBe('pass');
  });
  it('cannot be told while what is asked of the phases is not known, unless the ground is as large as they are', () => {
    const open = made('350 kcmil', 300, 200, '4 AWG', ['inputCurrent_A', undefined, 'VFD-1']);
    expect([open?.verdict, open?.missing.map(({ tag, field }) => `${tag} ${field}`)]).toEqual(['open', ['VFD-1 inputCurrent_A']]);
    expect(made('350 kcmil', 300, 200, '6 AWG', ['inputCurrent_A', undefined, 'VFD-1'])?.verdict).toBe('fail');
    expect(made('350 kcmil', 300, 200, '350 kcmil', ['inputCurrent_A', undefined, 'VFD-1'])?.verdict).toBe('pass');
    expect(made('350 kcmil', 300, 200, '4 AWG', ['installation.ambient_C', undefined])?.missing.map(({ field }) => field)).toEqual([
      'installation.ambient_C',
    ]);
  });
});

describe('behind a transformer (NEC 240.21(C), 250.122(A))', () => {
  // 40 A ahead of a 480 to 240 V transformer let 80 A flow behind it: 10 AWG is right for the one, 8 AWG for the other.
  const ground = (size: string) => ({
    length_m: feet(100),
    grounds: { count: 1, size, metal: 'copper' as const },
    from: { groundsLanded: 1 },
    to: { groundsLanded: 1 },
  });
  const behind = (size: string, secondary_A?: number, onOutput = false): LineUp => {
    const builder = new LineUpBuilder()
      .part('supply', { tag: 'S', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 20_000 })
      .part('disconnect', { tag: 'FU-1', device: 'fuse', tripCurrent_A: 40 });
    const transformer = () =>
      builder.part('transformer', {
        tag: 'T-1',
        primaryVoltage_V: 480,
        secondaryVoltage_V: 240,
        ratedPower_VA: 30_000,
        impedance_pct: 4,
      });
    const device = () =>
      secondary_A === undefined ? builder : builder.part('disconnect', { tag: 'FU-2', device: 'fuse', tripCurrent_A: secondary_A });
    builder.cable({ ...inSteel('10 AWG', 100), ...ground('10 AWG'), tag: 'F-1' });
    if (!onOutput) {
      transformer();
      device().cable({ ...inSteel('6 AWG', 100), ...ground(size), tag: 'F-2' });
    }
    builder.part('drive', { tag: 'D', ratedVoltage_V: onOutput ? 480 : 240, inputCurrent_A: 50 });
    if (onOutput) transformer().cable({ ...inSteel('6 AWG', 100), ...ground(size), tag: 'F-2' });
    else builder.cable({ ...inSteel('6 AWG', 100), ...ground(size), tag: 'W' });
    return builder.part('motor', { tag: 'M', ratedVoltage_V: 230, ratedCurrent_A: 42, ratedPower_W: horsepower(15) }).build();
  };
  const earth = (lineUp: LineUp, tag: string) =>
    review(lineUp).findings.find((each) => each.check === 'protective-earth' && each.subject.tag === tag);
  it('the device ahead of it guards nothing: the ground is open there, and on the lead too, whatever its size', () => {
    for (const size of ['10 AWG', '6 AWG']) {
      const lineUp = behind(size);
      expect(earth(lineUp, 'F-1')?.verdict).toBe('pass');
      expect([earth(lineUp, 'F-2')?.verdict, earth(lineUp, 'W')?.verdict]).toEqual(['open', 'open']);
      expect(earth(lineUp, 'F-2')?.text).toContain('no breaker or fuse is drawn between T-1 and F-2');
    }
  });
  it('one of its own does: 8 AWG behind 80 A, and 10 AWG fails', () => {
    expect([earth(behind('8 AWG', 80), 'F-2')?.verdict, earth(behind('10 AWG', 80), 'F-2')?.verdict]).toEqual(['pass', 'fail']);
  });
  it('on the output of a drive it is no other', () => expect(earth(behind('10 AWG', undefined, true), 'F-2')?.verdict).toBe('open'));
});

describe('landed at both ends', () => {
  const of = (count: number, start: number, end: number) =>
    judged('us', ['grounds.count', count], ['from.groundsLanded', start], ['to.groundsLanded', end]);
  it('broken at either end it fails, short of some it is a caution; the worse end is the one that is told', () => {
    expect([of(1, 0, 1), of(1, 1, 0), of(3, 0, 3), of(3, 3, 0)].map((each) => each?.verdict)).toEqual(['fail', 'fail', 'fail', 'fail']);
    expect([of(3, 2, 3), of(3, 3, 2), of(3, 2, 1)].map((each) => each?.verdict)).toEqual(['caution', 'caution', 'caution']);
    expect([of(3, 2, 0)?.verdict, of(3, 0, 2)?.verdict]).toEqual(['fail', 'fail']);
    expect(of(3, 2, 0)?.text).toContain('0 are landed at its end: the way to ground is broken there');
    expect(of(3, 1, 2)?.text).toContain('1 is landed at its start');
    expect(of(3, 3, 3)?.verdict).toBe('pass');
  });
});

describe('IEC 60364-5-54 Table 54.2', () => {
  // A drive that leaks no more than 3.5 mA, so that the table alone counts.
  const dry: Change = ['leakageCurrent_A', 0.0035, 'VFD-1'];
  const metric = (line: string, ground: string, ...more: readonly Change[]) =>
    judged('iec', dry, ['conductor.size', line], ['grounds.size', ground], ...more);
  it.each([
    ['6 mm2', '6 mm2', '4 mm2'],
    ['16 mm2', '16 mm2', '10 mm2'],
    ['25 mm2', '16 mm2', '10 mm2'],
    ['35 mm2', '16 mm2', '10 mm2'],
    ['50 mm2', '25 mm2', '16 mm2'],
    ['70 mm2', '35 mm2', '25 mm2'],
    ['95 mm2', '50 mm2', '35 mm2'],
    ['240 mm2', '120 mm2', '95 mm2'],
  ])('beside %s, %s passes and %s does not', (line, ground, smaller) =>
    expect([metric(line, ground)?.verdict, metric(line, smaller)?.verdict]).toEqual(['pass', 'fail']),
  );
  it('over 3.5 mA to earth, 10 mm2 of copper or 16 of aluminium, or a second of full size (IEC 61800-5-1)', () => {
    const wet: Change = ['leakageCurrent_A', 0.00351, 'VFD-1'];
    const at = (ground: string, ...more: readonly Change[]) => metric('6 mm2', ground, wet, ...more)?.verdict;
    expect([at('6 mm2'), at('10 mm2')]).toEqual(['fail', 'pass']);
    expect(at('6 mm2', ['grounds.count', 2], ['from.groundsLanded', 2], ['to.groundsLanded', 2])).toBe('pass');
    expect(at('4 mm2', ['grounds.count', 2], ['from.groundsLanded', 2], ['to.groundsLanded', 2])).toBe('fail');
    const aluminium: Change = ['grounds.metal', 'aluminium'];
    expect([at('10 mm2', aluminium), at('16 mm2', aluminium)]).toEqual(['fail', 'pass']);
    // Without a figure the worst is taken, and said.
    const unknown = metric('6 mm2', '6 mm2', ['leakageCurrent_A', undefined, 'VFD-1']);
    expect([unknown?.verdict, unknown?.assumptions.map((each) => each.value)]).toEqual(['fail', ['over 3.5 mA']]);
  });
  it('aluminium beside copper carries k1 / k2 more, 143 / 94 (IEC 60364-4-43 Table 43A, from memory): 16 mm2 beside 16 is too little, 25 is enough', () => {
    const aluminium: Change = ['grounds.metal', 'aluminium'];
    expect([metric('16 mm2', '16 mm2', aluminium)?.verdict, metric('16 mm2', '25 mm2', aluminium)?.verdict]).toEqual(['fail', 'pass']);
    expectClose(metric('16 mm2', '25 mm2', aluminium)?.limit ?? 0, (16 * 143) / 94, { relative: 1e-12 }, 'k1 / k2');
    // The same metal needs no factor, and copper beside aluminium is not made thinner.
    expect(metric('16 mm2', '16 mm2', aluminium, ['conductor.metal', 'aluminium'])?.limit).toBe(16);
    expect(metric('16 mm2', '16 mm2', ['conductor.metal', 'aluminium'])?.limit).toBe(16);
  });
  it('a shield alone is no protective conductor; beside one it counts where both its ends are held all round (IEC 60364-5-54, 543.2)', () => {
    const shielded: readonly Change[] = [
      ['construction', 'foil-and-braid'],
      ['shieldArea_mm2', 50],
      ['from.landing', 'full'],
      ['to.landing', 'clamp'],
    ];
    expect(metric('16 mm2', '16 mm2', ...shielded, ['grounds.count', 0])?.verdict).toBe('fail');
    expect(metric('16 mm2', '16 mm2', ...shielded, ['grounds.count', 0])?.text).toContain('a screen alone does not count');
    expect(metric('16 mm2', '10 mm2', ...shielded)?.verdict).toBe('pass');
    for (const landing of ['pigtail', 'none', undefined])
      expect(metric('16 mm2', '10 mm2', ...shielded, ['to.landing', landing])?.verdict).toBe('fail');
  });
});
