import { describe, expect, it } from 'vitest';
import { applyFix, type Fix, type FixPreview, type LineUp, previewFix, proposeFixes, review } from '../../../engine/index.ts';
import { resizing } from '../../../engine/sizing/choices.ts';
import { feet, horsepower, LineUpBuilder } from '../lineUpBuilder.ts';
import { broken, oneLead } from './oneLead.ts';
import { readExample } from './readExample.ts';

/** A long lead in a pipe that just holds it: every check that a size, a filter or a carrier moves has something to say of it. */
const marks = {
  box: 'metal',
  terminalTemperature_C: 75,
  terminalMetal: 'copper-aluminium',
  terminalSmallest: '14 AWG',
  terminalLargest: '4 AWG',
  terminalsPerPhase: 1,
} as const;
const laid = {
  insulation: { type: 'THHN', concentricity_pct: 95 },
  construction: 'singles',
  grounds: { count: 1, size: '10 AWG', metal: 'copper', arrangement: 'single' },
} as const;
const site = (): LineUp =>
  new LineUpBuilder({ title: 'long lead' })
    .part('supply', { tag: 'S-1', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 20_000, xOverR: 6, earthing: 'solid-wye' })
    .part('disconnect', { tag: 'CB-1', device: 'breaker', tripCurrent_A: 30, ratedCurrent_A: 60, ...marks })
    .cable({
      ...laid,
      tag: 'F-1',
      conductor: { size: '10 AWG', metal: 'copper', sets: 1 },
      length_m: feet(40),
      from: { landing: 'full', groundsLanded: 1 },
      to: { landing: 'full', groundsLanded: 1 },
      installation: { raceway: 'steel-conduit', racewaySize: '3/4', ambient_C: 30, loadedConductors: 3, moisture: 'damp' },
    })
    .part('drive', {
      tag: 'VFD-1',
      ratedVoltage_V: 480,
      inputCurrent_A: 16,
      // With 14 A of motor and about 5 A of charging, √(14² + 5²) = 14.9 A: over its rating.
      outputCurrent_A: 14.4,
      inputPowerFactor: 0.9,
      riseTime_s: 0.1e-6,
      carrier_Hz: 12_000,
      manual: { lengthShielded_m: 150, lengthUnshielded_m: 300 },
      ...marks,
    })
    .cable({
      ...laid,
      tag: 'W-1',
      conductor: { size: '12 AWG', metal: 'copper', sets: 1 },
      length_m: feet(600),
      from: { landing: 'full', groundsLanded: 1 },
      to: { landing: 'full', groundsLanded: 1 },
      installation: { raceway: 'plastic-conduit', racewaySize: '1/2', ambient_C: 30, loadedConductors: 3, moisture: 'wet' },
    })
    .part('motor', {
      tag: 'M-1',
      ratedPower_W: horsepower(10),
      ratedVoltage_V: 460,
      ratedFrequency_Hz: 60,
      ratedCurrent_A: 14,
      powerFactor: 0.85,
      insulation: 'mg1-part-30',
      ...marks,
    })
    .build();

const lineUp = site();
const before = review(lineUp);
const lead = lineUp.cables.find(({ tag }) => tag === 'W-1');
if (!lead) throw new Error('no lead');
const preview = (fix: Fix): FixPreview => previewFix(lineUp, fix, before, review);
type List = 'better' | 'worse' | 'asked' | 'moreRoom' | 'lessRoom';
const checks = (seen: FixPreview, ...lists: readonly List[]): readonly string[] =>
  lists.flatMap((list) => seen[list].map(({ before: was, after }) => (after ?? was)?.check ?? ''));
const HELPS = ['better', 'moreRoom'] as const;
const HURTS = ['worse', 'lessRoom'] as const;
/** Whose verdict and margin stay. */
const untouched = (seen: FixPreview, check: string): boolean => !checks(seen, 'better', 'worse', 'asked').includes(check);

const finding = (check: string, of = before) => of.findings.find((each) => each.check === check && each.verdict === 'fail')?.id ?? '';
const proposed = async (check: string, kind: string) => (await proposeFixes(lineUp, finding(check))).find(({ kinds }) => kinds[0] === kind);

describe('what a change moves besides', () => {
  it('size up: helps drop and ampacity, hurts charging, terminals and fill, does nothing for the peak, the shield and moisture', () => {
    const seen = preview({ label: 'size up', edits: resizing(lead, { size: '2 AWG', sets: 1 }) });
    for (const check of ['lead-drop', 'lead-ampacity']) expect(checks(seen, ...HELPS)).toContain(check);
    for (const check of ['charging-current', 'terminal-range', 'conduit-fill']) expect(checks(seen, ...HURTS)).toContain(check);
    expect(checks(seen, 'worse')).toEqual(expect.arrayContaining(['terminal-range', 'conduit-fill']));
    for (const check of ['motor-peak-voltage', 'shield-present', 'insulation-moisture']) expect(untouched(seen, check)).toBe(true);
  });

  it('an output reactor: helps charging, and the peak in part; hurts the drop', () => {
    const seen = preview({
      label: 'reactor',
      edits: [],
      inserts: [
        {
          kind: 'reactor',
          values: { impedance_pct: 3, ratedCurrent_A: 15, ratedVoltage_V: 480 },
          cable: lead.id,
          end: 'from',
          port: 'load',
        },
      ],
    });
    expect(checks(seen, 'better')).toContain('charging-current');
    // Still over the 1000 V of MG 1 Part 30, by less.
    expect(checks(seen, 'moreRoom')).toContain('motor-peak-voltage');
    expect(checks(seen, ...HURTS)).toContain('lead-drop');
  });

  it('a coil is no cure where the motor alone draws more than the drive gives, 50 A of 45 A: only a larger drive is proposed', async () => {
    const drawn = broken(oneLead(), { 'VFD-1': { carrier_Hz: 16_000, outputCurrent_A: 45 }, 'W-1A': { length_m: 140 } });
    const finding = review(drawn).findings.find(({ check }) => check === 'charging-current');
    const proposals = await proposeFixes(drawn, finding?.id ?? '');
    expect([finding?.verdict, proposals.map(({ kinds }) => kinds)]).toEqual(['caution', [['larger drive']]]);
  });

  it('a dV/dt filter whose figures are open: asks for the peak, helps charging, hurts the drop', async () => {
    const proposal = await proposed('motor-peak-voltage', 'dV/dt filter');
    if (!proposal) throw new Error('not proposed');
    expect(proposal.asksMaker).toBe(true);
    expect(checks(proposal, 'asked')).toContain('motor-peak-voltage');
    expect(checks(proposal, 'better')).toContain('charging-current');
    expect(checks(proposal, ...HURTS)).toContain('lead-drop');
    expect(untouched(proposal, 'insulation-moisture')).toBe(true);
  });

  it('a terminator at the motor is not credited to the charging current, nor to moisture', async () => {
    const proposal = await proposed('motor-peak-voltage', 'terminator');
    if (!proposal) throw new Error('not proposed');
    expect(checks(proposal, 'better', 'moreRoom')).not.toContain('charging-current');
    expect(untouched(proposal, 'insulation-moisture')).toBe(true);
  });

  it('a shield: helps the shield, hurts charging', () => {
    const seen = preview({
      label: 'shield',
      edits: [
        { id: lead.id, path: 'construction', value: 'foil-and-braid' },
        { id: lead.id, path: 'installation.raceway', value: 'tray' },
      ],
    });
    expect(checks(seen, 'better')).toContain('shield-present');
    expect(checks(seen, ...HURTS)).toContain('charging-current');
  });

  it('a lower carrier: helps charging and leaves the peak of one edge', () => {
    const drive = lineUp.elements.find(({ tag }) => tag === 'VFD-1')?.id ?? '';
    const seen = preview({ label: 'carrier', edits: [{ id: drive, path: 'carrier_Hz', value: 2000 }] });
    expect(checks(seen, ...HELPS)).toContain('charging-current');
    expect(untouched(seen, 'lead-drop')).toBe(true);
  });
});

describe('what is proposed', () => {
  it('helps its finding, whatever else it does', async () => {
    for (const check of ['motor-peak-voltage', 'insulation-moisture'])
      for (const { fix, asksMaker } of await proposeFixes(lineUp, finding(check))) {
        const now = review(applyFix(lineUp, fix)).findings.find(({ id }) => id === finding(check))?.verdict;
        expect(now === undefined || now !== 'fail').toBe(true);
        if (!asksMaker) expect(now).not.toBe('open');
      }
  });

  it('does not offer thicker wire against a peak, nor a filter against water', async () => {
    const kinds = async (check: string) => (await proposeFixes(lineUp, finding(check))).flatMap((each) => each.kinds);
    expect(await kinds('motor-peak-voltage')).not.toContain('size up');
    expect(await kinds('insulation-moisture')).toEqual(['other insulation']);
  });

  it('is a shorter route against a drop, and not where a quarter of the way is still too long', async () => {
    const drop = before.findings.find(({ check, verdict }) => check === 'lead-drop' && verdict !== 'pass');
    const shorter = (await proposeFixes(lineUp, drop?.id ?? '')).find(({ kinds }) => kinds[0] === 'shorter route');
    if (!shorter) throw new Error('not proposed');
    expect(checks(shorter, 'worse')).toEqual([]);
    expect(checks(shorter, ...HELPS)).toEqual(expect.arrayContaining(['lead-drop', 'charging-current']));
    expect(shorter.fix.edits).toMatchObject([{ id: lead.id, path: 'length_m' }]);
    // 46 m of lead: its edge of 0.1 µs is reflected in full from 9.4 m on (1.25 × 0.1 µs × 150 m/µs / 2).
    expect(await proposed('motor-peak-voltage', 'shorter route')).toBeUndefined();
    expect(await proposed('insulation-moisture', 'shorter route')).toBeUndefined();
  });

  it('is a sine filter, of which its maker is asked; it costs volts and asks for a carrier, and does not dry the pipe', async () => {
    const proposal = await proposed('motor-peak-voltage', 'sine filter');
    if (!proposal) throw new Error('not proposed');
    expect(proposal.asksMaker).toBe(true);
    expect(checks(proposal, ...HURTS)).toContain('lead-drop');
    expect(checks(proposal, 'asked')).toContain('carrier-window');
    expect(untouched(proposal, 'insulation-moisture')).toBe(true);
  });

  it('is a lower tap where a transformer feeds a drive too few volts', async () => {
    const fed = new LineUpBuilder({ title: 'low volts' })
      .part('supply', { tag: 'S-1', voltage_V: 4160, voltageLeast_pct: 100, frequency_Hz: 60, faultCurrent_A: 10_000, xOverR: 8 })
      .part('transformer', {
        tag: 'T-1',
        ratedPower_VA: 75_000,
        primaryVoltage_V: 4160,
        secondaryVoltage_V: 480,
        impedance_pct: 5,
        xOverR: 3,
        secondaryEarthing: 'solid-wye',
        ...marks,
      })
      .cable({ ...laid, tag: 'F-1', conductor: { size: '6 AWG', metal: 'copper', sets: 1 }, length_m: feet(700) })
      .part('drive', {
        tag: 'VFD-1',
        ratedVoltage_V: 480,
        inputCurrent_A: 60,
        outputCurrent_A: 65,
        inputPowerFactor: 0.9,
        manual: { inputVoltageLeast_pct: 95 },
        ...marks,
      })
      .part('motor', { tag: 'M-1', ratedVoltage_V: 460, ratedFrequency_Hz: 60, ratedCurrent_A: 60, powerFactor: 0.85, ...marks })
      .build();
    const low = review(fed).findings.find(({ check, verdict }) => check === 'feeder-drop' && verdict === 'fail');
    const tap = (await proposeFixes(fed, low?.id ?? '')).find(({ kinds }) => kinds[0] === 'transformer tap');
    expect(tap?.fix.edits[0]).toMatchObject({ path: 'tap_pct' });
    expect(Number(tap?.fix.edits[0]?.value)).toBeLessThan(0);
  });

  it('comes with the least harm first, then the cheapest', async () => {
    const list = await proposeFixes(lineUp, finding('motor-peak-voltage'));
    const order = list.map(({ asksMaker, worse }) => (asksMaker ? 1000 : 0) + worse.length);
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });

  it('is a bond, a metal box or the box elsewhere, where the shield stops, of the worked line-ups', async () => {
    const heron = readExample('heron-weir-pumps');
    const list = await proposeFixes(heron, finding('shield-continuity', review(heron)));
    const kinds = list.map((each) => each.kinds[0]);
    expect(kinds[0]).toBe('as the check proposes');
    expect(new Set(kinds)).toEqual(
      new Set(['as the check proposes', 'metal box', 'disconnect at the drive', 'disconnect ahead of the drive']),
    );
  });

  it('is two changes where no single one helps', async () => {
    const basalt = readExample('basalt-ridge-crusher');
    const id = review(basalt).findings.find(({ check }) => check === 'symmetry')?.id ?? '';
    expect((await proposeFixes(basalt, id)).map(({ kinds }) => kinds)).toContainEqual(['symmetrical grounds', 'bearing protection']);
  });

  it('is nothing for what passes or cannot be judged', async () => {
    const open = before.findings.find(({ verdict }) => verdict === 'open')?.id ?? '';
    expect(open).not.toBe('');
    expect(await proposeFixes(lineUp, open)).toEqual([]);
  });
});

describe('a part put in', () => {
  const reactor: Fix = {
    label: 'reactor',
    edits: [],
    inserts: [{ kind: 'reactor', values: { impedance_pct: 3, box: 'metal' }, cable: lead.id, end: 'from', port: 'load' }],
  };

  it('stands between what the cable was landed on and the cable, with a tag and an id of its own', () => {
    const after = applyFix(lineUp, reactor);
    const part = after.elements.at(-1);
    const link = after.cables.at(-1);
    expect(part).toMatchObject({ kind: 'reactor', tag: 'L-1', provenance: { impedance_pct: { origin: 'assumed' } } });
    expect(link).toMatchObject({
      kind: 'link',
      from: { element: lead.from.element, port: 'load' },
      to: { element: part?.id, port: 'line' },
    });
    expect(after.cables.find(({ id }) => id === lead.id)?.from).toMatchObject({ element: part?.id, port: 'load', landing: 'full' });
    const ids = [...after.elements, ...after.cables].map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('twice makes two of them', () => {
    const after = applyFix(lineUp, { ...reactor, inserts: [...(reactor.inserts ?? []), ...(reactor.inserts ?? [])] });
    expect(after.elements.slice(-2).map(({ tag }) => tag)).toEqual(['L-1', 'L-2']);
    expect(review(after).findings.filter(({ check }) => check === 'topology')).toEqual([]);
  });

  it('is judged as before once it is taken out again', () => {
    const after = applyFix(lineUp, reactor);
    const out = applyFix(after, { label: 'out', edits: [], takesOut: [after.elements.at(-1)?.id ?? ''] });
    expect(review(out).findings).toEqual(before.findings);
  });

  it('into a cable that is gone is none', () => {
    const bare = { ...lineUp, cables: [] };
    expect(applyFix(bare, reactor).elements).toEqual(lineUp.elements);
  });
});
