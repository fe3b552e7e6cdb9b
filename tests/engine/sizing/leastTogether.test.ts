import { describe, expect, it } from 'vitest';
import { type LeastCopper, type LineUp, leastCopper, review, sizeTable } from '../../../engine/index.ts';
import { volume_m3 } from '../../../engine/sizing/choices.ts';
import { everyCombination } from '../../property/sizedLineUp.ts';
import { inSteel, LineUpBuilder } from '../lineUpBuilder.ts';
import { manyRuns } from '../manyRuns.ts';
import { broken, oneLead, twoDrives } from './oneLead.ts';

/** Cables on both sides of drives that decide together: against every combination there is, and by counting what is judged. */

const marks = { box: 'metal', terminalTemperature_C: 75, terminalMetal: 'copper-aluminium' } as const;

/** Runs of 30 A off one bus behind a feeder of their own: the lengths of feeder and lead in feet. */
function behindOne(trunk_ft: number, runs: readonly (readonly [feeder_ft: number, lead_ft: number])[]): LineUp {
  const site = new LineUpBuilder({ title: 'behind one feeder' })
    .part('supply', { tag: 'S', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 30_000, xOverR: 8, earthing: 'solid-wye' })
    .cable(inSteel('3 AWG', trunk_ft, { tag: 'T' }))
    .part('bus', { tag: 'B', ...marks });
  for (const [i, [feeder_ft, lead_ft]] of runs.entries())
    site
      .from('B')
      .part('disconnect', { tag: `CB-${i + 1}`, device: 'breaker', tripCurrent_A: 100, ratedCurrent_A: 400, ...marks })
      .cable(inSteel('3 AWG', feeder_ft, { tag: `F-${i + 1}` }))
      .part('drive', { tag: `D-${i + 1}`, ratedVoltage_V: 480, inputCurrent_A: 30, outputCurrent_A: 33, inputPowerFactor: 0.9, ...marks })
      .cable(inSteel('3 AWG', lead_ft, { tag: `W-${i + 1}` }))
      .part('motor', {
        tag: `M-${i + 1}`,
        ratedPower_W: 18_000,
        ratedVoltage_V: 460,
        ratedFrequency_Hz: 60,
        ratedCurrent_A: 30,
        powerFactor: 0.86,
        ...marks,
      });
  return site.build();
}

const sizesOf = ({ cables }: LeastCopper) => cables.map(({ least }) => least?.size ?? null);
const idOf = (lineUp: LineUp, tag: string): string => lineUp.cables.find((cable) => cable.tag === tag)?.id ?? '';

/** Where the feeders that do for themselves bring too little for a lead. */
const SHORT = [
  {
    name: 'a lead and the feeder of its drive',
    lineUp: behindOne(310, [
      [320, 580],
      [680, 330],
    ]),
    sizes: ['6 AWG', '4 AWG', '1/0 AWG'],
    least: ['4 AWG', '6 AWG', '4 AWG', '4 AWG', '6 AWG'],
    judged: 26,
  },
  {
    name: 'a lead and a feeder of which the next is far larger',
    lineUp: behindOne(800, [
      [280, 90],
      [750, 880],
    ]),
    sizes: ['6 AWG', '4 AWG', '500 kcmil'],
    least: ['500 kcmil', '6 AWG', '6 AWG', '500 kcmil', '4 AWG'],
    judged: 31,
  },
  {
    name: 'a lead, its feeder and the one that both drives share',
    lineUp: behindOne(410, [
      [840, 860],
      [180, 230],
    ]),
    sizes: ['4 AWG', '1/0 AWG', '500 kcmil'],
    least: ['1/0 AWG', '4 AWG', '4 AWG', '4 AWG', '4 AWG'],
    judged: 24,
  },
  {
    name: 'both leads and all feeders',
    lineUp: behindOne(430, [
      [220, 570],
      [740, 560],
    ]),
    sizes: ['6 AWG', '4 AWG', '500 kcmil'],
    least: ['4 AWG', '6 AWG', '4 AWG', '4 AWG', '4 AWG'],
    judged: 47,
  },
  {
    name: 'a lead and a shared feeder that is short with all others at their best',
    lineUp: behindOne(400, [
      [290, 880],
      [730, 530],
    ]),
    sizes: ['4 AWG', '4/0 AWG', '250 kcmil'],
    least: ['4/0 AWG', '4 AWG', '4 AWG', '4 AWG', '4 AWG'],
    judged: 28,
  },
];

describe('feeders and leads that decide together', () => {
  it.each(SHORT)('$name: the least, without judging more than it must', async ({ lineUp, sizes, least, judged }) => {
    const answer = await leastCopper(lineUp, { sizes });
    expect([answer.unmet, answer.notProved]).toEqual([[], []]);
    expect(sizesOf(answer)).toEqual(least);
    expect(answer.judged).toBeLessThanOrEqual(judged);
  });

  it.each(SHORT)('$name: no combination of all there are is less', ({ lineUp, sizes, least }) => {
    const volume = lineUp.cables
      .filter(({ kind }) => kind === 'cable')
      .reduce((sum, cable, i) => sum + volume_m3(cable, { size: least[i] ?? '', sets: 1 }), 0);
    expect(everyCombination(lineUp, sizes, 1, []).least_m3).toBeCloseTo(volume, 12);
  });

  it('are searched drive by drive where that is enough: all at once is more than twice as much', async () => {
    const sizes = ['6 AWG', '4 AWG', '2 AWG', '1/0 AWG', '2/0 AWG', '4/0 AWG', '250 kcmil', '350 kcmil'];
    const answer = await leastCopper(
      behindOne(260, [
        [590, 890],
        [470, 690],
        [200, 610],
      ]),
      { sizes },
    );
    expect(sizesOf(answer)).toEqual(['2 AWG', '4 AWG', '2 AWG', '6 AWG', '4 AWG', '6 AWG', '4 AWG']);
    expect(answer.judged).toBeLessThanOrEqual(40);
    // So the proof holds with a budget that all at once would spend.
    const [lineUp, some] = [
      behindOne(350, [
        [260, 280],
        [470, 580],
        [440, 310],
      ]),
      { sizes, budget: 10 },
    ];
    expect((await leastCopper(lineUp, some)).notProved).toEqual([]);
  });

  it('begin anew with the feeder that drives share, and search a drive with its own feeders or not at all', async () => {
    const sizes = ['6 AWG', '4 AWG', '2 AWG', '350 kcmil'];
    const lineUp = behindOne(1150, [
      [760, 350],
      [790, 50],
      [620, 860],
      [520, 630],
    ]);
    // With the shared feeder as it does for itself it would be 2 % more; with one drive after the other 120 are judged.
    const answer = await leastCopper(lineUp, { sizes });
    expect(sizesOf(answer)).toEqual(['350 kcmil', '4 AWG', '6 AWG', '4 AWG', '6 AWG', '2 AWG', '4 AWG', '4 AWG', '4 AWG']);
    expect(answer.judged).toBeLessThanOrEqual(94);
  });

  it.each([
    [['W-1', 'F-1'], SHORT[0]],
    [['T', 'F-1', 'F-2', 'W-1'], SHORT[2]],
  ] as const)('are told where the proof is given up, each once and in the last search it was in: %s', async (tags, short) => {
    if (!short) throw new Error('no line-up');
    const answer = await leastCopper(short.lineUp, { sizes: short.sizes, budget: 2 });
    expect(answer.notProved.map(({ cables }) => cables)).toEqual([tags]);
    const [told] = answer.notProved;
    if (!told) throw new Error('all proved');
    expect(Object.keys(told)).toEqual(['cables', 'volume_m3', 'bound_m3']);
    const volume_m3 = answer.cables.filter(({ tag }) => told.cables.includes(tag)).reduce((sum, each) => sum + (each.volume_m3 ?? 0), 0);
    expect(told.volume_m3).toBeCloseTo(volume_m3, 12);
    expect(told.bound_m3).toBeLessThan(told.volume_m3);
  });
});

describe('what stands in the way', () => {
  /** So many runs whose leads want more than their drives have terminals for. */
  const cramped = (count: number): LineUp => {
    const site = manyRuns(count);
    return {
      ...site,
      cables: site.cables.map((each) => (each.tag.startsWith('W-') ? { ...each, length_m: 500 } : each)),
      elements: site.elements.map((each) => (each.kind === 'drive' ? { ...each, terminalLargest: '1 AWG' } : each)),
    };
  };

  it('is told of each run, and asked of all together', async () => {
    const [one, three] = [await leastCopper(cramped(1)), await leastCopper(cramped(3))];
    expect(one.unmet.map(({ check, subject }) => [check, subject.tag])).toEqual([['lead-drop', 'M-1']]);
    const [way] = one.unmet.map(({ inTheWay }) => inTheWay?.sizes.map(({ choice }) => choice));
    expect(way).toHaveLength(1);
    expect(three.unmet.map(({ inTheWay }) => inTheWay?.sizes)).toEqual([1, 2, 3].map((i) => [{ tag: `W-${i}`, choice: way?.[0] }]));
    expect(three.unmet.map(({ inTheWay }) => inTheWay?.breaks.map(({ check, subject }) => [check, subject.tag]))).toEqual(
      [1, 2, 3].map((i) => [['terminal-range', `W-${i}`]]),
    );
    // Each further lead is searched for with three; what stands in the way of all is asked with no more than of one.
    expect(three.judged).toBe(one.judged + 2 * 3);
  });

  it('of a feeder is told too', async () => {
    const lineUp = broken(oneLead(), { 'F-1': { length_m: 600 }, 'VFD-1': { terminalLargest: '2 AWG' } });
    const { unmet } = await leastCopper(lineUp);
    expect(unmet.map(({ check, subject, inTheWay }) => [check, subject.tag, inTheWay?.sizes.map(({ tag }) => tag)])).toEqual([
      ['feeder-drop', 'F-1', ['F-1']],
    ]);
    expect(unmet[0]?.inTheWay?.breaks.map(({ check, subject }) => [check, subject.tag])).toEqual([['terminal-range', 'F-1']]);
  });
});

describe('cables that keep their size', () => {
  it('are those that exist, unless others are named', async () => {
    const lineUp = broken(oneLead(), { 'F-1': { 'installation.existing': true } });
    const locked = (answer: LeastCopper) => answer.cables.filter((each) => each.locked).map(({ tag }) => tag);
    expect(locked(await leastCopper(lineUp))).toEqual(['F-1']);
    expect(locked(await leastCopper(lineUp, { locked: [] }))).toEqual([]);
    expect(locked(await leastCopper(lineUp, { locked: [idOf(lineUp, 'W-1A')] }))).toEqual(['W-1A']);
  });

  it('are left where their size is not known, and only told where they have a length', async () => {
    const blank = broken(oneLead(), { 'F-1': { 'conductor.size': null }, 'W-1B': { length_m: 0 } });
    const answer = await leastCopper(blank, { locked: [idOf(blank, 'F-1')] });
    expect(answer.cables.map(({ tag }) => tag)).toEqual(['W-1A']);
    expect(answer.left).toEqual(['F-1']);
  });

  it('are asked of only where there are any', async () => {
    // All at their most, at their least, as they begin, with the best feeders, and with the answer.
    expect((await leastCopper(oneLead(), { locked: [] })).judged).toBeLessThanOrEqual(5);
  });

  it('leave without a size what they stand in the way of, and nothing else', async () => {
    const long = behindOne(50, [
      [50, 3000],
      [50, 100],
    ]);
    const answer = await leastCopper(long, { locked: [idOf(long, 'W-1')] });
    expect(answer.unmet.map(({ check, locked, proved, inTheWay }) => [check, locked, proved, inTheWay])).toEqual([
      ['lead-drop', ['W-1'], true, null],
    ]);
    expect(answer.unmet[0]?.remedies.join()).toContain('Next conductor size up');
    expect(answer.cables.filter(({ least }) => least === null).map(({ tag }) => tag)).toEqual(['W-1']);
    expect(answer.judged).toBeLessThanOrEqual(7);
  });
});

describe('a cable of which no size can be told', () => {
  it('has none, and what is missing is named of it', async () => {
    const lineUp = broken(oneLead(), { 'W-1A': { 'insulation.type': null } });
    const { cables, unmet } = await leastCopper(lineUp);
    expect(cables.map(({ tag, least }) => [tag, least !== null])).toEqual([
      ['F-1', true],
      ['W-1A', false],
      ['W-1B', true],
    ]);
    expect(unmet.map(({ check, cables: tags, inTheWay }) => [check, tags, inTheWay])).toContainEqual(['lead-ampacity', ['W-1A'], null]);
  });
});

describe('what only waves tell of', () => {
  // 8 A would let 14 AWG do; wet nylon-coated PVC as thin as that of 12 AWG may let charges start in it.
  const wet = broken(oneLead(), {
    'VFD-1': { inputCurrent_A: 8, outputCurrent_A: 9 },
    'W-1A': { 'insulation.type': 'THHN', construction: 'singles', 'installation.moisture': 'wet' },
    'W-1B': { 'insulation.type': 'THHN', construction: 'singles', 'installation.moisture': 'wet' },
    'M-1': { ratedCurrent_A: 8, ratedPower_W: 4000 },
  });
  // The thickness of the wall by itself is left aside.
  const thin: LineUp = { ...wet, project: { ...wet.project, checks: { 'insulation-wall': { off: true } } } };
  const sizes = ['14 AWG', '12 AWG', '10 AWG', '8 AWG'];

  it('decides the size where nothing else does, and is asked of what breaks nothing else', async () => {
    const answer = await leastCopper(thin, { sizes });
    expect([answer.unmet, answer.notProved]).toEqual([[], []]);
    expect(answer.cables.map(({ tag, least, governs }) => [tag, least?.size, governs])).toEqual([
      ['F-1', '14 AWG', null],
      ['W-1A', '10 AWG', 'insulation-inception'],
      ['W-1B', '10 AWG', 'insulation-inception'],
    ]);
    expect(answer.volume_m3).toBeCloseTo(everyCombination(thin, sizes, 1, []).least_m3 ?? 0, 12);
    expect(answer.judged).toBeLessThanOrEqual(28);
  });
});

describe('what is named', () => {
  it('stands in the document that is proposed, with its volume and that of what is drawn', async () => {
    const lineUp = broken(oneLead(), { 'W-1A': { 'conductor.size': null } });
    const answer = await leastCopper(lineUp, { sizes: ['4 AWG', '2 AWG'] });
    expect(answer.lineUp.cables.flatMap(({ kind, conductor: { size } }) => (kind === 'cable' ? [size] : []))).toEqual(sizesOf(answer));
    expect(sizesOf(answer)).toEqual(['4 AWG', '4 AWG', '4 AWG']);
    // Of 90, 150 and 10 ft, three conductors of 41,740 circular mils.
    const of = (length_ft: number) => (length_ft * 0.3048 * 3 * 41_740 * 0.000506707479) / 1e6;
    for (const [i, [now, least]] of [
      [of(90), of(90)],
      [null, of(150)],
      [of(10), of(10)],
    ].entries()) {
      const cable = answer.cables[i];
      if (now === null || now === undefined) expect(cable?.volumeNow_m3).toBeNull();
      else expect(cable?.volumeNow_m3).toBeCloseTo(now, 6);
      expect(cable?.volume_m3).toBeCloseTo(least ?? 0, 6);
    }
  });
});

describe('what no size mends', () => {
  it('stands beside the answer: what fails and what cannot be judged', async () => {
    const lineUp = broken(oneLead(), {
      'CB-1': { faultRating_A: 5000 },
      'VFD-1': { faultRating_A: null },
    });
    const { beside, unmet } = await leastCopper(lineUp);
    expect(unmet).toEqual([]);
    expect(beside.map(({ check, subject, verdict }) => `${check} ${subject.tag} ${verdict}`)).toEqual([
      'fault-rating CB-1 fail',
      'fault-rating VFD-1 open',
      'shield-adequacy W-1A open',
      'shield-adequacy W-1B open',
    ]);
  });
});

describe('what stands in the way of sizes that would do', () => {
  const wide = Object.fromEntries(['CB-1', 'VFD-1', 'DS-1', 'M-1'].map((tag) => [tag, { terminalLargest: '500 kcmil' }]));
  /** The worst verdict of a check with these sizes, as the whole review has it. */
  const verdictWith = (lineUp: LineUp, sizes: Readonly<Record<string, string>>, check: string) =>
    review(broken(lineUp, Object.fromEntries(Object.entries(sizes).map(([tag, size]) => [tag, { 'conductor.size': size }])))).findings.find(
      (each) => each.check === check,
    )?.verdict;
  const told = ({ unmet }: LeastCopper) =>
    unmet.map(({ check, inTheWay }) => [
      check,
      inTheWay?.sizes.map(({ tag, choice }) => [tag, choice.size]),
      inTheWay?.breaks.map(({ check: other, subject }) => [other, subject.tag]),
    ]);

  it('is the fill of its pipe, which more conductor only harms', async () => {
    const installation = { 'installation.raceway': 'steel-conduit', 'installation.racewaySize': '1' };
    const lineUp = broken(oneLead(), { ...wide, 'W-1A': { length_m: 200, construction: 'singles', ...installation } });
    const [[check, sizes = [], breaks] = []] = told(await leastCopper(lineUp)) as [string, string[][], string[][]][];
    expect([check, breaks]).toEqual(['lead-drop', [['conduit-fill', 'W-1A']]]);
    expect(sizes.map(([tag]) => tag)).toEqual(['W-1A', 'W-1B']);
    const both = (size: string) => ({ 'W-1A': size, 'W-1B': size });
    expect(sizes.map(([, size]) => size)).toEqual(['2 AWG', '2 AWG']);
    expect([verdictWith(lineUp, both('3 AWG'), 'lead-drop'), verdictWith(lineUp, both('2 AWG'), 'lead-drop')]).toEqual(['caution', 'note']);
  });

  it('is a drop, where charging asks for less than the drop needs', async () => {
    const drive = { outputCurrent_A: 53, carrier_Hz: 16_000, 'manual.lengthShielded_m': 900 };
    const lineUp = broken(oneLead(), { ...wide, 'VFD-1': { ...wide['VFD-1'], ...drive }, 'W-1A': { length_m: 300 } });
    const answer = await leastCopper(lineUp);
    expect(told(answer)).toEqual([['charging-current', [['W-1A', '3 AWG']], [['lead-drop', 'M-1']]]]);
    // At 3 AWG of the long one charging is kept, and the drop is not; a size more and it is the other way round.
    const at = (size: string) =>
      ['charging-current', 'lead-drop'].map((check) => verdictWith(lineUp, { 'W-1A': size, 'W-1B': '6 AWG' }, check));
    expect(at('3 AWG')[0]).not.toBe('caution');
    expect([at('3 AWG')[1], at('2 AWG')[0]]).toEqual(['caution', 'caution']);
    expect(answer.judged).toBeLessThanOrEqual(27);
  });

  it('a ground that would have to grow with its phases (NEC 250.122(B)) is told of the answer, in the table of sizes too', async () => {
    const lineUp = broken(oneLead(), { ...wide, 'W-1A': { length_m: 300 } });
    const answer = await leastCopper(lineUp);
    const told = answer.beside.filter(({ check, verdict }) => check === 'protective-earth' && verdict === 'fail');
    expect(told.map(({ subject }) => subject.tag)).toContain('W-1A');
    expect(told[0]?.text).toContain('NEC 250.122(B)');
    const found = review(answer.lineUp).findings.filter(({ check, verdict }) => check === 'protective-earth' && verdict === 'fail');
    expect(told.map(({ text }) => text).sort()).toEqual(found.map(({ text }) => text).sort());
    const size = answer.cables.find(({ tag }) => tag === 'W-1A')?.least?.size;
    const row = sizeTable(lineUp, idOf(lineUp, 'W-1A'))?.rows.find(({ choice }) => choice.size === size);
    expect(row?.cells.find(({ check }) => check === 'protective-earth')?.finding?.verdict).toBe('fail');
  });

  it('is told of the cables that may be changed, not of one that keeps its size', async () => {
    const small = { terminalLargest: '4 AWG' };
    const lineUp = broken(oneLead(), { 'W-1B': { length_m: 300 }, 'M-1': small, 'DS-1': small });
    const answer = await leastCopper(lineUp, { locked: [idOf(lineUp, 'W-1A')] });
    expect(told(answer)).toEqual([['lead-drop', [['W-1B', '2/0 AWG']], [['terminal-range', 'W-1B']]]]);
    expect(answer.unmet[0]).toMatchObject({ cables: ['W-1A', 'W-1B'], locked: ['W-1A'] });
  });

  it('is nothing where the size waits for a value', async () => {
    const lineUp = broken(oneLead(), { 'W-1A': { 'insulation.type': null }, 'DS-1': { terminalLargest: '14 AWG' } });
    const [open] = (await leastCopper(lineUp)).unmet.filter(({ check }) => check === 'lead-ampacity');
    expect(open).toMatchObject({ verdict: 'open', cables: ['W-1A'], inTheWay: null });
  });

  it('is judged without the whole line-up where its own checks tell it', async () => {
    // 14 AWG is the most that fits: less than 50 A ask for.
    const lineUp = broken(oneLead(), { 'M-1': { terminalLargest: '14 AWG' } });
    const answer = await leastCopper(lineUp);
    expect(told(answer)).toEqual([['terminal-range', [['W-1B', '14 AWG']], [['lead-ampacity', 'W-1B']]]]);
    expect(answer.judged).toBeLessThanOrEqual(5);
  });
});

describe('cables that nothing can be said of', () => {
  it('are named by no fault: those without a length', async () => {
    const answer = await leastCopper(broken(oneLead(), { 'W-1A': { length_m: null }, 'W-1B': { length_m: null } }));
    expect([answer.unmet, answer.left, answer.cables.map(({ tag }) => tag)]).toEqual([[], ['W-1A', 'W-1B'], ['F-1']]);
  });

  it('are none, where every one keeps its size: that is asked once', async () => {
    const lineUp = manyRuns(2);
    const long = { ...lineUp, cables: lineUp.cables.map((each) => ({ ...each, length_m: each.length_m && each.length_m * 8 })) };
    const answer = await leastCopper(long, { locked: long.cables.map(({ id }) => id) });
    expect(answer.unmet.map(({ check, proved }) => [check, proved])).toEqual([
      ['feeder-drop', true],
      ['feeder-drop', true],
      ['lead-drop', true],
      ['lead-drop', true],
    ]);
    expect(answer.judged).toBeLessThanOrEqual(3);
  });
});

describe('cables of two drives in one pipe', () => {
  it('are sized beside the least that the other may be, not beside what is drawn', async () => {
    const pipe = { 'installation.raceway': 'steel-conduit', 'installation.racewaySize': '2' };
    // Three of 4/0 AWG leave no room for 6 AWG in two inches: the other asks for no more than 14 AWG.
    const lineUp = broken(twoDrives(), { 'M-2': { ratedPower_W: 2200 }, 'W-1A': pipe, 'W-2': { ...pipe, 'conductor.size': '4/0 AWG' } });
    const answer = await leastCopper(lineUp);
    expect(answer.unmet).toEqual([]);
    // Six loaded conductors lie in it, and 65 A are needed: 6 AWG carries 75 × 0.8 = 60 A, 4 AWG 95 × 0.8 = 76 A.
    expect(answer.cables.map(({ tag, least }) => [tag, least?.size])).toEqual([
      ['F-1', '6 AWG'],
      ['W-1A', '4 AWG'],
      ['W-1B', '6 AWG'],
      ['F-2', '14 AWG'],
      ['W-2', '14 AWG'],
    ]);
  });
});

describe('what waves tell where nothing else is broken', () => {
  it('is told, and not what costs little to ask', async () => {
    const wet = { 'insulation.type': 'THHN', construction: 'singles', 'installation.moisture': 'wet' };
    const lineUp = broken(oneLead(), {
      'VFD-1': { inputCurrent_A: 8, outputCurrent_A: 8.5, carrier_Hz: 16_000 },
      'W-1A': wet,
      'W-1B': wet,
      'M-1': { ratedCurrent_A: 8, ratedPower_W: 4000 },
    });
    const thin: LineUp = { ...lineUp, project: { ...lineUp.project, checks: { 'insulation-wall': { off: true } } } };
    const { cables, unmet } = await leastCopper(thin, { sizes: ['14 AWG', '12 AWG', '10 AWG', '8 AWG'] });
    // Charges start in all below 10 AWG, and the drive bears the charging of no more than one such lead.
    expect(unmet.map(({ check, subject, inTheWay }) => [check, subject.tag, inTheWay])).toEqual([['insulation-inception', 'W-1A', null]]);
    expect(cables.map(({ tag, least, breaks }) => [tag, least?.size ?? null, breaks.length])).toEqual([
      ['F-1', '14 AWG', 0],
      ['W-1A', null, 0],
      ['W-1B', '10 AWG', 1],
    ]);
  });
});
