import { describe, expect, it } from 'vitest';
import { createReviewer, type LineUp, newLineUp, sayIn, TERMS } from '../../../engine/index.ts';
import { createSpeaker, review } from '../../../engine/review/spoken.ts';
import { bareCable, barePart as part } from '../bareParts.ts';

/** The same findings in the words of the project, and the same objects while nothing was judged anew. */

const blank = newLineUp();
const us: LineUp = {
  ...blank,
  project: { ...blank.project, title: 'x' },
  elements: [part('supply', 's'), part('bus', 'b'), part('bus', 'c')],
  cables: [bareCable('w', 's', 'b'), bareCable('v', 's', 'c')],
};
const iec: LineUp = { ...us, project: { ...us.project, vocabulary: 'iec' } };
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
    const edited = speaker.review({ ...iec, elements: iec.elements.map((each) => (each.id === 'c' ? { ...each, note: 'x' } : each)) });
    expect(edited.findings).not.toBe(before.findings);
    const same = new Set(before.findings);
    const kept = edited.findings.filter((each) => same.has(each)).length;
    expect(kept).toBeGreaterThan(0);
    expect(kept).toBe(edited.findings.length - edited.recomputed);
  });
  it('is said anew when a note, which nobody judges, makes words the user’s own', () => {
    const noted: LineUp = { ...iec, notes: TERMS.map(([term], i) => ({ id: `n${i}`, says: term })) };
    const speaker = createSpeaker();
    const before = texts(speaker.review(iec).findings);
    const after = texts(speaker.review(noted).findings);
    expect(after).toEqual(texts(createSpeaker().review(noted).findings));
    expect(after).not.toEqual(before);
    expect(texts(speaker.review(iec).findings)).toEqual(before);
  });
  it('follows the project from one vocabulary to the other', () => {
    const speaker = createSpeaker();
    speaker.review(iec);
    expect(texts(speaker.review(us).findings)).toEqual(texts(review(us).findings));
    expect(texts(speaker.review(iec).findings)).toEqual(texts(review(iec).findings));
  });
});
