import { describe, expect, it } from 'vitest';
import { type SolveOptions, type StepResult, solveZone, type ZoneResult } from '../../../engine/checks/solveZone.ts';
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
const R2 = 0.2;
const line = (id: string, from: string, to: string, more: Partial<Cable> = {}): Cable => ({
  ...loose(id, from, to),
  conductor: { size: '2 AWG', metal: 'copper' },
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
    expect(assumptions.map(({ value }) => value)).toEqual(['100 A']);
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
