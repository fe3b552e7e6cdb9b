import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import { isCable } from '../lineup/isCable.ts';
import type { Basis, Project } from '../lineup/project.ts';
import { fixed } from '../lineup/roundTo.ts';
import { worstLength_m } from './cableModel.ts';
import {
  type CableScope,
  type Check,
  cableSubject,
  elementSubject,
  exceeds,
  finding,
  given,
  lengthSaid,
  manualOf,
  marginAbove,
  marginBelow,
  missingOf,
  notApplicable,
  notKnown,
  openFinding,
  tagsOf,
  verdictOver,
  voltageGiven,
  voltageMissing,
} from './check.ts';
import { impedanceGaps, impedanceGiven } from './faultChecks.ts';
import { type Finding, type Missing, SIZE_UP } from './finding.ts';

/** Voltage lost on feeders and on motor leads. */

const REMEDIES = [`${SIZE_UP} (check terminals, fill and cable capacitance again).`, 'A shorter route.', 'A higher supply tap.'];

const inputsOf = ({ cable, drives, source, voltageFrom }: Pick<CableScope, 'cable' | 'drives' | 'source' | 'voltageFrom'>) => [
  ...[...new Set([source, voltageFrom])].flatMap(voltageGiven),
  ...given(
    cable,
    'conductor.size',
    'conductor.metal',
    'conductor.sets',
    'length_m',
    'lengthMost_m',
    'installation.raceway',
    'construction',
  ),
  ...drives.flatMap((drive) => given(drive, 'inputCurrent_A', 'inputPowerFactor', 'manual.inputVoltageLeast_pct')),
  ...(drives.some(({ manual }) => manual?.inputVoltageLeast_pct !== undefined) ? given(source, 'faultCurrent_A') : []),
];

/** Of a length that is a range: what the short end gives, and where it turns. The drop is taken as growing with the length. */
function range(cable: Cable, worst_pct: number, limit_pct: number, project: Project): string {
  const { length_m, lengthMost_m } = cable;
  if (length_m === undefined || lengthMost_m === undefined || lengthMost_m <= length_m || !(worst_pct > 0)) return '';
  const turn_m = (lengthMost_m * limit_pct) / worst_pct;
  const least_pct = (worst_pct * length_m) / lengthMost_m;
  return ` Judged at the long end, ${lengthSaid(lengthMost_m, project)}; at ${lengthSaid(length_m, project)} about ${fixed(least_pct, 2)} %, and the limit is met up to about ${lengthSaid(turn_m, project)} of ${cable.tag}.`;
}

/** What says how much current a part draws. */
const drawnPaths = (part: Element | Cable): readonly string[] => {
  if (isCable(part)) return [];
  return part.kind === 'drive' ? ['inputCurrent_A'] : part.kind === 'motor' ? ['ratedCurrent_A', 'ratedVoltage_V'] : [];
};

const cableFields = ['conductor.size', 'conductor.metal', 'length_m'] as const;

export const drawnGaps = (part: Element | Cable): readonly Missing[] => missingOf(part, ...drawnPaths(part));

/** What keeps a voltage from being known: impedances on the way to it, and currents that are drawn there. */
const voltageGaps = (way: readonly (Element | Cable)[], loads: readonly (Element | Cable)[]): readonly Missing[] => [
  ...impedanceGaps(way),
  ...loads.flatMap(drawnGaps),
];
const whyUnknown = (lacking: readonly Missing[]): string =>
  lacking.length > 0 ? notKnown(lacking) : 'Something ahead cannot carry what it feeds.';

/** A supply of no known fault level sags by nothing where voltages are solved: too little can be told from them, enough cannot. */
const endless = (ahead: readonly (Element | Cable)[]): readonly Missing[] =>
  ahead.flatMap((part) => (part.kind === 'supply' ? missingOf(part, 'faultCurrent_A') : []));

/** What all from the supply to the load may lose: NEC 215.2(A)(2) informational note 2, IEC 60364-5-52 Annex G. A larger limit of the project's own stands above it. */
const wholeLimit_pct = ({ limits }: Project): number => Math.max(5, limits.feederDrop_pct ?? 0, limits.leadDrop_pct ?? 0);
const feederLimit_pct = ({ limits }: Project, basis: Basis): number => limits.feederDrop_pct ?? (basis === 'us' ? 3 : 5);

/** What is lost from the supply on, at least. It is told once: not where a cable ahead is over by itself already, or all of them are together. */
function fromSupply(own_pct: number, ahead_pct: readonly (number | null)[], project: Project, basis: Basis) {
  const known = ahead_pct.map((each) => each ?? 0);
  const ahead = known.reduce((sum, each) => sum + each, 0);
  const limit = wholeLimit_pct(project);
  const told = exceeds(ahead, limit) || known.some((each) => exceeds(each, feederLimit_pct(project, basis)));
  const value = ahead + own_pct;
  return { value, limit, told, over: !told && exceeds(value, limit) };
}

export const feederDrop: Check = {
  slug: 'feeder-drop',
  rule: 'Drop at rated input current to 3 % (US) or 5 % (IEC), or the project’s limit, and 5 % from the supply on; at low line the drive must keep the least voltage its manual names.',
  title: 'Feeder voltage drop',
  authority: 'guide',
  source: 'NEC 215.2(A)(2) informational note 2 (3 % on a feeder, 5 % in all); IEC 60364-5-52 Annex G (5 % from a public supply)',
  why: 'What the feeder loses, the drive cannot give to the motor: at base speed its output follows its input. The limit is advice, not law.',
  scope: 'cable',
  judge({
    cable,
    side,
    flow,
    project,
    basis,
    drives,
    motors,
    nominal_V,
    source,
    voltageFrom,
    arrivesAt,
    arrivals,
    arrivalParts,
    ahead,
    lostAhead_pct,
    unmadeBehind,
    undrawn,
  }): readonly Finding[] {
    if (side !== 'input') return [];
    const runs = tagsOf(motors);
    const subject = cableSubject(cable);
    if (cable.kind === 'link' || worstLength_m(cable) === 0)
      return [notApplicable(this, subject, runs, 'No length: a connection inside one enclosure.')];
    const missing: Missing[] = [
      ...missingOf(cable, ...cableFields),
      ...drives.flatMap((drive) => missingOf(drive, 'inputCurrent_A')),
      ...[...new Set([source, voltageFrom])].flatMap(voltageMissing),
    ];
    if (flow.collapsed)
      return [
        finding(this, subject, runs, {
          verdict: 'fail',
          authority: 'physics',
          phrase: 'load cannot be carried',
          text: `${cable.tag} and what is ahead of it cannot carry the drives’ rated input: the voltage collapses.`,
          remedies: REMEDIES,
          inputs: inputsOf({ cable, drives, source, voltageFrom }),
          working: flow.says,
        }),
      ];
    if (flow.drop_V === null || nominal_V === null) {
      return [
        openFinding(
          this,
          subject,
          runs,
          missing,
          missing.length > 0
            ? {}
            : { text: 'Cannot be judged yet: the voltage or the load here is not known, or it cannot be carried at all.' },
        ),
      ];
    }
    if (drives.length + motors.length === 0) return [notApplicable(this, subject, runs, 'It feeds no motor.')];
    const value = (100 * flow.drop_V) / nominal_V;
    const own = project.limits.feederDrop_pct;
    const limit = feederLimit_pct(project, basis);
    const over = exceeds(value, limit);
    const whole = fromSupply(value, lostAhead_pct, project, basis);
    const inAll = !over && whole.over;
    const mayGrow = exceeds(2 * value, limit);
    // Behind the last cable stands a drive, which must still run on what the lowest line voltage leaves it.
    const arrived = arrivesAt.map((drive, i) => {
      const low_V = arrivals[i]?.cases['low line'].voltage_V ?? null;
      const low_pct = low_V === null ? null : (100 * low_V) / (drive.ratedVoltage_V ?? nominal_V);
      const says =
        low_V === null || low_pct === null
          ? ''
          : ` At low line ${drive.tag} has ${fixed(low_V, 0)} V, ${fixed(low_pct, 1)} % of its rating.`;
      return { drive, low_pct, says, least_pct: drive.manual?.inputVoltageLeast_pct };
    });
    for (const { drive, low_pct, says, least_pct } of arrived)
      if (least_pct !== undefined && low_pct !== null && exceeds(least_pct, low_pct))
        return [
          finding(this, subject, runs, {
            verdict: 'fail',
            authority: 'manual',
            source: manualOf(drive),
            case: 'low line',
            quantity: 'voltage at the drive',
            value: low_pct,
            limit: least_pct,
            unit: '%',
            margin_pct: marginAbove(low_pct, least_pct),
            phrase: `${fixed(low_pct, 1)} % at low line`,
            text: `${cable.tag} loses ${fixed(flow.drop_V, 2)} V at rated input.${says} Its manual asks for ${fixed(least_pct, 1)} %.`,
            remedies: REMEDIES,
            inputs: inputsOf({ cable, drives, source, voltageFrom }),
            working: flow.says,
            assumptions: flow.assumptions,
          }),
        ];
    const sags = endless([source]);
    const unsure = arrived.find(({ low_pct, least_pct }) => least_pct !== undefined && (low_pct === null || sags.length > 0));
    if (unsure && !(over && own !== undefined)) {
      const way = [...new Set<Element | Cable>([source, ...arrivalParts])];
      const lacking = unsure.low_pct === null ? voltageGaps(way, arrivalParts) : sags;
      const here =
        unsure.low_pct === null
          ? `; the voltage at ${unsure.drive.tag} is not known, and its manual asks for ${fixed(unsure.least_pct ?? 0, 0)} %.`
          : `.${arrived.map(({ says }) => says).join('')} That is the most that it can be.`;
      return [
        openFinding(this, subject, runs, lacking, {
          phrase: 'voltage at the drive?',
          text: `${cable.tag} loses ${fixed(flow.drop_V, 2)} V${here} ${whyUnknown(lacking)}`,
          inputs: [
            ...inputsOf({ cable, drives, source, voltageFrom }),
            ...impedanceGiven(arrivalParts.filter((part) => part !== cable && part !== source)),
            ...arrivalParts.flatMap((part) => (drives.some(({ id }) => id === part.id) ? [] : given(part, ...drawnPaths(part)))),
          ],
        }),
      ];
    }
    // A drive draws the more the less it is given: what is lost here is the least that it can be, and at most twice that, since at
    // half of its voltage no drive runs.
    const unfed = flow.voltage_V === null;
    const least = unfed || unmadeBehind.length > 0;
    const inputs = [...new Set([...inputsOf({ cable, drives, source, voltageFrom }), ...impedanceGiven([...ahead, ...unmadeBehind])])];
    if (!over && !inAll && (unfed || ((sags.length > 0 || least) && mayGrow))) {
      const lacking = [...(unfed ? voltageGaps(ahead, undrawn) : sags), ...impedanceGaps(unmadeBehind)];
      const where = unfed || sags.length > 0 ? 'ahead' : 'behind';
      const why =
        lacking.length === 0 && least && !unfed
          ? `No table gives the impedance of ${tagsOf(unmadeBehind).join(', ')}.`
          : whyUnknown(lacking);
      return [
        openFinding(this, subject, runs, lacking, {
          quantity: 'drop at rated input current',
          value,
          limit,
          unit: '%',
          phrase: `voltage ${where}?`,
          text: `${cable.tag} loses at least ${fixed(flow.drop_V, 2)} V, ${fixed(value, 2)} % of ${fixed(nominal_V, 0)} V: the voltage ${where} is not known, and drives draw more the less it is. ${why}`,
          inputs,
        }),
      ];
    }
    const ruled = own !== undefined && !inAll;
    const [shown, most] = inAll ? [whole.value, whole.limit] : [value, limit];
    const series =
      lostAhead_pct.length > 0
        ? ` From the supply on ${least ? 'at least ' : ''}${fixed(whole.value, 2)} % are lost, of ${fixed(whole.limit, 1)} %.`
        : '';
    const guessed = drives.filter((drive) => drive.inputPowerFactor === undefined);
    return [
      finding(this, subject, runs, {
        verdict: over && ruled ? 'fail' : over ? 'caution' : inAll ? 'note' : 'pass',
        authority: ruled ? 'project' : 'guide',
        source: ruled ? 'limit set for this project' : this.source,
        quantity: inAll ? 'drop from the supply on' : 'drop at rated input current',
        value: shown,
        limit: most,
        unit: '%',
        margin_pct: marginBelow(shown, most),
        phrase: `drop ${fixed(shown, 2)} %${inAll ? ' in all' : ''}`,
        text: `${cable.tag} loses ${least ? 'at least ' : ''}${fixed(flow.drop_V, 2)} V, ${fixed(value, 2)} % of ${fixed(nominal_V, 0)} V, at ${fixed(flow.current_A ?? 0, 1)} A; ${own === undefined ? 'the guide allows' : 'this project allows'} ${fixed(limit, 1)} %.${series}${arrived.map(({ says }) => says).join('')}${range(cable, value, limit, project)}`,
        remedies: REMEDIES,
        case: 'rated',
        inputs,
        working: [
          ...flow.says,
          `Z = ${fixed(1000 * (flow.resistance_ohm ?? 0), 3)} + j${fixed(1000 * (flow.reactance_ohm ?? 0), 3)} mΩ, whole length, sets in parallel`,
          `I = ${fixed(flow.current_A ?? 0, 2)} A, phasor sum of what it feeds`,
          guessed.length === 0
            ? `drop = |V near| − |V far| = ${fixed(flow.drop_V, 3)} V`
            : `drop = √3 |Z| × the currents added up, the most at any power factor = ${fixed(flow.drop_V, 3)} V`,
        ],
        assumptions: [
          ...guessed.map((drive) => ({
            what: `input power factor of ${drive.tag}`,
            value: 'that which drops most',
            source: 'worst case: not given',
          })),
          ...flow.assumptions,
        ],
      }),
    ];
  },
};

export const leadDrop: Check = {
  slug: 'lead-drop',
  rule: 'Drop from drive to motor over 3 % a caution, over 2 % a note, or the project’s limit; over 5 % from the supply on a note; less than 90 % of nameplate at the terminals fails.',
  title: 'Voltage at the motor',
  authority: 'guide',
  source:
    'NEC 210.19 informational note (3 % on a branch circuit, 5 % with its feeder); one drive maker’s published manual (2 %); NEMA MG 1 12.44 (90 % at the terminals, from memory)',
  why: 'At low speed the drive can add volts; at base speed it has none to add. What is lost on the leads, and what the feeder lost before, is missing at the motor’s terminals, and torque falls with it.',
  scope: 'run',
  judge({
    motor,
    drive,
    cables,
    boxes,
    start,
    terminal,
    nominal_V,
    project,
    basis,
    inputKnown,
    ahead,
    lostAhead_pct,
    undrawnAhead,
    driven,
    assumptions,
  }): readonly Finding[] {
    const subject = elementSubject(motor);
    const runs = [motor.tag];
    const missing: Missing[] = [
      ...missingOf(motor, 'ratedCurrent_A', 'ratedVoltage_V'),
      ...cables
        .filter((cable) => cable.kind === 'cable')
        .flatMap((cable) => (worstLength_m(cable) === 0 ? [] : missingOf(cable, ...cableFields))),
      ...boxes.flatMap((box) =>
        box.kind === 'reactor'
          ? missingOf(box, 'impedance_pct')
          : box.kind === 'filter'
            ? missingOf(box, 'role')
            : box.kind === 'transformer'
              ? impedanceGaps([box])
              : [],
      ),
    ];
    const rated = motor.ratedVoltage_V;
    if (missing.length > 0 || rated === undefined) return [openFinding(this, subject, runs, missing)];
    if (terminal.collapsed)
      return [
        finding(this, subject, runs, {
          verdict: 'fail',
          authority: 'physics',
          phrase: 'load cannot be carried',
          text: `The leads from ${drive.tag} cannot carry the rated current of ${motor.tag} at all: the voltage collapses on the way.`,
          remedies: REMEDIES,
        }),
      ];
    if (start.voltage_V === null || terminal.voltage_V === null) {
      return [
        openFinding(
          this,
          subject,
          runs,
          driven.flatMap((each) => missingOf(each, 'ratedCurrent_A', 'ratedVoltage_V')),
          {
            phrase: 'load not known',
            text: 'Cannot be judged yet: another motor on this drive is not described, or the leads cannot carry the load at all.',
          },
        ),
      ];
    }
    // Across a transformer on the output, the volts at the drive are those it would give the motor without load.
    const drop_V = start.voltage_V * terminal.gain - terminal.voltage_V;
    const value = (100 * drop_V) / rated;
    const own = project.limits.leadDrop_pct;
    const limit = own ?? 3;
    const least = 90;
    const atMotor = (100 * terminal.voltage_V) / rated;
    const unsettled = !inputKnown || endless(ahead).length > 0;
    const starved = inputKnown && exceeds(least, atMotor);
    const base = verdictOver(value, limit, own === undefined ? 2 : limit);
    // The whole way is told of the voltage of the supply, as its feeders are.
    const known = inputKnown && nominal_V !== null && lostAhead_pct.length > 0;
    const whole = fromSupply(known ? (100 * drop_V) / terminal.gain / nominal_V : 0, lostAhead_pct, project, basis);
    const inAll = known && !starved && base !== 'caution' && whole.over;
    const verdict = starved || (own !== undefined && base === 'caution') ? 'fail' : inAll ? 'note' : base;
    const series = known
      ? ` From the supply on ${fixed(whole.value, 2)} % of ${fixed(nominal_V, 0)} V are lost, of ${fixed(whole.limit, 1)} %.`
      : '';
    const [shown, most] = starved ? [atMotor, least] : inAll ? [whole.value, whole.limit] : [value, limit];
    const here = inputKnown
      ? ` With what the feeder leaves, the motor can be given ${unsettled ? 'at most ' : ''}${fixed(atMotor, 1)} % of its ${fixed(rated, 0)} V at base speed.`
      : ' What the feeder leaves is not known.';
    const others = (['low line', 'overload'] as const)
      .flatMap((name) => {
        const volts = terminal.cases[name].voltage_V;
        return inputKnown && volts !== null ? [`${name} ${fixed((100 * volts) / rated, 1)} %`] : [];
      })
      .join(', ')
      .replace(/^(.+)$/, ' Other cases: $1.');
    const found = finding(this, subject, runs, {
      verdict,
      authority: starved ? 'standard' : own === undefined || inAll ? 'guide' : 'project',
      quantity: starved ? 'voltage at the terminals' : inAll ? 'drop from the supply on' : 'drop from drive to motor',
      value: shown,
      limit: most,
      unit: '%',
      margin_pct: (starved ? marginAbove : marginBelow)(shown, most),
      phrase: starved ? `${fixed(atMotor, 1)} % at the motor` : `drop ${fixed(shown, 2)} %${inAll ? ' in all' : ''}`,
      text: `From ${drive.tag} to ${motor.tag} ${fixed(drop_V, 2)} V are lost, ${fixed(value, 2)} % of nameplate, against ${fixed(limit, 1)} %.${series}${here}${others}${cables.map((cable) => range(cable, value, limit, project)).join('')}`,
      remedies: [...REMEDIES, 'One series reactor less.'],
      case: 'rated',
      inputs: [
        ...given(motor, 'ratedVoltage_V', 'ratedCurrent_A', 'powerFactor', 'ratedFrequency_Hz'),
        ...cables.flatMap((cable) => given(cable, 'conductor.size', 'conductor.metal', 'conductor.sets', 'length_m', 'lengthMost_m')),
        ...boxes.flatMap((box) => given(box, 'impedance_pct', 'drop_pct', 'ratedCurrent_A')),
        ...driven.filter((each) => each !== motor).flatMap((each) => given(each, 'ratedVoltage_V', 'ratedCurrent_A')),
        ...given(drive, 'inputCurrent_A'),
        ...impedanceGiven(ahead),
      ],
      working: [
        `current of ${motor.tag}: ${fixed(motor.ratedCurrent_A ?? 0, 1)} A at ${fixed(motor.ratedFrequency_Hz ?? (basis === 'us' ? 60 : 50), 0)} Hz`,
        `at the drive ${fixed(start.voltage_V, 2)} V${terminal.gain === 1 ? '' : ` × ${fixed(terminal.gain, 4)} through the transformer`}, at the motor ${fixed(terminal.voltage_V, 2)} V (phasor solution)`,
      ],
      assumptions: [
        ...(drive.outputRatio_pct === undefined
          ? [{ what: `most output of ${drive.tag}`, value: '100 % of its input', source: 'common practice' }]
          : []),
        ...(motor.powerFactor === undefined
          ? [{ what: `power factor of ${motor.tag}`, value: 'that which drops most', source: 'worst case: not given' }]
          : []),
        ...assumptions,
      ],
    });
    // The drop alone does not settle it: without the input side, what the motor gets is not known.
    if (unsettled && (verdict === 'pass' || verdict === 'note' || verdict === 'caution')) {
      return [
        {
          ...found,
          verdict: 'open',
          phrase: 'input voltage?',
          missing: [
            ...missingOf(drive, 'inputCurrent_A'),
            ...undrawnAhead.filter((each) => each !== drive).flatMap(drawnGaps),
            ...impedanceGaps(ahead),
          ],
        },
      ];
    }
    return [found];
  },
};
