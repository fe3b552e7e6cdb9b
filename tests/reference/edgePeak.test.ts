import { describe, expect, it } from 'vitest';
import { edgePeak, exponential, peaksAlong, raisedCosine, shapedPeak, straight } from '../../engine/physics/wave/edgePeak.ts';
import { expectClose } from './expectClose.ts';
import { rampResponse } from './inverseFourier.ts';

/** The band around a peak: a long line without loss has 1 + Γ, whatever the edge; small motors 8 %, large ones 15 % to both sides. */

const line = (motor_ohm: number, length_m = 300) => ({
  bus_V: 650,
  ramp_s: 100e-9,
  length_m,
  velocity_mPerS: 150e6,
  impedanceLL_ohm: 80,
  motor_ohm,
  resistance_ohmPerM: 0,
  skin_ohmPerMRootHz: 0,
});
/** The crest is looked for at a hundred instants. */
const SHAPED = { relative: 0.004 };
const expectBand = (found: ReturnType<typeof edgePeak>, low: number, central: number, high: number) => {
  expectClose(found.low_V / 650, low, { relative: 2e-3 }, 'least');
  expectClose(found.central_V / 650, central, { relative: 2e-3 }, '1 + Γ');
  expectClose(found.high_V / 650, high, { relative: 2e-3 }, 'most');
};

describe('the band', () => {
  it('Γ = 0.5: 1.38 to 1.62 of the bus, with a large motor 1.275 to 1.725', () => {
    expectBand(edgePeak(line(240), false), 1.5 * 0.92, 1.5, 1.5 * 1.08);
    expectBand(edgePeak(line(240), true), 1.5 * 0.85, 1.5, 1.5 * 1.15);
  });
  it('Γ = 0.9: no more than twice the bus', () => expectBand(edgePeak(line(80 * 19), false), 1.9 * 0.92, 1.9, 2));
  it('a motor of less impedance than its line does not lift the bus, and a matched one neither', () => {
    expectBand(edgePeak(line(40), false), 1, 1, 1.08);
    expectBand(edgePeak(line(80), false), 1, 1, 1.08);
  });
  it('no length, no wave', () =>
    expect([edgePeak(line(240, 0), false), edgePeak(line(240, -1), true)]).toEqual(
      Array(2).fill({
        low_V: 650,
        central_V: 650,
        high_V: 650,
        from: { low: 'the bus itself', central: 'the bus itself', high: 'the bus itself' },
      }),
    ));
  /**
   * By hand, Γ = 0.5, 10 to 90 % in 80 ns. At 7.5 m the straight edge has its whole height before the drive turns it over; at 300 m all have. At
   * 2 m, 27 ns there and back, the drive turns the steep start over at once: what the turns of an S-shaped edge leave is more.
   */
  it('names the edge that gives each of its numbers', () => {
    expect([300, 7.5, 5, 2].map((length_m) => edgePeak(line(240, length_m), false).from)).toEqual([
      { low: '8 % less', central: 'an edge of any shape', high: '8 % more' },
      { low: '8 % less', central: 'a straight edge', high: '8 % more' },
      { low: '8 % less', central: 'an edge that starts steeply', high: '8 % more' },
      { low: 'the bus itself', central: 'an S-shaped edge', high: 'in proportion to length' },
    ]);
    const [reflection, delay_s] = [0.5, 2 / 150e6];
    const [soft, steep] = [raisedCosine, exponential].map((shape) => shapedPeak(reflection, delay_s, 80e-9, shape)) as [number, number];
    expect(soft).toBeGreaterThan(steep);
  });
  it('short against the edge the bus itself is the least', () => expect(edgePeak(line(240, 0.05), false).low_V).toBe(650));
});

describe('along the lead', () => {
  /**
   * Without loss, by hand: 7.5 m are critical. At x from the drive the wave that the motor turns back has 2x / v before the drive turns it over;
   * 10 to 90 % takes 80 ns. At half of the critical length that is 50 ns, and the straight edge does not count yet: 1 − 9^(−50/80) of a steep
   * one is there, sin(0.5903 π 50 / 160) of an S-shaped one. From three quarters on the straight edge has x over the critical length.
   */
  const along = peaksAlong(line(240, 75), false, 40);
  const at = (x_m: number) => along[Math.round((40 * x_m) / 75)] ?? edgePeak(line(240, 0), false);
  it('has a place at each fortieth, the bus at the drive and the motor at its end', () => {
    expect([along.length, along[0]?.at_m, along[1]?.at_m, along[40]?.at_m]).toEqual([41, 0, 1.875, 75]);
    expectBand(at(0), 1, 1, 1.08);
    expectBand(at(75), 1.5 * 0.92, 1.5, 1.5 * 1.08);
    expect(along[40]).toEqual({ at_m: 75, ...edgePeak(line(240, 75), false) });
  });
  it('grows from the drive on: at half of the critical length, at three quarters, and in full from there', () => {
    const steep = 1 + 0.5 * (1 - 9 ** -0.625);
    expectBand(at(3.75), steep * 0.92, steep, steep * 1.08);
    // At three quarters the straight edge has 1.375, less than the steep one.
    const most = 1 + 0.5 * (1 - 9 ** -0.9375);
    expectBand(at(5.625), most * 0.92, most, most * 1.08);
    // Just at the critical length a straight one is whole, a steep one 1 − 9^(−1.25).
    expectBand(at(7.5), 1.5 * 0.92, 1.5, 1.5 * 1.08);
    expectBand(at(37.5), 1.5 * 0.92, 1.5, 1.5 * 1.08);
  });
  it('with a large motor is wider', () => expectBand(peaksAlong(line(240, 75), true, 2)[1] ?? at(0), 1.5 * 0.85, 1.5, 1.5 * 1.15));
  it('of an S-shaped edge: sin² of half the way, sin of the share that is there at once', () => {
    const share = 3.75 / 75;
    expectClose(shapedPeak(0.5, 500e-9, 80e-9, raisedCosine, share), 1 + 0.5 * Math.sin((0.5903 * Math.PI * 50) / 160), SHAPED, 'by hand');
    expectClose(shapedPeak(0.5, 500e-9, 80e-9, straight, share), 1 + 0.5 * 0.5, SHAPED, 'by hand');
    expectClose(shapedPeak(0.5, 500e-9, 80e-9, exponential, share), 1 + 0.5 * (1 - 9 ** -0.625), SHAPED, 'by hand');
  });
  it('of no length there are no places', () =>
    expect([peaksAlong(line(240, 0), false, 4), peaksAlong(line(240, -1), false, 4)]).toEqual([[], []]));
});

describe('a lead shorter than critical', () => {
  it('never has less at the motor for being longer, though a straight edge cancels itself there', () => {
    let before = 0;
    for (let length_m = 1; length_m < 3; length_m += 0.05) {
      const { central_V } = edgePeak(line(80 * 19, length_m), false);
      expect(central_V).toBeGreaterThanOrEqual(before * (1 - 1e-3));
      before = Math.max(before, central_V);
    }
  });
});

describe('loss', () => {
  it('100 m with skin effect: 1209.4 V of 650 V (inverse Fourier solution), where 1249 V would stand without', () => {
    const lossy = {
      bus_V: 650,
      ramp_s: 100e-9,
      length_m: 100,
      velocity_mPerS: 1 / Math.sqrt(150e-9 * 160e-12),
      impedanceLL_ohm: 2 * Math.sqrt(150e-9 / 160e-12),
      motor_ohm: 1500,
      resistance_ohmPerM: 0.0053,
      skin_ohmPerMRootHz: 4e-5,
    };
    expectClose(edgePeak(lossy, false).central_V, 1209.4, { relative: 0.005 }, 'FFT');
  });
  it('at the critical length of a slow edge, 12 AWG in a shield: the straight ramp with its own loss (inverse Fourier solution)', () => {
    const slow = {
      ...line(5000, 95),
      ramp_s: 1e-6,
      velocity_mPerS: 190e6,
      impedanceLL_ohm: 61,
      resistance_ohmPerM: 0.006,
      skin_ohmPerMRootHz: 7.3e-5,
    };
    const { voltage_V } = rampResponse(slow, 4e-6);
    expectClose(edgePeak(slow, false).central_V, Math.max(...voltage_V), { relative: 0.005 }, 'inverse Fourier');
  });
});

describe('the shapes of an edge', () => {
  it('nothing before it begins, 10 and 90 % one rise time apart, all of it in the end', () => {
    expect([exponential(-1, 1), exponential(0, 1), raisedCosine(-1, 1), raisedCosine(0, 1)]).toEqual([0, 0, 0, 0]);
    const tenth = Math.log(1 / 0.9) / Math.log(9);
    expectClose(exponential(tenth, 1), 0.1, { relative: 1e-9 }, '10 %');
    expectClose(exponential(tenth + 1, 1), 0.9, { relative: 1e-9 }, '90 %');
    // A raised cosine is half way at half its whole, and one rise time is 0.5903 of that whole.
    expectClose(raisedCosine(0.5 / 0.5903, 1), 0.5, { absolute: 1e-4 }, 'half');
    expectClose(raisedCosine(0.5 / 0.5903 - 0.5, 1), 0.1, { absolute: 1e-4 }, '10 %');
    expectClose(raisedCosine(0.5 / 0.5903 + 0.5, 1), 0.9, { absolute: 1e-4 }, '90 %');
    expect([raisedCosine(1 / 0.59, 1), raisedCosine(3, 1)]).toEqual([1, 1]);
    // A straight one takes 1.25 times as long for the whole.
    expect([-1, 0, 0.125, 0.625, 1.125, 1.25, 3].map((time) => straight(time, 1))).toEqual([0, 0, 0.1, 0.5, 0.9, 1, 1]);
  });
});
