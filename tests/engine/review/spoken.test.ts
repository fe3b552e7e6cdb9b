import { describe, expect, it } from 'vitest';
import { createReviewer, type LineUp, sayIn } from '../../../engine/index.ts';
import { createSpeaker, review } from '../../../engine/review/spoken.ts';
import { manyRuns, withLongerLead } from '../manyRuns.ts';

/** The same findings in the words of the project, and the same objects while nothing was judged anew. */

const us = manyRuns(1);
const inIec = (lineUp: LineUp): LineUp => ({ ...lineUp, project: { ...lineUp.project, title: 'x', vocabulary: 'iec' } });
const iec = inIec(us);
const texts = (findings: readonly { readonly text: string }[]) => findings.map(({ text }) => text);

describe('a review in words', () => {
  it('of the NEC is the engine’s own', () => {
    expect(review(us)).toEqual(createReviewer().review(us));
  });
  it('of the IEC says each sentence otherwise, and judges alike', () => {
    const [said, thought] = [review(iec), createReviewer().review(iec)];
    expect(texts(said.findings)).toEqual(texts(thought.findings).map(sayIn('iec')));
    expect(texts(said.findings)).not.toEqual(texts(thought.findings));
    const { findings: _said, ...told } = said;
    const { findings: _thought, ...meant } = thought;
    expect(told).toEqual(meant);
  });
  it('keeps the list while nothing is judged anew, and each finding that came out as before', () => {
    const speaker = createSpeaker();
    const before = speaker.review(iec);
    const moved = speaker.review({ ...iec, positions: { e1: { x_mm: 1, y_mm: 1 } } });
    expect(moved.findings).toBe(before.findings);
    expect([moved.recomputed, before.recomputed > 0]).toEqual([0, true]);
    const edited = speaker.review(withLongerLead(iec, 47));
    expect(edited.findings).not.toBe(before.findings);
    const same = new Set(before.findings);
    const kept = edited.findings.filter((each) => same.has(each)).length;
    expect(kept).toBeGreaterThan(0);
    expect(kept).toBe(edited.findings.length - edited.recomputed);
  });
  it('is said anew when the words change, be it the project’s or what the user wrote', () => {
    const speaker = createSpeaker();
    speaker.review(iec);
    // A note that nobody judges, and a word of which is the user’s from now on.
    const noted: LineUp = { ...iec, notes: [{ id: 'n1', says: 'shield' }] };
    expect(texts(speaker.review(noted).findings)).toEqual(texts(createSpeaker().review(noted).findings));
    expect(texts(speaker.review(noted).findings)).not.toEqual(texts(review(iec).findings));
    expect(texts(speaker.review(us).findings)).toEqual(texts(createReviewer().review(us).findings));
    const named = inIec({ ...us, elements: us.elements.map((each) => (each.tag === 'M-1' ? { ...each, tag: 'Shield 1' } : each)) });
    const said = speaker.review(named).findings;
    expect(texts(said)).toEqual(texts(createSpeaker().review(named).findings));
    expect(texts(said).some((text) => text.includes('Shield 1'))).toBe(true);
    expect(texts(said).some((text) => text.includes('Screen 1'))).toBe(false);
    expect(speaker.review(iec).findings).toEqual(review(iec).findings);
  });
});
