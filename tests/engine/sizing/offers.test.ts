import { describe, expect, it } from 'vitest';
import type { Cable, Element, Finding, Fix, LineUp } from '../../../engine/index.ts';
import { buildNetwork } from '../../../engine/network/network.ts';
import { KINDS } from '../../../engine/sizing/fixKinds.ts';
import { bareCable, barePart } from '../bareParts.ts';
import { feet, LineUpBuilder } from '../lineUpBuilder.ts';

/** What each kind of change proposes, asked directly: for whom, what it sets, and in which order. Whether it helps is judged elsewhere. */

const wire = (more: object = {}, id = 'W'): Cable => ({ ...bareCable(id, 'a:load', 'b:line'), ...more });
const ofSize = (size: string, more: object = {}) => ({ conductor: { size, metal: 'copper', ...more } });

interface Told {
  readonly elements?: readonly Element[];
  readonly cables?: readonly Cable[];
  readonly finding?: Partial<Finding>;
  readonly basis?: 'us' | 'iec';
  /** What it is about, where that is not all there is. */
  readonly about?: readonly Cable[];
}
function asked(
  name: string,
  { elements = [], cables = [], finding = {}, basis = 'us', about = cables }: Told,
): readonly (readonly Fix[])[] {
  const kind = KINDS.find((each) => each.name === name);
  if (!kind) throw new Error(`no ${name}`);
  const empty = new LineUpBuilder({ basis }).build();
  const lineUp: LineUp = { ...empty, elements: [...elements], cables: [...cables] };
  const { runs } = buildNetwork(lineUp);
  return kind.of({ lineUp, finding: { check: '', fixes: [], ...finding } as unknown as Finding, cables: about, elements, runs });
}
/** What each alternative sets, by part and path. */
const set = ({ edits }: Fix) => Object.fromEntries(edits.map(({ id, path, value }) => [`${id} ${path}`, value]));
const sets = (name: string, told: Told) => asked(name, told).map((list) => list.map(set));
const labels = (name: string, told: Told) => asked(name, told).flatMap((list) => list.map(({ label }) => label));
/** The values that the alternatives of one list give one path. */
const steps = (name: string, told: Told, at: string) => (sets(name, told)[0] ?? []).map((each) => each[at]);

describe('changes of a cable', () => {
  it('size up and down: the nearest first, of its own system', () => {
    const up = steps('size up', { cables: [wire(ofSize('4 AWG'))] }, 'W conductor.size');
    expect([up[0], up[1], up.at(-1), up.includes('4 AWG')]).toEqual(['3 AWG', '2 AWG', '1000 kcmil', false]);
    const down = steps('size down', { cables: [wire(ofSize('4 AWG'))] }, 'W conductor.size');
    expect([down[0], down[1], down.at(-1)]).toEqual(['6 AWG', '8 AWG', '18 AWG']);
    const metric = { cables: [wire(ofSize('95 mm2'))] };
    expect(steps('size up', metric, 'W conductor.size')[0]).toBe('120 mm2');
    expect(labels('size up', metric)[0]).toBe('Make W 120 mm²');
    // The least there is, a size that no table has, and none.
    for (const size of ['18 AWG', '7 AWG']) expect(steps('size down', { cables: [wire(ofSize(size))] }, 'W conductor.size')).toEqual([]);
    expect(sets('size up', { cables: [wire(ofSize('7 AWG')), wire()] })).toEqual([[], []]);
    // Aluminium is not made so small: every size that it is made in is above, none below.
    const thin = { cables: [wire({ conductor: { size: '4 mm2', metal: 'aluminium' } })] };
    expect([steps('size up', thin, 'W conductor.size')[0], sets('size down', thin)]).toEqual(['10 mm2', [[]]]);
  });

  it('size up: with as many sets as it has', () => {
    expect(sets('size up', { cables: [wire(ofSize('1/0 AWG', { sets: 2 }))] })[0]?.[0]).toEqual({
      'W conductor.size': '2/0 AWG',
      'W setsAlike': true,
      'W setsHoldAllPhases': true,
    });
  });

  it('landing full: the ends that are landed otherwise', () => {
    const ends = (from: object, to: object) => ({ cables: [wire({ from, to })] });
    expect(sets('landing full', ends({ landing: 'full' }, { landing: 'pigtail' }))).toEqual([[{ 'W to.landing': 'full' }]]);
    expect(sets('landing full', ends({}, { landing: 'none' }))).toEqual([[{ 'W from.landing': 'full', 'W to.landing': 'full' }]]);
    expect(sets('landing full', ends({ landing: 'full' }, { landing: 'full' }))).toEqual([[]]);
  });

  it('shorter tail: at most five times as long as wide', () => {
    const tail = (from: object) => sets('shorter tail', { cables: [wire({ from, to: {} })] });
    const long = { landing: 'pigtail', pigtailLength_mm: 51, pigtailWidth_mm: 10 };
    expect(tail(long)).toEqual([[{ 'W from.pigtailLength_mm': 50 }]]);
    for (const less of [{ pigtailLength_mm: 50 }, { landing: 'clamp' }, { pigtailLength_mm: undefined }, { pigtailWidth_mm: undefined }])
      expect(tail({ ...long, ...less })).toEqual([[]]);
  });

  it('grounds landed: all there are, where there are any', () => {
    const landed = (grounds: object, from?: number, to?: number) =>
      sets('grounds landed', { cables: [wire({ grounds, from: { groundsLanded: from }, to: { groundsLanded: to } })] });
    expect(landed({ count: 3 }, 3, 2)).toEqual([[{ 'W to.groundsLanded': 3 }]]);
    expect(landed({ count: 3 })).toEqual([[{ 'W from.groundsLanded': 3, 'W to.groundsLanded': 3 }]]);
    expect([landed({ count: 3 }, 3, 3), landed({ count: 0 }), landed({})]).toEqual([[[]], [[]], [[]]]);
    expect(landed({}, 0, 0)).toEqual([[]]);
  });

  it('ground size: the next larger of its own system', () => {
    const larger = (size?: string) => steps('ground size', { cables: [wire({ grounds: { size } })] }, 'W grounds.size');
    expect([larger('8 AWG')[0], larger('8 AWG').at(-1), larger('16 mm2')[0], larger('7 AWG'), larger()]).toEqual([
      '6 AWG',
      '1000 kcmil',
      '25 mm2',
      [],
      [],
    ]);
    expect(labels('ground size', { cables: [wire({ grounds: { size: '16 mm2' } })] })[0]).toBe('Make the grounds of W 25 mm²');
  });

  it('another ground: a second one, or a first like the phases, landed at both ends', () => {
    const another = (grounds: object, conductor: object = {}) => sets('another ground', { cables: [wire({ grounds, conductor })] });
    const landed = (count: number) => ({ 'W grounds.count': count, 'W from.groundsLanded': count, 'W to.groundsLanded': count });
    expect(another({ count: 1, size: '8 AWG', metal: 'copper' })).toEqual([[landed(2)]]);
    const first = { ...landed(1), 'W grounds.size': '4 AWG', 'W grounds.metal': 'aluminium', 'W grounds.arrangement': 'single' };
    expect(another({ count: 0 }, { size: '4 AWG', metal: 'aluminium' })).toEqual([[first]]);
    expect(another({ count: 0, size: '8 AWG', metal: 'copper' })).toEqual([
      [{ ...first, 'W grounds.size': '8 AWG', 'W grounds.metal': 'copper' }],
    ]);
    for (const [grounds, conductor] of [
      [{ count: 2, size: '8 AWG', metal: 'copper' }, {}],
      [{ size: '8 AWG', metal: 'copper' }, {}],
      [{ count: 1, size: '8 AWG' }, {}],
      [{ count: 1, metal: 'copper' }, {}],
    ] as const)
      expect(another(grounds, conductor)).toEqual([[]]);
    expect(labels('another ground', { cables: [wire({ grounds: { count: 0, size: '16 mm2', metal: 'copper' } })] })).toEqual([
      'A ground of 16 mm² with W',
    ]);
  });

  it('symmetrical grounds: three, landed at both ends, in place of one', () => {
    expect(sets('symmetrical grounds', { cables: [wire({ grounds: { arrangement: 'single' } })] })).toEqual([
      [{ 'W grounds.arrangement': 'symmetrical', 'W grounds.count': 3, 'W from.groundsLanded': 3, 'W to.groundsLanded': 3 }],
    ]);
    for (const arrangement of ['symmetrical', 'concentric', undefined])
      expect(sets('symmetrical grounds', { cables: [wire({ grounds: { arrangement } })] })).toEqual([[]]);
  });

  it('more sets: up to four', () => {
    const more = (conductor: object) => steps('more sets', { cables: [wire({ conductor })] }, 'W conductor.sets');
    expect([more({ size: '1/0 AWG' }), more({ size: '1/0 AWG', sets: 2 }), more({ size: '1/0 AWG', sets: 4 }), more({})]).toEqual([
      [2, 3, 4],
      [3, 4],
      [],
      [],
    ]);
  });

  it('more sets: by NEC 310.10(G) of 1/0 AWG at the least, by IEC of any size', () => {
    const thin = { cables: [wire({ conductor: { size: '6 AWG', metal: 'copper' } })] };
    expect([steps('more sets', thin, 'W conductor.size'), labels('more sets', thin)[0]]).toEqual([
      ['1/0 AWG', '1/0 AWG', '1/0 AWG'],
      'Run W in 2 sets of 1/0 AWG alike',
    ]);
    expect(labels('more sets', { ...thin, basis: 'iec' })[0]).toBe('Run W in 2 sets alike');
  });

  it('size down: not for a grounding conductor that is too thin, which thinner phases would excuse', () => {
    const cables = [wire(ofSize('4 AWG'))];
    expect(labels('size down', { cables, finding: { check: 'protective-earth' } })).toEqual([]);
    expect(labels('size down', { cables, finding: { check: 'terminal-range' } }).length).toBeGreaterThan(0);
  });

  it('one set: of at least as much conductor', () => {
    const one = (conductor: object) => sets('one set', { cables: [wire({ conductor })] })[0]?.[0];
    // Twice 53.49 mm² (Chapter 9 Table 8): 4/0 AWG has 107.2.
    expect(one({ size: '1/0 AWG', sets: 2 })).toEqual({ 'W conductor.size': '4/0 AWG', 'W conductor.sets': 1 });
    // Twice 253 mm²: 1000 kcmil has 507, and is the largest.
    expect(steps('one set', { cables: [wire({ conductor: { size: '500 kcmil', sets: 2 } })] }, 'W conductor.size')).toEqual(['1000 kcmil']);
    // Twice 50 mm² are 100; twice 120 are just 240.
    expect(one({ size: '50 mm2', sets: 2 })?.['W conductor.size']).toBe('120 mm2');
    expect(one({ size: '120 mm2', sets: 2 })?.['W conductor.size']).toBe('240 mm2');
    expect([one({ size: '1/0 AWG', sets: 1 }), one({ sets: 2 })]).toEqual([undefined, undefined]);
    expect(labels('one set', { cables: [wire({ conductor: { size: '50 mm2', sets: 2 } })] })[0]).toBe('Make W one set of 120 mm²');
  });

  it('copper: in place of aluminium', () => {
    expect(sets('copper', { cables: [wire({ conductor: { metal: 'aluminium' } }), wire(ofSize('4 AWG'), 'V'), wire({}, 'U')] })).toEqual([
      [{ 'W conductor.metal': 'copper' }],
    ]);
  });

  it('shorter route: nine tenths to a quarter, to a tenth of a metre, no range any more', () => {
    const route = (more: object) => sets('shorter route', { cables: [wire(more)] });
    expect(route({ length_m: 50.5 })).toEqual([[45.5, 37.9, 25.3, 12.6].map((length_m) => ({ 'W length_m': length_m }))]);
    expect(route({ length_m: 10, lengthMost_m: 40 })[0]?.[0]).toEqual({ 'W length_m': 36, 'W lengthMost_m': null });
    expect([route({}), route({ length_m: 0 })]).toEqual([[[]], [[]]]);
    // 27.4 m.
    expect(labels('shorter route', { cables: [wire({ length_m: feet(100) })] })[0]).toBe('A route of 89.9\u00a0ft for W');
  });

  it('sets alike: where they are known not to be', () => {
    const alike = [{ 'W setsAlike': true, 'W setsHoldAllPhases': true }];
    const of = (setsAlike?: boolean, setsHoldAllPhases?: boolean) =>
      sets('sets alike', { cables: [wire({ setsAlike, setsHoldAllPhases })] });
    expect([of(false, true), of(true, false), of(true, true), of()]).toEqual([[alike], [alike], [], []]);
  });
});

describe('another make of cable', () => {
  it('other insulation: the better ones of its system, of which the data sheet is asked anew', () => {
    const other = (insulation: object, more: object = {}, basis: 'us' | 'iec' = 'us') =>
      sets('other insulation', { cables: [wire({ insulation, ...more })], basis });
    expect(other({ type: 'THHN' })).toEqual([[{ 'W insulation.type': 'XHHW-2' }, { 'W insulation.type': 'RHW-2' }]]);
    expect(other({ type: 'XHHW-2' })).toEqual([[{ 'W insulation.type': 'RHW-2' }]]);
    expect([other({ type: 'RHW-2' }), other({})]).toEqual([[[]], [[]]]);
    expect(other({ type: 'PVC' }, {}, 'iec')).toEqual([[{ 'W insulation.type': 'XLPE' }]]);
    expect(other({ type: 'XLPE' }, {}, 'iec')).toEqual([[]]);
    // Its size tells its system, else the project.
    expect(other({ type: 'PVC' }, ofSize('16 mm2'))).toEqual([[{ 'W insulation.type': 'XLPE' }]]);
    expect(other({ type: 'THHN' }, ofSize('4 AWG'), 'iec')[0]).toHaveLength(2);
    const known = { wall_mm: 1, temperature_C: 90, temperatureLeast_C: -10, wetRated: false };
    expect(
      other({ type: 'PVC', ...known }, { wave: { impedance_ohm: 80 }, outerDiameter_mm: 20, installation: { existing: true } }, 'iec'),
    ).toEqual([
      [
        {
          'W insulation.type': 'XLPE',
          'W insulation.wall_mm': null,
          'W insulation.temperature_C': null,
          'W insulation.temperatureLeast_C': null,
          'W insulation.wetRated': null,
          'W wave': null,
          'W outerDiameter_mm': null,
          'W installation.existing': false,
        },
      ],
    ]);
    expect(other({ type: 'PVC' }, { installation: { existing: false } }, 'iec')).toEqual([[{ 'W insulation.type': 'XLPE' }]]);
  });

  it('a pipe or a shield brings the reference method of its like with it (IEC 60364-5-52 Table B.52.1)', () => {
    const method = (kind: string, installation: object) =>
      steps(kind, { cables: [wire({ construction: 'singles', installation })] }, 'W installation.method');
    expect([
      method('shielded cable', { method: 'B1' }),
      method('shielded cable', { method: 'F' }),
      method('steel conduit', { method: 'E' }),
    ]).toEqual([['B2'], ['E'], ['B1']]);
  });
  it('voltage class: those above its own', () => {
    const classes = (insulation: object) => steps('voltage class', { cables: [wire({ insulation })] }, 'W insulation.voltage_V');
    // XHHW-2 is of 600 V (NEC Table 310.4).
    expect([classes({ type: 'XHHW-2' }), classes({ type: 'XHHW-2', voltage_V: 1000 }), classes({ voltage_V: 2000 }), classes({})]).toEqual([
      [1000, 2000, 5000, 8000, 15_000],
      [2000, 5000, 8000, 15_000],
      [5000, 8000, 15_000],
      [1000, 2000, 5000, 8000, 15_000],
    ]);
    const known = { insulation: { voltage_V: 8000, wall_mm: 1 }, outerDiameter_mm: 20, wave: { impedance_ohm: 80 } };
    expect(sets('voltage class', { cables: [wire(known)] })).toEqual([
      [{ 'W insulation.voltage_V': 15_000, 'W insulation.wall_mm': null, 'W outerDiameter_mm': null, 'W wave': null }],
    ]);
  });

  it('shielded cable: in place of single conductors or cores without a shield', () => {
    const made = { 'W construction': 'foil-and-braid', 'W from.landing': 'full', 'W to.landing': 'full' };
    const of = (more: object) => sets('shielded cable', { cables: [wire(more)] });
    expect([of({ construction: 'singles' }), of({ construction: 'multicore' })]).toEqual([[[made]], [[made]]]);
    expect(of({ construction: 'singles', outerDiameter_mm: 9 })).toEqual([[{ ...made, 'W outerDiameter_mm': null }]]);
    for (const construction of ['copper-tape', 'foil-and-braid', undefined]) expect(of({ construction })).toEqual([[]]);
  });

  it('better shield: 85 %, a tenth of a phase, one round all', () => {
    const better = (more: object) => sets('better shield', { cables: [wire(more)] });
    expect(better({ phasesScreened: true })).toEqual([[{ 'W phasesScreened': false }]]);
    expect(better({ construction: 'interlocked-armour' })).toEqual([[{ 'W construction': 'corrugated-armour' }]]);
    expect(better({ shieldCoverage_pct: 84.9 })).toEqual([[{ 'W shieldCoverage_pct': 85 }]]);
    // 4 AWG has 21.15 mm², rounded up 22.
    expect(better({ ...ofSize('4 AWG'), shieldArea_mm2: 2.1 })).toEqual([[{ 'W shieldArea_mm2': 2.2 }]]);
    for (const fine of [
      {},
      { phasesScreened: false },
      { shieldCoverage_pct: 85 },
      { construction: 'copper-tape' },
      { ...ofSize('4 AWG') },
      { ...ofSize('4 AWG'), shieldArea_mm2: 2.2 },
      { shieldArea_mm2: 0.1 },
    ])
      expect(better(fine)).toEqual([[]]);
    expect(better({ phasesScreened: true, outerDiameter_mm: 20, wave: { impedance_ohm: 80 } })).toEqual([
      [{ 'W phasesScreened': false, 'W outerDiameter_mm': null, 'W wave': null }],
    ]);
  });

  it('screened cores: screened, landed at both ends, insulated as the power is', () => {
    const drive = (ratedVoltage_V?: number) => barePart('drive', 'D', { ratedVoltage_V });
    const cores = (auxiliary: readonly object[], insulation: object = {}, volts?: number) =>
      sets('screened cores', {
        cables: [wire({ auxiliary, insulation })],
        elements: [drive(volts), barePart('motor', 'M', { ratedVoltage_V: 9000 })],
      });
    const use = 'brake';
    expect(cores([{ use, screened: false }])).toEqual([[{ 'W auxiliary.0.screened': true, 'W auxiliary.0.screenLanded': 'both' }]]);
    expect(cores([{ use }, { use, screened: true, screenLanded: 'one' }])).toEqual([[{ 'W auxiliary.1.screenLanded': 'both' }]]);
    expect(cores([{ use, insulation_V: 300 }], { voltage_V: 1000 }, 480)).toEqual([[{ 'W auxiliary.0.insulation_V': 1000 }]]);
    expect(cores([{ use, insulation_V: 300 }], { type: 'XHHW-2' })).toEqual([[{ 'W auxiliary.0.insulation_V': 600 }]]);
    expect(cores([{ use, insulation_V: 300 }], {}, 480)).toEqual([[{ 'W auxiliary.0.insulation_V': 480 }]]);
    for (const fine of [[], [{ use }], [{ use, screened: true, screenLanded: 'both', insulation_V: 600 }]])
      expect(cores(fine, { type: 'XHHW-2' }, 480)).toEqual([]);
  });

  it('own cable for the cores: all of them out', () => {
    const auxiliary = [{ use: 'brake' }, { use: 'thermistor' }];
    expect(
      asked('own cable for the cores', {
        cables: [wire({ auxiliary, installation: { toControl_mm: 10 }, outerDiameter_mm: 20 }), wire({}, 'V')],
      }),
    ).toEqual([
      [
        {
          label: 'A cable of its own, apart, for the brake and thermistor cores of W',
          edits: [
            { id: 'W', path: 'auxiliary', value: [] },
            { id: 'W', path: 'installation.toControl_mm', value: null },
            { id: 'W', path: 'outerDiameter_mm', value: null },
          ],
        },
      ],
    ]);
  });

  it('made for the place: what does not bear sun, cold or movement there', () => {
    const made = (more: object) => sets('made for the place', { cables: [wire(more)] });
    const flexing = { installation: { flexing: true } };
    expect(made({ ...flexing, conductor: { build: 'stranded' } })).toEqual([[{ 'W conductor.build': 'flexible' }]]);
    for (const fine of [
      { ...flexing, conductor: { build: 'flexible' } },
      flexing,
      { installation: { flexing: false }, conductor: { build: 'stranded' } },
      { installation: { sunlight: true }, insulation: { sunlightRated: true } },
      { installation: { sunlight: true } },
      { installation: { sunlight: false }, insulation: { sunlightRated: false } },
      { installation: { ambientLeast_C: -10 } },
      { installation: { ambientLeast_C: -10 }, insulation: { temperatureLeast_C: -10 } },
      { installation: { ambientLeast_C: 0 }, insulation: { type: 'PVC' } },
      { insulation: { type: 'PVC', temperatureLeast_C: 20 } },
    ])
      expect(made(fine)).toEqual([]);
    expect(made({ installation: { sunlight: true }, insulation: { sunlightRated: false } })).toEqual([
      [{ 'W insulation.sunlightRated': true }],
    ]);
    const cold = [[{ 'W insulation.temperatureLeast_C': -25 }]];
    expect(made({ installation: { ambientLeast_C: -25 }, insulation: { temperatureLeast_C: -10 } })).toEqual(cold);
    expect(made({ installation: { ambientLeast_C: -25 }, insulation: { type: 'PVC' } })).toEqual(cold);
  });
});

describe('what a cable lies in', () => {
  const pipe = (racewaySize?: string) => sets('bigger raceway', { cables: [wire({ installation: { racewaySize } })] })[0] ?? [];
  const sizes = (racewaySize?: string) => pipe(racewaySize).map((each) => each['W installation.racewaySize']);

  it('bigger raceway: the next trade sizes, of the same pipe, however the size is written', () => {
    expect(sizes('4')).toEqual(['5', '6']);
    expect(sizes('1/2')[0]).toBe('3/4');
    for (const written of ['4 EMT', '4 in EMT', '4 emt', '4" EMT']) expect(sizes(written)).toEqual(['5 EMT', '6 EMT']);
    for (const written of ['3 1/2', '3-1/2', '3 1/2 in', '3-1/2"', '3 1/2 ″']) expect(sizes(written)).toEqual(['4', '5', '6']);
    expect(sizes('4 PVC 80')).toEqual(['5 PVC80', '6 PVC80']);
    expect([sizes('6'), sizes('27 mm'), sizes('7'), sizes()]).toEqual([[], [], [], []]);
  });

  it('bigger raceway: one pipe is of one size, for all that lie in it', () => {
    const w = wire({ installation: { racewaySize: '5', sharedWith: ['V'] } });
    const others = [
      wire({ installation: { racewaySize: '5' } }, 'V'),
      wire({ installation: { sharedWith: ['W'] } }, 'U'),
      wire({ installation: { racewaySize: '5', sharedWith: ['V'] } }, 'T'),
    ];
    const told = { cables: [w, ...others], about: [w] };
    expect(sets('bigger raceway', told)).toEqual([
      [Object.fromEntries(['W', 'V', 'U', 'T'].map((id) => [`${id} installation.racewaySize`, '6']))],
    ]);
    expect(labels('bigger raceway', told)).toEqual(['A 6 in raceway for W, V, U, T']);
  });

  it('own raceway: out of that of others, and no more beside it than its own', () => {
    const own = (installation: object, others: readonly Cable[] = [], conductor: object = {}) =>
      sets('own raceway', { cables: [wire({ installation, conductor }), ...others], about: [wire({ installation, conductor })] });
    expect(own({ loadedConductors: 12 })).toEqual([[{ 'W installation.sharedWith': [], 'W installation.loadedConductors': 3 }]]);
    expect(own({ loadedConductors: 7 }, [], { sets: 2 })).toEqual([
      [{ 'W installation.sharedWith': [], 'W installation.loadedConductors': 6 }],
    ]);
    expect(own({ groupedCircuits: 2 })).toEqual([[{ 'W installation.sharedWith': [], 'W installation.groupedCircuits': 1 }]]);
    const v = wire({ installation: {} }, 'V');
    const back = wire({ installation: { sharedWith: ['W', 'U'] } }, 'V');
    expect(own({ sharedWith: ['V'], loadedConductors: 3, groupedCircuits: 1 }, [v])).toEqual([
      [{ 'W installation.sharedWith': [], 'W installation.loadedConductors': 3, 'W installation.groupedCircuits': 1 }],
    ]);
    expect(own({}, [back])).toEqual([[{ 'W installation.sharedWith': [], 'V installation.sharedWith': ['U'] }]]);
    // Those that only it joined lie together still.
    expect(own({ sharedWith: ['V', 'U'] }, [v, wire({ installation: {} }, 'U')])).toEqual([
      [{ 'W installation.sharedWith': [], 'V installation.sharedWith': ['U'] }],
    ]);
    for (const [alone, others] of [
      [{}, [v]],
      [{ loadedConductors: 3, groupedCircuits: 1 }, [wire({ installation: { sharedWith: ['U'] } }, 'V')]],
      [{ sharedWith: ['gone'] }, []],
    ] as const)
      expect(own(alone, others)).toEqual([[]]);
  });

  it('steel conduit: single conductors in a bonded pipe, of which size and wires are asked', () => {
    const made = {
      'W construction': 'singles',
      'W installation.raceway': 'steel-conduit',
      'W from.landing': 'full',
      'W to.landing': 'full',
    };
    const of = (more: object) => sets('steel conduit', { cables: [wire(more)] });
    expect([of({}), of({ installation: { raceway: 'tray' } })]).toEqual([[[made]], [[made]]]);
    for (const raceway of ['steel-conduit', 'aluminium-conduit']) expect(of({ installation: { raceway } })).toEqual([]);
    const known = { shieldArea_mm2: 8, shieldCoverage_pct: 90, phasesScreened: false, outerDiameter_mm: 20, wave: { impedance_ohm: 80 } };
    expect(of({ ...known, installation: { raceway: 'plastic-conduit', racewaySize: '2' } })).toEqual([
      [
        {
          ...made,
          'W installation.racewaySize': null,
          'W outerDiameter_mm': null,
          'W shieldArea_mm2': null,
          'W shieldCoverage_pct': null,
          'W phasesScreened': null,
          'W wave': null,
        },
      ],
    ]);
  });

  it('divider: where there is none yet', () => {
    const of = (divider?: boolean) => sets('divider', { cables: [wire({ installation: { divider } })] });
    expect([of(false), of(), of(true)]).toEqual([[[{ 'W installation.divider': true }]], [[{ 'W installation.divider': true }]], []]);
  });

  it('more distance: half a metre from control, 300 mm from power, for separation alone', () => {
    const of = (installation: object, check = 'separation') =>
      sets('more distance', { cables: [wire({ installation })], finding: { check } });
    expect(of({ toControl_mm: 499, toPower_mm: 299 })).toEqual([
      [{ 'W installation.toControl_mm': 500, 'W installation.toPower_mm': 300 }],
    ]);
    expect(of({ toControl_mm: 100 })).toEqual([[{ 'W installation.toControl_mm': 500 }]]);
    expect([of({ toControl_mm: 500, toPower_mm: 300 }), of({}), of({ toControl_mm: 100 }, 'lead-drop')]).toEqual([[[]], [[]], [[]]]);
  });
});

describe('changes of a drive', () => {
  const drive = (more: object = {}) => ({ elements: [barePart('drive', 'D', more)] });

  it('lower carrier: the steps below its own', () => {
    expect(steps('lower carrier', drive({ carrier_Hz: 5000 }), 'D carrier_Hz')).toEqual([4000, 3000, 2000, 1000]);
    expect([sets('lower carrier', drive()), sets('lower carrier', drive({ carrier_Hz: 1000 }))]).toEqual([[[]], [[]]]);
    expect(labels('lower carrier', drive({ carrier_Hz: 2000 }))).toEqual(['Set the carrier of D to 1 kHz']);
  });

  it('higher carrier: the steps above its own, where a filter asks for it', () => {
    const higher = (carrier_Hz?: number, check = 'carrier-window') =>
      steps('higher carrier', { ...drive({ carrier_Hz }), finding: { check } }, 'D carrier_Hz');
    expect([higher(10_000), higher(16_000), higher(), higher(10_000, 'charging-current')]).toEqual([[12_000, 16_000], [], [], []]);
  });

  it.each([
    ['filter jumpers', 'filterJumpers', 'in', 'out', ['out', undefined]],
    ['scalar control', 'control', 'vector', 'scalar', ['scalar', undefined]],
    ['d.c. choke', 'dcChoke', 'none', 'fitted', ['fitted', undefined]],
    ['marked device', 'faultRatingDeviceDrawn', false, true, [true, undefined]],
  ])('%s: where it is otherwise', (name, path, wrong, right, fine) => {
    expect(sets(name, drive({ [path]: wrong }))).toEqual([[{ [`D ${path}`]: right }]]);
    for (const value of fine) expect(sets(name, drive({ [path]: value }))).toEqual([]);
  });

  it('marked device: by the name that its marking has', () => {
    const named = (faultRatingDevice?: string) => labels('marked device', drive({ faultRatingDeviceDrawn: false, faultRatingDevice }));
    expect([named('class J fuses'), named()]).toEqual([['Fit class J fuses ahead of D'], ['Fit the device its marking names ahead of D']]);
  });

  it('listed combination: for more than its own rating, of which the device is asked', () => {
    const listed = (more: object, check = 'fault-rating') => sets('listed combination', { ...drive(more), finding: { check } });
    expect(listed({ faultRating_A: 65_000, faultRatingDevice: 'fuses', faultRatingDeviceDrawn: true })).toEqual([
      [100_000, 200_000].map((rating) => ({
        'D faultRating_A': rating,
        'D faultRatingDevice': null,
        'D faultRatingDeviceDrawn': null,
      })),
    ]);
    expect(listed({ faultRating_A: 5000 })[0]?.map((each) => each['D faultRating_A'])).toEqual([65_000, 100_000, 200_000]);
    expect([listed({}), listed({ faultRating_A: 5000 }, 'lead-drop')]).toEqual([[[]], [[]]]);
    expect(labels('listed combination', { ...drive({ faultRating_A: 100_000 }), finding: { check: 'fault-rating' } })).toEqual([
      'A combination listed for 200 kA ahead of D',
    ]);
  });

  const own = {
    riseTime_s: 1e-7,
    pulseLeast_s: 1e-6,
    brakingBus_V: 780,
    leakageCurrent_A: 0.1,
    faultRating_A: 5000,
    faultRatingDevice: 'fuses',
    faultRatingDeviceDrawn: true,
    terminalMetal: 'copper-only',
    terminalTemperature_C: 75,
    terminalSmallest: '14 AWG',
    terminalLargest: '4 AWG',
    terminalsPerPhase: 1,
    manual: { lengthShielded_m: 50, shieldRequired: true },
  };
  const ANEW = Object.fromEntries(
    [...Object.keys(own).filter((key) => key !== 'manual'), 'manual.lengthShielded_m', 'manual.shieldRequired'].map((path) => [
      `D ${path}`,
      null,
    ]),
  );

  it('larger drive: a quarter, half as much and twice as much more, with input and power in proportion; its plate and manual are asked', () => {
    // 52 × 68 / 54 = 65.48, 29,828 × 68 / 54 = 37,561.
    expect(sets('larger drive', drive({ outputCurrent_A: 54, inputCurrent_A: 52, ratedPower_W: 29_828 }))[0]?.[0]).toEqual({
      'D outputCurrent_A': 68,
      'D inputCurrent_A': 65.5,
      'D ratedPower_W': 37_600,
    });
    expect(sets('larger drive', drive({ outputCurrent_A: 54 }))).toEqual([
      [68, 81, 108].map((output_A) => ({ 'D outputCurrent_A': output_A })),
    ]);
    expect(sets('larger drive', drive({ outputCurrent_A: 100, ...own }))[0]?.[2]).toEqual({ 'D outputCurrent_A': 200, ...ANEW });
    expect(sets('larger drive', drive())).toEqual([[]]);
  });

  it('smaller drive: a tenth above its motors, where it is over by three tenths', () => {
    const site = (output_A: number | undefined, motors: readonly (number | undefined)[]) => {
      const made = new LineUpBuilder()
        .part('supply', { tag: 'S' })
        .part('drive', { tag: 'D', ...(output_A === undefined ? {} : { outputCurrent_A: output_A }), inputCurrent_A: 90 });
      for (const each of motors) made.from('D').part('motor', each === undefined ? {} : { ratedCurrent_A: each });
      const { elements, cables } = made.build();
      return sets('smaller drive', { elements, cables });
    };
    // 20 + 25 A: 58.5 is not too much yet; 49.5 are enough, as 50; 90 × 50 / 60 = 75.
    expect(site(60, [20, 25])).toEqual([[{ 'e2 outputCurrent_A': 50, 'e2 inputCurrent_A': 75 }]]);
    expect([site(58.5, [20, 25]), site(60, [20, undefined]), site(undefined, [20]), site(60, [])]).toEqual([[[]], [[]], [[]], [[]]]);
    // Of two drives each has its own motors.
    const two = new LineUpBuilder().part('supply', { tag: 'S' });
    for (const amperes of [10, 20]) two.from('S').part('drive', { outputCurrent_A: 30 }).part('motor', { ratedCurrent_A: amperes });
    const { elements, cables } = two.build();
    expect(sets('smaller drive', { elements, cables })).toEqual([[{ 'e2 outputCurrent_A': 11 }], [{ 'e4 outputCurrent_A': 22 }]]);
  });

  it('drive for the supply: without a filter to ground, for the earthing alone', () => {
    const made = { 'D builtInFilter': false, 'D filterJumpers': 'out' };
    expect(sets('drive for the supply', { ...drive(own), finding: { check: 'supply-earthing' } })).toEqual([[{ ...made, ...ANEW }]]);
    expect(sets('drive for the supply', drive(own))).toEqual([[]]);
  });
});

describe('changes of another part', () => {
  const part = (kind: Element['kind'], more: object = {}) => ({ elements: [barePart(kind, 'P', more)] });

  it('metal box: in place of plastic, every shield landed on it all round', () => {
    const cables = [
      wire({ from: { element: 'P', landing: 'pigtail' }, to: { element: 'Q', landing: 'none' } }),
      wire({ from: { element: 'Q' }, to: { element: 'P', landing: 'full' } }, 'V'),
      wire({ from: { element: 'Q' }, to: { element: 'P' } }, 'U'),
    ];
    expect(sets('metal box', { ...part('disconnect', { box: 'plastic' }), cables })).toEqual([
      [{ 'P box': 'metal', 'W from.landing': 'full', 'U to.landing': 'full' }],
    ]);
    expect([sets('metal box', part('disconnect', { box: 'metal' })), sets('metal box', part('bus'))]).toEqual([[[]], [[]]]);
  });

  it.each<[string, Element['kind'], string, unknown, unknown, readonly unknown[]]>([
    ['early-break contact', 'disconnect', 'earlyBreakContact', 'absent', 'wired', ['wired']],
    ['lockable switch', 'disconnect', 'lockable', false, true, [true, undefined]],
    ['transformer for a drive', 'transformer', 'driveDuty', false, true, [true, undefined]],
    ['no capacitor', 'motor', 'capacitor', true, false, [false, undefined]],
    ['no capacitor', 'bus', 'capacitor', true, false, [false, undefined]],
    ['residual-current type B', 'disconnect', 'residualCurrentType', 'A', 'B', ['B', 'none', undefined]],
    ['common-mode cores', 'motor', 'bearingProtection', 'none', 'common-mode-cores', ['shaft-ring', undefined]],
    ['interlock', 'contactor', 'interlock', 'none', 'both', ['mechanical', undefined]],
    ['zero current', 'contactor', 'opensAtZeroCurrent', false, true, [true, undefined]],
    ['inverter-duty motor', 'motor', 'insulation', 'mg1-part-30', 'mg1-part-31', ['mg1-part-31', 'entered', 'curve', 'ivic-d']],
    ['start together', 'motor', 'switchedAlone', true, false, [false, undefined]],
    ['own protection', 'motor', 'overload', 'drive', 'own', ['own', undefined]],
    ['own protection', 'motor', 'ownShortCircuitDevice', false, true, [true, undefined]],
  ])('%s: of a %s, where its %s is wrong', (name, kind, path, wrong, right, fine) => {
    expect(sets(name, part(kind, { [path]: wrong }))).toEqual([[{ [`P ${path}`]: right }]]);
    for (const value of fine) expect(sets(name, part(kind, { [path]: value })).flat()).toEqual([]);
  });

  it('early-break contact and inverter-duty motor: where nothing is said too', () => {
    expect(sets('early-break contact', part('disconnect'))).toEqual([[{ 'P earlyBreakContact': 'wired' }]]);
    expect(sets('inverter-duty motor', part('motor'))).toEqual([[{ 'P insulation': 'mg1-part-31' }]]);
    expect(sets('no capacitor', part('supply'))).toEqual([]);
  });

  it('inverter-duty motor: of a category, those above it', () => {
    const above = (insulation: string) => steps('inverter-duty motor', part('motor', { insulation }), 'P insulation');
    expect([above('ivic-a'), above('ivic-c'), above('ivic-d')]).toEqual([['ivic-b', 'ivic-c', 'ivic-d'], ['ivic-d'], []]);
    expect(labels('inverter-duty motor', part('motor', { insulation: 'ivic-c' }))).toEqual([
      'An inverter-duty motor (IEC 60034-18-41, category D) for P',
    ]);
  });

  it('lockable switch: not of fuses', () => {
    const of = (device: string) => sets('lockable switch', part('disconnect', { lockable: false, device }));
    expect([of('fuse'), of('fused-switch')]).toEqual([[], [[{ 'P lockable': true }]]]);
  });

  it('bearing protection: an insulated bearing or a ring, each by itself', () => {
    expect(sets('bearing protection', part('motor', { bearingProtection: 'none' }))).toEqual([
      [{ 'P bearingProtection': 'insulated-bearing' }],
      [{ 'P bearingProtection': 'shaft-ring' }],
    ]);
    for (const bearingProtection of ['both', undefined])
      expect(sets('bearing protection', part('motor', { bearingProtection }))).toEqual([]);
  });

  it('start together and own protection: all motors at once', () => {
    const elements = [
      barePart('motor', 'A', { switchedAlone: true, overload: 'drive', ownShortCircuitDevice: false }),
      barePart('motor', 'B', { switchedAlone: false, overload: 'none' }),
      barePart('motor', 'C', { switchedAlone: true }),
    ];
    expect(asked('start together', { elements }).map((list) => list.map((each) => [each.label, set(each)]))).toEqual([
      [['Interlock A, C to start together', { 'A switchedAlone': false, 'C switchedAlone': false }]],
    ]);
    expect(sets('own protection', { elements })).toEqual([[{ 'A overload': 'own', 'A ownShortCircuitDevice': true, 'B overload': 'own' }]]);
  });

  it('transformer tap: below the one it has', () => {
    const tap = (tap_pct?: number) => steps('transformer tap', part('transformer', { tap_pct }), 'P tap_pct');
    expect([tap(), tap(2.5), tap(-2.5), tap(-5)]).toEqual([[-2.5, -5], [-2.5, -5], [-5], []]);
    expect(labels('transformer tap', part('transformer', { tap_pct: -2.5 }))).toEqual(['Set the tap of P to −5 %']);
  });

  it('smaller transformer: the next below, while it carries all demand', () => {
    const smaller = (own_VA: number | undefined, ...supplies: object[]) =>
      steps(
        'smaller transformer',
        {
          elements: [
            barePart('transformer', 'P', { ratedPower_VA: own_VA }),
            ...supplies.map((each, i) => barePart('supply', `S${i}`, each)),
          ],
        },
        'P ratedPower_VA',
      );
    // √3 × 480 V × 135 A = 112,236 VA; × 136 A = 113,067 VA.
    expect(smaller(225_000, { voltage_V: 480, demandCurrent_A: 135 })).toEqual([150_000, 112_500]);
    expect(smaller(225_000, { voltage_V: 480, demandCurrent_A: 136 })).toEqual([150_000]);
    expect(smaller(225_000, { voltage_V: 480, demandCurrent_A: 1 }, { voltage_V: 480, demandCurrent_A: 136 })).toEqual([150_000]);
    for (const unknown of [{}, { voltage_V: 480 }, { demandCurrent_A: 10 }]) expect(smaller(225_000, unknown)).toEqual([]);
    expect([smaller(15_000, { voltage_V: 480, demandCurrent_A: 1 }), smaller(undefined, { voltage_V: 480, demandCurrent_A: 1 })]).toEqual([
      [],
      [],
    ]);
    const told = {
      elements: [
        barePart('transformer', 'P', { ratedPower_VA: 150_000 }),
        barePart('supply', 'S', { voltage_V: 480, demandCurrent_A: 135 }),
      ],
    };
    expect(labels('smaller transformer', told)).toEqual(['A transformer of 112.5 kVA as P, of the same impedance in per cent']);
  });

  it('larger switch: eight ratings above its own (NEC 240.6)', () => {
    const larger = (ratedCurrent_A?: number, basis: 'us' | 'iec' = 'us') =>
      steps('larger switch', { ...part('disconnect', { ratedCurrent_A }), basis }, 'P ratedCurrent_A');
    expect(larger(30)).toEqual([35, 40, 45, 50, 60, 70, 80, 90]);
    expect([larger(32, 'iec')[0], larger(4000), larger(6000), larger()]).toEqual([40, [5000, 6000], [], []]);
  });

  it('higher fault rating: of a bus or disconnect, those above its own', () => {
    const higher = (kind: Element['kind'], faultRating_A?: number) =>
      steps('higher fault rating', part(kind, { faultRating_A }), 'P faultRating_A');
    expect([higher('bus', 65_000), higher('disconnect', 99_999), higher('bus'), higher('drive', 5000)]).toEqual([
      [85_000, 100_000, 200_000],
      [100_000, 200_000],
      [],
      [],
    ]);
    expect(labels('higher fault rating', part('bus', { faultRating_A: 100_000 }))).toEqual(['A part marked for 200 kA as P']);
  });

  it('brake supply: its own, where the drive’s output feeds it', () => {
    const of = (brake?: object) => sets('brake supply', part('motor', { brake }));
    expect([of({ fedFrom: 'drive-output' }), of({ fedFrom: 'own-supply' }), of({}), of()]).toEqual([
      [[{ 'P brake.fedFrom': 'own-supply' }]],
      [],
      [],
      [],
    ]);
  });

  it('are of that kind of part alone', () => {
    const others = (['supply', 'transformer', 'bus', 'reactor', 'filter', 'junction'] as const).map((kind) =>
      barePart(kind, kind, {
        carrier_Hz: 4000,
        earlyBreakContact: 'absent',
        lockable: false,
        switchedAlone: true,
        overload: 'drive',
        bearingProtection: 'none',
      }),
    );
    for (const name of [
      'lower carrier',
      'early-break contact',
      'lockable switch',
      'start together',
      'own protection',
      'bearing protection',
      'larger drive',
    ])
      expect(sets(name, { elements: others })).toEqual([]);
  });
});

describe('where conductors are landed', () => {
  const ends = { from: { element: 'A', port: 'load' }, to: { element: 'B', port: 'line' } } as const;
  const told = (cable: object, a: object = {}, b: object = {}, more: readonly Cable[] = []) => ({
    elements: [barePart('drive', 'A', a), barePart('motor', 'B', b)],
    cables: [wire({ ...ends, ...cable }), ...more],
    about: [wire({ ...ends, ...cable })],
  });

  it('terminal kit: a range that holds the size, and places for all that land there', () => {
    const kit = (...of: Parameters<typeof told>) => sets('terminal kit', told(...of));
    const large = ofSize('4 AWG');
    expect(kit(large, { terminalLargest: '6 AWG' })).toEqual([[{ 'A terminalLargest': '4 AWG' }], []]);
    expect(kit(large, {}, { terminalSmallest: '2 AWG' })).toEqual([[], [{ 'B terminalSmallest': '4 AWG' }]]);
    expect(kit(large, { terminalLargest: '4 AWG', terminalSmallest: '4 AWG', terminalsPerPhase: 1 })).toEqual([[], []]);
    expect(kit({}, { terminalLargest: '6 AWG' })).toEqual([[], []]);
    expect(kit(ofSize('7 AWG'), { terminalLargest: '6 AWG', terminalSmallest: '2 AWG' })).toEqual([[], []]);
    expect(kit(ofSize('4 AWG', { sets: 2 }), { terminalsPerPhase: 1 })).toEqual([[{ 'A terminalsPerPhase': 2 }], []]);
    const beside = (port: 'line' | 'load', more: object = {}) => wire({ from: { element: 'C' }, to: { element: 'A', port }, ...more }, 'V');
    expect(kit(large, { terminalsPerPhase: 1 }, {}, [beside('load')])).toEqual([[{ 'A terminalsPerPhase': 2 }], []]);
    expect(kit(large, { terminalsPerPhase: 1 }, {}, [beside('load', ofSize('4 AWG', { sets: 3 }))])).toEqual([
      [{ 'A terminalsPerPhase': 4 }],
      [],
    ]);
    for (const other of [beside('line'), beside('load', { kind: 'link' })])
      expect(kit(large, { terminalsPerPhase: 1 }, {}, [other])).toEqual([[], []]);
    // What only passes by lands elsewhere.
    expect(
      kit(large, { terminalsPerPhase: 1 }, {}, [wire({ from: { element: 'C', port: 'load' }, to: { element: 'E', port: 'load' } }, 'V')]),
    ).toEqual([[], []]);
    // A junction is one node; each feeder of a bus has lugs of its own; the utility's terminals are not ours.
    const on = (kind: Element['kind']) => ({
      ...told(large, {}, {}, [beside('line')]),
      elements: [barePart(kind, 'A', { terminalsPerPhase: 1, terminalLargest: '6 AWG' })],
    });
    expect(sets('terminal kit', on('junction'))).toEqual([[{ 'A terminalLargest': '4 AWG', 'A terminalsPerPhase': 2 }]]);
    expect(sets('terminal kit', on('bus'))).toEqual([[{ 'A terminalLargest': '4 AWG' }]]);
    expect(sets('terminal kit', on('supply'))).toEqual([]);
    const onBus = told(ofSize('4 AWG', { sets: 2 }), {}, {}, [beside('load')]);
    expect(sets('terminal kit', { ...onBus, elements: [barePart('bus', 'A', { terminalsPerPhase: 1 })] })).toEqual([
      [{ 'A terminalsPerPhase': 2 }],
    ]);
    expect(labels('terminal kit', told(ofSize('16 mm2', { sets: 2 }), { terminalsPerPhase: 1 }))).toEqual([
      'A terminal kit of A, listed for 2 × 16 mm²',
    ]);
    expect(labels('terminal kit', told(large, { terminalLargest: '6 AWG' }))).toEqual(['A terminal kit of A, listed for 4 AWG']);
  });

  it('terminal temperature: above the marked one', () => {
    const temperature = (terminalTemperature_C?: number) =>
      sets('terminal temperature', told({}, { terminalTemperature_C }))[0]?.map((each) => each['A terminalTemperature_C']);
    expect([temperature(60), temperature(75), temperature(90), temperature()]).toEqual([[75, 90], [90], [], []]);
  });

  it('gland: two millimetres either side of the cable, at the ends whose own does not hold it', () => {
    const gland = (outerDiameter_mm: number | undefined, from: object, to: object = {}) =>
      sets('gland', { cables: [wire({ outerDiameter_mm, from, to })] });
    expect(gland(30.5, { glandLeast_mm: 10, glandMost_mm: 20 })).toEqual([[{ 'W from.glandLeast_mm': 28, 'W from.glandMost_mm': 33 }]]);
    expect(gland(30.5, {}, { glandLeast_mm: 31, glandMost_mm: 40 })).toEqual([[{ 'W to.glandLeast_mm': 28, 'W to.glandMost_mm': 33 }]]);
    expect(gland(30.5, { glandMost_mm: 30 })[0]).toHaveLength(1);
    for (const fine of [{ glandLeast_mm: 30.5, glandMost_mm: 30.5 }, {}, { glandLeast_mm: 20 }]) expect(gland(30.5, fine)).toEqual([[]]);
    expect(gland(undefined, { glandMost_mm: 3 })).toEqual([[]]);
  });

  it('pin adapters: where aluminium lands on copper only', () => {
    const pins = (metal: string | undefined, terminalMetal?: string) =>
      sets('pin adapters', told({ conductor: { metal } }, { terminalMetal }));
    expect(pins('aluminium', 'copper-only')).toEqual([[{ 'A terminalMetal': 'copper-aluminium' }]]);
    expect([pins('copper', 'copper-only'), pins('aluminium', 'copper-aluminium'), pins('aluminium')]).toEqual([[], [], []]);
  });

  const tailsOf = (name: string, cable: object, a: object, basis: 'us' | 'iec' = 'us') =>
    asked(name, { ...told(cable, a), basis })[0]?.map(({ inserts }) => inserts?.[0]) ?? [];
  const sizesOf = (...of: Parameters<typeof tailsOf>) => tailsOf(...of).map((each) => each?.tail?.['conductor.size']);

  it('copper tails: from the same resistance up to the same size, through a box for both', () => {
    const aluminium = { conductor: { size: '250 kcmil', metal: 'aluminium' } };
    // 0.61 × 127 mm² = 77.5: 3/0 AWG (85.01) to 250 kcmil (127).
    expect(sizesOf('copper tails', aluminium, { terminalMetal: 'copper-only' })).toEqual(['3/0 AWG', '4/0 AWG', '250 kcmil']);
    expect(tailsOf('copper tails', aluminium, { terminalMetal: 'copper-only', terminalTemperature_C: 75 })[0]).toEqual({
      kind: 'junction',
      values: {
        box: 'metal',
        bondBar: true,
        terminalMetal: 'copper-aluminium',
        terminalLargest: '250 kcmil',
        terminalSmallest: '3/0 AWG',
        terminalsPerPhase: 2,
        terminalTemperature_C: 75,
      },
      cable: 'W',
      end: 'from',
      port: 'load',
      tail: {
        lengthMost_m: null,
        lengthOrigin: null,
        outerDiameter_mm: null,
        wave: null,
        note: null,
        'conductor.size': '3/0 AWG',
        'conductor.metal': 'copper',
        length_m: 2,
      },
    });
    // 0.61 × 10 mm² = 6.1, though aluminium itself is not made below 10.
    expect(
      sizesOf('copper tails', { conductor: { size: '16 mm2', metal: 'aluminium', sets: 2 } }, { terminalMetal: 'copper-only' }),
    ).toEqual(['10 mm2', '16 mm2']);
    expect(sizesOf('copper tails', { conductor: { size: '10 mm2', metal: 'aluminium' } }, { terminalMetal: 'copper-only' })).toEqual([
      '10 mm2',
    ]);
    const two = told({ conductor: { size: '16 mm2', metal: 'aluminium', sets: 2 } }, { terminalMetal: 'copper-only' });
    expect(labels('copper tails', two)[0]).toBe('Copper tails of 2 × 10 mm² from W to A, through a box');
    // Of no known temperature none is said of the box.
    expect(asked('copper tails', two)[0]?.[0]?.inserts?.[0]?.values).toStrictEqual({
      box: 'metal',
      bondBar: true,
      terminalMetal: 'copper-aluminium',
      terminalLargest: '16 mm2',
      terminalSmallest: '10 mm2',
      terminalsPerPhase: 4,
    });
    expect(sizesOf('copper tails', { conductor: { metal: 'aluminium' } }, { terminalMetal: 'copper-only' })).toEqual([]);
  });

  it('thinner tails: the thickest that the terminals take, of copper that is too thick for them', () => {
    const thick = ofSize('3/0 AWG');
    expect(sizesOf('thinner tails', thick, { terminalLargest: '1 AWG', terminalSmallest: '3 AWG' })).toEqual(['1 AWG', '2 AWG', '3 AWG']);
    expect(sizesOf('thinner tails', thick, { terminalLargest: '1 AWG' })[0]).toBe('1 AWG');
    expect(sizesOf('thinner tails', thick, { terminalLargest: '1 AWG' }).at(-1)).toBe('18 AWG');
    for (const [cable, a] of [
      [thick, {}],
      [thick, { terminalLargest: '3/0 AWG' }],
      [{ conductor: { size: '3/0 AWG', metal: 'aluminium' } }, { terminalLargest: '1 AWG' }],
      [{}, { terminalLargest: '1 AWG' }],
    ] as const)
      expect(sizesOf('thinner tails', cable, a)).toEqual([]);
    // At the other end the cable lands on the line side.
    expect(asked('thinner tails', told(thick, {}, { terminalLargest: '1 AWG' }))[1]?.[0]?.inserts?.[0]).toMatchObject({
      end: 'to',
      port: 'line',
    });
    expect(labels('thinner tails', told(thick, { terminalLargest: '1 AWG' }))[0]).toBe('Copper tails of 1 AWG from W to A, through a box');
  });
});

describe('on the way from the supply to the motor', () => {
  const run = (drive: object = {}, motor: object = {}, behind: object = {}): LineUpBuilder =>
    new LineUpBuilder()
      .part('supply', { tag: 'S' })
      .cable({ tag: 'F', length_m: 20 })
      .part('disconnect', { tag: 'CB' })
      .cable({ tag: 'G', length_m: 30 })
      .part('drive', { tag: 'D', ...drive })
      .cable({ tag: 'W', length_m: 40 })
      .part('disconnect', { tag: 'DS', ...behind })
      .cable({ tag: 'V', length_m: 10 })
      .part('motor', { tag: 'M', ...motor });
  const idIn = ({ elements, cables }: LineUp, tag: string): string => [...elements, ...cables].find((each) => each.tag === tag)?.id ?? '';
  const offered = (name: string, lineUp: LineUp, told: Told = {}) =>
    asked(name, { elements: lineUp.elements, cables: lineUp.cables, basis: lineUp.project.basis, ...told });
  /** Every cable drawn from the motor to the supply. */
  const turned = (lineUp: LineUp): LineUp => ({
    ...lineUp,
    cables: lineUp.cables.map((each) => ({ ...each, from: each.to, to: each.from })),
  });
  const inserts = (name: string, lineUp: LineUp, told: Told = {}) =>
    offered(name, lineUp, told).map((list) => list.map((each) => each.inserts?.[0]));
  /** Where in which cable a part would be put, by its tag. */
  const places = (name: string, lineUp: LineUp, told: Told = {}) =>
    inserts(name, lineUp, told).map((list) =>
      list.map((each) => [lineUp.cables.find(({ id }) => id === each?.cable)?.tag, each?.end, each?.port]),
    );
  const rated = { ratedVoltage_V: 480, inputCurrent_A: 52, outputCurrent_A: 54 };

  it('line reactor: 3 % or 5 % where the feeder lands on the drive', () => {
    const lineUp = run(rated).build();
    const values = { ratedCurrent_A: 52, ratedVoltage_V: 480, box: 'metal' };
    const at = { kind: 'reactor', cable: idIn(lineUp, 'G'), end: 'to', port: 'line' };
    expect(offered('line reactor', lineUp)).toEqual([
      [3, 5].map((impedance_pct) => ({
        label: `A ${impedance_pct} % reactor ahead of D`,
        edits: [],
        inserts: [{ ...at, values: { ...values, impedance_pct } }],
      })),
    ]);
    expect(places('line reactor', turned(lineUp))[0]?.[0]).toEqual(['G', 'from', 'line']);
    expect(inserts('line reactor', run().build())[0]?.[0]?.values).toStrictEqual({ impedance_pct: 3, box: 'metal' });
    expect(
      places('line reactor', new LineUpBuilder().part('supply', {}).cable({ tag: 'F' }).part('drive', {}).part('motor', {}).build()),
    ).toEqual([
      [
        ['F', 'to', 'line'],
        ['F', 'to', 'line'],
      ],
    ]);
    const across = new LineUpBuilder().part('supply', { tag: 'S' }).cable({}).part('motor', { tag: 'M' }).build();
    for (const name of ['line reactor', 'isolation transformer', 'output reactor', 'terminator', 'dV/dt filter', 'sine filter'])
      expect(offered(name, across)).toEqual([]);
  });

  it('isolation transformer: of the next power, its star point earthed', () => {
    // √3 × 480 V × 52 A = 43.2 kVA; × 54.1 A = 44,977 VA; × 54.2 A = 45,061 VA.
    const lineUp = run(rated).build();
    const made = {
      impedance_pct: 5,
      xOverR: 2,
      ratedPower_VA: 45_000,
      primaryVoltage_V: 480,
      secondaryVoltage_V: 480,
      secondaryEarthing: 'solid-wye',
      box: 'metal',
    };
    expect(offered('isolation transformer', lineUp)).toEqual([
      [
        {
          label: 'An isolation transformer of 45 kVA ahead of D, its star point earthed',
          edits: [],
          inserts: [{ kind: 'transformer', values: made, cable: idIn(lineUp, 'G'), end: 'to', port: 'line' }],
        },
      ],
    ]);
    const of = (drive: object, told: Told = {}) => inserts('isolation transformer', run(drive).build(), told)[0]?.[0]?.values;
    expect(of({ ...rated, inputCurrent_A: 54.1 })?.['ratedPower_VA']).toBe(45_000);
    expect(of({ ...rated, inputCurrent_A: 54.2 })?.['ratedPower_VA']).toBe(75_000);
    expect(of(rated, { basis: 'iec' })?.['secondaryEarthing']).toBe('tn');
    for (const lacking of [{ ratedVoltage_V: 480 }, { inputCurrent_A: 52 }, { ratedVoltage_V: 480, inputCurrent_A: 1300 }])
      expect(offered('isolation transformer', run(lacking).build())).toEqual([[]]);
  });

  it.each([
    ['output reactor', 'reactor', { impedance_pct: 3, ratedCurrent_A: 54, ratedVoltage_V: 480, box: 'metal' }, ['W', 'from', 'load']],
    ['dV/dt filter', 'filter', { role: 'dvdt', box: 'metal' }, ['W', 'from', 'load']],
    ['sine filter', 'filter', { role: 'sine', box: 'metal' }, ['W', 'from', 'load']],
    ['terminator', 'filter', { role: 'terminator', box: 'metal' }, ['V', 'to', 'line']],
  ])('%s: at the end of the lead that it is for', (name, kind, values, place) => {
    const lineUp = run(rated).build();
    expect([places(name, lineUp), inserts(name, lineUp)]).toMatchObject([[[place]], [[{ kind, values }]]]);
    expect(offered(name, lineUp)[0]?.[0]?.edits).toEqual([]);
    const [cable, end, port] = place;
    expect(places(name, turned(lineUp))).toEqual([[[cable, end === 'from' ? 'to' : 'from', port]]]);
    // Links inside a cabinet are passed by.
    const linked = run(rated).build();
    const cables = linked.cables.map((each) => (each.tag === cable ? { ...each, kind: 'link' as const } : each));
    expect(places(name, { ...linked, cables })[0]?.[0]?.[0]).toBe(cable === 'W' ? 'V' : 'W');
  });

  it('disconnect at the motor: rated for a quarter more than it draws, for isolation alone', () => {
    const at = (ratedCurrent_A?: number, basis: 'us' | 'iec' = 'us', check = 'motor-isolation') =>
      offered('disconnect at the motor', run({}, { ratedCurrent_A }).build(), { basis, finding: { check } });
    const values = { device: 'switch', withinSight: true, lockable: true, earlyBreakContact: 'wired', box: 'metal' };
    // 1.25 × 50 A = 62.5 A.
    expect(at(50)[0]?.[0]?.inserts).toMatchObject([
      { kind: 'disconnect', values: { ...values, ratedCurrent_A: 70 }, end: 'to', port: 'line' },
    ]);
    expect(at(50)[0]?.[0]?.edits).toEqual([]);
    expect(at(50, 'iec')[0]?.[0]?.inserts?.[0]?.values).toEqual({ ...values, ratedCurrent_A: 63 });
    expect([at()[0]?.[0]?.inserts?.[0]?.values, at(5000)[0]?.[0]?.inserts?.[0]?.values]).toEqual([values, values]);
    expect(at(50, 'us', 'output-disconnect')).toEqual([]);
  });

  const lengths = (lineUp: LineUp) =>
    offered('drive nearer to the motor', lineUp).map((list) =>
      list.map(({ edits }) => edits.map(({ id, path, value }) => `${lineUp.cables.find((each) => each.id === id)?.tag} ${path} ${value}`)),
    );
  it('drive nearer to the motor: what the lead loses the feeder gains', () => {
    expect(lengths(run().build())).toEqual([
      [
        ['G length_m 40', 'W length_m 30'],
        ['G length_m 50', 'W length_m 20'],
        ['G length_m 60', 'W length_m 10'],
        ['G length_m 66', 'W length_m 4'],
      ],
    ]);
    expect(labelsOf(run().build())[0]).toBe('Move D 32.8\u00a0ft nearer to the motor: G 131\u00a0ft, W 98.4\u00a0ft');
  });
  const labelsOf = (lineUp: LineUp) => offered('drive nearer to the motor', lineUp).flatMap((list) => list.map(({ label }) => label));
  const withValues = (lineUp: LineUp, tag: string, more: object): LineUp => ({
    ...lineUp,
    cables: lineUp.cables.map((each) => (each.tag === tag ? { ...each, ...more } : each)),
  });

  it('drive nearer to the motor: of a range by its long end, never below nothing', () => {
    const ranged = withValues(withValues(run().build(), 'W', { length_m: 10, lengthMost_m: 40 }), 'G', { lengthMost_m: 35 });
    expect(lengths(ranged)[0]?.slice(0, 2)).toEqual([
      ['G length_m 40', 'G lengthMost_m 45', 'W length_m 0', 'W lengthMost_m 30'],
      ['G length_m 50', 'G lengthMost_m 55', 'W length_m 0', 'W lengthMost_m 20'],
    ]);
  });

  it('drive nearer to the motor: only where both lengths are known and nothing branches off', () => {
    for (const [tag, more] of [
      ['W', { length_m: undefined }],
      ['G', { length_m: undefined }],
      ['W', { length_m: 0 }],
    ] as const)
      expect(lengths(withValues(run().build(), tag, more))).toEqual([[]]);
    // A second motor behind the lead moves nothing; one at the drive itself would have to move along.
    const beyond = run().from('DS').cable({ tag: 'V2', length_m: 5 }).part('motor', { tag: 'M2' }).build();
    expect(lengths(beyond)).toHaveLength(1);
    expect(lengths(beyond)[0]).toHaveLength(4);
    const atDrive = run().from('D').cable({ tag: 'W2', length_m: 5 }).part('motor', { tag: 'M2' }).build();
    expect(lengths(atDrive)).toEqual([[]]);
    const besideDrive = run()
      .from('CB')
      .cable({ tag: 'G2', length_m: 5 })
      .part('drive', { tag: 'D2' })
      .part('motor', { tag: 'M2' })
      .build();
    expect(lengths(besideDrive)[0]).toEqual([]);
    // A reactor linked to the drive moves along.
    const linked = new LineUpBuilder()
      .part('supply', { tag: 'S' })
      .cable({ tag: 'G', length_m: 30 })
      .part('reactor', { tag: 'L' })
      .part('drive', { tag: 'D' })
      .part('filter', { tag: 'Z' })
      .cable({ tag: 'W', length_m: 40 })
      .part('motor', { tag: 'M' })
      .build();
    expect(lengths(linked)[0]?.[0]).toEqual(['G length_m 40', 'W length_m 30']);
    // Without a drive there is nothing to move.
    expect(lengths(new LineUpBuilder().part('supply', { tag: 'S' }).cable({ length_m: 5 }).part('motor', { tag: 'M' }).build())).toEqual(
      [],
    );
  });

  it('disconnect at or ahead of the drive: out of the lead, if that is then in one piece', () => {
    const of = (name: string, lineUp: LineUp) => offered(name, lineUp).map((list) => list.map(({ edits, moves }) => ({ edits, moves })));
    const lineUp = run({ box: 'metal' }, {}, { box: 'plastic' }).build();
    const moved = (port: 'load' | 'line') => [{ id: idIn(lineUp, 'DS'), beside: idIn(lineUp, 'D'), port, asks: ['withinSight'] }];
    const edits = [{ id: idIn(lineUp, 'DS'), path: 'box', value: 'metal' }];
    expect(of('disconnect at the drive', lineUp)).toEqual([[{ edits, moves: moved('load') }]]);
    expect(of('disconnect ahead of the drive', lineUp)).toEqual([[{ edits, moves: moved('line') }]]);
    // Of no known box the cabinet is taken for metal; the same box is not said again.
    expect(of('disconnect at the drive', run({}, {}, { box: 'plastic' }).build())[0]?.[0]?.edits).toEqual(edits);
    expect(of('disconnect at the drive', run({ box: 'plastic' }, {}, { box: 'plastic' }).build())[0]?.[0]?.edits).toEqual([]);
    // It stands there, or the halves are two cables, or other motors hang on it, or it is ahead.
    for (const tag of ['W']) expect(of('disconnect at the drive', withValues(turned(lineUp), tag, { kind: 'link' }))).toEqual([[]]);
    expect(of('disconnect at the drive', withValues(lineUp, 'W', { kind: 'link' }))).toEqual([[]]);
    expect(of('disconnect at the drive', withValues(lineUp, 'W', { construction: 'singles' }))).toEqual([]);
    expect(of('disconnect at the drive', withValues(lineUp, 'W', { note: 'two pieces' }))).toHaveLength(1);
    const two = run().from('D').cable({ tag: 'W2' }).part('motor', { tag: 'M2' }).build();
    expect(of('disconnect at the drive', two)).toEqual([]);
    const ahead = new LineUpBuilder()
      .part('supply', {})
      .cable({})
      .part('disconnect', {})
      .cable({})
      .part('drive', {})
      .cable({})
      .part('motor', {})
      .build();
    expect(of('disconnect at the drive', ahead)).toEqual([]);
    // Other links, to the motor or ahead of the drive, do not put it there.
    for (const tag of ['V', 'G'])
      for (const now of [lineUp, turned(lineUp)])
        expect(of('disconnect at the drive', withValues(now, tag, { kind: 'link' }))[0]).toHaveLength(1);
    expect(['disconnect at the drive', 'disconnect ahead of the drive'].map((name) => offered(name, lineUp)[0]?.[0]?.label)).toEqual([
      'Move DS into the cabinet of D, and the cable to the motor in one piece',
      'Move DS ahead of D, if the motor may be isolated there',
    ]);
  });

  it('filter at the drive: a sine or dV/dt filter from farther off', () => {
    const site = (role?: 'sine' | 'dvdt' | 'terminator') =>
      new LineUpBuilder()
        .part('supply', { tag: 'S' })
        .cable({})
        .part('drive', { tag: 'D' })
        .cable({ tag: 'W', length_m: 5 })
        .part('filter', role === undefined ? { tag: 'Z' } : { tag: 'Z', role })
        .cable({ tag: 'V', length_m: 5 })
        .part('motor', { tag: 'M' });
    const of = (lineUp: LineUp) => offered('filter at the drive', lineUp).map((list) => list.map(({ edits, moves }) => ({ edits, moves })));
    const made = [[{ edits: [], moves: [{ id: 'e3', beside: 'e2', port: 'load', asks: [] }] }]];
    expect([of(site('sine').build()), of(site('dvdt').build())]).toEqual([made, made]);
    expect([of(site('terminator').build()), of(site().build())]).toEqual([[[]], [[]]]);
    expect(of(site('sine').from('Z').cable({}).part('motor', { tag: 'M2' }).build())).toEqual([[]]);
    // Of several drives to its own.
    const other = new LineUpBuilder()
      .part('supply', { tag: 'S' })
      .cable({})
      .part('drive', { tag: 'D1' })
      .part('motor', { tag: 'M1' })
      .from('S');
    const second = other
      .cable({})
      .part('drive', { tag: 'D2' })
      .cable({})
      .part('filter', { role: 'sine' })
      .cable({})
      .part('motor', { tag: 'M2' })
      .build();
    expect(of(second)[0]?.[0]?.moves?.[0]?.beside).toBe('e4');
    const onNoRun = { ...site('sine').build(), cables: [] };
    expect(of(onNoRun)).toEqual([[]]);
  });
});

describe('parts taken out', () => {
  const offered = (name: string, lineUp: LineUp, told: Told = {}) =>
    asked(name, { elements: lineUp.elements, cables: lineUp.cables, ...told });
  const withValues = (lineUp: LineUp, tag: string, more: object): LineUp => ({
    ...lineUp,
    cables: lineUp.cables.map((each) => (each.tag === tag ? { ...each, ...more } : each)),
  });
  const through = (kind: 'junction' | 'reactor' | 'disconnect'): LineUp =>
    new LineUpBuilder()
      .part('supply', { tag: 'S' })
      .cable({ tag: 'F', length_m: 5 })
      .part('drive', { tag: 'D' })
      .cable({ tag: 'W', length_m: 5 })
      .part(kind, { tag: 'P' })
      .cable({ tag: 'V', length_m: 5 })
      .part('motor', { tag: 'M' })
      .build();

  it('one piece: without a box between two cables of one make', () => {
    const made = [[{ label: 'W in one piece, without P', edits: [], takesOut: ['e3'] }]];
    expect(offered('one piece', through('junction'))).toEqual(made);
    expect(offered('one piece', withValues(through('junction'), 'V', { installation: { raceway: 'tray' }, note: 'behind' }))).toEqual(made);
    for (const other of [
      { conductor: { size: '4 AWG' } },
      { insulation: { type: 'THHN' } },
      { construction: 'singles' },
      { grounds: { count: 3 } },
      { length_m: undefined },
    ])
      expect(offered('one piece', withValues(through('junction'), 'V', other))).toEqual([]);
    expect(offered('one piece', through('disconnect'))).toEqual([]);
    const three = new LineUpBuilder().part('drive', {}).cable({}).part('junction', { tag: 'J' }).cable({}).part('motor', {});
    expect(offered('one piece', three.from('J').cable({}).part('motor', {}).build())).toEqual([]);
  });

  it('no reactor: whatever lies on both sides of it', () => {
    const made = [[{ label: 'Take out P', edits: [], takesOut: ['e3'] }]];
    expect(offered('no reactor', through('reactor'))).toEqual(made);
    expect(offered('no reactor', withValues(through('reactor'), 'V', { construction: 'singles' }))).toEqual(made);
    expect(offered('no reactor', withValues(through('reactor'), 'V', { from: {} }))).toEqual([]);
    expect(offered('no reactor', through('junction'))).toEqual([]);
  });

  describe('no way around the drive', () => {
    const site = (role: string, leg: readonly Cable[], more: readonly Element[] = []): LineUp => ({
      ...new LineUpBuilder().build(),
      elements: [
        ...(['supply', 'bus', 'drive', 'motor'] as const).map((kind) => barePart(kind, kind)),
        barePart('contactor', 'K', { role }),
        ...more,
      ],
      cables: [
        bareCable('F', 'supply:load', 'bus:line'),
        bareCable('G', 'bus:load', 'drive:line'),
        bareCable('W', 'drive:load', 'motor:line'),
        ...leg,
      ],
    });
    const leg = [bareCable('a', 'bus:load', 'K:line'), bareCable('b', 'K:load', 'motor:line')];
    const finding = { check: 'feeder-ampacity', case: 'bypass' } as const;
    const removes = (lineUp: LineUp, of: Partial<Finding> = finding) =>
      offered('no way around the drive', lineUp, { finding: of }).map((list) => list.map((each) => each.removes));

    it('is its contactor with all that lies in line with it', () => {
      expect(removes(site('bypass', leg))).toEqual([[['K']]]);
      expect(offered('no way around the drive', site('bypass', leg), { finding })[0]?.[0]?.edits).toEqual([]);
      for (const kind of ['disconnect', 'contactor', 'reactor', 'filter', 'junction'] as const) {
        const longer = [bareCable('a', 'bus:load', 'Q:line'), bareCable('c', 'K:line', 'Q:load'), bareCable('b', 'K:load', 'motor:line')];
        expect(removes(site('bypass', longer, [barePart(kind, 'Q')]))).toEqual([[['K', 'Q']]]);
      }
    });

    it('is none where it leads elsewhere, or nowhere, or does not rule the feeder', () => {
      expect(removes(site('output', leg))).toEqual([]);
      expect(removes(site('bypass', leg), { ...finding, check: 'feeder-drop' })).toEqual([]);
      expect(removes(site('bypass', leg), { ...finding, case: 'rated' })).toEqual([]);
      expect(removes(site('bypass', leg.slice(1)))).toEqual([]);
      expect(removes(site('bypass', [...leg, bareCable('c', 'K:load', '')]))).toEqual([[['K']]]);
      expect(removes(site('bypass', [...leg, bareCable('c', 'K:load', 'drive:line')]))).toEqual([]);
      for (const kind of ['transformer', 'motor', 'supply'] as const)
        expect(removes(site('bypass', [...leg, bareCable('c', 'K:load', 'T:line')], [barePart(kind, 'T')]))).toEqual([]);
    });
  });

  describe('a drive for each motor', () => {
    const laid = { installation: { raceway: 'tray' } } as const;
    // Values that are lists or groups are not carried over.
    const fed: object = {
      ...{ tag: 'F', length_m: 20, construction: 'multicore', insulation: { type: 'XHHW-2' }, grounds: { count: 1 } },
      ...{ setsAlike: true, wave: { impedance_ohm: 80 } },
    };
    const group = (drive: object = {}, motor: object = {}): LineUpBuilder =>
      new LineUpBuilder()
        .part('supply', { tag: 'S' })
        .part('disconnect', { tag: 'CB' })
        .cable({ ...fed, ...laid })
        .part('drive', { tag: 'D', ...drive })
        .cable({ tag: 'W', length_m: 40, construction: 'foil-and-braid', insulation: { type: 'XHHW-2' }, grounds: { count: 3 } })
        .part('junction', { tag: 'J' })
        .cable({ tag: 'V1' })
        .part('motor', { tag: 'M1', ...motor })
        .from('J')
        .cable({ tag: 'V2' })
        .part('motor', { tag: 'M2', ratedCurrent_A: 5 });
    const finding = { check: 'several-motors' };
    const each = (lineUp: LineUp, check = 'several-motors') => offered('a drive for each motor', lineUp, { finding: { check } });
    const drive = { ratedVoltage_V: 480, inputCurrent_A: 40, outputCurrent_A: 50, carrier_Hz: 4000, frontEnd: 'diode' };

    it('stands where it branches off, of the motor’s current and power, and on the old one’s base', () => {
      const lineUp = group(drive, { ratedCurrent_A: 30.1, ratedPower_W: 20_000 }).build();
      const same = { ratedVoltage_V: 480, carrier_Hz: 4000, frontEnd: 'diode', box: 'metal' };
      const place = { kind: 'drive', end: 'from', port: 'load' };
      expect(each(lineUp)).toEqual([
        [
          {
            label: 'A drive for each of M1, M2 in place of D, where they branch off',
            edits: [
              { id: 'c2', path: 'grounds.count', value: 1 },
              { id: 'c2', path: 'construction', value: 'multicore' },
              { id: 'c2', path: 'setsAlike', value: true },
            ],
            takesOut: ['e3'],
            inserts: [
              // 1.1 × 30.1 = 33.11, in tenths upwards; × 40 / 50 = 26.56.
              { ...place, values: { ...same, ratedPower_W: 20_000, outputCurrent_A: 33.2, inputCurrent_A: 26.6 }, cable: 'c4' },
              { ...place, values: { ...same, outputCurrent_A: 5.5, inputCurrent_A: 4.4 }, cable: 'c5' },
            ],
          },
        ],
      ]);
      // What is not known is not made up.
      expect(each(group().build())[0]?.[0]?.inserts?.map(({ values }) => values)).toStrictEqual([
        { box: 'metal' },
        { outputCurrent_A: 5.5, box: 'metal' },
      ]);
      expect(each(group({ outputCurrent_A: 50 }).build())[0]?.[0]?.inserts?.[1]?.values).toEqual({ outputCurrent_A: 5.5, box: 'metal' });
      expect(each(group({ inputCurrent_A: 50 }).build())[0]?.[0]?.inserts?.[1]?.values).toEqual({ outputCurrent_A: 5.5, box: 'metal' });
    });

    it('is for what comes of one drive for several motors', () => {
      for (const check of ['several-motors', 'manual-limits', 'charging-current']) expect(each(group().build(), check)[0]).toHaveLength(1);
      expect(each(group().build(), 'lead-drop')).toEqual([[]]);
      // One motor; a motor on links, which has no cable of its own; a drive that cannot be taken out of its line.
      expect(each(through('junction'))).toEqual([[]]);
      const linked = group().build();
      expect(each(withValues(linked, 'V2', { kind: 'link' }))).toEqual([[]]);
      // A switch in the box is passed by; one in the common lead counts for no motor.
      const switched = group().from('J').part('disconnect', { tag: 'DS' }).cable({ tag: 'V3' }).part('motor', { tag: 'M3' }).build();
      expect(each(switched)[0]?.[0]?.inserts?.map(({ cable }) => switched.cables.find(({ id }) => id === cable)?.tag)).toEqual([
        'V1',
        'V2',
        'V3',
      ]);
      const inLine = new LineUpBuilder()
        .part('supply', {})
        .cable({})
        .part('drive', {})
        .cable({})
        .part('disconnect', {})
        .cable({})
        .part('junction', { tag: 'J' });
      for (const tag of ['M1', 'M2']) inLine.from('J').cable({}).part('motor', { tag });
      expect(each(inLine.build())[0]).toHaveLength(1);
      expect(each(group().from('D').cable({ tag: 'V3' }).part('motor', { tag: 'M3' }).build())).toEqual([[]]);
    });

    it('asks, and nothing of a second drive', () => {
      expect(KINDS.find(({ name }) => name === 'a drive for each motor')?.asks).toBe(true);
      const two = group().from('S').cable({}).part('drive', { tag: 'D2' }).cable({}).part('motor', { tag: 'M3' }).build();
      expect(asked('a drive for each motor', { elements: two.elements, cables: two.cables, finding }).map((list) => list.length)).toEqual([
        1, 0,
      ]);
    });
  });
});

describe('every kind', () => {
  it('has a name of its own, and as the check proposes is first', () => {
    const names = KINDS.map(({ name }) => name);
    expect([new Set(names).size, names[0]]).toEqual([names.length, 'as the check proposes']);
    const fixes = [
      { label: 'a', edits: [] },
      { label: 'b', edits: [] },
    ];
    expect(asked('as the check proposes', { finding: { fixes } })).toEqual(fixes.map((each) => [each]));
  });

  it('asks its maker where a figure of another make decides', () => {
    expect(KINDS.filter(({ asks }) => asks === true).map(({ name }) => name)).toEqual([
      'output reactor',
      'terminator',
      'dV/dt filter',
      'sine filter',
      'listed combination',
      'a drive for each motor',
    ]);
  });
});
