import { deflateSync, Inflate } from 'fflate';
import { asLineUp, designOf, type LineUp, load, save } from '../../engine/index.ts';
import { refuse, useEditor } from '../store/editorStore.ts';

/** A line-up inside an address, behind its #: that part never leaves the browser, no server is told of it. */

const MARK = '#lineup=';
/** Longer addresses are cut off by one program or another on their way. */
const MOST_LETTERS = 64 * 1024;
/** What a line-up may hold at most, however small it was made. */
const MOST_BYTES = 10 * 1024 * 1024;
/** So much goes into the inflater at a time: no more than a thousandfold comes out before it is counted. */
const SLICE = 1024;

/** The design alone, as it would be issued: comments, issues and variants stay in the house. Null where it is too large. */
export function toFragment(lineUp: LineUp): string | null {
  const bytes = deflateSync(new TextEncoder().encode(save(asLineUp(designOf(lineUp)))), { level: 9 });
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  const fragment = `${MARK}${btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '')}`;
  return fragment.length > MOST_LETTERS ? null : fragment;
}

type FromLink = { readonly lineUp: LineUp } | { readonly why: string };

/** Reads what stands behind the # with the care that a file from a stranger gets. Null where it is no line-up at all. */
export function fromFragment(fragment: string, count: (bytes: number) => void = () => undefined): FromLink | null {
  if (!fragment.startsWith(MARK)) return null;
  const again = 'Ask for the link again, or for the file.';
  if (fragment.length > MOST_LETTERS)
    return { why: `The link is longer than the ${MOST_LETTERS / 1024} kB a link may hold. Ask for the file.` };
  const packed = fragment.slice(MARK.length);
  const parts: Uint8Array[] = [];
  let size = 0;
  let ended = false;
  try {
    const bytes = Uint8Array.from(atob(packed.replaceAll('-', '+').replaceAll('_', '/')), (letter) => letter.charCodeAt(0));
    const inflate = new Inflate((part, final) => {
      size += part.length;
      parts.push(part);
      ended = final;
    });
    for (let at = 0; at < bytes.length && size <= MOST_BYTES; at += SLICE) {
      inflate.push(bytes.subarray(at, at + SLICE), at + SLICE >= bytes.length);
      count(size);
    }
  } catch {
    ended = false;
  }
  if (size > MOST_BYTES)
    return { why: `The link unfolds to more than the ${MOST_BYTES / 1024 / 1024} MB a line-up may hold: it was left unopened.` };
  if (!ended) return { why: `The link was cut off or changed on its way. ${again}` };
  const whole = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  const loaded = load(new TextDecoder().decode(whole), 'the link');
  return loaded.ok ? { lineUp: loaded.lineUp } : { why: `${loaded.where}: ${loaded.what}. ${again}` };
}

export async function copyLink(): Promise<void> {
  const { lineUp } = useEditor.getState();
  const fragment = lineUp && toFragment(lineUp);
  if (!fragment)
    return refuse(`The line-up is too large for a link, which holds ${MOST_LETTERS / 1024} kB. Save it to a file and send that.`);
  try {
    await navigator.clipboard.writeText(location.href.replace(/#.*/, '') + fragment);
    refuse('A link that holds this line-up is on the clipboard. Comments, issues and variants are not in it.');
  } catch (fault) {
    refuse(`The link was not copied: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
}
