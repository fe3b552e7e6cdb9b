import { describe, expect, it } from 'vitest';
import { type Cable, type Element, type LineUp, newLineUp, review, waveformOf } from '../../../engine/index.ts';
import { runPeaks } from '../../../engine/review/waveform.ts';
import { bareCable, barePart as part } from '../bareParts.ts';

/** The wave of one run for its pictures: of a line whose speed is given, so that its lengths and times are known by hand. */

const SPEED = 1.5e8;
const RISE_s = 1e-7;
const lead: Cable = {
  ...bareCable('w', 'd:load', 'm'),
  conductor: { size: '2 AWG', metal: 'copper', sets: 1 },
  insulation: { type: 'XHHW-2' },
  length_m: 60,
  wave: { impedance_ohm: 90, velocity_mPerS: SPEED },
};
const supply = part('supply', 's', { voltage_V: 480 });
const drive = part('drive', 'd', { riseTime_s: RISE_s, frontEnd: 'diode' });
const motor = part('motor', 'm', { ratedVoltage_V: 460, ratedPower_W: 30_000, surgeImpedance_ohm: 900 });
const feeder: Cable = { ...bareCable('f', 's', 'd:line'), kind: 'link' };
const site = (elements: readonly Element[] = [supply, drive, motor], cables: readonly Cable[] = [feeder, lead]): LineUp => ({
  ...newLineUp(),
  elements: [...elements],
  cables: [...cables],
});
const runIn = (lineUp: LineUp) => {
  const [run] = review(lineUp).runs;
  if (!run) throw new Error('no run');
  return run;
};
const waveIn = (lineUp: LineUp) => waveformOf(lineUp, runIn(lineUp));
const peaksIn = (lineUp: LineUp) => runPeaks(lineUp, runIn(lineUp));

describe('of one plain lead', () => {
  const wave = waveIn(site());
  if (!wave) throw new Error('no wave');
  it('has the bus, the length, the critical length, and the time of a way there and back', () => {
    expect(wave.motorTag).toBe('m');
    expect(wave.bus_V).toBeCloseTo(Math.SQRT2 * 480, 6);
    expect(wave.length_m).toBe(60);
    // A ramp of 1.25 rise times comes back just as it ends: lc = v tr' / 2.
    expect(wave.critical_m).toBeCloseTo((SPEED * 1.25 * RISE_s) / 2, 9);
    expect(wave.turn_s).toBeCloseTo((2 * 60) / SPEED, 15);
  });
  it('has the peak of the review between its bounds, no more than twice the bus', () => {
    const run = runIn(site());
    expect([wave.peak_V, wave.low_V, wave.high_V]).toEqual([run.peak_V, run.peakLow_V, run.peakHigh_V]);
    expect(wave.low_V).toBeLessThan(wave.peak_V);
    expect(wave.high_V).toBeGreaterThan(wave.peak_V);
    // Far beyond the critical length the motor reflects (900 − 90) / (900 + 90) = 0.818 of the edge, but for what the line loses.
    expect(wave.peak_V / wave.bus_V).toBeLessThan(1 + 810 / 990 + 1e-9);
    expect(wave.peak_V / wave.bus_V).toBeGreaterThan(0.97 * (1 + 810 / 990));
    // The wave stands still until the edge has come, one transit after it left.
    const early = wave.samples.filter(([at_s]) => at_s < 60 / SPEED);
    expect(early.length).toBeGreaterThan(0);
    expect(early.every(([, volts]) => volts === 0)).toBe(true);
  });
  it('has the peak by length in forty steps, to twice the length or twice the critical one', () => {
    expect(wave.byLength.length).toBe(41);
    wave.byLength.forEach(({ length_m }, i) => {
      expect(length_m).toBeCloseTo(3 * i, 9);
    });
    expect(wave.byLength[0]?.central_V).toBeCloseTo(wave.bus_V, 6);
    expect(wave.byLength[20]?.central_V).toBeCloseTo(wave.peak_V, 6);
    const short = waveIn(site(undefined, [feeder, { ...lead, length_m: 2 }]));
    expect(short?.byLength.at(-1)?.length_m).toBeCloseTo(2 * ((SPEED * 1.25 * RISE_s) / 2), 9);
  });
  it('knows the peak of a large motor less well: 15 % above 200 kW, else 8', () => {
    const spread = (more: object) => {
      const lineUp = site([supply, drive, part('motor', 'm', { ratedVoltage_V: 460, surgeImpedance_ohm: 900, ...more })]);
      const last = waveIn(lineUp)?.byLength.at(-1);
      const end = peaksIn(lineUp).at(-1);
      return [last, end].map((each) => Math.round(100 * (1 - (each?.low_V ?? 0) / (each?.central_V ?? 1))));
    };
    expect([spread({ ratedPower_W: 200_000 }), spread({ ratedPower_W: 200_001 }), spread({})]).toEqual([
      [8, 8],
      [15, 15],
      [8, 8],
    ]);
  });
  it('has the peak at forty-one places along the lead', () => {
    const peaks = peaksIn(site());
    expect(peaks.map(({ at_m }) => Number(at_m.toFixed(9)))).toEqual(Array.from({ length: 41 }, (_, i) => 1.5 * i));
    expect(peaks.at(-1)?.central_V).toBeCloseTo(wave.peak_V, 6);
  });
  it('of a range of lengths has no places', () => {
    // Within the critical length the longer end has the higher peak.
    const ranged = site(undefined, [feeder, { ...lead, length_m: 4, lengthMost_m: 7 }]);
    expect(waveIn(ranged)?.length_m).toBe(7);
    expect(peaksIn(ranged)).toEqual([]);
    // A range elsewhere does not matter.
    const other = site(
      [supply, drive, motor, part('motor', 'n')],
      [feeder, lead, { ...bareCable('x', 's', 'n'), length_m: 3, lengthMost_m: 4 }],
    );
    expect(runPeaks(other, review(other).runs.find(({ motorId }) => motorId === 'm') ?? runIn(other)).length).toBe(41);
  });
});

describe('of more than a plain lead', () => {
  it('has no peak by length and no turn: with two motors the wave is solved at the motors alone', () => {
    const tee = site(
      [supply, drive, part('junction', 'j'), motor, part('motor', 'n', { ratedPower_W: 30_000 })],
      [
        feeder,
        { ...lead, to: { element: 'j' } },
        { ...lead, id: 'x', from: { element: 'j' }, to: { element: 'm' } },
        { ...lead, id: 'y', from: { element: 'j' }, to: { element: 'n' } },
      ],
    );
    const wave = waveIn(tee);
    expect([wave?.byLength, wave?.turn_s, wave?.length_m]).toEqual([[], null, 120]);
    expect(wave?.samples.length).toBeGreaterThan(100);
    expect(peaksIn(tee)).toEqual([]);
  });
});

describe('is none', () => {
  const whole = site();
  const run = runIn(whole);
  const none = (lineUp: LineUp, of = run) => [waveformOf(lineUp, of), runPeaks(lineUp, of)];
  it.each([
    ['of a motor or a drive that is gone', { ...whole, elements: [supply, drive] }],
    ['without its drive', { ...whole, elements: [supply, motor] }],
    ['without the rise time', site([supply, part('drive', 'd'), motor])],
    ['of a drive that nothing feeds', site(undefined, [lead])],
    ['of a link', site(undefined, [feeder, { ...lead, kind: 'link' }])],
    ['of a cable without a length', site(undefined, [feeder, { ...lead, length_m: 0 }])],
    ['of a length that is not known', site(undefined, [feeder, bareCable('w', 'd:load', 'm')])],
    [
      'where a filter’s maker has the word',
      site(
        [supply, drive, part('filter', 'z', { role: 'sine' }), motor],
        [feeder, { ...bareCable('l', 'd:load', 'z:line'), kind: 'link' }, { ...lead, from: { element: 'z', port: 'load' } }],
      ),
    ],
  ] as readonly (readonly [string, LineUp])[])('%s', (_what, lineUp) => expect(none(lineUp)).toEqual([null, []]));
  it('of a run without a drive, or whose bus is not known', () => {
    expect(none(whole, { ...run, driveId: null })).toEqual([null, []]);
    expect(none(whole, { ...run, driveId: 'm' })).toEqual([null, []]);
    expect(none(whole, { ...run, motorId: 'd' })).toEqual([null, []]);
    expect(none(whole, { ...run, bus_V: null })).toEqual([null, []]);
  });
  it('but of the drive that is named, though another stands before it', () => {
    const two = site(
      [supply, part('drive', 'e', { riseTime_s: 1e-6 }), drive, motor],
      [{ ...bareCable('g', 's', 'e:line'), kind: 'link' }, feeder, lead],
    );
    expect(waveIn(two)?.length_m).toBe(60);
  });
});
