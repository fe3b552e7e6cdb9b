import { type RefObject, useEffect, useState } from 'react';
import { useEditor } from '../store/editorStore.ts';

/** What the arrows do to the part under the focus: read with its name, and shown while the focus is seen. */

export const TRAVEL_ID = 'keys-travel';
export const CHOSEN_ID = 'keys-chosen';

export function Modes({ sheet }: { readonly sheet: RefObject<HTMLElement | null> }) {
  const part = usePartInFocus(sheet);
  const chosen = useEditor((state) => part !== null && state.selected.includes(part));
  return (
    <div className="modes">
      <p id={TRAVEL_ID} data-now={part !== null && !chosen}>
        Arrows go along the cables. Enter chooses.
      </p>
      <p id={CHOSEN_ID} data-now={chosen}>
        Arrows move it. Escape goes back to travelling.
      </p>
    </div>
  );
}

/** The part that has the focus with a ring round it. A key gives the ring to what a mouse put the focus on. */
function usePartInFocus(sheet: RefObject<HTMLElement | null>): string | null {
  const [part, setPart] = useState<string | null>(null);
  useEffect(() => {
    const stop = new AbortController();
    const look = ({ target }: Event): void =>
      setPart(
        target instanceof Element && target.matches('.react-flow__node:focus-visible, .react-flow__edge:focus-visible')
          ? target.getAttribute('data-id')
          : null,
      );
    for (const what of ['focusin', 'focusout', 'keyup']) sheet.current?.addEventListener(what, look, stop);
    return () => stop.abort();
  }, [sheet]);
  return part;
}
