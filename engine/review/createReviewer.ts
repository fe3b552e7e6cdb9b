import { type Finding, VERDICTS, type Verdict, worst } from '../checks/finding.ts';
import { Memo } from '../checks/memo.ts';
import { carrierOf } from '../checks/shieldPath.ts';
import type { Review, SolvedCable, SolvedRun } from '../checks/solved.ts';
import { NO_FLOW, type SolvedCase, solveZone, USUAL_LINE_PCT, type ZoneResult } from '../checks/solveZone.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element, ElementOf } from '../lineup/elements.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { buildNetwork, type Run, type Zone } from '../network/network.ts';
import { type Around, dependencies, judge, judgeZone, type Neighbour } from './judgeZone.ts';
import { inOrder, mergeById } from './order.ts';
import { loadsBelow } from './upstream.ts';

/**
 * The one door: a document in, everything that can be said of it out. Pure and total. A reviewer remembers the results of the
 * last document by identity, zone by zone and subject by subject, so that an edit costs what it touches.
 */

export interface Reviewer {
  review(lineUp: LineUp): Review;
}

export const review = (lineUp: LineUp): Review => createReviewer().review(lineUp);

export function createReviewer(): Reviewer {
  const memo = new Memo();
  let last: { lineUp: LineUp; review: Review } | null = null;
  return {
    review(lineUp) {
      if (
        last &&
        last.lineUp.elements === lineUp.elements &&
        last.lineUp.cables === lineUp.cables &&
        last.lineUp.project === lineUp.project
      ) {
        last = { lineUp, review: { ...last.review, recomputed: 0 } };
        return last.review;
      }
      memo.begin();
      const result = reviewWith(memo, lineUp, last?.review.findings ?? []);
      memo.end();
      last = { lineUp, review: result };
      return result;
    },
  };
}

function reviewWith(memo: Memo, lineUp: LineUp, before: readonly Finding[]): Review {
  const { project } = lineUp;
  const network = buildNetwork(lineUp);
  const outputs = new Map(network.zones.filter((zone) => zone.kind === 'output').map((zone) => [zone.source.id, zone] as const));
  const solved = new Map<Zone, ZoneResult>();
  for (const zone of network.zones) {
    const start = available(zone, solved, project.basis);
    const parts = zone.steps.flatMap((step) => [step.element, step.via?.kind === 'cable' ? step.via.cable : null, step.parent]);
    const key = `${zone.kind}/${zone.source.id}`;
    const settings = [project.basis, project.conductorTemperature, project.motorContribution];
    const result = memo.get(`zone/${key}`, [...Object.values(start), ...settings, ...parts], () => {
      const fresh = solveZone(zone, start, project);
      // A step that came out as before is the same object, so that what hangs on it is not judged again.
      const steps = fresh.steps.map((step, i) => memo.same(`zone/${key}`, (old: ZoneResult) => old.steps[i], step));
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
    stepOf: (zone, index) => solved.get(zone)?.steps[index] ?? NO_FLOW,
    neighbours,
    bypassed: bypassedIn(network.zones),
  };
  const zones = network.zones.map((zone) => {
    const below = loadsBelow(zone, outputs);
    const runs = runsOf.get(zone) ?? [];
    const feeds: unknown[] = [];
    for (let here = zone; here.feed; here = here.feed.zone)
      feeds.push(around.stepOf(here.feed.zone, here.feed.step), ...aheadOf(here.feed.zone, here.feed.step));
    const cables = zone.steps.flatMap((step) => (step.via?.kind === 'cable' ? step.via.cable : []));
    const deps = [
      project,
      solved.get(zone),
      // Whatever was solved, the parts themselves decide too, in the order in which they are connected.
      ...zone.steps.flatMap((step) => [step.element, step.via?.kind === 'cable' ? step.via.cable : null, step.parent]),
      ...below.flatMap((each) => dependencies(each)),
      ...cables.flatMap((cable) => neighbours(cable).flatMap((each) => [each.cable, each.zone?.kind, each.zone?.source.id])),
      ...feeds,
      ...zone.steps.flatMap((step) => around.bypassed(step.element)),
    ];
    return memo.inner(`review/${zone.kind}/${zone.source.id}`, deps, (own) => judgeZone(zone, { ...around, memo: own, below, runs }));
  });

  const faults = mergeById(
    network.faults.flatMap((fault) => {
      const key = `${fault.kind}/${fault.part?.id ?? ''}/${fault.other?.id ?? ''}`;
      return judge(memo, 'fault', key, fault);
    }),
  );
  const off = Object.entries(project.checks).filter(([, setting]) => setting.off);
  const groups = [faults, ...zones.map((zone) => zone.findings)];
  const judged = off.length === 0 ? groups : groups.map((group) => group.map((each) => switchedOff(each, project.checks)));
  const findings = inOrder(before, judged);

  const elements = new Map(zones.flatMap((zone) => zone.elements).map((each) => [each.id, each] as const));
  const cables = new Map(zones.flatMap((zone) => zone.cables).map((each) => [each.id, each] as const));
  const byRun = new Map<string, Verdict[]>();
  const counts = Object.fromEntries(VERDICTS.map((verdict) => [verdict, 0])) as Record<Verdict, number>;
  for (const each of findings) {
    counts[each.verdict]++;
    for (const tag of each.runs) {
      const list = byRun.get(tag);
      if (list) list.push(each.verdict);
      else byRun.set(tag, [each.verdict]);
    }
  }
  const found = VERDICTS.filter((verdict) => counts[verdict] > 0);
  return {
    // A sheet with nothing to judge is not in order: it is not known.
    verdict: findings.length === 0 || network.runs.length === 0 ? worst(['open', ...found]) : worst(found),
    counts,
    findings,
    elements: lineUp.elements.map(
      (element) =>
        elements.get(element.id) ?? { id: element.id, tag: element.tag, voltage_V: null, faultCurrent_A: null, faultPeak_A: null },
    ),
    cables: lineUp.cables.map((cable) => cables.get(cable.id) ?? unfed(cable)),
    runs: zones.flatMap((zone) => zone.runs).map((run): SolvedRun => ({ ...run, verdict: worst(byRun.get(run.motorTag) ?? []) })),
    recomputed: memo.recomputed,
  };
}

/** Line to line at the start of a zone, by case: what the supply gives, or what the drive can still make of its own input. */
function available(
  zone: Zone,
  solved: ReadonlyMap<Zone, ZoneResult>,
  basis: LineUp['project']['basis'],
): Readonly<Record<SolvedCase, number | null>> {
  if (zone.source.kind === 'supply') {
    const { voltage_V, voltageLeast_pct, voltageMost_pct } = zone.source;
    const usual = USUAL_LINE_PCT[basis];
    const of = (pct: number): number | null => (voltage_V === undefined ? null : (voltage_V * pct) / 100);
    return {
      rated: voltage_V ?? null,
      'low line': of(voltageLeast_pct ?? usual.least),
      'high line': of(voltageMost_pct ?? usual.most),
      overload: voltage_V ?? null,
    };
  }
  const ratio = (zone.source.outputRatio_pct ?? 100) / 100;
  const cases = zone.feed ? solved.get(zone.feed.zone)?.steps[zone.feed.step]?.cases : undefined;
  const made = (name: SolvedCase): number | null => {
    const fed = cases?.[name].voltage_V;
    return fed === null || fed === undefined ? null : fed * ratio;
  };
  return { rated: made('rated'), 'low line': made('low line'), 'high line': made('high line'), overload: made('overload') };
}

/** Overcurrent devices ahead of a drive judge what is behind it. */
const aheadOf = (zone: Zone, from: number): readonly unknown[] => {
  const found: unknown[] = [];
  for (let at = from; at >= 0; at = zone.steps[at]?.parent ?? -1) found.push(zone.steps[at]?.element);
  return found;
};

/** Motors on the far side of each bypass contactor: it stands open, its two sides in two zones. */
function bypassedIn(zones: readonly Zone[]): (element: Element) => readonly ElementOf<'motor'>[] {
  const behind = new Map<Element, readonly ElementOf<'motor'>[]>();
  for (const zone of zones) {
    if (zone.kind !== 'output') continue;
    for (const { element } of zone.steps) {
      if (element.kind !== 'contactor' || element.role !== 'bypass') continue;
      behind.set(
        element,
        zone.steps.flatMap((step) => (step.element.kind === 'motor' ? [step.element] : [])),
      );
    }
  }
  return (element) => behind.get(element) ?? [];
}

/** Cables that say they share a raceway, whichever of them says so. */
function neighboursIn(lineUp: LineUp, zones: readonly Zone[]): (cable: Cable) => readonly Neighbour[] {
  const speaking = lineUp.cables.filter((cable) => (cable.installation.sharedWith ?? []).length > 0);
  if (speaking.length === 0) return () => [];
  const byId = new Map(lineUp.cables.map((cable) => [cable.id, cable] as const));
  const zoneOf = new Map<Cable, Zone>();
  for (const zone of zones) for (const step of zone.steps) if (step.via?.kind === 'cable') zoneOf.set(step.via.cable, zone);
  const pairs = new Map<Cable, Set<Cable>>();
  const join = (a: Cable, b: Cable): void => {
    if (a === b) return;
    const list = pairs.get(a);
    if (list) list.add(b);
    else pairs.set(a, new Set([b]));
  };
  for (const cable of speaking) {
    for (const id of cable.installation.sharedWith ?? []) {
      const other = byId.get(id);
      if (!other) continue;
      join(cable, other);
      join(other, cable);
    }
  }
  return (cable) => [...(pairs.get(cable) ?? [])].map((other) => ({ cable: other, zone: zoneOf.get(other) ?? null }));
}

function switchedOff(finding: Finding, checks: LineUp['project']['checks']): Finding {
  const setting = checks[finding.check];
  if (!setting?.off) return finding;
  return {
    ...finding,
    verdict: 'out-of-scope',
    text: `Switched off for this project${setting.reason ? `: ${setting.reason}` : ''}.`,
  };
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
