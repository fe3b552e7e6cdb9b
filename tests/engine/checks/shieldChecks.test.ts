import { describe, expect, it } from 'vitest';
import type { CableScope, RunScope } from '../../../engine/checks/check.ts';
import type { Finding } from '../../../engine/checks/finding.ts';
import { auxiliaryCores, shieldContinuity, shieldLanding, shieldPresent } from '../../../engine/checks/shieldChecks.ts';
import { traceShield } from '../../../engine/checks/shieldPath.ts';
import type { Cable } from '../../../engine/lineup/cable.ts';
import type { Element, ElementOf } from '../../../engine/lineup/elements.ts';
import type { Project } from '../../../engine/lineup/project.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { CABLE, cableScope, DRIVE, MOTOR, runScope } from './scopes.ts';
import { fields, only } from './told.ts';

/** The shield by what the makers' guides ask (as the checks cite them), NEC 300.3(C) for other cores, and IEC 61800-3 for its categories. */

/** Whose contract nobody has read yet. */
const { emcCategory: _asked, ...project } = cableScope().project;
const asks = (emcCategory?: Project['emcCategory']): Project => ({ ...project, ...(emcCategory ? { emcCategory } : {}) });

const SHIELDED: Cable = {
  ...CABLE,
  construction: 'copper-tape',
  installation: { raceway: 'tray' },
  from: { element: 'e1', landing: 'full' },
  to: { element: 'e2', landing: 'full' },
};
const BARE: Cable = { ...CABLE, id: 'c2', tag: 'X', construction: 'multicore', installation: { raceway: 'tray' }, length_m: 40 };
const UNKNOWN: Cable = { ...BARE, id: 'c3', tag: 'U', installation: {} };
const LINK: Cable = { ...BARE, id: 'c4', tag: 'L', kind: 'link' };
const box = (more: Partial<ElementOf<'junction'>> = {}): Element => ({ id: 'b1', kind: 'junction', tag: 'JB', ...more });

/** A run of these cables, with this box where two meet. */
const run = (cables: readonly Cable[], more: Partial<RunScope> = {}, between: Element = box({ box: 'metal' })): RunScope => {
  const scope = runScope({ project, cables, boxes: cables.length > 1 ? [between] : [], ...more });
  const hops = cables.map((cable, i) => ({ cable, nearEnd: 'from' as const, far: i < cables.length - 1 ? between : scope.motor }));
  return { ...scope, shield: traceShield(scope.drive, hops) } as RunScope;
};

describe('a shield is there', () => {
  const present = (cables: readonly Cable[], more: Partial<RunScope> = {}) =>
    only(shieldPresent.scope === 'run' ? shieldPresent.judge(run(cables, more)) : []);
  const manual = (shieldRequired?: boolean) => ({
    drive: { ...DRIVE, manual: shieldRequired === undefined ? {} : { shieldRequired, page: '7' } },
  });
  it('with a shield or a metal pipe all the way passes, and shows from what', () => {
    const found = present([SHIELDED, { ...CABLE, tag: 'P' }]);
    expect([found.verdict, found.phrase, found.subject.tag, found.runs]).toEqual(['pass', 'shielded', 'M', ['M']]);
    expect(found.inputs.map((each) => each.what)).toEqual([
      'Construction of W',
      'What W is laid in',
      'Construction of P',
      'What P is laid in',
    ]);
  });
  it('is not asked inside one enclosure', () => expect(present([LINK]).verdict).toBe('not-applicable'));
  it('is open while the build of a cable is not known, though the others are shielded', () => {
    const found = present([SHIELDED, UNKNOWN]);
    expect([found.verdict, fields(found)]).toEqual(['open', ['U: installation.raceway']]);
  });
  it('that is not, is a caution where neither manual nor contract asks, and fails where one does', () => {
    const [free, byManual, byContract] = [
      present([BARE], { ...manual(false), project: asks('none') }),
      present([BARE], manual(true)),
      present([BARE], { project: asks('C3') }),
    ];
    expect([free, byManual, byContract].map((found) => [found.verdict, found.authority])).toEqual([
      ['caution', 'guide'],
      ['fail', 'manual'],
      ['fail', 'standard'],
    ]);
    expect(byManual.source).toBe('the manual of D, page 7; it overrides the screening rules');
    expect([free.source, byContract.source]).toEqual([shieldPresent.source, shieldPresent.source]);
    expect([free.value, free.limit, free.unit, free.quantity, free.phrase]).toEqual([40, 0, 'm', 'length without shield', 'no shield']);
    expect(free.text).toBe('X, 40.0 m, has neither a shield nor a metal raceway.');
    expect(byManual.text).toBe('X, 40.0 m, has neither a shield nor a metal raceway; the manual of D asks for one.');
    expect(byContract.text).toBe('X, 40.0 m, has neither a shield nor a metal raceway; category C3 is asked.');
    expect(byManual.inputs.map((each) => each.what)).toEqual([
      'Whether the manual of D asks for a shield',
      'Construction of X',
      'What X is laid in',
      'Length of X, one way',
    ]);
    expect([byManual.working, byManual.remedies.length]).toEqual([['X: 40.00 m without shield or metal raceway'], 2]);
  });
  it('that is not, is open while the manual or the contract was not read: both decide', () => {
    const open = (more: Partial<RunScope>) => {
      const found = present([BARE], more);
      return [found.verdict, ...fields(found)];
    };
    expect(open({})).toEqual(['open', 'D: manual.shieldRequired', 'the project: emcCategory']);
    expect(open(manual())).toEqual(['open', 'D: manual.shieldRequired', 'the project: emcCategory']);
    expect(open(manual(false))).toEqual(['open', 'the project: emcCategory']);
    expect(open({ project: asks('none') })).toEqual(['open', 'D: manual.shieldRequired']);
    const found = present([BARE, UNKNOWN]);
    expect([found.phrase, fields(found), found.remedies.length]).toEqual([
      'no shield; manual?',
      ['U: installation.raceway', 'D: manual.shieldRequired', 'the project: emcCategory'],
      3,
    ]);
    expect(found.text).toContain('X has neither');
    expect(found.missing.at(-1)).toEqual({
      id: '',
      tag: 'the project',
      field: 'emcCategory',
      label: 'Emission category',
      named: 'Emission category of the project',
      ask: 'specification',
    });
  });
  it('counts every bare metre, and says where it lies and that one guide ends at 30 kW', () => {
    const said = (cables: readonly Cable[], ratedPower_W?: number) =>
      present(cables, { ...manual(false), project: asks('none'), motor: { ...MOTOR, ...(ratedPower_W ? { ratedPower_W } : {}) } });
    const two = said([BARE, { ...BARE, id: 'c5', tag: 'Y', length_m: 2.5 }]);
    expect([two.value, two.text]).toEqual([42.5, 'X, Y, 42.5 m, has neither a shield nor a metal raceway.']);
    expect(said([SHIELDED, BARE]).text).toContain('X, 40.0 m between shielded ones, has');
    const { length_m: _, ...endless } = BARE;
    expect(said([endless]).value).toBe(0);
    expect([said([BARE], 30_000).text, said([BARE], 30_001).text].map((text) => text.includes('above 30 kW'))).toEqual([false, true]);
    expect(fields(said([BARE, UNKNOWN]))).toEqual(['U: installation.raceway']);
    expect(said([BARE, UNKNOWN]).text).not.toContain('between');
    // Beside a cable of no known build nobody can say that the others are shielded.
    expect(present([BARE, UNKNOWN], { project: asks('C2') }).verdict).toBe('fail');
  });
});

describe('a shield is whole', () => {
  const whole = (cables: readonly Cable[], between?: Element, more: Partial<RunScope> = {}) =>
    shieldContinuity.scope === 'run' ? shieldContinuity.judge(run(cables, more, between)) : [];
  const cut = { landing: 'none' } as const;
  const second: Cable = { ...SHIELDED, id: 'c2', tag: 'X' };
  const [toBox, fromBox] = [
    (cable: Cable, end: Partial<Cable['to']> = {}): Cable => ({ ...cable, to: { ...cable.to, element: 'b1', ...end } }),
    (cable: Cable, end: Partial<Cable['to']> = {}): Cable => ({ ...cable, from: { ...cable.from, element: 'b1', ...end } }),
  ];
  it('that is none at all is another check’s word', () => {
    const found = only(whole([BARE]));
    expect([found.verdict, found.subject.tag]).toEqual(['not-applicable', 'M']);
  });
  it('from drive to motor passes, and shows its way', () => {
    const found = only(whole([SHIELDED, second], box({ box: 'metal', bondBar: false })));
    expect([found.verdict, found.phrase, found.working, found.runs]).toEqual(['pass', 'shield continuous', ['path: D, W, X, M'], ['M']]);
    expect(found.inputs.map((each) => each.what)).toEqual([
      'Construction of W',
      'Shield landing at the start of W',
      'Shield landing at the end of W',
      'Construction of X',
      'Shield landing at the start of X',
      'Shield landing at the end of X',
      'What the box of JB is made of',
      'Whether the box of JB has a bond bar',
    ]);
    expect(only(whole([LINK, second], box({ box: 'metal' }))).working).toEqual(['path: D, X, M']);
  });
  it('stops in a box: which, at which ends, and what the box is', () => {
    const text = (a: Cable, b: Cable, more: Partial<ElementOf<'junction'>>) => only(whole([a, b], box(more))).text;
    expect(text(toBox(SHIELDED, cut), fromBox(second, cut), { box: 'metal' })).toBe(
      'Shield stops at JB: the shield of W is cut back there and the shield of X is cut back there, and the box is metal.',
    );
    expect(text(SHIELDED, second, { box: 'plastic', bondBar: false })).toBe(
      'Shield stops at JB: W is landed there and X is landed there, and the box is plastic and has no bond bar.',
    );
    expect(text({ ...SHIELDED, to: {} }, second, { box: 'plastic' })).toBe(
      'Shield stops at JB: how W is landed there is not known and X is landed there, and the box is plastic.',
    );
    expect(text(toBox(SHIELDED, cut), second, {})).toBe('Shield stops at JB: the shield of W is cut back there.');
    expect(text(toBox(SHIELDED, cut), second, { box: 'plastic', bondBar: true })).toContain('the box is plastic.');
    const found = only(whole([toBox(SHIELDED, cut), second], box({ box: 'plastic', bondBar: true })));
    expect([found.verdict, found.phrase, found.subject.tag, found.remedies.length]).toEqual(['fail', 'shield gap', 'JB', 3]);
    expect(found.inputs.map((each) => each.what)).toEqual(['What the box of JB is made of', 'Whether the box of JB has a bond bar']);
  });
  it('is bonded through by a bar and by clamps where nothing is landed yet, and where there is a shield', () => {
    const third: Cable = { ...fromBox(BARE, cut), id: 'c6', tag: 'B' };
    const { landing: _, ...unsaid } = fromBox(second).from;
    const fix = only(whole([toBox(SHIELDED, cut), { ...second, from: unsaid }, third], box({ box: 'plastic' })).slice(1, 2)).fixes[0];
    expect(fix).toEqual({
      label: 'Bond the shields through JB',
      edits: [
        { id: 'b1', path: 'bondBar', value: true },
        { id: 'c1', path: 'to.landing', value: 'clamp' },
        { id: 'c2', path: 'from.landing', value: 'clamp' },
      ],
    });
    // What is cut back elsewhere is not landed here.
    const away = { ...toBox(SHIELDED, cut), from: { element: 'e1', ...cut } };
    expect(whole([away, second])[1]?.fixes[0]?.edits.map((edit) => edit.path)).toEqual(['bondBar', 'to.landing']);
    // What is landed by a pigtail is landed: that it should be better is another check's word.
    const poor = only(whole([toBox(SHIELDED, cut), fromBox(second, { landing: 'pigtail' })])).fixes[0];
    expect(poor?.edits.map((edit) => edit.path)).toEqual(['bondBar', 'to.landing']);
  });
  it('cut back at the drive or the motor is landed there, without a bar that joins nothing', () => {
    for (const [cable, at, path] of [
      [{ ...SHIELDED, from: { ...SHIELDED.from, ...cut } }, 'D', 'from.landing'],
      [{ ...SHIELDED, to: { ...SHIELDED.to, ...cut } }, 'M', 'to.landing'],
    ] as const) {
      const found = only(whole([cable], undefined, { motor: { ...MOTOR, box: 'metal' } }));
      expect([found.verdict, found.subject.tag]).toEqual(['fail', at]);
      expect(found.fixes).toEqual([{ label: `Land the shield at ${at}`, edits: [{ id: 'c1', path, value: 'clamp' }] }]);
    }
  });
  it('at a bus, which has no box, hangs on its bond bar alone', () => {
    const at = (bondBar?: boolean) => {
      const bus: Element = { id: 'b1', kind: 'bus', tag: 'B', ...(bondBar === undefined ? {} : { bondBar }) };
      return only(whole([SHIELDED, second], bus));
    };
    expect([at().verdict, fields(at())]).toEqual(['open', ['B: bondBar']]);
    expect(at().missing[0]?.named).toBe('Whether B has a bond bar');
    expect([at(true).verdict, at(false).verdict]).toEqual(['pass', 'fail']);
    expect(at(false).text).toBe('Shield stops at B: W is landed there and X is landed there, and it has no bond bar.');
    expect(at().fixes).toEqual([{ label: 'Bond the shields through B', edits: [{ id: 'b1', path: 'bondBar', value: true }] }]);
  });
  it('is open while it is not known how it is landed, or in what', () => {
    const open = (a: Cable, b: Cable, between: Element) => {
      const found = only(whole([a, b], between));
      return [found.verdict, found.phrase, ...fields(found)];
    };
    const joined = ['open', 'shield joined here?'];
    expect(open({ ...SHIELDED, to: {} }, second, box({ box: 'metal' }))).toEqual([...joined, 'W: to.landing']);
    expect(open({ ...SHIELDED, to: {} }, { ...second, from: {} }, box({ bondBar: true }))).toEqual([
      ...joined,
      'W: to.landing',
      'X: from.landing',
    ]);
    expect(open({ ...SHIELDED, to: {} }, second, box())).toEqual([...joined, 'W: to.landing', 'JB: box']);
    // Without a bar the box alone decides: it is what is asked.
    expect(open(SHIELDED, second, box())).toEqual([...joined, 'JB: box']);
    expect(open(SHIELDED, second, box({ bondBar: false }))).toEqual([...joined, 'JB: box']);
    expect(only(whole([SHIELDED, second], box())).fixes).toHaveLength(1);
    for (const [cable, at] of [
      [{ ...SHIELDED, from: {} }, 'D'],
      [{ ...SHIELDED, to: {} }, 'M'],
    ] as const) {
      const found = only(whole([cable]));
      expect([found.verdict, found.subject.tag, fields(found), found.fixes]).toEqual([
        'open',
        at,
        [at === 'D' ? 'W: from.landing' : 'W: to.landing'],
        [],
      ]);
    }
  });
  it('is broken over the whole length of a bare piece, once for cables in a row', () => {
    const found = only(
      whole([SHIELDED, BARE, { ...BARE, id: 'c5', tag: 'Y', length_m: 5 }], undefined, { project: { ...project, units: 'metric' } }),
    );
    expect([found.verdict, found.subject.tag, found.value, found.limit, found.unit, found.quantity, found.phrase]).toEqual([
      'fail',
      'X',
      45,
      0,
      'm',
      'length without shield',
      'unshielded piece',
    ]);
    expect(found.text.replaceAll('\u00a0', ' ')).toBe(
      'X, Y, 45 m of the way from D to M, has no shield: the path is broken over its whole length.',
    );
    expect(found.remedies).toHaveLength(2);
    const { length_m: _, ...endless } = BARE;
    expect(only(whole([SHIELDED, endless])).value).toBe(0);
  });
  it('is open at a cable of no known build, and asks for it', () => {
    const found = only(whole([SHIELDED, UNKNOWN]));
    expect([found.verdict, found.subject.kind, found.subject.tag, fields(found)]).toEqual([
      'open',
      'cable',
      'U',
      ['U: installation.raceway'],
    ]);
    expect(fields(only(whole([{ ...UNKNOWN, construction: undefined } as unknown as Cable])))).toEqual([
      'U: construction',
      'U: installation.raceway',
    ]);
  });
});

describe('a shield is landed', () => {
  const landed = (cable: Partial<Cable>, more: Partial<CableScope> = {}) =>
    shieldLanding.scope === 'cable'
      ? shieldLanding.judge(
          cableScope({ project, cable: { ...SHIELDED, ...cable }, side: 'output', fromElement: DRIVE, toElement: MOTOR, ...more }),
        )
      : [];
  const at = (from: Cable['from'], more: Partial<CableScope> = {}): Finding => {
    const [found] = landed({ from }, more);
    if (!found) throw new Error('nothing found');
    return found;
  };
  it('is not asked of a feeder, of a link, or where there is none', () => {
    expect(landed({}, { side: 'input' })).toEqual([]);
    expect(landed(LINK).map((each) => [each.verdict, each.text])).toEqual([['not-applicable', 'A connection inside one enclosure.']]);
    expect(landed(BARE).map((each) => [each.verdict, each.text])).toEqual([['not-applicable', 'It has no shield and no metal raceway.']]);
  });
  it('all round passes and cut back fails, each end by itself', () => {
    const found = landed({ to: { landing: 'none' } });
    expect(found.map((each) => [each.subject.end, each.verdict, each.phrase])).toEqual([
      ['from', 'pass', 'landed all round'],
      ['to', 'fail', 'shield not landed'],
    ]);
    expect(found.map((each) => each.text)).toEqual(['The shield of W is landed all round at D.', 'The shield of W is not landed at M.']);
    expect(found.map((each) => each.inputs.map((input) => input.what))).toEqual([
      ['Construction of W', 'What W is laid in', 'Shield landing at the start of W'],
      ['Construction of W', 'What W is laid in', 'Shield landing at the end of W'],
    ]);
    expect(found[1]?.remedies).toHaveLength(1);
    expect(at({ landing: 'clamp' }).verdict).toBe('pass');
    const pipe = landed({ ...CABLE, from: { landing: 'none' }, to: { landing: 'full' } });
    expect(pipe.map((each) => each.text)).toEqual(['The raceway of W is not landed at D.', 'The raceway of W is landed all round at M.']);
  });
  it('is open while build or landing is not known', () => {
    expect(landed(UNKNOWN).map((each) => [each.verdict, ...fields(each)])).toEqual([
      ['open', 'U: installation.raceway'],
      ['open', 'U: installation.raceway'],
    ]);
    const found = landed({ from: {}, to: {} });
    expect(found.map((each) => [each.verdict, each.phrase, ...fields(each)])).toEqual([
      ['open', 'landing at D?', 'W: from.landing'],
      ['open', 'landing at M?', 'W: to.landing'],
    ]);
  });
  describe('by a pigtail', () => {
    const tail = (pigtailLength_mm: number, pigtailWidth_mm: number, category: Project['emcCategory']) =>
      at({ landing: 'pigtail', pigtailLength_mm, pigtailWidth_mm }, { project: asks(category) });
    it('fails in C1 and C2, however short', () => {
      for (const category of ['C1', 'C2'] as const) {
        const found = tail(10, 10, category);
        expect([found.verdict, found.authority, found.phrase, found.remedies.length]).toEqual(['fail', 'standard', 'pigtail', 2]);
        expect(found.source).toContain(`IEC 61800-3 category ${category}`);
      }
      expect(at({ landing: 'pigtail' }, { project: asks('C2') }).verdict).toBe('fail');
    });
    it('is else a caution to five times its width, and beyond fails where a category is asked', () => {
      expect([tail(50, 10, 'C3'), tail(50.1, 10, 'C3'), tail(50.1, 10, 'C4')].map((each) => each.verdict)).toEqual([
        'caution',
        'fail',
        'fail',
      ]);
      expect([tail(50, 10, 'none'), tail(500, 10, 'none')].map((each) => each.verdict)).toEqual(['caution', 'caution']);
      const found = tail(30, 10, 'C3');
      expect([found.value, found.limit, found.unit, found.quantity, found.phrase, found.authority]).toEqual([
        3,
        5,
        '',
        'pigtail length over width',
        'pigtail 3.0 : 1',
        'guide',
      ]);
      expectClose(found.margin_pct ?? 0, 40, { relative: 1e-12 }, 'two fifths are left');
      expect([found.working, found.remedies.length]).toEqual([['30.0 mm / 10.0 mm = 3.00'], 2]);
      expect(found.inputs).toHaveLength(5);
    });
    it('is open while category or size is not known', () => {
      expect(fields(at({ landing: 'pigtail', pigtailLength_mm: 5, pigtailWidth_mm: 5 }))).toEqual(['the project: emcCategory']);
      const open = (from: Cable['from']) => {
        const found = at({ ...from, landing: 'pigtail' }, { project: asks('none') });
        return [found.verdict, ...fields(found)];
      };
      expect(open({})).toEqual(['open', 'W: from.pigtailLength_mm', 'W: from.pigtailWidth_mm']);
      expect(open({ pigtailLength_mm: 5 })).toEqual(['open', 'W: from.pigtailWidth_mm']);
      expect(open({ pigtailWidth_mm: 5 })).toEqual(['open', 'W: from.pigtailLength_mm']);
    });
  });
});

describe('other cores beside the motor’s', () => {
  type Group = Cable['auxiliary'][number];
  const GOOD: Group = { use: 'control', screened: true, screenLanded: 'both', insulation_V: 600 };
  const BRAKED = { ...MOTOR, brake: { fedFrom: 'own-supply', holdsLoad: false } } as const;
  const cores = (groups: readonly Group[], more: Partial<CableScope> = {}) =>
    auxiliaryCores.scope === 'cable'
      ? auxiliaryCores.judge(cableScope({ cable: { ...SHIELDED, auxiliary: [...groups] }, side: 'output', ...more }))
      : [];
  const group = (more: Partial<Group>, scope: Partial<CableScope> = {}) => only(cores([{ ...GOOD, ...more }], scope));
  const motor = (brake: ElementOf<'motor'>['brake']) => ({ motors: [{ ...MOTOR, ...(brake ? { brake } : {}) }] });
  it('are not asked of a feeder, nor where there are none', () => {
    expect(cores([GOOD], { side: 'input' })).toEqual([]);
    expect(only(cores([])).verdict).toBe('not-applicable');
  });
  it('with a shield of their own, landed at both ends, and insulation for the power pass', () => {
    const found = group({});
    expect([found.verdict, found.phrase, found.id, found.runs]).toEqual([
      'pass',
      'shielded, both ends',
      'auxiliary-cores/cable/c1/0',
      ['M'],
    ]);
    expect(cores([GOOD, GOOD]).map((each) => each.id)).toEqual(['auxiliary-cores/cable/c1/0', 'auxiliary-cores/cable/c1/1']);
  });
  it('insulated for less than the power conductors fail (NEC 300.3(C)): 300 V beside 480 V', () => {
    const found = group({ insulation_V: 300 });
    expect([found.verdict, found.authority, found.source, found.value, found.limit, found.unit, found.quantity, found.phrase]).toEqual([
      'fail',
      'code',
      'NEC 300.3(C)',
      300,
      480,
      'V',
      'insulation of the cores',
      'control cores 300 V',
    ]);
    expectClose(found.margin_pct ?? 0, -37.5, { relative: 1e-12 }, '180 V of 480 V short');
    expect([found.working, found.inputs.length, found.remedies.length, found.id]).toEqual([
      ['cores 300 V, power conductors 480 V'],
      1,
      1,
      'auxiliary-cores/cable/c1/0',
    ]);
    expect([group({ insulation_V: 480 }).verdict, group({ insulation_V: 479 }).verdict]).toEqual(['pass', 'fail']);
    expect(group({ insulation_V: 300 }, { nominal_V: null }).verdict).toBe('open');
    expect(group({}, { nominal_V: null }).text).toContain('the supply voltage is not known');
  });
  it('without a shield landed at both ends are a caution', () => {
    const poor = [{ screened: false }, { screenLanded: 'one' }, { screenLanded: 'none' }] as const;
    expect(poor.map((each) => group(each)).map((each) => [each.verdict, each.authority, each.phrase])).toEqual(
      poor.map(() => ['caution', 'guide', 'control cores unshielded']),
    );
    expect(poor.map((each) => group(each).text)).toEqual([
      'The control cores in W have no shield of their own.',
      'The control cores in W have a shield landed at one end only.',
      'The control cores in W have a shield landed at neither end.',
    ]);
    expect([group({ screened: false }).remedies.length, group({ screened: false }).id]).toEqual([2, 'auxiliary-cores/cable/c1/0']);
  });
  it('of a brake that holds a load fail so, and are open while nobody said whether it does', () => {
    const brake = (holdsLoad?: boolean) =>
      group({ use: 'brake', screened: false }, motor({ fedFrom: 'own-supply', ...(holdsLoad === undefined ? {} : { holdsLoad }) }));
    expect([brake(true), brake(false), brake()].map((each) => each.verdict)).toEqual(['fail', 'caution', 'open']);
    expect([brake(true).authority, brake(false).authority]).toEqual(['physics', 'guide']);
    expect(brake(true).text).toContain(', and the brake holds a suspended load.');
    expect(brake(false).text).not.toContain('suspended');
    expect([fields(brake()), brake().id]).toEqual([['M: brake.holdsLoad'], 'auxiliary-cores/cable/c1/0']);
    expect(brake().text).toContain('have no shield of their own; whether the brake holds a suspended load is not known.');
    // One that holds decides, whatever is not known of another; and one that does not, does not.
    const two = (first: boolean) =>
      group(
        { use: 'brake', screened: false },
        {
          motors: [
            { ...BRAKED, brake: { holdsLoad: first } },
            { ...MOTOR, tag: 'N' },
          ],
        },
      );
    expect([two(true).verdict, two(false).verdict, ...fields(two(false))]).toEqual(['fail', 'open', 'N: brake.holdsLoad']);
    // Other cores hold nothing.
    expect(group({ use: 'encoder', screened: false }, motor({ holdsLoad: true })).verdict).toBe('caution');
    expect(group({ use: 'encoder', screened: false }, motor({ fedFrom: 'own-supply' })).verdict).toBe('caution');
  });
  it('a brake on the output of the drive fails by physics, whatever its cores are', () => {
    for (const groups of [[], [GOOD]]) {
      const found = only(cores(groups, motor({ fedFrom: 'drive-output' })));
      expect([found.verdict, found.authority, found.phrase, found.remedies.length]).toEqual([
        'fail',
        'physics',
        'brake on drive output',
        1,
      ]);
      expect(found.text).toContain('The brake of M is fed');
    }
    expect(cores([GOOD], motor({ fedFrom: 'own-supply' })).map((each) => each.verdict)).toEqual(['pass']);
  });
  it('of a brake pass only where it is known what feeds it', () => {
    expect(group({ use: 'brake' }, { motors: [BRAKED] }).verdict).toBe('pass');
    for (const brake of [undefined, { holdsLoad: false }]) {
      const found = group({ use: 'brake' }, motor(brake));
      expect([found.verdict, ...fields(found)]).toEqual(['open', 'M: brake.fedFrom']);
    }
  });
  it('are open while shield, landing or insulation is not known, and say which', () => {
    const { screened: _, ...unscreened } = GOOD;
    const { screenLanded: __, ...unlanded } = GOOD;
    const { insulation_V: ___, ...uninsulated } = GOOD;
    const open = (one: Group) => {
      const found = only(cores([one]));
      return [found.verdict, ...found.missing.map((each) => `${each.id} ${each.tag}: ${each.field}, ${each.label}, ${each.ask}`)];
    };
    expect(open(unscreened)).toEqual(['open', 'c1 W: auxiliary.0.screened, Shield of the control cores, cable supplier']);
    expect(open(unlanded)).toEqual(['open', 'c1 W: auxiliary.0.screenLanded, Landing of the control shield, cable supplier']);
    expect(open(uninsulated)).toEqual(['open', 'c1 W: auxiliary.0.insulation_V, Insulation of the control cores, cable supplier']);
    expect(only(cores([unscreened])).id).toBe('auxiliary-cores/cable/c1/0');
  });
});
