import { describe, expect, it } from 'vitest';
import { finding } from '../../../engine/checks/check.ts';
import type { Finding } from '../../../engine/checks/finding.ts';
import { CHECKS } from '../../../engine/checks/index.ts';
import { newLineUp, review } from '../../../engine/index.ts';
import { sourcesMarkdown, sourcesPage } from '../../../engine/review/sourcesPage.ts';

/** The example of a check is the finding that tells most, of those that judge; what it assumed is told once. */

const [first, second] = CHECKS;
if (!first || !second) throw new Error('there are checks');
const of = (text: string, more: Partial<Finding>, check = first): Finding =>
  finding(check, { kind: 'element', id: text, tag: text }, [], { verdict: 'pass', phrase: '', text, ...more });
const page = (...findings: readonly Finding[]) => sourcesPage([{ ...review(newLineUp()), findings }]).checks;
const example = (...findings: readonly Finding[]) => page(...findings)[0]?.example?.text ?? null;

const bare = of('bare', {});
const worked = of('worked', { working: ['1 + 1 = 2'] });
const valued = of('valued', { value: 2 });
const failed = of('failed', { verdict: 'fail' });

describe('the page of sources', () => {
  it('has every check in its order, with its own words', () => {
    expect(page().map(({ slug }) => slug)).toEqual(CHECKS.map(({ slug }) => slug));
    const { slug, title, why, rule, authority, source } = first;
    expect(page()[0]).toEqual({ slug, title, why, rule, authority, source, assumptions: [], example: null });
  });
  it('takes a number before a working, a working before a verdict that is no good, and the first of two alike', () => {
    expect([example(bare, worked, valued), example(valued, worked, bare)]).toEqual(['valued', 'valued']);
    expect([example(failed, worked), example(bare, failed), example(failed, bare)]).toEqual(['worked', 'failed', 'failed']);
    expect(example(bare, of('cautious', { verdict: 'caution' }))).toBe('cautious');
    expect([example(bare, of('another', {})), example(of('open', { verdict: 'open' }), bare)]).toEqual(['bare', 'open']);
    expect(example(valued, of('both', { value: 2, working: ['1 + 1 = 2'] }))).toBe('both');
  });
  it('takes none that does not judge, and none of another check', () => {
    expect(example(of('none', { verdict: 'not-applicable', value: 1 }), of('beyond', { verdict: 'out-of-scope', value: 1 }), bare)).toBe(
      'bare',
    );
    expect(example(of('none', { verdict: 'not-applicable', value: 1 }))).toBeNull();
    const [own, other] = page(bare, of('of the second', { value: 1 }, second));
    expect([own?.example?.text, other?.example]).toEqual(['bare', { verdict: 'pass', text: 'of the second', working: [] }]);
  });
  it('tells each assumption once, with where it is from, of findings that do not judge too', () => {
    const assumptions = [{ what: 'ambient', value: '30 °C', source: 'NEC' }];
    expect(page(of('a', { assumptions }), of('b', { assumptions, verdict: 'not-applicable' }))[0]?.assumptions).toEqual([
      'ambient: 30 °C (NEC)',
    ]);
  });
  it('has every table of the catalogue, with its edition where it has one', () => {
    const { tables } = sourcesPage([]);
    expect(tables.find(({ title }) => title === 'Equipment grounding conductors')).toEqual({
      title: 'Equipment grounding conductors',
      source: 'NEC Table 250.122',
      edition: '2023',
      status: 'published',
      basis: 'us',
    });
    const motors = tables.find(({ title }) => title === 'Motor power factor');
    expect([motors?.edition, motors?.status, motors?.basis]).toEqual(['', 'from memory', null]);
  });
  it('as Markdown is a heading a check and a row a table, its bars escaped', () => {
    const check = { slug: 'a-check', title: 'A check', why: 'For safety.', rule: 'x < y', authority: 'code', source: 'NEC 1.1' };
    const text = sourcesMarkdown({
      checks: [
        { ...check, assumptions: ['ambient: 30 °C (NEC)'], example: { verdict: 'fail', text: 'Too small.', working: ['1 < 2'] } },
        { ...check, assumptions: [], example: null },
      ],
      tables: [{ title: 'a|b|c', source: 'NEC', edition: '2023', status: 'published', basis: null }],
    });
    const plain = ['## A check (`a-check`)', '', 'For safety.', '', '- Rule: x < y', '- Authority: code', '- Source: NEC 1.1'];
    expect(text.split('\n')).toEqual([
      '# Checks and their sources',
      '',
      'A design aid: the local code, the makers’ instructions and a licensed engineer decide.',
      '',
      ...plain,
      '- Assumed where not given:',
      '  - ambient: 30 °C (NEC)',
      '- Example (fail): Too small.',
      '  - 1 < 2',
      '',
      ...plain,
      '',
      '## Tables',
      '',
      '| table | source | edition | status |',
      '| --- | --- | --- | --- |',
      '| a\\|b\\|c | NEC | 2023 | published |',
      '',
    ]);
  });
});
