import { describe, expect, it } from 'vitest';
import { applyFix, type DecidingUnknown, decidingUnknowns, type LineUp, review } from '../../../engine/index.ts';
import { inSteel, LineUpBuilder } from '../lineUpBuilder.ts';
import { broken } from './oneLead.ts';

/** Where a verdict turns on what nobody vouched for: of one feeder whose every other value is given, so that it is quickly judged. */

const site = (feeder: object = {}, drive: object = {}): LineUp =>
  broken(
    new LineUpBuilder({ title: 'a feeder' })
      .part('supply', {
        ...{ tag: 'S', voltage_V: 480, voltageLeast_pct: 100, voltageMost_pct: 100, frequency_Hz: 60 },
        ...{ faultCurrent_A: 30_000, xOverR: 8, earthing: 'solid-wye' },
      })
      .cable(inSteel('12 AWG', 60, { tag: 'F' }))
      .part('drive', {
        ...{ tag: 'D', ratedVoltage_V: 480, inputCurrent_A: 20, outputCurrent_A: 20, inputPowerFactor: 0.9, box: 'metal' },
        ...{ terminalTemperature_C: 75, terminalMetal: 'copper-only', carrier_Hz: 4000, riseTime_s: 1e-7, outputRatio_pct: 100 },
        ...{ dcChoke: 'fitted', faultRating_A: 22_000, faultRatingDevice: 'fuses', faultRatingDeviceDrawn: true },
        ...{ manual: { inputVoltageLeast_pct: 99 } },
      })
      .build(),
    { F: feeder, D: drive } as Parameters<typeof broken>[1],
  );
const told = (unknowns: readonly DecidingUnknown[]) =>
  unknowns.map(({ tag, field, turns }) => [tag, field, turns.map(({ finding, from, to }) => `${finding.check} ${from} ${to}`)]);
/** What the check says with this value in place of the one there is. */
const verdictAt = (lineUp: LineUp, { id, field }: DecidingUnknown, check: string, value: number | string) => {
  const edits = [
    { id, path: field, value },
    { id, path: 'lengthMost_m', value: null },
  ];
  return review(applyFix(lineUp, { label: '', edits })).findings.find((each) => each.check === check)?.verdict;
};
const assumed = (lineUp: LineUp, tag: string, ...paths: readonly string[]): LineUp => {
  const provenance = Object.fromEntries(paths.map((path) => [path, { origin: 'assumed' as const }]));
  return {
    ...lineUp,
    elements: lineUp.elements.map((each) => (each.tag === tag ? { ...each, provenance } : each)),
    cables: lineUp.cables.map((each) => (each.tag === tag ? { ...each, provenance } : each)),
  };
};

describe('what decides nothing', () => {
  it('is not told: what is given, and what turns nothing between its ends', async () => {
    expect(await decidingUnknowns(site())).toEqual([]);
    expect(await decidingUnknowns(site({ length_m: 1, lengthMost_m: 1.2 }))).toEqual([]);
  });
});

describe('a number', () => {
  it('is told with each verdict that turns between its ends, where it turns', async () => {
    // 1 % of 480 V is lost on some twenty metres: below them it passes.
    const lineUp = site({ length_m: 2, lengthMost_m: 50 });
    const unknowns = await decidingUnknowns(lineUp);
    expect(told(unknowns)).toEqual([['F', 'length_m', ['feeder-drop fail pass']]]);
    const [first] = unknowns;
    const turn = first?.turns[0];
    if (!first || typeof turn?.at !== 'number') throw new Error('no turn');
    // To 0.2 % of the span, on its side of the turn.
    expect(verdictAt(lineUp, first, 'feeder-drop', turn.at)).toBe('pass');
    expect(verdictAt(lineUp, first, 'feeder-drop', turn.at + 0.002 * 48)).toBe('fail');
    // How far from what is taken, of the whole span.
    expect(first.distance).toBeCloseTo((50 - turn.at) / 48, 9);
    expect(turn.finding).toMatchObject({ check: 'feeder-drop', title: expect.any(String), subject: { tag: 'F' } });
    expect(Object.keys(turn.finding)).toEqual(['id', 'check', 'title', 'subject']);
  });

  it('is looked for to both sides of what is taken', async () => {
    // 30 kA assumed, so 15 to 60 kA: the rating of 22 kA holds against less.
    const lineUp = assumed(site({ length_m: 1 }), 'S', 'faultCurrent_A');
    const [first] = await decidingUnknowns(lineUp);
    const turn = first?.turns.find(({ finding }) => finding.check === 'fault-rating');
    if (!first || typeof turn?.at !== 'number') throw new Error('no turn');
    expect([turn.from, turn.to]).toEqual(['fail', 'pass']);
    expect([verdictAt(lineUp, first, 'fault-rating', turn.at), verdictAt(lineUp, first, 'fault-rating', turn.at + 90)]).toEqual([
      'pass',
      'fail',
    ]);
    const roomy = assumed(site({ length_m: 1 }, { faultRating_A: 35_000 }), 'S', 'faultCurrent_A');
    const [up] = await decidingUnknowns(roomy);
    const above = up?.turns.find(({ finding }) => finding.check === 'fault-rating');
    if (!up || typeof above?.at !== 'number') throw new Error('no turn');
    expect([above.from, above.to, above.at > 30_000]).toEqual(['pass', 'fail', true]);
    expect([verdictAt(roomy, up, 'fault-rating', above.at), verdictAt(roomy, up, 'fault-rating', above.at - 90)]).toEqual(['fail', 'pass']);
  });

  it('comes before those that are farther from a turn, and its nearest turn first', async () => {
    const lineUp = assumed(site({ length_m: 2, lengthMost_m: 50 }), 'S', 'faultCurrent_A');
    const unknowns = await decidingUnknowns(lineUp);
    const distances = unknowns.map(({ distance }) => distance);
    expect(distances).toEqual([...distances].sort((a, b) => a - b));
    for (const { turns, now, span } of unknowns) {
      if ('answers' in span || typeof now !== 'number') continue;
      const far = turns.map(({ at }) => Math.abs(Number(at) - now));
      expect(far).toEqual([...far].sort((a, b) => a - b));
    }
  });
});

describe('in which order', () => {
  it('the unknown nearest to a turn comes first, whatever part it is of', async () => {
    // A tenth too long for 1 %; a power factor lower by a quarter of what it may be would do as well.
    const unknowns = await decidingUnknowns(site({ length_m: 0.5, lengthMost_m: 27 }, { inputPowerFactor: null, faultRating_A: 65_000 }));
    expect(unknowns.map(({ tag, field }) => [tag, field])).toEqual([
      ['F', 'length_m'],
      ['D', 'inputPowerFactor'],
    ]);
    const [near, far] = unknowns.map(({ distance }) => distance);
    expect(near).toBeLessThan(far ?? 0);
  });

  it('of one unknown the nearest turn comes first, whichever side it is on', async () => {
    const lineUp = site({ length_m: 10, lengthOrigin: 'estimated' }, { faultRating_A: 6000, 'manual.inputVoltageLeast_pct': 99.52 });
    const [length] = await decidingUnknowns(lineUp);
    expect(length?.turns.map(({ finding, at }) => [finding.check, Number(at) > 10])).toEqual([
      ['feeder-drop', true],
      ['fault-rating', false],
    ]);
  });
});

describe('an answer', () => {
  it('is told with the first other answer that turns a verdict, and is no way off', async () => {
    const lineUp = assumed(site({ 'insulation.type': 'THHN', 'installation.moisture': 'dry' }), 'F', 'installation.moisture');
    const unknowns = await decidingUnknowns(lineUp);
    const moisture = unknowns.find(({ field }) => field === 'installation.moisture');
    const turn = moisture?.turns.find(({ finding }) => finding.check === 'insulation-moisture');
    // THHN is for dry and damp places (NEC Table 310.4).
    expect([moisture?.distance, turn?.at, turn?.from, turn?.to]).toEqual([0, 'wet', 'pass', 'fail']);
    expect(unknowns[0]?.distance).toBe(0);
  });
});
