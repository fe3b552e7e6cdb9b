import { strToU8 } from 'fflate';

/** SHA-256 (FIPS 180-4) of a text in UTF-8, as hexadecimal digits: what any other program gives for the saved file. */

const fraction = (value: number): number => Math.floor((value - Math.floor(value)) * 2 ** 32) | 0;
const PRIMES: readonly number[] = (() => {
  const found: number[] = [];
  for (let n = 2; found.length < 64; n++) if (found.every((prime) => n % prime !== 0)) found.push(n);
  return found;
})();
const START = PRIMES.slice(0, 8).map((prime) => fraction(Math.sqrt(prime)));
const ROUND = PRIMES.map((prime) => fraction(Math.cbrt(prime)));
const turned = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

export function sha256(text: string): string {
  const bytes = strToU8(text);
  const padded = new Uint8Array(Math.ceil((bytes.length + 9) / 64) * 64);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor((bytes.length * 8) / 2 ** 32));
  view.setUint32(padded.length - 4, (bytes.length * 8) >>> 0);
  const hash = Int32Array.from(START);
  const w = new Int32Array(64);
  for (let at = 0; at < padded.length; at += 64) {
    for (let i = 0; i < 16; i++) w[i] = view.getInt32(at + 4 * i);
    for (let i = 16; i < 64; i++) {
      const [far, near] = [w[i - 15] ?? 0, w[i - 2] ?? 0];
      const s0 = turned(far, 7) ^ turned(far, 18) ^ (far >>> 3);
      const s1 = turned(near, 17) ^ turned(near, 19) ^ (near >>> 10);
      w[i] = ((w[i - 16] ?? 0) + s0 + (w[i - 7] ?? 0) + s1) | 0;
    }
    let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = hash;
    for (let i = 0; i < 64; i++) {
      const big1 = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
      const one = (h + big1 + ((e & f) ^ (~e & g)) + (ROUND[i] ?? 0) + (w[i] ?? 0)) | 0;
      const two = ((turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + two) | 0];
    }
    [a, b, c, d, e, f, g, h].forEach((word, i) => {
      hash[i] = ((hash[i] ?? 0) + word) | 0;
    });
  }
  return [...hash].map((word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
}
