import type { ElementOf } from '../lineup/elements.ts';
import { type Check, elementSubject, finding, given, missingOf, openFinding, tagsOf } from './check.ts';
import type { Finding, Verdict } from './finding.ts';

/** Whether someone at the motor can see that it is off and keep it off, whichever switch of the run does it. */

type Disconnect = ElementOf<'disconnect'>;

/** Of one switch. In sight is the NEC’s plain demand, and a lock without sight its exception; IEC asks for the lock. */
function secures({ device, withinSight, lockable }: Disconnect, basis: 'us' | 'iec'): Verdict {
  if (device === undefined) return 'open';
  if (lockable === true && (withinSight === true || basis === 'iec')) return 'pass';
  if (lockable === undefined || withinSight === undefined) return 'open';
  return lockable ? 'note' : withinSight ? 'caution' : 'fail';
}

/** One that will do is enough; what is not known yet may do where what is known does not. */
const BEST_FIRST: readonly Verdict[] = ['pass', 'note', 'caution', 'open', 'fail'];

const PHRASE: Readonly<Partial<Record<Verdict, string>>> = {
  pass: 'in sight, lockable',
  note: 'out of sight, lockable',
  caution: 'not lockable',
  fail: 'neither seen nor lockable',
};
const SAYS: Readonly<Partial<Record<Verdict, (motor: string) => string>>> = {
  pass: (motor) => `is within sight of ${motor} and lockable open`,
  note: (motor) => `is lockable open but not within sight of ${motor}: allowed only where an exception of 430.102(B) is met`,
  caution: (motor) => `is within sight of ${motor} but not lockable open`,
  fail: (motor) => `is neither within sight of ${motor} (50 ft, 15 m) nor lockable open`,
};

export const motorIsolation: Check = {
  slug: 'motor-isolation',
  rule: 'US: a disconnect within sight of the motor that can be locked open; out of sight only by exception. IEC: one that can be locked open.',
  title: 'Isolation of the motor',
  authority: 'code',
  source: 'NEC 430.102(B), 110.25; IEC 60204-1 5.3.3, 5.6 (from memory)',
  why: 'Whoever works at the motor must be able to see that it is off and keep it off. A disconnect ahead of the drive may serve, but only where it is seen or locked: taken out of the lead, it leaves that question behind.',
  scope: 'run',
  judge({ motor, drive, disconnects, basis }): readonly Finding[] {
    const subject = elementSubject(motor);
    const runs = [motor.tag];
    // From the motor back. A fuse in its holder is no switch.
    const switches = disconnects.filter(({ device }) => device !== 'fuse').reverse();
    const last = switches[0];
    if (!last)
      return [
        openFinding(this, subject, runs, [], {
          phrase: 'isolated by?',
          text: `No disconnect is drawn between the supply and ${motor.tag}: what isolates it is not known.`,
          remedies: ['Draw the disconnect that isolates the motor.'],
        }),
      ];
    const verdict = BEST_FIRST.find((each) => switches.some((one) => secures(one, basis) === each)) ?? 'open';
    const by = switches.find((one) => secures(one, basis) === verdict) ?? last;
    if (verdict === 'open') {
      const locked = basis === 'iec' && by.lockable !== false;
      return [openFinding(this, subject, runs, missingOf(by, 'device', 'lockable', ...(locked ? [] : ['withinSight'])))];
    }
    const iecPass = basis === 'iec' && verdict === 'pass';
    return [
      finding(this, subject, runs, {
        verdict,
        authority: basis === 'us' ? 'code' : 'standard',
        source: basis === 'us' ? 'NEC 430.102(B), 110.25' : 'IEC 60204-1 5.3.3, 5.6 (from memory)',
        phrase: iecPass ? 'lockable' : (PHRASE[verdict] ?? ''),
        text: `${by.tag} ${iecPass ? 'can be locked open' : SAYS[verdict]?.(motor.tag)}.`,
        inputs: switches.flatMap((one) => given(one, 'device', 'withinSight', 'lockable')),
        remedies:
          verdict === 'fail' || verdict === 'caution'
            ? [
                `A lock for ${tagsOf(switches.filter(({ lockable }) => lockable === false)).join(' or ')}.`,
                `A disconnect that can be locked open, within sight of motor and machine${drive ? `, with an early-break contact that stops ${drive.tag}` : ''}.`,
              ]
            : [],
      }),
    ];
  },
};
