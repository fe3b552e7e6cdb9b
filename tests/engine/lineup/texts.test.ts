import { describe, expect, it } from 'vitest';
import { type Cable, type Element, inWords, type LineUp, newLineUp, sayIn, sayOf } from '../../../engine/index.ts';
import { asItWas, harmless } from '../../../engine/lineup/cellGuard.ts';
import { newCable, newElement, nextId } from '../../../engine/lineup/create.ts';
import { elementOf } from '../../../engine/lineup/elementOf.ts';
import { AS_BUILT, choiceText, FIELDS, fieldOf, inSentence, namedOf, valueAt, withValueAt } from '../../../engine/lineup/fields.ts';
import { describedAs, isCable } from '../../../engine/lineup/isCable.ts';
import { printable, printableJson } from '../../../engine/lineup/printable.ts';
import { shownValue } from '../../../engine/lineup/shownValue.ts';
import { vocabularyOf } from '../../../engine/lineup/vocabulary.ts';
import { bareCable, barePart as part } from '../bareParts.ts';

/** How values and parts are found, named, shown and written: each rule by itself. */

describe('text that leaves', () => {
  // What Excel and its like take for a formula, OWASP’s list, and the full-width forms of the signs.
  it.each(['=1+1', '+1', '-1', '@SUM', '\t=1', '\r=1', '\n=1', '＝1', '＋1', '－1', '＠a', "'=1", "''=1"])(
    '%j is guarded in a cell, and comes back',
    (text) => {
      expect(harmless(text)).toBe(`'${text}`);
      expect(asItWas(harmless(text))).toBe(text);
    },
  );
  it.each(['', 'a=1', '1-2', "'", "'a", "''", ' =1', 'W-1'])('%j is none, and stays', (text) => {
    expect(harmless(text)).toBe(text);
    expect(asItWas(text)).toBe(text);
  });
  it('a formula that nobody guarded is no guarded one', () => expect(asItWas('=1')).toBe('=1'));

  // Unicode: C0, C1, the marks and overrides of direction, the separators of lines and paragraphs.
  const driving = [
    '\0',
    '\n',
    '\t',
    '\u001b',
    '\u007f',
    '\u0080',
    '\u009f',
    '\u061c',
    '\u200e',
    '\u200f',
    '\u2028',
    '\u2029',
    '\u202a',
    '\u202e',
    '\u2066',
    '\u2069',
  ];
  it('drives no terminal and turns no direction', () => {
    expect(printable(`a${driving.join('b')}c`)).toBe(`a${'b'.repeat(driving.length - 1)}c`);
    const plain = 'a ~\u00a0é\u061b\u061d\u200d\u2010\u2027\u202f\u2065\u206a漢😀';
    expect([printable(plain), printableJson(plain)]).toEqual([plain, plain]);
  });
  it('in JSON is written out, and nothing is lost', () => {
    const text = JSON.stringify({ a: driving.join('') }, null, 1);
    const written = printableJson(text);
    expect(JSON.parse(written)).toEqual(JSON.parse(text));
    expect(printable(written)).toBe(written.replaceAll('\n', ''));
    expect(printableJson('\u007f\u202e\n')).toBe('\\u007f\\u202e\n');
  });
});

describe('a value of a part', () => {
  const cable = { conductor: { size: '2 AWG' }, list: [{ a: 1 }, { a: 2 }], nothing: null } as const;
  it('is found at its path, or not', () => {
    expect([valueAt(cable, 'conductor.size'), valueAt(cable, 'list.1.a'), valueAt(cable, 'nothing')]).toEqual(['2 AWG', 2, null]);
    for (const path of [
      'conductor.metal',
      'insulation.type',
      'conductor.size.length',
      'nothing.a',
      'constructor',
      'conductor.toString',
      '',
    ])
      expect([path, valueAt(cable, path)]).toEqual([path, undefined]);
    // Asked of more paths than are remembered.
    for (let i = 0; i < 1100; i++) expect(valueAt({ [`k${i}`]: { v: i } }, `k${i}.v`)).toBe(i);
  });
  it('is set beside the others, on the way to it only, and taken out', () => {
    const set = withValueAt(cable, 'conductor.metal', 'copper');
    expect(set).toEqual({ ...cable, conductor: { size: '2 AWG', metal: 'copper' } });
    expect(set.list).toBe(cable.list);
    expect(withValueAt(cable, 'wave.impedance_ohm', 80)).toEqual({ ...cable, wave: { impedance_ohm: 80 } });
    expect(withValueAt(cable, 'conductor.size', undefined)).toEqual({ ...cable, conductor: {} });
    expect('size' in withValueAt(cable, 'conductor.size', undefined).conductor).toBe(false);
    const second = withValueAt(cable, 'list.1.a', 3);
    expect(second.list).toEqual([{ a: 1 }, { a: 3 }]);
    expect(second.list[0]).toBe(cable.list[0]);
  });
  it('has the field of its kind, as built too', () => {
    expect([fieldOf('cable', 'length_m')?.label, fieldOf('cable', 'length'), fieldOf('motor', 'length_m')]).toEqual([
      'Length, one way',
      undefined,
      undefined,
    ]);
    expect(fieldOf('cable', 'length_m')).toBe(fieldOf('cable', 'length_m'));
    for (const kind of ['cable', 'motor'] as const) {
      const paths = [...AS_BUILT[kind].asked, ...AS_BUILT[kind].others];
      const own = FIELDS[kind].filter(({ path }) => path.startsWith('asBuilt.'));
      expect(own.map(({ path }) => path)).toEqual(paths.map((path) => `asBuilt.${path}`));
      for (const [i, { label, help, ask, kind: of }] of own.entries()) {
        const designed = fieldOf(kind, paths[i] ?? '');
        expect([label, help, ask, of]).toEqual([`As built: ${designed?.label}`, '', 'installer', designed?.kind]);
      }
    }
  });
  it('is shown as people read it, in the units of the project', () => {
    const shown = (kind: 'cable' | 'motor' | 'supply', path: string, value: unknown, units: 'us' | 'metric' = 'metric') => {
      const field = fieldOf(kind, path);
      return field && shownValue(field, value, units).replaceAll('\u00a0', ' ');
    };
    expect([shown('cable', 'length_m', 30.48), shown('cable', 'length_m', 30.48, 'us')]).toEqual(['30.5 m', '100 ft']);
    expect(shown('cable', 'conductor.size', '35 mm2')).toBe('35 mm²');
    expect([shown('cable', 'installation.existing', true), shown('cable', 'installation.existing', false)]).toEqual(['yes', 'no']);
    expect([shown('supply', 'earthing', 'tn'), shown('supply', 'note', 'solid-wye')]).toEqual(['TN', 'solid-wye']);
    expect([shown('cable', 'conductor.sets', 2), shown('cable', 'length_m', true)]).toEqual(['2', 'yes']);
  });
  it.each([
    ['steel-conduit', 'steel conduit'],
    ['mg1-part-31', 'MG1 part 31'],
    ['ivic-b', 'IVIC b'],
    ['XHHW-2', 'XHHW-2'],
    ['AC', 'AC'],
    ['tn', 'TN'],
    ['tt', 'TT'],
    ['dvdt', 'dV/dt'],
    ['emc-input', 'EMC input'],
    ['copper-aluminium', 'copper or aluminium'],
    ['entered', 'peak from its maker'],
    ['curve', 'peak and rise time from its maker'],
    ['not-mg1-part', 'not mg1 part'],
  ])('of a list, %s, is %s', (choice, said) => expect(choiceText(choice)).toBe(said));
});

describe('a name within a sentence', () => {
  it('begins small, but for letters that stand for something', () => {
    expect(['Length', 'X/R', 'EMC filter', 'D.c. choke', 'A', 'X-ray', 'length'].map(inSentence)).toEqual([
      'length',
      'X/R',
      'EMC filter',
      'd.c. choke',
      'A',
      'x-ray',
      'length',
    ]);
  });
  it('of a field is its label, and is said with its part in the place that the label marks', () => {
    const of = (kind: 'disconnect' | 'bus' | 'cable', path: string) => {
      const { label, named, kind: sort, help, choices } = fieldOf(kind, path) ?? { label: '' };
      return { label, named, sort, help, choices };
    };
    expect(of('bus', 'terminalMetal')).toEqual({
      label: 'Terminals marked for',
      named: 'What the terminals of | are marked for',
      sort: 'choice',
      help: '',
      choices: ['copper-only', 'copper-aluminium'],
    });
    expect(of('disconnect', 'lockable')).toMatchObject({
      label: 'Lockable open',
      named: 'Whether | is lockable open',
      sort: 'yesno',
      help: '',
    });
    expect(of('cable', 'to.glandLeast_mm')).toMatchObject({
      label: 'Gland takes from, end',
      named: 'Least diameter that the gland at the end of | takes',
      sort: 'quantity',
      help: '',
    });
    expect(of('cable', 'note')).toEqual({ label: 'Note', named: undefined, sort: 'text', help: '', choices: undefined });
    expect('named' in (fieldOf('cable', 'note') ?? {})).toBe(false);
    expect(of('bus', 'terminalsPerPhase')).toMatchObject({ label: 'Terminals per phase', sort: 'count', help: '' });
    expect(of('disconnect', 'enclosure')).toMatchObject({ label: 'Enclosure', sort: 'text', help: 'Name of the panel it stands in' });
    const all = Object.values(FIELDS).flat();
    for (const { path, label, named = '', ask, kind, quantity, choices } of all) {
      expect([path, label.includes('|') || label.includes('='), ask === '']).toEqual([path, false, false]);
      expect([path, quantity !== undefined, choices !== undefined]).toEqual([path, kind === 'quantity', kind === 'choice']);
      if (named !== '') expect([path, named.split('|').length]).toEqual([path, 2]);
    }
  });
  it('has its part in the place where it reads well', () => {
    const named = (label: string, own?: string) => namedOf({ label, named: own }, 'W-1');
    expect(named('Length, one way')).toBe('Length of W-1, one way');
    expect(named('Conductor')).toBe('Conductor of W-1');
    expect([named('Landing, start'), named('Landing, end')]).toEqual(['Landing at the start of W-1', 'Landing at the end of W-1']);
    expect(named('x', 'Whether | is lockable')).toBe('Whether W-1 is lockable');
    // A tag that would mean something to the replacing.
    expect(namedOf({ label: 'x', named: 'Box of |' }, '$&$1')).toBe('Box of $&$1');
    expect(namedOf({ label: 'Box', named: undefined }, '$&$1')).toBe('Box of $&$1');
  });
});

describe('parts', () => {
  const site: LineUp = { ...newLineUp(), elements: [part('motor', 'e1'), part('bus', 'e4')], cables: [bareCable('c2', 'e1', 'e4')] };
  it('are cables by their kind alone', () => {
    const kinds: (Element | Cable)[] = [bareCable('w', '', ''), { ...bareCable('w', '', ''), kind: 'link' }, part('bus', 'b')];
    expect(kinds.map((each) => `${isCable(each)} ${describedAs(each)}`)).toEqual(['true cable', 'true cable', 'false bus']);
  });
  it('are found by their id', () => {
    expect([elementOf(site.elements, 'e4'), elementOf(site.elements, 'e9'), elementOf(site.elements, undefined)]).toEqual([
      site.elements[1],
      undefined,
      undefined,
    ]);
    expect(elementOf([...site.elements, part('bus', 'e9')], 'e9')?.id).toBe('e9');
    expect(elementOf([{ ...part('bus', 'undefined') }], undefined)).toBeUndefined();
    // Of one list they are indexed once.
    let walked = 0;
    const list = [part('bus', 'a'), part('bus', 'b')];
    Object.assign(list, { map: (of: (each: Element) => unknown) => ++walked && Array.from(list, of) });
    expect([elementOf(list, 'b')?.id, elementOf(list, 'a')?.id, walked]).toEqual(['b', 'a', 1]);
    // Three other documents beside it are remembered too, a fourth takes its place.
    const others = (count: number) => {
      for (let i = 0; i < count; i++) elementOf([], 'a');
      elementOf(list, 'a');
      return walked;
    };
    expect([others(3), others(4)]).toEqual([1, 2]);
  });
  it('are new under an id that none has', () => {
    expect([nextId(site, 'e'), nextId(site, 'c')]).toEqual(['e5', 'c4']);
    expect([nextId(newLineUp(), 'e'), nextId({ ...site, elements: [...site.elements, part('bus', 'e5')] }, 'e')]).toEqual(['e1', 'e6']);
    expect(nextId({ ...site, cables: [bareCable('c3', '', ''), bareCable('c4', '', ''), bareCable('c5', '', '')] }, 'c')).toBe('c6');
  });
  it('are new with nothing known of them, but what drawing them says', () => {
    expect(newElement(site, 'motor')).toEqual({ id: 'e5', tag: 'M-1', kind: 'motor' });
    const [from, to] = [
      { element: 'e1', port: 'line' as const },
      { element: 'e4', port: 'load' as const },
    ];
    const cable = newCable(site, from, to);
    expect(cable).toEqual({
      id: 'c4',
      tag: 'W-1',
      kind: 'cable',
      from,
      to,
      conductor: { sets: 1 },
      insulation: {},
      grounds: {},
      auxiliary: [],
      installation: { existing: false, flexing: false },
      provenance: {
        'conductor.sets': { origin: 'assumed' },
        'installation.existing': { origin: 'assumed' },
        'installation.flexing': { origin: 'assumed' },
      },
    });
    expect(cable.from).not.toBe(from);
  });
  it('of a new line-up are none, in the units of its code', () => {
    for (const [basis, units] of [
      ['us', 'us'],
      ['iec', 'metric'],
    ] as const)
      expect(newLineUp(basis)).toEqual({
        format: 'copperline',
        version: 1,
        project: { title: 'New line-up', basis, units, emcCategory: 'none', limits: {}, checks: {} },
        elements: [],
        cables: [],
        positions: {},
      });
    expect(newLineUp().project.basis).toBe('us');
  });
});

describe('the words of a project', () => {
  const project = (more: object) => ({ project: { ...newLineUp('iec').project, ...more } as LineUp['project'] });
  it('are those it asks for, else of its code', () => {
    expect(
      [{}, { vocabulary: 'us' }, { basis: 'us' }, { basis: 'us', vocabulary: 'iec' }].map((each) => vocabularyOf(project(each).project)),
    ).toEqual(['iec', 'us', 'us', 'iec']);
  });
  it.each([
    // NEC Article 100 and IEC 60050, in the case that the sentence has, with the article that then fits.
    ['GROUND FAULT', 'EARTH FAULT'],
    ['Ground fault', 'Earth fault'],
    ['an ungrounded supply', 'an unearthed supply'],
    ['a ground', 'an earth'],
    ['A ground', 'An earth'],
    ['a nameplate', 'a rating plate'],
    ['an ampacity and a raceway', 'a current-carrying capacity and a containment'],
    ['Ampacities', 'Current-carrying capacities'],
    ['circuit-breaker, breaker', 'circuit-breaker, circuit-breaker'],
    ['a circuit-breaker; breakers', 'a circuit-breaker; circuit-breakers'],
    ['wye, one-line', 'star, single-line'],
    ['in the ground beside a ground', 'in the ground beside an earth'],
    ['shields2, _shield, ünshield, shield_2', 'shields2, _shield, ünshield, shield_2'],
    ['(shield), shield. "shield"', '(screen), screen. "screen"'],
    ['unshielded, shielded, shielding', 'unscreened, screened, screening'],
    ['no such word', 'no such word'],
  ])('%s: %s', (us, iec) => expect(sayIn('iec')(us)).toBe(iec));

  it('leave what a person wrote, the longest first, and nothing else', () => {
    const named = {
      ...project({ title: 'Shield', site: 'Shield ground', status: 'plain' }),
      elements: [part('bus', 'e1', { tag: 'Raceway (1)*' })],
    };
    const say = sayOf(named);
    expect(say('Shield ground, Shield: the raceway of Raceway (1)*')).toBe('Shield ground, Shield: the containment of Raceway (1)*');
    // Whatever stands beside it, and no other word that holds it or is written otherwise.
    expect(say('A Shield, Shielded; the shield of (Shield) and a shielded cable')).toBe(
      'A Shield, Screened; the screen of (Shield) and a screened cable',
    );
    expect(say('plain')).toBe('plain');
    const within = sayOf(project({ title: 'grounded', site: '(shield)' }));
    expect(within('ungrounded, grounded, x(shield)y shield')).toBe('unearthed, grounded, x(shield)y screen');
  });
  it('are said of each term of the list', () => {
    // IEC 60050-461, -195, -826 and 60364; 'containment' and 'isolator' by common practice.
    for (const [us, iec] of [
      ['equipment grounding conductors', 'protective conductors'],
      ['equipment grounding conductor', 'protective conductor'],
      ['grounding conductors', 'protective conductors'],
      ['grounding conductor', 'protective conductor'],
      ['ground wires', 'protective conductors'],
      ['ground wire', 'protective conductor'],
      ['ground bars', 'earth bars'],
      ['ground bar', 'earth bar'],
      ['ground fault', 'earth fault'],
      ['not grounded', 'not earthed'],
      ['ungrounded', 'unearthed'],
      ['grounded', 'earthed'],
      ['grounding', 'earthing'],
      ['grounds', 'protective conductors'],
      ['ground', 'earth'],
      ['one-line', 'single-line'],
      ['ampacities', 'current-carrying capacities'],
      ['ampacity', 'current-carrying capacity'],
      ['unshielded', 'unscreened'],
      ['shielded', 'screened'],
      ['shielding', 'screening'],
      ['shields', 'screens'],
      ['shield', 'screen'],
      ['disconnects', 'isolators'],
      ['disconnect', 'isolator'],
      ['breakers', 'circuit-breakers'],
      ['breaker', 'circuit-breaker'],
      ['raceways', 'containments'],
      ['raceway', 'containment'],
      ['nameplates', 'rating plates'],
      ['nameplate', 'rating plate'],
      ['wye', 'star'],
      ['load reactors', 'output reactors'],
      ['load reactor', 'output reactor'],
      ['direct in ground', 'direct in ground'],
    ] as const)
      expect(sayIn('iec')(`x ${us}, (${us.toUpperCase()})`)).toBe(`x ${iec}, (${iec.toUpperCase()})`);
  });
  it('give the same function for the same words of the user', () => {
    const say = sayOf(project({ title: 'Shield' }));
    expect(sayOf(project({ title: 'Shield', owner: 'x' }))).toBe(say);
    expect(sayOf(project({ title: 'Ground' }))).not.toBe(say);
    expect(sayOf(project({ title: 'plain' }))).toBe(sayIn('iec'));
    expect(sayOf(project({ vocabulary: 'us', title: 'Shield' }))).toBe(sayIn('us'));
  });
  it('are not taken from values that the format lists', () => {
    const cables = [{ ...bareCable('w', 'ground', 'wye'), construction: 'shield', installation: { sharedWith: ['raceway'] } }];
    expect(sayOf({ ...project({ title: 'x' }), cables } as never)).toBe(sayIn('iec'));
    const elements = [part('drive', 'd', { manual: { allowedEarthing: ['ungrounded', 'corner-grounded'] } })];
    expect(sayOf({ ...project({ title: 'x' }), elements } as never)('an ungrounded supply')).toBe('an unearthed supply');
    const whole = {
      ...project({ title: 'x' }),
      elements: [part('disconnect', 'ground', { tag: 'x' })],
      cables: [{ ...bareCable('wye', 'ground:load', ''), tag: 'x', installation: { spares: 'grounded-both-ends' } }],
      notes: [{ id: 'shield', says: 'x', parts: ['ground'], later: null }],
    };
    expect(sayOf(whole as never)).toBe(sayIn('iec'));
    // But from those that have no list.
    expect(sayOf({ ...project({}), cables: [{ ...bareCable('w', '', ''), note: 'shield' }] } as never)('a shield')).toBe('a shield');
  });
});

describe('data in other words', () => {
  const say = (text: string) => text.replace('shield', 'screen');
  it('has its sentences said, by where they stand, and all else as it was', () => {
    for (const key of [
      'title',
      'quantity',
      'phrase',
      'text',
      'why',
      'what',
      'value',
      'label',
      'help',
      'says',
      'intro',
      'head',
      'empty',
      'rule',
    ])
      expect(inWords({ [key]: 'shield' }, say)).toEqual({ [key]: 'screen' });
    for (const key of ['remedies', 'working', 'rows', 'assumptions'])
      expect(inWords({ [key]: [['shield'], 'shield'] }, say)).toEqual({ [key]: [['screen'], 'screen'] });
    for (const key of ['id', 'tag', 'unit']) expect(inWords({ [key]: 'shield' }, say)).toEqual({ [key]: 'shield' });
    for (const key of ['edits', 'inserts', 'takesOut', 'removes', 'subject', 'source', 'links', 'beside']) {
      const kept = { [key]: { text: 'shield' }, text: 'shield' };
      expect(inWords(kept, say)).toEqual({ [key]: { text: 'shield' }, text: 'screen' });
    }
    expect(inWords('shield', say)).toBe('shield');
  });
  it('is the same object where nothing is said otherwise', () => {
    const bytes = new Uint8Array([1]);
    const plain = { text: 'plain', list: ['shield', { why: 'x' }], none: null, number: 1, bytes };
    expect(inWords(plain, say)).toBe(plain);
    const changed = inWords({ a: plain, text: 'shield' }, say);
    expect(changed.a).toBe(plain);
    const list = [plain, { text: 'shield' }];
    expect(inWords(list, say)[0]).toBe(plain);
    expect(inWords(list, say)).not.toBe(list);
  });
});
