import { describe, expect, it } from 'vitest';
import { setValue } from '../../../editor/store/edits.ts';
import { type LineUp, review } from '../../../engine/index.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { horsepower, inSteel, LineUpBuilder, shielded } from '../lineUpBuilder.ts';

/** Transformers and their taps, step-up zones behind a drive, operating cases: each against the figure worked by hand beside it. */

const marks = { box: 'metal', terminalTemperature_C: 75, terminalMetal: 'copper-aluminium' } as const;
const motor = { ratedPower_W: horsepower(60), ratedVoltage_V: 460, ratedFrequency_Hz: 60, ratedCurrent_A: 75, powerFactor: 0.86, ...marks };
const drive = {
  tag: 'D',
  ratedVoltage_V: 480,
  inputCurrent_A: 72,
  outputCurrent_A: 77,
  inputPowerFactor: 0.95,
  overload_pct: 150,
  ...marks,
};
const site = (): LineUp =>
  new LineUpBuilder({ title: 'one' })
    .part('supply', { tag: 'S', voltage_V: 12_470, frequency_Hz: 60, faultCurrent_A: 12_000, xOverR: 10, earthing: 'solid-wye' })
    .part('transformer', {
      tag: 'T',
      ratedPower_VA: 1e6,
      primaryVoltage_V: 12_470,
      secondaryVoltage_V: 480,
      impedance_pct: 5.75,
      xOverR: 6,
      secondaryEarthing: 'solid-wye',
    })
    .cable(inSteel('3 AWG', 140, { tag: 'F' }))
    .part('drive', drive)
    .cable(shielded('2 AWG', 210, { tag: 'W' }))
    .part('motor', { tag: 'M', ...motor })
    .build();
const idOf = (lineUp: LineUp, tag: string) => [...lineUp.elements, ...lineUp.cables].find((each) => each.tag === tag)?.id ?? '';
const volts = (lineUp: LineUp, tag: string) => review(lineUp).elements.find((each) => each.tag === tag)?.voltage_V ?? Number.NaN;
const set = (lineUp: LineUp, tag: string, path: string, value: unknown) => setValue(lineUp, idOf(lineUp, tag), path, value);

/** A drive, a sine filter, a transformer up to 2400 V, a long lead. */
const up = new LineUpBuilder({ title: 'up' })
  .part('supply', { tag: 'S', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 20_000, earthing: 'solid-wye' })
  .part('drive', { ...drive, inputCurrent_A: 72 })
  .part('filter', { tag: 'Z', role: 'sine', drop_pct: 4, ratedCurrent_A: 77, ratedVoltage_V: 480 })
  .part('transformer', { tag: 'TU', ratedPower_VA: 75_000, primaryVoltage_V: 480, secondaryVoltage_V: 2400, impedance_pct: 5, xOverR: 4 })
  .cable(shielded('2 AWG', 2000, { tag: 'W' }))
  .part('motor', { tag: 'M', ...motor, ratedVoltage_V: 2300, ratedCurrent_A: 14.5 })
  .build();

describe('transformers', () => {
  it('a tap of +5 % on the primary lowers the secondary by 1/1.05', () => {
    const light = set(site(), 'D', 'inputCurrent_A', 1e-6);
    expectClose(volts(light, 'D'), 480, { relative: 1e-6 }, 'no load');
    expectClose(volts(set(light, 'T', 'tap_pct', 5), 'D'), 480 / 1.05, { relative: 1e-6 }, 'no load, by hand');
  });
  it('the fault current behind it is that of its impedance and the utility’s', () => {
    // Z of the utility on 480 V: 12 470 / (√3 × 12 000) × (480 / 12 470)² = 0.88893 mΩ at X/R 10; transformer 0.0575 × 480² / 1e6 = 13.248 mΩ at X/R 6.
    const [zu, zt] = [(12_470 / Math.sqrt(3) / 12_000) * (480 / 12_470) ** 2, (0.0575 * 480 ** 2) / 1e6];
    const r = zu / Math.hypot(1, 10) + zt / Math.hypot(1, 6);
    const x = (10 * zu) / Math.hypot(1, 10) + (6 * zt) / Math.hypot(1, 6);
    const atDrive = set(site(), 'F', 'length_m', 0);
    expectClose(
      review(atDrive).elements.find((each) => each.tag === 'D')?.faultCurrent_A ?? 0,
      480 / Math.sqrt(3) / Math.hypot(r, x),
      { relative: 1e-9 },
      'by hand',
    );
  });
  it('motors that run without a drive feed a fault only where the project says so', () => {
    const direct = new LineUpBuilder({ title: 'direct' })
      .part('supply', { tag: 'S', voltage_V: 480, faultCurrent_A: 20_000, xOverR: 8 })
      .part('bus', { tag: 'B' })
      .part('motor', { tag: 'M', ...motor })
      .build();
    const at = (lineUp: LineUp) => review(lineUp).elements.find((each) => each.tag === 'B')?.faultCurrent_A ?? 0;
    expectClose(at(direct), 20_000, { relative: 1e-9 }, 'the utility alone');
    expectClose(
      at({ ...direct, project: { ...direct.project, motorContribution: true } }),
      20_000 + 4 * 75,
      { relative: 1e-9 },
      'IEEE 141, 4 × rated',
    );
  });
});

describe('a step-up transformer behind a drive', () => {
  it('the motor is judged on the secondary voltage, and the drop is what is lost, not the step', () => {
    const { findings, runs } = review(up);
    expect(findings.find((each) => each.check === 'voltage-match' && each.subject.tag === 'M')?.limit).toBe(2400);
    const drop = findings.find((each) => each.check === 'lead-drop' && each.verdict !== 'not-applicable');
    expect(drop?.value ?? -1).toBeGreaterThan(0);
    expect(drop?.value ?? 100).toBeLessThan(15);
    expect(runs[0]?.terminalVoltage_pct ?? 0).toBeGreaterThan(90);
  });
  it('the cable behind it has the class of the secondary', () => {
    const of = (voltage_V: number | undefined) =>
      review(set(up, 'W', 'insulation.voltage_V', voltage_V)).findings.find(
        (each) => each.check === 'insulation-voltage' && each.subject.tag === 'W',
      );
    expect([of(undefined), of(2000), of(5000)].map((found) => [found?.verdict, found?.limit])).toEqual([
      ['open', null],
      ['fail', 2400],
      ['pass', 2400],
    ]);
  });
});

describe('filter and transformer behind a drive', () => {
  const of = (lineUp: LineUp, check: string) =>
    review(lineUp).findings.find((each) => each.check === check && each.verdict !== 'not-applicable')?.verdict;
  const windowed = (least: number | undefined, most: number | undefined, carrier: number | undefined) =>
    set(set(set(up, 'Z', 'carrierLeast_Hz', least), 'Z', 'carrierMost_Hz', most), 'D', 'carrier_Hz', carrier);
  it.each([
    [2000, 8000, 4000, 'pass'],
    [2000, 8000, 1500, 'fail'],
    [2000, 8000, 12_000, 'fail'],
    [2000, undefined, 1500, 'fail'],
    [2000, undefined, 4000, 'open'],
    [2000, 8000, undefined, 'open'],
  ] as const)('a filter for %d to %d Hz at %d Hz: %s', (least, most, carrier, verdict) => {
    expect(of(windowed(least, most, carrier), 'carrier-window')).toBe(verdict);
  });
  it('a transformer wants a sine filter ahead of it and its maker’s word', () => {
    expect(of(up, 'output-transformer')).toBe('open');
    expect(of(set(up, 'TU', 'driveDuty', true), 'output-transformer')).toBe('pass');
    expect(of(set(set(up, 'TU', 'driveDuty', true), 'Z', 'role', 'dvdt'), 'output-transformer')).toBe('fail');
  });
});

describe('operating cases', () => {
  it('low line lowers the drive’s voltage, and the verdict says so', () => {
    const asked = set(set(site(), 'S', 'voltageLeast_pct', 90), 'D', 'manual.inputVoltageLeast_pct', 95);
    const found = review(asked).findings.find((each) => each.check === 'feeder-drop');
    expect([found?.verdict, found?.case, found?.authority]).toEqual(['fail', 'low line', 'manual']);
    expect(found?.value ?? 100).toBeLessThan(90);
  });
  it('the voltage at the motor is given for low line and overload too', () => {
    const found = review(site()).findings.find((each) => each.check === 'lead-drop');
    expect(found?.text).toMatch(/Other cases: low line \d+\.\d %, overload \d+\.\d %/);
  });
  it('by load, a conductor that carries little is cooler than the table and loses less', () => {
    const [rated, byLoad] = [undefined, 'by-load' as const].map((conductorTemperature) => {
      const each = set(site(), 'D', 'inputCurrent_A', 20);
      const project = { ...each.project, ...(conductorTemperature ? { conductorTemperature } : {}) };
      return review({ ...each, project }).cables.find((cable) => cable.tag === 'F')?.resistance_ohm ?? 0;
    });
    expect(byLoad ?? 0).toBeLessThan(rated ?? 0);
    // T = 30 + (90 − 30) (20 / 115)² = 31.8 °C for 3 AWG copper at 115 A, 90 °C column: R × [1 + 0.00323 (31.8 − 75)].
    const temperature = 30 + 60 * (20 / 115) ** 2;
    expectClose(byLoad ?? 0, (rated ?? 0) * (1 + 0.00323 * (temperature - 75)), { relative: 1e-3 }, 'by hand, dry place');
  });
});

describe('a power factor that is not given', () => {
  // The source is an inductance, the feeder nearly a resistance: the angle that lowers the drive’s voltage most is not the one the feeder loses most at.
  it.each([1000, 3000, 20_000])('lets a feeder behind %i A lose no less than at any power factor', (faultCurrent_A) => {
    const weak = set(
      set(
        new LineUpBuilder({ title: 'weak' })
          .part('supply', { tag: 'S', voltage_V: 480, frequency_Hz: 60, faultCurrent_A, xOverR: 10, earthing: 'solid-wye' })
          .cable(inSteel('8 AWG', 300, { tag: 'F' }))
          .part('drive', { ...drive, inputCurrent_A: 30 })
          .cable(shielded('8 AWG', 50, { tag: 'W' }))
          .part('motor', { tag: 'M', ...motor, ratedCurrent_A: 30 })
          .build(),
        'D',
        'overload_pct',
        undefined,
      ),
      'D',
      'inputPowerFactor',
      undefined,
    );
    const lost = (lineUp: LineUp) => review(lineUp).findings.find((each) => each.check === 'feeder-drop')?.value ?? Number.NaN;
    const without = lost(weak);
    for (const powerFactor of [0.5, 0.7, 0.9, 0.95, 0.98, 1])
      expect([powerFactor, lost(set(weak, 'D', 'inputPowerFactor', powerFactor)) <= without]).toEqual([powerFactor, true]);
  });
});

describe('lengths', () => {
  it('a range is judged at its long end, and says what the short end gives and where the limit turns', () => {
    const range = set(set(site(), 'F', 'length_m', 30), 'F', 'lengthMost_m', 300);
    const found = review(range).findings.find((each) => each.check === 'feeder-drop');
    const long = review(set(site(), 'F', 'length_m', 300)).findings.find((each) => each.check === 'feeder-drop');
    expect([found?.verdict, found?.value]).toEqual([long?.verdict, long?.value]);
    // Within the curve of a constant-power load the drop grows with the length: 3 % is reached at 300 × 3 / drop.
    // The site is in feet, and feet are said whole from a hundred on.
    const turn = 0.3048 * Number(/up to about ([\d.]+)\sft/.exec(found?.text ?? '')?.[1]);
    expectClose(turn, (300 * 3) / (found?.value ?? 1), { absolute: 0.16 }, 'by hand');
    const there = review(set(site(), 'F', 'length_m', turn)).findings.find((each) => each.check === 'feeder-drop');
    expectClose(there?.value ?? 0, 3, { relative: 0.05 }, 'solved at that length');
  });
  it('a fault current is that of the short end of a range, where it is greatest', () => {
    const of = (lineUp: LineUp) => {
      const found = review(lineUp).findings.find((each) => each.check === 'fault-rating' && each.subject.tag === 'D');
      return [found?.verdict, found?.value];
    };
    const range = set(set(site(), 'F', 'length_m', 30), 'F', 'lengthMost_m', 300);
    expect(of(range)).toEqual(of(set(site(), 'F', 'length_m', 30)));
    expect(of(range)).not.toEqual(of(set(site(), 'F', 'length_m', 300)));
  });
  it('a feeder that the project counts before a drive counts with the short end of a range', () => {
    const of = (lineUp: LineUp) =>
      review({ ...lineUp, project: { ...lineUp.project, creditFeeder: true } }).findings.find((each) => each.check === 'supply-stiffness')
        ?.value;
    const range = set(set(site(), 'F', 'length_m', 30), 'F', 'lengthMost_m', 300);
    expect(of(range)).toBe(of(set(site(), 'F', 'length_m', 30)));
    expect(of(range)).toBeLessThan(of(set(site(), 'F', 'length_m', 300)) ?? 0);
  });
  it('and with nothing of what nobody said: any number of sets, and no metal about it', () => {
    const of = (lineUp: LineUp) =>
      review({ ...lineUp, project: { ...lineUp.project, creditFeeder: true } }).findings.find((each) => each.check === 'supply-stiffness')
        ?.value ?? 0;
    const long = set(site(), 'F', 'length_m', 300);
    // What is left of the path is what lies ahead of the feeder.
    expectClose(
      of(set(long, 'F', 'conductor.sets', undefined)),
      of(set(site(), 'F', 'length_m', 0)),
      { relative: 1e-9 },
      'any number of sets',
    );
    const inPlastic = of(set(long, 'F', 'installation.raceway', 'plastic-conduit'));
    expect(inPlastic).toBeLessThan(of(set(long, 'F', 'installation.raceway', 'steel-conduit')));
    expect(of(set(long, 'F', 'installation.raceway', undefined))).toBe(inPlastic);
  });
  it('no length is a connection: not applicable, with the reason, never a division by zero', () => {
    const none = review(set(site(), 'F', 'length_m', 0)).findings.filter(
      (each) => each.subject.tag === 'F' && ['feeder-ampacity', 'feeder-drop'].includes(each.check),
    );
    expect(none.map((each) => [each.verdict, each.text])).toEqual([
      ['not-applicable', 'No length: a connection inside one enclosure.'],
      ['not-applicable', 'No length: a connection inside one enclosure.'],
    ]);
  });
});
