import { worstLength_m } from '../checks/cableModel.ts';
import type { CableScope, Check } from '../checks/check.ts';
import type { Finding } from '../checks/finding.ts';
import { Memo } from '../checks/memo.ts';
import type { Review } from '../checks/solved.ts';
import type { Cable } from '../lineup/cable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { buildNetwork, type Step, type Zone } from '../network/network.ts';
import { createReviewer } from '../review/createReviewer.ts';
import { type Choice, resized } from './choices.ts';
import { SEARCH_CHECKS, SIZE_RULES, type SizeRule, worstByUnit } from './sizeChecks.ts';

/** A line-up whose cables may take other sizes: which cables, which of them decide together, and what the checks say of any choice. */

export type Choices = ReadonlyMap<string, Choice>;

export class Site {
  readonly lineUp: LineUp;
  /** Cables that are fed and have a length, in the order of the document. */
  readonly cables: readonly Cable[];
  readonly #scopes = new Map<string, CableScope>();
  readonly #made = new Map<string, Cable>();
  readonly #zoneOfCable = new Map<string, Zone>();
  readonly #inputOf = new Map<string, Zone>();
  readonly #outputOf = new Map<string, Zone>();
  readonly #pathTo = new Map<string, readonly string[]>();
  readonly #solving = new Memo();

  constructor(lineUp: LineUp) {
    this.lineUp = lineUp;
    const { zones } = buildNetwork(lineUp);
    for (const zone of zones) {
      for (const { element, via } of zone.steps) {
        if (via?.kind === 'cable') this.#zoneOfCable.set(via.cable.id, zone);
        (zone.kind === 'input' ? this.#inputOf : this.#outputOf).set(element.id, zone);
      }
    }
    this.cables = lineUp.cables.filter((cable) => this.#zoneOfCable.has(cable.id) && (worstLength_m(cable) ?? 0) > 0);
    const capture: Check = {
      slug: '',
      title: '',
      authority: 'physics',
      source: '',
      rule: '',
      why: '',
      scope: 'cable',
      judge: (scope) => {
        this.#scopes.set(scope.cable.id, scope);
        return [];
      },
    };
    for (const run of createReviewer([capture], false).review(lineUp).runs) this.#pathTo.set(run.motorId, run.path);
  }

  /** The same object for the same choice, so that a reviewer knows what did not change. */
  cable(cable: Cable, choice: Choice): Cable {
    const key = `${cable.id}/${choice.size}/${choice.sets}`;
    const held = this.#made.get(key);
    if (held) return held;
    const made = resized(cable, choice);
    this.#made.set(key, made);
    return made;
  }

  with(choices: Choices): LineUp {
    return {
      ...this.lineUp,
      cables: this.lineUp.cables.map((cable) => {
        const choice = choices.get(cable.id);
        return choice ? this.cable(cable, choice) : cable;
      }),
    };
  }

  /** Judges one choice after another on those of the checks that a size decides, with a memory of its own. */
  judge(of: (rule: SizeRule) => boolean = () => true, asked = SEARCH_CHECKS): (choices: Choices) => Review {
    const checks = asked.filter(({ slug }) => of(SIZE_RULES[slug] as SizeRule));
    const reviewer = createReviewer(checks, false, this.#solving);
    return (choices) => reviewer.review(this.with(choices));
  }

  /** The worst that one check says of a cable and its neighbours, without solving anything; null when that is nothing. */
  local(check: Check, id: string, choices: Choices): Finding | null {
    const scope = this.#scopes.get(id);
    if (!scope || check.scope !== 'cable' || this.lineUp.project.checks[check.slug]?.off) return null;
    const made = (cable: Cable): Cable => {
      const choice = choices.get(cable.id);
      return choice ? this.cable(cable, choice) : cable;
    };
    const said = check.judge({
      ...scope,
      cable: made(scope.cable),
      landedFrom: scope.landedFrom.map(made),
      landedTo: scope.landedTo.map(made),
      together: scope.together.map(made),
    });
    return [...worstByUnit(said).values()][0] ?? null;
  }

  /** Other cables on the same terminals or in the same pipe. */
  neighbours(id: string): readonly string[] {
    const scope = this.#scopes.get(id);
    if (!scope) return [];
    const all = [...scope.landedFrom, ...scope.landedTo, ...scope.together].map((cable) => cable.id);
    return [...new Set(all)].filter((other) => other !== id);
  }

  zoneOf(id: string): Zone | undefined {
    return this.#zoneOfCable.get(id);
  }

  /** Of a cable behind a drive: the cables ahead of the drive that feed nothing else. */
  ownFeeders(id: string): readonly string[] {
    const feed = this.#zoneOfCable.get(id)?.feed;
    if (!feed) return [];
    const { steps } = feed.zone;
    const wayUp = (from: Step | undefined): readonly Step[] => {
      const way: Step[] = [];
      for (let step = from; step; step = steps[step.parent]) way.push(step);
      return way;
    };
    const loads = new Map<Step, number>();
    for (const load of steps)
      if (load.element.kind === 'motor' || load.element.kind === 'drive')
        for (const step of wayUp(load)) loads.set(step, (loads.get(step) ?? 0) + 1);
    const own: string[] = [];
    for (const step of wayUp(steps[feed.step])) {
      if (loads.get(step) !== 1) break;
      if (step.via?.kind === 'cable') own.push(step.via.cable.id);
    }
    return own;
  }

  /** Cables whose size may move this finding. */
  deciders(finding: Finding): ReadonlySet<string> {
    const { id } = finding.subject;
    const { reach } = SIZE_RULES[finding.check] ?? { reach: 'cable' as const };
    if (reach === 'cable') return new Set([id]);
    if (reach === 'neighbours') return new Set([id, ...this.neighbours(id)]);
    const zone = this.#zoneOfCable.get(id) ?? (reach === 'input' ? this.#inputOf : this.#outputOf).get(id);
    const ids = zone ? cablesIn(zone) : [];
    return new Set(finding.check === 'lead-drop' && zone?.feed ? [...ids, ...cablesIn(zone.feed.zone)] : ids);
  }

  /** Cables that the finding is about: those whose size would be raised for it. */
  about(finding: Finding): readonly string[] {
    const { subject } = finding;
    const path = this.#pathTo.get(subject.id);
    if (path && SIZE_RULES[finding.check]?.reach === 'output') return path.filter((id) => this.#zoneOfCable.get(id)?.kind === 'output');
    return this.#zoneOfCable.has(subject.id) ? [subject.id] : [...this.deciders(finding)];
  }
}

const cablesIn = (zone: Zone): readonly string[] => zone.steps.flatMap(({ via }) => (via?.kind === 'cable' ? [via.cable.id] : []));
