import { describe, expect, it } from 'vitest';
import type { CableScope } from '../../../engine/checks/check.ts';
import type { Finding } from '../../../engine/checks/finding.ts';
import { insulationMoisture, insulationVoltage, insulationWall } from '../../../engine/checks/insulationChecks.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE, cableScope } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/**
 * Insulation behind a drive, asked directly: 15 mil everywhere (two makers' guides), 90 % of nominal at the thinnest (ICEA S-95-658, UL 758),
 * the letters of NEC Table 310.4(1), 600 V to 500 V, 750 V to 600 V and 1 kV above (one maker's guide).
 */

type Check = typeof insulationWall;
const asked = (check: Check, cable: Partial<Cable>, more: Partial<CableScope> = {}): readonly Finding[] =>
  check.scope === 'cable' ? check.judge(cableScope({ cable: { ...CABLE, ...cable }, side: 'output', ...more })) : [];
const MIL = 0.0254;

describe('the wall', () => {
  const wall = (mils: number, concentricity_pct?: number) =>
    only(
      asked(insulationWall, {
        insulation: { wall_mm: mils * MIL, ...(concentricity_pct === undefined ? {} : { concentricity_pct }) },
      }),
    );
  it('passes, is a caution or fails at 15 mil, and shows from what', () => {
    expect([wall(15, 100), wall(20, 74.9), wall(14.99, 100)].map((each) => each.verdict)).toEqual(['pass', 'caution', 'fail']);
    const found = wall(30, 80);
    expect([found.quantity, found.unit, found.phrase, found.authority, found.remedies.length, found.assumptions]).toEqual([
      'thinnest wall',
      'mm',
      'wall 24.0 mil',
      'guide',
      2,
      [],
    ]);
    expectClose(found.value ?? 0, 24 * MIL, { relative: 1e-12 }, '24 mil');
    expectClose(found.limit ?? 0, 0.381, { relative: 1e-12 }, '15 mil');
    expectClose(found.margin_pct ?? 0, 60, { relative: 1e-9 }, '9 of 15 over');
    expect(found.working).toEqual(['nominal 30.0 mil (0.76 mm), entered', 'thinnest = nominal × 0.8 = 24.0 mil (0.61 mm)']);
    expect(labels(found)).toEqual(['Conductor size of W', 'Insulation wall of W', 'Thinnest wall of W, of nominal']);
    expect(found.text).toBe(
      'W has 30.0 mil (0.76 mm) nominal, 24.0 mil (0.61 mm) at its thinnest; 15.0 mil (0.38 mm) is asked everywhere.',
    );
  });
  it('by its letters is what the table gives, and cites it', () => {
    const found = only(asked(insulationWall, { insulation: { type: 'XHHW-2' }, conductor: { size: '8 AWG' } }));
    expect(found.working[0]).toMatch(/^nominal 45\.0 mil \(1\.14 mm\), XHHW-2 8 AWG, .+/);
    expect(found.working[0]).not.toContain('entered');
    expect(labels(found)[0]).toBe('Insulation type of W');
    const both = only(asked(insulationWall, { insulation: { type: 'XHHW-2', wall_mm: 1 }, conductor: { size: '8 AWG' } }));
    expect(both.working[0]).toBe('nominal 39.4 mil (1.00 mm), entered');
  });
  it('in a metric project is said in mm, with mil beside it only where the source has mil', () => {
    const metric = { ...cableScope({}).project, units: 'metric' } as const;
    const table = only(asked(insulationWall, { insulation: { type: 'XHHW-2' }, conductor: { size: '8 AWG' } }, { project: metric }));
    expect([table.phrase, table.text]).toEqual([
      'wall 1.029 mm',
      'W has 1.143 mm (45.0 mil) nominal, 1.029 mm at its thinnest; 0.381 mm (15.0 mil) is asked everywhere.',
    ]);
    const iec = only(asked(insulationWall, { insulation: { type: 'XLPE' }, conductor: { size: '16 mm2' } }, { project: metric }));
    expect(iec.working).toEqual([
      'nominal 0.7 mm, XLPE 16 mm2, IEC 60502-1 Tables 5 to 7 (from memory)',
      'thinnest = nominal × 0.9 = 0.63 mm',
    ]);
    // The guides' 0.38 mm is the rounded 15 mil: what is entered as 0.38 mm is a little less, and the sentence shows it.
    const rounded = only(asked(insulationWall, { insulation: { wall_mm: 0.38, concentricity_pct: 100 } }, { project: metric }));
    expect([rounded.verdict, rounded.text]).toEqual([
      'fail',
      'W has 0.38 mm nominal, 0.38 mm at its thinnest; 0.381 mm (15.0 mil) is asked everywhere.',
    ]);
  });
  it('that is not known to be centred is open between 67 and 90 %', () => {
    expect([wall(22.4), wall(22.38), wall(16.7), wall(16.6)].map((each) => each.verdict)).toEqual(['pass', 'open', 'open', 'caution']);
    const found = wall(20);
    expect([fields(found), found.assumptions.map((each) => each.what), found.phrase]).toEqual([
      ['W: insulation.concentricity_pct'],
      ['thinnest wall, of nominal'],
      'thinnest wall?',
    ]);
    expect(found.assumptions[0]?.value).toBe('90 %');
    expect(found.text).toContain('13.4 mil (0.34 mm) in the worst wire');
  });
  it('is open while neither wall nor letters are known, or no table has it', () => {
    expect(fields(only(asked(insulationWall, { conductor: {} })))).toEqual(['W: insulation.type', 'W: conductor.size']);
    const strange = only(asked(insulationWall, { insulation: { type: 'XHHW-2' }, conductor: { size: '7 kcmil' } }));
    expect([strange.verdict, ...fields(strange)]).toEqual(['open', 'W: insulation.wall_mm']);
  });
  it('is not asked of a feeder, nor inside one enclosure', () => {
    expect(asked(insulationWall, {}, { side: 'input' })).toEqual([]);
    expect(only(asked(insulationWall, { kind: 'link' })).verdict).toBe('not-applicable');
  });
});

describe('moisture', () => {
  type Type = NonNullable<Cable['insulation']['type']>;
  const at = (
    type: Type | undefined,
    moisture: 'dry' | 'damp' | 'wet' | undefined,
    {
      side = 'output',
      raceway = 'tray',
      wetRated,
    }: { side?: 'input' | 'output'; raceway?: Cable['installation']['raceway']; wetRated?: boolean } = {},
  ) =>
    only(
      asked(
        insulationMoisture,
        {
          insulation: { ...(type ? { type } : {}), ...(wetRated === undefined ? {} : { wetRated }) },
          installation: { ...(raceway ? { raceway } : {}), ...(moisture ? { moisture } : {}) },
        },
        { side },
      ),
    );
  it('of PVC behind a drive is a note dry, a caution damp, and fails wet', () => {
    const found = (['dry', 'damp', 'wet'] as const).map((place) => at('THWN-2', place));
    expect(found.map((each) => [each.verdict, each.phrase, each.remedies.length, each.authority])).toEqual([
      ['note', 'THWN-2 in dry place', 0, 'guide'],
      ['caution', 'THWN-2 in damp place', 2, 'guide'],
      ['fail', 'THWN-2 in wet place', 2, 'guide'],
    ]);
    expect(found.map((each) => each.text)).toEqual([
      'W is THWN-2, PVC, in a dry place: acceptable dry, with little to spare.',
      'W is THWN-2, PVC, in a damp place: under a drive’s pulses its inception falls below half of the dry value.',
      'W is THWN-2, PVC, in a wet place: under a drive’s pulses its inception falls below half of the dry value.',
    ]);
    expect(labels(found[0] ?? at('TW', 'dry'))).toEqual([
      'Insulation type of W',
      'Whether it is dry, damp or wet around W',
      'What W is laid in',
    ]);
  });
  it('ahead of the drive passes where the letters allow it', () => {
    const found = at('THWN-2', 'wet', { side: 'input' });
    expect([found.verdict, found.phrase, found.inputs.length, found.text]).toEqual([
      'pass',
      'THWN-2, wet',
      3,
      'W is THWN-2 in a wet place; ahead of the drive it sees no pulses.',
    ]);
  });
  it('of letters that are not for wet places fails by the code', () => {
    const found = at('THHN', 'wet', { side: 'input' });
    expect([found.verdict, found.authority, found.source, found.phrase, found.remedies.length, found.inputs.length]).toEqual([
      'fail',
      'code',
      'NEC 310.10(C)',
      'THHN not for wet',
      2,
      3,
    ]);
    const [said, buried] = [at('XHHW-2', 'wet', { wetRated: false }), at('THHN', 'dry', { raceway: 'buried-duct' })];
    expect([said.verdict, said.inputs.length, buried.verdict, buried.text]).toEqual([
      'fail',
      4,
      'fail',
      'W is THHN, which is not rated for wet places, and lies in a wet place (underground).',
    ]);
  });
  it('of cross-linked insulation passes, under the ground too', () => {
    const [dry, buried] = [at('XHHW-2', 'dry'), at('XHHW-2', undefined, { raceway: 'direct-buried' })];
    expect([dry, buried].map((each) => [each.verdict, each.phrase, each.text])).toEqual([
      ['pass', 'XHHW-2, dry', 'W is XHHW-2 (cross-linked or rubber) in a dry place.'],
      ['pass', 'XHHW-2, wet', 'W is XHHW-2 (cross-linked or rubber) in a wet place (underground).'],
    ]);
    expect(dry.inputs).toHaveLength(3);
    expect(at('XHHW-2', 'dry', { wetRated: false }).verdict).toBe('pass');
  });
  it('is open while type or place is not known, and not asked inside one enclosure', () => {
    expect([at(undefined, 'dry').verdict, ...fields(at(undefined, 'dry'))]).toEqual(['open', 'W: insulation.type']);
    expect([at('TW', undefined).verdict, ...fields(at('TW', undefined))]).toEqual(['open', 'W: installation.moisture']);
    expect(only(asked(insulationMoisture, { kind: 'link' })).verdict).toBe('not-applicable');
  });
});

describe('the voltage class', () => {
  const rated = (voltage_V: number | undefined, nominal_V: number | null, type?: Cable['insulation']['type']) =>
    only(
      asked(
        insulationVoltage,
        { insulation: { ...(voltage_V === undefined ? {} : { voltage_V }), ...(type ? { type } : {}) } },
        { nominal_V },
      ),
    );
  it.each([
    [500, 600],
    [600, 750],
    [999, 1000],
    [1001, 2000],
    [1999, 2000],
  ])('on %i V is %i V', (nominal, least) => {
    expect([rated(least, nominal).verdict, rated(least - 0.5, nominal).verdict, rated(least, nominal).limit]).toEqual([
      'pass',
      'caution',
      least,
    ]);
  });
  it.each([480, 690, 1000, 4160])('below the %i V of its own circuit fails (NEC 110.4)', (nominal) => {
    const [enough, low] = [rated(nominal, nominal), rated(nominal - 1, nominal)];
    expect([enough.verdict === 'fail', low.verdict, low.authority]).toEqual([false, 'fail', 'code']);
    expect(low.text).toBe(`W is rated ${nominal - 1} V; its circuit has ${nominal} V.`);
  });
  it('on 4160 V behind a transformer 2 kV do not do: 4160 V is the least', () =>
    expect([rated(2000, 4160).verdict, rated(5000, 4160).verdict, rated(5000, 4160).limit]).toEqual(['fail', 'pass', 4160]));
  it('by its letters below its circuit asks what is printed on it', () => {
    const found = rated(undefined, 2300, 'XHHW-2');
    expect([found.verdict, ...fields(found)]).toEqual(['open', 'W: insulation.voltage_V']);
    expect(rated(600, 2300, 'XHHW-2').verdict).toBe('fail');
  });
  it('of a feeder is that of its circuit, without room for waves', () => {
    const feeder = (voltage_V: number) => only(asked(insulationVoltage, { insulation: { voltage_V } }, { side: 'input', nominal_V: 480 }));
    expect([feeder(480).verdict, feeder(479).verdict, feeder(480).limit, feeder(480).text]).toEqual([
      'pass',
      'fail',
      480,
      'W is rated 480 V; on a 480 V circuit 480 V is asked.',
    ]);
  });
  it('shows from what, and how much room there is: 1000 V where 600 V are asked, two thirds', () => {
    const found = rated(1000, 480);
    expect([found.value, found.unit, found.quantity, found.phrase, found.authority, found.remedies.length]).toEqual([
      1000,
      'V',
      'cable voltage class',
      '1000 V class',
      'guide',
      1,
    ]);
    expectClose(found.margin_pct ?? 0, 200 / 3, { relative: 1e-12 }, 'two thirds');
    expect([found.working, labels(found), found.assumptions]).toEqual([
      ['cable 1000 V; supply 480 V asks 600 V'],
      ['Insulation voltage of W', 'Voltage of S, line to line'],
      [],
    ]);
    expect(found.text).toBe('W is rated 1000 V; on a 480 V drive 600 V is asked.');
  });
  it('by its letters is 600 V, which is said', () => {
    const found = rated(undefined, 480, 'XHHW-2');
    expect([found.verdict, found.value, found.assumptions.map((each) => [each.what, each.value])]).toEqual([
      'pass',
      600,
      [['cable voltage', '600 V']],
    ]);
    expect(found.assumptions[0]?.source).toMatch(/^XHHW-2, .+/);
    expect([labels(found), rated(1000, 480, 'XHHW-2').assumptions]).toEqual([['Insulation type of W', 'Voltage of S, line to line'], []]);
  });
  it('is open without either, or without the supply’s voltage', () => {
    const [bare, dark] = [rated(undefined, 480), rated(600, null)];
    expect([bare.verdict, ...fields(bare), bare.text]).toEqual([
      'open',
      'W: insulation.voltage_V',
      'W: insulation.type',
      'Cannot be judged yet. Not known: insulation voltage of W; insulation type of W.',
    ]);
    expect([dark.verdict, dark.missing, dark.text]).toEqual(['open', [], 'Cannot be judged yet: the nominal voltage at it is not known.']);
  });
  it('is not asked inside one enclosure', () => {
    expect(only(asked(insulationVoltage, { kind: 'link' })).verdict).toBe('not-applicable');
  });
});
