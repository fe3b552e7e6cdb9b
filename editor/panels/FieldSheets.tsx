import { useState } from 'react';
import { inWords, type LineUp, sayOf } from '../../engine/index.ts';
import { fieldSheet } from '../../engine/submittal/formats.ts';
import { Blocks } from './Blocks.tsx';

/** One cable for the hand that lands it: what it is, its two ends as drawings, the steps, and what to mind. */
export default function FieldSheets({ lineUp }: { readonly lineUp: LineUp }) {
  const cables = lineUp.cables.filter((each) => each.kind === 'cable');
  const [chosen, setChosen] = useState('');
  const cable = cables.find((each) => each.id === chosen) ?? cables[0];
  if (!cable) return <p className="muted">There is no cable yet.</p>;
  return (
    <>
      <label className="ask">
        Field sheet of{' '}
        <select value={cable.id} onChange={({ target }) => setChosen(target.value)}>
          {cables.map(({ id, tag }) => (
            <option key={id} value={id}>
              {tag}
            </option>
          ))}
        </select>
      </label>
      <Blocks blocks={inWords(fieldSheet(lineUp, cable), sayOf(lineUp))} />
    </>
  );
}
