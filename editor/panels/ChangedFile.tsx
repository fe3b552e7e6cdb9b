import { useEffect, useRef } from 'react';
import { openTheirs, saveFile } from '../files/lineUpFile.ts';
import type { Desk } from '../store/deskStore.ts';

/** Somebody else wrote the file since it was opened or saved here: nothing is written before it is known whose is to stay. */
export default function ChangedFile({ file, onClose }: { readonly file: NonNullable<Desk['changedFile']>; readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const choose = (act: () => Promise<void>) => () => {
    dialog.current?.close();
    void act();
  };
  return (
    <dialog ref={dialog} aria-label="The file was changed" onClose={onClose}>
      <h2 className="serif">{file.name} was changed elsewhere</h2>
      <p>
        It was written on {new Date(file.at).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'medium' })} by another program or
        person, after it was opened or saved here. Nothing has been written yet.
      </p>
      <div className="acts">
        <button type="button" className="main" onClick={choose(() => saveFile('anew'))}>
          Keep mine in a new file
        </button>
        <button type="button" onClick={choose(() => saveFile('overwrite'))}>
          Overwrite it with mine
        </button>
        <button type="button" onClick={choose(openTheirs)}>
          Open theirs
        </button>
        <button type="button" onClick={() => dialog.current?.close()}>
          Not now
        </button>
      </div>
      <p className="muted">When theirs is opened, yours stays in this browser and can be taken up again from the start page.</p>
    </dialog>
  );
}
