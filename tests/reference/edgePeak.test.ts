import { describe, expect, it } from 'vitest';
import { edgePeak, exponential, raisedCosine } from '../../engine/physics/wave/edgePeak.ts';
import { expectClose } from './expectClose.ts';

/** The band around a peak: a long line without loss has 1 + Γ, whatever the edge; small motors 8 %, large ones 15 % to both sides. */

const line = (motor_ohm: number, length_m = 300) => ({
  bus_V: 1,
  ramp_s: 100e-9,
  length_m,
  velocity_mPerS: 150e6,
  impedanceLL_ohm: 80,
  motor_ohm,
  resistance_ohmPerM: 0,
  skin_ohmPerMRootHz: 0,
});
const expectBand = (found: ReturnType<typeof edgePeak>, low: number, central: number, high: number) => {
  expectClose(found.low_V, low, { relative: 2e-3 }, 'least');
  expectClose(found.central_V, central, { relative: 2e-3 }, '1 + Γ');
  expectClose(found.high_V, high, { relative: 2e-3 }, 'most');
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
    expect([edgePeak(line(240, 0), false), edgePeak(line(240, -1), true)]).toEqual([
      { low_V: 1, central_V: 1, high_V: 1 },
      { low_V: 1, central_V: 1, high_V: 1 },
    ]));
  it('short against the edge the bus itself is the least', () => expect(edgePeak(line(240, 0.05), false).low_V).toBe(1));
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
  });
});
