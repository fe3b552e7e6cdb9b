import { describe, expect, it } from 'vitest';
import { applyFix, type Fix, type LineUp } from '../../../engine/index.ts';
import { createReviewer } from '../../../engine/review/createReviewer.ts';
import { resizing } from '../../../engine/sizing/choices.ts';
import { moveOf } from '../../../engine/sizing/previewFix.ts';
import { broken, oneLead, twoDrives } from './oneLead.ts';

/**
 * What each usual change does to each check, as the trade has it (common practice, and drive makers' published guides), against what the
 * engine says of a line-up in which the check has something to say. Better and worse are of the verdict or, where that stays, of the margin.
 */

type Way = 'better' | 'worse' | 'same' | 'asked' | 'not judged';

const judge = createReviewer().review;
/** Margins that differ by less than this many points are one margin. */
const ALIKE = 0.01;

function way(lineUp: LineUp, fix: Fix, check: string): Way {
  const of = (judged: LineUp) =>
    new Map(judge(judged).findings.flatMap((each) => (each.check === check ? [[each.id, each] as const] : [])));
  const [before, after] = [of(lineUp), of(applyFix(lineUp, fix))];
  const told = [...before.values(), ...after.values()].some(({ verdict }) => verdict !== 'not-applicable');
  const ways = new Set(
    [...new Set([...before.keys(), ...after.keys()])].map((id): Way => {
      const [was, is] = [before.get(id) ?? null, after.get(id) ?? null];
      const move = moveOf(was, is);
      if (move !== 'same' || was?.margin_pct == null || is?.margin_pct == null) return move;
      const gained = is.margin_pct - was.margin_pct;
      return gained > ALIKE ? 'better' : gained < -ALIKE ? 'worse' : 'same';
    }),
  );
  ways.delete('same');
  // Two ways at once are neither: the test that meets them fails, and tells both.
  return told ? (([...ways].join(' and ') || 'same') as Way) : 'not judged';
}

/** A carrier of 16 kHz and 140 m of lead: charging current and peak are both over their limits. */
const long = (): LineUp => {
  const lineUp = broken(oneLead(), {
    'VFD-1': { carrier_Hz: 16_000, outputCurrent_A: 51 },
    'W-1A': { length_m: 140 },
    'M-1': { insulation: 'mg1-part-30' },
    'CB-1': { residualCurrentType: 'B', residualCurrent_A: 0.3 },
  });
  const emcLengths = [
    { category: 'C2' as const, carrier_Hz: 4000, length_m: 200 },
    { category: 'C2' as const, carrier_Hz: 16_000, length_m: 50 },
  ];
  return {
    ...lineUp,
    project: { ...lineUp.project, emcCategory: 'C2' },
    elements: lineUp.elements.map((each) =>
      each.kind === 'drive' ? { ...each, leakageCurrent_A: 0.05, manual: { ...each.manual, emcLengths } } : each,
    ),
  };
};
const piped = (): LineUp =>
  broken(long(), { 'W-1A': { construction: 'singles', 'installation.raceway': 'steel-conduit', 'installation.racewaySize': '1-1/4' } });
const damp = (): LineUp => broken(long(), { 'W-1A': { 'insulation.type': 'THHN' } });
const bare = (): LineUp =>
  broken(long(), {
    'W-1A': { construction: 'multicore' },
    'W-1B': { construction: 'multicore' },
    'VFD-1': { 'manual.lengthShielded_m': 100 },
  });

const partOf = (lineUp: LineUp, tag: string) => {
  const part = [...lineUp.elements, ...lineUp.cables].find((each) => each.tag === tag);
  if (!part) throw new Error(`no ${tag}`);
  return part;
};
const edits =
  (values: Readonly<Record<string, Readonly<Record<string, string | number>>>>) =>
  (lineUp: LineUp): Fix => ({
    label: 'edit',
    edits: Object.entries(values).flatMap(([tag, own]) =>
      Object.entries(own).map(([path, value]) => ({ id: partOf(lineUp, tag).id, path, value })),
    ),
  });
const made = {
  box: 'metal',
  terminalTemperature_C: 75,
  terminalMetal: 'copper-aluminium',
  terminalSmallest: '14 AWG',
  terminalLargest: '1/0 AWG',
} as const;
const atDrive =
  (kind: 'reactor' | 'filter', values: Record<string, string | number>) =>
  (lineUp: LineUp): Fix => ({
    label: 'insert',
    edits: [],
    inserts: [
      {
        kind,
        values: { ...made, ratedCurrent_A: 60, ratedVoltage_V: 480, ...values },
        cable: partOf(lineUp, 'W-1A').id,
        end: 'from',
        port: 'load',
      },
    ],
  });
const sized =
  (tag: string, size: string) =>
  (lineUp: LineUp): Fix => {
    const cable = lineUp.cables.find((each) => each.tag === tag);
    return { label: 'size', edits: cable ? resizing(cable, { size, sets: 1 }) : [] };
  };
/** Made for a carrier of 2 to 6 kHz. */
const WINDOW = { carrierLeast_Hz: 2000, carrierMost_Hz: 6000 };

const CHANGES = {
  'size up': sized('W-1A', '3/0 AWG'),
  'feeder size up': sized('F-1', '3/0 AWG'),
  'output reactor': atDrive('reactor', { impedance_pct: 3 }),
  'dV/dt filter': atDrive('filter', { role: 'dvdt', drop_pct: 1.5, motorPeak_V: 950, motorRise_s: 2.5e-6, ...WINDOW }),
  'sine filter': atDrive('filter', { role: 'sine', drop_pct: 4, motorPeak_V: 750, motorRise_s: 10e-6, ...WINDOW }),
  shield: edits({ 'W-1A': { construction: 'foil-and-braid' }, 'W-1B': { construction: 'foil-and-braid' } }),
  'lower carrier': edits({ 'VFD-1': { carrier_Hz: 4000 } }),
  'drive to the motor': edits({ 'F-1': { length_m: 163 }, 'W-1A': { length_m: 4 } }),
} as const;
type Change = keyof typeof CHANGES;
/** Behind a filter made for 8 to 16 kHz. */
const filtered = (): LineUp =>
  applyFix(
    long(),
    atDrive('filter', { role: 'sine', drop_pct: 4, motorPeak_V: 750, motorRise_s: 10e-6, carrierLeast_Hz: 8000, carrierMost_Hz: 16_000 })(
      long(),
    ),
  );

describe('as the matrix of side effects has it', () => {
  it.each<readonly [Change, string, Way, LineUp]>([
    ['feeder size up', 'feeder-drop', 'better', long()],
    ['size up', 'lead-ampacity', 'better', long()],
    ['size up', 'lead-drop', 'better', long()],
    ['size up', 'charging-current', 'worse', long()],
    ['size up', 'terminal-range', 'worse', long()],
    ['size up', 'conduit-fill', 'worse', piped()],
    ['size up', 'shield-present', 'same', bare()],
    ['size up', 'shield-continuity', 'same', long()],
    ['size up', 'shield-landing', 'same', long()],
    ['size up', 'insulation-moisture', 'same', damp()],
    ['output reactor', 'charging-current', 'better', long()],
    ['output reactor', 'motor-peak-voltage', 'better', long()],
    ['output reactor', 'lead-drop', 'worse', long()],
    ['dV/dt filter', 'motor-peak-voltage', 'better', long()],
    ['dV/dt filter', 'charging-current', 'better', long()],
    ['dV/dt filter', 'lead-drop', 'worse', long()],
    ['dV/dt filter', 'carrier-window', 'worse', long()],
    ['sine filter', 'critical-length', 'better', long()],
    ['sine filter', 'motor-peak-voltage', 'better', long()],
    ['sine filter', 'charging-current', 'better', long()],
    ['sine filter', 'lead-drop', 'worse', long()],
    ['sine filter', 'carrier-window', 'worse', long()],
    ['sine filter', 'common-mode', 'same', long()],
    ['shield', 'shield-present', 'better', bare()],
    ['shield', 'shared-raceway', 'better', twoDrives()],
    ['shield', 'charging-current', 'worse', bare()],
    ['shield', 'manual-limits', 'worse', bare()],
    ['lower carrier', 'charging-current', 'better', long()],
    ['lower carrier', 'manual-limits', 'better', long()],
    ['lower carrier', 'carrier-window', 'worse', filtered()],
    ['drive to the motor', 'lead-drop', 'better', long()],
    ['drive to the motor', 'critical-length', 'better', long()],
    ['drive to the motor', 'motor-peak-voltage', 'better', long()],
    ['drive to the motor', 'charging-current', 'better', long()],
    ['drive to the motor', 'manual-limits', 'better', long()],
    ['drive to the motor', 'feeder-drop', 'worse', long()],
    ['drive to the motor', 'fault-rating', 'better', long()],
  ])('%s: %s is %s', (change, check, says, lineUp) => {
    expect(way(lineUp, CHANGES[change](lineUp), check)).toBe(says);
  });
});

/** The noise that a lower carrier makes and the length that a dV/dt filter is good for are of the matrix too: nothing in a line-up tells them. */
describe('where the engine says otherwise than the matrix, and why', () => {
  it.each<readonly [Change, string, Way, Way, LineUp, string]>([
    [
      'size up',
      'motor-peak-voltage',
      'same',
      'worse',
      long(),
      'thicker conductors in the same shield have a lower surge impedance and less loss: more of the edge is thrown back at the motor, by about two points',
    ],
    [
      'size up',
      'shield-adequacy',
      'same',
      'worse',
      long(),
      'the shield of another size is another shield: its area was from the data sheet of the old one and a pass that becomes a question is no better',
    ],
    [
      'lower carrier',
      'residual-current',
      'better',
      'same',
      long(),
      'the leakage is the figure that the maker states, with no carrier beside it: what it would be at another is not known',
    ],
    [
      'shield',
      'separation',
      'better',
      'same',
      bare(),
      'the distances that the guides ask are for motor cables, shielded or not; only a divider or a steel pipe shortens them',
    ],
  ])('%s: %s, where the matrix says %s, is %s', (change, check, _, says, lineUp) => {
    expect(way(lineUp, CHANGES[change](lineUp), check)).toBe(says);
  });

  it('a size more in the feeder costs fault rating, of which the matrix says nothing: less copper holds less back', () => {
    expect(way(long(), CHANGES['feeder size up'](long()), 'fault-rating')).toBe('worse');
  });
});
