import { describe, expect, it } from 'vitest';
import type { OutputScope } from '../../../engine/checks/check.ts';
import { isPeak, runPeak } from '../../../engine/checks/runPeak.ts';
import type { WaveTree } from '../../../engine/checks/waveTree.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { ElementOf } from '../../../engine/lineup/elements.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE, cableScope, DRIVE, MOTOR } from './scopes.ts';

/** The peak that other checks take as an input, of a bus of √2 × 480 V = 678.8 V. */

const { project, voltageFrom } = cableScope();
const WIRED: Cable = { ...CABLE, insulation: { type: 'XHHW-2' }, length_m: 100 };
const TREE: WaveTree = {
  hops: [{ cable: WIRED, from: 0, to: 1 }],
  motors: [{ motor: MOTOR, node: 1 }],
  terminators: [],
  atDrive: null,
  unmodelled: null,
};
const FILTER: ElementOf<'filter'> = { id: 'f1', kind: 'filter', tag: 'Z', role: 'dvdt' };
const asked = (tree: Partial<WaveTree>, more: Partial<OutputScope> = {}) =>
  runPeak(
    {
      project,
      basis: 'us',
      drive: DRIVE,
      cables: [WIRED],
      parts: [MOTOR],
      motors: [MOTOR],
      motorsSeen: [1],
      between: [],
      nominal_V: 480,
      voltageFrom,
      tree: { ...TREE, ...tree },
      ...more,
    },
    MOTOR,
  );
const of = (...of: Parameters<typeof asked>) => {
  const found = asked(...of);
  return isPeak(found) ? found : null;
};

describe('the peak of a run', () => {
  it('is not known without the supply’s voltage, or while a maker must be asked', () => {
    expect([of({}, { nominal_V: null }), of({ unmodelled: FILTER }), of({ atDrive: FILTER })]).toEqual([null, null, null]);
  });
  it('is not known of a lead without length', () => {
    const { length_m: _, ...endless } = WIRED;
    expect(of({ hops: [{ cable: endless as Cable, from: 0, to: 1 }] })).toBeNull();
  });
  it('is twice the bus with a terminator, which protects the motor and not the cable', () => {
    const found = of({ terminators: [{ filter: { ...FILTER, role: 'terminator', motorPeak_V: 900 }, node: 1 }] });
    expectClose(found?.peak_V ?? 0, 2 * Math.SQRT2 * 480, { relative: 1e-12 }, 'twice the bus');
    expect(found?.says).toContain('a terminator is not credited');
  });
  it('is what the maker of a filter states', () =>
    expect(of({ atDrive: { ...FILTER, motorPeak_V: 900 } })).toEqual({ peak_V: 900, says: 'stated by the maker of Z' }));
  it('is else solved: a long lead reflects in full, a slow edge on a short one does not', () => {
    const short = { hops: [{ cable: { ...WIRED, length_m: 3 }, from: 0, to: 1 }] };
    const [long, slow] = [of({}, { drive: { ...DRIVE, riseTime_s: 1e-7 } }), of(short, { drive: { ...DRIVE, riseTime_s: 2e-6 } })];
    expect([long?.says, slow?.says]).toEqual(['full reflection', 'short lead']);
    expect((slow?.peak_V ?? 0) < (long?.peak_V ?? 0)).toBe(true);
    // Without a rise time the fastest is taken: no slower edge gives more.
    expect((of(short)?.peak_V ?? 0) > (slow?.peak_V ?? 0)).toBe(true);
  });
});
