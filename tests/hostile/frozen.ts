import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { load, review, save } from '../../engine/index.ts';
import { EVERY_SHEET, writeAll } from '../../engine/submittal/formats.ts';
import { textFields, withTexts } from './document.ts';
import { HOSTILE } from './strings.ts';

/** Run by itself: reads, judges and writes hostile line-ups, first watching the prototypes that all objects share, then with them frozen. */

const SHARED = [Object, Array, Function, String, Number, Boolean, Map, Set, Promise, RegExp, Date, Error].map(
  (each) => each.prototype as object,
);
const keys = (): string => SHARED.map((each) => Reflect.ownKeys(each).map(String).join()).join('|');
/** No object of the program has one of these from a file. */
const DROPPED = ['__proto__', 'constructor', 'prototype'];
const font = (name: string) => new Uint8Array(readFileSync(join(import.meta.dirname, '../../public/fonts', name)));

async function work(): Promise<void> {
  const fields = [...textFields()];
  for (const name of [...DROPPED, 'toString', HOSTILE[0] ?? '']) {
    const lineUp = withTexts(new Map(fields.map(([path, most]) => [path, name.slice(0, most)])));
    await writeAll({
      lineUp,
      review: review(lineUp),
      date: '2026-11-25',
      sheets: EVERY_SHEET,
      fonts: async () => ({ regular: font('sans-400.woff'), semibold: font('sans-600.woff') }),
    });
    // Names where the file has names of its own.
    if (!DROPPED.includes(name)) continue;
    const text = save(lineUp);
    for (const place of ['"project":', '"positions":', '"checks":', '"provenance":'])
      load(text.replaceAll(new RegExp(`${place} ?\\{`, 'g'), `${place}{"${name}":{"ran":1},`));
  }
}

const before = keys();
await work();
const same = keys() === before && !('ran' in {});
SHARED.forEach(Object.freeze);
await work();
console.log(same ? 'same, and frozen they do as well' : 'a prototype was changed');
