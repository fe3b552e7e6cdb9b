import { describe, expect, it } from 'vitest';
import { type Finding, type LineUp, review, type Verdict } from '../../../engine/index.ts';
import { Site } from '../../../engine/sizing/site.ts';
import { badness, CABLE_CHECKS, isOwn, SIZE_CHECKS, SIZE_RULES, unitOf, worstByUnit } from '../../../engine/sizing/sizeChecks.ts';
import { LineUpBuilder } from '../lineUpBuilder.ts';
import { broken, oneLead, twoDrives, twoMotors } from './oneLead.ts';

/** Which checks a size decides, how bad what they say is, and whose sizes decide it. */

const found = (check: string, id: string, verdict: Verdict, more: Partial<Finding> = {}): Finding =>
  ({ id: `${check}/${id}`, check, verdict, subject: { kind: 'element', id, tag: id }, missing: [], ...more }) as unknown as Finding;
const lacking = (...fields: readonly string[]) => ({ missing: fields.map((field) => ({ id: 'W', field })) }) as unknown as Partial<Finding>;

describe('how bad a finding is', () => {
  it('is worst where it fails, then where it cannot be judged, then where it is cautioned', () => {
    const verdicts: Verdict[] = ['fail', 'open', 'caution', 'note', 'pass', 'not-applicable', 'out-of-scope'];
    expect(verdicts.map((verdict) => badness(found('lead-drop', 'M', verdict)))).toEqual([3, 2, 1, 0, 0, 0, 0]);
  });

  it('is nothing where it waits for the data sheet of the new size alone', () => {
    const open = (...fields: readonly string[]) => badness(found('shield-adequacy', 'W', 'open', lacking(...fields)));
    expect([open('shieldArea_mm2'), open('outerDiameter_mm', 'wave', 'insulation.wall_mm')]).toEqual([0, 0]);
    expect([open('shieldArea_mm2', 'construction'), open('construction'), open()]).toEqual([2, 2, 2]);
  });
});

describe('of each check and part', () => {
  it('the worst counts, the first of two alike, and of no check that no size decides', () => {
    const [note, fail, again, other, open] = [
      found('lead-drop', 'M', 'note'),
      found('lead-drop', 'M', 'fail'),
      { ...found('lead-drop', 'M', 'fail'), text: 'again' },
      found('lead-drop', 'N', 'pass'),
      found('terminal-range', 'M', 'open'),
    ];
    expect([...worstByUnit([note, fail, again, other, open, found('motor-peak-voltage', 'M', 'fail')])]).toEqual([
      ['lead-drop/M', fail],
      ['lead-drop/N', other],
      ['terminal-range/M', open],
    ]);
    expect(unitOf(note)).toBe('lead-drop/M');
  });

  it('it is of one cable, or of more', () => {
    const own = ['lead-ampacity', 'terminal-range', 'conduit-fill', 'parallel-sets'];
    expect(own.map((check) => isOwn({ check }))).toEqual([true, true, true, true]);
    expect(['lead-drop', 'fault-rating', 'insulation-inception', 'motor-peak-voltage'].map((check) => isOwn({ check }))).toEqual([
      false,
      false,
      false,
      false,
    ]);
    expect(SIZE_CHECKS).toHaveLength(Object.keys(SIZE_RULES).length);
    expect(CABLE_CHECKS.map(({ slug }) => slug).sort()).toEqual(
      [
        ...['conduit-fill', 'feeder-ampacity', 'insulation-wall', 'lead-ampacity', 'parallel-sets'],
        ...['protective-earth', 'shield-adequacy', 'smallest-conductor', 'terminal-range'],
      ].sort(),
    );
  });

  it('more conductor helps what must be carried, kept or walled, harms what must be held, charged or broken, and else either', () => {
    const told = (way: boolean | null) => Object.entries(SIZE_RULES).flatMap(([slug, { moreHelps }]) => (moreHelps === way ? [slug] : []));
    expect(told(true)).toEqual(['feeder-ampacity', 'lead-ampacity', 'feeder-drop', 'lead-drop', 'smallest-conductor', 'insulation-wall']);
    expect(told(false)).toEqual([
      'shield-adequacy',
      'conduit-fill',
      'fault-rating',
      'supply-stiffness',
      'charging-current',
      'manual-limits',
    ]);
    expect(told(null)).toEqual(['parallel-sets', 'protective-earth', 'terminal-range', 'insulation-inception']);
    // Without what it must carry and keep no size can be named.
    expect(Object.entries(SIZE_RULES).flatMap(([slug, { floor }]) => (floor ? [slug] : []))).toEqual([
      'feeder-ampacity',
      'lead-ampacity',
      'feeder-drop',
      'lead-drop',
    ]);
    expect(Object.entries(SIZE_RULES).flatMap(([slug, { waves }]) => (waves ? [slug] : []))).toEqual(['insulation-inception']);
  });
});

describe('whose sizes decide', () => {
  const asked = (lineUp = oneLead()) => {
    const site = new Site(lineUp);
    const parts = [...lineUp.elements, ...lineUp.cables];
    const idOf = (tag: string) => parts.find((each) => each.tag === tag)?.id ?? '';
    const tags = (ids: Iterable<string>) => [...ids].map((id) => parts.find((each) => each.id === id)?.tag ?? id).sort();
    return {
      site,
      idOf,
      deciders: (check: string, tag: string) => tags(site.deciders(found(check, idOf(tag), 'fail'))).filter((each) => !/^c\d/.test(each)),
      about: (check: string, tag: string) => tags(site.about(found(check, idOf(tag), 'fail'))).filter((each) => !/^c\d/.test(each)),
      neighbours: (tag: string) => tags(site.neighbours(idOf(tag))),
      own: (tag: string) => tags(site.ownFeeders(idOf(tag))).filter((each) => !/^c\d/.test(each)),
    };
  };

  it('is the cable alone of what it carries, with those beside it of its terminals and pipe', () => {
    const { deciders } = asked(twoDrives());
    expect([deciders('lead-ampacity', 'W-1A'), deciders('parallel-sets', 'W-1A'), deciders('some other check', 'W-1A')]).toEqual([
      ['W-1A'],
      ['W-1A'],
      ['W-1A'],
    ]);
    // In one pipe with the other lead; the next cable lands on the other side of its box.
    expect(deciders('conduit-fill', 'W-1A')).toEqual(['W-1A', 'W-2']);
    expect(deciders('terminal-range', 'F-1')).toEqual(['F-1', 'F-2']);
  });

  it('is all ahead of the drive, or all behind it; of the drop at the motor both', () => {
    const { deciders } = asked();
    expect([deciders('feeder-drop', 'F-1'), deciders('fault-rating', 'VFD-1'), deciders('charging-current', 'VFD-1')]).toEqual([
      ['F-1'],
      ['F-1'],
      ['W-1A', 'W-1B'],
    ]);
    expect([deciders('lead-drop', 'M-1'), deciders('insulation-inception', 'W-1A'), deciders('manual-limits', 'VFD-1')]).toEqual([
      ['F-1', 'W-1A', 'W-1B'],
      ['W-1A', 'W-1B'],
      ['W-1A', 'W-1B'],
    ]);
    expect([deciders('supply-stiffness', 'VFD-1'), deciders('lead-drop', 'nothing')]).toEqual([['F-1'], []]);
  });

  it('is told of those on the way: of a motor its leads, of a cable itself, of another part all', () => {
    const { about } = asked(twoMotors());
    expect([about('lead-drop', 'M-1'), about('lead-drop', 'M-2')]).toEqual([
      ['W-1A', 'W-1B'],
      ['W-1A', 'W-1C'],
    ]);
    expect([about('lead-ampacity', 'W-1B'), about('charging-current', 'VFD-1'), about('fault-rating', 'CB-1')]).toEqual([
      ['W-1B'],
      ['W-1A', 'W-1B', 'W-1C'],
      ['F-1'],
    ]);
    expect(about('fault-rating', 'M-1')).toEqual([]);
  });

  it('are neighbours those on its terminals or in its pipe, each once and never itself', () => {
    const { neighbours } = asked(twoDrives());
    expect([neighbours('F-1'), neighbours('W-1A'), neighbours('W-1B'), neighbours('nothing')]).toEqual([['F-2'], ['W-2'], [], []]);
    expect(asked(twoMotors()).neighbours('W-1B')).toEqual(['W-1C']);
  });

  it('are own feeders of a lead those that feed nothing else', () => {
    expect([asked().own('W-1A'), asked(twoDrives()).own('W-2'), asked().own('F-1')]).toEqual([['F-1'], ['F-2'], []]);
    // In a row all of them, the nearest first; not one that a motor across the line shares.
    const row = new LineUpBuilder().part('supply', { tag: 'S' }).cable({ tag: 'T' }).part('bus', { tag: 'B' });
    row.cable({ tag: 'F' }).part('disconnect', {}).cable({ tag: 'G' }).part('drive', {}).cable({ tag: 'W' }).part('motor', {});
    const ownOf = (lineUp: LineUp) => {
      const id = (tag: string) => lineUp.cables.find((each) => each.tag === tag)?.id ?? '';
      return new Site(lineUp).ownFeeders(id('W')).map((own) => lineUp.cables.find((each) => each.id === own)?.tag);
    };
    expect(ownOf(row.build())).toEqual(['G', 'F', 'T']);
    expect(ownOf(row.from('B').cable({ tag: 'H' }).part('motor', {}).build())).toEqual(['G', 'F']);
    // A feeder that both drives share is neither’s own.
    const shared = broken(twoDrives(), { 'F-2': { 'from.element': asked(twoDrives()).idOf('VFD-1'), 'from.port': 'line' } });
    expect([asked(shared).own('W-1A'), asked(shared).own('W-2')]).toEqual([[], ['F-2']]);
  });

  it('are cables that are fed and have a length', () => {
    const of = (values: Parameters<typeof broken>[1]) => new Site(broken(oneLead(), values)).cables.map(({ tag }) => tag);
    expect(of({})).toEqual(['F-1', 'W-1A', 'W-1B']);
    expect([of({ 'W-1A': { length_m: null } }), of({ 'W-1A': { length_m: 0 } }), of({ 'W-1B': { 'to.element': null } })]).toEqual([
      ['F-1', 'W-1B'],
      ['F-1', 'W-1B'],
      ['F-1', 'W-1A'],
    ]);
  });
});

describe('a choice', () => {
  it('is made of the cable once, and of those that are named', () => {
    const site = new Site(oneLead());
    const [feeder, lead] = site.cables;
    if (!feeder || !lead) throw new Error('no cables');
    const choice = { size: '2 AWG', sets: 1 };
    expect(site.cable(lead, choice)).toBe(site.cable(lead, { ...choice }));
    expect(site.cable(lead, choice)).not.toBe(site.cable(lead, { ...choice, sets: 2 }));
    expect(site.cable(lead, choice).conductor.size).toBe('2 AWG');
    const made = site.with(new Map([[lead.id, choice]]));
    expect(made.cables.find(({ id }) => id === lead.id)).toBe(site.cable(lead, choice));
    expect(made.cables.find(({ id }) => id === feeder.id)).toBe(feeder);
    const zones = [site.zoneOf(feeder.id)?.kind, site.zoneOf(lead.id)?.kind, site.zoneOf('none')];
    expect(zones).toEqual(['input', 'output', undefined]);
  });

  it('is judged with all others as they are, by the checks that a size decides or some of them', () => {
    const lineUp = oneLead();
    const site = new Site(lineUp);
    const [, lead] = site.cables;
    if (!lead) throw new Error('no lead');
    const choices = new Map([[lead.id, { size: '14 AWG', sets: 1 }]]);
    const whole = review(broken(lineUp, { 'W-1A': { 'conductor.size': '14 AWG', shieldArea_mm2: null } })).findings.filter(
      ({ check }) => check in SIZE_RULES,
    );
    const verdicts = (findings: readonly Finding[]) => findings.map(({ id, verdict }) => `${id} ${verdict}`).sort();
    expect(verdicts(site.judge()(choices).findings)).toEqual(verdicts(whole));
    const drops = site.judge(({ reach, floor }) => floor === true && reach !== 'cable')(choices).findings;
    expect(verdicts(drops)).toEqual(verdicts(whole.filter(({ check }) => check === 'lead-drop' || check === 'feeder-drop')));
  });

  it('is judged alone on its own checks: by what it and those beside it are', () => {
    const site = new Site(twoDrives());
    const lead = site.cables.find(({ tag }) => tag === 'W-1A');
    const check = (slug: string) => {
      const one = SIZE_CHECKS.find((each) => each.slug === slug);
      if (!one || !lead) throw new Error(`no ${slug}`);
      return (size: string) => site.local(one, lead.id, new Map([[lead.id, { size, sets: 1 }]]))?.verdict ?? null;
    };
    expect([check('lead-ampacity')('14 AWG'), check('lead-ampacity')('4 AWG'), check('terminal-range')('500 kcmil')]).toEqual([
      'fail',
      'pass',
      'fail',
    ]);
    // A check of a whole part says nothing of a cable; nor does one of a cable that is not there.
    expect(check('charging-current')('4 AWG')).toBeNull();
    const ampacity = SIZE_CHECKS.find(({ slug }) => slug === 'lead-ampacity');
    expect(ampacity && site.local(ampacity, 'none', new Map())).toBeNull();
    // Nor one that the project switches off.
    const lineUp = twoDrives();
    const off = new Site({ ...lineUp, project: { ...lineUp.project, checks: { 'lead-ampacity': { off: true } } } });
    expect(ampacity && lead && off.local(ampacity, lead.id, new Map([[lead.id, { size: '14 AWG', sets: 1 }]]))).toBeNull();
    // Beside the other as it would be, at both ends and in its pipe.
    const range = SIZE_CHECKS.find(({ slug }) => slug === 'terminal-range');
    const [one, other] = ['F-1', 'F-2'].map((tag) => site.cables.find((each) => each.tag === tag)?.id ?? '');
    const text = (sets: number) => range && site.local(range, one ?? '', new Map([[other ?? '', { size: '4 AWG', sets }]]))?.text;
    expect([text(1), text(3)]).toEqual([expect.stringContaining('2 conductors'), expect.stringContaining('4 conductors')]);
  });
});
