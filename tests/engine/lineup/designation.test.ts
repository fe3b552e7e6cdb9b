import { describe, expect, it } from 'vitest';
import { freeTags, type LineUp, newLineUp, renumber } from '../../../engine/index.ts';
import { manyRuns } from '../manyRuns.ts';

/** Parts are named by the project's pattern. */

const patterned = (designations: LineUp['project']['designations']): LineUp => {
  const empty = newLineUp();
  return { ...empty, project: { ...empty.project, designations } };
};

describe('names of parts', () => {
  it('the usual ones where the project says nothing', () => {
    const next = freeTags(newLineUp());
    expect([next('drive'), next('drive'), next('cable'), next('motor')]).toEqual(['VFD-1', 'VFD-2', 'W-1', 'M-1']);
  });

  it('by letters, separator and figures of the project', () => {
    const next = freeTags(patterned({ separator: 'none', digits: 3, letters: { drive: 'TA', motor: 'P' } }));
    expect([next('drive'), next('motor'), next('motor'), next('bus')]).toEqual(['TA001', 'P001', 'P002', 'B001']);
    expect(freeTags(patterned({ separator: 'point' }))('motor')).toBe('M.1');
  });

  it('renumbering counts each kind from the left and down the sheet, and no link is lost', () => {
    const site = manyRuns(4);
    const motors = site.elements.filter((each) => each.kind === 'motor');
    const positions = Object.fromEntries(site.elements.map((each) => [each.id, { x_mm: 0, y_mm: 0 }]));
    motors.forEach((motor, i) => {
      positions[motor.id] = { x_mm: 300 - 100 * i, y_mm: 200 };
    });
    const made = renumber({ ...site, positions });
    const tags = made.elements.filter((each) => each.kind === 'motor').map((each) => each.tag);
    expect(tags).toEqual(['M-4', 'M-3', 'M-2', 'M-1']);
    const all = [...made.elements, ...made.cables].map((each) => each.tag);
    expect(new Set(all).size).toBe(all.length);
    expect(made.cables.map(({ from, to }) => [from.element, to.element])).toEqual(
      site.cables.map(({ from, to }) => [from.element, to.element]),
    );
    expect(renumber(made)).toBe(made);
  });
});
