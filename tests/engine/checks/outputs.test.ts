import { describe, expect, it } from 'vitest';
import type { Check, OutputScope } from '../../../engine/checks/check.ts';
import type { Finding } from '../../../engine/checks/finding.ts';
import { carrierWindow, chargingCurrentCheck, manualLimits, outputTransformer } from '../../../engine/checks/outputChecks.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { Element, ElementOf } from '../../../engine/lineup/elements.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { between, CABLE, cableScope, DRIVE, MOTOR, SUPPLY } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/** What hangs on all cable behind a drive together: each limit of its manual at its edge, and which of several holds. */

const { project } = cableScope();
const BARE: Cable = { ...CABLE, length_m: 60 };
const SHIELDED: Cable = { ...BARE, tag: 'X', construction: 'copper-tape' };
const with_ = (manual: ElementOf<'drive'>['manual'], more: Partial<ElementOf<'drive'>> = {}): ElementOf<'drive'> => ({
  ...DRIVE,
  manual,
  ...more,
});
const asked = (check: Check, more: Partial<Omit<OutputScope, 'tree'>>): readonly Finding[] => {
  const scope = {
    project,
    basis: 'us',
    drive: DRIVE,
    cables: [SHIELDED],
    parts: [MOTOR],
    motors: [MOTOR],
    motorsSeen: [1],
    between: [],
    nominal_V: 480,
    voltageFrom: SUPPLY,
    ...more,
  } satisfies Omit<OutputScope, 'tree'>;
  return check.scope === 'output' ? check.judge(scope as unknown as OutputScope) : [];
};

const link = (from: string, to: string): Cable => ({
  ...CABLE,
  id: `${from}-${to}`,
  kind: 'link',
  from: { element: from, port: 'load' },
  to: { element: to, port: 'line' },
});
/** Drive, part, cable, motor: what the cable needs so that the part stands ahead of it. */
const behindPart = ({ id }: Element, cable: Cable): Pick<OutputScope, 'cables'> => ({
  cables: [link('e1', id), { ...cable, from: { element: id, port: 'load' } }],
});
/** Drive, cable, part, motor. */
const beforePart = ({ id }: Element, cable: Cable): Pick<OutputScope, 'cables'> => {
  const own = { ...cable, to: { element: id, port: 'line' } } as const;
  return { cables: [own, link(id, 'e2')] };
};

describe('the length that a manual allows', () => {
  const length = (more: Partial<Omit<OutputScope, 'tree'>>) => only(asked(manualLimits, more));
  const BOTH = { lengthShielded_m: 50, lengthUnshielded_m: 100 };
  it('is kept to the metre, and each set counts', () => {
    const of = (length_m: number, sets = 1) =>
      length({ drive: with_(BOTH), cables: [{ ...SHIELDED, length_m, conductor: { ...SHIELDED.conductor, sets } }] });
    expect([of(50).verdict, of(50.01).verdict, of(25, 2).verdict, of(25.01, 2).verdict]).toEqual(['pass', 'fail', 'pass', 'fail']);
    const found = of(40);
    expect([found.value, found.limit, found.unit, found.authority, found.id]).toEqual([
      40,
      50,
      'm',
      'manual',
      'manual-limits/element/e1/length',
    ]);
    expectClose(found.margin_pct ?? 0, 20, { relative: 1e-12 }, 'a fifth is left');
    expect([found.remedies.length, of(60).remedies.length]).toEqual([0, 3]);
    expect([of(40).working, of(25, 2).working]).toEqual([['X 40.0 m = 40.00 m'], ['X 2 × 25.0 m = 50.00 m']]);
    expect(found.source).toContain('the manual of D');
  });
  it('is that for the kind of cable', () => {
    expect(length({ drive: with_(BOTH), cables: [{ ...BARE, length_m: 90 }] }).limit).toBe(100);
    expect(length({ drive: with_(BOTH), cables: [{ ...BARE, length_m: 90 }] }).text).toContain('of unshielded cable');
    expect(length({ drive: with_(BOTH), cables: [{ ...SHIELDED, length_m: 40 }] }).text).toContain('of shielded cable');
  });
  it('is the shorter where only some of it is shielded', () => {
    const mixed = (long: number, manual: ElementOf<'drive'>['manual']) =>
      length({
        drive: with_(manual),
        cables: [
          { ...SHIELDED, length_m: 30 },
          { ...BARE, length_m: long },
        ],
      });
    expect([mixed(20, BOTH).verdict, mixed(21, BOTH).verdict, mixed(21, BOTH).limit]).toEqual(['pass', 'fail', 50]);
    expect(mixed(21, BOTH).text).toContain('of partly shielded cable');
    expect(labels(mixed(20, BOTH))).toEqual(
      expect.arrayContaining(['Shielded length in the manual of D', 'Unshielded length in the manual of D', 'Construction of W']),
    );
    // One of the two alone can break it, but not keep it.
    expect([mixed(20, { lengthShielded_m: 50 }).verdict, mixed(21, { lengthShielded_m: 50 }).verdict]).toEqual(['open', 'fail']);
    expect(fields(mixed(20, { lengthShielded_m: 50 }))).toEqual(['D: manual.lengthUnshielded_m']);
    expect(fields(mixed(20, { lengthUnshielded_m: 50 }))).toEqual(['D: manual.lengthShielded_m']);
  });
  it('is another with a reactor or filter at the drive, not with a terminator at the motor', () => {
    const behind = (part: Element, manual: ElementOf<'drive'>['manual'] = { ...BOTH, lengthWithReactor_m: 200 }) =>
      length({ drive: with_(manual), parts: [part, MOTOR], ...behindPart(part, SHIELDED) });
    const filter = (role?: 'dvdt' | 'sine' | 'terminator'): Element => ({ id: 'z', kind: 'filter', tag: 'Z', ...(role ? { role } : {}) });
    expect(
      [behind({ id: 'l', kind: 'reactor', tag: 'L' }), behind(filter('dvdt')), behind(filter('sine'))].map((each) => each.limit),
    ).toEqual([200, 200, 200]);
    expect(behind(filter('sine')).text).toContain('with a reactor or filter');
    expect(labels(behind(filter('sine')))[0]).toBe('Length with a reactor in the manual of D');
    expect([behind(filter('terminator')), behind(filter()), behind(MOTOR)].map((each) => [each.verdict, each.limit])).toEqual([
      ['fail', 50],
      ['fail', 50],
      ['fail', 50],
    ]);
    expect(behind(filter('sine'), BOTH).limit).toBe(50);
    // Nothing lies ahead of it: what is allowed without one is not asked.
    expect(behind(filter('sine'), { lengthWithReactor_m: 200 }).verdict).toBe('pass');
    const said = behind(filter('sine')).text.replaceAll('\u00a0', ' ');
    expect(said).toBe('197 ft of cable hang on D; its manual allows 656 ft with a reactor or filter.');
    // Without one at all its length is nothing to the drive, even if it were the shorter.
    const none = length({ drive: with_({ ...BOTH, lengthWithReactor_m: 10 }), cables: [{ ...SHIELDED, length_m: 40 }] });
    expect([none.verdict, none.limit, none.text.replaceAll('\u00a0', ' ')]).toEqual([
      'pass',
      50,
      '131 ft of shielded cable hang on D; its manual allows 164 ft.',
    ]);
  });
  it('is that with a reactor for what lies behind it alone: a reactor at the motor changes nothing', () => {
    const reactor: Element = { id: 'l', kind: 'reactor', tag: 'L' };
    const manual = { ...BOTH, lengthWithReactor_m: 200 };
    const at = (length_m: number, of = manual as ElementOf<'drive'>['manual']) =>
      length({ drive: with_(of), parts: [reactor, MOTOR], ...beforePart(reactor, { ...SHIELDED, length_m }) });
    expect([at(50).verdict, at(51).verdict, at(51).limit]).toEqual(['pass', 'fail', 50]);
    // A short piece to the reactor, a long one behind it: each within its own.
    const pieces = (ahead_m: number, behind_m: number, of = manual as ElementOf<'drive'>['manual']) =>
      length({
        drive: with_(of),
        parts: [reactor, MOTOR],
        cables: [
          { ...SHIELDED, tag: 'Y', length_m: ahead_m, to: { element: 'l', port: 'line' } },
          { ...SHIELDED, length_m: behind_m, from: { element: 'l', port: 'load' } },
        ],
      });
    expect([pieces(3, 197), pieces(3, 198), pieces(51, 10)].map(({ verdict, limit }) => [verdict, limit])).toEqual([
      ['pass', 200],
      ['fail', 200],
      ['fail', 50],
    ]);
    expect(pieces(51, 10).text).toContain('of shielded cable hang on D ahead of a reactor or filter');
    expect(fields(pieces(3, 100, { lengthWithReactor_m: 200 }))).toEqual(['D: manual.lengthShielded_m']);
    // At the very end of one, the other is open still.
    expect(pieces(3, 197, { lengthWithReactor_m: 200 }).verdict).toBe('open');
    // Of two that are kept the nearer is told: 49 of 50 m, then 153 of 200 m beside 3 of 50 m.
    expect([pieces(49, 10), pieces(3, 150)].map((each) => each.limit)).toEqual([50, 200]);
    // On one branch of two it is no help to the other.
    const other: Cable = { ...SHIELDED, tag: 'Y', length_m: 60, to: { element: 'm2', port: 'line' } };
    const { cables } = behindPart(reactor, { ...SHIELDED, length_m: 60 });
    expect(length({ drive: with_(manual), parts: [reactor, MOTOR], cables: [...cables, other] }).limit).toBe(50);
  });
  it('is open while it, a length, the sets or the build of a cable are not known', () => {
    expect(fields(length({ drive: with_(undefined) }))).toEqual(['D: manual.lengthShielded_m']);
    expect(fields(length({ drive: with_({}), cables: [BARE] }))).toEqual(['D: manual.lengthUnshielded_m']);
    const { length_m: _, ...endless } = SHIELDED;
    expect(fields(length({ drive: with_(BOTH), cables: [endless] }))).toEqual(['X: length_m']);
    expect(fields(length({ drive: with_(BOTH), cables: [{ ...SHIELDED, conductor: { size: '2 AWG' } }] }))).toEqual(['X: conductor.sets']);
    // In a steel pipe it may still be shielded cable, of which less is allowed.
    const { construction: __, ...unbuilt } = BARE;
    expect([
      length({ drive: with_(BOTH), cables: [SHIELDED, unbuilt] }).verdict,
      fields(length({ drive: with_(BOTH), cables: [unbuilt] })),
    ]).toEqual(['open', ['W: construction']]);
  });
  it('shows what it was made from, and is one finding of its own beside that for an emission category', () => {
    const cables = [{ ...SHIELDED, length_m: 30, lengthMost_m: 40 }];
    const found = length({ drive: with_({ ...BOTH, page: '12' }), cables });
    expect([found.value, found.text.endsWith('m.') || found.text.endsWith('ft.')]).toEqual([40, true]);
    expect(labels(found)).toEqual([
      'Shielded length in the manual of D',
      'Page of the manual of D',
      'Length of X, one way',
      'Greatest length of X',
      'Sets in parallel of X',
      'Construction of X',
    ]);
    const { construction: _, ...unbuilt } = BARE;
    for (const open of [length({ drive: with_({}), cables }), length({ drive: with_(BOTH), cables: [unbuilt] })])
      expect(open.id).toBe('manual-limits/element/e1/length');
    expect(length({ drive: with_({}), cables }).text).toContain('how much its manual allows is not entered');
    expect(fields(length({ drive: with_(BOTH), cables: [SHIELDED, { ...SHIELDED, tag: 'Y', conductor: {} }] }))).toEqual([
      'Y: conductor.sets',
    ]);
  });
  it('is not asked without cable; a link is none, and has no length to ask for', () => {
    const { construction: _, length_m: __, ...unbuilt } = CABLE;
    const link: Cable = { ...unbuilt, kind: 'link', conductor: {} };
    expect([length({ cables: [] }).verdict, length({ cables: [link] }).verdict]).toEqual(['not-applicable', 'not-applicable']);
    const beside = length({ drive: with_(BOTH), cables: [{ ...SHIELDED, length_m: 50 }, link] });
    expect([beside.verdict, beside.value, beside.working]).toEqual(['pass', 50, ['X 50.0 m = 50.00 m']]);
    const { length_m: ___, ...endless } = SHIELDED;
    expect(fields(length({ drive: with_(BOTH), cables: [endless, link] }))).toEqual(['X: length_m']);
  });
});

describe('the length for an emission category', () => {
  const rows: NonNullable<NonNullable<ElementOf<'drive'>['manual']>['emcLengths']> = [
    { category: 'C2', carrier_Hz: 8000, length_m: 25 },
    { category: 'C2', carrier_Hz: 4000, length_m: 50 },
    { category: 'C3', length_m: 100 },
  ];
  const emission = (
    category: 'C2' | 'C3' | 'C1' | 'none' | undefined,
    carrier_Hz: number | undefined,
    length_m = 50,
    emcLengths = rows,
  ) => {
    const { carrier_Hz: _, ...drive } = with_({ lengthShielded_m: 500, emcLengths });
    return asked(manualLimits, {
      project: { ...project, units: 'metric', ...(category ? { emcCategory: category } : { emcCategory: undefined as never }) },
      drive: carrier_Hz === undefined ? drive : { ...drive, carrier_Hz },
      cables: [{ ...SHIELDED, length_m }],
    }).filter((each) => each.id.endsWith('/emission'));
  };
  it('is that of the next carrier at or above ours', () => {
    expect([2000, 4000, 4001, 8000].map((carrier) => only(emission('C2', carrier)).limit)).toEqual([50, 50, 25, 25]);
    expect([emission('C2', 4000, 50), emission('C2', 4000, 50.1)].map((each) => only(each).verdict)).toEqual(['pass', 'fail']);
    const found = only(emission('C2', 4000, 40));
    expect([found.value, found.unit, found.id, found.remedies.length]).toEqual([40, 'm', 'manual-limits/element/e1/emission', 0]);
    expectClose(found.margin_pct ?? 0, 20, { relative: 1e-12 }, 'by hand');
    expect(found.text.replaceAll('\u00a0', ' ')).toBe('Category C2 is asked; D keeps it to 50 m at 4.0 kHz, and 40 m are connected.');
    expect(found.working).toEqual(['X 40.0 m = 40.00 m']);
    expect(labels(found)).toEqual(['Carrier of D', 'Length of X, one way', 'Sets in parallel of X']);
    expect(only(emission('C2', 4000, 60)).remedies).toHaveLength(3);
  });
  it('a row without a carrier holds for all', () => {
    expect([only(emission('C3', undefined, 100)).verdict, only(emission('C3', 16_000, 100.1)).verdict]).toEqual(['pass', 'fail']);
    expect(only(emission('C3', 16_000, 90)).text.replaceAll('\u00a0', ' ')).toBe(
      'Category C3 is asked; D keeps it to 100 m, and 90 m are connected.',
    );
    // But only where none is nearer.
    const both: typeof rows = [...rows, { category: 'C2', length_m: 10 }];
    expect([only(emission('C2', 4000, 40, both)).limit, only(emission('C2', 9000, 40, both)).limit]).toEqual([50, 10]);
  });
  it('is that of the nearest of several, whichever way they are listed, and counts no link', () => {
    const many = [16_000, 4000, 8000, 5000].map((carrier_Hz) => ({ category: 'C2' as const, carrier_Hz, length_m: carrier_Hz / 100 }));
    expect([3000, 4500, 6000, 9000].map((carrier) => only(emission('C2', carrier, 1, many)).limit)).toEqual([40, 50, 80, 160]);
    const found = asked(manualLimits, {
      project: { ...project, emcCategory: 'C3' },
      drive: with_({ lengthShielded_m: 500, emcLengths: rows, page: '31' }),
      cables: [link('e1', 'k'), { ...SHIELDED, lengthMost_m: 70 }],
    }).filter((each) => each.id.endsWith('/emission'));
    expect(only(found).working).toEqual(['X 70.0 m = 70.00 m']);
    expect(labels(only(found))).toEqual(expect.arrayContaining(['Page of the manual of D', 'Greatest length of X']));
  });
  it('is open where the carrier or the row is not known', () => {
    expect([only(emission('C2', undefined)).verdict, fields(only(emission('C2', undefined)))]).toEqual([
      'open',
      ['D: carrier_Hz', 'D: manual.emcLengths'],
    ]);
    expect(fields(only(emission('C2', 9000)))).toEqual(['D: manual.emcLengths']);
    const bare = asked(manualLimits, { project: { ...project, emcCategory: 'C2' }, drive: DRIVE }).map((each) => fields(each).join());
    expect(bare).toEqual(['D: manual.lengthShielded_m', 'D: manual.emcLengths']);
    expect(fields(only(emission('C1', 4000)))).toEqual(['D: manual.emcLengths']);
    const both: typeof rows = [...rows, { category: 'C2', length_m: 10 }];
    expect(fields(only(emission('C2', undefined, 5, both)))).toEqual(['D: carrier_Hz']);
  });
  it('is not asked where no category is', () => expect([emission(undefined, 4000), emission('none', 4000)]).toEqual([[], []]));
});

describe('a filter’s window', () => {
  const filter = (least?: number, most?: number, role?: 'dvdt' | 'sine' | 'terminator'): Element => ({
    id: 'z',
    kind: 'filter',
    tag: 'Z',
    ...(role ? { role } : {}),
    ...(least ? { carrierLeast_Hz: least } : {}),
    ...(most ? { carrierMost_Hz: most } : {}),
  });
  const at = (carrier_Hz: number | undefined, part: Element) =>
    only(asked(carrierWindow, { drive: { ...DRIVE, ...(carrier_Hz === undefined ? {} : { carrier_Hz }) }, parts: [part, MOTOR] }));
  it('whose least is above its most contradicts itself: no carrier passes or fails by it', () => {
    for (const carrier of [1000, 4000, 9000, undefined]) {
      const found = at(carrier, filter(8000, 2000, 'sine'));
      expect([found.verdict, found.phrase]).toEqual(['open', 'least above most']);
      expect(found.text).toBe(
        'Cannot be judged: least carrier of Z, 8\u00a0kHz; greatest carrier of Z, 2\u00a0kHz. The two contradict each other.',
      );
    }
  });
  it('holds at both of its edges', () => {
    expect([1999, 2000, 8000, 8001].map((carrier) => at(carrier, filter(2000, 8000, 'sine')).verdict)).toEqual([
      'fail',
      'pass',
      'pass',
      'fail',
    ]);
    expect([at(1000, filter(2000, 8000)).limit, at(9000, filter(2000, 8000)).limit, at(4000, filter(2000, 8000)).limit]).toEqual([
      2000, 8000, 8000,
    ]);
    const found = at(1000, filter(2000, 8000, 'dvdt'));
    expect([found.quantity, found.value, found.unit, found.phrase, found.working, found.remedies.length]).toEqual([
      'carrier',
      1000,
      'Hz',
      '1.0 kHz',
      ['1.000 kHz against 2.000 kHz'],
      2,
    ]);
    expect(found.text).toBe('D runs at 1.00 kHz; Z is made for 2.00 to 8.00 kHz.');
    expect(at(4000, filter(2000, 8000)).remedies).toEqual([]);
    expect(labels(found)).toEqual(['Carrier of D', 'Least carrier of Z', 'Greatest carrier of Z']);
  });
  it('half of it may break, never pass', () => {
    expect(
      [at(1000, filter(2000)), at(4000, filter(2000)), at(9000, filter(undefined, 8000)), at(4000, filter(undefined, 8000))].map(
        (each) => each.verdict,
      ),
    ).toEqual(['fail', 'open', 'fail', 'open']);
    expect(at(1000, filter(2000)).text).toContain('2.00 to ? kHz');
    expect(at(9000, filter(undefined, 8000)).text).toContain('? to 8.00 kHz');
    expect(fields(at(undefined, filter()))).toEqual(['Z: carrierLeast_Hz', 'Z: carrierMost_Hz', 'D: carrier_Hz']);
    expect(at(undefined, filter(2000, 8000)).verdict).toBe('open');
  });
  it('is asked of filters on the output alone, not of terminators', () => {
    expect([at(4000, filter(2000, 8000, 'terminator')).verdict, at(4000, MOTOR).verdict]).toEqual(['not-applicable', 'not-applicable']);
  });
});

describe('a transformer behind a drive', () => {
  const transformer = (driveDuty?: boolean): Element => ({
    id: 't',
    kind: 'transformer',
    tag: 'T',
    ...(driveDuty === undefined ? {} : { driveDuty }),
  });
  const sine: Element = { id: 'z', kind: 'filter', tag: 'Z', role: 'sine' };
  const of = (...parts: readonly Element[]) =>
    only(
      asked(outputTransformer, {
        parts: [...parts, MOTOR],
        cables: parts.map(({ id }, i) => link(parts[i - 1]?.id ?? 'e1', id)),
      }),
    );
  it('is not filtered by what stands on another branch', () => {
    const branches = [link('e1', 'z'), link('e1', 't')];
    const found = only(asked(outputTransformer, { parts: [sine, transformer(true), MOTOR], cables: branches }));
    expect([found.verdict, found.phrase]).toEqual(['fail', 'no sine filter ahead']);
  });
  it('wants a sine filter ahead of it and its maker’s word', () => {
    expect([of(sine, transformer(true)).verdict, of(sine, transformer(false)).verdict, of(sine, transformer()).verdict]).toEqual([
      'pass',
      'fail',
      'open',
    ]);
    expect(fields(of(sine, transformer()))).toEqual(['T: driveDuty']);
    for (const parts of [[transformer(true)], [transformer(true), sine], [{ ...sine, role: 'dvdt' } as Element, transformer(true)]])
      expect([of(...parts).verdict, of(...parts).phrase]).toEqual(['fail', 'no sine filter ahead']);
    expect([of(sine, transformer(true)).phrase, of(sine, transformer(false)).phrase]).toEqual(['made for it', 'not made for it']);
    expect([
      of(sine, transformer(true)).remedies.length,
      of(sine, transformer(false)).remedies.length,
      of(transformer()).remedies.length,
    ]).toEqual([0, 2, 2]);
    expect([of(sine, transformer(true)).text, of(sine, transformer(false)).text].map((text) => /maker (.*) it/.exec(text)?.[1])).toEqual([
      'allows',
      'does not allow',
    ]);
    expect(labels(of(sine, transformer(true)))).toHaveLength(1);
    const pulsed = asked(outputTransformer, {
      drive: { ...DRIVE, carrier_Hz: 4000 },
      parts: [transformer(true), MOTOR],
      cables: [link('e1', 't')],
    });
    expect(labels(only(pulsed))).toEqual([...labels(of(sine, transformer(true))), 'Carrier of D']);
    expect(of(sine).verdict).toBe('not-applicable');
  });
});

describe('charging current', () => {
  const LINE: Cable = { ...SHIELDED, insulation: { type: 'XHHW-2' }, length_m: 30 };
  const fast = { ...DRIVE, carrier_Hz: 4000, outputCurrent_A: 77, riseTime_s: 1e-7 };
  const charged = (more: Partial<Omit<OutputScope, 'tree'>> = {}) =>
    only(asked(chargingCurrentCheck, { drive: fast, cables: [LINE], motors: [{ ...MOTOR, ratedCurrent_A: 60 }], ...more }));
  it('goes with the square root of motor² and charging², of the drive’s rating', () => {
    const found = charged();
    const [motor_A = 0, effective_A = 0, together_A = 0] = [...(found.working[3] ?? '').matchAll(/[\d.]+/g)]
      .map(Number)
      .filter((each) => each !== 2);
    expectClose(Math.hypot(motor_A, effective_A), together_A, { absolute: 0.02 }, 'by hand');
    expectClose(found.value ?? 0, (100 * together_A) / 77, { relative: 1e-3 }, 'of 77 A');
    expect([motor_A, found.limit, found.unit, found.case, found.band?.confidence]).toEqual([60, 100, '%', 'rated', 'rough']);
    expectClose(found.band?.low ?? 0, (100 * Math.hypot(60, 0.6 * effective_A)) / 77, { relative: 1e-3 }, '− 40 %');
    expectClose(found.band?.high ?? 0, (100 * Math.hypot(60, 1.4 * effective_A)) / 77, { relative: 1e-3 }, '+ 40 %');
  });
  it('over the rating it is a caution, within the band of it or near it a note, and never a fail', () => {
    const of = (motor_A: number, outputCurrent_A = 77) =>
      charged({ drive: { ...fast, outputCurrent_A }, motors: [{ ...MOTOR, ratedCurrent_A: motor_A }] }).verdict;
    expect([of(40), of(77.1), of(1, 3)]).toEqual(['pass', 'caution', 'caution']);
  });
  it('launches two thirds of the bus into the differential and a third into the common mode, each set its own', () => {
    const launched = (found: Finding) => {
      const said = /× ([\d.]+) V \/ ([\d.]+) Ω .* V \/ ([\d.]+) Ω, (\d+) sets?, at the length: ([\d.]+) A/.exec(found.working[1] ?? '');
      const [bus = 0, differential = 0, common = 0, sets = 0, peak = 0] = (said ?? []).slice(1).map(Number);
      return { bus, differential, common, sets, peak };
    };
    // 480 V rectified: √2 × 480 = 678.8 V; far beyond the critical length all of it flows.
    const long = { ...LINE, length_m: 300 };
    const one = launched(charged({ cables: [long] }));
    expectClose(one.bus, 679, { absolute: 31 }, 'of the bus');
    expectClose(one.peak, (2 / 3) * (one.bus / one.differential) + one.bus / one.common / 3, { relative: 5e-3 }, 'by hand');
    const double = { ...long, conductor: { ...long.conductor, sets: 2 } };
    const two = launched(charged({ cables: [double] }));
    expect([one.sets, two.sets, two.differential]).toEqual([1, 2, one.differential]);
    expectClose(two.peak, 2 * one.peak, { relative: 1e-3 }, 'two sets');
    // Two cables at the drive's own terminals are two as well; a link is none of them.
    expect(launched(charged({ cables: [long, { ...long, id: 'c2' }] })).sets).toBe(2);
    expect(launched(charged({ cables: [long, { ...link('e1', 'k'), conductor: { sets: 3 } }] })).sets).toBe(1);
    // Nor does what only goes on from a box launch anything of its own.
    const on = { ...long, id: 'c2', from: { element: 'e2', port: 'load' }, conductor: { ...long.conductor, sets: 2 } } as const;
    expect(launched(charged({ cables: [long, on] })).sets).toBe(1);
    // Behind a contactor in the drive's own enclosure the edge enters the cable all the same, not the connection of no known build.
    const contactor: Element = { id: 'k', kind: 'contactor', tag: 'K' };
    const behind = charged({ parts: [contactor, MOTOR], ...behindPart(contactor, double) });
    expect([launched(behind), behind.assumptions[0]?.source]).toEqual([two, charged().assumptions[0]?.source]);
    expect(charged({ cables: [double] }).working[1]).toContain('2 sets, at');
    expect(charged().working[1]).toContain('1 set, at');
  });
  it('a line shorter than the front takes its share of it: half as much of one twice as long', () => {
    // At 1 and 2 µs more than 30 m of front lie in the cable at any speed a wave has in plastic: over 1.25 × 1 µs × 100 m/µs / 2.
    const peak_A = (riseTime_s: number) => Number(/([\d.]+) A$/.exec(charged({ drive: { ...fast, riseTime_s } }).working[1] ?? '')?.[1]);
    expectClose(peak_A(1e-6) / peak_A(2e-6), 2, { relative: 5e-3 }, 'by hand');
  });
  it('is told in amperes with its band', () => {
    const found = charged();
    const [peak = 0, low = 0, high = 0] = (/about (\d+) A at each edge \((\d+) to (\d+)\)/.exec(found.text) ?? []).slice(1).map(Number);
    expectClose(low, 0.6 * peak, { absolute: 1 }, '− 40 %');
    expectClose(high, 1.4 * peak, { absolute: 1 }, '+ 40 %');
    expect(found.text).toContain('effective at 4.0 kHz; with 60.0 A of motor');
    expect(labels(found)).toEqual([
      'Carrier of D',
      'Rated output current of D',
      'Rise time of D, 10 to 90 %',
      'Voltage of S, line to line',
      'Nameplate current of M',
      'Length of X, one way',
      'Sets in parallel of X',
      'Construction of X',
    ]);
    expect(found.assumptions.map((each) => each.what)).toEqual([
      'surge impedance of the cable, differential and common',
      'front end of D',
      'left of the wave after a round trip',
    ]);
    expect(found.assumptions[2]?.value).toBe('0.85');
    const { riseTime_s: _, ...usual } = fast;
    expect(charged({ drive: usual }).assumptions.at(-1)?.what).toBe('rise time of D');
    expect(charged({ drive: usual }).assumptions.at(-1)?.value).toMatch(/^0\.[1-9] µs$/);
    expect(found.text).toMatch(/ % of its 77\.0 A\.$/);
    expect(found.working[0]).toBe('connected: X 30.0 m = 30.0 m');
    const active = charged({ drive: { ...fast, frontEnd: 'active', busRaise_pct: 8 }, cables: [{ ...LINE, lengthMost_m: 40 }] });
    expect(labels(active)).toEqual(
      expect.arrayContaining(['Front end of D', 'How much the front end of D raises its bus', 'Greatest length of X']),
    );
    expect([charged().remedies.length, charged({ drive: { ...fast, outputCurrent_A: 50 } }).remedies.length]).toEqual([0, 1]);
  });
  it('offers nothing but a larger drive where the motor alone draws more than the drive gives: 60 A of 50 A are 120 %', () => {
    const drive = { ...fast, outputCurrent_A: 50 };
    const bare = charged({ drive });
    expect([bare.verdict, bare.remedies, bare.text.includes('The motor alone is over it')]).toEqual(['caution', ['A larger drive.'], true]);
    // Behind a reactor too: it takes the charging, and leaves 60 A of 50 A.
    const reactor: Element = { id: 'r1', kind: 'reactor', tag: 'L' };
    const behind = (
      given: Partial<ElementOf<'drive'>>,
      motor: Partial<ElementOf<'motor'>> = { ratedCurrent_A: 60 },
      more: Partial<Omit<OutputScope, 'tree'>> = {},
    ) =>
      charged({
        drive: { ...fast, ...given },
        parts: [reactor, MOTOR],
        motors: [{ ...MOTOR, ...motor }],
        ...behindPart(reactor, LINE),
        ...more,
      });
    const softened = behind({ outputCurrent_A: 50 });
    expect([softened.verdict, softened.value, softened.limit, softened.remedies]).toEqual(['caution', 120, 100, ['A larger drive.']]);
    expect(behind({ outputCurrent_A: 60 }).verdict).toBe('not-applicable');
    const { ratedCurrent_A: _, ...unsaid } = MOTOR;
    const open = charged({ drive: fast, parts: [reactor, MOTOR], motors: [unsaid], ...behindPart(reactor, LINE) });
    expect([open.verdict, ...fields(open)]).toEqual(['open', 'M: ratedCurrent_A']);
    // Through a transformer from 480 to 4160 V 6 A are 52 A.
    expectClose(
      behind({ outputCurrent_A: 50 }, { ratedCurrent_A: 6 }, between(480, 4160)).value ?? 0,
      104,
      { relative: 1e-9 },
      'same power',
    );
  });
  it('each verdict by what decides it', () => {
    const effective_A = Number(/ \+ ([\d.]+)²/.exec(charged().working[3] ?? '')?.[1]);
    const of = (motor_A: number, outputCurrent_A: number) =>
      charged({ drive: { ...fast, outputCurrent_A }, motors: [{ ...MOTOR, ratedCurrent_A: motor_A }] });
    // The band alone crosses: between what is and 1.4 times the charging.
    const straddling = Math.hypot(60, 1.2 * effective_A);
    expect([of(60, straddling).verdict, of(60, straddling).text.includes('the band straddles the limit')]).toEqual(['note', true]);
    // Near by its charging: over 90 % with it, under 90 % without; a way so long that the band does not reach the limit, and is no peak.
    const long = { ...LINE, length_m: 150 };
    const charging = (motor_A: number, outputCurrent_A: number) =>
      charged({ cables: [long], drive: { ...fast, outputCurrent_A }, motors: [{ ...MOTOR, ratedCurrent_A: motor_A }] });
    const more_A = Number(/ \+ ([\d.]+)²/.exec(charging(60, 77).working[3] ?? '')?.[1]);
    // 15 A of motor are 86 %, with the charging 93 %, at the far end of the band just under 100 %.
    const rating_A = Math.hypot(15, 1.41 * more_A);
    const near = charging(15, rating_A);
    expect([near.verdict, near.text.includes('straddles'), near.remedies.length]).toEqual(['note', false, 5]);
    // A motor that alone takes over nine tenths is no matter of the cable.
    expect(charging(60, Math.hypot(60, 1.41 * more_A)).verdict).toBe('pass');
    // Two motors count together.
    expect(
      charged({
        motors: [
          { ...MOTOR, ratedCurrent_A: 40 },
          { ...MOTOR, ratedCurrent_A: 40 },
        ],
      }).verdict,
    ).toBe('caution');
    // A drive so small that the peak is over twice its rating.
    const small = of(0.1, Math.hypot(0.1, 1.4 * effective_A) * 1.3);
    expect([small.verdict, small.text.includes('the peak is over twice its rating')]).toEqual(['caution', true]);
    expect(charged().text).not.toContain('twice its rating');
    expect(charged().text).not.toContain('straddles');
  });
  it('a cable that gives no line is open, and says what to mend', () => {
    const thin = { ...LINE, insulation: { wall_mm: 1e-6 } };
    const open = charged({ cables: [thin] });
    expect([open.verdict, fields(open)]).toEqual(['open', ['X: insulation.wall_mm']]);
    expect(open.text).toContain('give no line that a wave could run on');
  });
  it('is left to the maker of what stands between drive and cable, not of a terminator', () => {
    const part = (role: 'sine' | 'dvdt' | 'terminator'): Element => ({ id: 'z', kind: 'filter', tag: 'Z', role });
    const REACTOR: Element = { id: 'l', kind: 'reactor', tag: 'L' };
    expect(
      [
        charged({ parts: [part('sine')], ...behindPart(part('sine'), LINE) }),
        charged({ parts: [part('dvdt')], ...behindPart(part('dvdt'), LINE) }),
        charged({ parts: [REACTOR], ...behindPart(REACTOR, LINE) }),
      ].map((each) => each.verdict),
    ).toEqual(['not-applicable', 'not-applicable', 'not-applicable']);
    // At the motor's end it spares the cable nothing.
    const late = charged({ parts: [REACTOR], ...beforePart(REACTOR, LINE) });
    expect([late.verdict, late.value]).toEqual([charged().verdict, charged().value]);
    expect(charged({ parts: [part('terminator')] }).verdict).toBe('pass');
    expect(charged({ parts: [part('terminator')], ...behindPart(part('terminator'), LINE) }).verdict).toBe('pass');
    expect(charged({ parts: [REACTOR], ...behindPart(REACTOR, LINE) }).text).toContain('L stands between the drive and its cable');
    // One branch behind it, one not: the other is charged as if it were alone.
    const own = { ...LINE, id: 'c2', tag: 'Y', length_m: 20 };
    const branched = charged({ parts: [REACTOR], cables: [...behindPart(REACTOR, LINE).cables, own] });
    expect([branched.value, branched.working[0]]).toEqual([
      charged({ cables: [own] }).value,
      'connected: Y 20.0 m = 20.0 m, behind L none',
    ]);
    expect(charged({ cables: [] }).text).toBe('No cable behind it.');
  });
  it('is open while what it hangs on is not known', () => {
    const { carrier_Hz: _, outputCurrent_A: __, ...silent } = fast;
    const { ratedCurrent_A: ___, ...motor } = MOTOR;
    const { length_m: ____, ...endless } = LINE;
    expect(fields(charged({ drive: silent, motors: [motor], cables: [endless] }))).toEqual([
      'X: length_m',
      'D: carrier_Hz',
      'D: outputCurrent_A',
      'M: ratedCurrent_A',
    ]);
    const still = charged({ motors: [motor] });
    expect([still.verdict, fields(still), still.text.includes('nameplate current of M')]).toEqual(['open', ['M: ratedCurrent_A'], true]);
    expect(fields(charged({ nominal_V: null, voltageFrom: { ...SUPPLY, voltage_V: undefined } }))).toEqual(['S: voltage_V']);
    expect([charged({ nominal_V: null }).verdict, charged({ nominal_V: null }).missing]).toEqual(['open', []]);
    expect(charged({ nominal_V: null }).text).toContain('the supply voltage of the drive is not known');
  });
});
