import { memory } from '../drawing/memory.ts';
import { asLineUp, designOf } from '../lineup/design.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { save } from '../lineup/save.ts';
import { sha256 } from '../lineup/sha256.ts';

/** The file that goes out with the package, and whose hash its cover names: what is drawn and judged. To freeze it or to answer a comment changes nothing in it. */
export const issuedText = (lineUp: LineUp): string => save(asLineUp(designOf(lineUp)));

const remembered = memory<string>();
/** SHA-256 of that file: cover, report and every field sheet name it. */
export const issuedHash = (lineUp: LineUp): string => remembered(lineUp, [], () => sha256(issuedText(lineUp)));
