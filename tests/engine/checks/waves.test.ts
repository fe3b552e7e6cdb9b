import { describe, expect, it } from 'vitest';
import { setValue } from '../../../editor/store/edits.ts';
import { INCEPTION } from '../../../engine/catalog/inception.ts';
import { createReviewer, type Finding, type LineUp, load, review, save } from '../../../engine/index.ts';
import { travellingWaves } from '../../../engine/physics/wave/characteristics.ts';
import { deckOf } from '../../reference/deckOf.ts';
import { expectClose } from '../../reference/expectClose.ts';
import { hasNgspice, simulate } from '../../reference/ngspice.ts';
import { horsepower, LineUpBuilder, shielded } from '../lineUpBuilder.ts';

/** The wave of whole line-ups: tees, cables of two kinds, filters by their parts, limits by curve, pulses, inception, common mode. */

const idOf = (lineUp: LineUp, tag: string): string => [...lineUp.elements, ...lineUp.cables].find((each) => each.tag === tag)?.id ?? '';
type Change = readonly [tag: string, path: string, value: unknown];
const changed = (lineUp: LineUp, ...changes: readonly Change[]): LineUp =>
  changes.reduce((before, [tag, path, value]) => setValue(before, idOf(before, tag), path, value), lineUp);
const found = (lineUp: LineUp, check: string, tag: string, ending = ''): Finding | undefined =>
  review(lineUp).findings.find(
    (each) => each.check === check && each.subject.tag === tag && (ending === '' ? !each.id.endsWith('/pulses') : each.id.endsWith(ending)),
  );
const peak = (lineUp: LineUp, tag = 'M') => found(lineUp, 'motor-peak-voltage', tag);

const motor = (tag: string, hp = 10) => ({
  tag,
  ratedPower_W: horsepower(hp),
  ratedVoltage_V: 460,
  ratedFrequency_Hz: 60,
  ratedCurrent_A: 1.3 * hp,
  powerFactor: 0.85,
  insulation: 'mg1-part-31' as const,
});
const start = (voltage_V = 480, drive = {}) =>
  new LineUpBuilder({ title: 'waves' })
    .part('supply', { tag: 'S', voltage_V, frequency_Hz: 60, faultCurrent_A: 20_000, earthing: 'solid-wye' })
    .part('drive', {
      tag: 'D',
      ratedVoltage_V: voltage_V,
      inputCurrent_A: 60,
      outputCurrent_A: 60,
      riseTime_s: 0.1e-6,
      carrier_Hz: 4000,
      ...drive,
    });
const BUS = Math.SQRT2 * 480;
const plain = start()
  .cable(shielded('12 AWG', 300, { tag: 'W' }))
  .part('motor', motor('M'))
  .build();

describe('one cable, one motor', () => {
  it('the band holds the central value, and says how well it is known', () => {
    const said = peak(plain);
    expect(said?.band?.low).toBeLessThan(said?.value ?? 0);
    expect(said?.band?.high).toBeGreaterThan(said?.value ?? Number.POSITIVE_INFINITY);
    // On a long lead 8 % for small motors (table of confidences).
    expectClose((said?.band?.low ?? 0) / (said?.value ?? 1), 0.92, { absolute: 0.001 }, 'spread of small motors');
    expect(said?.band?.high).toBeLessThanOrEqual(2 * BUS * (1 + 1e-9));
    expect(said?.band?.confidence).toBe('good');
    expect(review(plain).runs[0]).toMatchObject({ peak_V: said?.value, peakLow_V: said?.band?.low, peakHigh_V: said?.band?.high });
  });
  it('Part 31 allows 3.1 × 460 = 1426 V (D. Bogh, J. Coffee, G. Stone, PCIC-2004-27)', () =>
    expectClose(peak(plain)?.limit ?? 0, 1426, { relative: 1e-6 }, 'paper'));
  it('two pieces of the same cable are one cable', () => {
    const two = start()
      .cable(shielded('12 AWG', 100, { tag: 'W' }))
      .part('junction', { tag: 'J' })
      .cable(shielded('12 AWG', 200, { tag: 'V' }))
      .part('motor', motor('M'))
      .build();
    expectClose(peak(two)?.value ?? 0, peak(plain)?.value ?? 1, { relative: 1e-9 }, 'the same length in one piece');
  });
  it('what the data sheet says goes before what is worked out', () => {
    const entered = changed(plain, ['W', 'wave.impedance_ohm', 80], ['W', 'wave.velocity_mPerS', 150e6], ['M', 'surgeImpedance_ohm', 1500]);
    const said = peak(entered);
    expect(said?.working.join(' ')).toContain('(1500 − 80) / (1500 + 80)');
    expect(said?.assumptions.map((each) => each.what)).toEqual(['front end of D']);
    // 1 + Γ = 1.8987 without loss (S01); this line loses a little.
    expect((said?.value ?? 0) / BUS).toBeLessThan(1.8987);
    expect((said?.value ?? 0) / BUS).toBeGreaterThan(1.82);
  });
  it('a range of lengths is judged at both ends, and the worse one holds', () => {
    const ranged = changed(plain, ['W', 'length_m', 20], ['W', 'lengthMost_m', 150]);
    const [short, long] = [20, 150].map((metres) => peak(changed(plain, ['W', 'length_m', metres]))?.value ?? 0) as [number, number];
    expectClose(peak(ranged)?.value ?? 0, Math.max(short, long), { relative: 1e-9 }, 'the ends by themselves');
    expect(short).toBeGreaterThan(long);
  });
  it('an active front end raises the bus by 10 % unless it is said, and the peak with it', () => {
    const active = changed(plain, ['D', 'frontEnd', 'active']);
    expectClose((peak(active)?.value ?? 0) / (peak(plain)?.value ?? 1), 1.1, { relative: 1e-6 }, 'common practice');
    expect(peak(active)?.assumptions.some((each) => /above the crest/.test(each.what))).toBe(true);
    expectClose(
      (peak(changed(active, ['D', 'busRaise_pct', 20]))?.value ?? 0) / (peak(plain)?.value ?? 1),
      1.2,
      { relative: 1e-6 },
      'entered',
    );
  });
  it.each([
    ['W', 'construction'],
    ['W', 'conductor.size'],
    ['W', 'conductor.sets'],
    ['W', 'insulation.type'],
    ['M', 'ratedPower_W'],
  ])('without the %s’s %s the peak is no lower', (tag, path) =>
    expect(peak(changed(plain, ['M', 'ratedPower_W', horsepower(300)], [tag, path, undefined]))?.value ?? 0).toBeGreaterThanOrEqual(
      peak(changed(plain, ['M', 'ratedPower_W', horsepower(300)]))?.value ?? Number.POSITIVE_INFINITY,
    ),
  );
  it('a front end that is not known does not look better than one that is', () => {
    const near = (frontEnd: string | undefined) =>
      peak(
        changed(plain, ['D', 'frontEnd', frontEnd], ['M', 'insulation', 'entered'], ['M', 'peakLimit_V', 1.05 * (peak(plain)?.value ?? 0)]),
      )?.verdict;
    expect([near('diode'), near('active'), near(undefined)]).toEqual(['caution', 'fail', 'open']);
  });
  it('a wall that gives no line is asked for, not computed with', () => {
    const odd = peak(changed(plain, ['W', 'insulation.wall_mm', 1e-9]));
    expect([odd?.verdict, odd?.missing.map((each) => each.field)]).toEqual(['open', ['insulation.wall_mm']]);
  });
  it.each([
    ['wave.impedance_ohm', 0],
    ['wave.velocity_mPerS', 4e8],
    ['wave.toShield_FPerM', 1],
    ['length_m', -1],
  ])('a file with %s = %d is refused with its place', (path, value) => {
    const loaded = load(save(changed(plain, ['W', path, value])), 'odd.json');
    expect(loaded.ok).toBe(false);
    expect(loaded.ok ? '' : loaded.where).toContain(path.split('.').at(-1));
  });
  it('a rise time of nothing is refused', () => expect(load(save(changed(plain, ['D', 'riseTime_s', 0])), 'odd.json').ok).toBe(false));
});

describe('limits', () => {
  const curve = [
    { rise_s: 0.05e-6, peak_V: 1000 },
    { rise_s: 0.2e-6, peak_V: 1600 },
  ];
  const on = (more: readonly Change[]) => peak(changed(plain, ['M', 'insulation', 'curve'], ...more));
  it('a curve is read straight between its points at the rise time of the motor', () => {
    const said = on([['M', 'peakCurve', curve]]);
    const rise_s = review(plain).runs[0]?.riseAtMotor_s ?? 0;
    expectClose(said?.limit ?? 0, 1000 + (600 * (rise_s - 0.05e-6)) / 0.15e-6, { relative: 1e-6 }, 'by hand');
    expect(said?.authority).toBe('manual');
  });
  it('nothing is made up for edges faster than its first point', () => {
    const said = on([['M', 'peakCurve', [{ rise_s: 5e-6, peak_V: 1600 }]]]);
    expect([said?.verdict, /curve begins at/.test(said?.text ?? '')]).toEqual(['open', true]);
  });
  it('a curve without points is asked for', () => expect(on([])?.verdict).toBe('open'));
  it('a slower edge than its last point is no worse than that', () =>
    expect(on([['M', 'peakCurve', [{ rise_s: 0.01e-6, peak_V: 1300 }]]])?.limit).toBe(1300));
  it.each([
    ['ivic-a', 683],
    ['ivic-b', 931.5],
    ['ivic-c', 1242],
    ['ivic-d', 1552.5],
  ])('%s: overshoot × 1.35 × 460 = %d V (IEC 60034-18-41, from memory)', (category, volts) =>
    expectClose(peak(changed(plain, ['M', 'insulation', category]))?.limit ?? 0, volts, { relative: 0.001 }, 'table'),
  );
  it('a maker who asks for slower edges fails a fast one; the band of 40 % is a caution', () => {
    const entered = (riseLimit_s: number) =>
      peak(changed(plain, ['M', 'insulation', 'entered'], ['M', 'peakLimit_V', 2000], ['M', 'riseLimit_s', riseLimit_s]));
    expect([entered(5e-6)?.verdict, entered(0.13e-6)?.verdict, entered(0.02e-6)?.verdict]).toEqual(['fail', 'caution', 'pass']);
  });
  it('edges faster than Part 31 is meant for are a caution', () => {
    const fast = peak(changed(plain, ['D', 'riseTime_s', 0.02e-6], ['M', 'ratedVoltage_V', 500]));
    expect([fast?.verdict, /holds for 0.1 µs and slower/.test(fast?.text ?? '')]).toEqual(['caution', true]);
  });
});

describe('pulses that meet the last ring', () => {
  const at690 = start(690)
    .cable(shielded('500 kcmil', 164, { tag: 'W' }))
    .part('motor', { ...motor('M', 700), ratedVoltage_V: 690, insulation: 'ivic-d' as const })
    .build();
  it('690 V, 532 kW, 50 m: 2030 V measured lies in the band that is called possible (a drive maker’s published design guide)', () => {
    const said = found(at690, 'motor-peak-voltage', 'M', '/pulses');
    // The measurement is of 1.35 × line; the band of the unloaded bus begins a little above it.
    expectClose(said?.band?.low ?? 0, 2030, { relative: 0.2 }, 'P06');
    expect(said?.band?.high).toBeGreaterThan(2030);
  });
  it('not known how far apart the edges are: a note, never a pass; far enough apart: a pass', () => {
    const ringOut_s = review(plain).runs[0]?.ringOut_s ?? 0;
    const of = (least: number | undefined) =>
      found(changed(plain, ['D', 'pulseLeast_s', least]), 'motor-peak-voltage', 'M', '/pulses')?.verdict;
    expect([of(undefined), of(ringOut_s / 2), of(ringOut_s * 2)]).toEqual(['note', 'note', 'pass']);
  });
});

describe('filters', () => {
  const behind = (values: object) =>
    start()
      .part('filter', { tag: 'F', ...values })
      .cable(shielded('12 AWG', 300, { tag: 'W' }))
      .part('motor', motor('M'))
      .build();
  it('a sine filter without its maker’s figure is open, and a usual 1.5 × line is shown: 600 V on 400 V', () => {
    const site = new LineUpBuilder({ title: 'sine', basis: 'iec' })
      .part('supply', { tag: 'S', voltage_V: 400, frequency_Hz: 50, faultCurrent_A: 20_000, earthing: 'tn' })
      .part('drive', { tag: 'D', ratedVoltage_V: 400, inputCurrent_A: 60, outputCurrent_A: 60, riseTime_s: 0.1e-6 })
      .part('filter', { tag: 'F', role: 'sine' })
      .cable(shielded('12 AWG', 300, { tag: 'W' }))
      .part('motor', { ...motor('M'), ratedVoltage_V: 400 })
      .build();
    expect([peak(site)?.verdict, peak(site)?.text.includes('600 V')]).toEqual(['open', true]);
  });
  it('a dV/dt filter of usual proportions keeps the peak at 1.2 to 1.6 times the bus and slows the edge to microseconds', () => {
    const site = behind({ role: 'dvdt', inductance_H: 100e-6, acrossInductor_ohm: 150, capacitance_F: 30e-9, resistance_ohm: 10 });
    const ratio = (peak(site)?.value ?? 0) / BUS;
    expect(ratio).toBeGreaterThan(1.2);
    expect(ratio).toBeLessThan(1.6);
    expect(review(site).runs[0]?.riseAtMotor_s).toBeGreaterThan(0.8e-6);
    // To 90 % of the peak, which is later than 90 % of the bus (2.2 µs in S08).
    expect(review(site).runs[0]?.riseAtMotor_s).toBeLessThan(5e-6);
  });
  it('without parts or figure it is open; its maker’s figure goes before its parts', () => {
    expect(peak(behind({ role: 'dvdt' }))?.verdict).toBe('open');
    expect(peak(behind({ role: 'dvdt', inductance_H: 100e-6, capacitance_F: 30e-9, motorPeak_V: 900, motorRise_s: 1e-6 }))?.value).toBe(
      900,
    );
  });
  it('a maker’s peak without his rise time is open where the limit speaks of the edge, and his sine filter has none', () => {
    const said = peak(behind({ role: 'dvdt', motorPeak_V: 900 }));
    expect([said?.verdict, said?.missing.map((each) => each.field)]).toEqual(['open', ['motorRise_s']]);
    expect(peak(behind({ role: 'sine', motorPeak_V: 900 }))?.verdict).toBe('pass');
  });
  it('a terminator is credited to the motor and not to the cable', () => {
    const site = start()
      .cable(shielded('12 AWG', 300, { tag: 'W' }))
      .part('filter', { tag: 'F', role: 'terminator', motorPeak_V: 750 })
      .part('motor', motor('M'))
      .build();
    expect(found(site, 'insulation-inception', 'W')?.working.join(' ')).toContain(`stress ${Math.round(2 * BUS)} V`);
  });
  it('an R-C terminator with R = Zd holds the peak near the bus; without its parts it is open', () => {
    const site = start()
      .cable(shielded('12 AWG', 300, { tag: 'W' }))
      .part('filter', { tag: 'F', role: 'terminator', resistance_ohm: 28, capacitance_F: 0.4e-6 })
      .part('motor', motor('M'))
      .build();
    const ratio = (peak(site)?.value ?? 0) / BUS;
    // Matched: no overshoot but the charging of its capacitor; up to 1.3 times the bus is common practice.
    expect(ratio).toBeGreaterThanOrEqual(1);
    expect(ratio).toBeLessThan(1.3);
    const blank = peak(changed(site, ['F', 'capacitance_F', undefined]));
    expect([blank?.verdict, blank?.missing.map((each) => each.field)]).toEqual([
      'open',
      ['motorPeak_V', 'resistance_ohm', 'capacitance_F'],
    ]);
  });
  it('a reactor midway is left to its maker', () => {
    const site = start()
      .cable(shielded('12 AWG', 100, { tag: 'V' }))
      .part('reactor', { tag: 'L', impedance_pct: 3, ratedVoltage_V: 460, ratedCurrent_A: 14 })
      .cable(shielded('12 AWG', 200, { tag: 'W' }))
      .part('motor', motor('M'))
      .build();
    expect(peak(site)?.verdict).toBe('open');
  });
});

describe('several motors and cables of two kinds', () => {
  const tee = start()
    .cable(shielded('4 AWG', 100, { tag: 'W' }))
    .part('junction', { tag: 'J' })
    .cable(shielded('12 AWG', 60, { tag: 'A' }))
    .part('motor', motor('M1', 5))
    .from('J')
    .cable(shielded('12 AWG', 160, { tag: 'B' }))
    .part('motor', motor('M2', 5))
    .build();
  const mixed = start()
    .cable({ ...shielded('4 AWG', 100, { tag: 'W' }) })
    .part('junction', { tag: 'J' })
    .cable({ ...shielded('12 AWG', 200, { tag: 'V' }), construction: 'singles' })
    .part('motor', motor('M'))
    .build();

  /** The network a competent person would write down: 150 m/µs, the impedances and motors that the finding names. */
  const ohms = (said: Finding | undefined, tag: string): number =>
    Number(/^(\d+) Ω/.exec(said?.assumptions.find((each) => each.what.includes(tag))?.value ?? '')?.[1]);
  const metre = (ft: number): number => (ft * 0.3048) / 150e6;
  it.skipIf(!hasNgspice)('a tee: each motor’s peak within 4 % of ngspice on the same impedances, lossless', () => {
    const [one, two] = [peak(tee, 'M1'), peak(tee, 'M2')];
    const network = (watch: number) => ({
      lines: [
        { from: 0, to: 1, impedance_ohm: ohms(one, 'of W'), delay_s: metre(100), resistance_ohm: 0 },
        { from: 1, to: 2, impedance_ohm: ohms(one, 'of A'), delay_s: metre(60), resistance_ohm: 0 },
        { from: 1, to: 3, impedance_ohm: ohms(two, 'of B'), delay_s: metre(160), resistance_ohm: 0 },
      ],
      shunts: [
        { node: 2, resistance_ohm: ohms(one, 'of M1') },
        { node: 3, resistance_ohm: ohms(two, 'of M2') },
      ],
      source: [
        [0, 0],
        [125e-9, BUS],
      ] as const,
      watch: [watch],
      until_s: 10 * metre(260) + 0.25e-6,
    });
    for (const [said, node] of [
      [one, 2],
      [two, 3],
    ] as const) {
      const theirs = simulate(deckOf(network(node))).get('vpk') ?? Number.NaN;
      expectClose(travellingWaves(network(node))?.watched[0]?.peak_V ?? 0, theirs, { relative: 0.01 }, 'ngspice, the same network');
      // Losses and rounded impedances are between the review and the deck.
      expectClose(said?.value ?? 0, theirs, { relative: 0.04 }, 'ngspice');
    }
    expect(review(tee).runs.map((run) => run.peak_V)).toEqual([one?.value, two?.value]);
  });
  it('a branch that is not measured leaves all motors of the drive open, naming it', () => {
    const blank = changed(tee, ['B', 'length_m', undefined]);
    expect([peak(blank, 'M1')?.verdict, peak(blank, 'M1')?.missing.map((each) => `${each.tag} ${each.field}`)]).toEqual([
      'open',
      ['B length_m'],
    ]);
  });
  it('motors made anew that say the same keep their peaks when the supply changes', () => {
    const reviewer = createReviewer();
    reviewer.review(tee);
    const other = changed(tee, ['S', 'voltage_V', 470]);
    const anew = { ...other, elements: other.elements.map((each) => (each.kind === 'motor' ? { ...each } : each)) };
    expect(reviewer.review(anew).runs.map((run) => run.peak_V)).toEqual(review(other).runs.map((run) => run.peak_V));
  });
  it('lengths that no one step fits are open, never cut short', () => {
    const said = peak(changed(tee, ['B', 'length_m', 1e9]), 'M2');
    expect([
      said?.verdict,
      said?.missing.map((each) => `${each.tag} ${each.field}`),
      /too far apart to be solved together/.test(said?.text ?? ''),
    ]).toEqual(['open', ['B length_m'], true]);
  });
  it('a small cable behind a large one is a step up for the wave: the peak is higher than on either alone', () => {
    const alone = start()
      .cable({ ...shielded('12 AWG', 300, { tag: 'V' }), construction: 'singles' })
      .part('motor', motor('M'))
      .build();
    expect(peak(mixed)?.value ?? 0).toBeGreaterThan(peak(alone)?.value ?? Number.POSITIVE_INFINITY);
    expect(peak(mixed)?.working.join(' ')).toMatch(/travelling waves on W \d+ Ω, V \d+ Ω/);
  });
});

describe('onset of discharges', () => {
  const pvc = changed(
    plain,
    ['W', 'insulation.type', 'THHN'],
    ['W', 'construction', 'singles'],
    ['W', 'installation.raceway', 'steel-conduit'],
  );
  const onset = (...changes: readonly Change[]) => found(changed(pvc, ...changes), 'insulation-inception', 'W');
  it('15 mil PVC: near when dry, above when damp; wet is less than half of dry (a drive maker’s published wiring guide)', () => {
    expect([onset(['W', 'installation.moisture', 'dry'])?.verdict, onset(['W', 'installation.moisture', 'damp'])?.verdict]).toEqual([
      'note',
      'caution',
    ]);
    expect(INCEPTION.materials.pvc.moist).toBeLessThanOrEqual(0.5);
  });
  it('30 mil of cross-linked insulation at sea level: below even when wet', () => {
    const site = changed(pvc, ['W', 'insulation.type', 'XHHW-2'], ['W', 'installation.moisture', 'wet']);
    expect(found({ ...site, project: { ...site.project, altitude_m: 0 } }, 'insulation-inception', 'W')?.verdict).toBe('pass');
  });
  it('not known whether it is dry: open where that decides', () =>
    expect(onset(['W', 'installation.moisture', undefined])?.verdict).toBe('open'));
  it('altitude lowers it', () => {
    const low = onset(['W', 'installation.moisture', 'dry'])?.limit ?? 0;
    const site = changed(pvc, ['W', 'installation.moisture', 'dry']);
    const high = found({ ...site, project: { ...site.project, altitude_m: 3000 } }, 'insulation-inception', 'W')?.limit ?? 0;
    expect(high).toBeLessThan(low);
  });
  it('never fails: it is an estimate', () =>
    expect(onset(['W', 'insulation.wall_mm', 0.1], ['W', 'installation.moisture', 'wet'])?.verdict).toBe('caution'));
});

describe('common mode', () => {
  const split = (from: object, to: object) =>
    start()
      .cable({ ...shielded('12 AWG', 150, { tag: 'W' }), from: { landing: 'full' }, to: { groundsLanded: 3, ...from } })
      .part('disconnect', { tag: 'X', box: 'plastic' })
      .cable({ ...shielded('12 AWG', 150, { tag: 'V' }), from: { groundsLanded: 3, ...to }, to: { landing: 'full' } })
      .part('motor', motor('M'))
      .build();
  it('a whole shield takes it back; the current is said within a factor of two', () => {
    const said = found(changed(plain, ['W', 'from.landing', 'full'], ['W', 'to.landing', 'full']), 'common-mode', 'M');
    expect(said?.verdict).toBe('pass');
    expectClose((said?.band?.high ?? 0) / (said?.band?.low ?? 1), 4, { relative: 1e-9 }, 'a factor of two either way');
  });
  it('where only the ground wire goes through: the lift of the box, and a share of 1 to 8 % and its bounds', () => {
    const said = found(split({ landing: 'none' }, { landing: 'none' }), 'common-mode', 'X');
    const current = found(split({ landing: 'none' }, { landing: 'none' }), 'common-mode', 'M')?.value ?? 0;
    // L I / tr with 1 to 1.5 µH.
    expectClose(said?.value ?? 0, (Math.sqrt(1.5) * 1e-6 * current) / 0.125e-6, { relative: 1e-6 }, 'by hand');
    expect(said?.text).toMatch(/order of magnitude/);
  });
  it('neither shield nor ground wire: half to all of it leaves', () =>
    expect(found(split({ landing: 'none', groundsLanded: 0 }, { landing: 'none' }), 'common-mode', 'X')?.text).toMatch(/half to all/));
  it('not known whether the ground wire goes through: open', () =>
    expect(found(split({ landing: 'none', groundsLanded: undefined }, { landing: 'none' }), 'common-mode', 'X')?.verdict).toBe('open'));
  it('pigtails in a metal box lift it less', () => {
    const tails = changed(split({ landing: 'pigtail', pigtailLength_mm: 100 }, { landing: 'pigtail', pigtailLength_mm: 100 }), [
      'X',
      'box',
      'metal',
    ]);
    const said = found(tails, 'common-mode', 'X');
    expect(said?.value).toBeLessThan(found(split({ landing: 'none' }, { landing: 'none' }), 'common-mode', 'X')?.value ?? 0);
    expect(said?.value).toBeGreaterThan(0);
  });
});
