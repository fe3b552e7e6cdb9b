import { describe, expect, it } from 'vitest';
import type { RunScope } from '../../../engine/checks/check.ts';
import type { Finding } from '../../../engine/checks/finding.ts';
import { motorIsolation } from '../../../engine/checks/isolationCheck.ts';
import type { ElementOf } from '../../../engine/lineup/elements.ts';
import { runScope } from './scopes.ts';
import { fields } from './told.ts';

/** NEC 430.102(B): in sight of the motor, and 110.25: to be locked open; IEC 60204-1 5.3.3 and 5.6: to be locked. */

type Disconnect = ElementOf<'disconnect'>;
const one = (tag: string, lockable?: boolean, withinSight?: boolean, device: Disconnect['device'] | null = 'switch'): Disconnect => ({
  id: tag,
  kind: 'disconnect',
  tag,
  ...(device ? { device } : {}),
  ...(lockable === undefined ? {} : { lockable }),
  ...(withinSight === undefined ? {} : { withinSight }),
});
/** Switches from the supply to the motor. */
const judge = (disconnects: readonly Disconnect[], basis: 'us' | 'iec' = 'us', more: Partial<RunScope> = {}): Finding => {
  const found = motorIsolation.scope === 'run' ? motorIsolation.judge(runScope({ disconnects, basis, ...more }) as RunScope) : [];
  const [first, ...others] = found;
  if (!first || others.length > 0) throw new Error(`${found.length} findings`);
  return first;
};
const [yes, no] = [true, false];

describe('the isolation of a motor', () => {
  it.each([
    [yes, yes, 'pass', 'pass'],
    [yes, no, 'note', 'pass'],
    [no, yes, 'caution', 'caution'],
    [no, no, 'fail', 'fail'],
    [yes, undefined, 'open', 'pass'],
    [no, undefined, 'open', 'open'],
    [undefined, yes, 'open', 'open'],
    [undefined, no, 'open', 'open'],
    [undefined, undefined, 'open', 'open'],
  ] as const)('lockable %s and in sight %s is %s by the code, %s by IEC', (lockable, inSight, us, iec) =>
    expect([judge([one('Q', lockable, inSight)]).verdict, judge([one('Q', lockable, inSight)], 'iec').verdict]).toEqual([us, iec]),
  );
  it('says what the switch is, on whose word, and what to do', () => {
    const said = (lockable: boolean, inSight: boolean, basis: 'us' | 'iec' = 'us') => {
      const found = judge([one('Q', lockable, inSight)], basis);
      return [found.phrase, found.text, found.authority, found.remedies.length];
    };
    expect(said(yes, yes)).toEqual(['in sight, lockable', 'Q is within sight of M and lockable open.', 'code', 0]);
    expect(said(yes, no)).toEqual([
      'out of sight, lockable',
      'Q is lockable open but not within sight of M: allowed only where an exception of 430.102(B) is met.',
      'code',
      0,
    ]);
    expect(said(no, yes)).toEqual(['not lockable', 'Q is within sight of M but not lockable open.', 'code', 2]);
    expect(said(no, no, 'iec')).toEqual([
      'neither seen nor lockable',
      'Q is neither within sight of M (50 ft, 15 m) nor lockable open.',
      'standard',
      2,
    ]);
    expect(said(yes, no, 'iec')).toEqual(['lockable', 'Q can be locked open.', 'standard', 0]);
    const found = judge([one('A', no, no), one('B', no, yes)]);
    expect([found.inputs.length, found.remedies, found.runs, found.subject.tag]).toEqual([
      6,
      [
        'A lock for B or A.',
        'A disconnect that can be locked open, within sight of motor and machine, with an early-break contact that stops D.',
      ],
      ['M'],
      'M',
    ]);
    expect([judge([one('Q', yes, yes)]).source, judge([one('Q', yes, yes)], 'iec').source]).toEqual([
      'NEC 430.102(B), 110.25',
      'IEC 60204-1 5.3.3, 5.6 (from memory)',
    ]);
  });
  it('is as good as its best switch, the nearest to the motor of several alike', () => {
    const of = (...switches: readonly Disconnect[]) => [judge(switches).verdict, judge(switches).text.slice(0, 1)];
    expect(of(one('A', yes, yes), one('B', no, no))).toEqual(['pass', 'A']);
    expect(of(one('A', yes, no), one('B', no, yes))).toEqual(['note', 'A']);
    expect(of(one('A', no, yes), one('B', yes, no))).toEqual(['note', 'B']);
    expect(of(one('A', no, no), one('B', no, yes))).toEqual(['caution', 'B']);
    expect(of(one('A', yes, yes), one('B', yes, yes))).toEqual(['pass', 'B']);
    // One of which too little is known may do where the others do not.
    expect(fields(judge([one('A'), one('B', no, no)]))).toEqual(['A: lockable', 'A: withinSight']);
    const known = judge([one('A'), one('B', no, yes)]);
    expect([known.verdict, known.remedies[0]]).toEqual(['caution', 'A lock for B.']);
  });
  it('is not by a fuse, and open by what nobody said is a switch', () => {
    const fuse = judge([one('F', yes, yes, 'fuse')]);
    expect([fuse.verdict, fuse.phrase, fuse.missing, fuse.remedies]).toEqual([
      'open',
      'isolated by?',
      [],
      ['Draw the disconnect that isolates the motor.'],
    ]);
    expect([judge([]).verdict, judge([one('F', yes, yes, 'fused-switch')]).verdict]).toEqual(['open', 'pass']);
    const unsaid = judge([one('Q', yes, yes, null)]);
    expect([unsaid.verdict, ...fields(unsaid)]).toEqual(['open', 'Q: device']);
  });
  it('asks for the lock alone under IEC, and for sight too where there is none', () => {
    expect(fields(judge([one('Q', undefined, undefined)], 'iec'))).toEqual(['Q: lockable']);
    expect(fields(judge([one('Q', no, undefined)], 'iec'))).toEqual(['Q: withinSight']);
    expect(fields(judge([one('Q', undefined, undefined)]))).toEqual(['Q: lockable', 'Q: withinSight']);
    expect(fields(judge([one('Q', undefined, yes, null)], 'iec'))).toEqual(['Q: device', 'Q: lockable']);
  });
});
