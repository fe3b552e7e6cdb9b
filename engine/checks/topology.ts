import { isCable } from '../lineup/isCable.ts';
import type { FaultKind } from '../network/network.ts';
import { type Check, cableSubject, elementSubject, finding } from './check.ts';
import type { Subject, Verdict } from './finding.ts';

const FAULTS: Readonly<
  Record<FaultKind, { verdict: Verdict; phrase: string; text: (part: string, other: string) => string; remedy: string }>
> = {
  loop: {
    verdict: 'fail',
    phrase: 'closes a loop',
    text: (part, other) => `${part} closes a loop at ${other}: a one-line is judged as a tree from source to motor.`,
    remedy:
      'Take this connection out, or draw one device of the loop open (a bypass contactor, a tie). Sets in parallel are one cable with its number of sets.',
  },
  'two-sources': {
    verdict: 'fail',
    phrase: 'two sources meet',
    text: (part, other) => `${part} joins two sources at ${other}.`,
    remedy: 'Draw the tie between them open, or take one source out.',
  },
  'fed-backwards': {
    verdict: 'fail',
    phrase: 'mains on drive output',
    text: (part, other) => `${part} brings a source to the output of a drive (at ${other}): mains there destroys it.`,
    remedy: 'Connect the supply to the line side; draw a bypass contactor open, with an interlock.',
  },
  'drive-behind-drive': {
    verdict: 'fail',
    phrase: 'drive behind a drive',
    text: (part, other) => `${part} is fed from the output of ${other}: a drive’s input does not live on another drive’s pulses.`,
    remedy: 'Feed it from the supply.',
  },
  'turned-round': {
    verdict: 'open',
    phrase: 'fed from its load side',
    text: (part, other) => `${part} is fed from its load side by ${other}: neither it nor what is behind it is judged.`,
    remedy: 'Land what feeds it on its line side; where it steps up, its secondary voltage is the higher.',
  },
  'no-source': {
    verdict: 'open',
    phrase: 'no source',
    text: () => 'Nothing is fed: the line-up has no supply.',
    remedy: 'Place a supply and connect it.',
  },
  'unfed-motor': {
    verdict: 'open',
    phrase: 'not fed',
    text: (part) => `${part} is not connected to a source.`,
    remedy: 'Connect it, through its drive, to the supply.',
  },
  island: {
    verdict: 'open',
    phrase: 'not connected',
    text: (part) => `${part} is not connected to a source and is not judged.`,
    remedy: 'Connect it, or take it out.',
  },
  'cable-to-nowhere': {
    verdict: 'open',
    phrase: 'leads nowhere',
    text: (part) => `${part} has an end that lands on nothing.`,
    remedy: 'Land both ends on parts.',
  },
};

const LINEUP: Subject = { kind: 'lineup', id: '', tag: 'line-up' };

export const topology: Check = {
  slug: 'topology',
  rule: 'Every part is fed from one source along one way; a drive’s output never meets a source.',
  title: 'Connections',
  authority: 'physics',
  source: 'a radial network from one source to each motor',
  why: 'Voltage, current and the way of the shield are followed from the source to each motor. A loop, a part that is not fed or a cable that lands on nothing leaves no such way.',
  scope: 'fault',
  judge({ part, other, kind }) {
    const says = FAULTS[kind];
    const subject = !part ? LINEUP : isCable(part) ? cableSubject(part) : elementSubject(part);
    const id = `topology/${kind}/${subject.id}`;
    return [
      finding(this, subject, [], {
        id,
        verdict: says.verdict,
        phrase: says.phrase,
        text: says.text(part?.tag ?? '', other?.tag ?? ''),
        remedies: [says.remedy],
      }),
    ];
  },
};
