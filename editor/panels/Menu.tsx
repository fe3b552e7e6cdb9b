import { useEffect, useRef } from 'react';
import { COMMANDS, canRun, perform, scene } from '../commands/commands.ts';
import { keyText } from '../commands/keyboard.ts';
import { view } from '../sheet/view.ts';
import { arrange } from '../store/deskStore.ts';
import { useSay } from '../store/useSay.ts';

/** What can be done with the chosen parts, at the place where it was asked. */
export default function Menu({ x, y }: { readonly x: number; readonly y: number }) {
  const say = useSay();
  const menu = useRef<HTMLDivElement>(null);
  const now = scene();
  const commands = COMMANDS.filter((command) => command.inMenu && canRun(command, now));
  const close = () => {
    arrange({ menu: null });
    const id = now?.selected[0];
    if (id) view()?.focus(id);
  };
  useEffect(() => {
    const box = menu.current;
    if (!box) return;
    // It stays on the screen wherever it was asked for.
    box.style.left = `${Math.max(4, Math.min(x, window.innerWidth - box.offsetWidth - 4))}px`;
    box.style.top = `${Math.max(4, Math.min(y, window.innerHeight - box.offsetHeight - 4))}px`;
    box.querySelector('button')?.focus();
    const away = (event: PointerEvent) => event.target instanceof Node && !box.contains(event.target) && arrange({ menu: null });
    window.addEventListener('pointerdown', away, true);
    return () => window.removeEventListener('pointerdown', away, true);
  }, [x, y]);
  return (
    <div
      ref={menu}
      className="menu"
      role="menu"
      aria-label="What can be done"
      tabIndex={-1}
      onKeyDown={(event) => {
        const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
        if (event.key === 'Escape' || event.key === 'Tab') close();
        else if (step === 0) return;
        else {
          const buttons = [...(menu.current?.querySelectorAll('button') ?? [])];
          const at = buttons.indexOf(document.activeElement as HTMLButtonElement);
          buttons[(at + step + buttons.length) % buttons.length]?.focus();
        }
        event.preventDefault();
        event.stopPropagation();
      }}
    >
      {commands.map((command) => (
        <button
          key={command.id}
          type="button"
          role="menuitem"
          onClick={() => {
            close();
            perform(command, scene());
          }}
        >
          {say(command.label)}
          {command.keys[0] && <kbd>{keyText(command.keys[0])}</kbd>}
        </button>
      ))}
    </div>
  );
}
