import type { Check } from '../checks/check.ts';
import type { Finding } from '../checks/finding.ts';
import { groundByDevice } from '../checks/groundChecks.ts';
import { CHECKS } from '../checks/index.ts';
import { DATA_SHEET } from './choices.ts';

/**
 * The checks whose verdict hangs on the size of conductors or on the number of sets. The peak at the motor is not among them: what a size
 * moves of it lies far within the band in which it is known. Whatever else a size moves shows when the whole line-up is judged with it.
 */

/** Whose sizes decide: the cable's own; those on the same terminals or in the same pipe too; all of the zone, before or behind the drive. */
type Reach = 'cable' | 'neighbours' | 'input' | 'output';

export interface SizeRule {
  readonly reach: Reach;
  /** Whether more conductor anywhere can only help it (true) or only harm it (false); null where neither holds. */
  readonly moreHelps: boolean | null;
  /** It says how large a conductor must be: without it no size can be named. */
  readonly floor?: true;
  /** It solves waves, which costs more than all others together: asked only of what breaks nothing else. */
  readonly waves?: true;
}

export const SIZE_RULES: Readonly<Record<string, SizeRule>> = {
  'feeder-ampacity': { reach: 'cable', moreHelps: true, floor: true },
  'lead-ampacity': { reach: 'cable', moreHelps: true, floor: true },
  'feeder-drop': { reach: 'input', moreHelps: true, floor: true },
  'lead-drop': { reach: 'output', moreHelps: true, floor: true },
  'smallest-conductor': { reach: 'cable', moreHelps: true },
  'insulation-wall': { reach: 'cable', moreHelps: true },
  'parallel-sets': { reach: 'cable', moreHelps: null },
  'protective-earth': { reach: 'cable', moreHelps: null },
  'shield-adequacy': { reach: 'cable', moreHelps: false },
  'terminal-range': { reach: 'neighbours', moreHelps: null },
  'conduit-fill': { reach: 'neighbours', moreHelps: false },
  'fault-rating': { reach: 'input', moreHelps: false },
  'supply-stiffness': { reach: 'input', moreHelps: false },
  'charging-current': { reach: 'output', moreHelps: false },
  'manual-limits': { reach: 'output', moreHelps: false },
  'insulation-inception': { reach: 'output', moreHelps: null, waves: true },
};

export const SIZE_CHECKS: readonly Check[] = CHECKS.filter(({ slug }) => slug in SIZE_RULES);

/** As a search asks them; what `groundByDevice` leaves out is told of its answer. */
export const SEARCH_CHECKS: readonly Check[] = SIZE_CHECKS.map((check) => (check.slug === groundByDevice.slug ? groundByDevice : check));

/** Those that look at one cable and its neighbours alone. */
export const CABLE_CHECKS: readonly Check[] = SEARCH_CHECKS.filter(({ slug }) => {
  const reach = SIZE_RULES[slug]?.reach;
  return reach === 'cable' || reach === 'neighbours';
});

/** Whether it is said of one cable, by its own size and those of its neighbours. */
export const isOwn = ({ check }: Pick<Finding, 'check'>): boolean => CABLE_CHECKS.some(({ slug }) => slug === check);

/** A check on one part: what it says there of both ends of a cable, or of several cables, counts as one. */
export const unitOf = ({ check, subject }: Finding): string => `${check}/${subject.id}`;

/** How bad: 3 fails, 2 cannot be judged, 1 is cautioned, 0 is settled. What waits only for the data sheet of the new size is not held against it. */
export function badness({ verdict, missing }: Finding): number {
  if (verdict === 'open') return missing.length > 0 && missing.every(({ field }) => DATA_SHEET.includes(field)) ? 0 : 2;
  return verdict === 'fail' ? 3 : verdict === 'caution' ? 1 : 0;
}

/** The worst that each check says of each part. */
export function worstByUnit(findings: readonly Finding[]): ReadonlyMap<string, Finding> {
  const worst = new Map<string, Finding>();
  for (const each of findings) {
    if (!(each.check in SIZE_RULES)) continue;
    const held = worst.get(unitOf(each));
    if (!held || badness(each) > badness(held)) worst.set(unitOf(each), each);
  }
  return worst;
}
