import {
  Background,
  BackgroundVariant,
  type Connection,
  ConnectionMode,
  type NodeChange,
  ReactFlow,
  useReactFlow,
  ViewportPortal,
} from '@xyflow/react';
import { type PointerEvent as ReactPointerEvent, useCallback, useEffect, useMemo, useState } from 'react';
import { busLength, type ElementKind, type LineUp, oneLine, type Review, routeCable, symbolOf, tidyPositions } from '../../engine/index.ts';
import { edit, redo, refuse, select, undo, useEditor } from '../store/editorStore.ts';
import { type At, connect, illegal, insertInto, move, type PortAt, place, snapped } from '../store/edits.ts';
import { CableEdge, type CableEdgeType } from './CableEdge.tsx';
import { Paint } from './Paint.tsx';
import { PartNode, type PartNodeType } from './PartNode.tsx';

/** The sheet: React Flow carries hands and view; what is seen is the one display list, painted once under them. */

const PX = 3.78;
const nodeTypes = { part: PartNode };
const edgeTypes = { cable: CableEdge };
const PAD_mm = 2;

export interface SheetProps {
  readonly lineUp: LineUp;
  readonly review: Review;
  /** The part that waits in the tray for a place. */
  readonly waiting: ElementKind | null;
  readonly onPlaced: () => void;
}

export function Sheet({ lineUp, review, waiting, onPlaced }: SheetProps) {
  const selected = useEditor((state) => state.selected);
  const reason = useEditor((state) => state.reason);
  const { screenToFlowPosition, fitView, getZoom, zoomTo } = useReactFlow();
  const [drafts, setDrafts] = useState<ReadonlyMap<string, At>>(new Map());
  const [firstPort, setFirstPort] = useState<PortAt | null>(null);
  const family = lineUp.project.symbols ?? lineUp.project.basis;

  const placed = useMemo(
    () =>
      lineUp.elements.every((each) => lineUp.positions[each.id])
        ? lineUp
        : { ...lineUp, positions: { ...tidyPositions(lineUp), ...lineUp.positions } },
    [lineUp],
  );
  const shown = useMemo(() => (drafts.size === 0 ? placed : move(placed, drafts)), [placed, drafts]);
  const drawing = useMemo(() => oneLine(shown, review), [shown, review]);

  const nodes = useMemo(
    () =>
      shown.elements.map((element): PartNodeType => {
        const symbol = symbolOf(element, family, element.kind === 'bus' ? busLength(shown, shown.positions, element.id) : undefined);
        const at = shown.positions[element.id] ?? { x_mm: 0, y_mm: 0 };
        const left = symbol.left_mm - PAD_mm;
        const width = (symbol.width_mm + 2 * PAD_mm) * PX;
        const height = Math.max(symbol.height_mm + 2 * PAD_mm, 6) * PX;
        const ports = (['line', 'load'] as const).flatMap((port) => {
          const spot = symbol.ports[port];
          // A bus is one node: its line port stands above the bar, its load port below it.
          const shift = element.kind === 'bus' ? (port === 'line' ? -1.5 : 1.5) : 0;
          return spot ? [{ port, x: (spot.x - left) * PX, y: (spot.y + PAD_mm + shift) * PX, below: port === 'load' }] : [];
        });
        return {
          id: element.id,
          type: 'part',
          position: { x: (at.x_mm + left) * PX, y: (at.y_mm - PAD_mm) * PX },
          width,
          height,
          selected: selected.includes(element.id),
          data: { label: element.tag, ports },
          handles: ports.map(({ port, x, y, below }) => ({
            id: port,
            type: 'source' as const,
            position: (below ? 'bottom' : 'top') as never,
            x: x - 7,
            y: y - 7,
            width: 14,
            height: 14,
          })),
          ariaLabel: `${element.kind} ${element.tag}`,
        };
      }),
    [shown, family, selected],
  );
  const edges = useMemo(
    () =>
      shown.cables.flatMap((cable): CableEdgeType[] => {
        if (!cable.from.element || !cable.to.element) return [];
        const path = routeCable(shown, shown.positions, cable, family)
          .map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x * PX} ${y * PX}`)
          .join('');
        return [
          {
            id: cable.id,
            type: 'cable',
            source: cable.from.element,
            sourceHandle: cable.from.port ?? 'load',
            target: cable.to.element,
            targetHandle: cable.to.port ?? 'line',
            selected: selected.includes(cable.id),
            data: { path },
            ariaLabel: `cable ${cable.tag}`,
          },
        ];
      }),
    [shown, family, selected],
  );

  const offset = useCallback(
    (id: string) => {
      const element = shown.elements.find((each) => each.id === id);
      return element
        ? symbolOf(element, family, element.kind === 'bus' ? busLength(shown, shown.positions, id) : undefined).left_mm - PAD_mm
        : 0;
    },
    [shown, family],
  );

  const onNodesChange = useCallback(
    (changes: NodeChange<PartNodeType>[]) => {
      const moved = new Map<string, At>();
      let dropped = false;
      for (const change of changes) {
        if (change.type !== 'position' || !change.position) continue;
        moved.set(change.id, snapped({ x_mm: change.position.x / PX - offset(change.id), y_mm: change.position.y / PX + PAD_mm }));
        if (!change.dragging) dropped = true;
      }
      if (moved.size === 0) return;
      if (!dropped) setDrafts(moved);
      else {
        setDrafts(new Map());
        edit('Move', (before) => (move(placed, moved) === placed ? before : move(placed, moved)));
      }
    },
    [offset, placed],
  );

  const join = useCallback(
    (from: PortAt, to: PortAt) => {
      const why = illegal(lineUp, from, to);
      if (why) refuse(why);
      else {
        const made = connect(lineUp, from, to);
        edit('Connect', () => made.lineUp, [made.id]);
      }
    },
    [lineUp],
  );

  const onConnect = useCallback(
    ({ source, target, sourceHandle, targetHandle }: Connection) => {
      join(
        { element: source, port: sourceHandle === 'line' ? 'line' : 'load' },
        { element: target, port: targetHandle === 'load' ? 'load' : 'line' },
      );
    },
    [join],
  );

  const drop = useCallback(
    (kind: ElementKind, x: number, y: number) => {
      const point = screenToFlowPosition({ x, y });
      const at = { x_mm: point.x / PX, y_mm: point.y / PX };
      const struck = document
        .elementsFromPoint(x, y)
        .map((each) => each.closest('.react-flow__edge')?.getAttribute('data-id'))
        .find((id) => id);
      const cable = struck ? lineUp.cables.find((each) => each.id === struck) : undefined;
      const onCable = cable ? routeCable(placed, placed.positions, cable, family)[0]?.[0] : undefined;
      const inserted = cable ? insertInto(placed, cable.id, kind, { x_mm: onCable ?? at.x_mm, y_mm: at.y_mm - 6 }) : null;
      const made = inserted ?? place(placed, kind, at);
      edit(inserted ? `Insert ${kind}` : `Place ${kind}`, () => made.lineUp, [made.id]);
      onPlaced();
    },
    [screenToFlowPosition, lineUp, placed, family, onPlaced],
  );

  // A part dragged out of the tray is let go over the sheet: pointer events, so that touch works too.
  useEffect(() => {
    const let_go = (event: Event) => {
      const { kind, x, y } = (event as CustomEvent<{ kind: ElementKind; x: number; y: number }>).detail;
      drop(kind, x, y);
    };
    window.addEventListener('copperline:drop', let_go);
    return () => window.removeEventListener('copperline:drop', let_go);
  }, [drop]);

  const onPointerUp = (event: ReactPointerEvent) => {
    if (waiting && (event.target as Element).closest('.react-flow__pane, .react-flow__edge, .react-flow__edges'))
      drop(waiting, event.clientX, event.clientY);
  };

  const tidy = () => edit('Tidy', (before) => ({ ...before, positions: tidyPositions(before) }));
  const bands = shown.elements.filter((each) => selected.includes(each.id));
  const cableBands = shown.cables.filter((each) => selected.includes(each.id));

  return (
    <div className="sheet" onPointerUp={onPointerUp} data-testid="sheet">
      <ReactFlow
        nodes={nodes}
        edges={edges}
        nodeTypes={nodeTypes}
        edgeTypes={edgeTypes}
        onNodesChange={onNodesChange}
        onConnect={onConnect}
        connectionMode={ConnectionMode.Loose}
        connectionRadius={24}
        onConnectStart={(_event, { nodeId, handleId }) =>
          nodeId && setFirstPort({ element: nodeId, port: handleId === 'line' ? 'line' : 'load' })
        }
        onConnectEnd={(_event, state) => {
          if (firstPort && !state.isValid && state.toNode)
            refuse(
              illegal(lineUp, firstPort, { element: state.toNode.id, port: state.toHandle?.id === 'load' ? 'load' : 'line' }) ??
                'Let go on a port of the part.',
            );
          setFirstPort(null);
        }}
        onNodeClick={(event, node) =>
          select(event.shiftKey || event.ctrlKey ? [...selected.filter((id) => id !== node.id), node.id] : [node.id])
        }
        onEdgeClick={(event, edge) => (waiting ? undefined : select(event.shiftKey ? [...selected, edge.id] : [edge.id]))}
        onPaneClick={() => (waiting ? undefined : select([]))}
        deleteKeyCode={null}
        minZoom={0.1}
        maxZoom={4}
        fitView
        fitViewOptions={{ padding: 0.15, maxZoom: 1.2 }}
        ariaLabelConfig={{ 'controls.ariaLabel': 'View' }}
      >
        <Background variant={BackgroundVariant.Dots} gap={5 * PX} size={1} color="var(--dot)" />
        <ViewportPortal>
          <svg
            role="img"
            aria-label="One-line diagram"
            style={{ position: 'absolute', overflow: 'visible', pointerEvents: 'none', width: 1, height: 1, zIndex: -1 }}
          >
            <g transform={`scale(${PX})`} fontFamily="Source Sans 3">
              {cableBands.map((cable) => (
                <polyline
                  key={cable.id}
                  points={routeCable(shown, shown.positions, cable, family)
                    .map((point) => point.join(','))
                    .join(' ')}
                  fill="none"
                  stroke="var(--accentTint)"
                  strokeWidth={9}
                  strokeLinecap="round"
                  strokeLinejoin="round"
                />
              ))}
              {bands.map((element) => {
                const symbol = symbolOf(
                  element,
                  family,
                  element.kind === 'bus' ? busLength(shown, shown.positions, element.id) : undefined,
                );
                const at = shown.positions[element.id] ?? { x_mm: 0, y_mm: 0 };
                return (
                  <rect
                    key={element.id}
                    x={at.x_mm + symbol.left_mm - 2}
                    y={at.y_mm - 2}
                    width={symbol.width_mm + 4}
                    height={symbol.height_mm + 4}
                    rx={2}
                    fill="var(--accentTint)"
                    stroke="var(--accent)"
                    strokeWidth={0.4}
                  />
                );
              })}
              <Paint items={drawing.items} />
            </g>
          </svg>
          {review.runs
            .flatMap((run) => run.breaks)
            .filter((at, i, list) => at.elementId !== null && list.findIndex((other) => other.elementId === at.elementId) === i)
            .map((at) => {
              const id = at.elementId ?? '';
              const finding = review.findings.find(
                (each) => each.check === 'shield-continuity' && each.subject.id === id && each.fixes.length > 0,
              );
              const spot = shown.positions[id];
              const element = shown.elements.find((each) => each.id === id);
              const fix = finding?.fixes[0];
              if (!finding || !fix || !spot || !element) return null;
              const height = symbolOf(element, family).height_mm;
              return (
                <button
                  key={id}
                  type="button"
                  className="nodrag nopan"
                  style={{
                    position: 'absolute',
                    left: (spot.x_mm - 10) * PX,
                    transform: 'translateX(-100%)',
                    top: (spot.y_mm + height / 2 + 5) * PX,
                    pointerEvents: 'all',
                    background: 'var(--raised)',
                    fontSize: 12,
                    minHeight: 24,
                    padding: '1px 8px',
                    whiteSpace: 'nowrap',
                  }}
                  onClick={() => edit(fix.label, fix.apply)}
                >
                  Bond through {element.tag}
                </button>
              );
            })}
        </ViewportPortal>
      </ReactFlow>
      {lineUp.elements.length === 0 && (
        <div className="hint">
          <p className="serif">An empty sheet</p>
          <p>Drag a part here from the left, or click one and then the sheet.</p>
          <p>Press A to add a part, or go back to the start and say it in five numbers.</p>
        </div>
      )}
      {reason && (
        <div className="refusal" role="status">
          {reason}
        </div>
      )}
      <div className="tools">
        <button type="button" className="quiet" onClick={undo}>
          Undo
        </button>
        <button type="button" className="quiet" onClick={redo}>
          Redo
        </button>
        <button type="button" className="quiet" onClick={() => fitView({ padding: 0.15, maxZoom: 1.2 })}>
          Fit
        </button>
        <button type="button" className="quiet" onClick={() => zoomTo(getZoom() === 1 ? 1.4 : 1)}>
          100 %
        </button>
        <button type="button" className="quiet" onClick={tidy}>
          Tidy
        </button>
      </div>
    </div>
  );
}
