import { unzlibSync } from 'fflate';

/**
 * A font as screens fetch it, each table compressed by itself, turned into the plain file that the PDF writer reads: one file serves both.
 * The packed form is W3C's WOFF File Format 1.0 (2012), sections 3 to 5; the plain one is the table directory of the OpenType specification.
 */

const HEADER = 44;
const ENTRY = 20;
const PLAIN_HEADER = 12;
const PLAIN_ENTRY = 16;

const padded = (length: number): number => Math.ceil(length / 4) * 4;

export function unpackedFont(packed: Uint8Array): Uint8Array {
  const from = new DataView(packed.buffer, packed.byteOffset, packed.byteLength);
  if (from.getUint32(0) !== 0x774f4646)
    throw new Error('A font of the package is no WOFF file: the fonts folder of this program is not whole.');
  const count = from.getUint16(12);
  const plain = new Uint8Array(from.getUint32(16));
  const to = new DataView(plain.buffer);
  to.setUint32(0, from.getUint32(4));
  to.setUint16(4, count);
  // For a search by halves: the greatest power of two that is not above the number of tables.
  const halvings = Math.floor(Math.log2(count));
  to.setUint16(6, 2 ** halvings * PLAIN_ENTRY);
  to.setUint16(8, halvings);
  to.setUint16(10, (count - 2 ** halvings) * PLAIN_ENTRY);

  const tables = Array.from({ length: count }, (_, index) => {
    const at = HEADER + index * ENTRY;
    return { index, tag: from.getUint32(at), at: from.getUint32(at + 4), packed: from.getUint32(at + 8), length: from.getUint32(at + 12) };
  });
  let end = PLAIN_HEADER + count * PLAIN_ENTRY;
  // The directory goes by tag, the tables lie as they lay: the sum over the whole file is then what the font says of itself.
  for (const table of tables.sort((a, b) => a.at - b.at)) {
    const entry = PLAIN_HEADER + table.index * PLAIN_ENTRY;
    to.setUint32(entry, table.tag);
    to.setUint32(entry + 4, from.getUint32(HEADER + table.index * ENTRY + 16));
    to.setUint32(entry + 8, end);
    to.setUint32(entry + 12, table.length);
    const bytes = packed.subarray(table.at, table.at + table.packed);
    plain.set(table.packed < table.length ? unzlibSync(bytes, { out: new Uint8Array(table.length) }) : bytes, end);
    end += padded(table.length);
  }
  return plain;
}
