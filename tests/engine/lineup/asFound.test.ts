import { describe, expect, it } from 'vitest';
import { type Cable, type Element, newLineUp } from '../../../engine/index.ts';
import { asBuiltOf, isRecorded, recordedAt, withAsBuiltOf, withoutAsBuilt } from '../../../engine/lineup/asBuilt.ts';
import { valueAt, withValueAt } from '../../../engine/lineup/fields.ts';
import { bareCable, barePart as part } from '../bareParts.ts';

/** What stands in the place of the design once something was found on site, value by value. */

type Values = Readonly<Record<string, unknown>>;
const withValues = <T extends Cable | Element>(of: T, values: Values): T =>
  Object.entries(values).reduce((now, [path, value]) => withValueAt(now, path, value), of);
const found = <T extends Cable | Element>(of: T, values: Values): T =>
  withValues(of, Object.fromEntries(Object.entries(values).map(([path, value]) => [`asBuilt.${path}`, value])));
const built = <T extends Cable | Element>(of: T): T => {
  const { elements, cables } = asBuiltOf({
    ...newLineUp(),
    elements: of.kind === 'cable' || of.kind === 'link' ? [] : [of as Element],
    cables: of.kind === 'cable' || of.kind === 'link' ? [of as Cable] : [],
  });
  return [...elements, ...cables][0] as T;
};
const cable = bareCable('w', 's', 'm');
const motor = part('motor', 'm') as Extract<Element, { kind: 'motor' }>;

it('is recorded of cables and motors alone', () => {
  expect([cable, motor, part('drive', 'd'), { ...cable, kind: 'link' as const }].map(isRecorded)).toEqual([true, true, false, false]);
  expect([recordedAt(found(cable, { length_m: 3 }), 'length_m'), recordedAt(cable, 'length_m')]).toEqual([3, undefined]);
});

it('leaves parts of which nothing was found the same objects', () => {
  const drive = { ...part('drive', 'd'), asBuilt: { ratedPower_W: 1 } } as Element;
  const link = { ...found(cable, { length_m: 3 }), kind: 'link' as const };
  for (const each of [cable, motor, drive, link]) expect(built(each)).toBe(each);
});

describe('a value that turned out otherwise', () => {
  const WALL = { 'insulation.wall_mm': 1.1, outerDiameter_mm: 20, wave: { impedance_ohm: 80 } };
  const RACEWAY = {
    'installation.racewaySize': '2',
    'installation.method': 'B1',
    'installation.ambient_C': 40,
    'installation.ambientLeast_C': -5,
    'installation.loadedConductors': 6,
    'installation.groupedCircuits': 2,
    'installation.moisture': 'dry',
    'installation.sunlight': false,
    'installation.soil_KmPerW': 1,
    'installation.divider': true,
    'installation.sharedWith': ['x'],
    'installation.toControl_mm': 300,
    'installation.toPower_mm': 300,
    'installation.parallel_m': 3,
  };
  const PLATE = {
    ratedCurrent_A: 50,
    powerFactor: 0.85,
    efficiency_pct: 94,
    serviceFactor: 1.15,
    surgeImpedance_ohm: 700,
    windingCapacitance_F: 1e-8,
  };
  // What was said of the designed thing, and whether it is said of another one too.
  it.each([
    [
      'conductor.size',
      '2 AWG',
      '4 AWG',
      { ...WALL, shieldArea_mm2: 16 },
      { 'conductor.metal': 'copper', 'conductor.sets': 2, construction: 'copper-tape' },
    ],
    [
      'insulation.type',
      'XHHW-2',
      'THHN',
      {
        ...WALL,
        'insulation.voltage_V': 600,
        'insulation.concentricity_pct': 90,
        'insulation.temperature_C': 90,
        'insulation.wetRated': true,
        'insulation.temperatureLeast_C': -40,
        'insulation.sunlightRated': true,
      },
      { shieldArea_mm2: 16, 'conductor.size': '2 AWG' },
    ],
    ['installation.raceway', 'tray', 'steel-conduit', RACEWAY, { 'installation.existing': true, 'installation.spares': 'none' }],
    [
      'from.landing',
      'full',
      'pigtail',
      { 'from.pigtailLength_mm': 50, 'from.pigtailWidth_mm': 5 },
      { 'to.pigtailLength_mm': 60, 'to.pigtailWidth_mm': 6 },
    ],
    [
      'to.landing',
      'full',
      'pigtail',
      { 'to.pigtailLength_mm': 50, 'to.pigtailWidth_mm': 5 },
      { 'from.pigtailLength_mm': 60, 'from.pigtailWidth_mm': 6 },
    ],
    ['length_m', 30, 40, {}, { ...WALL, ...RACEWAY }],
    ['ratedPower_W', 30_000, 22_000, PLATE, { ratedVoltage_V: 460, insulation: 'ivic-b', peakLimit_V: 1600 }],
    ['ratedVoltage_V', 460, 400, PLATE, { ratedPower_W: 30_000, peakLimit_V: 1600 }],
    [
      'insulation',
      'curve',
      'ivic-b',
      { peakLimit_V: 1600, riseLimit_s: 1e-7, peakCurve: [{ rise_s: 1e-7, peak_V: 1600 }], peakCurveSource: 'maker' },
      PLATE,
    ],
    ['ratedCurrent_A', 50, 48, {}, { powerFactor: 0.85, efficiency_pct: 94, peakLimit_V: 1600 }],
  ] as const)('%s: takes with it what hung on the designed one, and nothing else', (path, designed, other, falls, stays) => {
    const whole: Cable | Element = path === 'insulation' || /^rated/.test(path) ? motor : cable;
    const one = withValues(whole, { ...stays, ...falls, [path]: designed });
    const after = built(found(one, { [path]: other }));
    expect(valueAt(after, path)).toBe(other);
    for (const each of Object.keys(falls)) expect([each, valueAt(after, each)]).toEqual([each, undefined]);
    for (const [each, value] of Object.entries(stays)) expect([each, valueAt(after, each)]).toEqual([each, value]);
    // As designed, or of a design that did not say: all stays.
    const same = built(found(one, { [path]: designed }));
    for (const each of Object.keys(falls)) expect([each, valueAt(same, each)]).toEqual([each, valueAt(one, each)]);
    const unsaid = built(found(withValueAt(one, path, undefined), { [path]: other }));
    for (const each of Object.keys(falls)) expect([each, valueAt(unsaid, each)]).toEqual([each, valueAt(one, each)]);
  });
  it('stands as found though another would have taken it away', () => {
    const after = built(
      found(withValues(motor, { ratedPower_W: 30_000, ratedCurrent_A: 50, powerFactor: 0.8 }), {
        ratedPower_W: 22_000,
        ratedCurrent_A: 40,
      }),
    );
    expect([after.ratedPower_W, after.ratedCurrent_A, after.powerFactor]).toEqual([22_000, 40, undefined]);
  });
});

describe('a length', () => {
  it('that was measured is no range and no estimate any more', () => {
    const ranged = withValues(cable, { length_m: 30, lengthMost_m: 40, lengthOrigin: 'estimated' });
    const after = built(found(ranged, { length_m: 35 }));
    expect([after.length_m, after.lengthMost_m, after.lengthOrigin]).toEqual([35, undefined, 'measured']);
    const kept = built(found(ranged, { 'conductor.size': '2 AWG' }));
    expect([kept.length_m, kept.lengthMost_m, kept.lengthOrigin]).toEqual([30, 40, 'estimated']);
  });
});

describe('whose word a value stands on', () => {
  const word = { origin: 'manual', page: '3' } as const;
  it('is that of who found it; what fell away has nobody’s, what stays keeps its own', () => {
    const one = withValues(cable, { 'conductor.size': '2 AWG', 'conductor.metal': 'copper', wave: { impedance_ohm: 80 }, lengthMost_m: 4 });
    const after = built({
      ...found(one, { 'conductor.size': '4 AWG', length_m: 3 }),
      provenance: {
        'conductor.size': word,
        'conductor.sizes': word,
        'wave.impedance_ohm': word,
        lengthMost_m: word,
        lengthOrigin: word,
        'conductor.metal': word,
        'asBuilt.length_m': { typed: '3 m' },
      },
    });
    expect(after.provenance).toEqual({
      'conductor.metal': word,
      'conductor.sizes': word,
      'conductor.size': { origin: 'measured' },
      length_m: { typed: '3 m', origin: 'measured' },
    });
    expect(built(found(cable, { length_m: 3 })).provenance).toEqual({ length_m: { origin: 'measured' } });
  });
});

describe('what was found', () => {
  const looked = {
    ...found(cable, { length_m: 3 }),
    provenance: { 'asBuilt.length_m': { typed: '3 m' }, length_m: { typed: '2 m' }, asBuiltish: {} },
  };
  it('is left out of a copy, with how it was typed', () => {
    expect(withoutAsBuilt(looked)).toEqual({ ...cable, provenance: { length_m: { typed: '2 m' }, asBuiltish: {} } });
    expect(withoutAsBuilt(found(cable, { length_m: 3 }))).toEqual(cable);
    expect('provenance' in withoutAsBuilt(found(cable, { length_m: 3 }))).toBe(false);
    expect(withoutAsBuilt(cable)).toBe(cable);
  });
  it('of a part that takes the values of another stays its own', () => {
    const other: Cable = {
      ...found(cable, { length_m: 9 }),
      length_m: 8,
      provenance: { 'asBuilt.length_m': { typed: '9 m' }, length_m: { typed: '8 m' } },
    };
    expect(withAsBuiltOf(other, looked)).toEqual({
      ...cable,
      length_m: 8,
      asBuilt: { length_m: 3 },
      provenance: { length_m: { typed: '8 m' }, 'asBuilt.length_m': { typed: '3 m' } },
    });
    expect(withAsBuiltOf(other, cable)).toEqual({ ...cable, length_m: 8, provenance: { length_m: { typed: '8 m' } } });
    expect(withAsBuiltOf(cable, found(cable, { length_m: 3 }))).toEqual({ ...cable, asBuilt: { length_m: 3 }, provenance: {} });
  });
});
