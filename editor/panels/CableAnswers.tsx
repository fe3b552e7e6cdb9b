import { lazy, Suspense, useState } from 'react';
import type { Cable, LineUp } from '../../engine/index.ts';
import { Folded } from './Folded.tsx';

/** What can be asked about one cable. The answers are fetched and worked out only then. */
export interface CableAnswersProps {
  readonly cable: Cable;
  readonly lineUp: LineUp;
}

const SizeLadder = lazy(() => import('./SizeLadder.tsx'));
const HowLong = lazy(() => import('./HowLong.tsx'));

export default function CableAnswers({ cable, lineUp }: CableAnswersProps) {
  const [ladder, setLadder] = useState(false);
  return (
    <>
      <Folded summary="How long may it be?">
        {() => (
          <Suspense>
            <HowLong cable={cable} lineUp={lineUp} />
          </Suspense>
        )}
      </Folded>
      <p>
        <button type="button" onClick={() => setLadder(true)}>
          Size ladder
        </button>
      </p>
      <Suspense>{ladder && <SizeLadder cable={cable} lineUp={lineUp} onClose={() => setLadder(false)} />}</Suspense>
    </>
  );
}
