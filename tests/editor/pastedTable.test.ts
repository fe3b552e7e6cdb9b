import { describe, expect, it } from 'vitest';
import { readTable, takeTable } from '../../editor/panels/pastedTable.ts';
import { type LineUp, lineUpSchema } from '../../engine/index.ts';
import { threeRuns } from '../engine/drawing/threeRuns.ts';

/** Rows from a spreadsheet: read cell by cell, wrong ones named, right ones taken. */

const lineUp: LineUp = threeRuns();
const cable = (from: LineUp, tag: string) => from.cables.find((each) => each.tag === tag);

describe('pasted rows', () => {
  it('under names of columns, or a beginning of them, in any order', () => {
    const pasted = readTable(lineUp, 'cable', 'Length, one way\tTag\tConductor m\n120 ft\tW-3A\taluminium\n\t\t\n"5,5 m"\tW-3B\t\n');
    expect([pasted.right, pasted.wrong]).toEqual([3, 0]);
    const next = takeTable(lineUp, pasted);
    expect(cable(next, 'W-3A')?.length_m).toBeCloseTo(36.576, 9);
    expect(cable(next, 'W-3A')?.conductor?.metal).toBe('aluminium');
    expect(cable(next, 'W-3A')?.provenance?.['length_m']).toEqual({ origin: 'entered', typed: '120 ft' });
    expect(cable(next, 'W-3B')?.length_m).toBe(5.5);
    expect(cable(next, 'W-3B')?.conductor?.metal).toBe(cable(lineUp, 'W-3B')?.conductor?.metal);
  });
  it('with metals as the trade writes them', () => {
    for (const [sign, metal] of [
      ['Cu', 'copper'],
      ['AL', 'aluminium'],
      ['aluminum', 'aluminium'],
    ])
      expect(cable(takeTable(lineUp, readTable(lineUp, 'cable', `Tag\tConductor metal\nW-3A\t${sign}`)), 'W-3A')?.conductor?.metal).toBe(
        metal,
      );
    expect(readTable(lineUp, 'cable', 'Tag\tConductor metal\nW-3A\tAg').wrong).toBe(1);
  });
  it('under a short name, as the column of the table is meant that begins so', () => {
    const pasted = readTable(lineUp, 'cable', 'Tag\tLength\tInsulation\tConductor\nW-3A\t120 ft\tXHHW-2\t2 AWG');
    // Of conductors the table has two columns.
    expect([pasted.right, pasted.wrong]).toEqual([2, 1]);
    expect(cable(takeTable(lineUp, pasted), 'W-3A')).toMatchObject({ insulation: { type: 'XHHW-2' }, length_m: expect.closeTo(36.576, 9) });
  });
  it('with semicolons, as where a comma is the decimal sign', () => {
    for (const text of ['Tag;Length, one way;Note\nW-3B;5,5 m;"a; b, c"', 'W-3B;5,5 m'])
      expect(cable(takeTable(lineUp, readTable(lineUp, 'cable', text)), 'W-3B')?.length_m).toBe(5.5);
    const note = readTable(lineUp, 'cable', 'Tag,Note,"Length, one way"\nW-3B,"a; b, c",5.5 m');
    expect(cable(takeTable(lineUp, note), 'W-3B')).toMatchObject({ note: 'a; b, c', length_m: 5.5 });
  });
  it('without names stand in the order of the table', () => {
    const next = takeTable(lineUp, readTable(lineUp, 'motor', 'M-1\t75 hp\t460 V\r\nM-2\t\t575 V\r\n'));
    const motor = (tag: string) => next.elements.find((each) => each.tag === tag);
    expect(motor('M-1')).toMatchObject({ ratedVoltage_V: 460 });
    expect(motor('M-2')).toMatchObject({ ratedVoltage_V: 575, ratedPower_W: 44_742 });
  });
  it('say of every wrong cell what is wrong, and leave it out', () => {
    const pasted = readTable(
      lineUp,
      'cable',
      'Tag\tLength, one way\tConductor metal\tColour\nW-1A\tfar\tgold\tred\nW-1B\t-5 m\tcopper\t\nX-9\t3 m\t\t\nW-1B\t7 m\t\t',
    );
    const said = pasted.rows.map(({ bad, cells }) => [bad, ...cells.map(({ entry }) => (entry.ok ? null : entry.what))]);
    expect(said[0]?.[1]).not.toBeNull();
    expect(said[0]?.[2]).toBe('“gold” is none of: copper, aluminium');
    expect(said[0]?.[3]).toBe('No column is called so');
    expect(said[1]?.[1]).not.toBeNull();
    expect(said[2]?.[0]).toBe('No cable is called “X-9”: draw it first');
    expect(said[3]?.[0]).toBe('Stands twice');
    expect([pasted.right, pasted.wrong]).toEqual([1, 6]);
    expect(readTable(lineUp, 'cable', 'Tag\tLength, one way\n\t3 m').rows[0]?.bad).toBe('No tag stands here');
    const next = takeTable(lineUp, pasted);
    expect(lineUpSchema.safeParse(next).success).toBe(true);
    expect(cable(next, 'W-1B')).toMatchObject({ conductor: { metal: 'copper' }, length_m: 4.6 });
    expect(cable(next, 'W-1A')).toEqual(cable(lineUp, 'W-1A'));
  });
  it('that hold nothing change nothing', () => {
    const pasted = readTable(lineUp, 'drive', '\n\t\n');
    expect([pasted.rows.length, pasted.right, pasted.wrong]).toEqual([0, 0, 0]);
    expect(takeTable(lineUp, pasted)).toBe(lineUp);
  });
});
