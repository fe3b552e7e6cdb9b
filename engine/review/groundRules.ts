import type { LineUp } from '../lineup/lineUp.ts';

/** What the reader of results must know before them: limits that the project sets, and checks that it switches off. */
export function groundRules({ project }: LineUp): string {
  const { feederDrop_pct, leadDrop_pct, motorPeak_V } = project.limits;
  const limits = [
    ...(feederDrop_pct === undefined ? [] : [`drop in a feeder ${feederDrop_pct} %`]),
    ...(leadDrop_pct === undefined ? [] : [`drop in a motor lead ${leadDrop_pct} %`]),
    ...(motorPeak_V === undefined ? [] : [`peak at a motor ${motorPeak_V} V`]),
  ];
  const off = Object.entries(project.checks).filter(([, setting]) => setting.off);
  return [
    ...(limits.length > 0 ? [`Limits of this project: ${limits.join(', ')}.`] : []),
    ...(off.length > 0
      ? [
          `Switched off for this project: ${off.map(([slug, { reason }]) => `${slug} (${reason?.trim() || 'no reason given'})`).join(', ')}.`,
        ]
      : []),
  ].join(' ');
}
