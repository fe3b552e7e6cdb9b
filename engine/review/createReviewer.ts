import { cableAmpacity, terminals } from '../checks/ampacityChecks.ts';
import type { CableScope, Check, DriveScope, RunScope } from '../checks/check.ts';
import { type Finding, VERDICTS, type Verdict, worst } from '../checks/finding.ts';
import { CHECKS } from '../checks/index.ts';
import { Memo } from '../checks/memo.ts';
import { carrierOf, traceShield } from '../checks/shieldPath.ts';
import type { Review, SolvedCable, SolvedElement, SolvedRun } from '../checks/solved.ts';
import { type StepResult, solveZone, type ZoneResult } from '../checks/solveZone.ts';
import { busVoltage_V, leadLength_m, waveOf } from '../checks/waveChecks.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Earthing, Element, ElementOf } from '../lineup/elements.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { buildNetwork, type EndName, type Run, type Step, type Zone } from '../network/network.ts';

/**
 * The one door: a document in, everything that can be said of it out. Pure and total. A reviewer remembers the results of the
 * last document by identity, so that an edit costs what it touches.
 */

export interface Reviewer {
  review(lineUp: LineUp): Review;
}

export const review = (lineUp: LineUp): Review => createReviewer().review(lineUp);

const NO_FLOW: StepResult = {
  voltage_V: null,
  current_A: null,
  drop_V: null,
  resistance_ohm: null,
  reactance_ohm: null,
  faultCurrent_A: null,
  nominal_V: null,
  assumptions: [],
};

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
      const result = reviewWith(memo, lineUp);
      memo.end();
      last = { lineUp, review: result };
      return result;
    },
  };
}

/** Everything a scope is made of, one level deep: what a remembered result hangs on. */
const dependencies = (scope: object): readonly unknown[] =>
  Object.values(scope).flatMap((value) => (Array.isArray(value) ? [value.length, ...value] : [value]));

function reviewWith(memo: Memo, lineUp: LineUp): Review {
  const { project } = lineUp;
  const { basis } = project;
  const network = buildNetwork(lineUp);
  const findings: Finding[] = [];
  const solved = new Map<Zone, ZoneResult>();

  const available = (zone: Zone): number | null => {
    if (zone.source.kind === 'supply') return zone.source.voltage_V ?? null;
    const fed = zone.feed ? solved.get(zone.feed.zone)?.steps[zone.feed.step]?.voltage_V : null;
    return fed === null || fed === undefined ? null : (fed * (zone.source.outputRatio_pct ?? 100)) / 100;
  };
  for (const zone of network.zones) {
    const start = available(zone);
    const parts = zone.steps.flatMap((step) => [step.element, step.via?.kind === 'cable' ? step.via.cable : null, step.parent]);
    const result = memo.get(`zone/${zone.kind}/${zone.source.id}`, [start, basis, ...parts], () => {
      const fresh = solveZone(zone, start, basis);
      return { ...fresh, steps: fresh.steps.map((step, i) => memo.keep(`step/${zone.kind}/${zone.source.id}/${i}`, step)) };
    });
    for (const [i, step] of result.steps.entries()) memo.keep(`step/${zone.kind}/${zone.source.id}/${i}`, step);
    solved.set(zone, result);
  }

  const stepOf = (zone: Zone, index: number): StepResult => solved.get(zone)?.steps[index] ?? NO_FLOW;
  const offIds = new Set(
    Object.entries(project.checks)
      .filter(([, setting]) => setting.off)
      .map(([slug]) => slug),
  );
  const judge = <S extends object>(kind: Check['scope'], key: string, scope: S): void => {
    const deps = dependencies(scope);
    for (const check of CHECKS) {
      if (check.scope !== kind) continue;
      const made = memo.get(
        `${check.slug}/${key}`,
        deps,
        () => (check.judge as (scope: S) => readonly Finding[]).call(check, scope),
        (list) => list.length,
      );
      findings.push(
        ...(offIds.has(check.slug)
          ? made.map((each) => ({
              ...each,
              verdict: 'out-of-scope' as const,
              text: `Switched off for this project${project.checks[check.slug]?.reason ? `: ${project.checks[check.slug]?.reason}` : ''}.`,
            }))
          : made),
      );
    }
  };

  for (const fault of network.faults)
    judge('fault', `${fault.kind}/${fault.part?.id ?? ''}/${fault.other?.id ?? ''}`, {
      kind: fault.kind,
      part: fault.part,
      other: fault.other,
      fault: memo.keep(`fault/${fault.kind}/${fault.part?.id ?? ''}/${fault.other?.id ?? ''}`, fault),
    });

  const elementsSolved = new Map<string, SolvedElement>();
  const cablesSolved = new Map<string, SolvedCable>();
  for (const zone of network.zones) judgeZone(zone);

  function judgeZone(zone: Zone): void {
    const below = loadsBelow(zone, network.zones);
    for (const step of zone.steps) {
      const flow = stepOf(zone, step.index);
      const { element } = step;
      // A part is told by its line side; a supply and the load side of a transformer by what they give.
      if (!elementsSolved.has(element.id) && !(zone.kind === 'output' && step.parent < 0))
        elementsSolved.set(element.id, {
          id: element.id,
          tag: element.tag,
          voltage_V: flow.voltage_V,
          faultCurrent_A: flow.faultCurrent_A,
        });
      if (step.via?.kind === 'cable') judgeCable(zone, step, step.via.cable, step.via.nearEnd, flow, below[step.index] ?? EMPTY);
      if (element.kind === 'drive' && zone.kind === 'input' && step.parent >= 0) {
        const motors = below[step.index]?.motors ?? [];
        const grounded = earthingAt(zone, step);
        const scope: DriveScope = {
          project,
          basis,
          drive: element,
          feed: flow,
          earthing: grounded.earthing,
          earthingPart: grounded.part,
          filters: filtersAhead(zone, step),
          motors,
        };
        judge('drive', element.id, scope);
      }
    }
  }

  function judgeCable(zone: Zone, step: Step, cable: Cable, nearEnd: EndName, flow: StepResult, below: Below): void {
    const near = zone.steps[step.parent]?.element ?? step.element;
    const [fromElement, toElement] = nearEnd === 'from' ? [near, step.element] : [step.element, near];
    const drive = zone.source.kind === 'drive' ? zone.source : null;
    const atDrive = zone.feed ? stepOf(zone.feed.zone, zone.feed.step).nominal_V : null;
    const scope: CableScope = {
      project,
      basis,
      cable,
      side: zone.kind,
      fromElement,
      toElement,
      flow,
      drives: below.drives,
      motors: below.motors,
      drive,
      nominal_V: zone.kind === 'output' ? atDrive : flow.nominal_V,
      filterAhead: zone.kind === 'input' && filtersAhead(zone, step).length > 0,
    };
    judge('cable', cable.id, scope);
    const known = terminals(scope).coolest_C;
    const carried = cableAmpacity(scope, known);
    const base = zone.kind === 'output' ? below.motors[0]?.ratedVoltage_V : flow.nominal_V;
    cablesSolved.set(cable.id, {
      id: cable.id,
      tag: cable.tag,
      side: zone.kind,
      current_A: flow.current_A,
      resistance_ohm: flow.resistance_ohm,
      reactance_ohm: flow.reactance_ohm,
      drop_V: flow.drop_V,
      drop_pct: flow.drop_V !== null && base ? (100 * flow.drop_V) / base : null,
      ampacity_A: carried?.value_A ?? null,
      ampacityFactors: carried?.factors.map(({ name, value }) => ({ name, value })) ?? [],
      shield: carrierOf(cable),
    });
  }

  const runs: SolvedRun[] = [];
  for (const run of network.runs) runs.push(judgeRun(run));

  function judgeRun(run: Run): SolvedRun {
    const { motor, drive } = run;
    const path = run.steps
      .flatMap(({ step }) => [...(step.via?.kind === 'cable' ? [step.via.cable.id] : []), step.element.id])
      .filter((id, i, list) => id !== list[i - 1]);
    const lead = run.steps.filter(({ zone }) => zone.kind === 'output');
    const start = lead[0];
    const end = lead.at(-1);
    if (!drive || !start || !end || !start.zone.feed) {
      const only = run.steps.at(-1);
      const result = only ? stepOf(only.zone, only.step.index) : NO_FLOW;
      return {
        motorId: motor.id,
        motorTag: motor.tag,
        driveId: null,
        path,
        terminalVoltage_pct: result.voltage_V !== null && motor.ratedVoltage_V ? (100 * result.voltage_V) / motor.ratedVoltage_V : null,
        peak_V: null,
        criticalLength_m: null,
        leadLength_m: null,
        shield: 'none',
        breaks: [],
        verdict: 'not-applicable',
      };
    }
    const hops = lead.flatMap(({ step }) =>
      step.via?.kind === 'cable' ? [{ cable: step.via.cable, nearEnd: step.via.nearEnd, far: step.element }] : [],
    );
    const cables = hops.map((hop) => hop.cable);
    const boxes = [...new Set(lead.slice(1, -1).map(({ step }) => step.element))];
    const feed = stepOf(start.zone.feed.zone, start.zone.feed.step);
    const terminal = stepOf(end.zone, end.step.index);
    const shield = memo.keep(`shield/${motor.id}`, traceShield(drive, hops));
    const scope: RunScope = {
      project,
      basis,
      run: memo.keep(`run/${motor.id}`, { motor, drive, steps: [] }),
      drive,
      motor,
      cables,
      boxes,
      start: stepOf(start.zone, 0),
      terminal,
      nominal_V: feed.nominal_V,
      inputKnown: feed.voltage_V !== null,
      shield,
      assumptions: memo.keep(
        `assumed/${motor.id}`,
        lead.flatMap(({ zone, step }) => stepOf(zone, step.index).assumptions),
      ),
    };
    judge('run', motor.id, scope);
    const { nominal_V } = feed;
    const { riseTime_s } = drive;
    const wave = memo.get(`wave/${motor.id}`, dependencies(scope), () =>
      nominal_V === null || riseTime_s === undefined ? null : waveOf(scope, busVoltage_V(nominal_V), riseTime_s),
    );
    const softened = boxes.some((box) => box.kind === 'reactor' || box.kind === 'filter' || box.kind === 'transformer');
    return {
      motorId: motor.id,
      motorTag: motor.tag,
      driveId: drive.id,
      path,
      terminalVoltage_pct:
        terminal.voltage_V !== null && feed.voltage_V !== null && motor.ratedVoltage_V
          ? (100 * terminal.voltage_V) / motor.ratedVoltage_V
          : null,
      peak_V: softened ? null : (wave?.central_V ?? null),
      criticalLength_m: wave?.critical_m ?? null,
      leadLength_m: leadLength_m(cables),
      shield: shield.state,
      breaks: shield.breaks,
      verdict: 'not-applicable',
    };
  }

  const merged = mergeById(findings).sort(worstFirst);
  const unfed = lineUp.cables
    .filter((cable) => !cablesSolved.has(cable.id))
    .map(
      (cable): SolvedCable => ({
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
      }),
    );
  const byRun = new Map<string, Verdict[]>();
  for (const each of merged) {
    for (const tag of each.runs) {
      const list = byRun.get(tag);
      if (list) list.push(each.verdict);
      else byRun.set(tag, [each.verdict]);
    }
  }
  const counts = Object.fromEntries(VERDICTS.map((verdict) => [verdict, 0])) as Record<Verdict, number>;
  for (const each of merged) counts[each.verdict]++;
  return {
    // A sheet with nothing to judge is not in order: it is not known.
    verdict:
      merged.length === 0 || network.runs.length === 0
        ? worst(['open', ...merged.map((each) => each.verdict)])
        : worst(merged.map((each) => each.verdict)),
    counts,
    findings: merged,
    elements: lineUp.elements.map(
      (element) => elementsSolved.get(element.id) ?? { id: element.id, tag: element.tag, voltage_V: null, faultCurrent_A: null },
    ),
    cables: [...lineUp.cables.flatMap((cable) => cablesSolved.get(cable.id) ?? []), ...unfed],
    runs: runs.map((run) => ({ ...run, verdict: worst(byRun.get(run.motorTag) ?? []) })),
    recomputed: memo.recomputed,
  };
}

interface Below {
  readonly drives: readonly ElementOf<'drive'>[];
  readonly motors: readonly ElementOf<'motor'>[];
}
const EMPTY: Below = { drives: [], motors: [] };

/** What each step of a zone feeds: its drives, and the motors behind them or in the zone itself. */
function loadsBelow(zone: Zone, zones: readonly Zone[]): readonly Below[] {
  const result: { drives: ElementOf<'drive'>[]; motors: ElementOf<'motor'>[] }[] = zone.steps.map(() => ({ drives: [], motors: [] }));
  for (const step of zone.steps) {
    const { element } = step;
    const drive = element.kind === 'drive' && step.parent >= 0 ? element : null;
    const motors =
      element.kind === 'motor'
        ? [element]
        : drive
          ? (zones.find((each) => each.kind === 'output' && each.source.id === drive.id)?.steps ?? [])
              .map((each) => each.element)
              .filter((each) => each.kind === 'motor')
          : [];
    if (!drive && motors.length === 0) continue;
    for (let at: number = step.index; at >= 0; at = zone.steps[at]?.parent ?? -1) {
      if (drive) result[at]?.drives.push(drive);
      result[at]?.motors.push(...motors);
    }
  }
  return result;
}

/** The steps from the source to this one. */
function* upstream(zone: Zone, step: Step): Generator<Step> {
  for (let at: Step | undefined = step; at; at = at.parent >= 0 ? zone.steps[at.parent] : undefined) yield at;
}

function earthingAt(zone: Zone, step: Step): { readonly earthing: Earthing | undefined; readonly part: Element } {
  for (const at of upstream(zone, step)) {
    if (at.element.kind === 'transformer') return { earthing: at.element.secondaryEarthing, part: at.element };
    if (at.element.kind === 'supply') return { earthing: at.element.earthing, part: at.element };
  }
  return { earthing: undefined, part: zone.source };
}

function filtersAhead(zone: Zone, step: Step): readonly ElementOf<'filter'>[] {
  const found = new Set<ElementOf<'filter'>>();
  for (const at of upstream(zone, step)) if (at.element.kind === 'filter') found.add(at.element);
  return [...found];
}

/** One box broken for several runs is one finding that names them all, with the worst verdict said of it. */
function mergeById(findings: readonly Finding[]): Finding[] {
  const byId = new Map<string, Finding>();
  for (const each of findings) {
    const before = byId.get(each.id);
    if (!before) byId.set(each.id, each);
    else {
      const worse = VERDICTS.indexOf(each.verdict) < VERDICTS.indexOf(before.verdict) ? each : before;
      byId.set(each.id, { ...worse, runs: [...new Set([...before.runs, ...each.runs])] });
    }
  }
  return [...byId.values()];
}

const worstFirst = (a: Finding, b: Finding): number =>
  VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict) ||
  compare(a.subject.tag, b.subject.tag) ||
  compare(a.check, b.check) ||
  compare(a.id, b.id);
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
