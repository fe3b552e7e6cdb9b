import type { Finding } from '../../engine/index.ts';
import { Badge } from './Badge.tsx';
import { FindingList } from './FindingList.tsx';
import { Folded } from './Folded.tsx';

export interface WorstFirstProps {
  readonly findings: readonly Finding[];
}

/** More than this many open questions are folded, so that they do not bury the cautions below them. */
const FEW = 4;

/** What speaks: fails, then what cannot be judged yet, then cautions and notes. What passes is quiet, folded under its count. */
function Said({ findings }: WorstFirstProps) {
  const open = findings.filter(({ verdict }) => verdict === 'open');
  const fails = findings.filter(({ verdict }) => verdict === 'fail');
  const rest = findings.filter(({ verdict }) => !['fail', 'open', 'pass', 'not-applicable'].includes(verdict));
  if (open.length <= FEW) return <FindingList findings={[...fails, ...open, ...rest]} />;
  const asked = new Map<string, number>();
  for (const each of open) for (const ask of new Set(each.missing.map((one) => one.ask))) asked.set(ask, (asked.get(ask) ?? 0) + 1);
  return (
    <>
      {fails.length > 0 && <FindingList findings={fails} />}
      <Folded
        summary={
          <>
            <Badge verdict="open" /> <span className="said">{open.length} cannot be judged yet</span>
            <span className="muted said">
              {[...asked]
                .sort((a, b) => b[1] - a[1])
                .map(([ask, count]) => ` · ${ask} ${count}`)
                .join('')}
            </span>
          </>
        }
      >
        {() => <FindingList findings={open} />}
      </Folded>
      {rest.length > 0 && <FindingList findings={rest} />}
    </>
  );
}

function Passes({ findings }: WorstFirstProps) {
  const passes = findings.filter((each) => each.verdict === 'pass');
  return passes.length === 0 ? null : (
    <Folded summary={<span className="said">{passes.length} pass</span>}>{() => <FindingList findings={passes} />}</Folded>
  );
}

export function WorstFirst({ findings }: WorstFirstProps) {
  return (
    <>
      <Said findings={findings} />
      <Passes findings={findings} />
    </>
  );
}
