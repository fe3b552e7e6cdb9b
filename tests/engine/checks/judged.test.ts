import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { insertInto, setValue } from '../../../editor/store/edits.ts';
import { CHECKS, type Finding, type LineUp, load, review, startFromFive } from '../../../engine/index.ts';

/**
 * Each check, turned from pass to each of its other verdicts by one value at a time, on a line-up that is in order. What each value must
 * give is the rule of the check's source, named beside it.
 */

const read = (name: string): LineUp => {
  const loaded = load(readFileSync(new URL(`../../../examples/${name}.json`, import.meta.url), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.what);
  return loaded.lineUp;
};
const MILL = read('alder-mill-fan');
const idOf = (lineUp: LineUp, tag: string): string => [...lineUp.elements, ...lineUp.cables].find((each) => each.tag === tag)?.id ?? '';
type Change = readonly [tag: string, path: string, value: unknown];
const changed = (lineUp: LineUp, ...changes: readonly Change[]): LineUp =>
  changes.reduce((before, [tag, path, value]) => setValue(before, idOf(before, tag), path, value), lineUp);
const worstOf = (lineUp: LineUp, check: string): Finding | undefined =>
  review(lineUp).findings.find((each) => each.check === check && each.verdict !== 'not-applicable');

type Case = readonly [check: string, says: string, changes: readonly Change[], verdict: string];
const CASES: readonly Case[] = [
  // Nameplates against the nominal voltage, ± 10 %
  ['voltage-match', 'a 230 V drive on 480 V', [['VFD-1', 'ratedVoltage_V', 230]], 'fail'],
  ['voltage-match', 'a 575 V motor behind a 480 V drive', [['M-1', 'ratedVoltage_V', 575]], 'fail'],
  ['voltage-match', 'a 230 V motor behind a 480 V drive', [['M-1', 'ratedVoltage_V', 230]], 'caution'],
  ['voltage-match', 'a transformer for 4160 V on 12 470 V', [['T-1', 'primaryVoltage_V', 4160]], 'fail'],
  ['part-current', 'a transformer of 15 kVA ahead of 27 A', [['T-1', 'ratedPower_VA', 15_000]], 'fail'],
  ['part-current', 'a transformer of 30 kVA', [['T-1', 'ratedPower_VA', 30_000]], 'pass'],
  ['part-current', 'a transformer of no known size', [['T-1', 'ratedPower_VA', undefined]], 'open'],
  ['voltage-match', 'rated voltage not known', [['VFD-1', 'ratedVoltage_V', undefined]], 'open'],
  // Insulation: two makers' guides, 15 mil everywhere; NEC 310.10(C)
  [
    'insulation-wall',
    'THHN 14 AWG, 15 mil',
    [
      ['W-1', 'insulation.type', 'THHN'],
      ['W-1', 'conductor.size', '14 AWG'],
      ['W-1', 'insulation.concentricity_pct', 90],
    ],
    'caution',
  ],
  ['insulation-wall', '10 mil entered', [['W-1', 'insulation.wall_mm', 0.254]], 'fail'],
  ['insulation-wall', 'type not known', [['W-1', 'insulation.type', undefined]], 'open'],
  [
    'insulation-moisture',
    'THHN wet',
    [
      ['W-1', 'insulation.type', 'THHN'],
      ['W-1', 'installation.moisture', 'wet'],
    ],
    'fail',
  ],
  [
    'insulation-moisture',
    'THWN-2 wet behind a drive',
    [
      ['W-1', 'insulation.type', 'THWN-2'],
      ['W-1', 'installation.moisture', 'wet'],
    ],
    'fail',
  ],
  [
    'insulation-moisture',
    'THWN-2 damp behind a drive',
    [
      ['W-1', 'insulation.type', 'THWN-2'],
      ['W-1', 'installation.moisture', 'damp'],
    ],
    'caution',
  ],
  [
    'insulation-moisture',
    'THWN-2 dry',
    [
      ['W-1', 'insulation.type', 'THWN-2'],
      ['W-1', 'installation.moisture', 'dry'],
    ],
    'note',
  ],
  ['insulation-moisture', 'XHHW-2 wet', [['W-1', 'installation.moisture', 'wet']], 'pass'],
  [
    'insulation-moisture',
    'underground counts as wet',
    [
      ['W-1', 'insulation.type', 'THHN'],
      ['W-1', 'installation.raceway', 'buried-duct'],
    ],
    'fail',
  ],
  ['insulation-voltage', '300 V cable', [['W-1', 'insulation.voltage_V', 300]], 'fail'],
  ['insulation-temperature', 'colder than −40 °C', [['W-1', 'installation.ambientLeast_C', -45]], 'caution'],
  [
    'insulation-temperature',
    'solid conductors that move',
    [
      ['W-1', 'installation.flexing', true],
      ['W-1', 'conductor.build', 'stranded'],
    ],
    'fail',
  ],
  [
    'insulation-temperature',
    'sun, not rated',
    [
      ['W-1', 'installation.sunlight', true],
      ['W-1', 'insulation.sunlightRated', false],
    ],
    'fail',
  ],
  [
    'existing-cable',
    'existing, untested',
    [
      ['W-1', 'installation.existing', true],
      ['W-1', 'installation.tested', false],
    ],
    'open',
  ],
  [
    'existing-cable',
    'existing, tested',
    [
      ['W-1', 'installation.existing', true],
      ['W-1', 'installation.tested', true],
    ],
    'note',
  ],
  // Conductors
  [
    'conductor-metal',
    'aluminium on copper-only',
    [
      ['W-1', 'conductor.metal', 'aluminium'],
      ['VFD-1', 'terminalMetal', 'copper-only'],
    ],
    'fail',
  ],
  [
    'conductor-metal',
    'aluminium, marking not known',
    [
      ['W-1', 'conductor.metal', 'aluminium'],
      ['VFD-1', 'terminalMetal', undefined],
      ['M-1', 'terminalMetal', 'copper-aluminium'],
    ],
    'open',
  ],
  ['smallest-conductor', '16 AWG', [['W-1', 'conductor.size', '16 AWG']], 'caution'],
  ['lead-ampacity', '14 AWG for 33.75 A', [['W-1', 'conductor.size', '14 AWG']], 'fail'],
  ['feeder-ampacity', '14 AWG for 33.75 A', [['F-1', 'conductor.size', '14 AWG']], 'fail'],
  ['lead-ampacity', 'ambient not known', [['W-1', 'installation.ambient_C', undefined]], 'open'],
  [
    'terminal-range',
    '500 kcmil on 350 kcmil lugs',
    [
      ['W-1', 'conductor.size', '500 kcmil'],
      ['M-1', 'terminalLargest', '350 kcmil'],
    ],
    'fail',
  ],
  ['terminal-range', 'range not known', [['M-1', 'terminalLargest', undefined]], 'open'],
  ['conduit-fill', 'six 8 AWG in 1/2', [['F-1', 'installation.racewaySize', '1/2']], 'fail'],
  ['conduit-fill', 'a size no table has', [['F-1', 'installation.racewaySize', '2 1/4']], 'open'],
  ['parallel-sets', 'two sets of 8 AWG', [['W-1', 'conductor.sets', 2]], 'fail'],
  [
    'parallel-sets',
    'two sets of 4/0, alike not known',
    [
      ['W-1', 'conductor.sets', 2],
      ['W-1', 'conductor.size', '4/0 AWG'],
    ],
    'open',
  ],
  // Grounds: NEC Table 250.122
  [
    'protective-earth',
    'no ground in plastic',
    [
      ['F-1', 'grounds.count', 0],
      ['F-1', 'installation.raceway', 'plastic-conduit'],
    ],
    'fail',
  ],
  [
    'protective-earth',
    '14 AWG behind 60 A (10 AWG asked)',
    [
      ['F-1', 'grounds.size', '14 AWG'],
      ['F-1', 'grounds.count', 1],
    ],
    'fail',
  ],
  ['protective-earth', 'steel conduit alone', [['F-1', 'grounds.count', 0]], 'note'],
  [
    'protective-earth',
    'one of three left open',
    [
      ['W-1', 'grounds.count', 3],
      ['W-1', 'to.groundsLanded', 2],
    ],
    'caution',
  ],
  ['protective-earth', 'device ahead has no rating', [['CB-1', 'tripCurrent_A', undefined]], 'open'],
  // Shield
  ['shield-adequacy', 'each phase shielded', [['W-1', 'phasesScreened', true]], 'fail'],
  ['shield-adequacy', 'braid of 60 %', [['W-1', 'shieldCoverage_pct', 60]], 'caution'],
  ['shield-adequacy', 'a shield of 0.5 mm²', [['W-1', 'shieldArea_mm2', 0.5]], 'caution'],
  [
    'symmetry',
    '75 kW on one ground',
    [
      ['M-1', 'ratedPower_W', 75_000],
      ['W-1', 'grounds.arrangement', 'single'],
    ],
    'caution',
  ],
  [
    'symmetry',
    '90 kW, bearings bare',
    [
      ['M-1', 'ratedPower_W', 90_000],
      ['W-1', 'grounds.arrangement', 'symmetrical'],
      ['M-1', 'bearingProtection', 'none'],
    ],
    'caution',
  ],
  ...(['insulated-bearing', 'shaft-ring', 'both', 'common-mode-cores'] as const).map(
    (protection): Case => [
      'symmetry',
      `90 kW, ${protection}`,
      [
        ['M-1', 'ratedPower_W', 90_000],
        ['W-1', 'grounds.arrangement', 'symmetrical'],
        ['M-1', 'bearingProtection', protection],
      ],
      'pass',
    ],
  ),
  // Source
  ['supply-stiffness', 'no reactor, the manual asks', [['VFD-1', 'manual.reactorRequired', true]], 'pass'],
  ['voltage-unbalance', '4 %', [['UTIL', 'unbalance_pct', 4]], 'caution'],
  ['voltage-unbalance', '2.5 %', [['UTIL', 'unbalance_pct', 2.5]], 'note'],
  ['residual-current', 'type A', [['CB-1', 'residualCurrentType', 'A']], 'caution'],
  [
    'residual-current',
    'type B, leakage over 30 %',
    [
      ['CB-1', 'residualCurrentType', 'B'],
      ['CB-1', 'residualCurrent_A', 0.03],
      ['VFD-1', 'leakageCurrent_A', 0.02],
    ],
    'caution',
  ],
  ['fault-rating', '5 kA breaker', [['CB-1', 'faultRating_A', 5000]], 'fail'],
  ['fault-rating', 'another device than the marking names', [['VFD-1', 'faultRatingDeviceDrawn', false]], 'fail'],
  ['fault-rating', 'utility level not known: taken as unlimited', [['UTIL', 'faultCurrent_A', undefined]], 'pass'],
  ['input-terminals', '30 A switch for 27 A (31.05 A)', [['CB-1', 'ratedCurrent_A', 30]], 'fail'],
  [
    'supply-earthing',
    'not grounded, filter in',
    [
      ['T-1', 'secondaryEarthing', 'ungrounded'],
      ['VFD-1', 'builtInFilter', true],
      ['VFD-1', 'filterJumpers', 'in'],
    ],
    'fail',
  ],
  ['feeder-drop', 'the manual asks for 99.5 % at low line', [['VFD-1', 'manual.inputVoltageLeast_pct', 99.5]], 'fail'],
  ['feeder-drop', 'a transformer of no known impedance ahead', [['T-1', 'impedance_pct', undefined]], 'open'],
  ['lead-drop', 'a mile of it', [['W-1', 'length_m', 1600]], 'fail'],
  // All cable behind a drive
  ['manual-limits', 'longer than the manual allows', [['VFD-1', 'manual.lengthShielded_m', 5]], 'fail'],
  ['manual-limits', 'length not entered', [['VFD-1', 'manual.lengthShielded_m', undefined]], 'open'],
  [
    'charging-current',
    'a small drive on much cable',
    [
      ['VFD-1', 'outputCurrent_A', 12],
      ['M-1', 'ratedCurrent_A', 11],
      ['W-1', 'length_m', 200],
      ['VFD-1', 'carrier_Hz', 16_000],
    ],
    'caution',
  ],
  ['charging-current', 'carrier not known', [['VFD-1', 'carrier_Hz', undefined]], 'open'],
  // Routing and switching
  [
    'separation',
    '100 mm from control, no divider',
    [
      ['W-1', 'installation.toControl_mm', 100],
      ['W-1', 'installation.divider', false],
    ],
    'caution',
  ],
  ['separation', 'distance not known', [['W-1', 'installation.toControl_mm', undefined]], 'open'],
  ['shared-raceway', 'feeder and lead in one', [['W-1', 'installation.sharedWith', [idOf(MILL, 'F-1')]]], 'caution'],
  ['spare-conductors', 'left open', [['W-1', 'installation.spares', 'left-open']], 'note'],
  ['output-capacitor', 'a capacitor at the motor', [['M-1', 'capacitor', true]], 'fail'],
  ['auxiliary-cores', 'brake from the drive', [['M-1', 'brake.fedFrom', 'drive-output']], 'fail'],
  [
    'auxiliary-cores',
    'cores unshielded, suspended load',
    [
      ['W-1', 'auxiliary', [{ use: 'brake', screened: false }]],
      ['M-1', 'brake.holdsLoad', true],
    ],
    'fail',
  ],
  [
    'auxiliary-cores',
    'cores of 300 V',
    [['W-1', 'auxiliary', [{ use: 'control', screened: true, screenLanded: 'both', insulation_V: 300 }]]],
    'fail',
  ],
];

describe('each check from its values', () => {
  it.each(CASES)('%s: %s', (check, _says, changes, verdict) => {
    const found = worstOf(changed(MILL, ...changes), check);
    expect([check, found?.verdict]).toEqual([check, verdict]);
  });

  it('covers every check that judges a value of the document', () => {
    const covered = new Set([...CASES.map(([check]) => check), 'topology', 'shield-present', 'shield-continuity', 'shield-landing']);
    const elsewhere = [
      'several-motors',
      'bypass',
      'output-disconnect',
      'motor-isolation',
      'output-contactor',
      'input-shield',
      'harmonics',
      'critical-length',
      'motor-peak-voltage',
      'carrier-window',
      'output-transformer',
      'insulation-inception',
      'common-mode',
    ];
    expect(CHECKS.map((check) => check.slug).filter((slug) => !covered.has(slug) && !elsewhere.includes(slug))).toEqual([]);
  });
});

describe('several motors, switches, ways around', () => {
  const LINE = read('fennel-lane-capping');
  const AIR = read('quillback-hall-air');
  it.each([
    [LINE, 'several-motors', [['VFD-1', 'outputCurrent_A', 15]], 'fail'],
    [LINE, 'several-motors', [['M-1', 'overload', 'none']], 'fail'],
    [LINE, 'several-motors', [['M-1', 'switchedAlone', undefined]], 'open'],
    [LINE, 'output-disconnect', [['MS-1', 'ratedCurrent_A', 1]], 'fail'],
    [AIR, 'bypass', [['K-3', 'interlock', 'none']], 'fail'],
    [AIR, 'bypass', [['K-3', 'interlock', undefined]], 'open'],
    [AIR, 'output-contactor', [['K-2', 'opensAtZeroCurrent', false]], 'caution'],
  ] as const)('%#', (lineUp, check, changes, verdict) => {
    expect(worstOf(changed(lineUp, ...(changes as readonly Change[])), check)?.verdict).toBe(verdict);
  });

  it('the feeder of a drive with a way around carries the larger need (NEC 430.122(C)), and says in which case', () => {
    // 25 hp at 460 V: 34 A × 1.25 = 42.5 A; a drive of 20 A asks 25 A only.
    const found = worstOf(changed(AIR, ['VFD-1', 'inputCurrent_A', 20]), 'feeder-ampacity');
    expect([found?.limit, found?.case]).toEqual([42.5, 'bypass']);
  });

  it('the way around is looked at in both states: filters and bare cable in it', () => {
    const bare = {
      ...AIR,
      cables: AIR.cables.map((each) =>
        each.from.element === idOf(AIR, 'K-3') && each.from.port === 'load'
          ? {
              ...each,
              kind: 'cable' as const,
              construction: 'multicore' as const,
              installation: { ...each.installation, raceway: 'tray' as const },
            }
          : each,
      ),
    };
    const found = review(bare).findings.filter((each) => each.check === 'bypass' && each.id.endsWith('/shield'));
    expect(found.map((each) => each.verdict)).toEqual(['caution']);
    // A filter between where the ways meet and the motor lies in both.
    const made = insertInto(AIR, idOf(AIR, 'W-1A'), 'filter', { x_mm: 0, y_mm: 0 });
    const filtered = setValue(made?.lineUp ?? AIR, made?.id ?? '', 'role', 'dvdt');
    expect(review(filtered).findings.find((each) => each.id.startsWith('bypass/') && each.id.endsWith('/filter'))?.verdict).toBe('caution');
    expect(review(AIR).findings.some((each) => each.id.startsWith('bypass/') && each.id.endsWith('/filter'))).toBe(false);
  });

  it('two switches in series are each judged, and their contacts wired in series', () => {
    const pumps = read('heron-weir-pumps');
    const site = changed(pumps, ['DS-2', 'earlyBreakContact', 'absent']);
    expect(worstOf(site, 'output-disconnect')?.verdict).toBe('caution');
  });
});

describe('what isolates the motor', () => {
  const CLEAN = read('vantage-cleanroom-air');
  const PUMP = read('heron-weir-pumps');
  const said = (lineUp: LineUp, ...changes: readonly Change[]) => worstOf(changed(lineUp, ...changes), 'motor-isolation');
  const marked = (tag: string, withinSight: boolean | undefined, lockable: boolean | undefined): readonly Change[] => [
    [tag, 'withinSight', withinSight],
    [tag, 'lockable', lockable],
  ];

  // NEC 430.102(B): in sight of the motor; out of sight only by exception, and then lockable (110.25).
  it.each([
    [true, true, 'pass'],
    [false, true, 'note'],
    [true, false, 'caution'],
    [false, false, 'fail'],
    [undefined, true, 'open'],
    [undefined, false, 'open'],
    [true, undefined, 'open'],
    [false, undefined, 'open'],
  ] as const)('in sight %s, lockable %s: %s by the NEC', (sight, lock, verdict) => {
    expect(said(MILL, ...marked('CB-1', sight, lock))?.verdict).toBe(verdict);
  });

  // IEC 60204-1 5.3.3, 5.6: it can be locked open, seen or not.
  it.each([
    [undefined, true, 'pass'],
    [false, true, 'pass'],
    [true, false, 'caution'],
    [false, false, 'fail'],
    [undefined, false, 'open'],
    [true, undefined, 'open'],
  ] as const)('in sight %s, lockable %s: %s by IEC 60204-1', (sight, lock, verdict) => {
    expect(said(CLEAN, ...marked('Q-1', false, false), ...marked('Q-2', sight, lock))?.verdict).toBe(verdict);
  });

  it('one of several is enough, and one that nothing is known of may be it', () => {
    expect(said(PUMP, ...marked('DS-2', false, false))?.verdict).toBe('open');
    expect(said(PUMP, ...marked('DS-2', false, false), ...marked('CB-2', false, true))?.verdict).toBe('note');
    expect(said(PUMP, ...marked('DS-2', false, false), ...marked('CB-2', false, false))?.verdict).toBe('fail');
  });

  it('a fuse in its holder is none, and where none is drawn it is asked', () => {
    expect(said(MILL, ['CB-1', 'device', 'fuse'])).toMatchObject({ verdict: 'open', missing: [] });
    expect(said(MILL, ['CB-1', 'device', undefined])?.missing.map(({ field }) => field)).toEqual(['device']);
  });
});

describe('a line-up from five numbers', () => {
  const grid = [0.75, 5, 22, 45, 160].flatMap((kW) =>
    [208, 240, 400, 480, 600, 690].flatMap((voltage_V) =>
      [0, 5, 64, 400].flatMap((length_m) =>
        (['dry', 'wet'] as const).flatMap((place) =>
          (['us', 'iec'] as const).map((basis) => ({ power_W: kW * 1000, voltage_V, length_m, place, basis })),
        ),
      ),
    ),
  );
  it(`${grid.length} of them: each is a run that is judged, its leads carry the motor, and nothing passes that was not said or assumed`, () => {
    for (const five of grid) {
      const lineUp = startFromFive(five);
      const { findings, runs } = review(lineUp);
      expect(runs.length).toBe(1);
      const lead = findings.find((each) => each.check === 'lead-ampacity' && each.verdict !== 'not-applicable');
      if (lead) expect([five, lead.verdict === 'fail']).toEqual([five, false]);
      expect(findings.some((each) => each.verdict === 'open')).toBe(true);
      // What only someone on site can say is asked, never taken for granted.
      for (const check of ['output-capacitor', 'shared-raceway', 'protective-earth'])
        expect(findings.filter((each) => each.check === check && each.verdict === 'pass')).toEqual([]);
    }
  });
});
