import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** Every ink on every ground it stands on: WCAG 2.2, 4.5 for text, 3 for marks and lines that carry meaning. */

const css = readFileSync(new URL('../../editor/ui/tokens.css', import.meta.url), 'utf8');
const tokensOf = (selector: string): ReadonlyMap<string, string> => {
  const start = css.indexOf(`${selector} {`);
  const block = css.slice(start, css.indexOf('}', start));
  return new Map([...block.matchAll(/--(\w+): (#[0-9a-f]{6})/g)].map((match) => [match[1] ?? '', match[2] ?? '']));
};

const luminance = (hex: string): number => {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (a: string, b: string): number => {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
};

const GROUNDS = ['canvas', 'panel', 'raised'];
const TEXT = ['ink', 'ink2', 'ink3', 'accent', 'fail', 'open', 'caution', 'note'];
const MARKS = ['copper', 'aluminium', 'rule2'];

describe.each([
  ['light', ':root'],
  ['dark', ':root[data-theme="dark"]'],
])('%s', (_name, selector) => {
  const tokens = tokensOf(selector);
  const of = (name: string): string => {
    const value = tokens.get(name);
    if (!value) throw new Error(`no --${name}`);
    return value;
  };
  it.each(TEXT.flatMap((ink) => GROUNDS.map((ground) => [ink, ground] as const)))('%s can be read on %s', (ink, ground) =>
    expect(contrast(of(ink), of(ground))).toBeGreaterThanOrEqual(4.5),
  );
  it.each(['fail', 'open', 'caution', 'note'])('%s can be read on its tint', (ink) =>
    expect(contrast(of(ink), of(`${ink}Tint`))).toBeGreaterThanOrEqual(4.5),
  );
  it.each(MARKS.flatMap((ink) => GROUNDS.map((ground) => [ink, ground] as const)))('%s is seen on %s', (ink, ground) =>
    expect(contrast(of(ink), of(ground))).toBeGreaterThanOrEqual(3),
  );
});
