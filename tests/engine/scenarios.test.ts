import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { load, review } from '../../engine/index.ts';

/**
 * Six worked line-ups, each check judged by hand beforehand: check, subject, verdict. Where the engine and the hand calculation give
 * different figures under the same verdict, the note beside it shows the working.
 */
const EXPECTED: Readonly<Record<string, readonly (readonly [string, string, string])[]>> = {
  'heron-weir-pumps.json': [
    // 5.75 % × 59.9 / 1000 kVA = 0.34 % + 3 % × 72 / 80 A
    ['supply-stiffness', 'VFD-2', 'pass'],
    ['supply-earthing', 'VFD-2', 'pass'],
    // 1.25 × 72 = 90 A; 3 AWG 100 A
    ['feeder-ampacity', 'F-2', 'pass'],
    // Marked with named fuses; whether the breaker drawn counts is not said.
    ['fault-rating', 'VFD-2', 'open'],
    ['feeder-drop', 'F-2', 'pass'],
    // 1.25 × 77 = 96.25 A; 2 AWG 115 A
    ['lead-ampacity', 'W-2A', 'pass'],
    ['lead-drop', 'P-2', 'pass'],
    ['conductor-metal', 'W-2A', 'pass'],
    ['terminal-range', 'W-2A', 'pass'],
    ['shield-present', 'P-2', 'pass'],
    ['shield-continuity', 'DS-2', 'fail'],
    ['shield-landing', 'W-2A', 'fail'],
    ['protective-earth', 'W-2A', 'caution'],
    // The cable is symmetrical; the two cores left open are spoken of under protective-earth.
    ['symmetry', 'P-2', 'pass'],
    ['insulation-wall', 'W-2A', 'pass'],
    ['insulation-moisture', 'W-2A', 'pass'],
    ['insulation-voltage', 'W-2A', 'pass'],
    ['critical-length', 'P-2', 'note'],
    // 64 m, 2 Zd 37 Ω, Zm 1136 Ω: 1295.3 V nominal, 1424.8 V at +10 % line of 3.1 × 460 = 1426.0 V: no margin left there
    ['motor-peak-voltage', 'P-2', 'pass'],
    // 64 of 150 m
    ['manual-limits', 'VFD-2', 'pass'],
    ['charging-current', 'VFD-2', 'pass'],
    ['output-disconnect', 'DS-2', 'open'],
  ],
  'fennel-lane-capping.json': [
    // 5.75 % × 20.8 / 750 kVA = 0.16 %, 36 times: below 0.25 %, so the choke that is not known does not matter
    ['supply-stiffness', 'VFD-1', 'caution'],
    // 31.25 A; 10 AWG 35 A. A note: 25 A of rated input against 16.8 A of motors, more than 1.3 times.
    ['feeder-ampacity', 'F-1', 'note'],
    ['several-motors', 'VFD-1', 'open'],
    ['lead-ampacity', 'W-1', 'pass'],
    ['lead-drop', 'M-4', 'pass'],
    ['shield-continuity', 'M-1', 'pass'],
    ['insulation-wall', 'W-1A', 'caution'],
    ['insulation-moisture', 'W-1A', 'fail'],
    ['critical-length', 'M-4', 'note'],
    ['motor-peak-voltage', 'M-4', 'fail'],
    // 30 + 85 + 110 + 135 + 160 ft = 158.5 m of 100 m
    ['manual-limits', 'VFD-1', 'fail'],
    ['charging-current', 'VFD-1', 'pass'],
    ['output-disconnect', 'MS-1', 'caution'],
  ],
  'quillback-hall-air.json': [
    // 0.12 %, 49 times: too stiff even with the choke
    ['supply-stiffness', 'VFD-1', 'caution'],
    ['feeder-ampacity', 'F-1', 'pass'],
    ['fault-rating', 'VFD-1', 'open'],
    // 1.25 × 34 = 42.5 A; 0.91 × 55 = 50.05 A
    ['lead-ampacity', 'W-1A', 'pass'],
    ['lead-drop', 'AHU-1', 'pass'],
    ['bypass', 'K-3', 'pass'],
    ['shield-continuity', 'AHU-1', 'pass'],
    ['insulation-moisture', 'W-1A', 'pass'],
    ['motor-peak-voltage', 'AHU-1', 'fail'],
    ['manual-limits', 'VFD-1', 'open'],
    ['output-disconnect', 'DS-1', 'pass'],
  ],
  'basalt-ridge-crusher.json': [
    ['supply-stiffness', 'VFD-1', 'pass'],
    // 1.25 × 400 = 500 A; 2 × 310 A
    ['feeder-ampacity', 'F-1', 'pass'],
    ['feeder-drop', 'F-1', 'pass'],
    ['conductor-metal', 'F-1', 'fail'],
    // 1.25 × 361 = 451 A; 2 × 200 A
    ['lead-ampacity', 'W-1', 'fail'],
    ['lead-drop', 'CR-1', 'note'],
    ['parallel-sets', 'W-1', 'fail'],
    ['shield-present', 'CR-1', 'caution'],
    // 600 A: 1 AWG; 2/0 AWG there
    ['protective-earth', 'W-1', 'pass'],
    ['symmetry', 'CR-1', 'caution'],
    ['insulation-moisture', 'W-1', 'pass'],
    ['motor-peak-voltage', 'CR-1', 'pass'],
    ['manual-limits', 'VFD-1', 'open'],
    ['separation', 'W-1', 'caution'],
  ],
  'frostmere-cold-store.json': [
    // 0.17 %, 29 times
    ['supply-stiffness', 'VFD-1', 'caution'],
    ['feeder-ampacity', 'F-1', 'open'],
    ['feeder-drop', 'F-1', 'open'],
    // 90 °C column 40 A × 0.8 = 32 A, held to 32 A by itself (terminals 35 A); 26.25 A needed
    ['lead-ampacity', 'W-1', 'pass'],
    ['existing-cable', 'W-1', 'open'],
    ['insulation-wall', 'W-1', 'open'],
    ['insulation-moisture', 'W-1', 'fail'],
    ['insulation-temperature', 'W-1', 'caution'],
    // An old pipe as the only ground: allowed by 250.118, so a note, not the caution of the hand calculation.
    ['protective-earth', 'W-1', 'note'],
    ['shared-raceway', 'W-1', 'caution'],
    // 97.5 of 100 m
    ['manual-limits', 'VFD-1', 'pass'],
    ['motor-peak-voltage', 'EF-1', 'fail'],
  ],
  'vantage-cleanroom-air.json': [
    // 0.28 % passes with a choke, 21 times does not: caution whether or not there is one
    ['supply-stiffness', 'VFD-1', 'caution'],
    ['supply-earthing', 'VFD-1', 'pass'],
    ['feeder-drop', 'F-1', 'pass'],
    ['residual-current', 'Q-1', 'caution'],
    ['protective-earth', 'W-1A', 'pass'],
    ['lead-drop', 'M-1', 'note'],
    ['shield-continuity', 'Q-2', 'fail'],
    ['shield-landing', 'W-1A', 'fail'],
    ['motor-peak-voltage', 'M-1', 'open'],
    ['separation', 'W-1A', 'open'],
    // 68 m of 25 m at 8 kHz
    ['manual-limits', 'VFD-1', 'fail'],
    ['charging-current', 'VFD-1', 'pass'],
  ],
};

const read = (name: string) => {
  const loaded = load(readFileSync(join(import.meta.dirname, '../../examples', name), 'utf8'), name);
  if (!loaded.ok) throw new Error(loaded.what);
  return review(loaded.lineUp);
};

describe('the worked line-ups', () => {
  it.each(Object.entries(EXPECTED))('%s', (name, expected) => {
    const { findings } = read(name);
    const said = expected.map(([check, tag]) => {
      // Pulses that meet an old ring are a note of their own beside the peak of one edge.
      const of = findings.filter((each) => each.check === check && each.subject.tag === tag && !each.id.endsWith('/pulses'));
      // Several findings of one check: the worst comes first.
      return [check, tag, of[0]?.verdict];
    });
    expect(said).toEqual(expected.map((each) => [...each]));
  });

  it('the one in order has nothing failing, open or cautioned', () => {
    const { counts } = read('alder-mill-fan.json');
    expect([counts.fail, counts.open, counts.caution]).toEqual([0, 0, 0]);
  });
});
