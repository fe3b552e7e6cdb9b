import { fixed } from '../lineup/roundTo.ts';
import {
  type Check,
  elementSubject,
  exceeds,
  finding,
  given,
  missingOf,
  openFinding,
  tagsOf,
  voltageGiven,
  voltageMissing,
} from './check.ts';
import type { Finding, Verdict } from './finding.ts';
import { turnedRange } from './turnedRange.ts';

/** Whether parts are made for the voltage at which they stand: the combinations that cannot be. */

/** A motor far below the supply is run by a drive that must be set so: its peaks are those of the supply all the same. */
const LOW_MOTOR = 0.75;

export const voltageMatch: Check = {
  slug: 'voltage-match',
  rule: 'Drives and transformers within 10 % of the nominal voltage at their line side; no motor above the supply of its drive by more than 10 %, nor below it where it runs without one.',
  title: 'Rated voltages',
  authority: 'manual',
  source: 'the nameplates; ± 10 % is usual (IEC 60038, NEMA MG 1 12.44, from memory)',
  why: 'A part on the wrong voltage fails at once or never does its work: a drive cannot make more voltage than it is given.',
  scope: 'element',
  judge({ element, side, flow, motors, nominal_V, voltageFrom, atSource }): readonly Finding[] {
    const subject = elementSubject(element);
    const runs = tagsOf(motors);
    // Every low and every high line is made of these two.
    if (element.kind === 'supply' && exceeds(element.voltageLeast_pct ?? 0, element.voltageMost_pct ?? Number.POSITIVE_INFINITY))
      return [openFinding(this, subject, runs, [], turnedRange(element, 'voltageLeast_pct', 'voltageMost_pct'))];
    if (atSource) return [];
    const path =
      element.kind === 'transformer' ? 'primaryVoltage_V' : element.kind === 'drive' || element.kind === 'motor' ? 'ratedVoltage_V' : null;
    if (path === null || (element.kind === 'drive' && side === 'output')) return [];
    const rated =
      element.kind === 'transformer'
        ? element.primaryVoltage_V
        : element.kind === 'drive' || element.kind === 'motor'
          ? element.ratedVoltage_V
          : undefined;
    // On the output side the zone's own start is what the drive makes; its supply's nominal voltage is what counts.
    const here = element.kind === 'transformer' && side === 'input' ? flow.nominal_V : nominal_V;
    if (rated === undefined || here === null)
      return [
        openFinding(
          this,
          subject,
          runs,
          [...missingOf(element, path), ...(here === null ? voltageMissing(voltageFrom) : [])],
          rated === undefined ? {} : { text: 'Cannot be judged yet: the nominal voltage at it is not known.' },
        ),
      ];
    const ratio = rated / here;
    const motor = element.kind === 'motor';
    // Only a drive can turn its output down to a motor of less.
    const driven = motor && side === 'output';
    const wrong = exceeds(ratio, 1.1) || (!driven && exceeds(0.9, ratio));
    const low = driven && exceeds(LOW_MOTOR, ratio);
    const verdict: Verdict = wrong ? 'fail' : low ? 'caution' : 'pass';
    return [
      finding(this, subject, runs, {
        verdict,
        quantity: 'rated voltage',
        value: rated,
        limit: here,
        unit: 'V',
        phrase: `${fixed(rated, 0)} V on ${fixed(here, 0)} V`,
        text: `${element.tag} is made for ${fixed(rated, 0)} V and stands on ${fixed(here, 0)} V${low ? ': its drive must be set to its voltage, and the peaks are those of the supply' : ''}.`,
        inputs: [...given(element, path), ...voltageGiven(voltageFrom)],
        working: [`${fixed(rated, 1)} / ${fixed(here, 1)} V = ${fixed(100 * ratio, 1)} %`],
        remedies: verdict === 'pass' ? [] : ['A part for this voltage, another tap, or a transformer between.', 'Check what was entered.'],
      }),
    ];
  },
};
