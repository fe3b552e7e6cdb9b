import { cycleTheme } from '../panels/theme.ts';
import { view } from '../sheet/view.ts';
import { arrange, ask, desk, setStrip } from '../store/deskStore.ts';
import { type Command, some } from './command.ts';

/** What is seen, and the ways to find out more. */

const ZOOM = 1.25;

export const VIEWING: readonly Command[] = [
  { id: 'fit', label: 'Fit all', group: 'View', keys: ['F'], run: () => view()?.fit() },
  {
    id: 'fitChosen',
    label: 'Fit what is chosen',
    group: 'View',
    keys: ['Shift+F'],
    inMenu: true,
    when: some,
    run: ({ selected }) => view()?.fitParts(selected),
  },
  { id: 'full', label: 'Full size, 100 %', group: 'View', keys: ['0'], run: () => view()?.full() },
  { id: 'nearer', label: 'Zoom in', group: 'View', keys: ['+', '='], run: () => view()?.zoom(ZOOM) },
  { id: 'farther', label: 'Zoom out', group: 'View', keys: ['-'], run: () => view()?.zoom(1 / ZOOM) },
  { id: 'grid', label: 'Grid dots on or off', group: 'View', keys: ['G'], run: () => arrange({ grid: !desk().grid }) },
  {
    id: 'map',
    label: 'Map of the whole sheet on or off',
    group: 'View',
    keys: ['N'],
    run: () => arrange({ map: document.querySelector('.react-flow__minimap') === null }),
  },
  { id: 'panels', label: 'Side panels on or off', group: 'View', keys: ['H'], run: () => arrange({ panels: !desk().panels }) },
  {
    id: 'table',
    label: 'Table of cables, motors and drives on or off',
    group: 'View',
    keys: ['L'],
    run: () => arrange({ table: !desk().table, menu: null }),
  },
  {
    id: 'strip',
    label: 'Run strip under the sheet on or off',
    group: 'View',
    keys: ['U'],
    run: () => setStrip(document.querySelector('.strip') === null),
  },
  {
    id: 'screen',
    label: 'Full screen on or off',
    group: 'View',
    keys: [],
    anywhere: true,
    run: () => void (document.fullscreenElement ? document.exitFullscreen() : document.documentElement.requestFullscreen()),
  },
  { id: 'theme', label: 'Light, dark or as the system', group: 'View', keys: [], anywhere: true, run: cycleTheme },
  { id: 'palette', label: 'Find or do anything…', group: 'Help', keys: ['Ctrl+K'], typing: 'always', run: () => ask('anything') },
  { id: 'keys', label: 'All keys', group: 'Help', keys: ['?'], anywhere: true, run: () => arrange({ keysShown: true, menu: null }) },
];
