import { addEdge, type Edge, type Node, ReactFlow, useEdgesState, useNodesState } from '@xyflow/react';
import { createElement, useCallback } from 'react';
import { createRoot } from 'react-dom/client';
import '@xyflow/react/dist/style.css';

/** The yardstick: the canvas library by itself, with as many plain boxes and lines at the same places as the site that it is compared with. */

const runs = Number(new URLSearchParams(location.search).get('runs'));
const node = (id: string, x: number, y: number): Node => ({ id, position: { x, y }, data: { label: id } });
const edge = (source: string, target: string): Edge => ({ id: `${source} ${target}`, source, target });
const nodes: Node[] = [node('S-1', 0, 0), node('B-1', 0, 100)];
const edges: Edge[] = [edge('S-1', 'B-1')];
for (let i = 1; i <= runs; i++) {
  nodes.push(node(`CB-${i}`, 380 * i, 200), node(`VFD-${i}`, 380 * i, 400), node(`M-${i}`, 380 * i, 600));
  edges.push(edge('B-1', `CB-${i}`), edge(`CB-${i}`, `VFD-${i}`), edge(`VFD-${i}`, `M-${i}`));
}

function Bare() {
  const [shownNodes, , onNodesChange] = useNodesState(nodes);
  const [shownEdges, setEdges, onEdgesChange] = useEdgesState(edges);
  const onConnect = useCallback((made: Parameters<typeof addEdge>[0]) => setEdges((before) => addEdge(made, before)), [setEdges]);
  return createElement(ReactFlow, {
    nodes: shownNodes,
    edges: shownEdges,
    onNodesChange,
    onEdgesChange,
    onConnect,
    fitView: true,
    minZoom: 0.01,
  });
}

const root = document.getElementById('root');
if (root) createRoot(root).render(createElement(Bare));
