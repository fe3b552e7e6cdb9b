import { deflateSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { fromFragment, toFragment } from '../../editor/files/link.ts';
import { addComment, type LineUp, newLineUp, save } from '../../engine/index.ts';
import { threeRuns } from '../engine/drawing/threeRuns.ts';
import { manyRuns } from '../engine/manyRuns.ts';
import { textFields, withTexts } from '../hostile/document.ts';
import { HOSTILE } from '../hostile/strings.ts';

/** A line-up inside an address. */

const pack = (bytes: Uint8Array): string => `#lineup=${Buffer.from(deflateSync(bytes, { level: 9 })).toString('base64url')}`;
const text = (of: string): Uint8Array => new TextEncoder().encode(of);
const opened = (fragment: string): LineUp => {
  const found = fromFragment(fragment);
  if (!found || 'why' in found) throw new Error(found?.why ?? 'no line-up');
  return found.lineUp;
};
const why = (fragment: string): string => {
  const found = fromFragment(fragment);
  return found && 'why' in found ? found.why : 'opened';
};

describe('a link', () => {
  it('gives the design back to the byte, and nothing that stays in the house', () => {
    const lineUp = addComment(threeRuns(), { says: 'between us' });
    const fragment = toFragment(lineUp) ?? '';
    expect(fragment).toMatch(/^#lineup=[A-Za-z0-9_-]+$/);
    expect(save(opened(fragment))).toBe(save(threeRuns()));
  });
  it('is none where the line-up is too large for one', () => {
    // What repeats packs well: each part says something of its own.
    const many = manyRuns(300);
    const noisy = { ...many, elements: many.elements.map((each, i) => ({ ...each, note: `${Math.sin(i)}${Math.cos(i)}${Math.sqrt(i)}` })) };
    expect(toFragment(noisy)).toBe(null);
  });
  it('carries any text', () => {
    const fields = [...textFields()];
    for (let turn = 0; turn < HOSTILE.length; turn += 12) {
      const lineUp = withTexts(
        new Map(fields.map(([path, most], i) => [path, (HOSTILE[(i + turn) % HOSTILE.length] ?? '').slice(0, Math.min(most, 200)) || 'a'])),
      );
      const fragment = toFragment(lineUp);
      if (fragment) expect(opened(fragment).elements.map((each) => each.tag)).toEqual(lineUp.elements.map((each) => each.tag));
    }
  });
});

describe('an address that someone made', () => {
  it('of another kind is left alone', () => {
    for (const each of ['', '#', '#part-3', '#lineup']) expect(fromFragment(each)).toBe(null);
  });
  it('is unfolded no further than a line-up may be, however far it would go', () => {
    // 48 MB of blanks in 47 kB.
    const bomb = pack(new Uint8Array(48 * 1024 * 1024).fill(32));
    expect(bomb.length).toBeLessThan(64 * 1024);
    let most = 0;
    const found = fromFragment(bomb, (bytes) => {
      most = bytes;
    });
    expect(found && 'why' in found && found.why).toContain('more than the 10 MB');
    expect(most).toBeLessThan(12 * 1024 * 1024);
  });
  it('is refused where it is too long, cut off, changed, or no line-up', () => {
    expect(why(`#lineup=${'A'.repeat(64 * 1024)}`)).toContain('longer than');
    const good = toFragment(threeRuns()) ?? '';
    for (let at = good.length - 1; at > 8; at -= 97) expect(why(good.slice(0, at))).not.toBe('opened');
    expect(why('#lineup=')).toContain('cut off');
    expect(why('#lineup=%3Cscript%3E')).toContain('cut off');
    expect(why(pack(text('<script>')))).toContain('no line-up');
    expect(why(pack(text('{}')))).toContain('format');
    expect(why(pack(text(`${'['.repeat(100_000)}`)))).toContain('nested');
    expect(why(pack(text(save(newLineUp()).replace('"version": 1', '"version": 9'))))).toContain('newer program');
  });
  it('changes nothing that all objects share', () => {
    opened(pack(text(save(newLineUp()).replace('{', '{"__proto__":{"ran":1},"constructor":{"prototype":{"ran":1}},'))));
    expect('ran' in {}).toBe(false);
  });
});
