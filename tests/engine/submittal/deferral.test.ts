import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { addNote, type LineUp, load } from '../../../engine/index.ts';
import { notCovered } from '../../../engine/submittal/deferral.ts';

/** What is not covered, and what the line-up itself asks to be told of first. */

const loaded = load(readFileSync(new URL('../../../examples/alder-mill-fan.json', import.meta.url), 'utf8'));
if (!loaded.ok) throw new Error(loaded.what);
const mill = loaded.lineUp;
const first = (lineUp: LineUp): readonly string[] => notCovered(lineUp).rows[0] ?? [];

describe('hazardous areas', () => {
  it.each([
    'Wood dust settles on M-1.',
    'The room is dusty',
    'Natural gas train beside the fan',
    'Class II, Division 2, Group G',
    'Zone 22 within 1 m of the filter',
    'motor marked Ex eb',
    'flammable vapours from the coater',
  ])('stand in front where a note says: %s', (says) => {
    const [subject, why] = first(addNote(mill, says));
    expect(subject).toBe('Hazardous areas');
    expect(why).toContain('Named here by note 1, and not judged');
    expect(notCovered(addNote(mill, says)).rows).toHaveLength(notCovered(mill).rows.length);
  });
  it('and where a part says so, by its tag', () => {
    const elements = mill.elements.map((each) => (each.tag === 'M-1' ? { ...each, note: 'explosive atmosphere' } : each));
    expect(first({ ...mill, elements })[1]).toContain('Named here by M-1,');
  });
  it.each(['Gasket at the gland', 'class J fuses', 'Class 2 control circuit', 'drawn in sections', 'delivered ex works', ''])(
    'stay in their place where none is spoken of: %s',
    (says) => expect(first(says ? addNote(mill, says) : mill)[0]).toBe('Arc flash'),
  );
});
