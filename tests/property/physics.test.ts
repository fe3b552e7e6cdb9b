import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { IEC_CONDUCTORS, US_CONDUCTORS } from '../../engine/catalog/conductors.ts';
import { nextRating_A } from '../../engine/catalog/deviceRatings.ts';
import { equipmentGround, protectiveConductor_mm2 } from '../../engine/catalog/groundingConductors.ts';
import { formatQuantity, parseQuantity, type Quantity } from '../../engine/lineup/units.ts';
import { type AmpacityInput, ampacity } from '../../engine/physics/ampacity.ts';
import { add, type Complex, complex, conjugate, magnitude, multiply, scale, sizeOf } from '../../engine/physics/complex.ts';
import { conductorImpedance } from '../../engine/physics/conductorImpedance.ts';
import { faultCurrent_A, peakFaultCurrent_A, sourceImpedance, transformerCorrection } from '../../engine/physics/faultCurrent.ts';
import { type Branch, type Load, powerFlow } from '../../engine/physics/powerFlow.ts';
import { skinAndProximity } from '../../engine/physics/skinAndProximity.ts';

/** Laws of the physics, ten thousand cases each. */

const RUNS = { numRuns: 10_000, seed: 20261125 };
const holds = <T extends readonly unknown[]>(arbitraries: { [K in keyof T]: fc.Arbitrary<T[K]> }, law: (...values: T) => void): void =>
  fc.assert(
    fc.property(fc.tuple(...(arbitraries as unknown as fc.Arbitrary<unknown>[])), (values) => {
      law(...(values as unknown as T));
    }),
    RUNS,
  );

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const metal = fc.constantFrom('copper' as const, 'aluminium' as const);
const surround = fc.constantFrom('steel' as const, 'aluminium' as const, 'nonmetallic' as const);
const usSize = fc.integer({ min: 2, max: US_CONDUCTORS.length - 1 }).map((i) => US_CONDUCTORS[i]?.name ?? '');
const iecSize = fc.integer({ min: 7, max: IEC_CONDUCTORS.length - 1 }).map((i) => IEC_CONDUCTORS[i]?.name ?? '');
const anySize = fc.oneof(usSize, iecSize);
const least = (a: number, b: number): void => expect(a).toBeGreaterThanOrEqual(b * (1 - 1e-12) - 1e-15);
const same = (a: number, b: number, relative = 1e-9): void =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(relative * Math.max(Math.abs(a), Math.abs(b)) + 1e-12);

describe('the size of a complex number', () => {
  it('is that of the language, to the last digits, however large or small', () =>
    holds([fc.double({ noNaN: true }), fc.double({ noNaN: true })], (re, im) => {
      const [ours, theirs] = [sizeOf(re, im), Math.hypot(re, im)];
      expect(ours === theirs || Math.abs(ours - theirs) <= 4e-16 * theirs).toBe(true);
    }));
});

describe('a conductor', () => {
  const z = (
    size: string,
    m: 'copper' | 'aluminium',
    temperature_C: number,
    frequency_Hz: number,
    s: 'steel' | 'aluminium' | 'nonmetallic',
  ) => conductorImpedance({ size, metal: m, temperature_C, frequency_Hz, surround: s });

  it('has more resistance when it is hotter', () =>
    holds([anySize, metal, real(-20, 150), real(0.1, 100), surround], (size, m, t, more, s) =>
      least(z(size, m, t + more, 60, s)?.resistance_ohmPerM ?? 0, z(size, m, t, 60, s)?.resistance_ohmPerM ?? 0),
    ));
  it('has no more resistance in the next size up', () =>
    holds([fc.integer({ min: 2, max: US_CONDUCTORS.length - 2 }), metal, real(0, 100), surround], (i, m, t, s) => {
      const [small, large] = [US_CONDUCTORS[i]?.name ?? '', US_CONDUCTORS[i + 1]?.name ?? ''];
      least(z(small, m, t, 60, s)?.resistance_ohmPerM ?? 0, z(large, m, t, 60, s)?.resistance_ohmPerM ?? 0);
    }));
  it('the same in metric sizes', () =>
    holds([fc.integer({ min: 7, max: IEC_CONDUCTORS.length - 2 }), metal, real(0, 100), real(10, 60)], (i, m, t, hz) => {
      const [small, large] = [IEC_CONDUCTORS[i]?.name ?? '', IEC_CONDUCTORS[i + 1]?.name ?? ''];
      least(z(small, m, t, hz, 'nonmetallic')?.resistance_ohmPerM ?? 0, z(large, m, t, hz, 'nonmetallic')?.resistance_ohmPerM ?? 0);
    }));
  it('has reactance in proportion to frequency', () =>
    holds([anySize, metal, real(1, 400), real(0.1, 5), surround], (size, m, hz, k, s) =>
      same(z(size, m, 75, hz * k, s)?.reactance_ohmPerM ?? 0, k * (z(size, m, 75, hz, s)?.reactance_ohmPerM ?? 0)),
    ));
  it('has more resistance in aluminium', () =>
    holds([anySize, real(0, 100), surround], (size, t, s) =>
      least(
        z(size, 'aluminium', t, 60, s)?.resistance_ohmPerM ?? Number.POSITIVE_INFINITY,
        z(size, 'copper', t, 60, s)?.resistance_ohmPerM ?? 0,
      ),
    ));
  it('has no less reactance in steel than in plastic', () =>
    holds([usSize, metal, real(1, 400)], (size, m, hz) =>
      least(z(size, m, 75, hz, 'steel')?.reactance_ohmPerM ?? 0, z(size, m, 75, hz, 'nonmetallic')?.reactance_ohmPerM ?? 0),
    ));
  it('skin and proximity effect add, grow with frequency, and proximity fades with distance', () =>
    holds([real(3e-5, 2e-2), real(1, 400), real(1, 30), real(1.01, 20)], (direct_ohmPerM, frequency_Hz, diameter_mm, apart) => {
      const near = { direct_ohmPerM, frequency_Hz, diameter_mm, spacing_mm: diameter_mm * 1.05 };
      const here = skinAndProximity(near);
      least(here.skin, 0);
      least(here.proximity, 0);
      least(here.proximity, skinAndProximity({ ...near, spacing_mm: near.spacing_mm * apart }).proximity);
      if (((8 * Math.PI * frequency_Hz * 1.1) / direct_ohmPerM) * 1e-7 < 2.8 ** 2)
        least(skinAndProximity({ ...near, frequency_Hz: frequency_Hz * 1.1 }).skin, here.skin);
    }));
});

describe('ampacity', () => {
  const us = (more: Partial<AmpacityInput>): number | null =>
    ampacity({
      basis: 'us',
      size: '2 AWG',
      metal: 'copper',
      sets: 1,
      insulationTemperature_C: 90,
      terminalTemperature_C: null,
      ambient_C: 30,
      loadedConductors: 3,
      method: 'E',
      groupedCircuits: 1,
      soil_KmPerW: null,
      group: 'xlpe',
      ...more,
    })?.value_A ?? null;
  const iec = (more: Partial<AmpacityInput>) => us({ basis: 'iec', size: '35 mm2', ...more });
  /** Where both are in the tables, the second is no more than the first. */
  const noMore = (a: number | null, b: number | null): void => {
    if (a !== null && b !== null) least(a, b);
  };
  const method = fc.constantFrom('B1' as const, 'B2' as const, 'C' as const, 'D1' as const, 'D2' as const, 'E' as const, 'F' as const);
  const group = fc.constantFrom('pvc' as const, 'xlpe' as const);

  it('falls with the ambient (US)', () =>
    holds([usSize, metal, real(-10, 70), real(0, 15)], (size, m, ambient_C, more) =>
      noMore(us({ size, metal: m, ambient_C }), us({ size, metal: m, ambient_C: ambient_C + more })),
    ));
  it('falls with the ambient (IEC)', () =>
    holds([iecSize, metal, method, group, real(5, 70), real(0, 15)], (size, m, how, g, ambient_C, more) =>
      noMore(
        iec({ size, metal: m, method: how, group: g, ambient_C }),
        iec({ size, metal: m, method: how, group: g, ambient_C: ambient_C + more }),
      ),
    ));
  it('falls with the number of loaded conductors', () =>
    holds([usSize, fc.integer({ min: 1, max: 80 }), fc.integer({ min: 0, max: 30 })], (size, n, more) =>
      noMore(us({ size, loadedConductors: n }), us({ size, loadedConductors: n + more })),
    ));
  it('falls with the number of circuits together', () =>
    holds([iecSize, method, fc.integer({ min: 1, max: 40 }), fc.integer({ min: 0, max: 20 })], (size, how, n, more) =>
      noMore(iec({ size, method: how, groupedCircuits: n }), iec({ size, method: how, groupedCircuits: n + more })),
    ));
  it('falls with the resistivity of the soil', () =>
    holds([iecSize, real(0.4, 3), real(0, 1)], (size, soil, more) =>
      noMore(
        iec({ size, method: 'D2', ambient_C: 20, soil_KmPerW: soil }),
        iec({ size, method: 'D2', ambient_C: 20, soil_KmPerW: soil + more }),
      ),
    ));
  it('is that of one set times the sets', () =>
    holds([anySize, metal, fc.integer({ min: 1, max: 8 }), fc.boolean()], (size, m, sets, american) => {
      const of = american ? us : iec;
      const [one, all] = [of({ size, metal: m }), of({ size, metal: m, sets })];
      if (one !== null && all !== null) same(all, sets * one);
    }));
  it('rises with the size', () =>
    holds(
      [fc.integer({ min: 2, max: US_CONDUCTORS.length - 2 }), metal, real(20, 50), fc.constantFrom(60, 75, 90)],
      (i, m, ambient_C, insulation) =>
        noMore(
          us({ size: US_CONDUCTORS[i + 1]?.name ?? '', metal: m, ambient_C, insulationTemperature_C: insulation }),
          us({ size: US_CONDUCTORS[i]?.name ?? '', metal: m, ambient_C, insulationTemperature_C: insulation }),
        ),
    ));
  it('is never raised by terminals', () =>
    holds([usSize, metal, real(-10, 60), fc.constantFrom(60, 75, 90)], (size, m, ambient_C, terminalTemperature_C) =>
      noMore(us({ size, metal: m, ambient_C }), us({ size, metal: m, ambient_C, terminalTemperature_C })),
    ));
  it('is no less with hotter insulation, at the ambient of the table', () =>
    holds([usSize, metal, fc.integer({ min: 1, max: 40 })], (size, m, loadedConductors) => {
      const at = (insulationTemperature_C: number) => us({ size, metal: m, loadedConductors, insulationTemperature_C });
      noMore(at(90), at(75));
      noMore(at(75), at(60));
    }));
});

describe('power flow', () => {
  const branch = (from: number, to: number, impedance_ohm: Complex, ratio = 1): Branch => ({ from, to, impedance_ohm, ratio });
  const load = (node: number, amperes: number, powerFactor: number, kind: Load['kind'] = 'power'): Load => ({
    node,
    kind,
    ratedVoltage_V: 480,
    ratedCurrent_A: amperes,
    powerFactor,
  });
  const ohm = fc.tuple(real(1e-4, 0.2), real(1e-4, 0.1)).map(([r, x]) => complex(r, x));
  const amperes = real(1, 120);
  const pf = real(0.6, 1);
  const kind = fc.constantFrom('power' as const, 'regulated' as const, 'impedance' as const);
  const volts = (branches: readonly Branch[], loads: readonly Load[], source = 480) =>
    powerFlow(source, branches.length + 1, branches, loads);

  it('without load, every voltage is the source’s over the ratios', () =>
    holds([ohm, ohm, real(0.2, 30)], (a, b, ratio) => {
      const flow = volts([branch(0, 1, a), branch(1, 2, b, ratio)], []);
      same(magnitude(flow.voltages_V[2] ?? complex(0)), 480 / Math.sqrt(3) / ratio);
    }));
  it('two lengths in series are as one', () =>
    holds([ohm, ohm, amperes, pf, kind], (a, b, i, cos, k) => {
      const two = volts([branch(0, 1, a), branch(1, 2, b)], [load(2, i, cos, k)]);
      const one = volts([branch(0, 1, add(a, b))], [load(1, i, cos, k)]);
      expect(two.converged).toBe(one.converged);
      if (one.converged) same(magnitude(two.voltages_V[2] ?? complex(0)), magnitude(one.voltages_V[1] ?? complex(0)), 1e-8);
    }));
  it('a longer length leaves less', () =>
    holds([ohm, real(1, 3), amperes, pf, kind], (a, k, i, cos, what) => {
      const [short, long] = [
        volts([branch(0, 1, a)], [load(1, i, cos, what)]),
        volts([branch(0, 1, scale(a, k))], [load(1, i, cos, what)]),
      ];
      if (short.converged && long.converged)
        least(magnitude(short.voltages_V[1] ?? complex(0)), magnitude(long.voltages_V[1] ?? complex(0)));
      else expect(long.converged && !short.converged).toBe(false);
    }));
  it('a greater load leaves less', () =>
    holds([ohm, real(1, 3), amperes, pf, kind], (a, k, i, cos, what) => {
      const [small, large] = [volts([branch(0, 1, a)], [load(1, i, cos, what)]), volts([branch(0, 1, a)], [load(1, i * k, cos, what)])];
      if (small.converged && large.converged)
        least(magnitude(small.voltages_V[1] ?? complex(0)), magnitude(large.voltages_V[1] ?? complex(0)));
    }));
  it('equal sets halve the drop of a load that holds its current', () =>
    holds([ohm, amperes, pf], (a, i, cos) => {
      const drop = (z: Complex) => magnitude(volts([branch(0, 1, z)], [load(1, i, cos)]).currents_A[1] ?? complex(0)) * magnitude(z);
      // Constant power draws a little less through two sets: the drop is no more than half.
      least(drop(a) / 2, drop(scale(a, 0.5)));
    }));
  it('a load in two halves is as one', () =>
    holds([ohm, amperes, pf, kind], (a, i, cos, what) => {
      const one = volts([branch(0, 1, a)], [load(1, i, cos, what)]);
      const two = volts([branch(0, 1, a)], [load(1, i / 2, cos, what), load(1, i / 2, cos, what)]);
      if (one.converged) same(magnitude(two.voltages_V[1] ?? complex(0)), magnitude(one.voltages_V[1] ?? complex(0)));
    }));
  it('what hangs elsewhere and draws nothing changes nothing', () =>
    holds([ohm, ohm, amperes, pf], (a, b, i, cos) => {
      const alone = volts([branch(0, 1, a)], [load(1, i, cos)]);
      const beside = volts([branch(0, 1, a), branch(0, 2, b)], [load(1, i, cos)]);
      if (alone.converged) same(magnitude(beside.voltages_V[1] ?? complex(0)), magnitude(alone.voltages_V[1] ?? complex(0)));
    }));
  it('voltages and impedances scaled alike leave the currents', () =>
    holds([ohm, amperes, pf, real(0.3, 5)], (a, i, cos, k) => {
      const base = volts([branch(0, 1, a)], [load(1, i, cos)]);
      const scaled = powerFlow(480 * k, 2, [branch(0, 1, scale(a, k))], [{ ...load(1, i, cos), ratedVoltage_V: 480 * k }]);
      expect(scaled.converged).toBe(base.converged);
      if (base.converged) same(magnitude(scaled.currents_A[1] ?? complex(0)), magnitude(base.currents_A[1] ?? complex(0)), 1e-8);
    }));
  it('what the source gives is what the loads take and the lengths lose', () =>
    holds([ohm, ohm, ohm, amperes, amperes, pf, pf], (a, b, c, i, j, cosI, cosJ) => {
      const branches = [branch(0, 1, a), branch(1, 2, b), branch(1, 3, c)];
      const flow = volts(branches, [load(2, i, cosI), load(3, j, cosJ)]);
      if (!flow.converged) return;
      const power = (node: number, at: number) =>
        multiply(flow.voltages_V[at] ?? complex(0), conjugate(flow.currents_A[node] ?? complex(0)));
      const given = power(1, 0);
      const lost = branches.reduce((sum, each) => {
        const current = magnitude(flow.currents_A[each.to] ?? complex(0));
        return add(sum, scale(each.impedance_ohm, current ** 2));
      }, complex(0));
      const taken = add(power(2, 2), power(3, 3));
      same(given.re, taken.re + lost.re, 1e-7);
      same(given.im, taken.im + lost.im, 1e-6);
    }));
  it('a power factor that is not given is no better than any that could be', () =>
    holds([ohm, amperes, real(0.05, 1)], (a, i, cos) => {
      const worst = volts([branch(0, 1, a)], [{ ...load(1, i, 1), powerFactor: null }]);
      const given = volts([branch(0, 1, a)], [load(1, i, cos)]);
      // To first order the worst angle is that of the length itself; beyond it the difference is of second order.
      if (worst.converged && given.converged)
        expect(magnitude(worst.voltages_V[1] ?? complex(0))).toBeLessThanOrEqual(magnitude(given.voltages_V[1] ?? complex(0)) * 1.01);
    }));
});

describe('fault currents', () => {
  const ohm = fc.tuple(real(1e-5, 1), real(1e-5, 1)).map(([r, x]) => complex(r, x));
  const basis = fc.constantFrom('us' as const, 'iec' as const);
  it('fall with every length added', () =>
    holds([ohm, ohm, basis, real(200, 15_000)], (a, b, which, V) =>
      least(faultCurrent_A(V, a, which) ?? 0, faultCurrent_A(V, add(a, b), which) ?? 0),
    ));
  it('at the terminals of a source are what it is said to give', () =>
    holds([real(200, 15_000), real(100, 1e5), real(0.1, 50), basis], (V, A, xr, which) =>
      same(faultCurrent_A(V, sourceImpedance(V, A, xr, which), which) ?? 0, A),
    ));
  it('have a peak between √2 and 2 √2 times their value', () =>
    holds([ohm, real(1, 1e5)], (path, A) => {
      const peak = peakFaultCurrent_A(A, path);
      least(peak, Math.SQRT2 * A);
      least(2 * Math.SQRT2 * A, peak);
    }));
  it('the correction of a transformer falls with its reactance', () =>
    holds([real(0, 0.3), real(0, 0.2)], (x, more) => least(transformerCorrection(x), transformerCorrection(x + more))));
});

describe('tables and units', () => {
  it('a protective conductor never shrinks with its line conductor or its device', () =>
    holds([real(0.5, 600), real(0, 200), real(1, 3900), real(0, 100)], (line, more, rating, up) => {
      // Table 54.2 steps down nowhere but where it holds 16 mm2 and then halves.
      least(protectiveConductor_mm2(line + more), Math.min(protectiveConductor_mm2(line), 16));
      const area = (A: number) => US_CONDUCTORS.findIndex((each) => each.name === equipmentGround(A, 'copper')?.size);
      least(area(Math.min(4000, rating + up)), area(rating));
    }));
  it('a standard rating is not below the current, and is its own next', () =>
    holds([real(0, 4000), fc.constantFrom('us' as const, 'iec' as const)], (A, which) => {
      const rating = nextRating_A(A, which);
      expect(rating !== null && rating >= A && nextRating_A(rating, which) === rating).toBe(true);
    }));
  const quantities: readonly Quantity[] = [
    'length',
    'smallLength',
    'distance',
    'power',
    'apparentPower',
    'voltage',
    'current',
    'frequency',
    'percent',
    'area',
  ];
  it('what is shown reads back as nearly what it was, in either system', () =>
    holds(
      [fc.constantFrom(...quantities), real(0.02, 5e5), fc.constantFrom('us' as const, 'metric' as const)],
      (quantity, value, units) => {
        const shown = formatQuantity(value, quantity, units);
        const parsed = parseQuantity(shown, quantity, units);
        expect(parsed.ok).toBe(true);
        // Kiloamperes above a thousand, two decimals below ten: three figures at least, but for an amount far below a unit.
        if (parsed.ok && Math.abs(Number(/[\d.]+/.exec(shown)?.[0])) >= 1)
          expect(Math.abs(Number(parsed.value) / value - 1)).toBeLessThan(0.011);
      },
    ));
});
