import { describe, expect, it } from 'vitest';
import { applyFix, decidingUnknowns, FIELDS, type LineUp, review, startFromFive } from '../../../engine/index.ts';
import { inSteel, LineUpBuilder, shielded } from '../lineUpBuilder.ts';

const marks = { box: 'metal', terminalTemperature_C: 75, terminalMetal: 'copper-aluminium' } as const;
/** A short lead, so that the rise time decides the peak, of which only a range of length is known. */
const site = (lead: object, drive: object = {}): LineUp =>
  new LineUpBuilder({ title: 'one run' })
    .part('supply', { tag: 'S-1', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 30_000, xOverR: 8, earthing: 'solid-wye' })
    .cable(inSteel('3 AWG', 60, { tag: 'F-1' }))
    .part('drive', {
      tag: 'VFD-1',
      ratedVoltage_V: 480,
      inputCurrent_A: 72,
      outputCurrent_A: 90,
      inputPowerFactor: 0.9,
      ...marks,
      ...drive,
    })
    .cable({ ...shielded('2 AWG', 40, { tag: 'W-1' }), ...lead })
    .part('motor', {
      tag: 'M-1',
      ratedPower_W: 44_742,
      ratedVoltage_V: 460,
      ratedFrequency_Hz: 60,
      ratedCurrent_A: 75,
      powerFactor: 0.86,
      insulation: 'mg1-part-31',
      ...marks,
    })
    .build();

describe('which unknown matters', () => {
  it('is told with the value at which the verdict turns: on this side of it the one, on that side the other', async () => {
    const lineUp = site({ length_m: 100, lengthMost_m: 600 }, { riseTime_s: 0.15e-6 });
    const first = (await decidingUnknowns(lineUp)).find(({ field }) => field === 'length_m');
    expect(first).toMatchObject({ tag: 'W-1', because: 'range', now: 600, ask: 'installer' });
    const drop = first?.turns.find(({ finding }) => finding.check === 'lead-drop');
    if (!first || typeof drop?.at !== 'number') throw new Error('no turn');
    const verdictAt = (length_m: number) => {
      const edits = [
        { id: first.id, path: 'length_m', value: length_m },
        { id: first.id, path: 'lengthMost_m', value: null },
      ];
      return review(applyFix(lineUp, { label: '', edits })).findings.find(({ id }) => id === drop.finding.id)?.verdict;
    };
    // Within the fineness of the search: 0.2 % of the 500 m.
    expect([verdictAt(drop.at), verdictAt(drop.at + 1)]).toEqual([drop.to, drop.from]);
  });

  it('names who usually knows it, for everything it names', async () => {
    const five = startFromFive({ power_W: 45_000, voltage_V: 480, length_m: 64, place: 'damp', basis: 'us' });
    const unknowns = await decidingUnknowns(five);
    expect(unknowns.length).toBeGreaterThan(3);
    for (const { field, ask, id } of unknowns) {
      const part = [...five.elements, ...five.cables].find((each) => each.id === id);
      expect(FIELDS[part?.kind === 'link' ? 'cable' : (part?.kind ?? 'cable')].find(({ path }) => path === field)?.ask).toBe(ask);
    }
  });

  it('comes nearest first, and only where it decides something', async () => {
    const unknowns = await decidingUnknowns(site({ length_m: 30, lengthMost_m: 400 }));
    const distances = unknowns.map(({ distance }) => distance);
    expect(distances).toEqual([...distances].sort((a, b) => a - b));
    expect(unknowns.every(({ turns }) => turns.length > 0)).toBe(true);
  });

  it('is none where everything is given and measured', async () => {
    const sure = site({ length_m: 12 }, { riseTime_s: 0.15e-6, carrier_Hz: 4000, outputRatio_pct: 100, dcChoke: 'fitted' });
    const known = {
      ...sure,
      elements: sure.elements.map((each) => (each.kind === 'supply' ? { ...each, voltageLeast_pct: 95, voltageMost_pct: 105 } : each)),
    };
    expect(await decidingUnknowns(known)).toEqual([]);
  });

  it('a winding that is not known is asked of the motor supplier', async () => {
    const lineUp = site({ length_m: 60 }, { riseTime_s: 0.1e-6 });
    const blank = {
      ...lineUp,
      elements: lineUp.elements.map((each) => (each.kind === 'motor' ? { ...each, insulation: undefined } : each)),
    };
    const winding = (await decidingUnknowns(blank)).find(({ field }) => field === 'insulation');
    expect(winding).toMatchObject({ tag: 'M-1', because: 'not given', now: 'mg1-part-30', ask: 'motor supplier', distance: 0 });
    expect(winding?.turns.map(({ finding }) => finding.check)).toContain('motor-peak-voltage');
  });
});
