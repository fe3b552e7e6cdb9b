/**
 * What a page writes while it is being left. Its transaction may have to wait for one before it, and the browser rolls back whatever has not
 * ended when the page goes: so the same state is put into local storage as well, which takes it at once, and the next page brings it back
 * under the same key. Where the transaction did end, that changes nothing.
 */

const LEFT = 'copperline.left/';

/** Whether there was room for it. */
export function leave(key: string, state: unknown): boolean {
  try {
    localStorage.setItem(LEFT + key, JSON.stringify(state));
    return true;
  } catch {
    // Full, or forbidden: the transaction is on its way all the same.
    return false;
  }
}

export function forgetLeft(key: string): void {
  localStorage.removeItem(LEFT + key);
}

/** Hands over each state that was left behind; what cannot be put back now stays for the next time. */
export async function bringBack(put: (key: string, state: unknown) => Promise<void>): Promise<void> {
  for (const key of leftKeys()) {
    try {
      await put(key, JSON.parse(localStorage.getItem(LEFT + key) ?? ''));
      forgetLeft(key);
    } catch {
      // Whoever writes next says that there is no room; what is kept can be read without it.
    }
  }
}

function leftKeys(): readonly string[] {
  try {
    return Object.keys(localStorage).flatMap((key) => (key.startsWith(LEFT) ? [key.slice(LEFT.length)] : []));
  } catch {
    return [];
  }
}
