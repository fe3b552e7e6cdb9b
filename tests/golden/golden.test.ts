import { describe, expect, it } from 'vitest';
import { accepted, acceptedNames, asFile, difference, GOLDEN, HOW_TO_ACCEPT } from './golden.ts';

/** Text, JSON and sheets of every project are, to the byte, what a person has read and accepted. */

describe('golden reports', () => {
  it('are of at least fifteen projects, and none is left of a project that is gone', () => {
    expect(GOLDEN.size).toBeGreaterThan(15);
    expect(acceptedNames()).toEqual([...GOLDEN.keys()].sort());
  });

  it.each([...GOLDEN])('%s', async (name, make) => {
    const told = difference(name, accepted(name), await make());
    if (told !== null) throw new Error(`${told}\n${HOW_TO_ACCEPT}`);
  });

  it('tell where one digit is another', () => {
    const file = (volts: number) => asFile({ text: 'M-1 passes', json: `{"limit":1426}\n{"value":${volts}}`, pdf: '--- sheet 1' });
    expect(difference('pump.txt', file(1300), file(1300))).toBeNull();
    expect(difference('pump.txt', file(1300), file(1301))?.split('\n')).toEqual([
      'pump.txt, JSON report, a line a finding: from line 5 on 1 became 1. The first of them',
      '  was {"value":1300}',
      '  is  {"value":1301}',
    ]);
  });
});
