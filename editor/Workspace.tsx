import { useEffect, useSyncExternalStore } from 'react';
import type { LineUp, Review } from '../engine/index.ts';
import { listenToClipboard } from './files/clipboard.ts';
import { Chooser } from './panels/Chooser.tsx';
import { Header } from './panels/Header.tsx';
import { late } from './panels/late.tsx';
import { Reader } from './panels/Reader.tsx';
import { Tray } from './panels/Tray.tsx';
import { Sheet } from './sheet/Sheet.tsx';
import { familyOf } from './sheet/scale.ts';
import { arrange, clearDesk, useDesk } from './store/deskStore.ts';
import { useEditor } from './store/editorStore.ts';

/** The open line-up: header, parts, sheet and review. Loaded after the start page, which does without it. */
export interface WorkspaceProps {
  readonly lineUp: LineUp;
  readonly review: Review;
}

const VerdictNews = late(() => import('./panels/VerdictNews.tsx'));
const Menu = late(() => import('./panels/Menu.tsx'));
const RunStripPanel = late(() => import('./panels/RunStripPanel.tsx'), <section className="strip" aria-hidden="true" />);
const Tables = late(() => import('./panels/Tables.tsx'));
const NotesDialog = late(() => import('./panels/NotesDialog.tsx'));
const PrintPage = late(() => import('./panels/PrintPage.tsx'));
const VariantsDialog = late(() => import('./panels/VariantsDialog.tsx'));
const RevisionsDialog = late(() => import('./panels/RevisionsDialog.tsx'));
const ChangedFile = late(() => import('./panels/ChangedFile.tsx'));
const StatesDialog = late(() => import('./panels/StatesDialog.tsx'));
const LeastCopperDialog = late(() => import('./panels/LeastCopperDialog.tsx'));

/** A window so high that the labels of a usual line-up can still be read above the strip. */
const ROOM = '(min-width: 1024px) and (min-height: 1000px)';
const hasRoom = (): boolean => window.matchMedia(ROOM).matches;
const onRoom = (tell: () => void): (() => void) => {
  const room = window.matchMedia(ROOM);
  room.addEventListener('change', tell);
  return () => room.removeEventListener('change', tell);
};

export default function Workspace({ lineUp, review }: WorkspaceProps) {
  const working = useEditor((state) => state.working);
  const { asked, asking, changedFile, comparing, menu, noting, panels, printing, recovering, revising, sizing, strip, table } = useDesk();
  const trying = useEditor((state) => state.trying);
  const shown = trying?.review ?? review;
  const roomy = useSyncExternalStore(onRoom, hasRoom);
  useEffect(listenToClipboard, []);
  useEffect(() => clearDesk, []);
  // Soon to be asked for, and not worth waiting for then.
  useEffect(() => void Menu.fetched(), []);
  return (
    <>
      <main className={['app', working && 'stale', !panels && 'bare'].filter(Boolean).join(' ')}>
        <Header lineUp={lineUp} review={review} shown={shown} />
        {panels && <Tray family={familyOf(lineUp)} />}
        <Sheet lineUp={trying?.lineUp ?? lineUp} review={shown} before={trying ? lineUp : null} />
        {table && <Tables lineUp={lineUp} review={review} />}
        {(strip ?? (roomy && panels && review.runs.length > 0)) && <RunStripPanel lineUp={lineUp} review={review} />}
        {panels && <Reader lineUp={lineUp} review={review} />}
        {menu && <Menu key={`${menu.x}/${menu.y}`} x={menu.x} y={menu.y} />}
        <VerdictNews review={shown} stale={working} />
      </main>
      {/* Here at once: a fast hand types its first letters before anything could be fetched, and letters are commands. */}
      {asking && <Chooser key={asked} asking={asking} />}
      {sizing && <LeastCopperDialog lineUp={lineUp} onClose={() => arrange({ sizing: false })} />}
      {noting && <NotesDialog lineUp={lineUp} onClose={() => arrange({ noting: false })} />}
      {revising && <RevisionsDialog lineUp={lineUp} onClose={() => arrange({ revising: false })} />}
      {changedFile && <ChangedFile file={changedFile} onClose={() => arrange({ changedFile: null })} />}
      {recovering && <StatesDialog lineUp={lineUp} onClose={() => arrange({ recovering: false })} />}
      {comparing && <VariantsDialog lineUp={lineUp} onClose={() => arrange({ comparing: false })} />}
      {printing && <PrintPage lineUp={lineUp} address={printing} />}
    </>
  );
}
