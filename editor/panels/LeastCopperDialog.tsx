import { useState } from 'react';
import type { LineUp } from '../../engine/index.ts';
import { takeFix } from '../store/editorStore.ts';
import { Dialog } from './Dialog.tsx';
import { LeastSizes } from './LeastSizes.tsx';

/** Which cables keep their size, and then the least conductor that passes for all others together. */
export default function LeastCopperDialog({ lineUp, onClose }: { readonly lineUp: LineUp; readonly onClose: () => void }) {
  const cables = lineUp.cables.filter(({ kind }) => kind === 'cable');
  const [locked, setLocked] = useState(() => cables.filter(({ installation }) => installation.existing).map(({ id }) => id));
  const [asked, setAsked] = useState(false);
  const keep = (id: string, kept: boolean) => {
    setLocked(kept ? [...locked, id] : locked.filter((each) => each !== id));
    setAsked(false);
  };
  return (
    <Dialog title="Least copper" className="sizes" onClose={onClose}>
      {(close) => (
        <>
          <p className="reason">
            The sizes with the least conductor to which no check objects that a size can satisfy, for all cables together.
          </p>
          <fieldset>
            <legend>Bought or laid: these keep their size</legend>
            {cables.map(({ id, tag }) => (
              <label key={id}>
                <input type="checkbox" checked={locked.includes(id)} onChange={({ target }) => keep(id, target.checked)} /> {tag}
              </label>
            ))}
          </fieldset>
          {!asked && (
            <button type="button" className="main" onClick={() => setAsked(true)}>
              Find them
            </button>
          )}
          {asked && (
            <LeastSizes
              lineUp={lineUp}
              locked={locked}
              stop={() => setAsked(false)}
              take={(edits) => {
                takeFix({ label: 'Least copper', edits });
                close();
              }}
            />
          )}
        </>
      )}
    </Dialog>
  );
}
