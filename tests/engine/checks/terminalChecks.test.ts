import { describe, expect, it } from 'vitest';
import type { CableScope, ElementScope } from '../../../engine/checks/check.ts';
import { inputTerminals, outputCapacitor, parallelSets, terminalRange } from '../../../engine/checks/terminalChecks.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { Element, ElementOf } from '../../../engine/lineup/elements.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { horsepower } from '../lineUpBuilder.ts';
import { between, CABLE, cableScope, DRIVE, elementScope, MOTOR } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/** NEC 430.110 and 430.128 (115 %), 110.14(A) (one conductor a terminal), 310.10(G) (1/0 AWG and larger in parallel); IEC 60364-4-43. */

describe('the switch ahead of a drive', () => {
  const SWITCH: ElementOf<'disconnect'> = { id: 'q1', kind: 'disconnect', tag: 'Q', ratedCurrent_A: 100 };
  const asked = (ratedCurrent_A: number | undefined, more: Partial<ElementScope> = {}) => {
    const { ratedCurrent_A: _, ...bare } = SWITCH;
    const element = ratedCurrent_A === undefined ? bare : { ...SWITCH, ratedCurrent_A };
    return inputTerminals.scope === 'element' ? inputTerminals.judge(elementScope({ element, ...more })) : [];
  };
  const of = (...given: Parameters<typeof asked>) => only(asked(...given));
  it('is rated for 115 % of the input current: 82.8 A for 72 A', () => {
    expect([of(82.8).verdict, of(82.79).verdict]).toEqual(['pass', 'fail']);
    const found = of(69);
    expect([found.value, found.unit, found.quantity, found.phrase, found.authority]).toEqual([
      69,
      'A',
      'rated current of the switch',
      '69 of 83 A',
      'code',
    ]);
    expectClose(found.limit ?? 0, 82.8, { relative: 1e-12 }, '1.15 × 72');
    expectClose(found.margin_pct ?? 0, (100 * (69 - 82.8)) / 82.8, { relative: 1e-9 }, 'a sixth short');
    expect([found.text, found.working, found.remedies, of(100).remedies]).toEqual([
      'Q is rated 69 A; 82.8 A are needed (1.15 × 72.0 A rated input of D).',
      ['1.15 × 72.00 A = 82.80 A'],
      ['The next size of switch.'],
      [],
    ]);
    expect([labels(found), found.runs]).toEqual([['Rated current of Q', 'Rated input current of D'], ['M']]);
  });
  it('is rated for the current itself under IEC', () => {
    const iec = (amperes: number) => of(amperes, { basis: 'iec' });
    expect([iec(72).verdict, iec(71.9).verdict]).toEqual(['pass', 'fail']);
    expect([iec(72).text, iec(72).working]).toEqual([
      'Q is rated 72 A; 72.0 A are needed (72.0 A rated input of D).',
      ['72.00 A = 72.00 A'],
    ]);
  });
  it('of several drives carries them together', () => {
    const found = of(165.6, { drives: [DRIVE, { ...DRIVE, tag: 'E' }] });
    expect([found.verdict, labels(found).length, found.text.includes('144.0 A rated input of D, E')]).toEqual(['pass', 3, true]);
  });
  // Table 430.250, 460 V: 60 hp 77 A, 25 hp 34 A.
  const PUMP = { ...MOTOR, tag: 'P', ratedPower_W: horsepower(25), ratedCurrent_A: 32 };
  it('carries motors without a drive as well, by their table current (430.110(C)): 1.15 × (72 + 34) = 121.9 A', () => {
    const beside = { motors: [MOTOR, PUMP], direct: [PUMP] };
    expect([of(121.9, beside).verdict, of(121.8, beside).verdict]).toEqual(['pass', 'fail']);
    expect(of(121.9, beside).text).toContain('1.15 × 106.0 A rated input of D and full-load current of P');
    expect(labels(of(121.9, beside))).toContain('table current of P');
    const iec = { ...beside, basis: 'iec' } as const;
    expect([of(104, iec).verdict, of(103.9, iec).verdict]).toEqual(['pass', 'fail']);
    const { ratedPower_W: _, ...unsaid } = PUMP;
    const open = of(200, { motors: [MOTOR, unsaid], direct: [unsaid] });
    expect([open.verdict, fields(open)]).toEqual(['open', ['P: ratedPower_W']]);
  });
  it('of motors alone 115 % of the table current (430.110(A)): 39.1 A for 25 hp', () => {
    const alone = { drives: [], motors: [PUMP], direct: [PUMP] };
    expect([of(39.1, alone).verdict, of(39, alone).verdict]).toEqual(['pass', 'fail']);
    expect(of(39, alone).text).toBe('Q is rated 39 A; 39.1 A are needed (1.15 × 34.0 A full-load current of P).');
  });
  it('ahead of a way around carries the motor across the line (430.110(A)): 1.15 × 77 = 88.55 A for 60 hp behind a drive of 72 A', () => {
    const large = { ...MOTOR, ratedPower_W: horsepower(60) };
    const around = { motors: [large], bypassed: [large] };
    const found = of(88.55, around);
    expect([found.verdict, found.case, of(88.5, around).verdict]).toEqual(['pass', 'bypass', 'fail']);
    expect(found.text).toContain('1.15 × 77.0 A full-load current of M around the drive');
    // 78 A of rated input is more than 77 A; a motor beside runs either way: 1.15 × (77 + 34).
    expectClose(of(200, { ...around, drives: [{ ...DRIVE, inputCurrent_A: 78 }] }).limit ?? 0, 89.7, { relative: 1e-12 }, '1.15 × 78');
    expectClose(of(200, { ...around, motors: [large, PUMP], direct: [PUMP] }).limit ?? 0, 127.65, { relative: 1e-12 }, '1.15 × 111');
    // A switch in the leg itself feeds nothing else.
    expect(of(88.5, { drives: [], motors: [], bypassed: [large] }).verdict).toBe('fail');
    const { ratedPower_W: _, ...unsaid } = large;
    expect(fields(of(200, { ...around, bypassed: [unsaid] }))).toEqual(['M: ratedPower_W']);
  });
  it('shows the turns that it saw motors through', () => {
    const through = { drives: [], motors: [PUMP], direct: [PUMP], ...between(240, 480) };
    expectClose(of(100, through).limit ?? 0, 1.15 * 34 * 2, { relative: 1e-12 }, 'by hand');
    expect(labels(of(100, through))).toEqual(expect.arrayContaining(['Primary voltage of T', 'Secondary voltage of T']));
  });
  it('ahead of a transformer from 208 to 480 V carries 72 A as 72 × 480 / 208 = 166.2 A, behind one from 4160 V as 8.3 A', () => {
    const found = of(191, between(208, 480));
    expectClose(found.limit ?? 0, (1.15 * 72 * 480) / 208, { relative: 1e-12 }, 'the same power on both sides');
    expect([found.verdict, of(192, between(208, 480)).verdict]).toEqual(['fail', 'pass']);
    expect(found.text).toContain('166.2 A rated input of D, seen through T');
    expectClose(of(20, between(4160, 480)).limit ?? 0, (1.15 * 72 * 480) / 4160, { relative: 1e-12 }, 'the same power on both sides');
    const unsaid = { between: [{ id: 't', kind: 'transformer', tag: 'T' }] as const };
    expect(fields(of(192, unsaid))).toEqual(['T: primaryVoltage_V', 'T: secondaryVoltage_V']);
  });
  it('is open while a current is not known, and asked only where it feeds a drive', () => {
    const { inputCurrent_A: _, ...silent } = { ...DRIVE, tag: 'E' };
    const found = of(undefined, { drives: [DRIVE, silent] });
    expect([found.verdict, ...fields(found)]).toEqual(['open', 'Q: ratedCurrent_A', 'E: inputCurrent_A']);
    expect([of(undefined).verdict, of(500, { drives: [silent] }).verdict]).toEqual(['open', 'open']);
    expect(of(100, { drives: [] }).verdict).toBe('not-applicable');
    expect([asked(1, { side: 'output' }), asked(1, { element: DRIVE })]).toEqual([[], []]);
  });
});

describe('the range of terminals', () => {
  const RANGE = { terminalSmallest: '8 AWG', terminalLargest: '1/0 AWG' } as const;
  const [FROM, TO]: readonly [Element, Element] = [
    { ...DRIVE, ...RANGE, terminalsPerPhase: 1 },
    { ...MOTOR, ...RANGE, terminalsPerPhase: 1 },
  ];
  const judge = (cable: Partial<Cable> = {}, more: Partial<CableScope> = {}) => {
    const one: Cable = { ...CABLE, ...cable };
    return terminalRange.scope === 'cable'
      ? terminalRange.judge(cableScope({ cable: one, fromElement: FROM, toElement: TO, landedFrom: [one], landedTo: [one], ...more }))
      : [];
  };
  const size = (text: string, more: Partial<CableScope> = {}) => judge({ conductor: { size: text, metal: 'copper', sets: 1 } }, more);
  it('passes at both of its ends and fails beyond, at each place by itself', () => {
    expect(['8 AWG', '1/0 AWG'].map((each) => only(size(each)).verdict)).toEqual(['pass', 'pass']);
    const [big, small] = [size('2/0 AWG'), size('10 AWG')];
    expect(big.map((each) => [each.verdict, each.phrase, each.subject.end, each.remedies.length])).toEqual([
      ['fail', 'too big for the terminal', 'from', 2],
      ['fail', 'too big for the terminal', 'to', 2],
    ]);
    expect(small.map((each) => [each.verdict, each.phrase, each.subject.end, each.remedies.length])).toEqual([
      ['fail', 'too small for the terminal', 'from', 1],
      ['fail', 'too small for the terminal', 'to', 1],
    ]);
    expect([big[0]?.text, small[1]?.text]).toEqual([
      'W is 2/0 AWG; the terminals of D take 8 AWG to 1/0 AWG.',
      'W is 10 AWG; the terminals of M take 8 AWG to 1/0 AWG.',
    ]);
    expect(big[0] ? labels(big[0]) : []).toEqual([
      'Conductor size of W',
      'Sets in parallel of W',
      'Smallest conductor that the terminals of D take',
      'Largest conductor that the terminals of D take',
      'Terminals per phase of D',
    ]);
    const found = only(size('8 AWG'));
    expect([found.text, found.phrase, labels(found), found.subject.kind]).toEqual([
      'W fits the terminals of D (8 AWG to 1/0 AWG) and M (8 AWG to 1/0 AWG).',
      'fits its terminals',
      [
        'Conductor size of W',
        'Sets in parallel of W',
        'Smallest conductor that the terminals of D take',
        'Largest conductor that the terminals of D take',
        'Terminals per phase of D',
        'Smallest conductor that the terminals of M take',
        'Largest conductor that the terminals of M take',
        'Terminals per phase of M',
      ],
      'cable',
    ]);
  });
  it('fails by what is known of it, whatever is not, and writes that as a question', () => {
    const upTo: Element = { ...MOTOR, terminalLargest: '1/0 AWG' };
    const from: Element = { ...DRIVE, terminalSmallest: '25 mm2' };
    const found = size('2/0 AWG', { toElement: upTo });
    expect([found.length, found[1]?.text]).toEqual([2, 'W is 2/0 AWG; the terminals of M take ? to 1/0 AWG.']);
    expect(size('16 mm2', { fromElement: from, toElement: { ...MOTOR, ...RANGE } }).map((each) => each.text)).toEqual([
      'W is 16 mm²; the terminals of D take 25 mm² to ?.',
    ]);
    const metric: Element = { ...DRIVE, terminalSmallest: '10 mm2', terminalLargest: '16 mm2' };
    expect(size('25 mm2', { fromElement: metric })[0]?.text).toBe('W is 25 mm²; the terminals of D take 10 mm² to 16 mm².');
  });
  it('has one place for each conductor, of all cables that land there', () => {
    const two = judge({ conductor: { size: '1/0 AWG', metal: 'copper', sets: 2 } });
    expect(two.map((each) => [each.verdict, each.phrase, each.remedies.length])).toEqual([
      ['fail', '2 conductors, 1 place', 1],
      ['fail', '2 conductors, 1 place', 1],
    ]);
    expect(two[0]?.text).toBe('2 conductors a phase land on D, which has 1 place a phase.');
    const places: Element = { ...MOTOR, ...RANGE, terminalsPerPhase: 2 };
    expect(size('2 AWG', { toElement: places, landedTo: [CABLE, CABLE] }).map((each) => each.verdict)).toEqual(['pass']);
    expect(size('2 AWG', { toElement: places, landedTo: [CABLE, CABLE, { ...CABLE, conductor: {} }] })[0]?.text).toBe(
      '3 conductors a phase land on M, which has 2 places a phase.',
    );
    const unplaced: Element = { ...MOTOR, ...RANGE };
    expect(only(size('2 AWG', { toElement: unplaced })).verdict).toBe('pass');
    const open = only(size('2 AWG', { toElement: unplaced, landedTo: [CABLE, CABLE] }));
    expect([open.verdict, ...fields(open)]).toEqual(['open', 'M: terminalsPerPhase']);
  });
  it('of a bus is for each feeder by itself', () => {
    const bus: Element = { id: 'b1', kind: 'bus', tag: 'B', ...RANGE, terminalsPerPhase: 1 };
    expect(only(size('2 AWG', { fromElement: bus, landedFrom: [CABLE, CABLE] })).verdict).toBe('pass');
    const two = judge(
      { conductor: { size: '1/0 AWG', metal: 'copper', sets: 2 } },
      { fromElement: bus, toElement: { id: 's', kind: 'supply', tag: 'S' } },
    );
    expect(two.map((each) => each.verdict)).toEqual(['fail']);
  });
  it('is open while the sets are not said that decide, one a place (NEC 110.14(A)), and fails where one of each is too many already', () => {
    const unsaid = { conductor: { size: '1/0 AWG', metal: 'copper' } } as const;
    const one = only(judge(unsaid));
    expect([one.verdict, ...fields(one)]).toEqual(['open', 'W: conductor.sets']);
    const bus: Element = { id: 'b1', kind: 'bus', tag: 'B', ...RANGE, terminalsPerPhase: 1 };
    const feeder = only(judge(unsaid, { fromElement: bus }));
    expect([feeder.verdict, ...fields(feeder)]).toEqual(['open', 'W: conductor.sets']);
    // Places not said either: both are asked for.
    const both = only(judge(unsaid, { toElement: { ...MOTOR, ...RANGE } }));
    expect([both.verdict, ...fields(both)]).toEqual(['open', 'W: conductor.sets', 'M: terminalsPerPhase']);
    // Of another cable that lands there too.
    const places: Element = { ...MOTOR, ...RANGE, terminalsPerPhase: 2 };
    const beside: Cable = { ...CABLE, id: 'c2', tag: 'V', conductor: {} };
    const shared = only(size('1/0 AWG', { toElement: places, landedTo: [CABLE, beside] }));
    expect([shared.verdict, ...fields(shared)]).toEqual(['open', 'V: conductor.sets']);
    const said = only(size('1/0 AWG', { toElement: places, landedTo: [CABLE, { ...beside, conductor: { sets: 1 } }] }));
    expect([said.verdict, labels(said)[2]]).toEqual(['pass', 'Sets in parallel of V']);
    expect(size('1/0 AWG', { landedTo: [CABLE, beside] }).map((each) => each.phrase)).toEqual(['2 conductors, 1 place']);
    // As many as can be landed: a connection inside one enclosure has no conductors of its own to count.
    const link: Cable = { ...CABLE, id: 'k', tag: 'K', kind: 'link', conductor: {} };
    expect(only(size('1/0 AWG', { toElement: places, landedTo: [CABLE, link] })).verdict).toBe('pass');
    // Only a supply, which has no terminals of its own.
    const utility: Element = { id: 's', kind: 'supply', tag: 'S' };
    expect(only(judge(unsaid, { fromElement: utility, toElement: utility })).verdict).toBe('not-applicable');
  });
  it('is open where the least that the terminals take is above the most: the two contradict each other', () => {
    const turned: Element = { ...MOTOR, terminalSmallest: '1/0 AWG', terminalLargest: '8 AWG', terminalsPerPhase: 1 };
    for (const each of ['2 AWG', '8 AWG', '1/0 AWG']) {
      const found = only(size(each, { toElement: turned }));
      expect([found.verdict, found.phrase, found.subject.kind]).toEqual(['open', 'least above most', 'cable']);
      expect(found.text).toBe(
        'Cannot be judged: smallest conductor that the terminals of M take, 1/0\u00a0AWG; largest conductor that the terminals of M take, 8\u00a0AWG. The two contradict each other.',
      );
    }
    // What cannot be landed at the other end still fails.
    expect(size('2/0 AWG', { toElement: turned }).map(({ phrase, subject }) => [phrase, subject.end])).toEqual([
      ['too big for the terminal', 'from'],
    ]);
  });
  it('is not asked inside one enclosure, nor of the utility', () => {
    expect(only(judge({ kind: 'link' })).verdict).toBe('not-applicable');
    const utility: Element = { id: 's', kind: 'supply', tag: 'S' };
    expect(only(size('2 AWG', { fromElement: utility, toElement: utility })).text).toBe('It lands on the utility’s terminals only.');
    expect(only(size('2 AWG', { fromElement: utility })).text).toBe('W fits the terminals of M (8 AWG to 1/0 AWG).');
  });
  it('is open while size or range is not known, and says which', () => {
    expect(fields(only(judge({ conductor: {} })))).toEqual(['W: conductor.size', 'W: conductor.sets']);
    const found = only(size('2 AWG', { fromElement: DRIVE, toElement: { ...MOTOR, terminalSmallest: '8 AWG' } }));
    expect([found.verdict, ...fields(found)]).toEqual(['open', 'D: terminalSmallest', 'D: terminalLargest', 'M: terminalLargest']);
  });
  it('never passes on a size that no table has, of the conductor or of the terminal', () => {
    const neither = only(size('7 AWG', { toElement: { ...MOTOR, terminalSmallest: '7 kcmil', terminalLargest: '1/0 AWG' } }));
    expect([neither.text, neither.phrase]).toEqual(['Cannot be judged: 7 AWG, 7 kcmil is not a size of the tables.', 'size not in tables']);
    for (const found of [
      only(size('7 AWG')),
      only(size('2 AWG', { toElement: { ...MOTOR, terminalSmallest: '8 AWG', terminalLargest: '7 kcmil' } })),
      only(size('2 AWG', { fromElement: { ...DRIVE, terminalSmallest: '7 kcmil', terminalLargest: '1/0 AWG' } })),
    ])
      expect([found.verdict, found.text.includes('is not a size of the tables')]).toEqual(['open', true]);
  });
});

describe('sets in parallel', () => {
  const sets = (cable: Partial<Cable>, basis: 'us' | 'iec' = 'us') =>
    only(parallelSets.scope === 'cable' ? parallelSets.judge(cableScope({ basis, cable: { ...CABLE, ...cable } })) : []);
  const two = (size: string, more: Partial<Cable> = {}, basis: 'us' | 'iec' = 'us') =>
    sets({ conductor: { size, metal: 'copper', sets: 2 }, setsAlike: true, setsHoldAllPhases: true, ...more }, basis);
  it('are of 1/0 AWG or larger by the code, of any size by IEC', () => {
    expect([two('1/0 AWG').verdict, two('1 AWG').verdict, two('1 AWG', {}, 'iec').verdict]).toEqual(['pass', 'fail', 'pass']);
    const found = two('1 AWG');
    expect([found.phrase, found.authority, found.remedies.length, labels(found).length]).toEqual(['2 sets of 1 AWG', 'code', 2, 4]);
    expect([two('1/0 AWG').phrase, labels(two('1/0 AWG'))]).toEqual([
      '2 sets alike',
      ['Sets in parallel of W', 'Conductor size of W', 'Whether the sets of W are alike', 'Whether each set of W holds all phases'],
    ]);
  });
  it('are twins, each with all phases', () => {
    const [unlike, split] = [two('1/0 AWG', { setsAlike: false }), two('1/0 AWG', { setsHoldAllPhases: false }, 'iec')];
    expect([unlike, split].map((each) => [each.verdict, each.phrase, each.authority])).toEqual([
      ['fail', 'sets not alike', 'code'],
      ['fail', 'phases split', 'standard'],
    ]);
  });
  it('are not asked of one set, nor inside one enclosure', () => {
    expect([sets({}).text, sets({ kind: 'link' }).text]).toEqual(['One set.', 'A connection inside one enclosure.']);
    expect([sets({}).verdict, sets({ kind: 'link' }).verdict]).toEqual(['not-applicable', 'not-applicable']);
  });
  it('are open while a value is not known, and say which', () => {
    const bare = { conductor: { sets: 2 } };
    expect([sets(bare).verdict, ...fields(sets(bare))]).toEqual(['open', 'W: setsAlike', 'W: setsHoldAllPhases', 'W: conductor.size']);
    expect([sets({ conductor: {} }).verdict, ...fields(sets({ conductor: {} }))]).toEqual(['open', 'W: conductor.sets']);
    expect([sets({ ...bare, setsAlike: false }).verdict, two('7 AWG').verdict]).toEqual(['fail', 'open']);
    expect(fields(sets({ conductor: { size: '1/0 AWG', sets: 2 }, setsAlike: true }))).toEqual(['W: setsHoldAllPhases']);
  });
});

describe('a capacitor behind a drive', () => {
  const judge = (element: Element, side: 'input' | 'output' = 'output') =>
    outputCapacitor.scope === 'element' ? outputCapacitor.judge(elementScope({ element, side })) : [];
  it('fails, wherever it is', () => {
    for (const kind of ['motor', 'junction', 'bus'] as const) {
      const element: Element = { id: 'x', kind, tag: 'X' };
      const [there, none, unsaid] = [
        only(judge({ ...element, capacitor: true })),
        only(judge({ ...element, capacitor: false })),
        only(judge(element)),
      ];
      expect([there, none, unsaid].map((each) => each.verdict)).toEqual(['fail', 'pass', 'open']);
      expect([there.phrase, none.phrase, there.remedies.length, none.remedies, fields(unsaid)]).toEqual([
        'capacitor on the output',
        'no capacitor',
        1,
        [],
        ['X: capacitor'],
      ]);
      expect([there.text, none.text, there.inputs.length]).toEqual([
        'A power-factor capacitor or surge arrester is connected at X, on a drive’s output.',
        'No capacitor or arrester is connected at X.',
        1,
      ]);
      expect(judge({ ...element, capacitor: true }, 'input')).toEqual([]);
    }
    expect(judge(DRIVE)).toEqual([]);
  });
});
