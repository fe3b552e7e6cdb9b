import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { accepted, acceptedNames, difference, FOLDER, GOLDEN } from './golden.ts';

/** Takes the reports as they are now for golden. What changed is told, and is read before it is committed. */

mkdirSync(FOLDER, { recursive: true });
for (const name of acceptedNames()) {
  if (GOLDEN.has(name)) continue;
  rmSync(join(FOLDER, name));
  console.log(`${name}: no such project any more, taken away`);
}
let changed = 0;
for (const [name, make] of GOLDEN) {
  const [was, is] = [accepted(name), await make()];
  if (was === is) continue;
  changed++;
  writeFileSync(join(FOLDER, name), is);
  console.log(difference(name, was, is));
}
console.log(`${changed} of ${GOLDEN.size} files changed${changed > 0 ? '; read what git diff tests/golden shows' : ''}`);
