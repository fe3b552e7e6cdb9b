import { asLineUp, designOf } from '../lineup/design.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { save } from '../lineup/save.ts';

/** The file that goes out with the package, and whose hash its cover names: what is drawn and judged. To freeze it or to answer a comment changes nothing in it. */
export const issuedText = (lineUp: LineUp): string => save(asLineUp(designOf(lineUp)));
