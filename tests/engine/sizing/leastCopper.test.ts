import { describe, expect, it } from 'vitest';
import { type LeastCopper, type LineUp, leastCopper, review } from '../../../engine/index.ts';
import { inSteel, LineUpBuilder, shielded } from '../lineUpBuilder.ts';
import { manyRuns } from '../manyRuns.ts';
import { readExample } from './readExample.ts';

/** The least conductor of the worked line-ups, each size reckoned by hand from NEC Table 310.16 (75 °C) or IEC 60364-5-52 beforehand. */

const sizes = ({ cables }: LeastCopper) =>
  Object.fromEntries(cables.map(({ tag, least }) => [tag, least ? `${least.sets} × ${least.size}` : null]));
const governs = ({ cables }: LeastCopper) => Object.fromEntries(cables.map((each) => [each.tag, each.governs]));

/** One run of 60 hp with feeder and lead of these lengths in feet; 96.25 A at the motor and 90 A at the drive ask for 3 AWG (100 A). */
const oneRun = (feeder_ft: number, lead_ft: number, drive: object = {}, motor: object = {}): LineUp => {
  const marks = { box: 'metal', terminalTemperature_C: 75, terminalMetal: 'copper-aluminium' } as const;
  return new LineUpBuilder({ title: 'one run' })
    .part('supply', { tag: 'S-1', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 30_000, xOverR: 8, earthing: 'solid-wye' })
    .part('disconnect', { tag: 'CB-1', device: 'breaker', tripCurrent_A: 100, ...marks })
    .cable(inSteel('3 AWG', feeder_ft, { tag: 'F-1' }))
    .part('drive', {
      tag: 'VFD-1',
      ratedVoltage_V: 480,
      inputCurrent_A: 72,
      outputCurrent_A: 77,
      inputPowerFactor: 0.9,
      ...marks,
      ...drive,
    })
    .cable(shielded('2 AWG', lead_ft, { tag: 'W-1' }))
    .part('motor', {
      tag: 'M-1',
      ratedPower_W: 60 * 745.7,
      ratedVoltage_V: 460,
      ratedFrequency_Hz: 60,
      ratedCurrent_A: 75,
      powerFactor: 0.86,
      ...marks,
      ...motor,
    })
    .build();
};
const idOf = (lineUp: LineUp, tag: string): string => lineUp.cables.find((cable) => cable.tag === tag)?.id ?? '';

describe('the least conductor of the worked line-ups', () => {
  it('alder mill: 33.75 A on both sides, 10 AWG carries 35', async () => {
    const answer = await leastCopper(readExample('alder-mill-fan'));
    expect(sizes(answer)).toEqual({ 'F-1': '1 × 10 AWG', 'W-1': '1 × 10 AWG' });
    expect(governs(answer)).toEqual({ 'F-1': 'feeder-ampacity', 'W-1': 'lead-ampacity' });
    expect(answer.unmet).toEqual([]);
  });

  it('heron weir: a larger wire mends neither shield nor grounds, and they do not hide the size', async () => {
    const answer = await leastCopper(readExample('heron-weir-pumps'));
    expect(sizes(answer)).toEqual({ 'F-2': '1 × 3 AWG', 'W-2A': '1 × 3 AWG', 'W-2B': '1 × 3 AWG' });
    expect(answer.beside.filter(({ check }) => check === 'protective-earth').map(({ subject }) => subject.tag)).toEqual(['W-2A', 'W-2B']);
  });

  it('basalt ridge: 500 A in two sets of aluminium; one set carries no 451 A, and two that split their phases are none', async () => {
    const answer = await leastCopper(readExample('basalt-ridge-crusher'));
    // 350 kcmil aluminium 250 A, 300 kcmil 230 A.
    expect(sizes(answer)).toEqual({ 'F-1': '2 × 350 kcmil', 'W-1': null });
    expect(answer.unmet.map(({ check, cables }) => [check, cables])).toEqual([['parallel-sets', ['W-1']]]);
  });

  it('basalt ridge in aluminium: a size that no table knows is not the nearest to one that passes', async () => {
    const site = readExample('basalt-ridge-crusher');
    const cables = site.cables.map((each) =>
      each.tag === 'W-1' ? { ...each, conductor: { ...each.conductor, metal: 'aluminium' as const } } : each,
    );
    // Two sets of 300 kcmil carry 460 A on terminals for 350 kcmil: only how they are laid stands against them.
    const answer = await leastCopper({ ...site, cables });
    expect(answer.unmet.map(({ check, cables: tags }) => [check, tags])).toEqual([['parallel-sets', ['W-1']]]);
  });

  it('names the size that would do if only it could be landed, and the terminals in its way', async () => {
    const example = readExample('heron-weir-pumps');
    const cables = example.cables.map((each) => (each.tag === 'W-2A' ? { ...each, length_m: 300 } : each));
    const elements = example.elements.map((each) => (each.kind === 'drive' ? { ...each, terminalLargest: '1/0 AWG' } : each));
    const site = { ...example, cables, elements };
    const [drop] = (await leastCopper(site)).unmet;
    expect([drop?.check, drop?.proved]).toEqual(['lead-drop', true]);
    expect(drop?.remedies.join()).toContain('Next conductor size up (check terminals');
    expect(drop?.inTheWay?.sizes).toEqual(['W-2A', 'W-2B'].map((tag) => ({ tag, choice: { size: '3/0 AWG', sets: 1 } })));
    expect(drop?.inTheWay?.breaks.map(({ check, subject, text }) => [check, subject.tag, text])).toEqual([
      ['terminal-range', 'W-2A', 'W-2A is 3/0 AWG; the terminals of VFD-2 take 14 AWG to 1/0 AWG.'],
    ]);
    // The whole review agrees: so the drop is kept, and with a size less it is not.
    const dropWith = (size: string) =>
      review({
        ...site,
        cables: cables.map((each) => (each.tag.startsWith('W-2') ? { ...each, conductor: { ...each.conductor, size } } : each)),
      }).findings.find(({ check }) => check === 'lead-drop')?.verdict;
    expect([dropWith('2/0 AWG'), dropWith('3/0 AWG')]).toEqual(['caution', 'note']);
  });

  it('names what a smaller size would break where none that carries the current can be landed', async () => {
    const site = readExample('heron-weir-pumps');
    const elements = site.elements.map((each) => (each.kind === 'drive' ? { ...each, terminalLargest: '8 AWG' } : each));
    const [range, ...others] = (await leastCopper({ ...site, elements })).unmet;
    expect([range?.check, others]).toEqual(['terminal-range', []]);
    expect(range?.inTheWay?.sizes).toEqual([{ tag: 'W-2A', choice: { size: '8 AWG', sets: 1 } }]);
    expect(range?.inTheWay?.breaks.map(({ check }) => check)).toEqual(['lead-ampacity']);
  });

  it('fennel lane: wire that is too long for the manual stays so at any size', async () => {
    const answer = await leastCopper(readExample('fennel-lane-capping'));
    expect(answer.beside.map(({ check }) => check)).toContain('manual-limits');
    expect(answer.cables[0]).toMatchObject({ tag: 'F-1', least: { size: '10 AWG', sets: 1 } });
  });

  it('frostmere: feeders that are not described leave no size to name', async () => {
    const answer = await leastCopper(readExample('frostmere-cold-store'));
    expect(answer.left).toEqual(['F-1', 'F-2']);
    expect(sizes(answer)).toEqual({ 'W-1': null, 'W-2': null });
    expect(answer.unmet.map(({ check }) => check)).toContain('lead-drop');
  });
});

describe('the least conductor', () => {
  it('is proposed as a document that the whole review finds no worse', async () => {
    const site = oneRun(100, 150);
    const before = review(site);
    const answer = await leastCopper(site);
    const after = review(answer.lineUp);
    expect(after.counts.fail).toBe(before.counts.fail);
    expect(after.counts.caution).toBe(before.counts.caution);
  });

  it('of a long lead is governed by the drop at the motor', async () => {
    const answer = await leastCopper(oneRun(50, 900));
    expect(governs(answer)['W-1']).toBe('lead-drop');
  });

  it('names the check that no size meets, and what would', async () => {
    const answer = await leastCopper(oneRun(50, 20_000));
    expect(answer.cables.map(({ tag, least }) => [tag, least === null])).toEqual([
      ['F-1', false],
      ['W-1', true],
    ]);
    expect(answer.unmet.map(({ check, cables }) => [check, cables])).toEqual([['lead-drop', ['W-1']]]);
    expect(answer.unmet[0]?.remedies).toContain('A shorter route.');
    // No size is long enough: to take the next is no advice.
    expect(answer.unmet[0]?.remedies.join()).not.toContain('Next conductor size');
    expect(answer.unmet[0]?.inTheWay).toBeNull();
  });

  it('names locked cables that stand in the way, and leaves them as they are', async () => {
    const site = oneRun(50, 3000);
    const free = await leastCopper(site);
    expect(free.unmet).toEqual([]);
    const locked = await leastCopper(site, { locked: [idOf(site, 'W-1')] });
    expect(locked.unmet.map(({ check, locked: names }) => [check, names])).toEqual([['lead-drop', ['W-1']]]);
    const short = oneRun(50, 100);
    const kept = await leastCopper(short, { locked: [idOf(short, 'W-1')] });
    expect(kept.unmet).toEqual([]);
    expect(sizes(kept)).toEqual({ 'F-1': '1 × 3 AWG', 'W-1': '1 × 2 AWG' });
  });

  it('uses more sets only where they are allowed', async () => {
    const site = oneRun(50, 4500);
    expect(sizes(await leastCopper(site, { mostSets: 1 }))['W-1']).toBeNull();
    const three = await leastCopper(site, { mostSets: 3 });
    expect(three.cables.find(({ tag }) => tag === 'W-1')?.least).not.toBeNull();
  });

  it('leaves out what is not fed or has no length', async () => {
    const site = oneRun(50, 100);
    const blank = { ...site, cables: site.cables.map((cable) => (cable.tag === 'W-1' ? { ...cable, length_m: undefined } : cable)) };
    expect((await leastCopper(blank)).left).toEqual(['W-1']);
  });

  it('judges no more documents for many runs than for one: zones are asked together', async () => {
    expect((await leastCopper(manyRuns(12))).judged).toBe((await leastCopper(manyRuns(1))).judged);
  });

  it('that is not proved says so: what was found passes, and lies between the least and what a bound allows', async () => {
    // Twelve leads in a row, all of which the drop at the one motor binds.
    const marks = { box: 'metal', terminalTemperature_C: 75, terminalMetal: 'copper-aluminium' } as const;
    const rowOf = (leads: number): LineUp => {
      const row = new LineUpBuilder({ title: 'leads in a row' })
        .part('supply', { tag: 'S-1', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 60_000, xOverR: 8, earthing: 'solid-wye' })
        .part('drive', { tag: 'VFD-1', ratedVoltage_V: 480, inputCurrent_A: 72, outputCurrent_A: 90, inputPowerFactor: 0.9, ...marks });
      for (let i = 1; i <= leads; i++)
        row.cable(shielded('2 AWG', 130 + 61 * i, { tag: `W-${i}` })).part('junction', { tag: `JB-${i}`, ...marks });
      return row
        .cable(shielded('2 AWG', 100, { tag: 'W' }))
        .part('motor', {
          tag: 'M-1',
          ratedPower_W: 44_742,
          ratedVoltage_V: 460,
          ratedFrequency_Hz: 60,
          ratedCurrent_A: 75,
          powerFactor: 0.86,
          ...marks,
        })
        .build();
    };
    const row = rowOf(3);
    const least = await leastCopper(row);
    expect([least.notProved, least.unmet]).toEqual([[], []]);
    const hasty = await leastCopper(row, { budget: 5 });
    expect(hasty.unmet).toEqual([]);
    expect(hasty.notProved).toHaveLength(1);
    const [{ cables, volume_m3, bound_m3 } = { cables: [], volume_m3: 0, bound_m3: 0 }] = hasty.notProved;
    expect(cables).toEqual(['W-1', 'W-2', 'W-3', 'W']);
    expect(volume_m3).toBeGreaterThanOrEqual(least.volume_m3);
    expect(bound_m3).toBeLessThanOrEqual(least.volume_m3);
    // What it names passes as the least does.
    expect(hasty.volume_m3).toBeCloseTo(volume_m3, 12);
    const verdicts = ({ lineUp }: LeastCopper) =>
      review(lineUp).findings.flatMap(({ check, verdict }) => (check === 'lead-drop' ? [verdict] : []));
    expect(verdicts(hasty)).toEqual(verdicts(least));
    // And of a row that no search exhausts there is an answer too, after no more than a count.
    const long = await leastCopper(rowOf(11), { budget: 100 });
    expect(long.notProved.length + long.unmet.filter(({ proved }) => !proved).length).toBeGreaterThan(0);
    expect(long.judged).toBeLessThan(1000);
  });

  it('stops when it is told to, and tells how far it is', async () => {
    const signal = { aborted: false };
    const stop = leastCopper(oneRun(50, 900), {
      signal,
      progress: (judged) => {
        if (judged === 2) signal.aborted = true;
      },
    });
    await expect(stop).rejects.toMatchObject({ name: 'AbortError' });
  });
});
