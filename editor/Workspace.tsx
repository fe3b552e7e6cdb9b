import { ReactFlowProvider } from '@xyflow/react';
import type { LineUp, Review } from '../engine/index.ts';
import { Header } from './panels/Header.tsx';
import { Reader } from './panels/Reader.tsx';
import { Tray } from './panels/Tray.tsx';
import type { useTheme } from './panels/theme.ts';
import { Sheet } from './sheet/Sheet.tsx';
import { familyOf } from './sheet/scale.ts';
import { useEditor } from './store/editorStore.ts';

/** The open line-up: header, parts, sheet and review. Loaded after the start page, which does without it. */
export interface WorkspaceProps {
  readonly lineUp: LineUp;
  readonly review: Review;
  readonly theme: ReturnType<typeof useTheme>;
}

export default function Workspace({ lineUp, review, theme }: WorkspaceProps) {
  const working = useEditor((state) => state.working);
  return (
    <ReactFlowProvider>
      <main className={working ? 'app stale' : 'app'}>
        <Header lineUp={lineUp} review={review} theme={theme} />
        <Tray family={familyOf(lineUp)} />
        <Sheet lineUp={lineUp} review={review} />
        <Reader lineUp={lineUp} review={review} />
      </main>
    </ReactFlowProvider>
  );
}
