import type { Check } from '../checks/check.ts';
import { VERDICTS, type Verdict, worst } from '../checks/finding.ts';
import { CHECKS } from '../checks/index.ts';
import { Memo } from '../checks/memo.ts';
import { carrierOf } from '../checks/shieldPath.ts';
import type { Review, SolvedCable, SolvedRun } from '../checks/solved.ts';
import { NO_FLOW, type SolvedCase, solveZone, USUAL_LINE_PCT, type ZoneResult } from '../checks/solveZone.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { raceways } from '../lineup/raceways.ts';
import { buildNetwork, type Run, type Zone } from '../network/network.ts';
import { type Around, judge, judgeZone, type Neighbour, switchedOff, undrawnIn, type WayAround } from './judgeZone.ts';
import { type Group, groupOf, inOrder, worstByRun } from './order.ts';
import { loadsBelow, NOTHING_BELOW, upstream } from './upstream.ts';

/**
 * The one door: a document in, everything that can be said of it out. Pure and total. A reviewer remembers the results of the
 * last document by identity, zone by zone and subject by subject, so that an edit costs what it touches.
 */

export interface Reviewer {
  review(lineUp: LineUp): Review;
}

/** Whether the review of one document is that of the other too: they differ at most in where the parts stand. */
export const judgedAlike = (a: LineUp, b: LineUp): boolean => a.elements === b.elements && a.cables === b.cables && a.project === b.project;

/**
 * @param checks those that are asked; all of them for everything that is shown
 * @param shown whether what no check asks for is solved too: the peak of each run, what each cable carries
 * @param solving remembers solved zones: one for all reviewers that are asked of the same documents in turn
 */
export function createReviewer(checks: readonly Check[] = CHECKS, shown = true, solving = new Memo()): Reviewer {
  const memo = new Memo();
  const byScope = new Map(checks.map(({ scope }) => [scope, checks.filter((each) => each.scope === scope)]));
  let last: { lineUp: LineUp; review: Review; groups: readonly Group[] } | null = null;
  return {
    review(lineUp) {
      if (last && judgedAlike(last.lineUp, lineUp)) {
        last = { ...last, lineUp, review: { ...last.review, recomputed: 0 } };
        return last.review;
      }
      memo.begin();
      solving.begin();
      const result = reviewWith({ memo, solving, checks: byScope, shown }, lineUp, {
        list: last?.review.findings ?? [],
        groups: last?.groups ?? [],
      });
      solving.end();
      memo.end();
      last = { lineUp, ...result };
      return result.review;
    },
  };
}

interface Reviewing {
  readonly memo: Memo;
  readonly solving: Memo;
  readonly checks: Around['checks'];
  readonly shown: boolean;
}

function reviewWith(
  { memo, solving, checks, shown }: Reviewing,
  lineUp: LineUp,
  before: Parameters<typeof inOrder>[0],
): { readonly review: Review; readonly groups: readonly Group[] } {
  const { project } = lineUp;
  const network = buildNetwork(lineUp);
  const bySource = new Map(network.zones.map((zone) => [zone.source.id, zone] as const));
  const solved = new Map<Zone, ZoneResult>();
  for (const zone of network.zones) {
    const start = available(zone, solved, project.basis);
    const parts = zone.steps.flatMap((step) => [step.element, step.via?.kind === 'cable' ? step.via.cable : null, step.parent]);
    const key = `${zone.kind}/${zone.source.id}`;
    const settings = [project.basis, project.conductorTemperature, project.motorContribution];
    const result = solving.get(key, [...Object.values(start), ...settings, ...parts], () => {
      const fresh = solveZone(zone, start, project);
      // A step that came out as before is the same object, so that what hangs on it is not judged again.
      const steps = fresh.steps.map((step, i) => solving.same(key, (old: ZoneResult) => old.steps[i], step));
      return { ...fresh, steps };
    });
    solved.set(zone, result);
  }

  const neighbours = neighboursIn(lineUp, network.zones);
  const runsOf = new Map<Zone, Run[]>();
  for (const run of network.runs) {
    const zone = run.steps.at(-1)?.zone;
    if (!zone) continue;
    const list = runsOf.get(zone);
    if (list) list.push(run);
    else runsOf.set(zone, [run]);
  }
  const around: Omit<Around, 'memo' | 'below' | 'runs'> = {
    project,
    checks,
    shown,
    stepOf: (zone, index) => solved.get(zone)?.steps[index] ?? NO_FLOW,
    neighbours,
    bypassed: bypassedIn(network.zones),
  };
  const zones = network.zones.map((zone) => {
    const below = loadsBelow(zone, bySource);
    const runs = runsOf.get(zone) ?? [];
    // Whatever was solved, the parts themselves decide too, in the order in which they are connected.
    const deps: unknown[] = [project, solved.get(zone)];
    for (const [i, step] of zone.steps.entries()) {
      const cable = step.via?.kind === 'cable' ? step.via.cable : null;
      const way = around.bypassed(step.element);
      deps.push(step.element, cable, step.parent, way.motors, way.leg, way.parts);
      if (cable) for (const each of neighbours(cable)) deps.push(each.cable, each.zone?.kind, each.zone?.source.id);
      // A motor behind several steps is the same motor: where each hangs follows from the order above.
      const { motors, motorsSeen, between } = below[i] ?? NOTHING_BELOW;
      if (step.element.kind === 'drive') deps.push(motors, motorsSeen, between);
    }
    for (let here = zone; here.feed; here = here.feed.zone)
      deps.push(around.stepOf(here.feed.zone, here.feed.step), aheadOf(here.feed.zone, here.feed.step), undrawnIn(here.feed.zone));
    return memo.inner(`review/${zone.kind}/${zone.source.id}`, deps, (own) => judgeZone(zone, { ...around, memo: own, below, runs }));
  });

  const found = network.faults.flatMap((fault) =>
    judge({ memo, checks }, 'fault', `${fault.kind}/${fault.part?.id ?? ''}/${fault.other?.id ?? ''}`, fault),
  );
  const faults = memo.get('faults', [project, ...found], () => groupOf(found.map((each) => switchedOff(each, project.checks))));
  const groups = [faults, ...zones.map((zone) => zone.group)];
  const findings = inOrder(before, groups);

  const elements = byId(zones.map((zone) => zone.elements));
  const cables = byId(zones.map((zone) => zone.cables));
  const byRun = worstByRun(groups);
  const counts = Object.fromEntries(VERDICTS.map((verdict) => [verdict, 0])) as Record<Verdict, number>;
  for (const group of groups) for (const [verdict, count] of group.counts) counts[verdict] += count;
  const present = VERDICTS.filter((verdict) => counts[verdict] > 0);
  const review: Review = {
    // A sheet with nothing to judge is not in order: it is not known.
    verdict: findings.length === 0 || network.runs.length === 0 ? worst(['open', ...present]) : worst(present),
    counts,
    findings,
    elements: lineUp.elements.map(
      (element) =>
        elements.get(element.id) ?? { id: element.id, tag: element.tag, voltage_V: null, faultCurrent_A: null, faultPeak_A: null },
    ),
    cables: lineUp.cables.map((cable) => cables.get(cable.id) ?? unfed(cable)),
    runs: zones.flatMap((zone) => zone.runs).map((run): SolvedRun => ({ ...run, verdict: byRun.get(run.motorTag) ?? 'not-applicable' })),
    recomputed: memo.recomputed,
  };
  return { review, groups };
}

/** A part that stands open between two zones is told by the first, on the side of the supply. */
const byId = <T extends { readonly id: string }>(lists: readonly (readonly T[])[]): ReadonlyMap<string, T> => {
  const map = new Map<string, T>();
  for (const list of lists) for (const each of list) if (!map.has(each.id)) map.set(each.id, each);
  return map;
};

/** Line to line at the start of a zone, by case: what the supply gives, or what the drive can still make of its own input. */
function available(
  zone: Zone,
  solved: ReadonlyMap<Zone, ZoneResult>,
  basis: LineUp['project']['basis'],
): Readonly<Record<SolvedCase, number | null>> {
  if (zone.source.kind === 'supply') {
    const { voltage_V, voltageLeast_pct, voltageMost_pct } = zone.source;
    const usual = USUAL_LINE_PCT[basis];
    const [least, most] = [voltageLeast_pct ?? usual.least, voltageMost_pct ?? usual.most];
    const of = (pct: number): number | null => (voltage_V === undefined ? null : (voltage_V * pct) / 100);
    return {
      rated: voltage_V ?? null,
      // Written the wrong way round they are told by voltage-match, and judged at the worse end of each meanwhile.
      'low line': of(Math.min(least, most)),
      'high line': of(Math.max(least, most)),
      overload: voltage_V ?? null,
    };
  }
  const ratio = (zone.source.outputRatio_pct ?? 100) / 100;
  const cases = zone.feed ? solved.get(zone.feed.zone)?.steps[zone.feed.step]?.cases : undefined;
  const made = (name: SolvedCase): number | null => {
    const fed = cases?.[name].voltage_V ?? null;
    return fed === null ? null : fed * ratio;
  };
  return { rated: made('rated'), 'low line': made('low line'), 'high line': made('high line'), overload: made('overload') };
}

/** Overcurrent devices ahead of a drive judge what is behind it, and what lies ahead of it stands among the inputs of its runs. */
const aheadOf = (zone: Zone, from: number): readonly unknown[] => {
  const found: unknown[] = [];
  for (let at = zone.steps[from]; at; at = zone.steps[at.parent]) found.push(at.element, at.via?.kind === 'cable' ? at.via.cable : null);
  return found;
};

/** What a way around a drive leads to: it stands open, its two sides in two zones. */
function bypassedIn(zones: readonly Zone[]): (element: Element) => WayAround {
  const behind = new Map<Element, WayAround>();
  for (const zone of zones) {
    if (zone.kind !== 'output') continue;
    for (const step of zone.steps) {
      const { element } = step;
      if (element.kind !== 'contactor' || element.role !== 'bypass') continue;
      const own = upstream(zone, step);
      const motors = zone.steps.filter((each) => each.element.kind === 'motor');
      const toMotors = motors.map((each) => upstream(zone, each));
      // Where the leg meets the way from the drive: the first of its steps that a motor hangs on too.
      const meets = own.findIndex((each) => toMotors.some((way) => way.includes(each)));
      const leg = own.slice(0, Math.max(0, meets));
      const at = own[meets];
      const common = at ? toMotors.flatMap((way) => way.slice(0, Math.max(0, way.indexOf(at)))) : [];
      behind.set(element, {
        drive: zone.source.id,
        motors: motors.flatMap((each) => (each.element.kind === 'motor' ? [each.element] : [])),
        leg: leg.flatMap((each) => (each.via?.kind === 'cable' ? [each.via.cable] : [])),
        parts: [...new Set([...leg, ...common].map((each) => each.element))].filter((each) => each !== element),
      });
    }
  }
  return (element) => behind.get(element) ?? NOWHERE;
}
const NOWHERE: WayAround = { drive: null, motors: [], leg: [], parts: [] };

/** What lies in one raceway with a cable, and which zone feeds it. */
function neighboursIn({ cables }: LineUp, zones: readonly Zone[]): (cable: Cable) => readonly Neighbour[] {
  if (!cables.some(({ installation }) => installation.sharedWith?.length)) return () => [];
  const racewayOf = raceways(cables);
  const zoneOf = new Map<Cable, Zone>();
  for (const zone of zones) for (const step of zone.steps) if (step.via?.kind === 'cable') zoneOf.set(step.via.cable, zone);
  return (cable) =>
    (racewayOf.get(cable.id) ?? []).flatMap((other) => (other === cable ? [] : [{ cable: other, zone: zoneOf.get(other) ?? null }]));
}

const unfed = (cable: Cable): SolvedCable => ({
  id: cable.id,
  tag: cable.tag,
  side: 'unfed',
  current_A: null,
  resistance_ohm: null,
  reactance_ohm: null,
  drop_V: null,
  drop_pct: null,
  ampacity_A: null,
  ampacityFactors: [],
  shield: carrierOf(cable),
});
