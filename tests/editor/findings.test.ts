import { describe, expect, it } from 'vitest';
import { askedFor, findingGroups } from '../../editor/panels/findingGroups.ts';
import { questionsOf, questionsText } from '../../editor/panels/questions.ts';
import { choiceOf } from '../../editor/store/findingsChoice.ts';
import { review } from '../../engine/index.ts';
import { threeRuns } from '../engine/drawing/threeRuns.ts';

/** The list of findings under headings and through its sieve. */

const { findings } = review(threeRuns());

describe('findings', () => {
  it.each(['run', 'check', 'authority'] as const)('grouped by %s are all there, in their order', (grouping) => {
    const groups = findingGroups(findings, grouping);
    expect(new Set(groups.flatMap((each) => each.findings))).toEqual(new Set(findings));
    for (const { findings: own } of groups) expect([...own].sort((a, b) => findings.indexOf(a) - findings.indexOf(b))).toEqual(own);
  });
  it('stand under each run that they concern', () => {
    const shared = findings.filter((each) => each.runs.length > 1);
    expect(shared.length).toBeGreaterThan(0);
    const groups = findingGroups(findings, 'run');
    for (const each of shared)
      expect(
        groups
          .filter(({ findings: own }) => own.includes(each))
          .map(({ title }) => title)
          .sort(),
      ).toEqual(each.runs.map((tag) => `Run of ${tag}`).sort());
  });
  it('are found by verdict and by every word', () => {
    expect(askedFor(findings, 'fail', '')).toEqual(findings.filter((each) => each.verdict === 'fail'));
    const found = askedFor(findings, null, '  DS-2 shield ');
    expect(found.length).toBeGreaterThan(0);
    expect(found.length).toBeLessThan(findings.length);
    expect(askedFor(findings, null, 'no such word')).toEqual([]);
  });
});

describe('questions', () => {
  const open = findings.filter((each) => each.verdict === 'open');
  const asked = questionsOf(open);
  it('ask for every missing value once, of every part that lacks it', () => {
    const wanted = new Set(open.flatMap((each) => each.missing.map(({ ask, id, field }) => `${ask}/${id}/${field}`)));
    const put = asked.flatMap(({ ask, questions }) =>
      questions.flatMap(({ parts }) => parts.map(({ id, field }) => `${ask}/${id}/${field}`)),
    );
    expect(put.length).toBe(new Set(put).size);
    expect(new Set(put)).toEqual(wanted);
  });
  it('go as text with all names in it', () => {
    const text = questionsText('A site', asked);
    for (const { ask, questions } of asked) {
      expect(text).toContain(`To ask: ${ask}\n`);
      for (const { label } of questions) expect(text).toContain(`- ${label}: `);
    }
  });
});

describe('what a browser kept', () => {
  it('is taken where it is understood, and nothing else', () => {
    expect(choiceOf('{"grouping":"run","verdict":"open"}')).toEqual({ grouping: 'run', verdict: 'open' });
    for (const text of [null, '', 'null', '7', '{', '{"grouping":"toString","verdict":3}'])
      expect(choiceOf(text)).toEqual({ grouping: 'none', verdict: null });
  });
});
