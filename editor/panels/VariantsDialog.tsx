import { useEffect, useState } from 'react';
import {
  asLineUp,
  type Compared,
  type Design,
  deleteVariant,
  designOf,
  freeName,
  type LineUp,
  load,
  type Review,
  renameVariant,
  setAside,
  swapVariant,
  type Variant,
  variantsOf,
} from '../../engine/index.ts';
import { edit, useEditor } from '../store/editorStore.ts';
import { Dialog } from './Dialog.tsx';
import { useAnswer } from './useAnswer.ts';
import { VariantsTable } from './VariantsTable.tsx';
import { Waiting } from './Waiting.tsx';

/** The present line-up, its variants and a file opened for it, side by side. */

/** A design is never changed, only replaced: what was said of it holds as long as it is there. */
const said = new WeakMap<Design, Review>();

interface Beside {
  readonly name: string;
  readonly design: Design;
}

export default function VariantsDialog({ lineUp, onClose }: { readonly lineUp: LineUp; readonly onClose: () => void }) {
  const review = useEditor((state) => (state.stale ? null : state.review));
  const [file, setFile] = useState<Beside | null>(null);
  const [refusal, setRefusal] = useState('');
  const [, setHeard] = useState(0);
  const variants = variantsOf(lineUp);
  const beside: readonly Beside[] = [...variants, ...(file ? [file] : [])];
  const waitedFor = beside.filter(({ design }) => !said.has(design));
  const compared: Compared[] = beside.flatMap(({ name, design }) => {
    const answer = said.get(design);
    return answer ? [{ name, lineUp: asLineUp(design), review: answer }] : [];
  });
  const open = async (chosen: File | undefined) => {
    if (!chosen) return;
    const loaded = load(await chosen.text(), chosen.name);
    setFile(loaded.ok ? { name: chosen.name.replace(/\.json$/i, ''), design: designOf(loaded.lineUp) } : null);
    setRefusal(loaded.ok ? '' : `${loaded.where}: ${loaded.what}. ${loaded.mend}`);
  };
  const keepSaid = (next: LineUp) => {
    const present = variantsOf(next).find(({ design }) => design.elements === lineUp.elements);
    if (present && review) said.set(present.design, review);
    return next;
  };
  return (
    <Dialog title={`Variants of ${lineUp.project.title}`} label="Variants" className="sizes variants" onClose={onClose}>
      <div className="acts">
        <button type="button" onClick={() => edit('Set aside as a variant', (before) => keepSaid(setAside(before, freeName(before))))}>
          Set this aside as a variant
        </button>
        <label>
          Compare with a file
          <input type="file" accept=".json" onChange={(event) => void open(event.target.files?.[0])} />
        </label>
      </div>
      {refusal !== '' && <p role="status">{refusal}</p>}
      {variants.length + (file ? 1 : 0) === 0 && (
        <p className="reason">Nothing is set aside yet. Set the line-up aside as it is, change it, and see here what that moves.</p>
      )}
      {(variants.length > 0 || file) && (
        <ul aria-label="Set aside">
          {variants.map((variant) => (
            <li key={variant.id} className="acts">
              <VariantActs
                variant={variant}
                swap={() => edit(`Swap with ${variant.name}`, (before) => keepSaid(swapVariant(before, variant.id)), { select: [] })}
              />
            </li>
          ))}
          {file && (
            <li className="acts">
              <b>{file.name}</b> <span className="muted">from a file</span>
              <button
                type="button"
                onClick={() => {
                  edit(`Set ${file.name} aside`, (before) => setAside(before, file.name, file.design));
                  setFile(null);
                }}
              >
                Keep it as a variant
              </button>
              <button type="button" onClick={() => setFile(null)}>
                Put it away
              </button>
            </li>
          )}
        </ul>
      )}
      {waitedFor.map(({ design, name }) => (
        <Judging
          key={name}
          design={design}
          hear={(answer) => {
            said.set(design, answer);
            setHeard((before) => before + 1);
          }}
        />
      ))}
      {!review && <Waiting word={{ judged: 0 }} />}
      {review && compared.length > 0 && waitedFor.length === 0 && (
        <VariantsTable compared={[{ name: 'Present', lineUp, review }, ...compared]} />
      )}
    </Dialog>
  );
}

/** Judges one design on a thread of its own. */
function Judging({ design, hear }: { readonly design: Design; readonly hear: (review: Review) => void }) {
  const word = useAnswer('judged', asLineUp(design), []);
  const answer = 'answer' in word ? word.answer : null;
  useEffect(() => {
    if (answer) hear(answer);
  });
  return 'answer' in word ? null : <Waiting word={word} />;
}

function VariantActs({ variant: { id, name }, swap }: { readonly variant: Variant; readonly swap: () => void }) {
  const rename = (typed: string) => {
    const next = typed.trim();
    if (next !== '' && next !== name) edit(`Rename ${name}`, (before) => renameVariant(before, id, next));
  };
  return (
    <>
      <input
        key={name}
        aria-label={`Name of ${name}`}
        defaultValue={name}
        maxLength={200}
        onBlur={({ target }) => rename(target.value)}
        onKeyDown={({ key, currentTarget }) => key === 'Enter' && currentTarget.blur()}
      />
      <button type="button" aria-label={`Swap with the present one: ${name}`} onClick={swap}>
        Swap with the present one
      </button>
      <button type="button" aria-label={`Delete ${name}`} onClick={() => edit(`Delete ${name}`, (before) => deleteVariant(before, id))}>
        Delete
      </button>
    </>
  );
}
