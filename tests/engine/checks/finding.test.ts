import { describe, expect, it } from 'vitest';
import { worst } from '../../../engine/checks/finding.ts';
import { notASize, unlisted } from '../../../engine/checks/unlistedSize.ts';

describe('the worst of several verdicts', () => {
  it('fault before open before caution before note before pass', () => {
    expect(worst(['pass', 'fail', 'open'])).toBe('fail');
    expect(worst(['caution', 'pass', 'open'])).toBe('open');
    expect(worst(['note', 'caution'])).toBe('caution');
    expect(worst(['not-applicable', 'pass', 'note'])).toBe('note');
    expect(worst(['out-of-scope', 'not-applicable', 'pass'])).toBe('pass');
    expect([worst(['out-of-scope', 'not-applicable']), worst(['out-of-scope'])]).toEqual(['not-applicable', 'out-of-scope']);
  });
  it('of none is not applicable', () => expect(worst([])).toBe('not-applicable'));
});

describe('a size that is written and in no table', () => {
  it('is told: 7 AWG and 300 mm, and not 2 AWG, 500 kcmil, 35 mm2 or one that is not written', () => {
    expect(unlisted('2 AWG', '7 AWG', undefined, '500 kcmil', '300 mm', '35 mm2')).toEqual(['7 AWG', '300 mm']);
    expect([unlisted(), unlisted(undefined, '2 AWG')]).toEqual([[], []]);
  });
  it('once, with what to write', () => {
    const { phrase, text, remedies } = notASize(['7 AWG', '9 mm2', '7 AWG']);
    expect([phrase, text]).toEqual(['size not in tables', 'Cannot be judged: 7 AWG, 9 mm2 is not a size of the tables.']);
    for (const size of /such as (.*) or (.*)\.$/.exec(remedies[0] ?? '')?.slice(1) ?? ['none']) expect(unlisted(size)).toEqual([]);
  });
});
