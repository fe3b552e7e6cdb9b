import { describe, expect, it } from 'vitest';
import type { CableScope } from '../../../engine/checks/check.ts';
import { conductorMetal, smallestConductor } from '../../../engine/checks/conductorChecks.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { Element } from '../../../engine/lineup/elements.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE, cableScope, DRIVE, MOTOR } from './scopes.ts';
import { fields, labels, only } from './told.ts';

/** Least size by common practice (14 AWG, 2.081 mm² in NEC Chapter 9 Table 8; 1.5 mm²); aluminium at terminals by NEC 110.14. */

describe('the smallest conductor', () => {
  const judge = (cable: Partial<Cable>, side: 'input' | 'output' = 'output') =>
    smallestConductor.scope === 'cable' ? smallestConductor.judge(cableScope({ cable: { ...CABLE, ...cable }, side })) : [];
  const size = (text: string) => only(judge({ conductor: { size: text } }));
  it('is 14 AWG, or 1.5 mm² with a note', () => {
    expect(['14 AWG', '16 AWG', '1.5 mm2', '1 mm2', '2.5 mm2'].map((each) => size(each).verdict)).toEqual([
      'pass',
      'caution',
      'note',
      'caution',
      'pass',
    ]);
    expect(['14 AWG', '16 AWG', '1.5 mm2', '2.5 mm2'].map((each) => size(each).phrase)).toEqual([
      '14 AWG',
      '16 AWG is small',
      '1.5 mm2 is small',
      '2.5 mm2',
    ]);
  });
  it('shows from what, and what to do of one that is small', () => {
    const [thin, metric] = [size('16 AWG'), size('1.5 mm2')];
    expect([thin.limit, thin.unit, thin.quantity, thin.authority, thin.remedies.length]).toEqual([
      2.08,
      'mm²',
      'conductor area',
      'practice',
      1,
    ]);
    // 16 AWG has 1.31 mm².
    expectClose(thin.value ?? 0, 1.31, { relative: 0.005 }, 'Table 8');
    expectClose(thin.margin_pct ?? 0, (100 * (1.31 - 2.08)) / 2.08, { relative: 0.01 }, 'by hand');
    expect(thin.text).toBe('W has 16 AWG conductors (1.31 mm²); 14 AWG is the least that is usual on a drive’s output.');
    expect(metric.text).toBe('W has 1.5 mm² conductors (1.50 mm²); 1.5 mm² is the least that is usual on a drive’s output.');
    expect([metric.limit, metric.working, labels(metric)]).toEqual([1.5, ['1.500 mm² against 1.5 mm²'], ['Conductor size of W', 'area']]);
    expect([thin, metric].map((each) => each.inputs[1]?.source)).toEqual(['NEC Chapter 9 Table 8', 'IEC 60228']);
  });
  it('is open of no size, or of one that no table has; not asked of a feeder or inside one enclosure', () => {
    const [bare, strange] = [only(judge({ conductor: {} })), size('7 AWG')];
    expect([bare.verdict, ...fields(bare), bare.text]).toEqual([
      'open',
      'W: conductor.size',
      'Cannot be judged yet. Not known: conductor size of W.',
    ]);
    expect([strange.verdict, strange.text]).toEqual(['open', 'Cannot be judged: 7 AWG is not a size of the tables.']);
    expect([judge({}, 'input'), only(judge({ kind: 'link' })).verdict]).toEqual([[], 'not-applicable']);
  });
});

describe('the metal at terminals', () => {
  const ALUMINIUM: Cable = { ...CABLE, conductor: { ...CABLE.conductor, metal: 'aluminium' } };
  const judge = (cable: Cable, from: Element = DRIVE, to: Element = MOTOR, more: Partial<CableScope> = {}) =>
    conductorMetal.scope === 'cable' ? conductorMetal.judge(cableScope({ cable, fromElement: from, toElement: to, ...more })) : [];
  it('is copper anywhere', () => {
    const found = only(judge(CABLE));
    expect([found.verdict, found.phrase, labels(found)]).toEqual(['pass', 'copper', ['Conductor metal of W']]);
    expect(only(judge({ ...ALUMINIUM, kind: 'link' })).verdict).toBe('not-applicable');
  });
  it('is aluminium only where the terminal is marked for it, each end by itself', () => {
    const found = judge(ALUMINIUM, { ...DRIVE, terminalMetal: 'copper-aluminium' }, { ...MOTOR, terminalMetal: 'copper-only' });
    expect(found.map((each) => [each.verdict, each.phrase, each.subject.end, each.authority])).toEqual([
      ['pass', 'marked for aluminium', 'from', 'code'],
      ['fail', 'aluminium on copper-only lugs', 'to', 'code'],
    ]);
    expect(found.map((each) => each.text)).toEqual([
      'W is aluminium and D is marked for it.',
      'W is aluminium and lands on M, whose terminals are for copper only.',
    ]);
    expect(found[1]?.remedies).toHaveLength(2);
    expect(found[1] ? labels(found[1]) : []).toEqual(['Conductor metal of W', 'What the terminals of M are marked for']);
  });
  it('is open while the metal or the marking is not known; the utility answers for its own', () => {
    const { metal: _, ...unsaid } = CABLE.conductor;
    expect(judge({ ...CABLE, conductor: unsaid }).map((each) => [each.verdict, ...fields(each)])).toEqual([
      ['open', 'W: conductor.metal'],
      ['open', 'W: conductor.metal'],
    ]);
    const [utility, motor] = judge(ALUMINIUM, { id: 's', kind: 'supply', tag: 'S' });
    expect([utility?.verdict, utility?.text, motor?.verdict, ...(motor ? fields(motor) : []), motor?.text]).toEqual([
      'not-applicable',
      'The utility’s terminals.',
      'open',
      'M: terminalMetal',
      'W is aluminium; whether the terminals of M take it is not known.',
    ]);
  });
});
