import { type TakenOut, takeOut } from '../../engine/index.ts';
import type { Scene } from './command.ts';

/** After a part in a line was deleted: what the line would be if its two cables were one. Derived from the last step, so that the offer ends with the next. */
export function rejoinable({ lineUp, past }: Scene): TakenOut | null {
  const before = past.at(-1)?.lineUp;
  if (!before || before.elements.length !== lineUp.elements.length + 1) return null;
  const now = new Set(lineUp.elements.map((each) => each.id));
  const gone = before.elements.find((each) => !now.has(each.id));
  const made = gone ? takeOut(before, gone.id) : null;
  // Only what the deletion itself took away comes back.
  return made && made.lineUp.cables.length === lineUp.cables.length + 1 ? made : null;
}
