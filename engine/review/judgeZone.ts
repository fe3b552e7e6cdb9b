import { cableAmpacity, terminals } from '../checks/cableAmpacity.ts';
import { wayLength_m } from '../checks/cableModel.ts';
import type { CableScope, Check, DriveScope, ElementScope, OutputScope, RunScope } from '../checks/check.ts';
import { drawnGaps } from '../checks/drop.ts';
import type { Finding } from '../checks/finding.ts';
import type { Memo } from '../checks/memo.ts';
import { busVoltage_V, isWave, waveAt } from '../checks/runWave.ts';
import { carrierOf, traceShield } from '../checks/shieldPath.ts';
import type { SolvedCable, SolvedElement, SolvedRun } from '../checks/solved.ts';
import { NO_FLOW, type StepResult } from '../checks/solveZone.ts';
import { makersWord, waveTree } from '../checks/waveTree.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element, ElementOf } from '../lineup/elements.ts';
import type { Project } from '../lineup/project.ts';
import type { EndName, Run, Step, Zone } from '../network/network.ts';
import { type Group, groupOf } from './order.ts';
import {
  ahead,
  type Below,
  disconnectsAhead,
  earthingAt,
  filtersAhead,
  NOTHING_BELOW,
  passed,
  seenThrough,
  upstream,
  voltageFrom,
} from './upstream.ts';

/** Everything that can be said of one zone: findings in order, and what was solved. */
export interface ZoneReview {
  readonly group: Group;
  readonly elements: readonly SolvedElement[];
  readonly cables: readonly SolvedCable[];
  readonly runs: readonly SolvedRun[];
}

/** Another cable in the same raceway. */
export interface Neighbour {
  readonly cable: Cable;
  /** The zone that feeds it, or null. */
  readonly zone: Zone | null;
}

/** What a bypass contactor leads to. */
export interface WayAround {
  /** Id of the drive that it leads around. */
  readonly drive: string | null;
  readonly motors: readonly ElementOf<'motor'>[];
  /** Cables from the contactor to where it meets the way from the drive. */
  readonly leg: readonly Cable[];
  /** Parts between the contactor and the motors. */
  readonly parts: readonly Element[];
}

export interface Around {
  readonly memo: Memo;
  /** By what they are asked about; nothing stands under a kind that none asks about. */
  readonly checks: ReadonlyMap<Check['scope'], readonly Check[]>;
  /** Whether the wave at each motor and what each cable carries are solved though no check asks. */
  readonly shown: boolean;
  readonly project: Project;
  /** Results of any zone, by step. */
  readonly stepOf: (zone: Zone, index: number) => StepResult;
  readonly below: readonly Below[];
  readonly runs: readonly Run[];
  readonly neighbours: (cable: Cable) => readonly Neighbour[];
  readonly bypassed: (element: Element) => WayAround;
}

/** All of these checks of one kind over one subject, remembered together. */
export function judge<S extends object>(
  { memo, checks }: Pick<Around, 'memo' | 'checks'>,
  kind: Check['scope'],
  key: string,
  scope: S,
): readonly Finding[] {
  return memo.get(
    `${kind}/${key}`,
    Object.values(scope),
    () => (checks.get(kind) ?? []).flatMap((check) => (check.judge as (this: Check, scope: S) => readonly Finding[]).call(check, scope)),
    (list) => list.length,
  );
}

export function judgeZone(zone: Zone, around: Around): ZoneReview {
  const { memo, project, checks, stepOf, below, runs, neighbours, bypassed } = around;
  const { basis } = project;
  const findings: Finding[] = [];
  const elements = new Map<string, SolvedElement>();
  const cables: SolvedCable[] = [];
  const drive = zone.source.kind === 'drive' ? zone.source : null;
  const atDrive = zone.feed ? stepOf(zone.feed.zone, zone.feed.step).nominal_V : null;
  const landed = landedByNode(zone);
  const arriving = arrivals(zone);
  const loads = loadsOf(zone);
  const inZone = new Set<Element>(zone.kind === 'input' ? loads : []);
  const directOf = ({ motors }: Below) => motors.filter((motor) => inZone.has(motor));
  const undrawn = undrawnIn(zone);
  const unmade = zone.steps.filter(({ index, parent }) => {
    const { drives, motors } = below[index] ?? NOTHING_BELOW;
    return zone.kind === 'input' && parent >= 0 && drives.length + motors.length > 0 && stepOf(zone, index).resistance_ohm === null;
  });
  const hasBypass = zone.kind === 'input' && zone.steps.some(({ element }) => bypassed(element).motors.length > 0);

  for (const step of zone.steps) {
    const flow = stepOf(zone, step.index);
    const { element } = step;
    const here = below[step.index] ?? NOTHING_BELOW;
    // A part is told by its line side; a supply and the load side of a transformer by what they give.
    const first = !elements.has(element.id) && !(zone.kind === 'output' && step.parent < 0);
    if (first) {
      elements.set(element.id, {
        id: element.id,
        tag: element.tag,
        voltage_V: flow.voltage_V,
        faultCurrent_A: flow.faultCurrent_A,
        faultPeak_A: flow.faultPeak_A,
      });
    }
    if (first && checks.has('element')) {
      const way = bypassedBelow(step);
      const scope: ElementScope = {
        project,
        basis,
        element,
        side: zone.kind,
        flow,
        atSource: step.parent < 0,
        drives: here.drives,
        motors: here.motors,
        drivesSeen: here.drivesSeen,
        motorsSeen: here.motorsSeen,
        between: [...new Set([...here.between, ...way.between])],
        direct: directOf(here),
        drive,
        nominal_V: nominalAt(step, flow),
        voltageFrom: voltageFrom(zone, step),
        seriesBoxes: zone.kind === 'output' ? boxesBefore(zone, step) : [],
        ahead: zone.kind === 'input' ? partsAhead(zone, step) : [],
        bypassed: way.motors,
        bypassedSeen: way.seen,
        bypassedDrives: way.around,
        bypassLeg: bypassed(element).leg,
        bypassParts: bypassed(element).parts,
      };
      findings.push(...judge(around, 'element', element.id, scope));
    }
    if (step.via?.kind === 'cable') judgeCable(step, step.via.cable, step.via.nearEnd, flow, here);
    if (element.kind === 'drive' && step.parent >= 0 && checks.has('drive')) {
      const grounded = earthingAt(zone, step);
      const transformer = ahead(zone, step, 'transformer')[0] ?? null;
      const scope: DriveScope = {
        project,
        basis,
        drive: element,
        feed: flow,
        earthing: grounded.earthing,
        earthingPart: grounded.part,
        filters: filtersAhead(zone, step),
        motors: here.motors,
        motorsSeen: here.motorsSeen,
        between: here.between,
        transformer,
        supply: ahead(zone, step, 'supply')[0] ?? null,
        reactors: reactorsNear(zone, step),
        ahead: upstream(zone, step).map((each) => stepOf(zone, each.index)),
      };
      findings.push(...judge(around, 'drive', element.id, scope));
    }
  }

  /** Per cent of nominal that each cable with a length loses on the way to this step of an input zone, nearest first. */
  function lostTo(within: Zone, to: Step): readonly (number | null)[] {
    return upstream(within, to).flatMap(({ via, index }) => {
      if (via?.kind !== 'cable' || !hasLength(via.cable)) return [];
      const { drop_V, nominal_V } = stepOf(within, index);
      return [drop_V === null || !nominal_V ? null : (100 * drop_V) / nominal_V];
    });
  }

  /** Behind a drive that of the drive's own supply, until a transformer makes another. */
  function nominalAt(step: Step, flow: StepResult): number | null {
    return zone.kind === 'output' && !sourceIsScaled(zone, step) ? atDrive : flow.nominal_V;
  }

  function judgeCable(step: Step, cable: Cable, nearEnd: EndName, flow: StepResult, here: Below): void {
    const near = zone.steps[step.parent]?.element ?? step.element;
    if (checks.has('cable')) findings.push(...judge(around, 'cable', cable.id, cableScope(step, cable, nearEnd, flow, here)));
    const carried = around.shown ? cableAmpacity(cable, basis, terminals([near, step.element]).coolest_C) : null;
    const base = zone.kind === 'output' ? here.motors[0]?.ratedVoltage_V : flow.nominal_V;
    cables.push({
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

  function cableScope(step: Step, cable: Cable, nearEnd: EndName, flow: StepResult, here: Below): CableScope {
    const parent = zone.steps[step.parent];
    const near = parent?.element ?? step.element;
    const nearCables = parent ? (landed.get(parent.node) ?? []) : [];
    const farCables = landed.get(step.node) ?? [];
    const way = bypassedBelow(step);
    return {
      project,
      basis,
      cable,
      side: zone.kind,
      fromElement: nearEnd === 'from' ? near : step.element,
      toElement: nearEnd === 'from' ? step.element : near,
      landedFrom: nearEnd === 'from' ? nearCables : farCables,
      landedTo: nearEnd === 'from' ? farCables : nearCables,
      flow,
      arrivesAt: (arriving.get(cable) ?? []).map(({ drive: each }) => each),
      arrivals: (arriving.get(cable) ?? []).map(({ index }) => stepOf(zone, index)),
      arrivalParts: arrivalParts(cable),
      ahead: zone.kind === 'input' ? partsAhead(zone, step) : [],
      lostAhead_pct: zone.kind === 'input' && parent ? lostTo(zone, parent) : [],
      unmadeBehind: unmade.flatMap((each) =>
        each !== step && upstream(zone, each).includes(step) ? [each.via?.kind === 'cable' ? each.via.cable : each.element] : [],
      ),
      undrawn,
      drives: here.drives,
      motors: here.motors,
      drivesSeen: here.drivesSeen,
      motorsSeen: here.motorsSeen,
      direct: directOf(here),
      drive,
      nominal_V: nominalAt(step, flow),
      voltageFrom: voltageFrom(zone, step),
      source: zone.source,
      filterAhead: zone.kind === 'input' && filtersAhead(zone, step).length > 0,
      guard: guardOf(zone, step),
      unsorted: disconnectsAhead(zone, step).find((each) => each.device === undefined && each !== step.element) ?? null,
      bypassed: way.motors,
      bypassedSeen: way.seen,
      bypassedDrives: way.around,
      between: [...new Set([...here.between, ...way.between])],
      together: neighbours(cable).map((each) => each.cable),
      togetherFed: neighbours(cable).map((each) =>
        each.zone === null ? 'unfed' : each.zone.kind === 'input' ? 'input' : each.zone.source.id,
      ),
    };
  }

  /** Only a limit of a drive's own manual asks for them: for each feeder of a large site they are all that draws current there. */
  function arrivalParts(cable: Cable): readonly (Element | Cable)[] {
    const ways = (arriving.get(cable) ?? []).flatMap(({ drive: each, index }) => {
      if (each.manual?.inputVoltageLeast_pct === undefined) return [];
      const end = zone.steps[index];
      return end ? partsAhead(zone, end) : [];
    });
    return ways.length === 0 ? [] : [...new Set([...ways, ...loads])];
  }

  /** Motors that bypass contactors at or below this step would feed, and how they are seen here. */
  function bypassedBelow(from: Step) {
    const motors = new Map<ElementOf<'motor'>, readonly [number, string | null]>();
    const between = new Set<ElementOf<'transformer'>>();
    const inside = new Map([[from.index, 1]]);
    if (hasBypass)
      for (const step of zone.steps) {
        const ahead = inside.get(step.parent);
        const transformer = passed(step);
        if (ahead !== undefined) inside.set(step.index, ahead * (transformer ? seenThrough(transformer) : 1));
        const seen = inside.get(step.index);
        const way = bypassed(step.element);
        if (seen === undefined || way.motors.length === 0) continue;
        for (const motor of way.motors) motors.set(motor, [seen * seenBehind(way), way.drive]);
        for (const at of upstream(zone, step)) {
          if (at === from) break;
          const each = passed(at);
          if (each) between.add(each);
        }
        for (const each of transformersIn(way)) between.add(each);
      }
    const found = [...motors.values()];
    return { motors: [...motors.keys()], seen: found.map(([seen]) => seen), around: found.map(([, drive]) => drive), between };
  }

  const tree = memo.keep('tree', waveTree(zone.steps));
  const source = zone.steps[0];
  if (drive && source && checks.has('output')) {
    const scope: OutputScope = {
      project,
      basis,
      drive,
      cables: zone.steps.flatMap((step) => (step.via?.kind === 'cable' ? [step.via.cable] : [])),
      parts: [...new Set(zone.steps.map((step) => step.element))].filter((element) => element !== drive),
      motors: motorsOf(zone),
      motorsSeen: (below[0] ?? NOTHING_BELOW).motorsSeen,
      between: (below[0] ?? NOTHING_BELOW).between,
      tree,
      nominal_V: atDrive,
      voltageFrom: voltageFrom(zone, source),
    };
    findings.push(...judge(around, 'output', drive.id, scope));
  }

  const solvedRuns = runs.map(judgeRun);

  function judgeRun(run: Run): SolvedRun {
    const { motor } = run;
    const path = run.steps
      .flatMap(({ step }) => [...(step.via?.kind === 'cable' ? [step.via.cable.id] : []), step.element.id])
      .filter((id, i, list) => id !== list[i - 1]);
    const lead = run.steps.filter((each) => each.zone.kind === 'output');
    const start = lead[0];
    const end = lead.at(-1);
    if (!run.drive || !start || !end || !start.zone.feed) {
      const only = run.steps.at(-1);
      const result = only ? stepOf(only.zone, only.step.index) : NO_FLOW;
      return {
        motorId: motor.id,
        motorTag: motor.tag,
        driveId: null,
        path,
        terminalVoltage_pct: result.voltage_V !== null && motor.ratedVoltage_V ? (100 * result.voltage_V) / motor.ratedVoltage_V : null,
        bus_V: null,
        ...NO_WAVE,
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
    const leads = hops.map((hop) => hop.cable);
    const boxes = [...new Set(lead.slice(1, -1).map(({ step }) => step.element))];
    const feed = stepOf(start.zone.feed.zone, start.zone.feed.step);
    const fedAt = start.zone.feed.zone.steps[start.zone.feed.step];
    const terminal = stepOf(end.zone, end.step.index);
    const shield = memo.keep(`shield/${motor.id}`, traceShield(run.drive, hops));
    if (checks.has('run')) {
      const scope: RunScope = {
        project,
        basis,
        drive: run.drive,
        motor,
        cables: leads,
        boxes,
        disconnects: [...new Set(run.steps.flatMap(({ step: { element } }) => (element.kind === 'disconnect' ? [element] : [])))],
        start: stepOf(start.zone, 0),
        terminal,
        nominal_V: feed.nominal_V,
        voltageFrom: voltageFrom(start.zone, start.step),
        inputKnown: feed.voltage_V !== null,
        ahead: fedAt ? partsAhead(start.zone.feed.zone, fedAt) : [],
        lostAhead_pct: fedAt ? lostTo(start.zone.feed.zone, fedAt) : [],
        undrawnAhead: undrawnIn(start.zone.feed.zone),
        driven: motorsOf(start.zone),
        shield,
        tree,
        assumptions: [...feed.assumptions, ...terminal.assumptions],
      };
      findings.push(...judge(around, 'run', motor.id, scope));
    }
    const { nominal_V } = feed;
    const { riseTime_s } = run.drive;
    const bus_V = nominal_V === null ? null : busVoltage_V(nominal_V, run.drive);
    const solved =
      !around.shown || bus_V === null || riseTime_s === undefined ? null : waveAt(tree, motor, { bus_V, rise_s: riseTime_s, basis });
    const wave = solved && isWave(solved) ? solved : null;
    const shown = wave && makersWord(tree, motor.id) === null ? wave : null;
    return {
      motorId: motor.id,
      motorTag: motor.tag,
      driveId: run.drive.id,
      path,
      terminalVoltage_pct:
        terminal.voltage_V !== null && feed.voltage_V !== null && motor.ratedVoltage_V
          ? (100 * terminal.voltage_V) / motor.ratedVoltage_V
          : null,
      bus_V,
      peak_V: shown?.central_V ?? null,
      peakLow_V: shown?.low_V ?? null,
      peakHigh_V: shown?.high_V ?? null,
      riseAtMotor_s: shown?.rise_s ?? null,
      ring_Hz: shown?.ring_Hz ?? null,
      ringOut_s: shown?.ringOut_s ?? null,
      criticalLength_m: wave?.critical_m ?? null,
      leadLength_m: wayLength_m(leads),
      shield: shield.state,
      breaks: shield.breaks,
      verdict: 'not-applicable',
    };
  }

  return {
    group: groupOf(findings.map((each) => switchedOff(each, project.checks))),
    elements: [...elements.values()],
    cables,
    runs: solvedRuns,
  };
}

const loadsOf = (zone: Zone): readonly Element[] =>
  zone.steps.map(({ element }) => element).filter(({ kind }) => kind === 'drive' || kind === 'motor');

/** Told to every run of a supply: found once for each of its zones. */
const UNDRAWN = new WeakMap<Zone, readonly Element[]>();
/** What draws a current in a zone that is not known. */
export function undrawnIn(zone: Zone): readonly Element[] {
  const held = UNDRAWN.get(zone);
  if (held) return held;
  const found = loadsOf(zone).filter((each) => drawnGaps(each).length > 0);
  UNDRAWN.set(zone, found);
  return found;
}

const NO_WAVE = { peak_V: null, peakLow_V: null, peakHigh_V: null, riseAtMotor_s: null, ring_Hz: null, ringOut_s: null };

/** A check that the project switches off is said to be, never left out. */
export function switchedOff(finding: Finding, checks: Project['checks']): Finding {
  const setting = checks[finding.check];
  if (!setting?.off) return finding;
  return {
    ...finding,
    verdict: 'out-of-scope',
    text: `Switched off for this project${setting.reason ? `: ${setting.reason}` : ''}.`,
  };
}

/** One whose length is not known may have one. */
const hasLength = ({ kind, length_m }: Cable): boolean => kind === 'cable' && length_m !== 0;

/** For each drive of an input zone the last cable with a length ahead of it. */
function arrivals(zone: Zone): ReadonlyMap<Cable, readonly { readonly drive: ElementOf<'drive'>; readonly index: number }[]> {
  const found = new Map<Cable, { drive: ElementOf<'drive'>; index: number }[]>();
  for (const step of zone.steps) {
    if (step.element.kind !== 'drive') continue;
    for (const at of upstream(zone, step)) {
      if (at.via?.kind !== 'cable' || !hasLength(at.via.cable)) continue;
      const list = found.get(at.via.cable) ?? [];
      found.set(at.via.cable, [...list, { drive: step.element, index: step.index }]);
      break;
    }
  }
  return found;
}

/** Cables of the zone by the node they land on: all that share one set of terminals. */
function landedByNode(zone: Zone): ReadonlyMap<string, readonly Cable[]> {
  const landed = new Map<string, Cable[]>();
  const put = (node: string | undefined, cable: Cable): void => {
    if (node === undefined) return;
    const list = landed.get(node);
    if (list) list.push(cable);
    else landed.set(node, [cable]);
  };
  for (const step of zone.steps) {
    if (step.via?.kind !== 'cable') continue;
    put(step.node, step.via.cable);
    put(zone.steps[step.parent]?.node, step.via.cable);
  }
  return landed;
}

const transformersIn = ({ parts }: WayAround): readonly ElementOf<'transformer'>[] =>
  parts.flatMap((part) => (part.kind === 'transformer' ? [part] : []));
/** Amperes at a way around for one at the motors that it leads to. */
const seenBehind = (way: WayAround): number => transformersIn(way).reduce((seen, each) => seen * seenThrough(each), 1);

/** The nearest overcurrent device ahead of a place, one at the place itself not counted; that of a drive's zone is ahead of the drive. */
function guardOf(zone: Zone, step: Step) {
  const devices = disconnectsAhead(zone, step).filter((each) => each.device !== undefined && each.device !== 'switch');
  return devices.find((each) => each !== step.element) ?? null;
}

/** Reactors from here to the nearest transformer ahead: beyond it they have another base. */
function reactorsNear(zone: Zone, step: Step): readonly ElementOf<'reactor'>[] {
  const way = upstream(zone, step).map((at) => at.element);
  const end = way.findIndex((element) => element.kind === 'transformer');
  return [...new Set(end < 0 ? way : way.slice(0, end))].filter((element) => element.kind === 'reactor');
}

const motorsOf = (zone: Zone): readonly ElementOf<'motor'>[] =>
  zone.steps.flatMap(({ element }) => (element.kind === 'motor' ? [element] : []));

/** Parts and cables from here back to the source of the zone. */
const partsAhead = (zone: Zone, step: Step): readonly (Element | Cable)[] => {
  const found = upstream(zone, step).flatMap((at) => [at.element, ...(at.via?.kind === 'cable' ? [at.via.cable] : [])]);
  return [...new Set(found)];
};

/** Whether a transformer stands between the drive and this step of its output. */
function sourceIsScaled(zone: Zone, step: Step): boolean {
  for (const at of upstream(zone, step)) if (at.element.kind === 'transformer' && at.via?.kind === 'element') return true;
  return false;
}

/** Boxes between the drive and this step, nearest to the drive first. */
function boxesBefore(zone: Zone, step: Step) {
  const found = upstream(zone, step)
    .map((at) => at.element)
    .filter((element) => element.kind !== 'drive' && element !== step.element);
  return [...new Set(found)].reverse();
}
