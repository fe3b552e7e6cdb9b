import { describe, expect, it } from 'vitest';
import { type Cable, type Element, load, review, save } from '../../../engine/index.ts';
import { type FiveNumbers, startFromFive } from '../../../engine/sizing/startFromFive.ts';
import { horsepower } from '../lineUpBuilder.ts';

/** The line-up of five numbers, each size worked by hand: NEC Tables 430.250, 310.16 (75 °C), 250.122, 240.6(A); IEC 60364-5-52 method E. */

const us = (more: Partial<FiveNumbers> = {}) =>
  startFromFive({ power_W: horsepower(40), voltage_V: 480, length_m: 60, place: 'damp', basis: 'us', ...more });
const iec = (more: Partial<FiveNumbers> = {}) =>
  startFromFive({ power_W: 30_000, voltage_V: 400, length_m: 60, place: 'dry', basis: 'iec', ...more });
type Made = ReturnType<typeof us>;
const part = <K extends Element['kind']>({ elements }: Made, kind: K): Extract<Element, { kind: K }> => {
  const found = elements.find((each) => each.kind === kind);
  if (!found) throw new Error(`no ${kind}`);
  return found as Extract<Element, { kind: K }>;
};
const cable = ({ cables }: Made, tag: string): Cable => {
  const found = cables.find((each) => each.tag === tag);
  if (!found) throw new Error(`no ${tag}`);
  return found;
};
const sizeOf = (lineUp: Made, tag = 'W-1') => {
  const { size, sets } = cable(lineUp, tag).conductor;
  return `${sets} × ${size}`;
};

describe('a line-up from five numbers', () => {
  it('opens as it was saved, hangs together, and fails nowhere', () => {
    for (const lineUp of [us(), iec(), us({ power_W: horsepower(500) }), us({ voltage_V: 208, power_W: horsepower(5), place: 'wet' })]) {
      const loaded = load(save(lineUp));
      if (!loaded.ok) throw new Error('refused');
      const { findings } = review(loaded.lineUp);
      expect(findings.filter(({ check }) => check === 'topology')).toEqual([]);
      expect(findings.filter(({ verdict }) => verdict === 'fail').map(({ id }) => id)).toEqual([]);
    }
  });

  it('is of one run: network, transformer, breaker, reactor and drive in one cabinet, motor', () => {
    const { elements, cables } = us();
    expect(elements.map(({ id, kind, tag }) => [id, kind, tag])).toEqual([
      ['e1', 'supply', 'S-1'],
      ['e6', 'transformer', 'T-1'],
      ['e2', 'disconnect', 'CB-1'],
      ['e3', 'reactor', 'L-1'],
      ['e4', 'drive', 'VFD-1'],
      ['e5', 'motor', 'M-1'],
    ]);
    expect(cables.map(({ id, tag, kind, from, to }) => [id, tag, kind, from.element, from.port, to.element, to.port])).toEqual([
      ['c5', 'c5', 'link', 'e1', 'load', 'e6', 'line'],
      ['c1', 'c1', 'link', 'e6', 'load', 'e2', 'line'],
      ['c2', 'F-1', 'cable', 'e2', 'load', 'e3', 'line'],
      ['c3', 'c3', 'link', 'e3', 'load', 'e4', 'line'],
      ['c4', 'W-1', 'cable', 'e4', 'load', 'e5', 'line'],
    ]);
    // A connection inside a cabinet is of no sets either.
    for (const link of us({ power_W: horsepower(300) }).cables.filter(({ kind }) => kind === 'link'))
      expect(link).toEqual({
        ...{ id: link.id, tag: link.id, kind: 'link', from: link.from, to: link.to },
        ...{ conductor: {}, insulation: {}, grounds: {}, auxiliary: [], installation: {} },
      });
  });
});

describe('its currents', () => {
  it.each<[string, Made, number, number, number]>([
    // 40 hp at 460 V: 52 A; 1.25 × 52 = 65 A.
    ['40 hp, 480 V', us(), 460, 52, 70],
    ['40 hp, 208 V', us({ voltage_V: 208 }), 200, 120, 150],
    ['40 hp, 240 V', us({ voltage_V: 240 }), 230, 104, 150],
    ['40 hp, 600 V', us({ voltage_V: 600 }), 575, 41, 60],
    // 30 kW: 55 A in the table; 1.25 × 55 = 68.75 A.
    ['30 kW, 400 V', iec(), 400, 55, 80],
    // 30,900 W are 3 % more; 30,000 / (√3 × 690 × 0.85 × 0.93) = 31.75.
    ['29.2 kW, 400 V', iec({ power_W: 29_200 }), 400, 55, 80],
    ['30 kW, 690 V', iec({ voltage_V: 690 }), 690, 31.8, 40],
    // No row within 3 %: 33,000 / (√3 × 400 × 0.7905) = 60.26.
    ['33 kW, 400 V', iec({ power_W: 33_000 }), 400, 60.3, 80],
    // 45 hp has no row: 33,556 / (√3 × 460 × 0.7905) = 53.28.
    ['45 hp, 480 V', us({ power_W: horsepower(45) }), 460, 53.3, 70],
  ])('%s', (_, lineUp, volts, amperes, trip_A) => {
    expect(part(lineUp, 'motor')).toMatchObject({ ratedVoltage_V: volts, ratedCurrent_A: amperes });
    expect(part(lineUp, 'drive')).toMatchObject({ inputCurrent_A: amperes, outputCurrent_A: amperes });
    expect(part(lineUp, 'reactor')).toMatchObject({ ratedCurrent_A: amperes, impedance_pct: 3 });
    expect(part(lineUp, 'disconnect')).toMatchObject({ tripCurrent_A: trip_A, ratedCurrent_A: trip_A });
  });

  it('have no breaker where none is made so large, and grounds of the size of the phases', () => {
    const huge = us({ power_W: 5e6 });
    expect('tripCurrent_A' in part(huge, 'disconnect')).toBe(false);
    expect(cable(huge, 'W-1').grounds.size).toBe('500 kcmil');
  });

  it('are those of a network of 500 MVA behind a substation of three times the motor', () => {
    // 500 MVA / (√3 × 12.47 kV) = 23,149.6 A; / (√3 × 10 kV) = 28,868 A.
    expect(part(us(), 'supply')).toMatchObject({ voltage_V: 12_470, frequency_Hz: 60, faultCurrent_A: 23_150, earthing: 'solid-wye' });
    expect(part(iec(), 'supply')).toMatchObject({ voltage_V: 10_000, frequency_Hz: 50, faultCurrent_A: 28_868, earthing: 'tn' });
    expect(part(us(), 'transformer')).toMatchObject({
      ratedPower_VA: 1e6,
      primaryVoltage_V: 12_470,
      secondaryVoltage_V: 480,
      impedance_pct: 5.75,
      secondaryEarthing: 'solid-wye',
    });
    expect(part(iec(), 'transformer')).toMatchObject({
      primaryVoltage_V: 10_000,
      secondaryVoltage_V: 400,
      impedance_pct: 6,
      secondaryEarthing: 'tn',
    });
    const power = (power_W: number) => part(iec({ power_W }), 'transformer').ratedPower_VA;
    expect([power(330_000), power(340_000), power(500_000), power(501_000)]).toEqual([1e6, 1.5e6, 1.5e6, 2e6]);
  });

  it('go with a power factor at the low end of its range', () => {
    const of = (lineUp: Made) => part(lineUp, 'motor').powerFactor;
    // 40 hp 0.80; 45 hp as 50; 3 % above 40 hp still 40; above the last row 0.85.
    expect([
      of(us()),
      of(us({ power_W: horsepower(45) })),
      of(us({ power_W: horsepower(41) })),
      of(us({ power_W: horsepower(600) })),
    ]).toEqual([0.8, 0.81, 0.8, 0.85]);
    expect([of(iec()), of(iec({ power_W: 33_000 })), of(iec({ power_W: 30_800 })), of(iec({ power_W: 400_000 }))]).toEqual([
      0.85, 0.86, 0.85, 0.85,
    ]);
  });
});

describe('its cables', () => {
  it.each<[string, Made, string]>([
    // 65 A: 6 AWG carries 65 at 75 °C.
    ['40 hp', us(), '1 × 6 AWG'],
    // 1.25 × 4.8 = 6 A: nothing below 14 AWG.
    ['3 hp', us({ power_W: horsepower(3) }), '1 × 14 AWG'],
    // 1.25 × 302 = 377.5: 500 kcmil carries 380.
    ['250 hp', us({ power_W: horsepower(250) }), '1 × 500 kcmil'],
    // 1.25 × 361 = 451.25: half of it 225.6, 4/0 AWG carries 230.
    ['300 hp', us({ power_W: horsepower(300) }), '2 × 4/0 AWG'],
    // 1.25 × 590 = 737.5: half 368.75.
    ['500 hp', us({ power_W: horsepower(500) }), '2 × 500 kcmil'],
    // 55 A: 10 mm² of XLPE carries 75, 6 mm² 54 (method E, three loaded).
    ['30 kW', iec(), '1 × 10 mm2'],
    // 350 A: 120 mm² carries 346, 150 mm² 399.
    ['200 kW', iec({ power_W: 200_000 }), '1 × 150 mm2'],
    // 610 A: 240 mm² carries 538; half 305, 95 mm² carries 298, 120 mm² 346.
    ['355 kW', iec({ power_W: 355_000 }), '2 × 120 mm2'],
  ])('%s: the least that carries what is asked, in the fewest sets', (_, lineUp, size) => {
    expect([sizeOf(lineUp), sizeOf(lineUp, 'F-1')]).toEqual([size, size]);
  });

  it('stop at fifty sets', () => {
    expect(sizeOf(us({ power_W: 50e6 }))).toBe('50 × 500 kcmil');
  });

  it('say of several sets that they are alike, of one nothing', () => {
    expect(cable(us({ power_W: horsepower(300) }), 'W-1')).toMatchObject({ setsAlike: true, setsHoldAllPhases: true });
    expect('setsAlike' in cable(us(), 'W-1')).toBe(false);
  });

  it('are a feeder in steel or in a tray and a shielded lead, with a ground by the breaker', () => {
    // 70 A: 8 AWG copper (Table 250.122: up to 100 A).
    const laid = { ambient_C: 30, loadedConductors: 3, groupedCircuits: 1, method: 'E', existing: false, flexing: false };
    const full = { landing: 'full' };
    expect(cable(us(), 'F-1')).toMatchObject({
      construction: 'singles',
      insulation: { type: 'XHHW-2' },
      conductor: { metal: 'copper' },
      grounds: { count: 1, size: '8 AWG', metal: 'copper', arrangement: 'single' },
      installation: { ...laid, raceway: 'steel-conduit', moisture: 'dry' },
      length_m: 30.48,
      from: full,
      to: full,
      auxiliary: [],
    });
    expect(cable(us(), 'W-1')).toMatchObject({
      construction: 'foil-and-braid',
      grounds: { count: 3, size: '8 AWG', metal: 'copper', arrangement: 'symmetrical' },
      installation: { ...laid, raceway: 'tray', spares: 'none', moisture: 'damp' },
      length_m: 60,
      from: full,
      to: full,
    });
    expect(cable(iec(), 'F-1')).toMatchObject({
      construction: 'multicore',
      insulation: { type: 'XLPE', voltage_V: 1000 },
      grounds: { count: 1, size: '10 mm2' },
      installation: { raceway: 'tray' },
      length_m: 30,
    });
    expect(cable(iec({ place: 'wet' }), 'W-1')).toMatchObject({
      grounds: { count: 1, size: '10 mm2', arrangement: 'concentric' },
      installation: { moisture: 'wet' },
    });
  });
});

describe('what it assumes', () => {
  it('is marked so, and what was typed is kept', () => {
    const lineUp = us({ typedLength: '200 ft' });
    const assumed = ({ provenance = {} }: Element | Cable) =>
      Object.entries(provenance).flatMap(([path, { origin }]) => (origin === 'assumed' ? [path] : []));
    const marks = ['terminalTemperature_C', 'terminalMetal'];
    expect(lineUp.elements.map(assumed)).toEqual([
      ['voltage_V', 'frequency_Hz', 'faultCurrent_A', 'earthing'],
      [...marks, 'ratedPower_VA', 'primaryVoltage_V', 'impedance_pct', 'secondaryEarthing'],
      [...marks, 'device', 'box', 'tripCurrent_A', 'ratedCurrent_A'],
      [...marks, 'impedance_pct', 'ratedCurrent_A', 'ratedVoltage_V', 'box'],
      [...marks, 'ratedPower_W', 'ratedVoltage_V', 'inputCurrent_A', 'outputCurrent_A', 'carrier_Hz', 'riseTime_s', 'box'],
      [...marks, 'ratedVoltage_V', 'ratedFrequency_Hz', 'ratedCurrent_A', 'powerFactor', 'box'],
    ]);
    expect(cable(lineUp, 'W-1').provenance?.['length_m']).toEqual({ typed: '200 ft' });
    expect('length_m' in (cable(us(), 'W-1').provenance ?? {})).toBe(false);
    // Every value of a cable but the length and the place, which were said, and where it leads.
    const paths = (value: object, at = ''): readonly string[] =>
      Object.entries(value).flatMap(([key, each]) =>
        typeof each === 'object' && each !== null && !Array.isArray(each) ? paths(each, `${at}${key}.`) : [`${at}${key}`],
      );
    const said = ['id', 'tag', 'kind', 'from.element', 'from.port', 'to.element', 'to.port', 'auxiliary'];
    for (const tag of ['F-1', 'W-1']) {
      const { provenance: _, ...own } = cable(us({ power_W: horsepower(300) }), tag);
      const told = new Set([...assumed(cable(lineUp, tag)), ...said, ...(tag === 'W-1' ? ['length_m', 'installation.moisture'] : [])]);
      expect(paths(own).filter((path) => !told.has(path))).toEqual([]);
    }
    expect(assumed(cable(lineUp, 'F-1'))).toEqual(expect.arrayContaining(['length_m', 'installation.moisture']));
    expect(assumed(cable(lineUp, 'W-1'))).not.toContain('installation.moisture');
    expect(part(lineUp, 'transformer').provenance?.['secondaryVoltage_V']).toEqual({ origin: 'entered' });
  });

  it('is the usual of drive, breaker and terminals', () => {
    expect(part(us(), 'drive')).toMatchObject({
      carrier_Hz: 4000,
      box: 'metal',
      terminalMetal: 'copper-only',
      terminalTemperature_C: 75,
      ratedVoltage_V: 480,
    });
    expect(part(us(), 'disconnect')).toMatchObject({
      device: 'breaker',
      box: 'metal',
      terminalMetal: 'copper-aluminium',
      terminalTemperature_C: 75,
    });
    expect(part(us(), 'reactor')).toMatchObject({ box: 'metal', ratedVoltage_V: 480 });
    expect(part(us(), 'motor')).toMatchObject({ box: 'metal', ratedFrequency_Hz: 60, ratedPower_W: horsepower(40) });
    expect(part(iec(), 'motor').ratedFrequency_Hz).toBe(50);
    expect([us().project.title, us().project.basis, iec().project.basis]).toEqual(['Line-up from five numbers', 'us', 'iec']);
    expect(us().project.summary).toContain('310.16');
    expect(iec().project.summary).toContain('60364-5-52');
  });
});
