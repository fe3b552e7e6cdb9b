import { describe, expect, it } from 'vitest';
import { NO_FLOW, type SolveOptions, type StepResult, solveZone, type ZoneResult } from '../../../engine/checks/solveZone.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { Element } from '../../../engine/lineup/elements.ts';
import { buildNetwork } from '../../../engine/network/network.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { barePart, bareCable as loose } from '../bareParts.ts';

/**
 * One zone at a time, worked by hand: Ohm's law on a path, and the closed form of one line that feeds a constant power. 2 AWG copper in
 * steel conduit has 0.20 + j 0.057 Ω per 1000 ft at 75 °C and 60 Hz (NEC Chapter 9 Table 9).
 */

const ROOT3 = Math.sqrt(3);
const KFT = 304.8;
const [R2, X2] = [0.2, 0.057];
const line = (id: string, from: string, to: string, more: Partial<Cable> = {}): Cable => ({
  ...loose(id, from, to),
  conductor: { size: '2 AWG', metal: 'copper', sets: 1 },
  installation: { raceway: 'steel-conduit' },
  length_m: KFT,
  ...more,
});
const link = (id: string, from: string, to: string): Cable => ({ ...loose(id, from, to), kind: 'link' });
const supply = (more: object = {}): Element => barePart('supply', 's', { voltage_V: 480, ...more });
const drive = (id: string, more: object = {}): Element =>
  barePart('drive', id, { ratedVoltage_V: 480, inputCurrent_A: 100, inputPowerFactor: 1, ...more });
const motor = (id: string, more: object = {}): Element =>
  barePart('motor', id, { ratedVoltage_V: 480, ratedCurrent_A: 100, powerFactor: 1, ...more });

type Available = Parameters<typeof solveZone>[1];
const all = (volts: number | null): Available => ({ rated: volts, 'low line': volts, 'high line': volts, overload: volts });

interface Asked {
  readonly available?: Available;
  readonly options?: Partial<SolveOptions>;
  /** Which zone: that of the supply unless said otherwise. */
  readonly zone?: number;
}
interface Solved extends Pick<ZoneResult, 'converged'> {
  readonly at: (id: string) => StepResult;
}
/** The result at a part is that of its last step: of a part with two sides the one behind. Of a cable it is that of its far end. */
function solve(
  elements: readonly Element[],
  cables: readonly Cable[],
  { available = all(480), options = {}, zone = 0 }: Asked = {},
): Solved {
  const found = buildNetwork({ elements: [...elements], cables: [...cables] }).zones[zone];
  if (!found) throw new Error('no such zone');
  const { steps, converged } = solveZone(found, available, { basis: 'us', ...options });
  const at = (id: string): StepResult => {
    const step = found.steps.findLast((each) => each.element.id === id || (each.via?.kind === 'cable' && each.via.cable.id === id));
    const result = step && steps[step.index];
    if (!result) throw new Error(`nothing at ${id}`);
    return result;
  };
  return { at, converged };
}
const near = (ours: number | null | undefined, hand: number, relative = 1e-9): void =>
  expectClose(ours ?? Number.NaN, hand, { relative, absolute: 1e-12 }, 'by hand');

describe('currents through a transformer', () => {
  // 2400 V up from 480: what a motor draws behind it is five times as much ahead of it.
  const up = { primaryVoltage_V: 480, secondaryVoltage_V: 2400, impedance_pct: 5, ratedPower_VA: 75_000, xOverR: 4 };
  const parts = (transformer: object, between: Element | null = null): readonly [readonly Element[], readonly Cable[]] => [
    [
      supply(),
      drive('d'),
      ...(between ? [between] : []),
      barePart('transformer', 't', transformer),
      motor('m', { ratedVoltage_V: 2300, ratedCurrent_A: 20 }),
    ],
    [
      link('l', 's', 'd:line'),
      line('c', between ? 'b:load' : 'd:load', 't:line', {
        insulation: { type: 'XHHW-2' },
        installation: { raceway: 'steel-conduit', ambient_C: 30, loadedConductors: 3, moisture: 'dry' },
      }),
      ...(between ? [link('lb', 'd:load', 'b:line')] : []),
      link('lm', 't:load', 'm'),
    ],
  ];
  it('by load, the conductor ahead of it is as warm as its own current makes it', () => {
    // 2 AWG in the 90 °C column carries 130 A (Table 310.16); 20 A at 2300 V are 100 A on its side. R by Table 8 note 2.
    const [elements, cables] = parts(up);
    const { resistance_ohm, says } = solve(elements, cables, { zone: 1, options: { conductorTemperature: 'by-load' } }).at('c');
    const warm_C = 30 + 60 * (100 / 130) ** 2;
    near(resistance_ohm, R2 * (1 + 0.00323 * (warm_C - 75)));
    expect(says[0]).toBe('T = Ta + (Tm − Ta) (I / Iz)² = 65.5 °C at 100 A');
  });
  it('a reactor of no known rating ahead of it is one for the current on its side', () => {
    const [elements, cables] = parts(up, barePart('reactor', 'b', { impedance_pct: 3 }));
    const { reactance_ohm, assumptions } = solve(elements, cables, { zone: 1 }).at('b');
    near(reactance_ohm, (0.03 * 480) / ROOT3 / 100);
    expect(assumptions.map(({ value }) => value)).toEqual(['480 V', '100 A']);
  });
  it.each(['primaryVoltage_V', 'secondaryVoltage_V'])('without its %s nobody knows the current ahead of it, nor what it costs', (path) => {
    const [elements, cables] = parts({ ...up, [path]: undefined });
    const { current_A, drop_V, voltage_V } = solve(elements, cables, { zone: 1 }).at('c');
    expect([current_A, drop_V, voltage_V]).toEqual([null, null, null]);
  });
  it('one that feeds nothing draws nothing, whatever its voltages', () => {
    const elements = [supply(), barePart('transformer', 't'), barePart('bus', 'b'), drive('d')];
    const cables = [line('f', 's', 'b'), link('l', 'b', 'd:line'), link('k', 'b', 't:line')];
    near(solve(elements, cables).at('f').current_A, 100, 0.1);
  });
});

describe('motors that run without a drive, where the project counts what they feed into a fault', () => {
  const step = { primaryVoltage_V: 12_470, secondaryVoltage_V: 480, impedance_pct: 5, ratedPower_VA: 1e6, xOverR: 5 };
  const elements = (more: object = {}, transformer: object = step): readonly Element[] => [
    supply({ voltage_V: 12_470, faultCurrent_A: 12_000, xOverR: 10 }),
    barePart('transformer', 't', transformer),
    barePart('bus', 'b'),
    motor('m', { ratedCurrent_A: 75, ...more }),
    motor('n', { ratedCurrent_A: 25 }),
    drive('d'),
    motor('o', { ratedCurrent_A: 90 }),
  ];
  const cables = [
    link('1', 's', 't:line'),
    link('2', 't:load', 'b'),
    link('3', 'b', 'm'),
    link('4', 'b', 'n'),
    link('5', 'b', 'd:line'),
    link('6', 'd:load', 'o'),
  ];
  const counted = (parts: readonly Element[], zone = 0) =>
    solve(parts, cables, { available: all(zone === 0 ? 12_470 : 480), options: { motorContribution: true }, zone });

  it('add four times their rated current (IEEE 141), seen on the voltage of the place', () => {
    const [bare, full] = [solve(elements(), cables, { available: all(12_470) }), counted(elements())];
    near(full.at('b').faultCurrent_A, (bare.at('b').faultCurrent_A ?? 0) + 4 * 100);
    near(full.at('s').faultCurrent_A, 12_000 + (4 * 100 * 480) / 12_470);
    near(full.at('s').networkFault_A, 12_000);
    // The greatest value with theirs: κ √2 I of the sum (IEC 60909-0 clause 8.1), R/X = 1/10 at the supply.
    const kappa = 1.02 + 0.98 * Math.exp(-3 / 10);
    near(full.at('s').faultPeak_A, kappa * Math.SQRT2 * (12_000 + (400 * 480) / 12_470));
    expect([bare.at('b').feeding, full.at('b').feeding.map(({ id }) => id)]).toEqual([[], ['m', 'n']]);
  });
  it('of a tap too: 5 % more turns ahead, 5 % less current', () => {
    near(counted(elements({}, { ...step, tap_pct: 5 })).at('s').faultCurrent_A, 12_000 + (400 * 480) / 12_470 / 1.05);
  });
  it('one of no known current may feed anything: nobody knows the fault current, though the network’s share is known', () => {
    const { faultCurrent_A, networkFault_A, faultPeak_A, feeding } = counted(elements({ ratedCurrent_A: undefined })).at('s');
    expect([faultCurrent_A, faultPeak_A, feeding.map(({ id }) => id)]).toEqual([null, null, ['m', 'n']]);
    near(networkFault_A, 12_000);
    const unturned = counted(elements({}, { ...step, primaryVoltage_V: undefined }));
    expect(unturned.at('s').faultCurrent_A).toBeNull();
  });
  it('those behind a drive feed nothing back through its bridge', () => {
    const { faultCurrent_A, networkFault_A, feeding } = counted(elements(), 1).at('o');
    expect([faultCurrent_A, networkFault_A, feeding]).toEqual([null, null, []]);
  });
});

/** Upper root of V⁴ + (2 (R P + X Q) − E²) V² + |Z|² |S|² = 0, line to neutral: one line that feeds a constant power (any text). */
function receiving(source_V: number, [r, x]: readonly [number, number], power_VA: number, cosine: number): number {
  const sine = Math.sqrt(1 - cosine ** 2);
  const b = 2 * power_VA * (r * cosine + x * sine) - (source_V / ROOT3) ** 2;
  return ROOT3 * Math.sqrt((-b + Math.sqrt(b * b - 4 * (r * r + x * x) * power_VA ** 2)) / 2);
}
const PHASE = 480 / ROOT3;

describe('a feeder to one drive', () => {
  const elements = (more: object = {}) => [supply(), drive('d', more)];
  const fed = (cable: Partial<Cable> = {}, more: object = {}, asked: Asked = {}) =>
    solve(elements(more), [line('f', 's', 'd:line', cable)], asked).at('d');

  it('that takes its rated power whatever arrives', () => {
    for (const cosine of [1, 0.8]) {
      const { voltage_V, current_A, drop_V, resistance_ohm, reactance_ohm } = fed({}, { inputPowerFactor: cosine });
      const there = receiving(480, [R2, X2], PHASE * 100, cosine);
      near(voltage_V, there);
      near(current_A, (100 * 480) / there);
      near(drop_V, 480 - there);
      near(resistance_ohm, R2);
      near(reactance_ohm, X2);
    }
  });
  it('in parallel sets, and half as long: a quarter', () => {
    const { resistance_ohm, reactance_ohm } = fed({ length_m: KFT / 2, conductor: { size: '2 AWG', metal: 'copper', sets: 2 } });
    near(resistance_ohm, R2 / 4);
    near(reactance_ohm, X2 / 4);
  });
  it('at the rating of the drive, or at the voltage of the place where it has none', () => {
    near(fed({ length_m: 0 }, { ratedVoltage_V: 460 }).current_A, (100 * 460) / 480);
    near(fed({ length_m: 0 }, { ratedVoltage_V: undefined }).current_A, 100);
  });
  it('that takes no known current, or stands on no known voltage: nobody knows', () => {
    for (const { voltage_V, current_A, drop_V } of [
      fed({}, { inputCurrent_A: undefined }),
      fed({}, {}, { available: all(null) }),
      fed({}, { ratedVoltage_V: undefined }, { available: all(null) }),
    ])
      expect([voltage_V, current_A, drop_V]).toEqual([null, null, null]);
    // Through no impedance at all the voltage is that of the supply, whatever is drawn.
    expect(fed({ length_m: 0 }, { inputCurrent_A: undefined }).voltage_V).toBe(480);
  });
  it('over a cable of no known length or size: its current is known, and neither what it loses nor what is left', () => {
    for (const cable of [{ length_m: undefined as never }, { conductor: { size: '7 AWG', metal: 'copper' as const } }]) {
      const { current_A, drop_V, voltage_V, resistance_ohm, reactance_ohm, path_ohm, coldPath_ohm, collapsed } = fed(cable);
      near(current_A, 100);
      expect([drop_V, voltage_V, resistance_ohm, reactance_ohm, path_ohm, coldPath_ohm]).toEqual([null, null, null, null, null, null]);
      expect(collapsed).toBe(false);
    }
  });
  it('what lies behind a place of no known voltage has none either, and has what it loses itself', () => {
    const bus = [supply(), barePart('bus', 'b'), drive('d')];
    const unsized = { conductor: {} };
    const first = solve(bus, [line('f', 's', 'b', unsized), line('g', 'b', 'd:line')]).at('g');
    expect([first.voltage_V, first.path_ohm, first.coldPath_ohm]).toEqual([null, null, null]);
    near(first.resistance_ohm, R2);
    // And nothing of what stands before it is lost: there the path is known, and all that it carries.
    const last = solve(bus, [line('f', 's', 'b'), line('g', 'b', 'd:line', unsized)]).at('b');
    near(last.path_ohm?.re, R2);
    near(last.current_A, (100 * 480) / (last.voltage_V ?? 0), 1e-6);
  });
  it('through a switch is as without one', () => {
    const parts = [supply(), barePart('disconnect', 'q'), drive('d')];
    const { at } = solve(parts, [line('f', 's', 'q:line'), link('1', 'q:load', 'd:line')]);
    near(at('d').voltage_V, receiving(480, [R2, X2], PHASE * 100, 1));
    near(at('f').current_A, (100 * 480) / (at('d').voltage_V ?? 0));
    expect([at('q').resistance_ohm, at('q').drop_V, at('q').says, at('q').assumptions]).toEqual([0, 0, [], []]);
  });
  it('nominal stays what the supply says, and the gain is one', () => {
    const { nominal_V, gain, says, assumptions } = fed();
    expect([nominal_V, gain, says.length, assumptions]).toEqual([480, 1, 2, []]);
    // And of a part that nothing feeds nothing is known, and nothing said.
    expect(Object.entries(NO_FLOW).filter(([, value]) => value !== null)).toEqual([
      ['cases', Object.fromEntries(Object.keys(fed().cases).map((name) => [name, { voltage_V: null, current_A: null, drop_V: null }]))],
      ['feeding', []],
      ['gain', 1],
      ['collapsed', false],
      ['says', []],
      ['assumptions', []],
    ]);
    expect(Object.keys(NO_FLOW).toSorted()).toEqual(Object.keys(fed()).toSorted());
  });
});

describe('its frequency', () => {
  const x = (hertz: object, asked: Asked = {}) =>
    solve([supply(hertz), drive('d')], [line('f', 's', 'd:line')], asked).at('d').reactance_ohm;
  it('is that of the supply, else the usual one', () => {
    near(x({ frequency_Hz: 50 }), (X2 * 50) / 60);
    near(x({}), X2);
    near(x({}, { options: { basis: 'iec' } }), (X2 * 50) / 60);
  });
  it('behind a drive is that of its first motor', () => {
    const behind = (more: object, asked: Asked = {}) =>
      solve([supply({ frequency_Hz: 50 }), drive('d'), motor('m', more)], [link('l', 's', 'd:line'), line('c', 'd:load', 'm')], {
        zone: 1,
        ...asked,
      }).at('m').reactance_ohm;
    near(behind({ ratedFrequency_Hz: 90 }), X2 * 1.5);
    near(behind({}), X2);
    near(behind({}, { options: { basis: 'iec' } }), (X2 * 50) / 60);
    // And the usual one where there is none.
    const cables = [link('l', 's', 'd:line'), line('c', 'd:load', 'b')];
    near(solve([supply({ frequency_Hz: 50 }), drive('d'), barePart('bus', 'b')], cables, { zone: 1 }).at('b').reactance_ohm, X2);
  });
});

describe('a supply of known fault level', () => {
  // 480 V / (√3 × 12 kA) = 23.094 mΩ.
  const size = 480 / ROOT3 / 12_000;
  const at = (more: object = {}, asked: Asked = {}) => solve([supply({ faultCurrent_A: 12_000, ...more })], [], asked).at('s');
  it('has its impedance, at X/R 10 where nothing is said, which is listed', () => {
    for (const [more, xr] of [
      [{}, 10],
      [{ xOverR: 4 }, 4],
    ] as const) {
      const { resistance_ohm, reactance_ohm, faultCurrent_A, faultPeak_A, assumptions } = at(more);
      near(resistance_ohm, size / Math.hypot(1, xr));
      near(reactance_ohm, (xr * size) / Math.hypot(1, xr));
      near(faultCurrent_A, 12_000);
      near(faultPeak_A, (1.02 + 0.98 * Math.exp(-3 / xr)) * Math.SQRT2 * 12_000);
      expect(assumptions).toEqual(xr === 10 ? [{ what: 'X/R of s', value: '10', source: 'common practice, from memory' }] : []);
    }
    expect(at().says).toEqual(['Z = 480 V / (√3 × 12000 A) = 23.094 mΩ, X/R 10']);
  });
  it('gives just that fault current by IEC too, where the voltage factor is 1.1', () => {
    const { faultCurrent_A, path_ohm, coldPath_ohm } = at({}, { options: { basis: 'iec' } });
    near(faultCurrent_A, 12_000);
    near(Math.hypot(path_ohm?.re ?? 0, path_ohm?.im ?? 0), size);
    near(Math.hypot(coldPath_ohm?.re ?? 0, coldPath_ohm?.im ?? 0), 1.1 * size);
  });
  it('without it, or without its voltage, is unlimited', () => {
    for (const found of [at({ faultCurrent_A: undefined }), at({}, { available: all(null) })])
      expect([found.faultCurrent_A, found.faultPeak_A, found.resistance_ohm, found.says, found.assumptions]).toEqual([
        null,
        null,
        0,
        [],
        [],
      ]);
  });
  it('and the cold cable behind it add up: 2 AWG at 25 °C', () => {
    const { faultCurrent_A, faultPeak_A, path_ohm } = solve(
      [supply({ faultCurrent_A: 12_000, xOverR: 4 }), barePart('bus', 'b')],
      [line('f', 's', 'b')],
    ).at('b');
    const [r, x] = [size / Math.hypot(1, 4) + R2 * (1 - 50 * 0.00323), (4 * size) / Math.hypot(1, 4) + X2];
    near(faultCurrent_A, 480 / ROOT3 / Math.hypot(r, x));
    near(faultPeak_A, ((1.02 + 0.98 * Math.exp((-3 * r) / x)) * Math.SQRT2 * 480) / ROOT3 / Math.hypot(r, x));
    near(path_ohm?.re, size / Math.hypot(1, 4) + R2);
  });
  it('of no known voltage gives nobody knows what, over cable that is known', () => {
    const { faultCurrent_A, faultPeak_A, coldPath_ohm } = solve([supply(), barePart('bus', 'b')], [line('f', 's', 'b')], {
      available: all(null),
    }).at('b');
    expect([faultCurrent_A, faultPeak_A]).toEqual([null, null]);
    near(coldPath_ohm?.re, R2 * (1 - 50 * 0.00323));
  });
  it('passes no fault current through a drive', () => {
    const cables = [link('l', 's', 'd:line'), line('c', 'd:load', 'm')];
    const { faultCurrent_A, faultPeak_A, path_ohm } = solve([supply({ faultCurrent_A: 9000 }), drive('d'), motor('m')], cables, {
      zone: 1,
    }).at('m');
    expect([faultCurrent_A, faultPeak_A]).toEqual([null, null]);
    near(path_ohm?.re, R2);
  });
});

describe('a transformer', () => {
  // 0.05 × 480² / 1 MVA = 11.52 mΩ.
  const full = { primaryVoltage_V: 12_470, secondaryVoltage_V: 480, impedance_pct: 5, ratedPower_VA: 1e6, xOverR: 7 };
  const size = (0.05 * 480 ** 2) / 1e6;
  const at = (more: object = {}, asked: Asked = {}) =>
    solve(
      [supply({ voltage_V: 12_470, faultCurrent_A: 12_000, xOverR: 10 }), barePart('transformer', 't', { ...full, ...more }), drive('d')],
      [link('1', 's', 't:line'), link('2', 't:load', 'd:line')],
      { available: all(12_470), ...asked },
    ).at('t');
  it('has its impedance on its secondary, at X/R 5 where nothing is said, which is listed', () => {
    const { resistance_ohm, reactance_ohm, nominal_V, gain, says, assumptions } = at();
    near(resistance_ohm, size / Math.hypot(1, 7));
    near(reactance_ohm, (7 * size) / Math.hypot(1, 7));
    near(gain, 480 / 12_470);
    expect([nominal_V, says, assumptions]).toEqual([480, ['Z = 5 % × 480² / 1000 kVA = 11.52 mΩ, X/R 7'], []]);
    const usual = at({ xOverR: undefined });
    near(usual.resistance_ohm, size / Math.hypot(1, 5));
    expect(usual.assumptions).toEqual([{ what: 'X/R of t', value: '5', source: 'common practice, from memory' }]);
  });
  it('makes a voltage behind it, and none ahead of it', () => {
    const ahead = solve(
      [supply({ voltage_V: 12_470 }), barePart('transformer', 't', full), drive('d')],
      [line('f', 's', 't:line'), link('2', 't:load', 'd:line')],
      { available: all(12_470) },
    );
    expect([ahead.at('f').nominal_V, ahead.at('2').nominal_V, ahead.at('f').gain]).toEqual([12_470, 480, 1]);
  });
  it('adds itself to what lies ahead, seen through its turns', () => {
    const ahead = (12_470 / ROOT3 / 12_000) * (480 / 12_470) ** 2;
    const { path_ohm, coldPath_ohm } = at();
    near(path_ohm?.re, ahead / Math.hypot(1, 10) + size / Math.hypot(1, 7));
    near(coldPath_ohm?.im, (10 * ahead) / Math.hypot(1, 10) + (7 * size) / Math.hypot(1, 7));
  });
  it('by IEC is corrected for faults alone, KT = 0.95 × 1.1 / (1 + 0.6 xT), xT = 0.05 × 7 / √50', () => {
    const kt = (0.95 * 1.1) / (1 + 0.6 * 0.05 * (7 / Math.sqrt(50)));
    const ahead = ((1.1 * 12_470) / ROOT3 / 12_000) * (480 / 12_470) ** 2;
    const { reactance_ohm, coldPath_ohm } = at({}, { options: { basis: 'iec' } });
    near(reactance_ohm, (7 * size) / Math.sqrt(50));
    near(coldPath_ohm?.re, ahead / Math.sqrt(101) + (kt * size) / Math.sqrt(50));
  });
  it('on a tap of 2.5 % gives so much less', () => {
    near(at({ tap_pct: 2.5 }).gain, 480 / 12_470 / 1.025);
    const light = solve(
      [supply({ voltage_V: 12_470 }), barePart('transformer', 't', { ...full, tap_pct: 2.5 })],
      [link('1', 's', 't:line')],
      { available: all(12_470) },
    ).at('t');
    near(light.voltage_V, 480 / 1.025);
    expect(light.drop_V ?? 1).toBeCloseTo(0, 9);
  });
  it.each(['primaryVoltage_V', 'secondaryVoltage_V', 'impedance_pct', 'ratedPower_VA'])(
    'without its %s loses nobody knows what',
    (path) => {
      const { resistance_ohm, voltage_V, drop_V, path_ohm, coldPath_ohm, faultCurrent_A, nominal_V } = at({ [path]: undefined });
      expect([resistance_ohm, voltage_V, drop_V, path_ohm, coldPath_ohm, faultCurrent_A]).toEqual([null, null, null, null, null, null]);
      expect(nominal_V).toBe(path === 'secondaryVoltage_V' ? null : 480);
    },
  );
});

describe('reactor and filter', () => {
  const at = (part: Element, more: object = {}, asked: Asked = {}) =>
    solve([supply(), part, drive('d', more)], [link('1', 's', 'x:line'), link('2', 'x:load', 'd:line')], asked).at('x');
  const reactor = (more: object = {}) => barePart('reactor', 'x', { impedance_pct: 3, ratedVoltage_V: 600, ratedCurrent_A: 50, ...more });
  const filter = (more: object = {}) =>
    barePart('filter', 'x', { role: 'sine', drop_pct: 4, ratedVoltage_V: 600, ratedCurrent_A: 50, ...more });

  it('a reactor has so many per cent of its own base', () => {
    const { resistance_ohm, reactance_ohm, assumptions, path_ohm, coldPath_ohm, says } = at(reactor({ resistance_ohm: 0.01 }));
    near(reactance_ohm, (0.03 * 600) / ROOT3 / 50);
    expect([resistance_ohm, assumptions, path_ohm, says]).toEqual([0.01, [], coldPath_ohm, []]);
    expect(at(reactor()).resistance_ohm).toBe(0);
  });
  it('else of the voltage of its place and the current of what it serves, which is listed', () => {
    const placed = at(reactor({ ratedVoltage_V: undefined }));
    near(placed.reactance_ohm, (0.03 * 480) / ROOT3 / 50);
    expect(placed.assumptions).toEqual([{ what: 'rated voltage of x', value: '480 V', source: 'common practice: that of its place' }]);
    const { reactance_ohm, assumptions } = at(reactor({ ratedCurrent_A: undefined }), { inputCurrent_A: 80.4 });
    near(reactance_ohm, (0.03 * 600) / ROOT3 / 80.4);
    expect(assumptions).toEqual([{ what: 'rated current of x', value: '80 A', source: 'common practice: that of the drive it serves' }]);
  });
  it('what is assumed of it is assumed of all that is behind it too', () => {
    const parts = [supply({ faultCurrent_A: 10_000 }), reactor({ ratedVoltage_V: undefined }), drive('d')];
    const { at: told } = solve(parts, [link('1', 's', 'x:line'), link('2', 'x:load', 'd:line')]);
    const what = (node: string) => told(node).assumptions.map((each) => each.what);
    expect([what('s'), what('x'), what('d')]).toEqual([
      ['X/R of s'],
      ['X/R of s', 'rated voltage of x'],
      ['X/R of s', 'rated voltage of x'],
    ]);
  });
  it('of no known per cent, or no base at all, is not known', () => {
    const silent = { ratedVoltage_V: undefined };
    for (const found of [
      at(reactor({ impedance_pct: undefined })),
      at(reactor({ ratedCurrent_A: undefined }), { inputCurrent_A: undefined }),
      at(reactor(silent), {}, { available: all(null) }),
      at(filter({ ratedCurrent_A: undefined }), { inputCurrent_A: undefined }),
      at(filter(silent), {}, { available: all(null) }),
      at(filter({ role: undefined, drop_pct: undefined })),
    ])
      expect([found.reactance_ohm, found.resistance_ohm, found.coldPath_ohm]).toEqual([null, null, null]);
  });
  it('a filter loses what its maker says, at power factor 0.85', () => {
    const { resistance_ohm, reactance_ohm, assumptions, coldPath_ohm } = at(filter());
    const size = (0.04 * 600) / ROOT3 / 50;
    near(resistance_ohm, 0.85 * size);
    near(Math.hypot(resistance_ohm ?? 0, reactance_ohm ?? 0), size);
    near(coldPath_ohm?.re, 0.85 * size);
    expect(assumptions).toEqual([]);
    const placed = at(filter({ ratedVoltage_V: undefined, ratedCurrent_A: undefined }));
    near(placed.resistance_ohm, (0.85 * 0.04 * 480) / ROOT3 / 100);
    expect(placed.assumptions).toEqual([
      { what: 'rated voltage of x', value: '480 V', source: 'common practice: that of its place' },
      { what: 'rated current of x', value: '100 A', source: 'common practice: that of the drive it serves' },
    ]);
    // A terminator hangs on no base.
    expect(at(filter({ role: 'terminator', ratedVoltage_V: undefined, ratedCurrent_A: undefined })).assumptions).toEqual([]);
  });
  it.each([
    ['emc-input', 0.5],
    ['dvdt', 1.5],
    ['sine', 9],
  ] as const)('a filter of role %s, of which nothing is said, the most that is usual: %d %', (role, usual) => {
    const { resistance_ohm, assumptions } = at(filter({ role, drop_pct: undefined }));
    near(resistance_ohm, (0.85 * (usual / 100) * 600) / ROOT3 / 50);
    expect(assumptions).toEqual([
      { what: 'drop in x', value: `${usual} %`, source: 'common practice, high end; one maker states up to 9 % for a sine filter' },
    ]);
  });
  it('a terminator, whatever it says, loses nothing', () => {
    const { resistance_ohm, reactance_ohm, voltage_V } = at(filter({ role: 'terminator' }));
    expect([resistance_ohm, reactance_ohm, voltage_V]).toEqual([0, 0, 480]);
  });
});

describe('behind a drive', () => {
  const cables = [link('l', 's', 'd:line'), line('c', 'd:load', 'm'), line('e', 'd:load', 'n', { length_m: KFT / 2 })];
  const behind = (more: object = {}, asked: Asked = {}, own: object = {}) =>
    solve([supply(), drive('d', own), motor('m', { ratedCurrent_A: 40, ...more }), motor('n', { ratedCurrent_A: 20 })], cables, {
      zone: 1,
      ...asked,
    });
  it('a motor draws its rated current while it has its rated voltage: the lead loses Z I', () => {
    // Unity power factor: E² = (V + R I)² + (X I)², line to neutral.
    const lead = (amperes: number, share: number) =>
      ROOT3 * (Math.sqrt((600 / ROOT3) ** 2 - (share * X2 * amperes) ** 2) - share * R2 * amperes);
    const { at } = behind({}, { available: all(600) });
    near(at('m').voltage_V, lead(40, 1));
    near(at('m').drop_V, 600 - lead(40, 1));
    near(at('m').current_A, 40);
    near(at('n').voltage_V, lead(20, 0.5));
    near(at('d').voltage_V, 600);
    // In phase but for what the two lengths lose.
    near(at('d').current_A, 60, 1e-3);
  });
  it('where nobody knows what it is given it makes what its motors want, the most of them', () => {
    const { at } = behind({ ratedVoltage_V: 460 }, { available: all(null) });
    near(at('d').voltage_V, 480);
    expect([at('m').nominal_V, at('d').nominal_V]).toEqual([480, 480]);
    // Seen through a transformer: 2300 V behind 1 : 5.
    const up = barePart('transformer', 't', { primaryVoltage_V: 480, secondaryVoltage_V: 2400, impedance_pct: 5, ratedPower_VA: 75_000 });
    const elements = [supply(), drive('d'), up, motor('m', { ratedVoltage_V: 2300 })];
    const found = solve(elements, [link('l', 's', 'd:line'), link('1', 'd:load', 't:line'), link('2', 't:load', 'm')], {
      zone: 1,
      available: all(null),
    });
    near(found.at('d').nominal_V, 460);
    expect(found.at('m').nominal_V).toBe(2400);
  });
  it('nothing wanted, nothing known; and a supply makes nothing of what hangs on it', () => {
    const { at } = behind({ ratedVoltage_V: undefined }, { available: all(null) });
    near(at('d').voltage_V, 480);
    const none = solve([supply(), drive('d'), motor('m', { ratedVoltage_V: undefined })], cables.slice(0, 2), {
      zone: 1,
      available: all(null),
    }).at('d');
    expect([none.voltage_V, none.nominal_V]).toEqual([null, null]);
    const direct = solve([supply(), motor('m')], [link('l', 's', 'm')], { available: all(null) }).at('m');
    expect([direct.voltage_V, direct.nominal_V]).toEqual([null, null]);
  });
  it('a motor of which something is missing leaves open what all carry that feed it, and no other', () => {
    for (const path of ['ratedCurrent_A', 'ratedVoltage_V']) {
      const { at } = behind({ [path]: undefined }, { available: all(600) });
      expect([at('m').current_A, at('m').voltage_V, at('d').current_A]).toEqual([null, null, null]);
      near(at('n').current_A, 20);
    }
    const elements = [supply(), drive('d'), motor('m', { ratedCurrent_A: 40 }), motor('n', { ratedCurrent_A: undefined })];
    const { at } = solve(elements, cables, { zone: 1, available: all(600) });
    expect([at('n').current_A, at('d').current_A]).toEqual([null, null]);
    near(at('m').current_A, 40);
  });
});

describe('the operating cases', () => {
  const available: Available = { rated: 480, 'low line': 456, 'high line': 504, overload: 480 };
  it('each has its own voltage; overload is that of the drive, of its rated input', () => {
    const of = (more: object) => solve([supply(), drive('d', more)], [line('f', 's', 'd:line')], { available }).at('d');
    const { cases, voltage_V } = of({ overload_pct: 150 });
    near(cases.rated.voltage_V, voltage_V ?? 0);
    near(cases['low line'].voltage_V, receiving(456, [R2, X2], PHASE * 100, 1));
    near(cases['high line'].voltage_V, receiving(504, [R2, X2], PHASE * 100, 1));
    near(cases.overload.voltage_V, receiving(480, [R2, X2], PHASE * 150, 1));
    near(cases['low line'].drop_V, 456 - receiving(456, [R2, X2], PHASE * 100, 1));
    for (const overload_pct of [undefined, 60, 100]) expect(of({ overload_pct }).cases.overload).toEqual(of({}).cases.rated);
  });
  it('behind a drive it is the overload of that drive; of a motor across the line there is none', () => {
    const cables = [link('l', 's', 'd:line'), line('c', 'd:load', 'm')];
    const { cases } = solve([supply(), drive('d', { overload_pct: 120 }), motor('m')], cables, { zone: 1, available: all(600) }).at('m');
    near(cases.rated.current_A, 100);
    near(cases.overload.current_A, 120);
    const direct = solve([supply(), drive('d', { overload_pct: 200 }), motor('m')], [link('l', 's', 'd:line'), line('c', 's', 'm')]).at(
      'm',
    );
    near(direct.cases.overload.current_A, direct.current_A ?? 0);
  });
  it('of two drives one may have an overload', () => {
    const elements = [supply(), barePart('bus', 'b'), drive('d', { overload_pct: 150 }), drive('e', { inputCurrent_A: 20 })];
    const { at } = solve(elements, [link('f', 's', 'b'), link('g', 'b', 'd:line'), link('h', 'b', 'e:line')], { available });
    near(at('b').cases.overload.current_A, 170);
  });
  it('where its voltage is not known overload takes the rated one', () => {
    const found = solve([supply(), drive('d', { overload_pct: 150 })], [link('f', 's', 'd:line')], {
      available: { ...available, overload: null, 'low line': null },
    }).at('d');
    near(found.cases.overload.voltage_V, 480);
    near(found.cases.overload.current_A, 150);
    expect(found.cases['low line']).toEqual({ voltage_V: null, current_A: null, drop_V: null });
  });
});

describe('more than a feeder can carry', () => {
  const of = (more: object, cable: Partial<Cable> = {}) => {
    const { at, converged } = solve([supply(), drive('d', { inputCurrent_A: 600, ...more })], [line('f', 's', 'd:line', cable)]);
    return { ...at('d'), converged };
  };
  it('collapses, and no number is told', () => {
    const { collapsed, converged, voltage_V, current_A, drop_V } = of({});
    expect([collapsed, converged, voltage_V, current_A, drop_V]).toEqual([true, false, null, null, null]);
    expect([of({ inputCurrent_A: 100 }).collapsed, of({ inputCurrent_A: 100 }).converged]).toEqual([false, true]);
  });
  it('is no verdict while another load or impedance is not known', () => {
    const elements = [supply(), barePart('bus', 'b'), drive('d', { inputCurrent_A: 600 }), drive('e', { inputCurrent_A: undefined })];
    const cables = [line('f', 's', 'b'), link('1', 'b', 'd:line'), link('2', 'b', 'e:line')];
    expect(solve(elements, cables).at('d').collapsed).toBe(false);
    const known = [...elements.slice(0, 3), drive('e', { inputCurrent_A: 1 })];
    expect(solve(known, cables).at('d').collapsed).toBe(true);
    expect(solve(known, [...cables.slice(0, 2), line('2', 'b', 'e:line', { conductor: {} })]).at('d').collapsed).toBe(false);
  });
  it('without any voltage there is nothing to collapse', () => {
    const { at, converged } = solve([supply(), drive('d', { inputCurrent_A: 600 })], [line('f', 's', 'd:line')], { available: all(null) });
    expect([at('d').collapsed, converged]).toEqual([false, true]);
  });
});

describe('loads of no known power factor', () => {
  const elements = (second: object = {}) => [
    supply(),
    barePart('bus', 'b'),
    drive('d', { inputCurrent_A: 30, inputPowerFactor: undefined }),
    drive('e', { inputCurrent_A: 20, ...second }),
  ];
  const cables = [line('f', 's', 'b'), line('g', 'b', 'd:line'), line('h', 'b', 'e:line')];
  it('take the angle at which a length of cable loses most: |Z| times the currents added up', () => {
    const { at } = solve(elements(), cables);
    const [own, other] = [at('g').current_A ?? 0, at('h').current_A ?? 0];
    const z = Math.hypot(R2, X2);
    near(at('g').drop_V, ROOT3 * z * own);
    near(at('f').drop_V, ROOT3 * z * (own + other));
    // Its neighbour’s angle is known.
    expect((at('h').drop_V ?? 0) < ROOT3 * z * other * 0.99).toBe(true);
    near(at('h').drop_V, (at('b').voltage_V ?? 0) - (at('e').voltage_V ?? 0));
  });
  it('and a length that feeds none of them loses what its two ends say', () => {
    const [source, first, ...drives] = elements();
    const parts = [source, first, barePart('bus', 'x'), ...drives].filter((part) => part !== undefined);
    const { at } = solve(parts, [...cables.slice(0, 2), line('k', 'b', 'x'), link('h', 'x', 'e:line')]);
    near(at('k').drop_V, (at('b').voltage_V ?? 0) - (at('x').voltage_V ?? 0));
  });
  it('through a transformer the currents of its own side count', () => {
    const step = barePart('transformer', 't', { primaryVoltage_V: 960, secondaryVoltage_V: 480, impedance_pct: 1e-6, ratedPower_VA: 1e6 });
    const { at } = solve(
      [supply({ voltage_V: 960 }), step, drive('d', { inputPowerFactor: undefined, inputCurrent_A: 60 })],
      [line('f', 's', 't:line'), link('1', 't:load', 'd:line')],
      { available: all(960) },
    );
    near(at('f').drop_V, (ROOT3 * Math.hypot(R2, X2) * (at('1').current_A ?? 0)) / 2);
  });
});

describe('resistance by load', () => {
  const laid = {
    insulation: { type: 'XHHW-2' },
    installation: { raceway: 'steel-conduit', ambient_C: 30, loadedConductors: 3, moisture: 'dry' },
  } as const;
  const of = (cable: Partial<Cable>, conductorTemperature: 'rated' | 'by-load', more: object = {}) =>
    solve([supply(), drive('d', more)], [line('f', 's', 'd:line', cable)], { options: { conductorTemperature } }).at('d');
  it('is that at T = 30 + 60 (50 / 130)² °C, where the project asks and all is known', () => {
    const warm_C = 30 + 60 * (50 / 130) ** 2;
    near(of(laid, 'by-load', { inputCurrent_A: 50 }).resistance_ohm, R2 * (1 + 0.00323 * (warm_C - 75)));
    near(of(laid, 'rated', { inputCurrent_A: 50 }).resistance_ohm, R2);
    near(of({}, 'by-load', { inputCurrent_A: 50 }).resistance_ohm, R2);
    near(of(laid, 'by-load', { inputCurrent_A: undefined }).resistance_ohm, R2);
    expect([of(laid, 'by-load').says.length, of(laid, 'rated').says.length, of({}, 'by-load').says.length]).toEqual([3, 2, 2]);
  });
});
