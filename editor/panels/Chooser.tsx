import { useEffect, useId, useRef, useState } from 'react';
import { scene } from '../commands/commands.ts';
import { keyText } from '../commands/keyboard.ts';
import { optionsFor } from '../commands/options.ts';
import { type Ask, arrange, useDesk } from '../store/deskStore.ts';

/** One list for all that is asked for by name: anything to do, a part to find, a part to add, a place to connect to. */

const TITLES: Readonly<Record<Ask, string>> = {
  anything: 'Find a tag, or do something',
  part: 'Find a part by tag, kind or note',
  add: 'Which part follows?',
  insert: 'Which part goes into the cable?',
  connect: 'Connect to which part?',
  start: 'Where does its start land?',
  end: 'Where does its end land?',
  more: 'How many more like this?',
};
const MOST = 60;

export function Chooser({ asking }: { readonly asking: Ask }) {
  const loose = useDesk((state) => state.loose);
  const dialog = useRef<HTMLDialogElement>(null);
  const list = useId();
  const [typed, setTyped] = useState('');
  const [at, setAt] = useState(0);
  const now = scene();
  useEffect(() => dialog.current?.showModal(), []);
  const options = now ? optionsFor(asking, now, typed, loose).slice(0, MOST) : [];
  const choose = (index: number) => {
    const option = options[index];
    if (!option || option.why) return;
    // Closed first: what is chosen may ask for something itself, or take the focus.
    dialog.current?.close();
    option.run();
  };
  useEffect(() => {
    document.getElementById(`${list}-${at}`)?.scrollIntoView({ block: 'nearest' });
  }, [at, list]);
  return (
    <dialog ref={dialog} className="chooser" aria-label={TITLES[asking]} onClose={() => arrange({ asking: null, loose: null })}>
      <input
        role="combobox"
        aria-expanded="true"
        aria-controls={list}
        aria-activedescendant={options[at] ? `${list}-${at}` : undefined}
        aria-label={TITLES[asking]}
        placeholder={TITLES[asking]}
        autoComplete="off"
        spellCheck={false}
        value={typed}
        onChange={(event) => {
          setTyped(event.target.value);
          setAt(0);
        }}
        onKeyDown={(event) => {
          const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
          if (step !== 0) {
            event.preventDefault();
            setAt((at + step + options.length) % Math.max(1, options.length));
          } else if (event.key === 'Enter') {
            event.preventDefault();
            choose(at);
          }
        }}
      />
      <div id={list} role="listbox" aria-label="Choices" tabIndex={-1}>
        {options.map((option, index) => (
          // The keyboard moves in the field above; the list is walked by it.
          // biome-ignore lint/a11y/useKeyWithClickEvents: Enter in the field chooses
          <div
            key={option.id}
            id={`${list}-${index}`}
            role="option"
            tabIndex={-1}
            aria-selected={index === at}
            aria-disabled={option.why !== undefined}
            onClick={() => choose(index)}
          >
            <span>
              {option.label} {option.hint && <span className="muted">{option.hint}</span>}
              {option.why && <span className="muted why">{option.why}</span>}
            </span>
            {option.key && <kbd>{keyText(option.key)}</kbd>}
          </div>
        ))}
        {options.length === 0 && <p className="muted">{asking === 'more' ? 'Type a number, such as 11.' : 'Nothing is called that.'}</p>}
      </div>
    </dialog>
  );
}
