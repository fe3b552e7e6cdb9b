import { describe, expect, it } from 'vitest';
import { conductorDiameter_mm, IEC_CONDUCTORS, US_CONDUCTORS } from '../../../engine/catalog/conductors.ts';
import { CONDUITS, conduitArea_mm2, fillLimit_pct, TRADE_SIZES } from '../../../engine/catalog/conduitFill.ts';
import { IEC_RATINGS_A, nextRating_A, US_RATINGS_A } from '../../../engine/catalog/deviceRatings.ts';
import { EQUIPMENT_GROUNDS, equipmentGround, protectiveConductor_mm2 } from '../../../engine/catalog/groundingConductors.ts';
import { currentLimit, voltageLimit } from '../../../engine/catalog/harmonicLimits.ts';
import { IEC_AMBIENT_AIR, IEC_AMBIENT_GROUND } from '../../../engine/catalog/iecAmpacity.ts';
import { IEC_MOTORS, tableCurrent_A, US_MOTORS, WATTS_PER_HP } from '../../../engine/catalog/motors.ts';
import { wireDiameter_mm } from '../../../engine/checks/fillChecks.ts';
import { complex } from '../../../engine/physics/complex.ts';
import { conductorImpedance } from '../../../engine/physics/conductorImpedance.ts';
import { faultCurrent_A, peakFaultCurrent_A, sourceImpedance, transformerCorrection } from '../../../engine/physics/faultCurrent.ts';
import { skinAndProximity } from '../../../engine/physics/skinAndProximity.ts';
import { expectClose } from '../expectClose.ts';

/** Rows of published tables and worked examples, to the last printed figure, and relations that a slip in a table would break. */

const round = (value: number, digits: number): number => Number(value.toFixed(digits));

describe('NEC Table 250.122 and examples', () => {
  // NEC 2023 Table 250.122, read in two stored copies.
  it.each([
    [15, '14 AWG', '12 AWG'],
    [20, '12 AWG', '10 AWG'],
    [60, '10 AWG', '8 AWG'],
    [100, '8 AWG', '6 AWG'],
    [200, '6 AWG', '4 AWG'],
    [300, '4 AWG', '2 AWG'],
    [400, '3 AWG', '1 AWG'],
    [600, '1 AWG', '2/0 AWG'],
    [800, '1/0 AWG', '3/0 AWG'],
    [1200, '3/0 AWG', '250 kcmil'],
    [2000, '250 kcmil', '400 kcmil'],
    [4000, '500 kcmil', '750 kcmil'],
  ] as const)('%d A: copper %s, aluminium %s', (rating, copper, aluminium) => {
    expect([equipmentGround(rating, 'copper')?.size, equipmentGround(rating, 'aluminium')?.size]).toEqual([copper, aluminium]);
  });
  it('a rating between two rows takes the higher; above the table there is none', () => {
    // Notes on conductors, example 2 (50 hp): the note prints 10 AWG for 100 A, the table asks 8 AWG.
    expect(equipmentGround(90, 'copper')?.size).toBe('8 AWG');
    expect(equipmentGround(4001, 'copper')).toBeNull();
  });
  it('grows with the rating', () => {
    const area = (name: string) => US_CONDUCTORS.find((each) => each.name === name)?.area_mm2 ?? 0;
    for (const column of [1, 2] as const) {
      const areas = EQUIPMENT_GROUNDS.map((row) => area(row[column]));
      expect(areas).toEqual([...areas].sort((a, b) => a - b));
    }
  });
});

describe('IEC 60364-5-54 Table 54.2', () => {
  // 95 to 50, 120 to 70, 185 to 95: rounded up to a size that is sold; 16 to 16, 25 and 35 to 16.
  it.each([
    [10, 10],
    [16, 16],
    [25, 16],
    [35, 16],
    [50, 25],
    [70, 35],
    [95, 47.5],
    [120, 60],
    [150, 75],
    [185, 92.5],
    [240, 120],
    [300, 150],
  ] as const)('%d mm²: %d mm²', (line, protective) => expect(protectiveConductor_mm2(line)).toBe(protective));
});

describe('IEC 60364-5-52 correction factors, every cell from the law behind it', () => {
  const law = (limit: number, ambient: number, base: number) => Math.sqrt((limit - ambient) / (limit - base));
  const cells = [
    ...IEC_AMBIENT_AIR.flatMap(([at, pvc, xlpe]) => [['air', at, 70, pvc, 30] as const, ['air', at, 90, xlpe, 30] as const]),
    ...IEC_AMBIENT_GROUND.flatMap(([at, pvc, xlpe]) => [['ground', at, 70, pvc, 20] as const, ['ground', at, 90, xlpe, 20] as const]),
  ].filter((cell): cell is typeof cell & { 3: number } => cell[3] !== null);
  it.each(cells)('%s, %d °C, %d °C insulation: %d', (_where, at, limit, printed, base) => {
    expectClose(
      law(limit, at, base),
      printed as number,
      { absolute: 0.0051 },
      'sqrt((Tmax − Ta) / (Tmax − Tref)), Tables B.52.14, B.52.15',
    );
  });
});

describe('fault currents', () => {
  it('IEC 60909-0: KT of the two transformers of TR 60909-4 (from memory of it): 0.975 each, at c 1.05', () => {
    // 630 kVA 4 % 6.5 kW; 400 kVA 4 % 4.6 kW
    const x = (uk: number, kW: number, kVA: number) => Math.sqrt(uk ** 2 - ((100 * kW) / kVA) ** 2) / 100;
    expect(round(transformerCorrection(x(4, 6.5, 630), 1.05), 3)).toBe(0.975);
    expect(round(transformerCorrection(x(4, 4.6, 400), 1.05), 3)).toBe(0.975);
  });
  it('two transformers of 0.4 MVA on 10 kV (test suite of a general-purpose power-system library): 16.99226 kA, peak 42.7399 kA', () => {
    expectClose(transformerCorrection(Math.sqrt(6 ** 2 - 0.5 ** 2) / 100), 1.008809, { absolute: 5e-7 }, 'KT');
    const path = complex(1.27178e-3, 14.8958e-3);
    const fault = faultCurrent_A(400, path, 'iec') ?? 0;
    expectClose(fault / 1000, 16.99226, { absolute: 2e-5 }, 'library');
    expectClose(peakFaultCurrent_A(fault, path) / 1000, 42.7399, { absolute: 5e-4 }, 'library');
  });
  it('the feeder bus of the same case: 100 MVA at 10 kV give 5.77350 kA and a peak of 14.25605 kA', () => {
    const path = sourceImpedance(10_000, 100e6 / Math.sqrt(3) / 10_000, 10, 'iec');
    const fault = faultCurrent_A(10_000, path, 'iec') ?? 0;
    expectClose(fault / 1000, 5.7735, { absolute: 5e-6 }, 'library');
    expectClose(peakFaultCurrent_A(fault, path) / 1000, 14.25605, { absolute: 5e-5 }, 'library');
  });
  // An uploaded project calculation sheet: 380 V, U / (sqrt 3 Z), no voltage factor.
  it.each([
    ['terminals', 0, 4.4403, 49.41],
    ['main board', 0.1015, 4.5528, 48.18],
    ['sub-board', 2.5375, 7.2528, 28.55],
  ] as const)('a project sheet, %s: %d + j%d mΩ give %d kA', (_where, r, x, kA) => {
    expect(round((faultCurrent_A(380, complex(r / 1000, x / 1000), 'us') ?? 0) / 1000, 2)).toBe(kA);
  });
  it('a path of resistance alone has no offset: κ = 1.02; one without any impedance has no answer', () => {
    expectClose(peakFaultCurrent_A(1000, complex(0.01, 0)), 1020 * Math.SQRT2, { relative: 1e-9 }, 'IEC 60909-0 clause 8.1');
    expect([faultCurrent_A(400, complex(0, 0), 'iec'), faultCurrent_A(480, complex(0, 0), 'us')]).toEqual([null, null]);
  });
  it('a plan-review booklet: 300 kVA at 208 V, 1.8 %: 46 273 A at the terminals', () => {
    const z = (0.018 * 208 ** 2) / 300_000;
    // The booklet multiplies 833 A by 55.55; unrounded it is 46 263 A.
    expectClose(faultCurrent_A(208, complex(0, z), 'us') ?? 0, 46_273, { relative: 5e-4 }, 'booklet, rounded midway');
  });
});

describe('a.c. resistance, IEC 60287-1-1', () => {
  // Catalogue of a cable maker, 0.6/1 kV PVC, at 70 °C: conductor, spacing (overall diameter, or conductor and two walls), printed ohm/km.
  it.each([
    ['240 mm2', 25.9, 0.093],
    ['240 mm2', 22.7, 0.094],
  ] as const)('%s copper, cores %d mm apart: %d Ω/km', (size, spacing_mm, printed) => {
    const row = IEC_CONDUCTORS.find((each) => each.name === size);
    const direct = ((row?.copperClass2_ohmPerKm ?? 0) / 1000) * (1 + 0.00393 * 50);
    const { skin, proximity } = skinAndProximity({
      direct_ohmPerM: direct,
      frequency_Hz: 50,
      diameter_mm: row?.diameter_mm ?? 0,
      spacing_mm,
    });
    expect(round(1000 * direct * (1 + skin + proximity), 3)).toBe(printed);
  });
  // Skin effect against the exact Bessel solution of a round wire, to five decimals.
  it.each([
    ['300 mm2', 90, 0.01385],
    ['240 mm2', 70, 0.010024],
    ['120 mm2', 70, 0.002449],
  ] as const)('%s at %d °C: skin %d', (size, at, printed) => {
    const row = IEC_CONDUCTORS.find((each) => each.name === size);
    const direct = ((row?.copperClass2_ohmPerKm ?? 0) / 1000) * (1 + 0.00393 * (at - 20));
    const { skin } = skinAndProximity({ direct_ohmPerM: direct, frequency_Hz: 50, diameter_mm: 20, spacing_mm: 100 });
    expectClose(skin, printed, { absolute: 6e-6 }, 'Bessel solution');
  });
  // The same catalogue.
  it.each([['1.5 mm2', 14.48]] as const)('%s at 70 °C: %d Ω/km', (size, printed) => {
    const z = conductorImpedance({ size, metal: 'copper', temperature_C: 70, frequency_Hz: 50, surround: 'nonmetallic' });
    expect(round((z?.resistance_ohmPerM ?? 0) * 1000, 2)).toBe(printed);
  });
  it('copper at 75 °C over 25 °C is as NEC Table 8 note 2 says: 1 + 0.00323 (25 − 75)', () => {
    const at = (temperature_C: number) =>
      conductorImpedance({ size: '2 AWG', metal: 'copper', temperature_C, frequency_Hz: 60, surround: 'steel' })?.resistance_ohmPerM ?? 0;
    expectClose(at(25) / at(75), 1 + 0.00323 * -50, { relative: 1e-12 }, 'note 2');
  });
});

describe('NEC Chapter 9, raceways and wires (Table 4 from memory)', () => {
  it.each(Object.entries(CONDUITS))('%s: area is that of the diameter, and grows', (_kind, rows) => {
    rows.forEach(([diameter, area], i) => {
      // Both columns are rounded by themselves.
      expect(Math.abs((Math.PI * diameter ** 2) / 4 / area - 1)).toBeLessThan(0.004);
      expect(area).toBeGreaterThan(rows[i - 1]?.[1] ?? 0);
    });
  });
  it('Table 1: 53, 31, 40 %', () => expect([1, 2, 3, 9].map(fillLimit_pct)).toEqual([53, 31, 40, 40]));
  it('a trade size that is not made has no area', () => {
    expect(conduitArea_mm2('EMT', '6')).toBeNull();
    expect(conduitArea_mm2('RMC', '2 1/4')).toBeNull();
    expect(TRADE_SIZES.length).toBe(12);
  });
  // NEC Informative Annex C, Tables C.1 (EMT): how many wires of one size a raceway holds, from memory. A remainder of 0.8 counts as one.
  it.each([
    ['EMT', '1/2', 'THHN', '14 AWG', 12],
    ['EMT', '1/2', 'THHN', '12 AWG', 9],
    ['EMT', '1/2', 'THHN', '10 AWG', 5],
    ['EMT', '1/2', 'THHN', '8 AWG', 3],
    ['EMT', '3/4', 'THHN', '12 AWG', 16],
    ['EMT', '3/4', 'THHN', '10 AWG', 10],
    ['EMT', '1', 'THHN', '8 AWG', 9],
    ['EMT', '1', 'THHN', '6 AWG', 7],
    ['EMT', '1 1/4', 'THHN', '4 AWG', 7],
    ['EMT', '2', 'THHN', '3/0 AWG', 5],
    ['EMT', '2', 'THHN', '4/0 AWG', 4],
    ['EMT', '3', 'THHN', '500 kcmil', 5],
    ['EMT', '4', 'THHN', '500 kcmil', 8],
  ] as const)('%s %s holds of %s %s: %d', (kind, trade, type, size, printed) => {
    const d = wireDiameter_mm({ insulation: { type } }, size) ?? 0;
    const room = (0.4 * (conduitArea_mm2(kind, trade) ?? 0)) / ((Math.PI * d ** 2) / 4);
    expect(room - Math.floor(room) >= 0.8 ? Math.ceil(room) : Math.floor(room)).toBe(printed);
  });
  // NEC Chapter 9 Table 5, approximate diameters in inches, from memory: conductor of Table 8 and the wall of Table 310.4, twice.
  it.each([
    ['THHN', '14 AWG', 0.111],
    ['THHN', '12 AWG', 0.13],
    ['THHN', '10 AWG', 0.164],
    ['THHN', '2 AWG', 0.384],
    ['THHN', '500 kcmil', 0.949],
    ['XHHW-2', '12 AWG', 0.152],
    ['XHHW-2', '2 AWG', 0.382],
    ['XHHW-2', '500 kcmil', 0.943],
  ] as const)('%s %s is %d in thick', (type, size, inches) => {
    expectClose((wireDiameter_mm({ insulation: { type } }, size) ?? 0) / 25.4, inches, { absolute: 0.0015 }, 'Table 5');
  });
  it('diameters of Table 8 hold their areas: strands leave gaps, never more metal than room', () => {
    for (const { name, area_mm2 } of US_CONDUCTORS) {
      const d = conductorDiameter_mm(name) ?? 0;
      const filled = area_mm2 / ((Math.PI * d ** 2) / 4);
      expect([name, filled > 0.73 && filled <= 1.01]).toEqual([name, true]);
    }
  });
});

describe('motors and devices', () => {
  // NEC Table 430.250, held in four stored copies.
  it.each([
    [3, 460, 4.8],
    [10, 230, 28],
    [20, 460, 27],
    [25, 460, 34],
    [30, 460, 40],
    [50, 460, 65],
    [60, 460, 77],
    [75, 575, 77],
    [100, 460, 124],
    [200, 460, 240],
    [300, 460, 361],
  ] as const)('%d hp at %d V: %d A', (hp, volts, amperes) => expect(tableCurrent_A(hp * WATTS_PER_HP, volts)?.current_A).toBe(amperes));
  it('NEC Annex D8 (figures from memory): 1.25 × 34 = 42.5 A, 1.25 × 40 = 50 A, feeder 1.25 × 40 + 40 + 34 = 124 A', () => {
    const [a, b] = [25, 30].map((hp) => tableCurrent_A(hp * WATTS_PER_HP, 460)?.current_A ?? 0);
    expect([1.25 * (a ?? 0), 1.25 * (b ?? 0), 1.25 * (b ?? 0) + (b ?? 0) + (a ?? 0)]).toEqual([42.5, 50, 124]);
  });
  it('standard ratings: 85 A goes to 90, 102 A to 110 (NEC 240.6(A); notes on motor calculations, Annex D8)', () => {
    expect([nextRating_A(85, 'us'), nextRating_A(102, 'us'), nextRating_A(6001, 'us')]).toEqual([90, 110, null]);
    expect([nextRating_A(257.4, 'iec'), nextRating_A(52.1, 'iec')]).toEqual([315, 63]);
    for (const list of [US_RATINGS_A, IEC_RATINGS_A]) expect(list).toEqual([...list].sort((x, y) => x - y));
  });
  it('efficiency and power factor rise with size; the current they give lies near the printed one', () => {
    for (const [hp, efficiency, low, high] of US_MOTORS) {
      expect(low).toBeLessThan(high);
      const printed = tableCurrent_A(hp * WATTS_PER_HP, 460)?.current_A;
      // The code's currents are on the safe side of any one motor.
      if (printed) expect([hp, (hp * WATTS_PER_HP) / (Math.sqrt(3) * 460 * (efficiency / 100) * high) <= printed]).toEqual([hp, true]);
    }
    for (const [kW, efficiency, cos, printed] of IEC_MOTORS)
      if (printed)
        expect([kW, Math.abs((kW * 1000) / (Math.sqrt(3) * 400 * (efficiency / 100) * cos) / printed - 1) < 0.12]).toEqual([kW, true]);
  });
  it('IEEE 519: 8 % and 5 % to 1 kV; 5, 8, 12, 15, 20 % of demand by the ratio', () => {
    expect([voltageLimit(480).total_pct, voltageLimit(480).single_pct, voltageLimit(12_470).total_pct]).toEqual([8, 5, 5]);
    expect([10, 30, 70, 500, 2000].map((ratio) => currentLimit(ratio).total_pct)).toEqual([5, 8, 12, 15, 20]);
  });
});
