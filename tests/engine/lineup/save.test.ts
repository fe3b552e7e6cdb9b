import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { load, newLineUp, save } from '../../../engine/index.ts';
import { sha256 } from '../../../engine/lineup/sha256.ts';

/** The same document gives the same bytes, and those bytes the hash that any other program gives. */

describe('a saved document', () => {
  const blank = newLineUp();
  it('has its keys in the order of their letters, whatever order they were written in, and lists as they were', () => {
    const text = save({ ...blank, ...({ zebra: { b: 1, a: [3, 1, 2], B: null }, apple: true } as object) });
    expect(text.endsWith('}\n')).toBe(true);
    expect(text).toContain('"zebra": {\n    "B": null,\n    "a": [\n      3,\n      1,\n      2\n    ],\n    "b": 1\n  }');
    expect(text.indexOf('"apple"')).toBeLessThan(text.indexOf('"cables"'));
    const turned = Object.fromEntries(Object.entries(blank).reverse()) as unknown as typeof blank;
    expect(save(turned)).toBe(save(blank));
    expect(load(save(blank)).ok).toBe(true);
  });
  it('leaves out what is not there, and writes no minus before nothing', () => {
    const text = save({ ...blank, ...({ gone: undefined, zero: -0 } as object) });
    expect([text.includes('gone'), text.includes('"zero": 0\n')]).toEqual([false, true]);
  });
  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])('is none where a value is %d', (value) => {
    expect(() => save({ ...blank, ...({ deep: [{ value }] } as object) })).toThrow(`save: ${value} cannot be written`);
  });
});

describe('its hash', () => {
  // FIPS 180-4's own examples, and the text of nothing.
  it.each([
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    ['abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq', '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1'],
  ])('of %j', (text, hash) => expect(sha256(text)).toBe(hash));
  it('is that of another program for every length around a block, and letters of two to four bytes', () => {
    for (let length = 0; length <= 200; length++) {
      const text = 'ä€😀a'.repeat(length).slice(0, length);
      expect(sha256(text)).toBe(createHash('sha256').update(text).digest('hex'));
    }
  });
});
