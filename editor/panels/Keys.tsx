import { GROUPS } from '../commands/command.ts';
import { COMMANDS } from '../commands/commands.ts';
import { keyText } from '../commands/keyboard.ts';
import { arrange, setLetters, useDesk } from '../store/deskStore.ts';
import { useSay } from '../store/useSay.ts';
import { Dialog } from './Dialog.tsx';

/** What no command can be asked for by name, because a hand does it. */
const HANDS: readonly (readonly [string, string])[] = [
  ['Zoom at the pointer', 'Wheel'],
  ['Move the sheet', 'Space and drag, middle button, two fingers'],
  ['Choose what a frame touches', 'Drag on the empty sheet'],
  ['Choose besides', 'Shift or Ctrl and click'],
  ['Copy while moving', 'Alt and drag'],
  ['Rename', 'Double click'],
  ['What can be done here', 'Right button, long press, menu key'],
];

/** All keys, as the commands have them. */
export default function Keys() {
  const say = useSay();
  const letters = useDesk((state) => state.letters);
  return (
    <Dialog title="All keys" className="keys" onClose={() => arrange({ keysShown: false })}>
      <label className="switch">
        <input type="checkbox" checked={letters} onChange={({ target }) => setLetters(target.checked)} /> Keys that are a single letter or
        sign
      </label>
      <div className="columns">
        {GROUPS.map((group) => (
          <section key={group}>
            <h3>{group}</h3>
            <dl>
              {COMMANDS.filter((command) => command.group === group && command.keys.length > 0).map((command) => (
                <div key={command.id}>
                  <dt>{say(command.label)}</dt>
                  <dd>
                    {command.keys.map((key) => (
                      <kbd key={key}>{keyText(key)}</kbd>
                    ))}
                  </dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
        <section>
          <h3>By hand</h3>
          <dl>
            {HANDS.map(([what, how]) => (
              <div key={what}>
                <dt>{what}</dt>
                <dd>{how}</dd>
              </div>
            ))}
          </dl>
        </section>
      </div>
    </Dialog>
  );
}
