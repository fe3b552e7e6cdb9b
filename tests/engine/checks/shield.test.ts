import { describe, expect, it } from 'vitest';
import { applyFix, type Cable, type Finding, type LineUp, review } from '../../../engine/index.ts';
import { horsepower, inSteel, LineUpBuilder, type Part, shielded } from '../lineUpBuilder.ts';

/** The way of the shield from drive to motor, box by box. What each case must give: the drive makers' guides as the checks cite them. */

type Lead = Parameters<LineUpBuilder['cable']>[0];
type Box = { readonly kind: 'disconnect' | 'junction'; readonly values: Part<'junction'> };

/** Supply, drive, then cable, box, cable, box ... to the motor. */
function run(leads: readonly Lead[], boxes: readonly Box[]): LineUp {
  const site = new LineUpBuilder({ title: 'one run' })
    .part('supply', { tag: 'S-1', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 20_000, earthing: 'solid-wye' })
    .part('drive', { tag: 'VFD-1', inputCurrent_A: 72, outputCurrent_A: 77, riseTime_s: 0.15e-6, manual: { shieldRequired: false } });
  leads.forEach((lead, i) => {
    site.cable({ ...lead, tag: `W-${i + 1}` });
    const box = boxes[i];
    if (box) site.part(box.kind, box.values);
    else
      site.part('motor', {
        tag: 'M-1',
        ratedPower_W: horsepower(60),
        ratedVoltage_V: 460,
        ratedCurrent_A: 75,
        insulation: 'mg1-part-31',
        box: 'metal',
      });
  });
  return site.build();
}
const box = (tag: string, values: Part<'junction'> = {}, kind: Box['kind'] = 'disconnect'): Box => ({ kind, values: { tag, ...values } });
const METAL = { box: 'metal' } as const;
const PLASTIC = { box: 'plastic' } as const;
const cut = { landing: 'none' } as const;
const lead = (more: Lead = {}): Lead => shielded('2 AWG', 100, more);
const bare = (length_ft: number): Lead => shielded('2 AWG', length_ft, { construction: 'multicore' });

const of = (lineUp: LineUp, check: string): readonly Finding[] => review(lineUp).findings.filter((each) => each.check === check);
const said = (lineUp: LineUp): readonly (readonly [string, string])[] =>
  of(lineUp, 'shield-continuity').map((each) => [each.subject.tag, each.verdict] as const);

describe('shield continuity', () => {
  it('one piece of cable passes', () => expect(said(run([lead()], []))).toEqual([['M-1', 'pass']]));

  it('a metal box with both shields landed all round passes', () =>
    expect(said(run([lead(), lead()], [box('DS-1', METAL)]))).toEqual([['M-1', 'pass']]));

  it('a plastic box without a bond bar fails, and is named', () =>
    expect(said(run([lead(), lead()], [box('DS-1', { ...PLASTIC, bondBar: false })]))).toEqual([['DS-1', 'fail']]));

  it('a plastic box with a bond bar and both shields clamped to it passes', () => {
    const clamp = { landing: 'clamp' } as const;
    const site = run([lead({ to: clamp }), lead({ from: clamp })], [box('DS-1', { ...PLASTIC, bondBar: true })]);
    expect(said(site)).toEqual([['M-1', 'pass']]);
  });

  it('a bond bar does not help a shield that is cut back', () => {
    const site = run([lead({ to: cut }), lead()], [box('DS-1', { ...PLASTIC, bondBar: true })]);
    const [found] = of(site, 'shield-continuity');
    expect([found?.subject.tag, found?.verdict]).toEqual(['DS-1', 'fail']);
    expect(found?.text).toContain('W-1');
  });

  it('how it is landed in the box is not known: open, not a pass', () => {
    const unknown = { landing: undefined } as unknown as Partial<Cable['to']>;
    expect(said(run([lead({ to: unknown }), lead()], [box('DS-1', METAL)]))).toEqual([['DS-1', 'open']]);
  });

  it('what the box is made of is not known: open, not a pass', () =>
    expect(said(run([lead(), lead()], [box('JB-1', {}, 'junction')]))).toEqual([['JB-1', 'open']]));

  it('two boxes in series are two findings', () => {
    const site = run([lead({ to: cut }), lead({ from: cut, to: cut }), lead({ from: cut })], [box('DS-1', PLASTIC), box('DS-2', PLASTIC)]);
    expect(said(site)).toEqual([
      ['DS-1', 'fail'],
      ['DS-2', 'fail'],
    ]);
  });

  it('a piece without shield in the middle is one finding, with its metres', () => {
    const site = run([lead(), bare(50), lead()], [box('JB-1', METAL, 'junction'), box('JB-2', METAL, 'junction')]);
    const fails = of(site, 'shield-continuity').filter((each) => each.verdict === 'fail');
    expect(fails.map((each) => each.subject.tag)).toEqual(['W-2']);
    expect([fails[0]?.value, fails[0]?.unit]).toEqual([50 * 0.3048, 'm']);
  });

  it('two such pieces one after the other are still one finding', () => {
    const site = run(
      [lead(), bare(50), bare(30), lead()],
      [box('JB-1', METAL, 'junction'), box('JB-2', METAL, 'junction'), box('JB-3', METAL, 'junction')],
    );
    const fails = of(site, 'shield-continuity').filter((each) => each.verdict === 'fail');
    expect(fails.length).toBe(1);
    expect(fails[0]?.value).toBeCloseTo(80 * 0.3048, 9);
  });

  it('bonded steel conduit is a shield, plastic conduit is not', () => {
    const steel = inSteel('2 AWG', 100);
    expect(said(run([steel], []))).toEqual([['M-1', 'pass']]);
    const plastic = { ...steel, installation: { ...steel.installation, raceway: 'plastic-conduit' } as Cable['installation'] };
    expect(of(run([plastic], []), 'shield-present').map((each) => each.verdict)).toEqual(['caution']);
    expect(said(run([plastic], []))).toEqual([['M-1', 'not-applicable']]);
  });

  it('conduit, then cable, through a metal box with a bonded fitting passes', () =>
    expect(said(run([inSteel('2 AWG', 100), lead()], [box('DS-1', METAL)]))).toEqual([['M-1', 'pass']]));

  it('a note that says continuous does not outweigh the drawing', () => {
    const site = run([lead({ to: cut }), lead()], [box('DS-1', { ...PLASTIC, note: 'shield continuous' })]);
    expect(said(site)).toEqual([['DS-1', 'fail']]);
  });
});

describe('the bond that a finding proposes', () => {
  const bond = (lineUp: LineUp): LineUp => {
    const [fix] = of(lineUp, 'shield-continuity').flatMap((each) => each.fixes);
    if (!fix) throw new Error('no fix');
    return applyFix(lineUp, fix);
  };

  it('closes the gap, and touches nothing else', () => {
    const site = run([lead({ to: cut }), lead({ from: cut })], [box('DS-1', PLASTIC)]);
    const after = bond(site);
    expect(said(after)).toEqual([['M-1', 'pass']]);
    const same = (tag: string) => after.elements.find((each) => each.tag === tag) === site.elements.find((each) => each.tag === tag);
    expect(['S-1', 'VFD-1', 'M-1', 'DS-1'].filter(same)).toEqual(['S-1', 'VFD-1', 'M-1']);
  });

  it('through a box with two motors behind it clamps all three cables', () => {
    const to = new LineUpBuilder({ title: 'two motors' })
      .part('supply', { tag: 'S-1', voltage_V: 480, frequency_Hz: 60 })
      .part('drive', { tag: 'VFD-1' })
      .cable(lead({ to: cut }))
      .part('junction', { tag: 'JB-1', ...PLASTIC })
      .cable(lead({ from: cut }))
      .part('motor', { tag: 'M-1' })
      .from('JB-1')
      .cable(lead({ from: cut }))
      .part('motor', { tag: 'M-2' })
      .build();
    expect(said(to)).toEqual([['JB-1', 'fail']]);
    expect(said(bond(to)).map(([, verdict]) => verdict)).toEqual(['pass', 'pass']);
  });

  it('of a box that is gone changes no part', () => {
    const site = run([lead({ to: cut }), lead()], [box('DS-1', PLASTIC)]);
    const [fix] = of(site, 'shield-continuity').flatMap((each) => each.fixes);
    const other = run([lead()], []);
    const bare = { ...other, elements: other.elements.filter((each) => each.tag === 'S-1'), cables: [] };
    expect(fix && applyFix(bare, fix).elements[0]).toBe(bare.elements[0]);
  });

  it('goes to another thread with its review', () => {
    const answer = review(run([lead({ to: cut }), lead()], [box('DS-1', PLASTIC)]));
    expect(structuredClone(answer)).toEqual(answer);
  });
});

describe('shield landing', () => {
  const verdictAt = (lineUp: LineUp, end: 'from' | 'to') =>
    of(lineUp, 'shield-landing').find((each) => each.subject.tag === 'W-1' && each.subject.end === end)?.verdict;
  it('none at one end fails', () => expect(verdictAt(run([lead({ to: cut })], []), 'to')).toBe('fail'));
  it.each([
    [40, 10, 'caution'],
    [60, 8, 'caution'],
  ] as const)('a pigtail of %d by %d mm is a %s where no category is asked', (length, width, verdict) => {
    const site = run([lead({ to: { landing: 'pigtail', pigtailLength_mm: length, pigtailWidth_mm: width } })], []);
    expect(verdictAt(site, 'to')).toBe(verdict);
  });
  it('a pigtail fails in category C2, and a long one in C3', () => {
    const site = run([lead({ to: { landing: 'pigtail', pigtailLength_mm: 60, pigtailWidth_mm: 8 } })], []);
    for (const emcCategory of ['C2', 'C3'] as const)
      expect(verdictAt({ ...site, project: { ...site.project, emcCategory } }, 'to')).toBe('fail');
  });
  it('a pigtail of unknown size is open', () => expect(verdictAt(run([lead({ to: { landing: 'pigtail' } })], []), 'to')).toBe('open'));
});

describe('shield present', () => {
  it('fails where the manual or the contract asks for one', () => {
    const site = run([bare(100)], []);
    const asked = {
      ...site,
      elements: site.elements.map((each) => (each.kind === 'drive' ? { ...each, manual: { shieldRequired: true } } : each)),
    };
    expect(of(asked, 'shield-present').map((each) => each.verdict)).toEqual(['fail']);
    expect(of({ ...site, project: { ...site.project, emcCategory: 'C3' } }, 'shield-present').map((each) => each.verdict)).toEqual([
      'fail',
    ]);
  });
  it('is open while the manual was not read', () => {
    const site = run([bare(100)], []);
    const unread = { ...site, elements: site.elements.map((each) => (each.kind === 'drive' ? { ...each, manual: {} } : each)) };
    expect(of(unread, 'shield-present').map((each) => each.verdict)).toEqual(['open']);
  });
});
