import { describe, expect, it } from 'vitest';
import { setValue } from '../../../editor/store/edits.ts';
import { type LineUp, review } from '../../../engine/index.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { horsepower, LineUpBuilder, shielded } from '../lineUpBuilder.ts';

/** A reactor at the drive: the peak at the motor is solved, shown as a band, and never a pass while a value is missing. */

const base = (): LineUpBuilder =>
  new LineUpBuilder({ title: 'reactor' })
    .part('supply', { tag: 'S', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 20_000, earthing: 'solid-wye' })
    .part('drive', { tag: 'D', ratedVoltage_V: 480, inputCurrent_A: 14, outputCurrent_A: 14, riseTime_s: 0.1e-6, frontEnd: 'diode' });
const motor = {
  tag: 'M',
  ratedPower_W: horsepower(10),
  ratedVoltage_V: 460,
  ratedFrequency_Hz: 60,
  ratedCurrent_A: 14,
  powerFactor: 0.85,
  insulation: 'mg1-part-30' as const,
};
const reactor = { tag: 'L', impedance_pct: 3, ratedVoltage_V: 460, ratedCurrent_A: 14 };
const lead = shielded('12 AWG', 328, { tag: 'W' });
const atDrive = base().part('reactor', reactor).cable(lead).part('motor', motor).build();
const bare = base().cable(lead).part('motor', motor).build();
const midway = base()
  .cable(shielded('12 AWG', 100, { tag: 'V' }))
  .part('reactor', reactor)
  .cable(lead)
  .part('motor', motor)
  .build();

const peak = (lineUp: LineUp) => review(lineUp).findings.find((each) => each.check === 'motor-peak-voltage');
const idOf = (lineUp: LineUp, tag: string) => [...lineUp.elements, ...lineUp.cables].find((each) => each.tag === tag)?.id ?? '';

describe('a reactor at the drive', () => {
  it('lowers the peak to the band that is known for one, 1.2 to 1.7 of the bus', () => {
    const bus = Math.SQRT2 * 480;
    expect((peak(atDrive)?.value ?? 0) / bus).toBeGreaterThan(1.2);
    expect((peak(atDrive)?.value ?? 9) / bus).toBeLessThan(1.75);
    expect(peak(bare)?.value ?? 0).toBeGreaterThan(peak(atDrive)?.value ?? 0);
    expect(review(atDrive).runs[0]?.peak_V).toBe(peak(atDrive)?.value);
  });
  it('agrees with the second-order formula for it, which is 6 % off at worst against full-line solutions', () => {
    const said = peak(atDrive)?.working.join(' ') ?? '';
    const coil = Number(/= ([\d.]+) mH/.exec(said)?.[1]) / 1000;
    const core = Number(/with (\d+) Ω across it/.exec(said)?.[1]);
    // L = 2 × 3 % × 460 / (√3 × 14) / 377: 3.02 mH for 10 hp, as in the published simulation.
    expectClose(coil, (2 * 0.03 * 460) / Math.sqrt(3) / 14 / (2 * Math.PI * 60), { relative: 1e-3 }, 'by hand');
    const [line, motor_ohm] = [61, 7600 / Math.sqrt(horsepower(10) / 1000)];
    const capacitance = (328 * 0.3048) / 190e6 / line;
    const ring = Math.sqrt(coil / capacitance);
    const zeta = (ring / 2) * (1 / core + 1 / motor_ohm);
    const formula = Math.SQRT2 * 480 * (1 + Math.exp((-Math.PI * zeta) / Math.sqrt(1 - zeta ** 2)));
    expectClose(peak(atDrive)?.value ?? 0, formula, { relative: 0.06 }, 'second-order formula');
  });
  it('slows the edge beyond 2 µs, so that Part 30 no longer asks for a slower one', () => {
    expect(peak(bare)?.verdict).toBe('fail');
    const site = setValue(atDrive, idOf(atDrive, 'M'), 'insulation', 'entered');
    const found = peak(setValue(site, idOf(site, 'M'), 'peakLimit_V', 2000));
    expect(found?.verdict).toBe('pass');
    expect(peak(atDrive)?.text).not.toMatch(/no faster than 2 µs/);
  });
  it('says that the band straddles the limit when it does', () => {
    const value = peak(atDrive)?.value ?? 0;
    const site = setValue(setValue(atDrive, idOf(atDrive, 'M'), 'insulation', 'entered'), idOf(atDrive, 'M'), 'peakLimit_V', value + 1);
    expect([peak(site)?.verdict, /straddles/.test(peak(site)?.text ?? '')]).toEqual(['caution', true]);
  });
  it.each(['impedance_pct', 'ratedVoltage_V', 'ratedCurrent_A'])('without its %s the verdict is open', (path) => {
    const found = peak(setValue(atDrive, idOf(atDrive, 'L'), path, undefined));
    expect([found?.verdict, found?.missing.map((each) => each.field)]).toEqual(['open', [path]]);
  });
  it('midway in the lead it is not judged without its maker’s figure', () => expect(peak(midway)?.verdict).toBe('open'));
});
