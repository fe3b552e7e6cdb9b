import {
  Background,
  BackgroundVariant,
  type Connection,
  ConnectionMode,
  type Edge,
  type EdgeChange,
  type FinalConnectionState,
  MiniMap,
  type NodeChange,
  type OnConnectStartParams,
  ReactFlow,
  ReactFlowProvider,
  SelectionMode,
  ViewportPortal,
} from '@xyflow/react';
import {
  lazy,
  type MouseEvent as ReactMouseEvent,
  type PointerEvent as ReactPointerEvent,
  Suspense,
  useDeferredValue,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { illegal, type LineUp, type OneLine, oneLine, type PortAt, type Review, routeCable } from '../../engine/index.ts';
import { late } from '../panels/late.tsx';
import { excerpt, putIn } from '../store/copies.ts';
import { arrange, ask, useDesk } from '../store/deskStore.ts';
import { edit, refuse, select, useEditor, wait } from '../store/editorStore.ts';
import { type At, aside, branchOff, connect, insertInto, move, place, placeAfter, reconnect, snapped, withPlaces } from '../store/edits.ts';
import { AddHandle } from './AddHandle.tsx';
import { BondButtons } from './BondButtons.tsx';
import { CableEdge, type CableEdgeType } from './CableEdge.tsx';
import { ConnectionSays } from './ConnectionSays.tsx';
import { Drawing } from './Drawing.tsx';
import { type Guides, snapTo } from './guides.ts';
import { useLabelHold } from './labelHold.ts';
import { onLongPress } from './longPress.ts';
import { Modes } from './Modes.tsx';
import { findingCounts } from './names.ts';
import { PartNode, type PartNodeType } from './PartNode.tsx';
import { cableUnder, type Dropped, onDropped } from './partDrop.ts';
import { createParts, type Parts } from './parts.ts';
import { portFor, portOf } from './ports.ts';
import { Rename } from './Rename.tsx';
import { familyOf, PAD_mm, PX, symbolIn } from './scale.ts';
import { isLarge } from './sight.ts';
import { steady } from './steady.ts';
import { Tools } from './Tools.tsx';
import { useLatest } from './useLatest.ts';
import { LEAST_ZOOM, useView } from './useView.ts';

/** The sheet: React Flow carries hands and view; what is seen is the one display list, painted once under them. */

const nodeTypes = { part: PartNode };
const edgeTypes = { cable: CableEdge };
const WORDS = { 'controls.ariaLabel': 'View', 'minimap.ariaLabel': 'Map of the whole sheet' };
const SEVERAL = ['Meta', 'Control', 'Shift'];
const STILL: Guides = {};
const Tried = lazy(() => import('./Tried.tsx'));
const RejoinOffer = late(() => import('./RejoinOffer.tsx'));

/** From here on a line-up is large enough for a map. */
const MAP_FROM = 60;
/** With a mouse, dragging on the empty sheet chooses what it frames; a finger moves the sheet. */
const MIDDLE_BUTTON = [1];
const finger = (): boolean => window.matchMedia('(pointer: coarse)').matches;

/** Selection stays in the store: React Flow tells what to add and what to take away. */
function takeSelection(changes: readonly (NodeChange<PartNodeType> | EdgeChange<CableEdgeType>)[]): void {
  const { selected, waiting } = useEditor.getState();
  const { several, moving } = useDesk.getState();
  // A click that gives something its place chooses nothing.
  if (waiting || moving) return;
  const next = new Set(selected);
  for (const change of changes) {
    if (change.type !== 'select') continue;
    if (change.selected) next.add(change.id);
    else if (!several) next.delete(change.id);
  }
  if (next.size !== selected.length || selected.some((id) => !next.has(id))) select([...next]);
}

/** The menu of the part at hand, which is chosen by it. By the keyboard there is no place: it opens at the part. */
function openMenu(target: Element, at: { readonly x: number; readonly y: number } | null): void {
  const part = target.closest('.react-flow__node, .react-flow__edge');
  const id = part?.getAttribute('data-id');
  if (id && !useEditor.getState().selected.includes(id)) select([id]);
  const box = part?.getBoundingClientRect();
  arrange({ menu: at ?? { x: box?.right ?? 0, y: box?.top ?? 0 } });
}

/** A plain click on one of several chosen parts chooses it alone. */
function chooseOnly(event: ReactMouseEvent, { id }: { readonly id: string }): void {
  const { selected, waiting } = useEditor.getState();
  const { several, moving } = useDesk.getState();
  const adds = event.ctrlKey || event.metaKey || event.shiftKey || several;
  if (!adds && !waiting && !moving && selected.length > 1) select([id]);
}

const partUnder = (x: number, y: number): string | null =>
  document
    .elementsFromPoint(x, y)
    .map((each) => each.closest('.react-flow__node')?.getAttribute('data-id'))
    .find((id) => id) ?? null;

export interface SheetProps {
  readonly lineUp: LineUp;
  readonly review: Review;
  /** While a change is only tried: the line-up without it. */
  readonly before: LineUp | null;
}

/** React Flow is given its parts before it draws for the first time: later it would draw once more. */
export function Sheet(props: SheetProps) {
  const [parts] = useState(createParts);
  const [first] = useState(() => {
    const { lineUp, review } = props;
    const { selected } = useEditor.getState();
    const reach = { selected: new Set(selected), found: findingCounts(review), tabStop: stopOf(lineUp, null, selected) };
    const placed = withPlaces(lineUp);
    return { nodes: parts.nodesOf(placed, familyOf(lineUp), reach), edges: parts.edgesOf(placed, familyOf(lineUp), reach) };
  });
  return (
    <ReactFlowProvider initialNodes={first.nodes} initialEdges={first.edges}>
      <Canvas {...props} parts={parts} />
    </ReactFlowProvider>
  );
}

function Canvas({ lineUp, review, before, parts }: SheetProps & { readonly parts: Parts }) {
  const selected = useEditor((state) => state.selected);
  const waiting = useEditor((state) => state.waiting);
  const spoken = useEditor((state) => state.finding);
  const { renaming, grid, map, moving, table } = useDesk();
  const sheet = useRef<HTMLDivElement>(null);
  const [drafts, setDrafts] = useState<ReadonlyMap<string, At>>(new Map());
  const [guides, setGuides] = useState<Guides>(STILL);
  const firstPort = useRef<PortAt | null>(null);
  const copying = useRef(false);
  /** The click that ends here was one on a label. */
  const labelTaken = useRef(false);
  /** A second finger came down: what the first was dragging stays where it was. */
  const cancelled = useRef(false);
  const family = familyOf(lineUp);

  const placed = useMemo(() => withPlaces(lineUp), [lineUp]);
  const shown = useMemo(() => (drafts.size === 0 ? placed : move(placed, drafts)), [placed, drafts]);
  const drawn = useRef<OneLine | null>(null);
  const place_mm = useRef((_x: number, _y: number): At => ({ x_mm: 0, y_mm: 0 }));
  const label = useLabelHold(drawn, place_mm);
  const labelled = label.shown(placed);
  const now = useMemo(() => ({ lineUp: labelled, review }), [labelled, review]);
  const large = isLarge(lineUp);
  const from = useDeferredValue(large ? now : null) ?? now;
  const drawing = useMemo(() => {
    drawn.current = steady(drawn.current, oneLine(from.lineUp, from.review));
    return drawn.current;
  }, [from]);
  const chosen = useMemo(() => new Set(selected), [selected]);
  const [touched, setTouched] = useState<string | null>(null);
  // What ears are told of each part comes after what is seen.
  const heard = useDeferredValue(large ? from.review : null) ?? review;
  const found = useMemo(() => findingCounts(heard), [heard]);
  const tabStop = stopOf(lineUp, touched, selected);
  const reach = useMemo(() => ({ selected: chosen, found, tabStop }), [chosen, found, tabStop]);
  // So do the parts that hands reach, while all stand where they stood.
  const later = useDeferredValue(large ? shown : null) ?? shown;
  const laid = later.positions === shown.positions ? later : shown;
  const nodes = useMemo(() => parts.nodesOf(laid, family, reach), [parts, laid, family, reach]);
  const edges = useMemo(() => parts.edgesOf(laid, family, reach), [parts, laid, family, reach]);
  const shifts = useMemo(() => shiftsOf(from.lineUp, shown), [from, shown]);
  const subject = review.findings.find((each) => each.id === spoken)?.subject.id;
  const marked = useMemo(
    () => [...selected, ...(before ? changedParts(before, lineUp) : subject ? [subject] : [])],
    [selected, subject, before, lineUp],
  );
  const { begin, bring, toSheet, fitted } = useView(sheet, drawing, marked);
  place_mm.current = toSheet;

  // What the reader speaks of comes into view.
  // Only a new subject moves the view, not a new drawing of it
  useEffect(() => {
    if (subject) bring(subject);
  }, [subject]);

  // What is put in may push other parts out of sight.
  const stood = useRef(from.lineUp.positions);
  useEffect(() => {
    const before = stood.current;
    const { elements, positions } = from.lineUp;
    stood.current = positions;
    const fresh = elements.flatMap(({ id }) => (before[id] ? [] : [id]));
    if (fresh.length === 0 || useEditor.getState().following) return;
    const pushed = Object.keys(before).filter((id) => positions[id] && positions[id] !== before[id]);
    bring(...fresh, ...pushed);
    // Where there is no room for all.
    bring(...fresh);
  }, [from, bring]);

  const onNodesChange = useLatest((changes: NodeChange<PartNodeType>[]) => {
    takeSelection(changes);
    const moved = new Map<string, At>();
    let dropped = false;
    for (const change of changes) {
      if (change.type !== 'position' || !change.position) continue;
      const element = placed.elements.find((each) => each.id === change.id);
      if (!element) continue;
      const left = symbolIn(placed, element, family).left_mm - PAD_mm;
      moved.set(change.id, { x_mm: change.position.x / PX - left, y_mm: change.position.y / PX + PAD_mm });
      if (!change.dragging) dropped = true;
    }
    if (moved.size === 0 || cancelled.current) return;
    const rest = snapTo(placed, moved);
    if (!dropped) {
      setDrafts(rest.places);
      setGuides(rest.guides);
      return;
    }
    setDrafts(new Map());
    setGuides(STILL);
    if (copying.current) copyTo(placed, rest.places);
    else edit('Move', () => move(placed, rest.places));
  });

  const join = (one: PortAt, other: PortAt) => {
    const why = illegal(lineUp, one, other);
    if (why) return refuse(why);
    const made = connect(lineUp, one, other);
    edit('Connect', () => made.lineUp, { select: [made.id] });
  };
  const onConnectStart = useLatest((_event: unknown, { nodeId, handleId }: OnConnectStartParams) => {
    firstPort.current = nodeId ? portOf(nodeId, handleId, 'load') : null;
  });
  const onConnectEnd = useLatest((event: MouseEvent | TouchEvent, state: FinalConnectionState) => {
    const first = firstPort.current;
    firstPort.current = null;
    if (!first || state.isValid || state.toNode) return;
    const point = 'clientX' in event ? event : event.changedTouches[0];
    const part = point ? partUnder(point.clientX, point.clientY) : null;
    const to = part && part !== first.element ? portFor(lineUp, first, part) : null;
    if (to) join(first, to);
    else if (part !== first.element) ask('add', first);
  });
  const onConnect = useLatest(({ source, target, sourceHandle, targetHandle }: Connection) =>
    join(portOf(source, sourceHandle, 'load'), portOf(target, targetHandle, 'line')),
  );
  const onReconnect = useLatest((edge: Edge, { source, target, sourceHandle, targetHandle }: Connection) => {
    const end = edge.source === source && (edge.sourceHandle ?? 'load') === (sourceHandle ?? 'load') ? 'to' : 'from';
    const [moved, kept] =
      end === 'to'
        ? [portOf(target, targetHandle, 'line'), portOf(source, sourceHandle, 'load')]
        : [portOf(source, sourceHandle, 'load'), portOf(target, targetHandle, 'line')];
    const why = illegal(lineUp, moved, kept);
    if (why) return refuse(why);
    edit('Land elsewhere', (before) => reconnect(before, edge.id, end, moved), { select: [edge.id] });
  });

  const drop = useLatest(({ kind, at: screen }: Dropped) => {
    wait(null);
    if (!screen) {
      const { selected: after } = useEditor.getState();
      const made = placeAfter(placed, kind, after[0]);
      edit(`Place ${kind}`, () => made.lineUp, { select: [made.id] });
      return;
    }
    const at = toSheet(screen.x, screen.y);
    const struck = cableUnder(screen.x, screen.y);
    const cable = placed.cables.find((each) => each.id === struck);
    const axis = cable ? routeCable(placed, placed.positions, cable, family)[0]?.[0] : undefined;
    if (!cable) {
      const made = place(placed, kind, at);
      edit(`Place ${kind}`, () => made.lineUp, { select: [made.id] });
      return;
    }
    const on = { x_mm: axis ?? at.x_mm, y_mm: at.y_mm - 6 };
    const through = insertInto(placed, cable.id, kind, on);
    const branched = through ? null : branchOff(placed, cable.id, kind, on);
    const made = through ?? branched ?? place(placed, kind, aside(placed, on));
    edit((through ?? branched) ? `Insert ${kind}` : `Place ${kind}`, () => made.lineUp, { select: [made.id] });
    // Where nothing may be edited, that was said.
    if (through || useEditor.getState().reason !== null) return;
    refuse(
      branched
        ? 'A motor ends its run: a junction in the cable feeds it now. Undo takes both back.'
        : 'A supply begins a run: it stands beside the cable, joined to nothing. Drag from its port to what it feeds.',
    );
  });
  useEffect(() => onDropped(drop), [drop]);

  const onPointerUp = (event: ReactPointerEvent) => {
    labelTaken.current = label.onUp();
    if (labelTaken.current) return;
    if (!(event.target as Element).closest('.react-flow__pane, .react-flow__edge, .react-flow__edges')) return;
    if (waiting) drop({ kind: waiting, at: { x: event.clientX, y: event.clientY } });
    else if (moving) {
      arrange({ moving: false });
      moveTo(placed, selected, snapped(toSheet(event.clientX, event.clientY)));
    }
  };
  const onContextMenu = (event: ReactMouseEvent) => {
    event.preventDefault();
    openMenu(event.target as Element, event.button === 2 || event.clientX > 0 ? { x: event.clientX, y: event.clientY } : null);
  };
  const onDoubleClick = (event: ReactMouseEvent) => {
    const id = (event.target as Element).closest('.react-flow__node, .react-flow__edge')?.getAttribute('data-id');
    if (id) arrange({ renaming: id });
  };
  useEffect(() => {
    const box = sheet.current;
    return box
      ? onLongPress(box, ({ target, clientX: x, clientY: y }) => target instanceof Element && openMenu(target, { x, y }))
      : undefined;
  }, []);
  const withMap = map ?? lineUp.elements.length >= MAP_FROM;
  const coarse = finger();

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: keys reach all of this by commands
    <div
      className="sheet"
      ref={sheet}
      data-waiting={waiting !== null || moving}
      data-testid="sheet"
      // The keys and readers that walk the page do not go where nothing is seen.
      inert={table}
      onFocus={({ target }) => {
        const id = target.closest('.react-flow__node, .react-flow__edge')?.getAttribute('data-id');
        if (id) setTouched(id);
      }}
      onPointerUp={onPointerUp}
      onPointerDownCapture={(event) => {
        const { isPrimary } = event;
        cancelled.current = !isPrimary;
        if (waiting === null && !moving && !coarse && label.onDown(event)) return;
        if (!isPrimary && drafts.size > 0) {
          setDrafts(new Map());
          setGuides(STILL);
        }
      }}
      onPointerMoveCapture={(event) => {
        copying.current = event.altKey;
        label.onMove(event);
      }}
      onContextMenu={onContextMenu}
      onDoubleClick={onDoubleClick}
    >
      <ReactFlow
        aria-label="Parts and cables"
        nodes={nodes}
        edges={edges}
        nodeTypes={nodeTypes}
        edgeTypes={edgeTypes}
        onInit={begin}
        onNodesChange={onNodesChange}
        onEdgesChange={takeSelection}
        onConnect={onConnect}
        onReconnect={onReconnect}
        connectionMode={ConnectionMode.Loose}
        connectionRadius={24}
        onConnectStart={onConnectStart}
        onConnectEnd={onConnectEnd}
        onNodeClick={chooseOnly}
        onEdgeClick={chooseOnly}
        onPaneClick={() => waiting === null && !moving && !labelTaken.current && select([])}
        selectionOnDrag={!coarse}
        panOnDrag={coarse || MIDDLE_BUTTON}
        selectionMode={SelectionMode.Partial}
        selectionKeyCode={null}
        multiSelectionKeyCode={SEVERAL}
        deleteKeyCode={null}
        disableKeyboardA11y
        zoomOnDoubleClick={false}
        minZoom={LEAST_ZOOM}
        maxZoom={4}
        ariaLabelConfig={WORDS}
        attributionPosition="top-right"
      >
        {grid && <Background variant={BackgroundVariant.Dots} gap={5 * PX} size={1.6} color="var(--dot)" />}
        {withMap && <MiniMap className="map" pannable zoomable ariaLabel={WORDS['minimap.ariaLabel']} nodeColor="var(--rule2)" />}
        <ViewportPortal>
          <Drawing lineUp={shown} family={family} drawing={drawing} marked={marked} shifts={shifts} guides={guides} fitted={fitted} />
          {!before && <BondButtons lineUp={shown} review={review} family={family} />}
          {!before && selected.length === 1 && selected[0] && <AddHandle lineUp={shown} family={family} id={selected[0]} />}
        </ViewportPortal>
        <ConnectionSays lineUp={lineUp} under={partUnder} />
      </ReactFlow>
      {lineUp.elements.length === 0 && (
        <div className="hint">
          <p className="serif">An empty sheet</p>
          <p>Drag a part here from the left, or click one and then the sheet.</p>
          <p>Press A and then Enter to add parts one below the other, or go back to the start and say it in five numbers.</p>
        </div>
      )}
      <RejoinOffer />
      <Suspense>{before && <Tried />}</Suspense>
      {renaming && <Rename key={renaming} lineUp={shown} id={renaming} />}
      <Modes sheet={sheet} />
      <Tools />
    </div>
  );
}

/** What a change makes or moves. Parts that it leaves alone stay the same objects. */
function changedParts(before: LineUp, { elements, cables }: LineUp): readonly string[] {
  const was = new Set<unknown>([...before.elements, ...before.cables]);
  return [...elements, ...cables].flatMap((each) => (was.has(each) ? [] : [each.id]));
}

/** Tab enters the sheet at the part that had the focus last, else at what is chosen, else at the first. */
function stopOf({ elements, cables }: LineUp, touched: string | null, selected: readonly string[]): string | undefined {
  const there = (id: string | null | undefined): boolean => [...elements, ...cables].some((each) => each.id === id);
  return touched !== null && there(touched) ? touched : (selected.find(there) ?? elements[0]?.id);
}

/** How far parts stand from where they are drawn. */
function shiftsOf({ positions: drawn }: LineUp, { positions }: LineUp): ReadonlyMap<string, At> {
  return new Map(
    Object.entries(positions).flatMap(([id, at]) => {
      const was = drawn[id];
      if (!was || was === at || (was.x_mm === at.x_mm && was.y_mm === at.y_mm)) return [];
      return [[id, { x_mm: at.x_mm - was.x_mm, y_mm: at.y_mm - was.y_mm }] as const];
    }),
  );
}

/** With Alt held, what was dragged stays, and its copy lies where it was let go. */
function copyTo(lineUp: LineUp, places: ReadonlyMap<string, At>): void {
  const clip = excerpt(lineUp, [...places.keys()]);
  const [first] = places;
  const from = first && lineUp.positions[first[0]];
  if (!clip || !first || !from) return;
  const put = putIn(lineUp, clip, [snapped({ x_mm: first[1].x_mm - from.x_mm, y_mm: first[1].y_mm - from.y_mm })]);
  edit('Copy', () => put.lineUp, { select: put.ids });
}

/** The first of the chosen parts comes to the place, the others keep their distance from it. */
function moveTo(lineUp: LineUp, ids: readonly string[], to: At): void {
  const from = ids.map((id) => lineUp.positions[id]).find((at) => at);
  if (!from) return;
  const places = ids.flatMap((id) => {
    const at = lineUp.positions[id];
    return at ? [[id, { x_mm: at.x_mm + to.x_mm - from.x_mm, y_mm: at.y_mm + to.y_mm - from.y_mm }] as const] : [];
  });
  edit('Move', (before) => move(before, new Map(places)));
}
