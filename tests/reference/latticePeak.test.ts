import { describe, expect, it } from 'vitest';
import { edgeSamples, type LatticeInput, latticePeak_V, latticeWave, linearRulePeak_V } from '../../engine/physics/wave/latticePeak.ts';
import { expectClose } from './expectClose.ts';
import { rampResponse } from './inverseFourier.ts';

/**
 * The lattice of one line without loss, worked by hand: after n = 1, 3, 5 … transits a wave of (1 + Γ)(−Γ)^k comes in, and each takes the
 * whole ramp to rise. Γ = (240 − 80) / (240 + 80) = 0.5. All times are whole parts of a power of two, so that they meet exactly.
 */
const plain = (delay_s: number, ramp_s: number): LatticeInput => ({
  bus_V: 1,
  ramp_s,
  length_m: 8 * delay_s,
  velocity_mPerS: 8,
  impedanceLL_ohm: 80,
  motor_ohm: 240,
  resistance_ohmPerM: 0,
  skin_ohmPerMRootHz: 0,
});
const EXACT = { absolute: 1e-6 };

describe('without loss, by hand', () => {
  it('longer than critical, a transit of 1/4 s and a ramp of 1/8 s: 1.5 at first, 0.75 after the second wave, 1.125 after the third', () => {
    const line = plain(1 / 4, 1 / 8);
    for (const [at_s, volts] of [
      [0, 0],
      [1 / 4, 0],
      [5 / 16, 0.75],
      [3 / 8, 1.5],
      [3 / 4, 1.5],
      [13 / 16, 1.5 * (1 - 0.25)],
      [7 / 8, 1.5 * (1 - 0.5)],
      [11 / 8, 1.5 * (1 - 0.5 + 0.25)],
      [15 / 8, 1.5 * (1 - 0.5 + 0.25 - 0.125)],
    ] as const)
      expectClose(latticeWave(line)(at_s), volts, EXACT, 'by hand');
    expectClose(latticePeak_V(line), 1.5, EXACT, '1 + Γ');
    expectClose(latticePeak_V({ ...line, bus_V: 650 }), 975, { relative: 1e-6 }, '650 (1 + Γ)');
  });
  it('shorter, the ramp 4 and 8 transits long: the later waves have come in part when the first has wholly', () => {
    expectClose(latticePeak_V(plain(1 / 4, 1)), 1.5 * (1 - 0.5 / 2), EXACT, 'by hand');
    expectClose(latticePeak_V(plain(1 / 8, 1)), 1.5 * (1 - 0.5 * (3 / 4) + 0.25 / 2 - 0.125 / 4), EXACT, 'by hand');
  });
  it('a thousand transits to the ramp: the edge itself, which is half way at half its time', () => {
    const line = plain(1 / 1024, 1);
    // What rings on it is 2 Γ / (1 + Γ) of a transit's share of the ramp.
    expectClose(latticeWave(line)(0.5), 0.5, { absolute: 1 / 1024 }, 'by hand');
    expectClose(latticePeak_V(line), 1, { absolute: 1 / 1024 }, 'by hand');
  });
  it('no length: what leaves the drive is at the motor', () => {
    const none = { ...plain(0, 1 / 8), bus_V: 650 };
    expect([-1, 0, 1 / 16, 1 / 8, 1].map((at_s) => latticeWave(none)(at_s))).toEqual([0, 0, 325, 650, 650]);
    expect([latticePeak_V(none), latticePeak_V({ ...none, resistance_ohmPerM: 1, skin_ohmPerMRootHz: 1 })]).toEqual([650, 650]);
  });
  it('for a picture: from the start of the edge until five waves have come, in equal steps', () => {
    const samples = edgeSamples(plain(1 / 4, 1 / 8), 40);
    expect([samples.length, samples[0], samples[10]?.[0], samples[40]?.[0]]).toEqual([41, [0, 0], 5 / 8, 9 / 4 + 1 / 4]);
    expectClose(samples[10]?.[1] ?? 0, 1.5, EXACT, 'by hand');
    expectClose(samples[40]?.[1] ?? 0, 1.5 * (1 - 0.5 + 0.25 - 0.125 + 0.0625), EXACT, 'by hand');
  });
});

describe('in proportion to length (common practice)', () => {
  const at = (length_m: number, motor_ohm = 240) => linearRulePeak_V({ bus_V: 650, length_m, motor_ohm, impedanceLL_ohm: 80 }, 20);
  it('half of the critical length has half of what the motor turns back, and beyond it is no more', () => {
    expect([at(0), at(10), at(20), at(200)]).toEqual([650, 650 * 1.25, 650 * 1.5, 650 * 1.5]);
  });
  it('a motor of less impedance than its line lifts nothing', () => expect([at(10, 40), at(200, 40)]).toEqual([650, 650]));
});

/** 12 AWG in the closest shield, the most loss of all. */
const SHIELDED: LatticeInput = {
  bus_V: 650,
  ramp_s: 80e-9,
  length_m: 300,
  velocity_mPerS: 190e6,
  impedanceLL_ohm: 61,
  motor_ohm: 5000,
  resistance_ohmPerM: 0.006,
  skin_ohmPerMRootHz: 7.3e-5,
};

describe('with loss, against an inverse Fourier solution of the telegraph equations', () => {
  /** In shares of the bus, from the front on: at every instant of the first four waves. */
  const worst = (line: LatticeInput): number => {
    const delay_s = line.length_m / line.velocity_mPerS;
    const { step_s, voltage_V } = rampResponse(line, 9 * delay_s + line.ramp_s, 8192);
    return Math.max(
      ...Array.from(voltage_V, (volts, n) => (n * step_s < delay_s ? 0 : Math.abs(volts - latticeWave(line)(n * step_s)) / 650)),
    );
  };
  it('300 m of 12 AWG in a shield, a small motor: four waves within 0.3 %', () => expect(worst(SHIELDED)).toBeLessThan(0.003));
  it('Γ = 0.5: 150 m within 0.4 %, and 300 m within 0.7 %, where the small loss of the second order counts', () => {
    expect(worst({ ...SHIELDED, motor_ohm: 183, length_m: 150 })).toBeLessThan(0.004);
    expect(worst({ ...SHIELDED, motor_ohm: 183 })).toBeLessThan(0.007);
  });
  it('a motor that matches the line: 150 m within 0.7 %', () =>
    expect(worst({ ...SHIELDED, motor_ohm: 61, length_m: 150 })).toBeLessThan(0.007));
  it('a kilometre: first crest within 0.6 %', () => {
    const line = { ...SHIELDED, length_m: 1000 };
    const { voltage_V } = rampResponse(line, 4 * (1000 / 190e6));
    expectClose(latticePeak_V(line), Math.max(...voltage_V), { relative: 0.006 }, 'inverse Fourier');
  });
  /** The instants are ours, the law is not: the crest is the greatest voltage that the same line ever has before the second wave is in. */
  const crestOf = (line: LatticeInput): number => {
    const delay_s = line.length_m / line.velocity_mPerS;
    const until_s = 3 * delay_s + line.ramp_s;
    return Math.max(...Array.from({ length: 3000 }, (_, i) => latticeWave(line)((until_s * i) / 3000)));
  };
  it('a motor that turns little back: the crest of 280 m lies between the two waves, and is found to 0.05 %', () => {
    const line = { ...SHIELDED, impedanceLL_ohm: 150, motor_ohm: 210, resistance_ohmPerM: 0.01, skin_ohmPerMRootHz: 6e-5, length_m: 280 };
    const delay_s = line.length_m / line.velocity_mPerS;
    expectClose(latticePeak_V(line), crestOf(line), { relative: 5e-4 }, 'closely looked at');
    expect(crestOf(line) / Math.max(latticeWave(line)(delay_s + line.ramp_s), latticeWave(line)(3 * delay_s))).toBeGreaterThan(1.001);
  });
  it('just at the critical length loss moves the crest to after the end of the ramp, where it is found to 0.1 %', () => {
    const line = { ...SHIELDED, ramp_s: 400e-9, length_m: 38 };
    expectClose(latticePeak_V(line), crestOf(line), { relative: 1e-3 }, 'closely looked at');
    expect(crestOf(line) / latticeWave(line)(0.2e-6 + line.ramp_s)).toBeGreaterThan(1.002);
  });
});
