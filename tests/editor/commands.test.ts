import { describe, expect, it } from 'vitest';
import { GROUPS } from '../../editor/commands/command.ts';
import { COMMANDS } from '../../editor/commands/commands.ts';
import { keyOf, keyText } from '../../editor/commands/keyboard.ts';
import { ask, useDesk } from '../../editor/store/deskStore.ts';
import { useEditor } from '../../editor/store/editorStore.ts';
import { newLineUp } from '../../engine/index.ts';

/** The list of commands is sound, whoever reads it. */

describe('commands', () => {
  it('have ids and names of their own, and a group that is shown', () => {
    expect(new Set(COMMANDS.map((each) => each.id)).size).toBe(COMMANDS.length);
    expect(new Set(COMMANDS.map((each) => each.label)).size).toBe(COMMANDS.length);
    for (const { group } of COMMANDS) expect(GROUPS).toContain(group);
  });

  it('share a key only where each says when it can be done', () => {
    const byKey = new Map<string, string[]>();
    for (const { id, keys, when } of COMMANDS) for (const key of keys) if (!when) byKey.set(key, [...(byKey.get(key) ?? []), id]);
    expect([...byKey].filter(([, ids]) => ids.length > 1)).toEqual([]);
  });

  it('leave the browser its own keys', () => {
    const keys = COMMANDS.flatMap((each) => each.keys);
    for (const key of ['Ctrl+W', 'Ctrl+T', 'Ctrl+N', 'Ctrl+R', 'Ctrl+0', 'Ctrl+L', 'F5', 'F11', 'F12']) expect(keys).not.toContain(key);
  });

  it('to the start page, no list is left open that would stand over the sheet again', () => {
    ask('anything');
    COMMANDS.find((each) => each.id === 'startPage')?.run({ ...useEditor.getState(), lineUp: newLineUp('us') });
    expect(useDesk.getState().asking).toBeNull();
  });

  it('write a key as it is heard', () => {
    const heard = (key: string, held: Partial<Record<'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey', boolean>> = {}) =>
      keyOf({ key, ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...held } as KeyboardEvent);
    expect(heard('z', { ctrlKey: true, shiftKey: true })).toBe('Ctrl+Shift+Z');
    expect(heard('z', { metaKey: true })).toBe('Ctrl+Z');
    // On many keyboards a sign needs Shift: it is the sign that counts.
    expect(heard('?', { shiftKey: true })).toBe('?');
    expect(heard('+')).toBe('+');
    expect(heard(' ')).toBe('Space');
    expect(heard('ArrowUp', { shiftKey: true })).toBe('Shift+ArrowUp');
    expect(keyText('Ctrl+Shift+Z')).toBe('Ctrl Shift Z');
    expect(keyText('+')).toBe('+');
  });
});
