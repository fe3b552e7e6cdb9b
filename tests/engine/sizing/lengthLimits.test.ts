import { describe, expect, it } from 'vitest';
import { type LengthLimits, type LineUp, lengthLimits, review, type Verdict } from '../../../engine/index.ts';
import { createReviewer } from '../../../engine/review/createReviewer.ts';
import { worstByCheck } from '../../../engine/sizing/concerning.ts';
import { bareCable } from '../bareParts.ts';
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

  it.each([
    // By the manual where it allows little, else by the peak at the motor, long before the drop.
    [5, 'manual-limits'],
    [123.4, 'motor-peak-voltage'],
  ])('is governed, where the manual allows %d m, by the check that gives out first where all others hold', async (allowed_m, first) => {
    const lineUp = allowingOf(allowed_m);
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
    const lineUp = allowingOf(0.5);
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

/** What each check says at every tenth of a metre up to a bound. */
function scanned(lineUp: LineUp, tag: string, bound_m: number): ReadonlyMap<string, readonly Verdict[]> {
  const { review: judge } = createReviewer();
  const said = Array.from({ length: Math.round(bound_m * 10) }, (_, i) =>
    worstByCheck(judge(withLength(lineUp, tag, (i + 1) / 10)), idOf(lineUp, tag)),
  );
  const checks = new Set(said.flatMap((each) => [...each.keys()]));
  return new Map([...checks].map((check) => [check, said.map((each) => each.get(check)?.verdict ?? 'not-applicable')]));
}
const objects = (verdict: Verdict | undefined): boolean => verdict === 'fail' || verdict === 'caution' || verdict === 'open';
/** Where they turn, as the answer has it. */
const turnsOf = (verdicts: readonly Verdict[]) =>
  verdicts.flatMap((to, i) => {
    const from = verdicts[i - 1];
    return from === undefined || from === to ? [] : [{ at_m: (i + 1) / 10, from, to }];
  });

const allowingOf = (lengthShielded_m: number, lineUp = site()): LineUp => ({
  ...lineUp,
  elements: lineUp.elements.map((each) => (each.kind === 'drive' ? { ...each, manual: { lengthShielded_m } } : each)),
});

/** A feeder that is short of fault rating where it is short, and of volts where it is long. */
const feeder = (faultRating_A: number, length_m = 10): LineUp =>
  new LineUpBuilder({ title: 'a feeder' })
    .part('supply', {
      tag: 'S-1',
      voltage_V: 480,
      voltageLeast_pct: 100,
      frequency_Hz: 60,
      faultCurrent_A: 30_000,
      xOverR: 8,
      earthing: 'solid-wye',
    })
    .cable({ ...inSteel('12 AWG', 60, { tag: 'F-1' }), length_m })
    .part('drive', {
      tag: 'VFD-1',
      ratedVoltage_V: 480,
      inputCurrent_A: 20,
      outputCurrent_A: 20,
      inputPowerFactor: 0.9,
      faultRating_A,
      faultRatingDevice: 'fuses',
      faultRatingDeviceDrawn: true,
      manual: { inputVoltageLeast_pct: 99.9 },
      ...marks,
    })
    .part('motor', { tag: 'M-1', ratedVoltage_V: 460, ratedFrequency_Hz: 60, ratedCurrent_A: 18, powerFactor: 0.86, ...marks })
    .build();

describe('against every tenth of a metre', () => {
  it.each<[string, LineUp, string, number]>([
    ['a lead', allowingOf(1.5), 'W-1', 3],
    ['a feeder', feeder(22_000), 'F-1', 4],
    ['a feeder that nothing suits', feeder(15_000), 'F-1', 4],
  ])('of %s: where each check turns, where none objects, and what objects at all', async (_, lineUp, tag, bound_m) => {
    const answer: LengthLimits = await lengthLimits(lineUp, idOf(lineUp, tag), bound_m);
    const all = scanned(lineUp, tag, bound_m);
    const turning = [...all].filter(([, verdicts]) => turnsOf(verdicts).length > 0);
    expect(turning.length).toBeGreaterThan(0);
    expect(new Map(answer.limits.map(({ check, flips }) => [check, flips]))).toEqual(
      new Map(turning.map(([check, verdicts]) => [check, turnsOf(verdicts)])),
    );
    const tenths = Array.from({ length: bound_m * 10 }, (_each, i) => i);
    const whole = tenths.map((i) => turning.every(([, verdicts]) => !objects(verdicts[i])));
    // The stretch in which it lies, else the first that reaches to where a cable could be built.
    const drawn = Math.round((lineUp.cables.find((each) => each.tag === tag)?.length_m ?? 0) * 10) - 1;
    const within = whole[drawn] ? drawn : tenths.find((i) => i >= 9 && whole[i]);
    if (within === undefined) expect(answer.passes).toBeNull();
    else {
      const first = 1 + whole.lastIndexOf(false, within);
      const end = whole.indexOf(false, within);
      expect(answer.passes?.to_m).toBe((end < 0 ? tenths.length : end) / 10);
      expect(answer.passes?.from_m).toBe(first === 0 ? 0 : (first + 1) / 10);
    }
    expect(answer.always.map(({ check, verdict }) => [check, verdict]).sort()).toEqual(
      [...all]
        .flatMap(([check, verdicts]) => (turnsOf(verdicts).length === 0 && objects(verdicts[0]) ? [[check, verdicts[0]]] : []))
        .sort(),
    );
    expect(answer.bound_m).toBe(bound_m);
  });

  it('two that never hold together are both named, and the stretch of each', async () => {
    const lineUp = feeder(15_000);
    const { passes, governs, against, limits } = await lengthLimits(lineUp, idOf(lineUp, 'F-1'), 4);
    expect([passes, governs]).toEqual([null, null]);
    expect(against.map(({ check }) => check).sort()).toEqual(['fault-rating', 'feeder-drop']);
    const [rating, drop] = ['fault-rating', 'feeder-drop'].map((check) => limits.find((each) => each.check === check));
    // The rating holds from its turn to the bound, the drop from nothing to the tenth before its own.
    expect(rating?.holds).toEqual({ from_m: rating?.flips[0]?.at_m, to_m: 4 });
    const falls = drop?.flips.find(({ to }) => objects(to))?.at_m ?? 0;
    expect([drop?.holds?.from_m, drop?.holds?.to_m]).toEqual([0, expect.closeTo(falls - 0.1, 9)]);
  });

  it('the one that ends the stretch governs; one that only begins it does not', async () => {
    const lineUp = feeder(22_000);
    const wide = await lengthLimits(lineUp, idOf(lineUp, 'F-1'), 4);
    expect([wide.governs?.check, wide.against]).toEqual(['feeder-drop', []]);
    expect(wide.passes?.from_m).toBe(wide.limits.find(({ check }) => check === 'fault-rating')?.flips[0]?.at_m);
    // Below the bound that is looked at, none ends it.
    const near = await lengthLimits(lineUp, idOf(lineUp, 'F-1'), 1.2);
    expect([near.passes?.to_m, near.governs]).toEqual([1.2, null]);
  });
});

describe('what is asked', () => {
  /** Nothing is said of a cable that hangs on nothing, whatever its length. */
  const alone = (more: object): LineUp => ({ ...new LineUpBuilder().build(), cables: [{ ...bareCable('W', '', ''), ...more }] });
  const judged = async (more: object, bound_m = 20): Promise<number> => {
    let count = 0;
    const { limits, governs, passes } = await lengthLimits(alone(more), 'W', bound_m, {
      progress: (now) => {
        count = now;
      },
    });
    expect([limits, governs, passes]).toEqual([[], null, { from_m: 0, to_m: bound_m }]);
    return count;
  };

  it('are lengths a quarter apart from 1 m on, the least, the most, and those that the cable has below it', async () => {
    // 0.1, 1, 1.3, 1.7, 2.2, 2.8, 3.5, 4.4, 5.5, 6.9, 8.7, 10.9, 13.7, 17.2 and 20 m.
    expect(await judged({})).toBe(15);
    expect(await judged({ length_m: 5, lengthMost_m: 8.2 })).toBe(17);
    expect(await judged({ length_m: 5 })).toBe(16);
    for (const length_m of [0, 20, 25, 4.4]) expect(await judged({ length_m })).toBe(15);
    // To a tenth of a metre.
    expect(await judged({ length_m: 4.42 })).toBe(15);
    expect(await judged({}, 4.4)).toBe(8);
  });

  it.each([
    [{ length_m: 1 }, 'pass', null],
    [{ length_m: 2.5 }, 'fail', null],
    [{ length_m: 1, lengthMost_m: 2.5 }, 'fail', ['pass', 'fail']],
    [{ length_m: undefined }, null, null],
  ])('is told of the cable as drawn: at its length, at the long end of a range, or of none', async (more, now, atEnds) => {
    const lineUp = allowingOf(2, site(more));
    const { limits } = await lengthLimits(lineUp, idOf(lineUp, 'W-1'), 3);
    expect(limits.find(({ check }) => check === 'manual-limits')).toMatchObject({
      now,
      atEnds,
      flips: [{ at_m: 2.1, from: 'pass', to: 'fail' }],
    });
  });

  it('is asked of that cable alone', async () => {
    const lineUp = allowingOf(2, site({ length_m: 1 }));
    const { limits } = await lengthLimits(lineUp, idOf(lineUp, 'F-1'), 3);
    expect(limits.map(({ check }) => check)).not.toContain('manual-limits');
  });

  it.each([
    [{ length_m: 2 }, false],
    [{ length_m: 9.4 }, true],
    [{ length_m: 2, lengthMost_m: 9.4 }, true],
  ])('is the stretch in which the cable lies, by its long end: %j', async (more, far) => {
    // What the peak at the motor forbids from 6.9 m on it allows again before the 9.5 m of the manual.
    const lineUp = allowingOf(9.5, site(more));
    const { passes, limits } = await lengthLimits(lineUp, idOf(lineUp, 'W-1'), 10);
    const peak = limits.find(({ check }) => check === 'motor-peak-voltage')?.holds;
    for (const each of [passes, peak]) expect([(each?.from_m ?? 0) > 6.8, (each?.to_m ?? 0) >= 9.4]).toEqual([far, far]);
    expect(passes?.to_m).toBe(far ? 9.5 : 6.8);
  });
});
