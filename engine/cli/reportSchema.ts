import { AUTHORITIES, CASES, CONFIDENCES, ORIGINS, VERDICTS } from '../checks/finding.ts';
import { z } from '../lineup/zod.ts';

/** The shape of `check --json`: a list with one entry a file that could be read. Numbers are SI with the unit at the end of the name; null is not known. */

const known = z.nullable(z.number());
const verdict = z.enum(VERDICTS);

const finding = z.strictObject({
  id: z.string(),
  check: z.string(),
  title: z.string(),
  subject: z.strictObject({
    kind: z.enum(['element', 'cable', 'end', 'run', 'lineup']),
    id: z.string(),
    tag: z.string(),
    end: z.optional(z.enum(['from', 'to'])),
  }),
  runs: z.array(z.string()),
  verdict,
  authority: z.enum(AUTHORITIES),
  source: z.string(),
  quantity: z.string(),
  value: known,
  limit: known,
  unit: z.string(),
  band: z.nullable(z.strictObject({ low: z.number(), high: z.number(), confidence: z.enum(CONFIDENCES) })),
  margin_pct: known,
  phrase: z.string(),
  text: z.string(),
  why: z.string(),
  remedies: z.array(z.string()),
  case: z.nullable(z.enum(CASES)),
  inputs: z.array(z.strictObject({ what: z.string(), value: z.string(), origin: z.enum(ORIGINS), source: z.string() })),
  working: z.array(z.string()),
  assumptions: z.array(z.strictObject({ what: z.string(), value: z.string(), source: z.string() })),
  missing: z.array(
    z.strictObject({ id: z.string(), tag: z.string(), field: z.string(), label: z.string(), named: z.string(), ask: z.string() }),
  ),
});

const solved = z.strictObject({
  elements: z.array(z.strictObject({ id: z.string(), tag: z.string(), voltage_V: known, faultCurrent_A: known, faultPeak_A: known })),
  cables: z.array(
    z.strictObject({
      id: z.string(),
      tag: z.string(),
      side: z.enum(['input', 'output', 'unfed']),
      current_A: known,
      resistance_ohm: known,
      reactance_ohm: known,
      drop_V: known,
      drop_pct: known,
      ampacity_A: known,
      ampacityFactors: z.array(z.strictObject({ name: z.string(), value: z.number() })),
      shield: z.enum(['shield', 'raceway', 'none', 'unknown']),
    }),
  ),
  runs: z.array(
    z.strictObject({
      motorId: z.string(),
      motorTag: z.string(),
      driveId: z.nullable(z.string()),
      path: z.array(z.string()),
      terminalVoltage_pct: known,
      bus_V: known,
      peak_V: known,
      peakLow_V: known,
      peakHigh_V: known,
      riseAtMotor_s: known,
      ring_Hz: known,
      ringOut_s: known,
      criticalLength_m: known,
      leadLength_m: known,
      shield: z.enum(['continuous', 'broken', 'open', 'none']),
      breaks: z.array(
        z.strictObject({
          state: z.enum(['broken', 'open']),
          elementId: z.nullable(z.string()),
          ends: z.array(z.strictObject({ cableId: z.string(), end: z.enum(['from', 'to']) })),
        }),
      ),
      verdict,
    }),
  ),
});

const choice = z.strictObject({ size: z.string(), sets: z.int().check(z.gte(1)) });
const obstacle = z.pick(finding, { id: true, check: true, subject: true, verdict: true, text: true, remedies: true });

/** With --least-copper. Volumes are length × 3 phases × sets × area. */
const sizing = z.strictObject({
  cables: z.array(
    z.strictObject({
      id: z.string(),
      tag: z.string(),
      locked: z.boolean(),
      now: z.nullable(choice),
      /** Null: no size passes, or it cannot be said; `unmet` tells why. */
      least: z.nullable(choice),
      volumeNow_m3: known,
      volume_m3: known,
      governs: z.nullable(z.string()),
      below: z.nullable(choice),
      breaks: z.array(obstacle),
    }),
  ),
  volume_m3: z.number(),
  unmet: z.array(
    z.extend(obstacle, {
      cables: z.array(z.string()),
      proved: z.boolean(),
      locked: z.array(z.string()),
      /** The nearest sizes that would meet it, and what they break. */
      inTheWay: z.nullable(z.strictObject({ sizes: z.array(z.strictObject({ tag: z.string(), choice })), breaks: z.array(obstacle) })),
    }),
  ),
  /** Cables whose sizes pass but were not shown to be the least: the volume found, and one that no combination is below. */
  notProved: z.array(z.strictObject({ cables: z.array(z.string()), volume_m3: z.number(), bound_m3: z.number() })),
  beside: z.array(obstacle),
  left: z.array(z.string()),
});

export const report = z.array(
  z.strictObject({
    file: z.string(),
    verdict,
    counts: z.record(verdict, z.int().check(z.gte(0))),
    /** Limits the project sets and checks it switches off, in a sentence; '' when there are none. */
    rules: z.string(),
    findings: z.array(finding),
    solved,
    /** Other ways to build it, held aside in the document. */
    variants: z.optional(z.array(z.strictObject({ name: z.string(), verdict, counts: z.record(verdict, z.int().check(z.gte(0))) }))),
    sizing: z.optional(sizing),
  }),
);
