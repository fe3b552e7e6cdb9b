import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { type Job, type Judged, judgeFile } from './judgeFile.ts';
import { put } from './put.ts';
import type { Report } from './report.ts';

/** One file judged and its result kept on the disk, so that a run that was stopped begins where it ended. */

export interface KeepJob {
  readonly job: Job;
  /** Where the result is kept. */
  readonly path: string;
  /** What judges: another would perhaps say otherwise. */
  readonly build: string;
}

/** What a result file holds. */
interface Kept {
  readonly input: string;
  readonly build: string;
  readonly asked: Pick<Job, 'basis' | 'sizing'>;
  readonly exit: Judged['exit'];
  readonly complaints: readonly string[];
  readonly report: Report | null;
}

/** What is told of it: little, for there may be thousands. */
export interface Outcome extends Pick<Kept, 'exit' | 'complaints'> {
  readonly verdict: Report['verdict'] | null;
  readonly counts: Report['counts'] | null;
  /** Whether it was judged just now; otherwise its result was there. */
  readonly fresh: boolean;
}

const sha256 = (...parts: readonly (string | Uint8Array)[]): string => {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest('hex');
};

export async function judgeAndKeep({ job, path, build }: KeepJob): Promise<Outcome> {
  const input = hashOf(job.file);
  const asked = { basis: job.basis, sizing: job.sizing };
  const before = input === null ? null : keptAt(path);
  if (before && before.input === input && before.build === build && JSON.stringify(before.asked) === JSON.stringify(asked))
    return outcomeOf(before, false);
  const { report, complaints, exit } = await judgeFile(job);
  const kept: Kept = { input: input ?? '', build, asked, exit, complaints, report };
  // A fault of our own may be gone the next time, and a file that cannot be read may be there: neither is a result.
  if (exit === 3 || input === null || put(path, `${JSON.stringify(kept, null, 2)}\n`)) return outcomeOf(kept, true);
  const lost = `${path}: it cannot be written. Check that the folder exists, that you may write there and that the disk has room.`;
  return { ...outcomeOf(kept, true), exit: 2, complaints: [...complaints, lost] };
}

const outcomeOf = ({ exit, complaints, report }: Kept, fresh: boolean): Outcome => ({
  exit,
  complaints,
  verdict: report?.verdict ?? null,
  counts: report?.counts ?? null,
  fresh,
});

function hashOf(file: string): string | null {
  try {
    return sha256(readFileSync(file));
  } catch {
    return null;
  }
}

/** Null where there is none, or what is there is no result. */
function keptAt(path: string): Kept | null {
  try {
    const kept = JSON.parse(readFileSync(path, 'utf8')) as Partial<Kept> | null;
    const whole = kept !== null && typeof kept.exit === 'number' && Array.isArray(kept.complaints) && kept.report !== undefined;
    return whole ? (kept as Kept) : null;
  } catch {
    return null;
  }
}
