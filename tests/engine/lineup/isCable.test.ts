import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { type LineUp, load, review } from '../../../engine/index.ts';

const text = readFileSync(join(import.meta.dirname, '../../../examples/heron-weir-pumps.json'), 'utf8');
const opened = (json: string): LineUp => {
  const loaded = load(json, 'heron');
  if (!loaded.ok) throw new Error(loaded.what);
  return loaded.lineUp;
};

it('a part that carries a field named as a cable’s stays a part, to every finding', () => {
  const plain = opened(text);
  const odd = JSON.parse(text);
  for (const element of odd.elements) Object.assign(element, { conductor: { size: '2 AWG' }, from: {}, to: {} });
  const told = (lineUp: LineUp) =>
    review(lineUp).findings.map(({ id, verdict, text: says, subject, inputs, missing }) => ({
      id,
      verdict,
      says,
      subject,
      inputs,
      missing,
    }));
  expect(told(opened(JSON.stringify(odd)))).toEqual(told(plain));
});
