import type { Cable } from '../lineup/cable.ts';
import type { Element, ElementOf } from '../lineup/elements.ts';
import type { Step } from '../network/network.ts';
import { worstLength_m } from './cableModel.ts';

/**
 * What is wired behind a drive, as waves run through it: lines between numbered points, motors and terminators at them. Switches and
 * junctions are points. A reactor or filter right at the drive stands ahead of point 0; anywhere else it is not modelled.
 *
 *   drive ─ [reactor, filter] ─ 0 ── cable ── 1 ── cable ── 2  motor
 *                                             └── cable ── 3  motor
 */
export interface WaveTree {
  readonly hops: readonly Hop[];
  readonly motors: readonly { readonly motor: ElementOf<'motor'>; readonly node: number }[];
  readonly terminators: readonly { readonly filter: ElementOf<'filter'>; readonly node: number }[];
  readonly atDrive: ElementOf<'reactor'> | ElementOf<'filter'> | null;
  /** What changes the wave in a way that only its maker knows. */
  readonly unmodelled: Element | null;
}
export interface Hop {
  readonly cable: Cable;
  readonly from: number;
  readonly to: number;
}

const softens = (element: Element): boolean =>
  element.kind === 'reactor' || element.kind === 'transformer' || (element.kind === 'filter' && element.role !== 'terminator');

export function waveTree(steps: readonly Step[]): WaveTree {
  const hops: Hop[] = [];
  const motors: { motor: ElementOf<'motor'>; node: number }[] = [];
  const terminators: { filter: ElementOf<'filter'>; node: number }[] = [];
  let atDrive: WaveTree['atDrive'] = null;
  let unmodelled: Element | null = null;
  const node = new Map<number, number>();
  const behind = new Set<number>();
  let bare = false;
  for (const { index, parent, element, via } of steps) {
    const before = node.get(parent) ?? 0;
    if (behind.has(parent)) behind.add(index);
    if (via?.kind === 'cable' && worstLength_m(via.cable) !== 0) {
      const to = hops.length + 1;
      hops.push({ cable: via.cable, from: before, to });
      node.set(index, to);
      if (!behind.has(index)) bare = true;
    } else node.set(index, before);
    const here = node.get(index) ?? 0;
    if (via?.kind === 'element' && softens(element)) {
      const mayStand = element.kind === 'reactor' || (element.kind === 'filter' && (element.role === 'dvdt' || element.role === 'sine'));
      if (mayStand && here === 0 && atDrive === null) {
        atDrive = element;
        behind.add(index);
      } else unmodelled ??= element;
    }
    if (element.kind === 'motor') {
      motors.push({ motor: element, node: here });
      if (!behind.has(index)) bare = true;
    }
    if (element.kind === 'filter' && element.role === 'terminator' && !terminators.some((each) => each.filter === element))
      terminators.push({ filter: element, node: here });
  }
  // A cable that starts ahead of the reactor or filter is not softened by it.
  if (atDrive && bare) unmodelled ??= atDrive;
  return { hops, motors, terminators, atDrive, unmodelled };
}

/** From point 0 to the motor. */
export function hopsTo(tree: WaveTree, motorId: string): readonly Hop[] {
  const way: Hop[] = [];
  let at = tree.motors.find(({ motor }) => motor.id === motorId)?.node ?? 0;
  while (at !== 0) {
    const hop = tree.hops.find((each) => each.to === at);
    if (!hop) break;
    way.unshift(hop);
    at = hop.from;
  }
  return way;
}

/** Who knows the peak at this motor: the maker of a filter who states it, nobody yet for want of some data, or null where it can be solved. */
export type MakersWord =
  | { readonly kind: 'stated'; readonly filter: ElementOf<'filter'>; readonly peak_V: number }
  | { readonly kind: 'ask'; readonly part: Element; readonly fields: readonly string[] }
  | null;

export function makersWord(tree: WaveTree, motorId: string): MakersWord {
  const { atDrive, unmodelled, terminators } = tree;
  const node = tree.motors.find(({ motor }) => motor.id === motorId)?.node;
  const here = terminators.filter((each) => each.node === node).map(({ filter }) => filter);
  for (const part of [atDrive, unmodelled, ...here])
    if (part?.kind === 'filter' && part.motorPeak_V !== undefined) return { kind: 'stated', filter: part, peak_V: part.motorPeak_V };
  if (unmodelled) return { kind: 'ask', part: unmodelled, fields: unmodelled.kind === 'filter' ? ['motorPeak_V'] : [] };
  if (atDrive?.kind === 'filter') {
    // Behind a sine filter no edge is left, and what is left only its maker knows.
    if (atDrive.role === 'sine') return { kind: 'ask', part: atDrive, fields: ['motorPeak_V'] };
    if (atDrive.inductance_H === undefined || atDrive.capacitance_F === undefined)
      return { kind: 'ask', part: atDrive, fields: ['motorPeak_V'] };
  }
  if (atDrive?.kind === 'reactor') {
    const fields = (['impedance_pct', 'ratedVoltage_V', 'ratedCurrent_A'] as const).filter((field) => atDrive[field] === undefined);
    if (fields.length > 0 || atDrive.impedance_pct === 0) return { kind: 'ask', part: atDrive, fields };
  }
  const blank = terminators.find(({ filter }) => filter.resistance_ohm === undefined || filter.capacitance_F === undefined);
  return blank ? { kind: 'ask', part: blank.filter, fields: ['motorPeak_V', 'resistance_ohm', 'capacitance_F'] } : null;
}
