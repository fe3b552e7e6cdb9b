/** 32 hexadecimal digits out of a text: the same text, the same id. FNV-1a, four times with different starts; no security is meant. */
export function fileId(text: string): string {
  let id = '';
  for (let part = 0; part < 4; part++) {
    let hash = (0x811c9dc5 ^ (part * 0x9e3779b9)) >>> 0;
    for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
    id += hash.toString(16).padStart(8, '0');
  }
  return id.toUpperCase();
}

/** Noon would be a guess: an issue date has no time of day. '2026-11-25' as the PDF format writes it. */
export function pdfDate(date: string): string {
  const match = /^(\d{4})-(\d{2})-(\d{2})/.exec(date);
  return `D:${match ? `${match[1]}${match[2]}${match[3]}` : '20000101'}000000+00'00'`;
}
