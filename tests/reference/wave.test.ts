import { describe, expect, it } from 'vitest';
import { edgePeak, exponential, peaksAlong, raisedCosine, shapedPeak, straight } from '../../engine/physics/wave/edgePeak.ts';
import { criticalLength_m, latticePeak_V, latticeWave, linearRulePeak_V } from '../../engine/physics/wave/latticePeak.ts';
import { motorSurgeImpedance_ohm } from '../../engine/physics/wave/lineConstants.ts';
import { expectClose } from './expectClose.ts';
import { hasNgspice, simulate } from './ngspice.ts';

/** 650 V step, 100 ns ramp, 80 ohm line, 1500 ohm motor, lossless, by transit time. */
const bare = (delay_s: number) => ({
  bus_V: 650,
  ramp_s: 100e-9,
  length_m: delay_s * 150e6,
  velocity_mPerS: 150e6,
  impedanceLL_ohm: 80,
  motor_ohm: 1500,
  resistance_ohmPerM: 0,
  skin_ohmPerMRootHz: 0,
});
const PRINTED = [
  [200e-9, 1234.2, 0.002],
  [37.5e-9, 956.9, 0.005],
  [25e-9, 680.5, 0.005],
  [16.6667e-9, 825.9, 0.005],
] as const;

describe('exact lattice against a circuit simulation (ngspice 39, printed)', () => {
  it.each(PRINTED)('transit %f s: %f V', (delay, printed, relative) =>
    expectClose(latticePeak_V(bare(delay)), printed, { relative }, 'ngspice'),
  );

  it('line with skin-effect loss, 100 m: 1209.4 V, second crest 1056.4 V (inverse Fourier solution)', () => {
    const velocity_mPerS = 1 / Math.sqrt(150e-9 * 160e-12);
    const input = {
      bus_V: 650,
      ramp_s: 100e-9,
      length_m: 100,
      velocity_mPerS,
      impedanceLL_ohm: 2 * Math.sqrt(150e-9 / 160e-12),
      motor_ohm: 1500,
      resistance_ohmPerM: 0.0053,
      skin_ohmPerMRootHz: 4e-5,
    };
    expectClose(latticePeak_V(input), 1209.4, { relative: 0.005 }, 'FFT');
    const delay = 100 / velocity_mPerS;
    let crest = 0;
    for (let i = 0; i <= 400; i++) crest = Math.max(crest, latticeWave(input)(delay * (4.9 + (2 * i) / 400)));
    expectClose(crest, 1056.4, { relative: 0.005 }, 'FFT');
  });

  it('critical length at 0.1, 0.5, 1, 2, 4 µs full ramp and 119 m/µs: 19, 97, 195, 390, 780 ft (von Jouanne and others, from memory)', () => {
    for (const [ramp, ft] of [
      [0.1, 19],
      [0.5, 97],
      [1, 195],
      [2, 390],
      [4, 780],
    ] as const)
      expectClose(criticalLength_m(119e6, (ramp * 1e-6) / 1.25) / 0.3048, ft, { relative: 0.03 }, 'paper');
  });

  it('surge impedance of a 90 and a 355 kW motor: 800 and 400 ohm (joint trade technical report, from memory)', () => {
    expectClose(motorSurgeImpedance_ohm(90_000), 800, { relative: 0.01 }, 'report');
    expectClose(motorSurgeImpedance_ohm(355_000), 400, { relative: 0.01 }, 'report');
  });

  /** Lossless, Γ = 0.9, by length over v t / 2 with the 10 to 90 % time: S-shaped and steep edges. */
  const SHAPES = [
    [2, 1.9, 1.877],
    [1.5, 1.871, 1.83],
    [1.25, 1.75, 1.778],
    [1, 1.54, 1.689],
    [0.8, 1.317, 1.572],
    [0.6, 1.052, 1.403],
    [0.5, 1.062, 1.336],
    [0.4, 1.057, 1.249],
    [0.3, 1.027, 1.155],
    [0.2, 1.01, 1.065],
  ] as const;
  it.each(SHAPES)('edges of the same rise time at %d of the half way: S-shaped %d, steep %d (calculated table)', (y, soft, steep) => {
    const rise_s = 100e-9;
    const input = { ...bare(0), bus_V: 1, ramp_s: 1.25 * rise_s, motor_ohm: 80 * 19, length_m: (y * 150e6 * rise_s) / 2 };
    const { low_V, central_V, high_V } = edgePeak(input, false);
    const delay_s = input.length_m / 150e6;
    expectClose(shapedPeak(0.9, delay_s, rise_s, raisedCosine), soft, { relative: 0.003 }, 'table');
    expectClose(shapedPeak(0.9, delay_s, rise_s, exponential), steep, { relative: 0.003 }, 'table');
    expect(low_V).toBeLessThanOrEqual(soft * 1.003);
    // Straight edges reach full height from 1.25 on: 1.900 in the same table.
    expectClose(central_V, Math.max(steep, y >= 1.25 ? 1.9 : 0, soft), { relative: 0.012 }, 'table');
    expect(high_V).toBeGreaterThanOrEqual(central_V);
  });

  it('a longer cable without loss never lowers the peak, and the upper end stays above the linear rule and under twice the bus', () => {
    let before = 0;
    for (let length_m = 1; length_m < 40; length_m += 0.5) {
      const input = { ...bare(0), length_m };
      const { central_V, high_V } = edgePeak(input, false);
      expect(central_V).toBeGreaterThanOrEqual(before * (1 - 1e-3));
      expect(high_V).toBeGreaterThanOrEqual(linearRulePeak_V(input, 7.5) * 0.9999);
      expect(high_V).toBeLessThanOrEqual(1300.0001);
      before = central_V;
    }
  });
});

describe.skipIf(!hasNgspice)('exact lattice against ngspice, run now', () => {
  it.each(PRINTED)('transit %f s', (delay, _printed, relative) => {
    const measures = simulate(`* lossless line
Vs in 0 PWL(0 0 0.1u 0 2e-07 650)
T1 in 0 mot 0 Z0=80 TD=${delay}
Rm mot 0 1500
.options reltol=1e-5 abstol=1e-9 vntol=1e-6
.tran 0.5n 4u 0 0.5n
.meas tran vpk MAX v(mot)
.end
`);
    expectClose(latticePeak_V(bare(delay)), measures.get('vpk') ?? Number.NaN, { relative }, 'ngspice');
  });
});

/** The lead cut in two where it is looked at: the simulator then tells what stands there. Driven by the edge's own shape, in 200 straight pieces. */
describe.skipIf(!hasNgspice)('the peak along a lead against ngspice, run now', () => {
  const RISE_S = 80e-9;
  const SHAPES = { raisedCosine, exponential, straight } as const;
  const CASES = (['raisedCosine', 'exponential', 'straight'] as const).flatMap((name) =>
    ([25e-9, 100e-9, 400e-9] as const).flatMap((delay_s) => [0.1, 0.25, 0.5, 0.75, 0.95].map((share) => [name, delay_s, share] as const)),
  );
  it.each(CASES)('%s edge, transit %d s, %d of the way', (name, delay_s, share) => {
    const shape = SHAPES[name];
    const corners = Array.from({ length: 201 }, (_, i) => `${(i * 6 * RISE_S) / 200} ${shape((i * 6 * RISE_S) / 200, RISE_S)}`);
    const measures = simulate(`* a place on the line
Vs in 0 PWL(${corners.join(' ')})
T1 in 0 mid 0 Z0=80 TD=${share * delay_s}
T2 mid 0 mot 0 Z0=80 TD=${(1 - share) * delay_s}
Rm mot 0 ${80 * 19}
.options reltol=1e-5
.tran 0.25n ${3 * delay_s + 2.5 * RISE_S} 0 0.25n
.meas tran vpk MAX v(mid)
.end
`);
    expectClose(shapedPeak(0.9, delay_s, RISE_S, shape, share), measures.get('vpk') ?? NaN, { relative: 0.006 }, 'ngspice');
  });

  it('with the loss of a long lead of small wire, at five places', () => {
    const input = { ...bare(2e-6), resistance_ohmPerM: 0.02 };
    const along = peaksAlong(input, false, 20);
    for (const [place, share] of [
      [2, 0.1],
      [5, 0.25],
      [10, 0.5],
      [15, 0.75],
      [19, 0.95],
    ] as const) {
      const model = (name: string, part: number): string =>
        `.model ${name} LTRA(R=${2 * 0.02 * 300 * part} L=${2e-6 * part * 80} C=${(2e-6 * part) / 80} G=0 LEN=1)`;
      const measures = simulate(`* a place on a line with loss
Vs in 0 PWL(0 0 100n 650)
O1 in 0 mid 0 first
O2 mid 0 mot 0 second
${model('first', share)}
${model('second', 1 - share)}
Rm mot 0 1500
.options reltol=1e-5
.tran 2n 6.2u 0 2n
.meas tran vpk MAX v(mid)
.end
`);
      expectClose(along[place]?.central_V ?? NaN, measures.get('vpk') ?? NaN, { relative: 0.01 }, 'ngspice');
    }
  });
});
