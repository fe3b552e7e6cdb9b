import type { Finding } from '../checks/finding.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { type Choice, choiceOf, standardSizes } from './choices.ts';
import { worstByCheck } from './concerning.ts';
import { Site } from './site.ts';
import { SIZE_CHECKS } from './sizeChecks.ts';

/** One cable in every standard size: what each check that a size decides says of it, the rest of the line-up as it is. */

export interface SizeCell {
  readonly check: string;
  /** Null where the check says nothing of such a cable. */
  readonly finding: Pick<Finding, 'id' | 'verdict' | 'value' | 'limit' | 'unit' | 'margin_pct' | 'text'> | null;
}

export interface SizeTable {
  readonly columns: readonly { readonly check: string; readonly title: string }[];
  /** Ascending; cells in the order of the columns. */
  readonly rows: readonly { readonly choice: Choice; readonly now: boolean; readonly cells: readonly SizeCell[] }[];
}

/** @param sets in parallel; without it as many as are drawn. Null for a cable that is not fed or has no length. */
export function sizeTable(lineUp: LineUp, cableId: string, sets?: number): SizeTable | null {
  const site = new Site(lineUp);
  const cable = site.cables.find(({ id }) => id === cableId);
  if (!cable) return null;
  const own = choiceOf(cable);
  const judge = site.judge(undefined, SIZE_CHECKS);
  const said = standardSizes(cable, lineUp.project.basis).map((size) => {
    const choice: Choice = { size, sets: sets ?? own?.sets ?? 1 };
    return { choice, worst: worstByCheck(judge(new Map([[cableId, choice]])), cableId) };
  });
  // A column is a check that is asked about this cable, or that says something else of another part when this cable's size changes.
  const columns = SIZE_CHECKS.filter(({ slug }) => {
    const found = said.flatMap(({ worst }) => worst.get(slug) ?? []);
    const speaks = found.some(({ verdict }) => verdict !== 'not-applicable');
    return speaks && (found.some(({ subject }) => subject.id === cableId) || new Set(found.map(({ text }) => text)).size > 1);
  }).map(({ slug, title }) => ({ check: slug, title }));
  return {
    columns,
    rows: said.map(({ choice, worst }) => ({
      choice,
      now: choice.size === own?.size && choice.sets === own.sets,
      cells: columns.map(({ check }): SizeCell => ({ check, finding: worst.get(check) ?? null })),
    })),
  };
}
