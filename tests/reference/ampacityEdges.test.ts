import { describe, expect, it } from 'vitest';
import { type AmpacityInput, ampacity } from '../../engine/physics/ampacity.ts';
import { expectClose } from './expectClose.ts';

/** At, just below and just above each edge of the tables, typed here a second time; and what is said of where a number comes from. */

const US: AmpacityInput = {
  basis: 'us',
  size: '2 AWG',
  metal: 'copper',
  sets: 1,
  insulationTemperature_C: 90,
  terminalTemperature_C: null,
  ambient_C: 30,
  loadedConductors: 3,
  method: 'B1',
  groupedCircuits: 1,
  soil_KmPerW: null,
  group: 'xlpe',
};
const IEC: AmpacityInput = { ...US, basis: 'iec', size: '35 mm2', method: 'C' };
const value = (input: AmpacityInput): number | null => ampacity(input)?.value_A ?? null;
const ABOVE = 1e-6;

describe('NEC Table 310.16, at 60, 75 and 90 °C', () => {
  it.each([
    ['6 AWG', 'copper', [55, 65, 75]],
    ['6 AWG', 'aluminium', [40, 50, 55]],
    ['2 AWG', 'copper', [95, 115, 130]],
    ['2 AWG', 'aluminium', [75, 90, 100]],
    ['1/0 AWG', 'copper', [125, 150, 170]],
    ['4/0 AWG', 'aluminium', [150, 180, 205]],
    ['500 kcmil', 'copper', [320, 380, 430]],
    ['500 kcmil', 'aluminium', [260, 310, 350]],
  ] as const)('%s %s', (size, metal, printed) => {
    const at = (insulationTemperature_C: number) => value({ ...US, size, metal, insulationTemperature_C });
    expect([at(60), at(75), at(90)]).toEqual(printed);
    // Between two columns the lower one counts; what may not run at 60 °C has none.
    expect([at(60 - ABOVE), at(75 - ABOVE), at(90 - ABOVE), at(105)]).toEqual([null, printed[0], printed[1], printed[2]]);
  });

  it('a metric size takes the largest US size that is not larger: 35 mm2 as 2 AWG (33.6 mm2), 50 mm2 as 1 AWG (42.4), 16 mm2 as 6 AWG (13.3)', () => {
    const metric = (size: string) => ampacity({ ...US, size, insulationTemperature_C: 75 });
    expect([metric('35 mm2')?.table_A, metric('50 mm2')?.table_A, metric('16 mm2')?.table_A]).toEqual([115, 130, 65]);
    expect(metric('35 mm2')?.column).toBe('2 AWG, 75 °C column');
  });

  it('a size that no table knows has no ampacity', () =>
    expect([value({ ...US, size: '23 kcmil' }), value({ ...US, size: '0.01 mm2' }), value({ ...IEC, size: '23 kcmil' })]).toEqual([
      null,
      null,
      null,
    ]));

  it('18 and 16 AWG stand in the 90 °C column alone (14 and 18 A): neither other insulation nor cooler terminals have a figure for them', () => {
    const at = (size: string, insulationTemperature_C: number, terminalTemperature_C: number | null = null) =>
      value({ ...US, size, insulationTemperature_C, terminalTemperature_C });
    expect([at('18 AWG', 90), at('16 AWG', 90), at('16 AWG', 90, 90)]).toEqual([14, 18, 18]);
    expect([at('18 AWG', 75), at('16 AWG', 60), at('18 AWG', 90, 75), at('16 AWG', 90, 60)]).toEqual([null, null, null, null]);
  });

  it('what is thinner than 18 AWG has no row: 0.75 mm2', () =>
    expect([value({ ...US, size: '0.75 mm2' }), value({ ...US, size: '0.75 mm2', terminalTemperature_C: 60 })]).toEqual([null, null]));

  it('no thinner wire is given more than a thicker one, whatever its terminals take', () => {
    const sizes = ['18 AWG', '16 AWG', '14 AWG', '12 AWG', '10 AWG', '8 AWG', '6 AWG', '4 AWG', '3 AWG', '2 AWG', '1 AWG', '1/0 AWG'];
    for (const metal of ['copper', 'aluminium'] as const)
      for (const insulationTemperature_C of [60, 75, 90])
        for (const terminalTemperature_C of [null, 60, 75, 90]) {
          const given = sizes.flatMap((size) => value({ ...US, size, metal, insulationTemperature_C, terminalTemperature_C }) ?? []);
          expect(given).toEqual([...given].sort((a, b) => a - b));
        }
  });

  it('sets in parallel carry together', () => expect(value({ ...US, sets: 3 })).toBe(390));
});

describe('NEC Table 310.15(B)(1)(1)', () => {
  const BANDS: readonly (readonly [number, number | null, number | null, number])[] = [
    [10, 1.29, 1.2, 1.15],
    [15, 1.22, 1.15, 1.12],
    [20, 1.15, 1.11, 1.08],
    [25, 1.08, 1.05, 1.04],
    [30, 1, 1, 1],
    [35, 0.91, 0.94, 0.96],
    [40, 0.82, 0.88, 0.91],
    [45, 0.71, 0.82, 0.87],
    [50, 0.58, 0.75, 0.82],
    [55, 0.41, 0.67, 0.76],
    [60, null, 0.58, 0.71],
    [65, null, 0.47, 0.65],
    [70, null, 0.33, 0.58],
    [75, null, null, 0.5],
    [80, null, null, 0.41],
    [85, null, null, 0.29],
  ];
  it.each([
    [60, 1, 95],
    [75, 2, 115],
    [90, 3, 130],
  ] as const)('insulation for %i °C, at each edge and just above it', (insulationTemperature_C, column, alone) => {
    BANDS.forEach((band, i) => {
      const next = BANDS[i + 1]?.[column] ?? null;
      for (const [ambient_C, factor] of [
        [band[0], band[column]],
        [band[0] + ABOVE, next],
      ] as const) {
        const found = value({ ...US, insulationTemperature_C, ambient_C });
        if (factor === null) expect([ambient_C, found]).toEqual([ambient_C, null]);
        else expectClose(found ?? Number.NaN, alone * factor, { relative: 1e-12 }, `${ambient_C} °C`);
      }
    });
  });
});

it.each([
  [3, 1],
  [4, 0.8],
  [6, 0.8],
  [7, 0.7],
  [9, 0.7],
  [10, 0.5],
  [20, 0.5],
  [21, 0.45],
  [30, 0.45],
  [31, 0.4],
  [40, 0.4],
  [41, 0.35],
  [500, 0.35],
])('NEC Table 310.15(C)(1): %i loaded conductors carry %f', (loadedConductors, factor) =>
  expectClose(value({ ...US, loadedConductors }) ?? 0, 130 * factor, { relative: 1e-12 }, 'Table 310.15(C)(1)'),
);

describe('terminals, NEC 110.14(C)', () => {
  it('hold a conductor to their column only where that is less', () => {
    expect([60, 75, 90].map((terminalTemperature_C) => value({ ...US, terminalTemperature_C }))).toEqual([95, 115, 130]);
    // 130 × 0.82 × 0.80 is under the 95 A of the 60 °C column.
    const hot = ampacity({ ...US, terminalTemperature_C: 60, ambient_C: 50, loadedConductors: 6 });
    expectClose(hot?.value_A ?? 0, 85.28, { absolute: 0.005 }, '130 × 0.82 × 0.80');
    expect(hot?.column).toBe('2 AWG, 90 °C column');
    expect(ampacity({ ...US, terminalTemperature_C: 75 })?.column).toBe(
      '2 AWG, 90 °C column, held to the 75 °C column by the terminals (NEC 110.14(C))',
    );
  });
  it('just as much as they allow is not held', () =>
    expect(ampacity({ ...US, insulationTemperature_C: 75, terminalTemperature_C: 75 })?.column).toBe('2 AWG, 75 °C column'));
});

describe('IEC 60364-5-52', () => {
  const factorOf = (change: Partial<AmpacityInput>, from: Partial<AmpacityInput> = {}): number | null => {
    const [one, other] = [value({ ...IEC, ...from, ...change }), value({ ...IEC, ...from })];
    return one === null || other === null ? null : one / other;
  };
  const same = (found: number | null, printed: number | null, what: string): void => {
    if (printed === null) expect([what, found]).toEqual([what, null]);
    else expectClose(found ?? Number.NaN, printed, { relative: 1e-9 }, what);
  };
  const AIR = [1.15, 1.12, 1.08, 1.04, 1, 0.96, 0.91, 0.87, 0.82, 0.76, 0.71, 0.65, 0.58, 0.5, 0.41];
  const AIR_PVC = [1.22, 1.17, 1.12, 1.06, 1, 0.94, 0.87, 0.79, 0.71, 0.61, 0.5];
  const GROUND = [1.07, 1.04, 1, 0.96, 0.93, 0.89, 0.85, 0.8, 0.76, 0.71, 0.65, 0.6, 0.53, 0.46, 0.38];
  const GROUND_PVC = [1.1, 1.05, 1, 0.95, 0.89, 0.84, 0.77, 0.71, 0.63, 0.55, 0.45];
  it.each([
    ['B.52.14, XLPE', AIR, 'C', 'xlpe', 30],
    ['B.52.14, PVC', AIR_PVC, 'C', 'pvc', 30],
    ['B.52.15, XLPE, in ducts', GROUND, 'D1', 'xlpe', 20],
    ['B.52.15, PVC, straight in the ground', GROUND_PVC, 'D2', 'pvc', 20],
  ] as const)('Table %s, from 10 °C in steps of 5, at each edge and just above it', (what, table, method, group, ambient_C) => {
    table.forEach((factor, i) => {
      same(factorOf({ ambient_C: 10 + 5 * i }, { method, group, ambient_C }), factor, `${what} at ${10 + 5 * i}`);
      same(factorOf({ ambient_C: 10 + 5 * i + ABOVE }, { method, group, ambient_C }), table[i + 1] ?? null, `${what} above ${10 + 5 * i}`);
    });
  });

  it('Table B.52.16 (from memory), soil of 0.5 to 3 K m/W, ducts and straight in the ground; drier has none, and air none at all', () => {
    const SOIL = [
      [0.5, 1.28, 1.88],
      [0.7, 1.2, 1.62],
      [1, 1.18, 1.5],
      [1.5, 1.1, 1.28],
      [2, 1.05, 1.12],
      [2.5, 1, 1],
      [3, 0.96, 0.9],
    ] as const;
    SOIL.forEach(([soil_KmPerW, duct, direct], i) => {
      const ground = { ambient_C: 20, soil_KmPerW: 2.5 };
      same(factorOf({ soil_KmPerW }, { ...ground, method: 'D1' }), duct, `duct ${soil_KmPerW}`);
      same(factorOf({ soil_KmPerW }, { ...ground, method: 'D2' }), direct, `direct ${soil_KmPerW}`);
      same(
        factorOf({ soil_KmPerW: soil_KmPerW + ABOVE }, { ...ground, method: 'D1' }),
        SOIL[i + 1]?.[1] ?? null,
        `duct above ${soil_KmPerW}`,
      );
      same(
        factorOf({ soil_KmPerW: soil_KmPerW + ABOVE }, { ...ground, method: 'D2' }),
        SOIL[i + 1]?.[2] ?? null,
        `direct above ${soil_KmPerW}`,
      );
      same(factorOf({ soil_KmPerW }), 1, 'in air');
    });
    same(factorOf({ soil_KmPerW: null }, { method: 'D1', ambient_C: 20, soil_KmPerW: 2.5 }), 1, 'not said: that of the tables');
  });

  it('Table B.52.17 item 1 counts for circuits in air and in one duct', () => {
    const CIRCUITS = [1, 0.8, 0.7, 0.65, 0.6, 0.57, 0.54, 0.52, 0.5];
    CIRCUITS.forEach((factor, i) => {
      same(factorOf({ groupedCircuits: i + 1 }), factor, `${i + 1} circuits`);
      same(factorOf({ groupedCircuits: i + 1 }, { method: 'D1', ambient_C: 20 }), factor, `${i + 1} circuits in a duct`);
    });
    // Between two columns the next one, which allows less.
    same(factorOf({ groupedCircuits: 10 }), 0.45, '10 circuits, by the column of 12');
  });

  it('a US size takes the next metric row that is not larger: 2 AWG (33.6 mm2) as 25 mm2, 1/0 AWG (53.5) as 50 mm2', () => {
    expect(ampacity({ ...IEC, size: '2 AWG' })?.column).toBe('25 mm², method C');
    expect(ampacity({ ...IEC, size: '1/0 AWG' })?.column).toBe('50 mm², method C');
    expect(ampacity({ ...IEC, size: '18 AWG' })).toBeNull();
  });

  it('what may not run at 70 °C has no column; from 70 to 90 °C that of PVC (Table B.52.4), from 90 °C its own (B.52.5): 119 and 147 A', () => {
    const at = (insulationTemperature_C: number, group: 'pvc' | 'xlpe' = 'xlpe') => value({ ...IEC, insulationTemperature_C, group });
    expect([at(70 - ABOVE), at(70), at(90 - ABOVE), at(90)]).toEqual([null, 119, 119, 147]);
    expect(at(105, 'pvc')).toBe(119);
  });

  it('sets in parallel carry together', () => expect(value({ ...IEC, sets: 3 })).toBe(3 * 147));

  it('aluminium in XLPE by B1 is given what C is (Table B.52.5, from memory: 90, 112, 174 A); what the table prints for B1 lies above that', () => {
    for (const [size, printed] of [
      ['25 mm2', 90],
      ['35 mm2', 112],
      ['70 mm2', 174],
    ] as const)
      expect(value({ ...IEC, metal: 'aluminium', method: 'B1', size })).toBe(printed);
  });
  it('aluminium in XLPE is never given more by B1 than by C, where more of its heat is lost', () => {
    for (const size of ['16 mm2', '25 mm2', '35 mm2', '70 mm2', '120 mm2', '240 mm2'])
      for (const group of ['pvc', 'xlpe'] as const)
        for (const metal of ['copper', 'aluminium'] as const)
          expect(value({ ...IEC, size, group, metal, method: 'B1' })).toBeLessThanOrEqual(
            value({ ...IEC, size, group, metal }) ?? Number.NaN,
          );
  });
});

describe('where each number comes from is said', () => {
  it('NEC', () => {
    const found = ampacity({ ...US, ambient_C: 40, loadedConductors: 6, sets: 2 });
    expect(found?.source).toBe('NEC Table 310.16');
    expect(found?.factors).toEqual([
      { name: 'ambient', value: 0.91, source: 'NEC Table 310.15(B)(1)(1)' },
      { name: 'loaded conductors', value: 0.8, source: 'NEC Table 310.15(C)(1)' },
      { name: 'sets', value: 2, source: '' },
    ]);
  });
  it('IEC, in air, in a duct and straight in the ground', () => {
    const said = (change: Partial<AmpacityInput>) =>
      ampacity({ ...IEC, groupedCircuits: 2, ...change })?.factors.map(({ name, source }) => `${name}: ${source}`);
    const [ambient, soil] = ['IEC 60364-5-52 Tables B.52.14 and B.52.15', 'soil: IEC 60364-5-52 Table B.52.16 (from memory)'];
    expect(said({})).toEqual([`ambient: ${ambient}`, 'grouping: IEC 60364-5-52 Table B.52.17 item 1', 'sets: ']);
    expect(said({ method: 'D1' })).toEqual([
      `ground temperature: ${ambient}`,
      'grouping: IEC 60364-5-52 Table B.52.17 item 1',
      soil,
      'sets: ',
    ]);
    expect(said({ method: 'D2' })).toEqual([
      `ground temperature: ${ambient}`,
      'grouping: IEC 60364-5-52 Table B.52.18 (from memory)',
      soil,
      'sets: ',
    ]);
    expect(ampacity(IEC)?.source).toContain('IEC 60364-5-52');
  });
});
