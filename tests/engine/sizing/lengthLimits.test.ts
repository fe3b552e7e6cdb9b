import { describe, expect, it } from 'vitest';
import { type LineUp, lengthLimits, review } from '../../../engine/index.ts';
import { inSteel, LineUpBuilder, shielded } from '../lineUpBuilder.ts';

const marks = { box: 'metal', terminalTemperature_C: 75, terminalMetal: 'copper-aluminium' } as const;
const site = (lead: object = {}): LineUp =>
  new LineUpBuilder({ title: 'one run' })
    .part('supply', { tag: 'S-1', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 30_000, xOverR: 8, earthing: 'solid-wye' })
    .cable(inSteel('3 AWG', 60, { tag: 'F-1' }))
    .part('drive', {
      tag: 'VFD-1',
      ratedVoltage_V: 480,
      inputCurrent_A: 72,
      outputCurrent_A: 90,
      inputPowerFactor: 0.9,
      riseTime_s: 0.15e-6,
      manual: { lengthShielded_m: 123.4 },
      ...marks,
    })
    .cable({ ...shielded('2 AWG', 150, { tag: 'W-1' }), ...lead })
    .part('motor', {
      tag: 'M-1',
      ratedPower_W: 44_742,
      ratedVoltage_V: 460,
      ratedFrequency_Hz: 60,
      ratedCurrent_A: 75,
      powerFactor: 0.86,
      insulation: 'mg1-part-31',
      ...marks,
    })
    .build();
const idOf = (lineUp: LineUp, tag: string): string => lineUp.cables.find((cable) => cable.tag === tag)?.id ?? '';
const withLength = (lineUp: LineUp, tag: string, length_m: number): LineUp => ({
  ...lineUp,
  cables: lineUp.cables.map((cable) => (cable.tag === tag ? { ...cable, length_m } : cable)),
});

describe('how long a cable may be', () => {
  it('is what the manual says where the manual says it', async () => {
    const { limits } = await lengthLimits(site(), idOf(site(), 'W-1'));
    const manual = limits.find(({ check }) => check === 'manual-limits');
    expect(manual?.flips).toEqual([{ at_m: 123.5, from: 'pass', to: 'fail' }]);
  });

  it('turns at every length it names, a tenth of a metre before it not yet', async () => {
    const lineUp = site();
    const { limits } = await lengthLimits(lineUp, idOf(lineUp, 'W-1'));
    const flips = limits.filter(({ check }) => check === 'lead-drop' || check === 'manual-limits');
    expect(flips.flatMap((each) => each.flips).length).toBeGreaterThanOrEqual(4);
    for (const { check, flips: turns } of flips)
      for (const { at_m, from, to } of turns) {
        const verdictAt = (length_m: number) =>
          review(withLength(lineUp, 'W-1', length_m)).findings.find((each) => each.check === check)?.verdict;
        expect([verdictAt(at_m - 0.1), verdictAt(at_m)]).toEqual([from, to]);
      }
  });

  const allowing = (lengthShielded_m: number): LineUp => {
    const lineUp = site();
    return {
      ...lineUp,
      elements: lineUp.elements.map((each) => (each.kind === 'drive' ? { ...each, manual: { lengthShielded_m } } : each)),
    };
  };

  it.each([
    // By the manual where it allows little, else by the peak at the motor, long before the drop.
    [5, 'manual-limits'],
    [123.4, 'motor-peak-voltage'],
  ])('is governed, where the manual allows %d m, by the check that gives out first where all others hold', async (allowed_m, first) => {
    const lineUp = allowing(allowed_m);
    const { passes, governs, limits } = await lengthLimits(lineUp, idOf(lineUp, 'W-1'));
    expect(governs?.check).toBe(first);
    const turning = limits.map(({ check }) => check);
    const objecting = (length_m: number) =>
      review(withLength(lineUp, 'W-1', length_m))
        .findings.filter(({ check, runs, verdict }) => runs.includes('M-1') && turning.includes(check) && /fail|caution|open/.test(verdict))
        .map(({ check }) => check);
    expect(objecting(passes?.to_m ?? 0)).toEqual([]);
    expect(objecting((passes?.to_m ?? 0) + 0.1)).toEqual([first]);
    if (first === 'manual-limits') expect(passes?.to_m).toBe(allowed_m);
  });

  it('is none where one check objects at every length that could be built, and that one is named', async () => {
    // 0.5 m is what this manual allows: no cable is as short.
    const lineUp = allowing(0.5);
    const { passes, governs, against } = await lengthLimits(lineUp, idOf(lineUp, 'W-1'));
    expect([passes, governs]).toEqual([null, null]);
    expect(against.map(({ check }) => check)).toEqual(['manual-limits']);
  });

  it('of a range is told at both ends', async () => {
    const ranged = site({ length_m: 50, lengthMost_m: 800 });
    const { limits } = await lengthLimits(ranged, idOf(ranged, 'W-1'));
    expect(limits.find(({ check }) => check === 'lead-drop')?.atEnds).toEqual(['pass', 'fail']);
  });
});
