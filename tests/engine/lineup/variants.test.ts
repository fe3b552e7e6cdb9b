import { describe, expect, it } from 'vitest';
import {
  asLineUp,
  deleteVariant,
  designOf,
  freeName,
  type LineUp,
  load,
  renameVariant,
  save,
  setAside,
  swapVariant,
  variantsOf,
} from '../../../engine/index.ts';
import { readExample } from '../sizing/readExample.ts';

const present = readExample('heron-weir-pumps');
const longer: LineUp = { ...present, cables: present.cables.map((each) => ({ ...each, length_m: (each.length_m ?? 0) + 10 })) };

describe('a design', () => {
  it('is the line-up without what is kept beside it, and a line-up again by itself', () => {
    const kept = { ...setAside(present, 'A'), issues: [], ownField: 1 } as LineUp;
    expect(designOf(kept)).toEqual(designOf(present));
    expect(save(asLineUp(designOf(kept)))).toBe(save(present));
  });
});

describe('a variant', () => {
  const both = setAside(longer, 'as it was', designOf(present));
  it('is saved, and opens as it was', () => {
    const loaded = load(save(both));
    expect(loaded.ok && save(loaded.lineUp)).toBe(save(both));
  });
  it('swapped is present, and what was present is set aside in its place; swapped again all is as before', () => {
    const swapped = swapVariant(both, 'v1');
    expect(swapped.cables).toBe(present.cables);
    expect(variantsOf(swapped).map(({ id, name }) => [id, name])).toEqual([['v1', 'Before “as it was”']]);
    expect(variantsOf(swapped)[0]?.design.cables).toBe(longer.cables);
    expect(save(swapVariant(swapped, 'v1'))).toBe(save(both));
  });
  it('takes neither the issue of the document with it nor what the document itself holds', () => {
    const issued = { ...both, project: { ...both.project, revision: 'C' }, ownField: 1 } as LineUp;
    const swapped = swapVariant(issued, 'v1');
    expect(swapped.project.revision).toBe('C');
    expect(swapped).toMatchObject({ ownField: 1 });
  });
  it('brings its notes and moved labels, and leaves none behind that it does not have', () => {
    const noted: LineUp = { ...present, notes: [{ id: 'n1', says: 'Seal it.' }], labels: { e1: { dx_mm: 1, dy_mm: 2 } } };
    const swapped = swapVariant(setAside(noted, 'bare', designOf(present)), 'v1');
    expect([swapped.notes, swapped.labels]).toEqual([present.notes, present.labels]);
    expect(variantsOf(swapped)[0]?.design).toMatchObject({ notes: noted.notes, labels: noted.labels });
  });
  it('is renamed and deleted alone, the others staying the same objects', () => {
    const two = setAside(both, 'second');
    const renamed = renameVariant(two, 'v1', 'first');
    expect(variantsOf(renamed).map(({ name }) => name)).toEqual(['first', 'second']);
    expect(variantsOf(renamed)[1]).toBe(variantsOf(two)[1]);
    expect(variantsOf(deleteVariant(renamed, 'v1'))).toEqual([variantsOf(two)[1]]);
    expect(save(deleteVariant(setAside(present, 'A'), 'v1'))).toBe(save(present));
  });
  it('is not swapped for one that is not there; the others stay where they are', () => {
    expect(swapVariant(both, 'none')).toBe(both);
    const two = setAside(both, 'second');
    const swapped = swapVariant(two, 'v1');
    expect(variantsOf(swapped)[1]).toBe(variantsOf(two)[1]);
    expect(variantsOf(swapped).map(({ id }) => id)).toEqual(['v1', 'v2']);
    expect(deleteVariant(present, 'none')).toEqual(present);
  });
  it('has an id that none has, and a name that none has', () => {
    const two = setAside(both, freeName(both));
    expect(variantsOf(two).map(({ id, name }) => `${id} ${name}`)).toEqual(['v1 as it was', 'v2 Variant 1']);
    expect([freeName(present), freeName(two)]).toEqual(['Variant 1', 'Variant 2']);
    expect(variantsOf(setAside(deleteVariant(two, 'v1'), 'x')).map(({ id }) => id)).toEqual(['v2', 'v1']);
  });
  it('goes out under revision, date and status of the document, and those alone', () => {
    const { revision: _r, date: _d, status: _s, ...plain } = present.project;
    const bare = { ...present, project: plain };
    const dated = { ...present, project: { ...plain, revision: 'C', date: '2026-11-27', status: 'For approval', title: 'Another' } };
    const [toBare, toDated] = [
      swapVariant(setAside(dated, 'x', designOf(bare)), 'v1'),
      swapVariant(setAside(bare, 'x', designOf(dated)), 'v1'),
    ];
    expect(toBare.project).toEqual({ ...plain, revision: 'C', date: '2026-11-27', status: 'For approval' });
    expect(toDated.project).toEqual({ ...plain, title: 'Another' });
    expect(['revision', 'date', 'status'].filter((key) => key in toDated.project)).toEqual([]);
  });
  it('is called after what it made room for, by its whole name', () => {
    const named = (name: string) => variantsOf(swapVariant(setAside(present, name), 'v1'))[0]?.name;
    expect([named('A'), named('Before “A”'), named('x Before “A”'), named('Before “A” x'), named('Before “”')]).toEqual([
      'Before “A”',
      'A',
      'Before “x Before “A””',
      'Before “Before “A” x”',
      'Before “Before “””',
    ]);
  });
  it('is not set aside as the twenty-first: nothing is pushed out', () => {
    let full = present;
    for (let i = 0; i < 20; i++) full = setAside(full, `${i}`);
    expect(setAside(full, 'one more')).toBe(full);
  });
});
