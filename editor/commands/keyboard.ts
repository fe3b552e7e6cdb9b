import { desk } from '../store/deskStore.ts';
import type { Command } from './command.ts';
import { COMMANDS, canRun, perform, scene } from './commands.ts';

/** The one place that hears keys. Which key does what is said by the commands. */

/** As commands write it: 'Ctrl+Shift+Z', 'Shift+ArrowUp', '?'. Shift is not named where it only makes another sign. */
export function keyOf(event: KeyboardEvent): string {
  const key = event.key === ' ' ? 'Space' : event.key.length === 1 ? event.key.toUpperCase() : event.key;
  const letter = /^[A-Z]$/.test(key) || key.length > 1;
  return [event.ctrlKey || event.metaKey ? 'Ctrl' : '', event.altKey ? 'Alt' : '', event.shiftKey && letter ? 'Shift' : '', key]
    .filter(Boolean)
    .join('+');
}

const isLetter = (key: string): boolean => key.replace('Shift+', '').length === 1;

/** What the element under the focus does with the key by itself. */
function ownKey(target: Element | null, key: string): boolean {
  if (key === 'Escape' || isLetter(key)) return false;
  if (!target?.closest('button, a, summary, [role="menu"], [role="listbox"]')) return false;
  return /^(Shift\+)?(Enter|Space|Arrow\w+)$/.test(key);
}

/** The list is the browser's own and kept by it: to search a large sheet at every key would take half of a key's time. */
const dialogOpen = (): boolean => Array.from(document.getElementsByTagName('dialog')).some(({ open }) => open);

export function onKey(event: KeyboardEvent): void {
  // The sheet keeps the page from scrolling by the space bar, and leaves it to the commands all the same.
  const taken = event.defaultPrevented && event.key !== ' ';
  if (event.isComposing || taken || dialogOpen()) return;
  const target = event.target instanceof Element ? event.target : null;
  // For a moment the focus stays in a dialog that has just been closed: nothing is typed there.
  const typing = target?.closest('input, select, textarea') != null && target.closest('dialog') === null;
  const clean = target?.closest('select, [data-clean="true"]') != null;
  const key = keyOf(event);
  // The browser closes by itself what hangs from the head.
  if (key === 'Escape' && document.querySelector(':popover-open')) return;
  if (ownKey(target, key) || (isLetter(key) && !desk().letters)) return;
  const now = scene();
  const heard = (command: Command): boolean =>
    command.keys.includes(key) &&
    command.native !== true &&
    (!typing || command.typing === 'always' || (command.typing === 'clean' && clean)) &&
    canRun(command, now);
  const command = COMMANDS.find(heard);
  if (!command) return;
  event.preventDefault();
  perform(command, now);
}

const SIGNS: Readonly<Record<string, string>> = {
  ArrowUp: '↑',
  ArrowDown: '↓',
  ArrowLeft: '←',
  ArrowRight: '→',
  Delete: 'Del',
  Escape: 'Esc',
};
/** As it is printed beside a command: 'Ctrl Shift Z'. */
export const keyText = (key: string): string =>
  key
    .split(/\+(?=.)/)
    .map((each) => SIGNS[each] ?? each)
    .join(' ');
export const tooltip = ({ label, keys }: Command): string => (keys[0] ? `${label} (${keyText(keys[0])})` : label);
