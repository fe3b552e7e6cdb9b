import type { Finding } from '../../engine/index.ts';

/** What is not known, as questions to those who usually know it. */

export interface Question {
  readonly label: string;
  /** Of which parts it is asked. */
  readonly parts: readonly { readonly id: string; readonly tag: string; readonly field: string }[];
  /** Titles of the checks that wait for it. */
  readonly checks: readonly string[];
}
export interface Asked {
  readonly ask: string;
  readonly questions: readonly Question[];
}

const add = <T>(list: readonly T[], one: T, same: (a: T) => boolean): readonly T[] => (list.some(same) ? list : [...list, one]);

export function questionsOf(findings: readonly Finding[]): readonly Asked[] {
  const asked = new Map<string, Map<string, Question>>();
  for (const { missing, title } of findings)
    for (const { ask, label, id, tag, field } of missing) {
      const own = asked.get(ask) ?? new Map<string, Question>();
      asked.set(ask, own);
      const before = own.get(label) ?? { label, parts: [], checks: [] };
      own.set(label, {
        label,
        parts: add(before.parts, { id, tag, field }, (each) => each.id === id && each.field === field),
        checks: add(before.checks, title, (each) => each === title),
      });
    }
  return [...asked].map(([ask, questions]) => ({ ask, questions: [...questions.values()] })).sort((a, b) => (a.ask < b.ask ? -1 : 1));
}

/** As it is sent: one heading for each who is asked, one line for each question. */
export const questionsText = (title: string, asked: readonly Asked[]): string =>
  [
    `${title}: what could not be judged`,
    ...asked.flatMap(({ ask, questions }) => [
      '',
      `To ask: ${ask}`,
      ...questions.map(({ label, parts, checks }) => `- ${label}: ${parts.map((each) => each.tag).join(', ')} (for: ${checks.join('; ')})`),
    ]),
    '',
  ].join('\n');
