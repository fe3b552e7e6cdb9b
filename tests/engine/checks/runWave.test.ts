import { describe, expect, it } from 'vitest';
import {
  busAssumed,
  busVoltage_V,
  isWave,
  lackingIn,
  surgeOf,
  type Wave,
  type WaveCase,
  waveAt,
  wavesAt,
} from '../../../engine/checks/runWave.ts';
import type { WaveTree } from '../../../engine/checks/waveTree.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { ElementOf } from '../../../engine/lineup/elements.ts';
import { atEveryFineness, type Settled, settledWave, type WaveNetwork } from '../../../engine/physics/wave/characteristics.ts';
import { reactorPeakPerUnit } from '../../../engine/physics/wave/reactorPeak.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { handLine } from '../../reference/handLine.ts';
import { bareCable as loose } from '../bareParts.ts';
import { DRIVE, MOTOR } from './scopes.ts';

/**
 * The wave at a motor, on lines that a data sheet describes: 80 Ω line to line, 200 m/µs, so that 100 m take 0.5 µs, and nothing is lost. A
 * motor of 240 Ω turns half of the wave back. One edge of 600 V, 10 to 90 % in 0.1 µs: the whole ramp takes 0.125 µs. What is no line alone is
 * held against the solver of travelling waves, fed with the network as it is typed here; tests/reference holds that against hand and ngspice.
 */

const line = (id: string, length_m: number, more: Partial<Cable> = {}): Cable => ({
  ...loose(id, '', ''),
  conductor: { sets: 1 },
  wave: { impedance_ohm: 80, velocity_mPerS: 200e6 },
  length_m,
  ...more,
});
const motor = (id: string, more: Partial<ElementOf<'motor'>> = {}): ElementOf<'motor'> => ({
  ...MOTOR,
  id,
  tag: id.toUpperCase(),
  ratedPower_W: 7500,
  surgeImpedance_ohm: 240,
  ...more,
});
const [M, N] = [motor('m'), motor('n')];
const AT: WaveCase = { bus_V: 600, rise_s: 1e-7, basis: 'us' };
const treeOf = (hops: WaveTree['hops'], more: Partial<WaveTree> = {}): WaveTree => ({
  hops,
  motors: [{ motor: M, node: hops.length }],
  terminators: [],
  atDrive: null,
  unmodelled: null,
  ...more,
});
const single = (cable: Cable, more: Partial<WaveTree> = {}): WaveTree => treeOf([{ cable, from: 0, to: 1 }], more);
const wave = (tree: WaveTree, which = M, at: Partial<WaveCase> = {}): Wave => {
  const found = waveAt(tree, which, { ...AT, ...at });
  if (!isWave(found)) throw new Error(found.none);
  return found;
};
const none = (tree: WaveTree, which = M) => {
  const found = waveAt(tree, which, AT);
  return isWave(found) ? null : found;
};
const near = (ours: number | null | undefined, hand: number, relative = 1e-9): void =>
  expectClose(ours ?? Number.NaN, hand, { relative, absolute: 1e-15 }, 'by hand');
/** A network as it is typed, solved at the first motor. */
const solved = (network: Partial<WaveNetwork>, which = 0): Settled => {
  const source = [
    [0, 0],
    [1.25e-7, 600],
  ] as const;
  const found = settledWave(atEveryFineness({ lines: [], shunts: [], watch: [1], until_s: 1e-5, source, ...network }), which);
  if (!found) throw new Error('no wave');
  return found;
};

describe('one line, one motor', () => {
  const found = wave(single(line('w', 100)));
  it('has half of the wave turned back: 900 V, in 0.1 µs, known within 8 %', () => {
    near(found.central_V, 900, 1e-6);
    near(found.low_V, 0.92 * 900, 1e-6);
    near(found.high_V, 1.08 * 900, 1e-6);
    near(found.rise_s, 1e-7, 0.01);
    near(wave(single(line('w', 20))).rise_s, 1e-7, 0.01);
    expect([found.motor, found.bus_V, found.length_m, found.reflection]).toEqual([M, 600, 100, 0.5]);
  });
  it('critical at 1.25 × 0.1 µs × 200 m/µs / 2 = 12.5 m, rings at 1 / (4 × 0.5 µs), to a tenth in log 10 / log 2 turns', () => {
    near(found.critical_m, 12.5);
    near(found.ring_Hz, 5e5);
    near(found.ringOut_s, 1e-6 * (Math.LN10 / Math.LN2));
  });
  it('shows its working', () =>
    expect(found.working).toEqual([
      'lc = 1.25 × tr × v / 2 = 1.25 × 0.100 µs × 200 m/µs / 2 = 12.5 m; length 100.0 m',
      'Γ = (240 − 80) / (240 + 80) = 0.500',
      'ring 1 / (4 td) = 500 kHz, to a tenth in 3.3 µs',
      'one edge: 900.0 V (an edge of any shape); at least 828.0 V (8 % less), at most 972.0 V (8 % more)',
    ]));
  it('assumes nothing that was said, and tells what was not', () => {
    expect(found.assumptions).toEqual([]);
    const bare = motor('m', { surgeImpedance_ohm: undefined });
    const guessed = wave(single(line('w', 100, { wave: {} }), { motors: [{ motor: bare, node: 1 }] }), bare);
    // 7600 / √7.5 = 2775 Ω, within a factor 1.6.
    expect(guessed.assumptions).toEqual([
      { what: 'speed of the wave', value: '150 m/µs', source: 'slow end of the usual band (common practice)' },
      {
        what: 'surge impedance of w, line to line',
        value: '23 Ω (23 to 23)',
        source: 'worst of all makes: construction, size, wall or sets are not known',
      },
      {
        what: 'surge impedance of M',
        value: '2775 Ω (1734 to 4440)',
        source: 'fit to a joint trade working group’s figures (from memory), within a factor 1.6',
      },
    ]);
    const half = wave(single(line('w', 100, { wave: { velocity_mPerS: 200e6 } })));
    expect(half.assumptions.map(({ what }) => what)).toEqual(['surge impedance of w, line to line']);
    const { wave: _, ...silent } = line('v', 40);
    const mixed = wave(
      treeOf([
        { cable: silent, from: 0, to: 1 },
        { cable: line('w', 60), from: 1, to: 2 },
      ]),
    );
    expect(mixed.assumptions.map(({ what }) => what)).toEqual(['speed of the wave', 'surge impedance of v, line to line']);
  });
  it('is well known from one and a half times the critical length on, 18.75 m', () => {
    const of = (length_m: number) => wave(single(line('w', length_m))).confidence;
    expect([of(18.75), of(18.7)]).toEqual(['good', 'fair']);
  });
  it('of a motor beyond 200 kW within 15 %', () => {
    const of = (ratedPower_W: number | undefined) => {
      const large = motor('m', { ratedPower_W });
      return wave(single(line('w', 100), { motors: [{ motor: large, node: 1 }] }), large).low_V;
    };
    near(of(200_000), 0.92 * 900, 1e-6);
    near(of(200_001), 0.85 * 900, 1e-6);
    near(of(undefined), 0.92 * 900, 1e-6);
  });
  it('that matches the line turns nothing back, and does not ring; one below it turns it over', () => {
    const of = (surgeImpedance_ohm: number) => {
      const odd = motor('m', { surgeImpedance_ohm });
      return wave(single(line('w', 100), { motors: [{ motor: odd, node: 1 }] }), odd);
    };
    expect([of(80).reflection, of(80).ringOut_s]).toEqual([0, 0]);
    near(of(80).central_V, 600, 1e-6);
    near(of(48).reflection, -0.25);
    near(of(48).ringOut_s, 1e-6 * (Math.LN10 / Math.log(4)));
    // One that turns back all that there is rings for ever, which is no time.
    expect([of(1e20).reflection, of(1e20).ringOut_s]).toEqual([1, 0]);
  });
  it('draws the first turns: from nothing to the first wave at 0.5 µs', () => {
    const samples = found.samples();
    expect(samples).toHaveLength(241);
    const at = (time_s: number) => samples.findLast(([time]) => time <= time_s)?.[1] ?? Number.NaN;
    expect(at(0.49e-6)).toBe(0);
    near(at(1.4e-6), 900, 1e-6);
    // The second wave takes 0.5 × 900 V, and the third gives half of that.
    near(at(2.4e-6), 450, 1e-6);
    near(at(3.4e-6), 675, 1e-6);
  });
  it('feeds the closed form with the line, its whole ramp and its losses', () => {
    expect(found.plain).toEqual({
      bus_V: 600,
      ramp_s: 1.25e-7,
      length_m: 100,
      velocity_mPerS: 200e6,
      impedanceLL_ohm: 80,
      motor_ohm: 240,
      resistance_ohmPerM: 0,
      skin_ohmPerMRootHz: 0,
    });
    // 12 AWG, two sets: 2.0 Ω per 1000 ft each (Table 9); skin 2.61e-7 × 1.8 / (π × 2.32 mm) on each.
    const wired = {
      conductor: { size: '12 AWG', metal: 'copper' as const, sets: 2 },
      construction: 'multicore' as const,
      insulation: { type: 'XHHW-2' as const },
      installation: { raceway: 'tray' as const },
    };
    const { plain } = wave(single(line('w', 100, wired)));
    near(plain?.resistance_ohmPerM, 1 / 304.8);
    near(plain?.skin_ohmPerMRootHz, (2.61e-7 * 1.8) / (Math.PI * 2.32e-3) / 2);
    near(plain?.impedanceLL_ohm, 40);
  });
  it('what is lost there and back shortens the ring: R / Z and tan δ π f / v, each by the metre', () => {
    const wired = {
      conductor: { size: '12 AWG', metal: 'copper' as const, sets: 1 },
      construction: 'multicore' as const,
      insulation: { type: 'THHN' as const },
    };
    const lossy = wave(single(line('w', 100, { ...wired, installation: { raceway: 'tray' } })));
    // At 500 kHz: 2.0 Ω per 1000 ft and the skin effect of 2.32 mm; PVC 0.06.
    const resistance = 2 / 304.8 + ((2.61e-7 * 1.8) / (Math.PI * 2.32e-3)) * Math.sqrt(5e5);
    const nepers = 200 * (resistance / 80 + (Math.PI * 5e5 * 0.06) / 200e6);
    near(lossy.ringOut_s, (1e-6 * Math.LN10) / (nepers + Math.LN2));
    // Two sets side by side: half of the resistance on half of 80 Ω, of which 240 Ω turn 200 / 280 back.
    const two = { ...wired, conductor: { ...wired.conductor, sets: 2 }, installation: { raceway: 'tray' as const } };
    near(wave(single(line('w', 100, two))).ringOut_s, (1e-6 * Math.LN10) / (nepers + Math.log(280 / 200)));
  });
  it('in two pieces alike is one line', () => {
    const tree = treeOf([
      { cable: line('v', 40), from: 0, to: 1 },
      { cable: line('w', 60), from: 1, to: 2 },
    ]);
    const two = wave(tree);
    expect([two.plain, two.length_m]).toEqual([found.plain, 100]);
    near(two.central_V, found.central_V);
    near(two.ringOut_s, found.ringOut_s);
  });
});

describe('a length that is a range', () => {
  it('is solved at both ends, and the higher peak holds', () => {
    const [short, long] = [wave(single(line('w', 5))), wave(single(line('w', 100)))];
    expect(short.central_V).toBeLessThan(long.central_V);
    near(wave(single(line('w', 5, { lengthMost_m: 100 }))).central_V, long.central_V);
    // Lossy, a long one wears: the short end holds.
    const wired = {
      conductor: { size: '12 AWG', metal: 'copper' as const, sets: 1 },
      construction: 'multicore' as const,
      insulation: { type: 'THHN' as const },
    };
    const worn = (length_m: number, lengthMost_m?: number) =>
      wave(single(line('w', length_m, { ...wired, ...(lengthMost_m ? { lengthMost_m } : {}) })));
    expect(worn(50).central_V).toBeGreaterThan(worn(500).central_V);
    expect([worn(50, 500).central_V, worn(50, 500).length_m]).toEqual([worn(50).central_V, 50]);
    // In whichever order its ends are written.
    expect([worn(500, 50).central_V, worn(500, 50).length_m]).toEqual([worn(50).central_V, 50]);
    // Of two pieces one may be a range.
    const pair = (more: Partial<Cable>) =>
      wave(
        treeOf([
          { cable: line('v', 10, wired), from: 0, to: 1 },
          { cable: line('w', 40, { ...wired, ...more }), from: 1, to: 2 },
        ]),
      );
    expect(pair({ lengthMost_m: 490 }).length_m).toBe(50);
  });
  it('is at its long end where both are alike', () => expect(wave(single(line('w', 50, { lengthMost_m: 100 }))).length_m).toBe(100));
  /** At which lengths of the whole way. */
  const lengths = (...hops: readonly (readonly [least_m: number, most_m?: number])[]) => {
    const cables = hops.map(([least_m, lengthMost_m], i) => line(`w${i}`, least_m, lengthMost_m ? { lengthMost_m } : {}));
    const waves = wavesAt(treeOf(cables.map((cable, i) => ({ cable, from: i, to: i + 1 }))), M, AT);
    return 'none' in waves ? waves.none : waves.map((each) => each.length_m);
  };
  it('is solved at its critical length too, 12.5 m, where that lies between', () => {
    expect(lengths([100])).toEqual([100]);
    expect(lengths([5, 100])).toEqual([100, 5, 12.5]);
    expect([lengths([20, 100]), lengths([5, 10])]).toEqual([
      [100, 20],
      [10, 5],
    ]);
    // At an end it is no third length.
    expect([lengths([12.5, 100]), lengths([5, 12.5])]).toEqual([
      [100, 12.5],
      [12.5, 5],
    ]);
    expect(lengths([2], [5, 95])).toEqual([97, 7, 12.5]);
    // A piece of no length beside it is no range.
    expect(lengths([0], [5, 100])).toEqual([100, 5, 12.5]);
  });
  it('from nothing is a range too: no cable, no wave, and it begins a hundredth on', () => {
    expect(wave(single(line('w', 0, { lengthMost_m: 100 }))).length_m).toBe(100);
    expect([lengths([0, 100]), lengths([0, 1000]), lengths([40], [0, 100])]).toEqual([
      [100, 1, 12.5],
      [1000, 10, 12.5],
      [140, 41],
    ]);
  });
  it('from nothing, behind a piece of another kind, is no better than a length within it', () => {
    const worn = { conductor: { size: '12 AWG', metal: 'copper' as const, sets: 1 }, wave: { impedance_ohm: 100, velocity_mPerS: 200e6 } };
    const behind = (length_m: number, lengthMost_m?: number) =>
      wave(
        treeOf([
          { cable: line('v', 40), from: 0, to: 1 },
          { cable: line('w', length_m, { ...worn, ...(lengthMost_m ? { lengthMost_m } : {}) }), from: 1, to: 2 },
        ]),
      );
    expect(behind(5).central_V).toBeGreaterThan(behind(500).central_V);
    near(behind(0, 500).central_V, behind(5).central_V);
  });
  it('is not judged while it begins so short that no step fits it and the rest', () => {
    const tiny = line('w', 1e-4, { lengthMost_m: 60, wave: { impedance_ohm: 120, velocity_mPerS: 200e6 } });
    const hops = [line('v', 40), tiny].map((cable, i) => ({ cable, from: i, to: i + 1 }));
    expect(none(treeOf(hops))?.none).toBe('reach');
  });
});

describe('no wave', () => {
  it('without a cable, or to a motor that is not there', () => {
    const bare = treeOf([], { motors: [{ motor: M, node: 0 }] });
    expect([none(bare), none(single(line('w', 100)), N)]).toEqual([{ none: 'no cable' }, { none: 'no cable' }]);
    expect(lackingIn({ none: 'no cable' })).toEqual([]);
  });
  it('over one of no known length, or of dimensions that give no line, wherever on the tree it is', () => {
    const endless = line('x', 100, { length_m: undefined as never });
    const odd = line('x', 100, { construction: 'singles', conductor: { size: '12 AWG', sets: 1 }, insulation: { wall_mm: 0.01 } });
    for (const [cable, why, field] of [
      [endless, 'length', 'length_m'],
      [odd, 'dimensions', 'insulation.wall_mm'],
    ] as const) {
      const tree = treeOf(
        [
          { cable: line('w', 100), from: 0, to: 1 },
          { cable, from: 0, to: 2 },
        ],
        { motors: [{ motor: M, node: 1 }] },
      );
      const found = none(tree);
      expect(found).toEqual({ none: why, cable });
      expect(found && lackingIn(found).map((each) => `${each.id} ${each.field}`)).toEqual([`x ${field}`]);
    }
  });
  it('where lengths lie so far apart that no one step fits both', () => {
    const [near_, far] = [line('w', 0.001), line('x', 50_000)];
    const tree = treeOf([
      { cable: near_, from: 0, to: 1 },
      { cable: { ...far, wave: { impedance_ohm: 90, velocity_mPerS: 200e6 } }, from: 1, to: 2 },
    ]);
    const found = none(tree);
    expect([found?.none, found && 'cable' in found ? found.cable.id : null]).toEqual(['reach', 'x']);
    expect(found && lackingIn(found).map(({ field }) => field)).toEqual(['length_m']);
  });
});

describe('what is remembered', () => {
  it('is the wave of this motor at this edge, with the tree', () => {
    const tree = single(line('w', 100));
    expect(wave(tree)).toBe(wave(tree));
    expect(wave(tree)).not.toBe(wave(single(line('w', 100))));
    for (const at of [{ bus_V: 601 }, { rise_s: 2e-7 }, { basis: 'iec' as const }]) expect(wave(tree, M, at)).not.toBe(wave(tree));
    near(wave(tree, M, { bus_V: 300 }).central_V, 450, 1e-6);
    near(wave(tree, M, { rise_s: 2e-7 }).critical_m, 25);
  });
  it('of several motors the network, solved once for all of them, and anew where the network is another', () => {
    const coil: ElementOf<'reactor'> = { id: 'x', kind: 'reactor', tag: 'X', impedance_pct: 3, ratedVoltage_V: 480, ratedCurrent_A: 50 };
    const tree = treeOf(
      [
        { cable: line('a', 40), from: 0, to: 1 },
        { cable: line('b', 40), from: 0, to: 2 },
      ],
      {
        motors: [
          { motor: M, node: 1 },
          { motor: N, node: 2 },
        ],
        atDrive: coil,
      },
    );
    // At 50 Hz the same per cent are 1.2 times as many henry.
    const [us, iec] = [wave(tree), wave(tree, M, { basis: 'iec' })];
    near((us.ring_Hz / iec.ring_Hz) ** 2, 1.2);
    near(us.rise_s, wave({ ...tree }).rise_s ?? 0);
    near(iec.rise_s, wave({ ...tree }, M, { basis: 'iec' }).rise_s ?? 0);
    expect((iec.rise_s ?? 0) / (us.rise_s ?? 1)).toBeGreaterThan(1.05);
  });
});

describe('lines that are not alike', () => {
  const unlike = treeOf([
    { cable: line('v', 40), from: 0, to: 1 },
    { cable: line('w', 60, { wave: { impedance_ohm: 120, velocity_mPerS: 150e6 } }), from: 1, to: 2 },
  ]);
  const found = wave(unlike);
  it('are solved as they are: 0.2 µs of 80 Ω and 0.4 µs of 120 Ω', () => {
    const hand = solved({
      lines: [handLine(2e-7), handLine(4e-7, 120, 0, 1, 2)],
      shunts: [{ node: 2, resistance_ohm: 240 }],
      watch: [2],
      until_s: 6.25e-6,
    });
    near(found.central_V, hand.peak_V, 1e-6);
    // The first wave passes on 2 × 120 / 200, and 1 + 1/3 of that stands at the motor.
    expect(found.central_V).toBeGreaterThanOrEqual(600 * 1.2 * (4 / 3) * 0.999);
    near(found.low_V, 0.92 * hand.peak_V, 1e-6);
    near(found.high_V, 1.08 * hand.peak_V, 1e-6);
    expect([found.plain, found.confidence]).toEqual([null, 'fair']);
    near(found.reflection, 120 / 360);
    near(found.ring_Hz, 1 / (4 * 6e-7));
    near(found.critical_m, (1.25e-7 * 150e6) / 2);
    expect(found.working.at(-1)).toMatch(/^travelling waves on v 80 Ω, w 120 Ω: [\d.]+ V, 10 to 90 % in [\d.]+ µs; solved to 0\.\d\d %$/);
    expect(found.working.at(-1)).toContain(`in ${(1e6 * (found.rise_s ?? 0)).toFixed(2)} µs`);
  });
  it('and drawn from beginning to end', () => {
    const samples = found.samples();
    expect([samples.length, samples[0]]).toEqual([241, [0, 0]]);
    near(samples.at(-1)?.[0], 6.25e-6, 0.01);
    near(Math.max(...samples.map(([, volts]) => volts)), found.central_V, 0.01);
    near(samples[120]?.[0], 6.25e-6 / 2, 0.01);
  });
  it('of which one is unlike by its speed or its impedance alone', () => {
    for (const other of [
      { impedance_ohm: 80, velocity_mPerS: 150e6 },
      { impedance_ohm: 81, velocity_mPerS: 200e6 },
    ])
      expect(
        wave(
          treeOf([
            { cable: line('v', 40), from: 0, to: 1 },
            { cable: line('w', 60, { wave: other }), from: 1, to: 2 },
          ]),
        ).plain,
      ).toBeNull();
  });
  it('of a large motor within 15 %', () => {
    const large = motor('m', { ratedPower_W: 300_000 });
    const other = wave({ ...unlike, motors: [{ motor: large, node: 2 }] }, large);
    near(other.high_V / other.central_V, 1.15);
    near(other.low_V / other.central_V, 0.85);
  });
  it('never less than the bus at the lowest', () => {
    const matched = motor('m', { surgeImpedance_ohm: 120 });
    const other = wave({ ...unlike, motors: [{ motor: matched, node: 2 }] }, matched);
    expect(other.low_V).toBeGreaterThanOrEqual(600);
    const small = motor('m', { surgeImpedance_ohm: 10 });
    const low = wave({ ...unlike, motors: [{ motor: small, node: 2 }] }, small);
    expect([low.central_V, low.low_V]).toEqual([600, 600]);
  });
  it('lose as much in one resistance as skin effect does by the end of the first plateau', () => {
    const wired = {
      conductor: { size: '12 AWG', metal: 'copper' as const, sets: 2 },
      construction: 'multicore' as const,
      insulation: { type: 'XHHW-2' as const },
      installation: { raceway: 'tray' as const },
    };
    const tree = treeOf([
      { cable: line('v', 40, { ...wired, wave: { impedance_ohm: 160, velocity_mPerS: 200e6 } }), from: 0, to: 1 },
      { cable: line('w', 60, { wave: { impedance_ohm: 120, velocity_mPerS: 150e6 } }), from: 1, to: 2 },
    ]);
    // k √(2 / (π² × 4 td)) = k / (π √(2 td)), td = 0.6 µs; two conductors, two sets.
    const skin = (2.61e-7 * 1.8) / (Math.PI * 2.32e-3);
    const resistance = (2 * 40 * (2 / 304.8 + skin / (Math.PI * Math.sqrt(2 * 6e-7)))) / 2;
    const hand = solved({
      lines: [handLine(2e-7, 80, resistance), handLine(4e-7, 120, 0, 1, 2)],
      shunts: [{ node: 2, resistance_ohm: 240 }],
      watch: [2],
      until_s: 6.25e-6,
    });
    near(wave(tree).central_V, hand.peak_V, 1e-9);
  });
});

describe('several motors on one drive', () => {
  const tee = treeOf(
    [
      { cable: line('a', 40), from: 0, to: 1 },
      { cable: line('b', 20), from: 1, to: 2 },
      { cable: line('c', 70), from: 1, to: 3 },
    ],
    {
      motors: [
        { motor: M, node: 2 },
        { motor: N, node: 3 },
      ],
    },
  );
  const network = {
    lines: [handLine(2e-7), handLine(1e-7, 80, 0, 1, 2), handLine(3.5e-7, 80, 0, 1, 3)],
    shunts: [
      { node: 2, resistance_ohm: 240 },
      { node: 3, resistance_ohm: 240 },
    ],
    watch: [2, 3],
    until_s: 5.75e-6,
  };
  it('each has its own peak, within 15 %', () => {
    for (const [i, which] of [M, N].entries()) {
      const [found, hand] = [wave(tee, which), solved(network, i)];
      near(found.central_V, Math.max(600, hand.peak_V), 1e-6);
      near(found.high_V / found.central_V, 1.15);
      expect([found.confidence, found.length_m, found.motor]).toEqual(['fair', i === 0 ? 60 : 110, which]);
      expect(found.working.at(-1)).toContain(`travelling waves on a 80 Ω, ${i === 0 ? 'b' : 'c'} 80 Ω, with 1 other motor on the drive: `);
    }
  });
  it('one that was made anew and says the same has the same', () => {
    const tree = { ...tee };
    near(wave(tree, { ...N }).central_V, wave(tee, N).central_V);
  });
  it('two on one line are no plain line: side by side 240 Ω and 240 Ω are 120 Ω', () => {
    const both = single(line('w', 100), {
      motors: [
        { motor: M, node: 1 },
        { motor: N, node: 1 },
      ],
    });
    near(wave(both).central_V, 600 * (1 + 40 / 200), 1e-3);
    expect(wave(both).plain).toBeNull();
  });
  it('three are more than one other', () => {
    const third = motor('o');
    const tree = { ...tee, motors: [...tee.motors, { motor: third, node: 1 }] };
    expect(wave(tree).working.at(-1)).toContain(', with 2 other motors on the drive: ');
  });
  it('a branch that leads to no motor counts too', () => {
    const stub = { ...tee, motors: [{ motor: M, node: 2 }] };
    const hand = solved({ ...network, shunts: network.shunts.slice(0, 1) });
    near(wave(stub).central_V, hand.peak_V, 1e-6);
    near(wave(stub).high_V / wave(stub).central_V, 1.08);
    expect(wave(stub).working.at(-1)).toContain('travelling waves on a 80 Ω, b 80 Ω: ');
  });
});

describe('a terminator at the end', () => {
  it('is 2 R with C / 2 line to line', () => {
    const filter: ElementOf<'filter'> = { id: 't', kind: 'filter', tag: 'T', role: 'terminator', resistance_ohm: 40, capacitance_F: 2e-8 };
    const tree = single(line('w', 100), { terminators: [{ filter, node: 1 }] });
    const hand = solved({
      lines: [handLine(5e-7)],
      shunts: [
        { node: 1, resistance_ohm: 240 },
        { node: 1, resistance_ohm: 80, capacitance_F: 1e-8 },
      ],
      until_s: 5.25e-6,
    });
    const found = wave(tree);
    near(found.central_V, Math.max(600, hand.peak_V), 1e-6);
    expect([found.plain, found.central_V < 850]).toEqual([null, true]);
    expect(found.working.at(-1)).toContain('travelling waves on w 80 Ω, terminator at the end: ');
  });
});

describe('behind a reactor', () => {
  const reactor: ElementOf<'reactor'> = { id: 'x', kind: 'reactor', tag: 'X', impedance_pct: 3, ratedVoltage_V: 480, ratedCurrent_A: 50 };
  // 2 × 3 % × 480 V / √3 / 50 A / (2π 60 Hz), line to line; 100 m of 80 Ω and 0.5 µs are 6.25 nF.
  const inductance_H = (2 * 0.03 * 480) / Math.sqrt(3) / 50 / (2 * Math.PI * 60);
  const capacitance_F = 5e-7 / 80;
  const ring_s = 2 * Math.PI * Math.sqrt(inductance_H * capacitance_F);
  const of = (more: Partial<ElementOf<'reactor'>> = {}, own: Partial<ElementOf<'motor'>> = {}, at: Partial<WaveCase> = {}) => {
    const [part, which] = [{ ...reactor, ...more }, motor('m', { surgeImpedance_ohm: 2000, ...own })];
    return wave(single(line('w', 100), { atDrive: part, motors: [{ motor: which, node: 1 }] }), which, at);
  };
  const hand = (across_ohm: number, motor_ohm = 2000) =>
    solved({
      lines: [handLine(5e-7)],
      shunts: [{ node: 1, resistance_ohm: motor_ohm }],
      inductance_H,
      across_ohm,
      edge_s: ring_s / 4,
      until_s: 0.75 * ring_s + 6 * 5e-7 + 1.25e-7,
    });
  it('coil and cable ring, with 5 kΩ of core loss at 7.5 kW', () => {
    const found = of();
    near(found.central_V, hand(5000).peak_V, 1e-6);
    near(found.ring_Hz, 1 / ring_s);
    // Textbook second order, 6 % at worst.
    near(found.central_V, 600 * reactorPeakPerUnit(inductance_H, capacitance_F, 5000, 2000), 0.06);
    expect([found.confidence, found.plain]).toEqual(['rough', null]);
    // That loss is known within a factor of three.
    const band = [5000 / 3, 15_000].map((ohm) => reactorPeakPerUnit(inductance_H, capacitance_F, ohm, 2000));
    const middle = reactorPeakPerUnit(inductance_H, capacitance_F, 5000, 2000);
    near(found.low_V, Math.max(600, (found.central_V * (band[0] ?? 0)) / middle));
    near(found.high_V, (found.central_V * (band[1] ?? 0)) / middle);
    expect(found.assumptions).toEqual([
      {
        what: 'core loss of X, as a resistance across it',
        value: '5000 Ω (1667 to 15000)',
        source: 'from memory, within a factor of three; whether a reactor lowers the peak or only the slope depends on it',
      },
    ]);
    expect(found.working.at(-2)).toBe('2 L = 2 × 3 % × 480 V / (√3 × 50.0 A) / (2π × 60 Hz) = 0.882 mH, with 5000 Ω across it');
  });
  it('whose core loss is entered is known within 8 %, and nothing is assumed', () => {
    const found = of({ coreLoss_ohm: 900 });
    near(found.central_V, hand(900).peak_V, 1e-6);
    near(found.high_V / found.central_V, 1.08);
    near(found.low_V, Math.max(600, 0.92 * found.central_V));
    expect(found.assumptions).toEqual([]);
    expect(found.working.at(-2)).toContain('with 900 Ω across it');
  });
  it('loses more the larger its motor is, (7.5 kW / P)^0.7, and least where that is not known', () => {
    near(of({}, { ratedPower_W: 75_000 }).central_V, hand(5000 * 0.1 ** 0.7).peak_V, 1e-6);
    near(of({}, { ratedPower_W: undefined }).central_V, hand(5000 * 75 ** 0.7).peak_V, 1e-6);
  });
  it('by IEC has its per cent at 50 Hz', () => {
    near(of({}, {}, { basis: 'iec' }).ring_Hz * Math.sqrt(1.2), 1 / ring_s);
    expect(of({}, {}, { basis: 'iec' }).working.at(-2)).toContain('(2π × 50 Hz) = 1.059 mH');
  });
  it('that ring takes the skin effect at its own frequency', () => {
    const wired = {
      conductor: { size: '12 AWG', metal: 'copper' as const, sets: 1 },
      construction: 'multicore' as const,
      insulation: { type: 'XHHW-2' as const },
      installation: { raceway: 'tray' as const },
    };
    const which = motor('m', { surgeImpedance_ohm: 2000 });
    const found = wave(single(line('w', 100, wired), { atDrive: reactor, motors: [{ motor: which, node: 1 }] }), which);
    const skin = ((2.61e-7 * 1.8) / (Math.PI * 2.32e-3)) * Math.sqrt(1 / ring_s);
    const lossy = solved({
      lines: [handLine(5e-7, 80, 200 * (2 / 304.8 + skin))],
      shunts: [{ node: 1, resistance_ohm: 2000 }],
      inductance_H,
      across_ohm: 5000,
      edge_s: ring_s / 4,
      until_s: 0.75 * ring_s + 6 * 5e-7 + 1.25e-7,
    });
    near(found.central_V, lossy.peak_V);
  });
  it('of which something is not known is none: the maker is asked elsewhere', () => {
    for (const path of ['impedance_pct', 'ratedVoltage_V', 'ratedCurrent_A']) {
      const found = of({ [path]: undefined });
      near(found.ring_Hz, 5e5);
      expect([found.confidence, found.assumptions, found.plain]).toEqual(['fair', [], null]);
    }
  });
});

describe('behind a filter of known parts', () => {
  const filter: ElementOf<'filter'> = {
    id: 'f',
    kind: 'filter',
    tag: 'F',
    role: 'dvdt',
    inductance_H: 1e-4,
    capacitance_F: 2e-8,
    resistance_ohm: 20,
    acrossInductor_ohm: 500,
  };
  const of = (more: Partial<ElementOf<'filter'>> = {}) => wave(single(line('w', 100), { atDrive: { ...filter, ...more } }));
  const ring_s = 2 * Math.PI * Math.sqrt(2e-4 * (5e-7 / 80 + 1e-8));
  const hand = (across_ohm: number, resistance_ohm: number) =>
    solved({
      lines: [handLine(5e-7)],
      shunts: [
        { node: 1, resistance_ohm: 240 },
        { node: 0, resistance_ohm, capacitance_F: 1e-8 },
      ],
      inductance_H: 2e-4,
      across_ohm,
      edge_s: ring_s / 4,
      until_s: 0.75 * ring_s + 6 * 5e-7 + 1.25e-7,
    });
  it('is 2 L with 2 R across it, and C / 2 with 2 R, line to line', () => {
    const found = of();
    near(found.central_V, hand(1000, 40).peak_V, 1e-6);
    near(found.ring_Hz, 1 / ring_s);
    near(found.high_V / found.central_V, 1.15);
    near(found.low_V, Math.max(600, 0.85 * found.central_V));
    expect([found.confidence, found.assumptions]).toEqual(['rough', []]);
    expect(found.working.at(-2)).toBe('F, line to line: 2 L = 200.0 µH, C / 2 = 10.00 nF with 40.0 Ω');
  });
  it('without its resistances is damped by nothing of its own', () => {
    near(of({ resistance_ohm: undefined, acrossInductor_ohm: undefined }).central_V, hand(Number.POSITIVE_INFINITY, 1e-3).peak_V, 1e-6);
  });
  it('without its coil or its capacitor is none', () => {
    for (const path of ['inductance_H', 'capacitance_F']) near(of({ [path]: undefined }).ring_Hz, 5e5);
  });
});

describe('the bus', () => {
  const drive = (more: Partial<ElementOf<'drive'>> = {}) => ({ ...DRIVE, ...more });
  it('is the crest of the line, and with an active front end as much higher as it says, or a tenth', () => {
    near(busVoltage_V(480, drive()), Math.SQRT2 * 480);
    near(busVoltage_V(480, drive({ frontEnd: 'diode', busRaise_pct: 20 })), Math.SQRT2 * 480);
    near(busVoltage_V(480, drive({ frontEnd: 'active', busRaise_pct: 20 })), 1.2 * Math.SQRT2 * 480);
    near(busVoltage_V(480, drive({ frontEnd: 'active' })), 1.1 * Math.SQRT2 * 480);
  });
  it('says what it takes for granted', () => {
    expect(busAssumed(drive())).toEqual([
      { what: 'front end of D', value: 'diode bridge', source: 'usual (common practice): an active one would hold the bus 10 % higher' },
    ]);
    expect(busAssumed(drive({ busRaise_pct: 20 }))[0]?.source).toContain('20 % higher');
    expect(busAssumed(drive({ frontEnd: 'active' }))).toEqual([
      { what: 'bus of D above the crest of the line', value: '10 %', source: 'usual for an active front end (common practice)' },
    ]);
    expect([busAssumed(drive({ frontEnd: 'active', busRaise_pct: 5 })), busAssumed(drive({ frontEnd: 'diode' }))]).toEqual([[], []]);
  });
});

describe('the surge impedance of a motor', () => {
  it('is what is entered, else by its power, else so large that nearly all is turned back', () => {
    near(surgeOf(motor('m')), 240);
    near(surgeOf(motor('m', { surgeImpedance_ohm: undefined })), 7600 / Math.sqrt(7.5));
    near(surgeOf(motor('m', { surgeImpedance_ohm: undefined, ratedPower_W: undefined })), 5000);
  });
});
