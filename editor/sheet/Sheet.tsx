import {
  Background,
  BackgroundVariant,
  type Connection,
  ConnectionMode,
  type EdgeChange,
  type NodeChange,
  ReactFlow,
  useReactFlow,
  ViewportPortal,
} from '@xyflow/react';
import { type PointerEvent as ReactPointerEvent, useCallback, useEffect, useMemo, useState } from 'react';
import { type LineUp, oneLine, type Review, routeCable, tidyPositions } from '../../engine/index.ts';
import { edit, refuse, select, useEditor, wait } from '../store/editorStore.ts';
import { type At, connect, illegal, insertInto, move, type PortAt, place, placeAfter, snapped } from '../store/edits.ts';
import { BondButtons } from './BondButtons.tsx';
import { CableEdge, type CableEdgeType } from './CableEdge.tsx';
import { Drawing } from './Drawing.tsx';
import { PartNode, type PartNodeType } from './PartNode.tsx';
import { type Dropped, onDropped } from './partDrop.ts';
import { edgesOf, nodesOf } from './parts.ts';
import { familyOf, PAD_mm, PX, symbolIn } from './scale.ts';
import { Tools } from './Tools.tsx';
import { useView } from './useView.ts';

/** The sheet: React Flow carries hands and view; what is seen is the one display list, painted once under them. */

const nodeTypes = { part: PartNode };
const edgeTypes = { cable: CableEdge };
const WORDS = { 'controls.ariaLabel': 'View' };
const SEVERAL = ['Meta', 'Control'];

const portOf = (element: string, port: string | null | undefined, otherwise: 'line' | 'load'): PortAt => ({
  element,
  port: port === 'line' || port === 'load' ? port : otherwise,
});

/** Selection stays in the store: React Flow tells what to add and what to take away. */
function takeSelection(changes: readonly (NodeChange<PartNodeType> | EdgeChange<CableEdgeType>)[]): void {
  const { selected, waiting } = useEditor.getState();
  // A click that gives the waiting part its place chooses nothing.
  if (waiting) return;
  const next = new Set(selected);
  for (const change of changes) {
    if (change.type !== 'select') continue;
    if (change.selected) next.add(change.id);
    else next.delete(change.id);
  }
  if (next.size !== selected.length || selected.some((id) => !next.has(id))) select([...next]);
}

export function Sheet({ lineUp, review }: { readonly lineUp: LineUp; readonly review: Review }) {
  const selected = useEditor((state) => state.selected);
  const waiting = useEditor((state) => state.waiting);
  const spoken = useEditor((state) => state.finding);
  const { screenToFlowPosition, zoomTo } = useReactFlow();
  const { fit, bring } = useView();
  const [drafts, setDrafts] = useState<ReadonlyMap<string, At>>(new Map());
  const [firstPort, setFirstPort] = useState<PortAt | null>(null);
  const family = familyOf(lineUp);

  const placed = useMemo(
    () =>
      lineUp.elements.every((each) => lineUp.positions[each.id])
        ? lineUp
        : { ...lineUp, positions: { ...tidyPositions(lineUp), ...lineUp.positions } },
    [lineUp],
  );
  const shown = useMemo(() => (drafts.size === 0 ? placed : move(placed, drafts)), [placed, drafts]);
  const drawing = useMemo(() => oneLine(shown, review), [shown, review]);
  const nodes = useMemo(() => nodesOf(shown, family, selected), [shown, family, selected]);
  const edges = useMemo(() => edgesOf(shown, family, selected), [shown, family, selected]);
  const subject = review.findings.find((each) => each.id === spoken)?.subject.id;
  const marked = useMemo(() => (subject ? [...selected, subject] : selected), [selected, subject]);

  // What the reader speaks of comes into view.
  // Only a new subject moves the view, not a new drawing of it
  useEffect(() => {
    const part = drawing.parts.find((each) => each.id === subject);
    if (part) bring({ x_mm: part.x, y_mm: part.y, width_mm: part.w, height_mm: part.h });
  }, [subject]);

  const onNodesChange = useCallback(
    (changes: NodeChange<PartNodeType>[]) => {
      takeSelection(changes);
      const moved = new Map<string, At>();
      let dropped = false;
      for (const change of changes) {
        if (change.type !== 'position' || !change.position) continue;
        const element = placed.elements.find((each) => each.id === change.id);
        if (!element) continue;
        const left = symbolIn(placed, element, family).left_mm - PAD_mm;
        moved.set(change.id, snapped({ x_mm: change.position.x / PX - left, y_mm: change.position.y / PX + PAD_mm }));
        if (!change.dragging) dropped = true;
      }
      if (moved.size === 0) return;
      if (!dropped) return setDrafts(moved);
      setDrafts(new Map());
      const next = move(placed, moved);
      // Without a drag before it, it was an arrow key.
      edit('Move', (before) => (next === placed ? before : next), drafts.size === 0 ? { burst: 'nudge' } : {});
    },
    [placed, family, drafts],
  );

  const join = useCallback(
    (from: PortAt, to: PortAt) => {
      const why = illegal(lineUp, from, to);
      if (why) return refuse(why);
      const made = connect(lineUp, from, to);
      edit('Connect', () => made.lineUp, { select: [made.id] });
    },
    [lineUp],
  );
  const onConnect = useCallback(
    ({ source, target, sourceHandle, targetHandle }: Connection) =>
      join(portOf(source, sourceHandle, 'load'), portOf(target, targetHandle, 'line')),
    [join],
  );

  const drop = useCallback(
    ({ kind, at: screen }: Dropped) => {
      wait(null);
      if (!screen) {
        const { selected: after } = useEditor.getState();
        const made = placeAfter(placed, kind, after[0]);
        edit(`Place ${kind}`, () => made.lineUp, { select: [made.id] });
        return;
      }
      const point = screenToFlowPosition(screen);
      const at = { x_mm: point.x / PX, y_mm: point.y / PX };
      const struck = document
        .elementsFromPoint(screen.x, screen.y)
        .map((each) => each.closest('.react-flow__edge')?.getAttribute('data-id'))
        .find((id) => id);
      const cable = placed.cables.find((each) => each.id === struck);
      const axis = cable ? routeCable(placed, placed.positions, cable, family)[0]?.[0] : undefined;
      const inserted = cable ? insertInto(placed, cable.id, kind, { x_mm: axis ?? at.x_mm, y_mm: at.y_mm - 6 }) : null;
      const made = inserted ?? place(placed, kind, at);
      edit(inserted ? `Insert ${kind}` : `Place ${kind}`, () => made.lineUp, { select: [made.id] });
    },
    [screenToFlowPosition, placed, family],
  );
  useEffect(() => onDropped(drop), [drop]);

  const onPointerUp = (event: ReactPointerEvent) => {
    if (waiting && (event.target as Element).closest('.react-flow__pane, .react-flow__edge, .react-flow__edges'))
      drop({ kind: waiting, at: { x: event.clientX, y: event.clientY } });
  };

  return (
    <div className="sheet" data-waiting={waiting !== null} onPointerUp={onPointerUp} data-testid="sheet">
      <ReactFlow
        nodes={nodes}
        edges={edges}
        nodeTypes={nodeTypes}
        edgeTypes={edgeTypes}
        onInit={() => fit(drawing)}
        onNodesChange={onNodesChange}
        onEdgesChange={takeSelection}
        onConnect={onConnect}
        connectionMode={ConnectionMode.Loose}
        connectionRadius={24}
        onConnectStart={(_event, { nodeId, handleId }) => nodeId && setFirstPort(portOf(nodeId, handleId, 'load'))}
        onConnectEnd={(_event, state) => {
          if (firstPort && !state.isValid && state.toNode)
            refuse(illegal(lineUp, firstPort, portOf(state.toNode.id, state.toHandle?.id, 'line')) ?? 'Let go on a port of the part.');
          setFirstPort(null);
        }}
        onPaneClick={() => waiting === null && select([])}
        multiSelectionKeyCode={SEVERAL}
        deleteKeyCode={null}
        minZoom={0.1}
        maxZoom={4}
        ariaLabelConfig={WORDS}
      >
        <Background variant={BackgroundVariant.Dots} gap={5 * PX} size={1.6} color="var(--dot)" />
        <ViewportPortal>
          <Drawing lineUp={shown} family={family} items={drawing.items} marked={marked} />
          <BondButtons lineUp={shown} review={review} family={family} />
        </ViewportPortal>
      </ReactFlow>
      {lineUp.elements.length === 0 && (
        <div className="hint">
          <p className="serif">An empty sheet</p>
          <p>Drag a part here from the left, or click one and then the sheet.</p>
          <p>Press A and then Enter to add parts one below the other, or go back to the start and say it in five numbers.</p>
        </div>
      )}
      <Tools fit={() => fit(drawing)} full={() => void zoomTo(1)} />
    </div>
  );
}
