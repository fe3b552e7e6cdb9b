import { useStore } from '@xyflow/react';
import type { ReactNode } from 'react';
import { commandOf, run } from '../commands/commands.ts';
import { keyText, tooltip } from '../commands/keyboard.ts';
import { arrange, useDesk } from '../store/deskStore.ts';
import { useEditor } from '../store/editorStore.ts';
import { useSay } from '../store/useSay.ts';

/** Tools are words at the foot of the sheet. */
export function Tools() {
  const say = useSay();
  const back = useEditor((state) => state.past.at(-1)?.label);
  const forth = useEditor((state) => state.future.at(-1)?.label);
  const moving = useDesk((state) => state.moving);
  const several = useDesk((state) => state.several);
  return (
    <div className="tools" role="toolbar" aria-label="Sheet">
      <Tool id="undo" off={back === undefined} more={back && say(back)}>
        Undo
      </Tool>
      <Tool id="redo" off={forth === undefined} more={forth && say(forth)}>
        Redo
      </Tool>
      <Tool id="fit">Fit</Tool>
      <Tool id="farther">−</Tool>
      <Zoom />
      <Tool id="nearer">+</Tool>
      <Tool id="tidy">Tidy</Tool>
      <Tool id="several" pressed={several}>
        Several
      </Tool>
      <Tool id="moveTo" pressed={moving}>
        Move
      </Tool>
      <Tool id="table">Table</Tool>
      <Tool id="strip">Run</Tool>
      <button
        type="button"
        className="quiet"
        title="What can be done with what is chosen (right button, or the menu key)"
        aria-haspopup="menu"
        onClick={({ currentTarget }) => {
          const { left, top } = currentTarget.getBoundingClientRect();
          arrange({ menu: { x: left, y: top } });
        }}
      >
        More…
      </button>
    </div>
  );
}

interface ToolProps {
  readonly id: string;
  readonly off?: boolean;
  readonly pressed?: boolean;
  /** What the tool would act upon. */
  readonly more?: string | undefined;
  readonly children: ReactNode;
}

function Tool({ id, off = false, pressed, more, children }: ToolProps) {
  const command = commandOf(id);
  const [key] = command.keys;
  return (
    <button
      type="button"
      className="quiet"
      disabled={off}
      aria-pressed={pressed}
      aria-keyshortcuts={key}
      title={more ? `${command.label}: ${more}${key ? ` (${keyText(key)})` : ''}` : tooltip(command)}
      onClick={() => run(id)}
    >
      {children}
    </button>
  );
}

/** The only one that follows every step of the zoom. */
function Zoom() {
  const zoom = useStore((state) => Math.round(state.transform[2] * 100));
  return (
    <button
      type="button"
      className="quiet"
      onClick={() => run('full')}
      title={tooltip(commandOf('full'))}
      aria-label={`${zoom} %, show at full size`}
    >
      {zoom} %
    </button>
  );
}
