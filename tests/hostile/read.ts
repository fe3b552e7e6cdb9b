import { strFromU8, unzipSync } from 'fflate';
import type { Written } from '../../engine/submittal/formats.ts';

/** Readers of what is handed over, written for these tests: what it is made of, and the texts in it. */

export interface Read {
  /** Names of elements with their attributes, or of entities: what must not depend on a text. */
  readonly made: ReadonlySet<string>;
  /** How many there are of each that no line break multiplies. */
  readonly counts: Readonly<Record<string, number>>;
  readonly texts: string;
  /** What no reader expects at its place. */
  readonly stray: readonly string[];
}

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"' };
const decoded = (text: string): string => text.replace(/&(lt|gt|amp|quot);/g, (_, name: string) => ENTITIES[name] ?? '');

/** Elements and attributes as our writers write them, and whatever is left that begins like one. */
function readMarkup(text: string): Read {
  const made = new Set<string>();
  const counts: Record<string, number> = {};
  const values: string[] = [];
  const rest = text
    .replace(/<\?xml [^<>]*\?>|<!doctype html>/g, '')
    .replace(/<style>[^<]*<\/style>/g, '')
    .replace(/<\/?([A-Za-z][\w:]*)((?: [\w:-]+="[^"<>]*")*) ?\/?>/g, (_, name: string, attributes: string) => {
      const names: string[] = [];
      for (const [, own = '', value = ''] of attributes.matchAll(/ ([\w:-]+)="([^"]*)"/g)) {
        names.push(own);
        values.push(decoded(value));
      }
      made.add(`${name} ${names.sort().join(' ')}`);
      // A long text takes several lines of a drawing, each a text and perhaps a box or a longer line.
      if (!/^(text|path|rect|svg|line|circle)$/.test(name)) counts[name] = (counts[name] ?? 0) + 1;
      return '\u0000';
    });
  return { made, counts, texts: `${decoded(rest)}\u0000${values.join('\u0000')}`, stray: rest.match(/[<>].{0,60}/g) ?? [] };
}

function readDxf(text: string): Read {
  const lines = text.split(/\r?\n/);
  const pairs: (readonly [string, string])[] = [];
  for (let i = 0; i + 1 < lines.length; i += 2) pairs.push([(lines[i] ?? '').trim(), lines[i + 1] ?? '']);
  return {
    made: new Set(pairs.flatMap(([code, value]) => (code === '0' ? value : []))),
    counts: {},
    texts: pairs.flatMap(([code, value]) => (code === '1' ? value : [])).join('\u0000'),
    stray: pairs.flatMap(([code, value]) => (/^-?\d+$/.test(code) ? [] : [`${code} ${value}`])),
  };
}

/** RFC 4180. */
function readCsv(text: string): Read {
  const cells: string[] = [];
  const widths = new Set<number>();
  let width = 0;
  const rest = text
    .replace(/^\ufeff/, '')
    .replace(/(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/g, (_, quoted: string | undefined, bare: string | undefined, end: string) => {
      cells.push(quoted === undefined ? (bare ?? '') : quoted.replaceAll('""', '"'));
      width++;
      if (end !== ',') {
        widths.add(width);
        width = 0;
      }
      return '';
    });
  const formulas = cells.filter((each) => /^[=+\-@\t\r\n＝＋－＠]/u.test(each) && !/^-?[\d.e-]+$/.test(each));
  return {
    made: new Set([...widths].map(String)),
    counts: { cells: cells.length },
    texts: cells.join('\u0000'),
    stray: [...formulas, ...(rest === '' ? [] : [rest])],
  };
}

function readXlsx(bytes: Uint8Array): Read {
  const files = unzipSync(bytes);
  const all = Object.entries(files).map(([name, each]) => ({ name, read: readMarkup(strFromU8(each)) }));
  const sheets = all.filter(({ name }) => name.includes('worksheets/'));
  return {
    made: new Set(all.flatMap(({ read }) => [...read.made])),
    counts: Object.fromEntries(all.map(({ name, read }) => [name, Object.values(read.counts).reduce((a, b) => a + b, 0)])),
    // A spreadsheet reads _x0041_ as the letter of that number.
    texts: sheets
      .map(({ read }) => read.texts.replace(/_x([0-9A-Fa-f]{4})_/g, (_, code) => String.fromCharCode(Number.parseInt(code, 16))))
      .join('\u0000'),
    stray: all.flatMap(({ read }) => read.stray),
  };
}

export function read({ ending, bytes }: Written): Read {
  const text = () => new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  if (ending === '.xlsx') return readXlsx(bytes);
  if (ending === '.dxf') return readDxf(text());
  if (ending.endsWith('.csv')) return readCsv(text());
  return readMarkup(text());
}
