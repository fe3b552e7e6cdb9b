import { describe, expect, it } from 'vitest';
import { insertInto, setValue } from '../../../editor/store/edits.ts';
import { lineUpSchema } from '../../../engine/index.ts';
import { halvesOf, takeOut } from '../../../engine/lineup/takeOut.ts';
import { manyRuns } from '../manyRuns.ts';

/** A part put into a cable and taken out again. */

const site = manyRuns(1);
const whole = site.cables.find((each) => each.kind === 'cable' && each.conductor.size !== undefined && each.length_m !== undefined);
if (!whole) throw new Error('no cable');
const split = insertInto(site, whole.id, 'disconnect', { x_mm: 0, y_mm: 0 });
if (!split) throw new Error('not split');
const far = split.lineUp.cables.find((each) => each.from.element === split.id);
if (!far) throw new Error('no far half');

describe('taking a part out of a line', () => {
  it('gives back the cable with all that its halves share and its outer ends as they were landed', () => {
    const made = takeOut(split.lineUp, split.id);
    expect(made?.cable).toMatchObject({ id: whole.id, tag: whole.tag, conductor: whole.conductor, insulation: whole.insulation });
    expect([made?.cable.from, made?.cable.to]).toEqual([whole.from, whole.to]);
    expect(made?.lineUp.elements.some((each) => each.id === split.id)).toBe(false);
    expect(made?.lineUp.cables.length).toBe(site.cables.length);
  });

  it('adds the lengths up when both are known, and asks when one is not', () => {
    expect(takeOut(split.lineUp, split.id)?.asked).toContain('length_m');
    const known = setValue(setValue(split.lineUp, whole.id, 'length_m', 40), far.id, 'length_m', 2.5);
    const made = takeOut(known, split.id);
    expect(made?.cable.length_m).toBe(42.5);
    expect(made?.asked).not.toContain('length_m');
    expect(takeOut(setValue(known, far.id, 'lengthMost_m', 5), split.id)?.cable.lengthMost_m).toBe(45);
  });

  it('what the halves say differently is asked, never guessed', () => {
    const known = setValue(split.lineUp, far.id, 'conductor.size', '8 AWG');
    const made = takeOut(known, split.id);
    expect(made?.asked).toContain('conductor.size');
    expect(made?.cable.conductor.size).toBeUndefined();
    expect(made?.cable.provenance?.['conductor.size']).toBeUndefined();
    expect(lineUpSchema.safeParse(made?.lineUp).success).toBe(true);
  });

  it('only a part in a line is taken out', () => {
    const bus = site.elements.find((each) => each.kind === 'bus' || each.kind === 'supply');
    const motor = site.elements.find((each) => each.kind === 'motor');
    expect(halvesOf(site, motor?.id ?? '')).toBeNull();
    expect(halvesOf(site, bus?.id ?? '')).toBeNull();
  });
});
