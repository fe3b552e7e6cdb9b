import { describe, expect, it } from 'vitest';
import { conductorDiameter_mm, conductorSize, IEC_CONDUCTORS, IEC_SIZES, US_CONDUCTORS } from '../../../engine/catalog/conductors.ts';
import { CONDUITS, conduitArea_mm2 } from '../../../engine/catalog/conduitFill.ts';
import { IEC_RATINGS_A, nextRating_A, US_RATINGS_A } from '../../../engine/catalog/deviceRatings.ts';
import { EQUIPMENT_GROUNDS, equipmentGround, protectiveConductor_mm2 } from '../../../engine/catalog/groundingConductors.ts';
import { currentLimit, voltageLimit } from '../../../engine/catalog/harmonicLimits.ts';
import { insulationFacts, nylon_mm, wallThickness_mm } from '../../../engine/catalog/insulation.ts';
import { IEC_MOTORS, tableCurrent_A, US_MOTOR_CURRENTS, US_MOTORS, WATTS_PER_HP } from '../../../engine/catalog/motors.ts';
import { cite } from '../../../engine/catalog/source.ts';

/** Looking into the tables: at the very limit of a row, between two, beyond the last; and that no row is lost. */

describe('ratings of devices', () => {
  it('a rating of the list is its own next; between two it is the higher; the list itself begins and ends as NEC 240.6(A) does', () => {
    expect([100, 100.1, 0.1, 6000].map((current) => nextRating_A(current, 'us'))).toEqual([100, 110, 10, 6000]);
    expect([US_RATINGS_A.length, nextRating_A(6000.1, 'us')]).toEqual([38, null]);
  });
  it('IEC 60898-1, preferred: 6, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125 A', () => {
    expect(IEC_RATINGS_A.slice(0, 13)).toEqual([6, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125]);
    expect([63, 63.1, 4000.1].map((current) => nextRating_A(current, 'iec'))).toEqual([63, 80, null]);
  });
});

describe('protective conductors', () => {
  it('NEC Table 250.122 has rows for every one of these', () => {
    expect(EQUIPMENT_GROUNDS.map(([upTo]) => upTo)).toEqual([
      15, 20, 60, 100, 200, 300, 400, 500, 600, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000,
    ]);
    // Just above a row the next holds.
    expect([60.1, 100.1, 3000.1].map((rating) => equipmentGround(rating, 'copper')?.size)).toEqual(['8 AWG', '6 AWG', '500 kcmil']);
  });
  it('IEC 60364-5-54 Table 54.2: S to 16, 16 from there to 35, half above', () => {
    expect([16, 16.1, 34.9, 35, 35.1].map(protectiveConductor_mm2)).toEqual([16, 16, 16, 16, 17.55]);
    expect(protectiveConductor_mm2(6)).toBe(6);
  });
});

describe('IEEE 519', () => {
  it('Table 1: to 1 kV 5 and 8 %, to 69 kV 3 and 5, to 161 kV 1.5 and 2.5, above 1 and 1.5', () => {
    const limits = (bus_V: number) => [voltageLimit(bus_V).single_pct, voltageLimit(bus_V).total_pct];
    expect([1000, 1001, 69_000, 69_001, 161_000, 161_001].map(limits)).toEqual([
      [5, 8],
      [3, 5],
      [3, 5],
      [1.5, 2.5],
      [1.5, 2.5],
      [1, 1.5],
    ]);
  });
  it('Table 2: below 20 5 %, 20 to 50 8, 50 to 100 12, 100 to 1000 15, above 20', () => {
    const ratios = [19.9, 20, 49.9, 50, 99.9, 100, 999, 1000, 1e6];
    expect(ratios.map((ratio) => currentLimit(ratio).total_pct)).toEqual([5, 8, 8, 12, 12, 15, 15, 20, 20]);
  });
  it('says where each limit is from', () => {
    expect([480, 13_800, 115_000, 230_000].map((bus_V) => cite(voltageLimit(bus_V).source))).toEqual([
      'IEEE 519 Table 1',
      'IEEE 519 Table 1 (from memory)',
      'IEEE 519 Table 1 (from memory)',
      'IEEE 519 Table 1 (from memory)',
    ]);
    expect(cite(currentLimit(30).source)).toBe('IEEE 519 Table 2');
  });
});

describe('NEC Table 430.250', () => {
  const current = (hp: number, volts: number) => tableCurrent_A(hp * WATTS_PER_HP, volts);
  it('has these powers, and no current at 200, 208 and 230 V above 200 hp', () => {
    const small = [0.5, 0.75, 1, 1.5, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 125, 150, 200];
    const large = [250, 300, 350, 400, 450, 500];
    expect(US_MOTOR_CURRENTS.map(({ hp }) => hp)).toEqual([...small, ...large]);
    for (const hp of large) expect([200, 208, 230].map((volts) => current(hp, volts))).toEqual([null, null, null]);
  });
  // The table's own law: half of the current at twice the voltage, 1.15 and 1.1 times at 200 and 208 V, 0.8 times at 575 V, each printed rounded.
  it.each(US_MOTOR_CURRENTS.map(({ hp }) => [hp] as const))('%d hp: its columns are of one current', (hp) => {
    const at = (volts: number) => current(hp, volts)?.current_A;
    const near = (printed: number | undefined, reckoned: number) => expect(Math.abs((printed ?? 0) / reckoned - 1)).toBeLessThan(0.025);
    const [own, low] = [at(460) ?? 0, at(230)];
    near(at(575), 0.8 * own);
    if (low === undefined) return;
    expect(low).toBe(2 * own);
    near(at(208), 1.1 * low);
    near(at(200), 1.15 * low);
  });
  it('holds for 220 to 240, 440 to 480 and 550 to 600 V, its own note, and for systems of 200 and 208 V', () => {
    const at = (...volts: number[]) => volts.map((each) => current(10, each)?.current_A ?? null);
    expect(at(220, 230, 240, 440, 460, 480, 550, 575, 600)).toEqual([28, 28, 28, 14, 14, 14, 11, 11, 11]);
    expect(at(200, 208)).toEqual([32.2, 30.8]);
    expect(at(190, 241, 400, 439, 481, 549, 601)).toEqual([null, null, null, null, null, null, null]);
  });
  it('takes a power within 3 % of a row, and says which row that was', () => {
    expect(current(10.2, 460)).toEqual({ current_A: 14, label: '10 hp at 460 V, NEC Table 430.250' });
    expect(current(9.8, 460)?.current_A).toBe(14);
    expect([current(9.6, 460), current(10.4, 460), current(12, 460), current(12, 999), current(10, 999)]).toEqual([
      null,
      null,
      null,
      null,
      null,
    ]);
  });
});

describe('usual motors', () => {
  it('IEC 60072-1: the powers that are made, the currents growing with them', () => {
    const made = [
      0.37, 0.55, 0.75, 1.1, 1.5, 2.2, 3, 4, 5.5, 7.5, 11, 15, 18.5, 22, 30, 37, 45, 55, 75, 90, 110, 132, 160, 200, 250, 315, 355,
    ];
    expect(IEC_MOTORS.map(([kW]) => kW)).toEqual(made);
    const currents = IEC_MOTORS.map(([, , , amperes]) => amperes ?? 0);
    expect(currents).toEqual([...currents].sort((a, b) => a - b));
  });
  it('NEMA MG 1: the powers from 1 to 500 hp', () => {
    const made = [1, 1.5, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 125, 150, 200, 250, 300, 350, 400, 450, 500];
    expect(US_MOTORS.map(([hp]) => hp)).toEqual(made);
  });
});

describe('conductors', () => {
  // IEC 60228: 17.241 Ω mm²/km of annealed copper, 28.264 of aluminium, and what the strands and the nominal area add.
  it('have the sizes of IEC 60228, each with about its resistance', () => {
    const made = [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240, 300, 400, 500, 630];
    expect(IEC_CONDUCTORS.map(({ area_mm2 }) => area_mm2)).toEqual(made);
    for (const { name, area_mm2, copperClass2_ohmPerKm, copperClass5_ohmPerKm, aluminium_ohmPerKm } of IEC_CONDUCTORS) {
      expect(name).toBe(`${area_mm2} mm2`);
      for (const [resistance, of] of [
        [copperClass2_ohmPerKm, 17.241],
        [copperClass5_ohmPerKm, 17.241],
        [aluminium_ohmPerKm, 28.264],
      ] as const)
        if (resistance !== null) expect([name, Math.abs((resistance * area_mm2) / of - 1.07) < 0.1]).toEqual([name, true]);
    }
  });
  it('are found by their trade name, of either system, and not by another', () => {
    expect(conductorSize('2 AWG')).toEqual({ name: '2 AWG', system: 'us', area_mm2: 33.62 });
    expect(conductorSize('35 mm2')).toEqual({ name: '35 mm2', system: 'iec', area_mm2: 35 });
    expect([conductorSize('7 AWG'), conductorSize('constructor'), conductorDiameter_mm('7 AWG')]).toEqual([null, null, null]);
    expect(IEC_SIZES.every(({ system }) => system === 'iec')).toBe(true);
    // Table 8 has 7.42 mm; round wire of 35 mm² is no thicker than 6.9 when compacted, and no thinner than solid.
    expect([conductorDiameter_mm('2 AWG'), conductorDiameter_mm('0.5 mm2')]).toEqual([7.42, null]);
    expect(conductorDiameter_mm('35 mm2')).toBeGreaterThan(2 * Math.sqrt(35 / Math.PI));
  });
  it('of the NEC have the areas of their gauge: 36 AWG is 0.005 in, 0000 is 0.46 in, in 39 equal ratios', () => {
    for (const { name, area_mm2 } of US_CONDUCTORS) {
      const [, gauge = '', unit] = /^(\S+) (AWG|kcmil)$/.exec(name) ?? [];
      const number = gauge.endsWith('/0') ? 1 - Number.parseInt(gauge, 10) : Number(gauge);
      const solid = unit === 'kcmil' ? Number(gauge) * 0.506707 : (Math.PI / 4) * (0.127 * 92 ** ((36 - number) / 39)) ** 2;
      expect([name, Math.abs(area_mm2 / solid - 1) < 0.006]).toEqual([name, true]);
    }
  });
});

describe('raceways', () => {
  // NEC Chapter 9 Table 4, the first and last row of each article, square inches, from memory.
  it.each([
    ['EMT', '1/2', 0.304],
    ['EMT', '4', 14.753],
    ['IMC', '1/2', 0.342],
    ['IMC', '4', 13.631],
    ['RMC', '1/2', 0.314],
    ['RMC', '6', 29.158],
    ['PVC40', '1/2', 0.285],
    ['PVC40', '6', 28.567],
    ['PVC80', '1/2', 0.217],
    ['PVC80', '6', 25.598],
    ['FMC', '1/2', 0.317],
    ['FMC', '4', 12.566],
  ] as const)('%s %s: %d in²', (kind, trade, printed) => expect((conduitArea_mm2(kind, trade) ?? 0) / 645.16).toBeCloseTo(printed, 9));
  it('have every size of their article and no other: RMC and PVC to 6, the others to 4', () => {
    const rows = Object.fromEntries(Object.entries(CONDUITS).map(([kind, list]) => [kind, list.length]));
    expect(rows).toEqual({ EMT: 10, IMC: 10, RMC: 12, PVC40: 12, PVC80: 12, FMC: 10 });
    expect([conduitArea_mm2('IMC', '5'), conduitArea_mm2('RMC', 'wide')]).toEqual([null, null]);
  });
});

describe('insulation', () => {
  // NEC Table 310.4(1): temperature dry, and wet where it may be wet; whether under nylon. What it is made of, from memory.
  it.each([
    ['THHN', 'pvc', true, 90, null],
    ['THWN', 'pvc', true, 75, 75],
    ['THWN-2', 'pvc', true, 90, 90],
    ['TW', 'pvc', false, 60, 60],
    ['THW', 'pvc', false, 75, 75],
    ['THW-2', 'pvc', false, 90, 90],
    ['XHHW', 'xlpe', false, 90, 75],
    ['XHHW-2', 'xlpe', false, 90, 90],
    ['RHH', 'xlpe', false, 90, null],
    ['RHW', 'xlpe', false, 75, 75],
    ['RHW-2', 'xlpe', false, 90, 90],
    ['MTW', 'pvc', false, 90, 60],
    ['PVC', 'pvc', false, 70, 70],
    ['XLPE', 'xlpe', false, 90, 90],
    ['EPR', 'epr', false, 90, 90],
    ['HEPR', 'hepr', false, 90, 90],
  ] as const)('%s: %s, nylon %s, %s °C dry, %s °C wet', (type, polymer, nylon, temperatureDry_C, temperatureWet_C) => {
    expect(insulationFacts(type)).toMatchObject({ polymer, nylon, temperatureDry_C, temperatureWet_C });
  });
  it('of no type or one that is not listed is not known', () => {
    for (const type of [undefined, 'silk']) {
      expect(insulationFacts(type)).toBeNull();
      expect(wallThickness_mm(type, '2 AWG')).toBeNull();
      expect(nylon_mm(type, 10)).toBe(0);
    }
    expect([wallThickness_mm('XHHW-2', undefined), wallThickness_mm('XHHW-2', '7 AWG')]).toEqual([null, null]);
  });

  const SIZES = [
    '14 AWG',
    '12 AWG',
    '10 AWG',
    '8 AWG',
    '6 AWG',
    '4 AWG',
    '2 AWG',
    '1 AWG',
    '4/0 AWG',
    '250 kcmil',
    '500 kcmil',
    '600 kcmil',
    '1000 kcmil',
  ];
  const mils = (mm: number | undefined) => Math.round((mm ?? 0) / 0.000254) / 100;
  // NEC Table 310.4(1), mil.
  it.each([
    ['THHN', [15, 15, 20, 30, 30, 40, 40, 50, 50, 60, 60, 70, 70]],
    ['THWN', [15, 15, 20, 30, 30, 40, 40, 50, 50, 60, 60, 70, 70]],
    ['THWN-2', [15, 15, 20, 30, 30, 40, 40, 50, 50, 60, 60, 70, 70]],
    ['TW', [30, 30, 30, 45, 60, 60, 60, 80, 80, 95, 95, 110, 110]],
    ['THW', [30, 30, 30, 45, 60, 60, 60, 80, 80, 95, 95, 110, 110]],
    ['THW-2', [30, 30, 30, 45, 60, 60, 60, 80, 80, 95, 95, 110, 110]],
    ['XHHW', [30, 30, 30, 45, 45, 45, 45, 55, 55, 65, 65, 80, 80]],
    ['XHHW-2', [30, 30, 30, 45, 45, 45, 45, 55, 55, 65, 65, 80, 80]],
    ['RHH', [45, 45, 45, 60, 60, 60, 60, 80, 80, 95, 95, 110, 110]],
    ['RHW', [45, 45, 45, 60, 60, 60, 60, 80, 80, 95, 95, 110, 110]],
    ['RHW-2', [45, 45, 45, 60, 60, 60, 60, 80, 80, 95, 95, 110, 110]],
    ['MTW', [30, 30, 30, 45, 60, 60, 60, 80, 80, 95, 95, 110, 110]],
  ] as const)('%s: its wall by size', (type, printed) => {
    const walls = SIZES.map((size) => wallThickness_mm(type, size));
    expect(walls.map((each) => mils(each?.wall_mm))).toEqual(printed);
    expect(new Set(walls.map((each) => each?.source.standard))).toEqual(new Set(['NEC']));
  });
  // UL 83, mil: 14 to 10, 8 and 6, 4 to 2, 1 to 4/0, 250 to 500, 550 to 1000.
  it('nylon over it by size', () => {
    const over = (type: string) => SIZES.map((size) => mils(nylon_mm(type, conductorSize(size)?.area_mm2 ?? 0)));
    for (const type of ['THHN', 'THWN', 'THWN-2']) expect(over(type)).toEqual([4, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9, 9]);
    expect(new Set(over('XHHW-2'))).toEqual(new Set([0]));
  });
  const METRIC = [1.5, 2.5, 4, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240, 300, 400, 500, 630];
  // IEC 60502-1 Tables 5 to 7, mm, from memory.
  it.each([
    ['PVC', [0.8, 0.8, 1, 1, 1.2, 1.2, 1.4, 1.4, 1.6, 1.6, 1.8, 2, 2.2, 2.4, 2.6, 2.8, 2.8]],
    ['XLPE', [0.7, 0.7, 0.7, 0.7, 0.9, 0.9, 1, 1.1, 1.1, 1.2, 1.4, 1.6, 1.7, 1.8, 2, 2.2, 2.4]],
    ['EPR', [1, 1, 1, 1, 1.2, 1.2, 1.4, 1.4, 1.6, 1.6, 1.8, 2, 2.2, 2.4, 2.6, 2.8, 2.8]],
    ['HEPR', [0.7, 0.7, 0.7, 0.7, 0.9, 0.9, 1, 1.1, 1.1, 1.2, 1.4, 1.6, 1.7, 1.8, 2, 2.2, 2.4]],
  ] as const)('%s: its wall by size', (type, printed) => {
    const walls = METRIC.map((size) => wallThickness_mm(type, `${size} mm2`));
    expect(walls.map((each) => each?.wall_mm)).toEqual(printed);
    expect(new Set(walls.map((each) => each?.source.standard))).toEqual(new Set(['IEC 60502-1']));
  });
});
