import { describe, expect, it } from 'vitest';
import { type LeastCopper, type LineUp, leastCopper } from '../../../engine/index.ts';
import { volume_m3 } from '../../../engine/sizing/choices.ts';
import { everyCombination } from '../../property/sizedLineUp.ts';
import { inSteel, LineUpBuilder } from '../lineUpBuilder.ts';
import { manyRuns } from '../manyRuns.ts';
import { broken, oneLead } from './oneLead.ts';

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

  it('are told where the proof is given up, each once and in the last search it was in', async () => {
    const [{ lineUp, sizes }, , shared] = SHORT as [(typeof SHORT)[0], unknown, (typeof SHORT)[0]];
    const own = await leastCopper(lineUp, { sizes, budget: 2 });
    const volumeOf = ({ cables }: LeastCopper, tags: readonly string[]) =>
      cables.filter(({ tag }) => tags.includes(tag)).reduce((sum, each) => sum + (each.volume_m3 ?? 0), 0);
    expect(own.notProved.map(({ cables }) => cables)).toEqual([['W-1', 'F-1']]);
    const all = await leastCopper(shared.lineUp, { sizes: shared.sizes, budget: 2 });
    expect(all.notProved.map(({ cables }) => cables)).toEqual([['T', 'F-1', 'F-2', 'W-1']]);
    for (const answer of [own, all])
      for (const told of answer.notProved) {
        expect(Object.keys(told)).toEqual(['cables', 'volume_m3', 'bound_m3']);
        expect(told.volume_m3).toBeCloseTo(volumeOf(answer, told.cables), 12);
        expect(told.bound_m3).toBeLessThan(told.volume_m3);
      }
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
