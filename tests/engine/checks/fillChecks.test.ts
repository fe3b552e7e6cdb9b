import { describe, expect, it } from 'vitest';
import type { CableScope } from '../../../engine/checks/check.ts';
import { conduitFill, wireDiameter_mm } from '../../../engine/checks/fillChecks.ts';
import type { Finding } from '../../../engine/checks/finding.ts';
import { racewaySizes } from '../../../engine/checks/racewaySizes.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE, cableScope } from './scopes.ts';
import { fields } from './told.ts';

/**
 * NEC Chapter 9 Table 1 (53, 31 and 40 %), Table 4 (total areas in square inches, from memory: 2 EMT 3.356, 2 RMC 3.408, 1 EMT 0.864) and
 * Table 5 (THHN of 8 AWG 0.0366 in², 10 AWG 0.0211 in²).
 */

const IN2 = 25.4 * 25.4;
const WIRES: Cable = {
  ...CABLE,
  conductor: { size: '8 AWG', metal: 'copper', sets: 1 },
  insulation: { type: 'THHN' },
  grounds: { count: 1, size: '10 AWG', metal: 'copper' },
  installation: { raceway: 'steel-conduit', racewaySize: '1 EMT' },
};
/** Alone in its pipe and said to be so, unless a test asks what happens where nobody says. */
const judge = (cable: Partial<Cable> = {}, more: Partial<CableScope> = {}, alone = true) => {
  const one: Cable = { ...WIRES, ...cable };
  const said: Cable = alone ? { ...one, installation: { sharedWith: [], ...one.installation } } : one;
  return conduitFill.scope === 'cable' ? conduitFill.judge(cableScope({ cable: said, ...more })) : [];
};
const only = (found: readonly Finding[]): Finding => {
  const [one, ...others] = found;
  if (!one || others.length > 0) throw new Error(`${found.length} findings`);
  return one;
};
const of = (...given: Parameters<typeof judge>): Finding => only(judge(...given));
/** One round cable in it, of a diameter that takes this share of so many square inches. */
const round = (pct: number, in2: number): Partial<Cable> => ({
  construction: 'multicore',
  outerDiameter_mm: Math.sqrt((4 * in2 * IN2 * pct) / 100 / Math.PI),
});
const pipe = (racewaySize: string, raceway: Cable['installation']['raceway'] = 'steel-conduit'): Partial<Cable> => ({
  installation: { ...(raceway ? { raceway } : {}), racewaySize },
});

describe('the fill of a raceway', () => {
  it('of three 8 AWG and one 10 AWG in 1 EMT is what Table 5 says, near enough: 0.1309 of 0.864 in²', () => {
    const found = of();
    expectClose(found.value ?? 0, (100 * (3 * 0.0366 + 0.0211)) / 0.864, { relative: 0.01 }, 'Table 5');
    expect([found.verdict, found.limit, found.unit, found.quantity, found.authority, found.phrase]).toEqual([
      'pass',
      40,
      '%',
      'fill of the raceway',
      'code',
      'fill 15 %',
    ]);
    expectClose(found.margin_pct ?? 0, (100 * (40 - (found.value ?? 0))) / 40, { relative: 1e-9 }, 'of the limit');
    expect(found.text).toMatch(/^W fills 15\.\d % of a 1 in EMT raceway; 40 % is the most for more than two\.$/);
    expect(found.inputs.map((each) => each.what)).toEqual([
      'What W is laid in',
      'Raceway size of W',
      'Cables in the raceway of W',
      'Construction of W',
      'Conductor size of W',
      'Insulation type of W',
      'Number of grounding conductors in W',
      'Grounding conductor size of W',
      'area of 1 EMT',
      'most fill',
    ]);
    expect(found.working[0]).toMatch(/^W: 3 × 5\.\d\d mm \+ 1 × 4\.\d\d mm = \d+\.\d mm²$/);
    expect(found.working[1]).toMatch(/^\d+\.\d \/ 557\.4 mm² = 15\.\d\d %$/);
    expect([found.remedies, found.assumptions]).toEqual([[], []]);
    expect(found.inputs.at(-1)?.value).toBe('40 %');
    expect(found.inputs.at(-2)?.value).toBe('557 mm²');
  });
  it('is at most 53 % of one cable, 31 % of two, 40 % of more', () => {
    const many = (count: number, pct: number) => {
      const each = { ...WIRES, ...round(pct / count, 3.356), ...pipe('2 EMT') };
      return of(each, { together: Array.from({ length: count - 1 }, (_, i) => ({ ...each, tag: `X${i}` })) });
    };
    for (const [count, most] of [
      [1, 53],
      [2, 31],
      [3, 40],
    ] as const) {
      expect([many(count, most).verdict, many(count, most + 0.01).verdict, many(count, most).limit]).toEqual(['pass', 'fail', most]);
    }
    expect([many(1, 10).text, many(2, 10).text, many(3, 10).text].map((text) => text.split('most for ')[1])).toEqual([
      'one.',
      'two.',
      'more than two.',
    ]);
    const full = many(2, 62);
    expectClose(full.value ?? 0, 62, { relative: 1e-9 }, 'of 3.356 in²');
    expectClose(full.margin_pct ?? 0, -100, { relative: 1e-9 }, 'twice of it');
    expect([full.remedies.length, full.text.startsWith('W with X0 fills 62.0 % of')]).toEqual([2, true]);
    expect(many(1, 10).working[0]).toMatch(/^W: one cable \d+\.\d mm = /);
  });
  it('is practice under IEC: a caution', () => {
    const found = of({ ...round(60, 3.356), ...pipe('2 EMT') }, { basis: 'iec' });
    expect([found.verdict, found.authority]).toEqual(['caution', 'practice']);
  });
  it('reads trade sizes as they are written', () => {
    const area = (size: string, raceway?: Cable['installation']['raceway']) =>
      of({ ...round(1, 1), ...pipe(size, raceway) }).inputs.find((each) => each.what.startsWith('area of'))?.what;
    expect(['2 EMT', '2 in EMT', '2" emt', ' 2″ IMC ', '1-1/4 RMC', '1 1/4 in RMC', '1/2 EMT', '3/4'].map((each) => area(each))).toEqual([
      'area of 2 EMT',
      'area of 2 EMT',
      'area of 2 EMT',
      'area of 2 IMC',
      'area of 1 1/4 RMC',
      'area of 1 1/4 RMC',
      'area of 1/2 EMT',
      'area of 3/4 EMT',
    ]);
    expect([area('2 PVC 40', 'plastic-conduit'), area('2 PVC80', 'plastic-conduit'), area('2', 'plastic-conduit')]).toEqual([
      'area of 2 PVC40',
      'area of 2 PVC80',
      'area of 2 PVC80',
    ]);
    expect([area('2', 'aluminium-conduit'), area('2', 'flexible-metal')]).toEqual(['area of 2 RMC', 'area of 2 FMC']);
    for (const size of ['2 1/4', 'two', '2 EMT now', 'a 2', '53', '2 ABC', '22 EMT']) {
      const found = of(pipe(size));
      expect([found.verdict, found.phrase, ...fields(found)]).toEqual(['open', 'raceway size?', 'W: installation.racewaySize']);
    }
    expect(of(pipe('53')).text).toBe('“53” is not a trade size of steel conduit: write 2, 2 1/2 or 2 EMT.');
    // Of another kind of pipe than is said to be there.
    expect(of(pipe('2 PVC40')).verdict).toBe('open');
    expect(of(pipe('2 EMT', 'plastic-conduit')).text).toBe('“2 EMT” is not a trade size of plastic conduit: write 2, 2 1/2 or 2 PVC80.');
  });
  it('is judged of every size that is offered, and of no raceway that is no pipe any is offered', () => {
    for (const raceway of ['steel-conduit', 'aluminium-conduit', 'plastic-conduit', 'flexible-metal'] as const) {
      const offered = racewaySizes(raceway);
      expect(offered.slice(0, 3)).toEqual(['1/2', '3/4', '1']);
      expect(new Set(offered).size).toBe(offered.length);
      for (const size of offered) expect(of({ ...round(1, 0.1), ...pipe(size, raceway) }).verdict, `${size} of ${raceway}`).toBe('pass');
    }
    expect(racewaySizes('steel-conduit').filter((each) => each.startsWith('1 1/4'))).toEqual([
      '1 1/4',
      '1 1/4 EMT',
      '1 1/4 IMC',
      '1 1/4 RMC',
    ]);
    for (const raceway of ['tray', 'none', 'direct-buried']) expect(racewaySizes(raceway)).toEqual([]);
  });
  it('is open where nobody says what else lies in the pipe, unless this cable alone is too much for it', () => {
    const unsaid = (pct: number) => of({ ...round(pct, 3.356), ...pipe('2 EMT') }, {}, false);
    const open = unsaid(53);
    expect([open.verdict, ...fields(open), open.limit]).toEqual(['open', 'W: installation.sharedWith', 53]);
    expectClose(open.value ?? 0, 53, { relative: 1e-9 }, 'with nothing beside it');
    expect(open.text).toBe('W alone fills 53.0 % of a 2 in EMT raceway; 53 % is the most for one. Not known: cables in the raceway of W.');
    // A second cable lowers the limit and fills more: what is over stays over.
    expect(unsaid(53.1).verdict).toBe('fail');
    const told = { installation: { raceway: 'steel-conduit', racewaySize: '2 EMT', sharedWith: [] as string[] } } as const;
    expect(of({ ...round(53, 3.356), ...told }, {}, false).verdict).toBe('pass');
    // Another that names it says it too.
    const other: Cable = { ...WIRES, id: 'c2', tag: 'X', ...round(15, 3.356) };
    expect(of({ ...round(15, 3.356), ...pipe('2 EMT') }, { together: [other] }, false).verdict).toBe('pass');
  });
  it('passes without a word only where all that is said to lie there is counted', () => {
    const laid = (more: Partial<Cable['installation']>) => ({ installation: { ...WIRES.installation, ...more } });
    const brake = { auxiliary: [{ use: 'brake' as const }] };
    const [cores, spares, six] = [of(brake), of(laid({ spares: 'left-open' })), of(laid({ loadedConductors: 6 }))];
    expect([cores, spares, six].map(({ verdict, text }) => [verdict, text.split('more than two. ')[1]])).toEqual([
      ['note', 'Not counted: brake cores.'],
      ['note', 'Not counted: spare conductors.'],
      // Three of the six are counted: nobody drew the others.
      ['note', 'Not counted: 3 more loaded conductors that are said to lie there.'],
    ]);
    expect([of(laid({ spares: 'none', loadedConductors: 3 })).verdict, of({ auxiliary: [] }).verdict]).toEqual(['pass', 'pass']);
    // Inside a cable they are within its diameter.
    expect(of({ ...brake, ...round(10, 3.356), ...pipe('2 EMT') }).verdict).toBe('pass');
    // What is over without them is over with them.
    expect(of({ ...brake, installation: { raceway: 'steel-conduit', racewaySize: '1/2 EMT' } }).verdict).toBe('fail');
    // Of a neighbour too.
    const beside: Cable = { ...WIRES, ...brake, id: 'c2', tag: 'X' };
    expect(of({}, { together: [beside] }).text).toContain('Not counted: brake cores.');
  });
  it('of a pipe whose kind nobody said takes the narrowest, and says so', () => {
    // 2 1/2: EMT 5.858, IMC 5.135, RMC 4.866 in².
    const found = of({ ...round(10, 4.866), ...pipe('2 1/2') });
    expectClose(found.value ?? 0, 10, { relative: 1e-9 }, 'of RMC');
    expect(found.assumptions.map((each) => [each.what, each.value])).toEqual([['kind of raceway', 'RMC, the narrowest']]);
    expect([
      of({ ...round(1, 1), ...pipe('2', 'aluminium-conduit') }).assumptions,
      of({ ...round(1, 1), ...pipe('2 IMC') }).assumptions,
    ]).toEqual([[], []]);
  });
  it('is not asked in no pipe or inside one enclosure, and open while pipe or size is not known', () => {
    expect([of({ kind: 'link' }).verdict, of(pipe('2', 'tray')).text, of(pipe('2', 'tray')).verdict]).toEqual([
      'not-applicable',
      'It lies in no pipe.',
      'not-applicable',
    ]);
    expect([of({ installation: {} }).verdict, ...fields(of({ installation: {} }))]).toEqual(['open', 'W: installation.raceway']);
    const unsized = of({ installation: { raceway: 'steel-conduit' } });
    expect([unsized.verdict, ...fields(unsized)]).toEqual(['open', 'W: installation.racewaySize']);
  });
  it('is open while a wire in it is not known, and says which', () => {
    const { construction: _, ...unbuilt } = WIRES;
    const open = (cable: Partial<Cable>, more: Partial<CableScope> = {}) => [of(cable, more).verdict, ...fields(of(cable, more))];
    expect(open({ conductor: {}, insulation: {}, grounds: {} })).toEqual([
      'open',
      'W: conductor.size',
      'W: grounds.count',
      'W: insulation.type',
      'W: grounds.size',
    ]);
    expect(fields(only(conduitFill.scope === 'cable' ? conduitFill.judge(cableScope({ cable: unbuilt as Cable })) : []))).toEqual([
      'W: construction',
    ]);
    expect(open({ construction: 'multicore' })).toEqual(['open', 'W: outerDiameter_mm']);
    expect(open({}, { together: [{ ...WIRES, tag: 'X', construction: 'multicore' }] })).toEqual(['open', 'X: outerDiameter_mm']);
    // A size that no table has, of the wire or of its ground, is asked for its diameter.
    expect(open({ conductor: { size: '7 kcmil' } })).toEqual(['open', 'W: outerDiameter_mm']);
    expect(open({ grounds: { count: 1, size: '7 kcmil' } })).toEqual(['open', 'W: outerDiameter_mm']);
    expect(wireDiameter_mm({ insulation: {} }, '8 AWG')).toBeNull();
  });
  it('without a ground holds three wires, whose diameter may be given', () => {
    const d = 10;
    const found = of({ grounds: { count: 0 }, insulation: {}, outerDiameter_mm: d, ...pipe('2 EMT') });
    expectClose(found.value ?? 0, (100 * 3 * Math.PI * d * d) / 4 / (3.356 * IN2), { relative: 1e-9 }, 'by hand');
    expect([found.working[0]?.startsWith('W: 3 × 10.00 mm = '), found.limit]).toEqual([true, 40]);
    expectClose(wireDiameter_mm({ insulation: { wall_mm: 1 } }, '8 AWG') ?? 0, 3.71 + 2, { relative: 0.01 }, '8 AWG is 0.146 in (Table 8)');
  });
});

describe('a gland', () => {
  const gland = (outerDiameter_mm: number | undefined, glandLeast_mm?: number, glandMost_mm?: number) =>
    judge({
      installation: { raceway: 'tray' },
      ...(outerDiameter_mm === undefined ? {} : { outerDiameter_mm }),
      from: { ...(glandLeast_mm === undefined ? {} : { glandLeast_mm }), ...(glandMost_mm === undefined ? {} : { glandMost_mm }) },
    });
  it('takes a cable within its range', () => {
    expect([20, 25, 19.9, 25.1].map((each) => gland(each, 20, 25)[0]?.verdict)).toEqual(['pass', 'pass', 'fail', 'fail']);
    const [thin, thick, fits] = [gland(19, 20, 25)[0], gland(26, 20, 25)[0], gland(22, 20, 25)[0]];
    expect([thin, thick, fits].map((each) => [each?.limit, each?.value, each?.unit, each?.phrase, each?.remedies.length])).toEqual([
      [20, 19, 'mm', 'gland does not fit', 1],
      [25, 26, 'mm', 'gland does not fit', 1],
      [25, 22, 'mm', 'gland fits', 0],
    ]);
    expect([thin?.authority, thin?.quantity, thin?.subject.end, thin?.working, thin?.inputs.length]).toEqual([
      'manual',
      'outer diameter',
      'from',
      ['19.00 mm; the gland takes 20.0 to 25.0 mm'],
      3,
    ]);
    expect(fits?.text).toBe('W is 22.0 mm thick; its gland takes 20.0 to 25.0 mm.');
    expect(judge({ outerDiameter_mm: 22, to: { glandLeast_mm: 20, glandMost_mm: 25 } })[0]?.subject.end).toBe('to');
  });
  it('is open where its least is above its most: the two contradict each other', () => {
    for (const diameter of [19, 22, 26]) {
      const [found] = gland(diameter, 25, 20);
      expect([found?.verdict, found?.phrase]).toEqual(['open', 'least above most']);
      expect(found?.text).toContain('The two contradict each other.');
    }
  });
  it('is open while its range or the cable is not known, and not asked where there is none', () => {
    const open = (...given: Parameters<typeof gland>) => {
      const [found] = gland(...given);
      return found ? [found.verdict, ...fields(found)] : [];
    };
    expect([open(22, 20), open(22, undefined, 25), open(undefined, 20, 25)]).toEqual([
      ['open', 'W: from.glandMost_mm'],
      ['open', 'W: from.glandLeast_mm'],
      ['open', 'W: outerDiameter_mm'],
    ]);
    expect(gland(22)).toHaveLength(1);
  });
});
