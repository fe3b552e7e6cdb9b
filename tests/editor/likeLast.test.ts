import { describe, expect, it } from 'vitest';
import { connect, place } from '../../editor/store/edits.ts';
import { review, valueAt } from '../../engine/index.ts';
import { manyRuns } from '../engine/manyRuns.ts';

/** A new cable is made like the last on its side of the run, and says so. */

const site = manyRuns(2);
const idOf = (tag: string): string => site.elements.find((each) => each.tag === tag)?.id ?? '';
const placed = place(site, 'motor', { x_mm: 500, y_mm: 300 });
const joined = (from: string) => {
  const { lineUp, id } = connect(placed.lineUp, { element: idOf(from), port: 'load' }, { element: placed.id, port: 'line' });
  const cable = lineUp.cables.find((each) => each.id === id);
  if (!cable) throw new Error('not joined');
  return { lineUp, cable };
};

describe('a new cable', () => {
  it('behind a drive is like the lead that hangs on it, on a bus like a feeder', () => {
    expect(joined('VFD-1').cable.conductor).toMatchObject({ size: '2 AWG', metal: 'copper' });
    expect(joined('VFD-1').cable.construction).toBe('foil-and-braid');
    expect(joined('B-1').cable.conductor).toMatchObject({ size: '3 AWG' });
  });

  it('marks each value as assumed, and after which cable', () => {
    const { cable } = joined('VFD-1');
    expect(cable.provenance?.['conductor.size']).toEqual({ origin: 'assumed', page: 'as on W-2' });
    expect(
      Object.entries(cable.provenance ?? {}).every(([path, each]) => each.origin === 'assumed' && valueAt(cable, path) !== undefined),
    ).toBe(true);
  });

  it('asks for its length and for how it is landed', () => {
    const { cable, lineUp } = joined('VFD-1');
    // A dry place next to it says nothing of this one.
    expect([cable.installation.moisture, cable.installation.ambient_C]).toEqual([undefined, undefined]);
    expect([cable.length_m, cable.from.landing, cable.to.landing, cable.installation.sharedWith]).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
    const asked = review(lineUp).findings.flatMap((each) => each.missing.flatMap((one) => (one.id === cable.id ? [one.field] : [])));
    expect(asked).toEqual(expect.arrayContaining(['length_m', 'to.landing']));
  });
});
