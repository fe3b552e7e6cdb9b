import { keeper } from '../files/autosave.ts';
import { printDrawing } from '../files/print.ts';
import { arrange } from '../store/deskStore.ts';
import { showStart } from '../store/editorStore.ts';
import type { Command } from './command.ts';

/** What comes in and goes out. */

/** Late: the first page and the sheet do without. */
const file = () => import('../files/lineUpFile.ts');
const copyPicture = (kind: 'svg' | 'png') => void import('../files/picture.ts').then((picture) => picture.copyPicture(kind));

export const FILING: readonly Command[] = [
  {
    id: 'save',
    label: 'Save to a file',
    group: 'File',
    keys: ['Ctrl+S'],
    typing: 'always',
    run: () => void file().then(({ saveFile }) => saveFile()),
  },
  {
    id: 'saveAnew',
    label: 'Save to a new file…',
    group: 'File',
    keys: ['Ctrl+Shift+S'],
    typing: 'always',
    run: () => void file().then(({ saveFile }) => saveFile('anew')),
  },
  {
    id: 'takeOver',
    label: 'Take over from the other tab',
    group: 'File',
    keys: [],
    when: ({ following }) => following,
    run: () => keeper.takeOver(),
  },
  {
    id: 'open',
    label: 'Open a file…',
    group: 'File',
    keys: ['Ctrl+O'],
    typing: 'always',
    anywhere: true,
    run: () => void file().then(({ openFile }) => openFile()),
  },
  {
    id: 'states',
    label: 'Earlier states…',
    group: 'File',
    keys: [],
    inMenu: true,
    run: () => arrange({ recovering: true, menu: null }),
  },
  {
    id: 'issue',
    label: 'Issue package',
    group: 'File',
    keys: [],
    run: () => void import('../files/issuePackage.ts').then(({ issuePackage }) => issuePackage()),
  },
  { id: 'export', label: 'Export: choose sheets and forms…', group: 'File', keys: [], run: () => arrange({ exporting: true }) },
  { id: 'revisions', label: 'Revisions and comments…', group: 'File', keys: [], run: () => arrange({ revising: true, menu: null }) },
  { id: 'print', label: 'Print the one-line', group: 'File', keys: ['Ctrl+P'], typing: 'always', run: () => void printDrawing() },
  { id: 'svg', label: 'Copy the drawing as SVG', group: 'File', keys: [], run: () => copyPicture('svg') },
  { id: 'png', label: 'Copy the drawing as PNG', group: 'File', keys: [], run: () => copyPicture('png') },
  {
    id: 'link',
    label: 'Copy a link that holds this line-up',
    group: 'File',
    keys: [],
    run: () => void import('../files/link.ts').then((link) => link.copyLink()),
  },
  {
    id: 'startPage',
    label: 'To the start page',
    group: 'File',
    keys: [],
    run: () => {
      // The list it may be chosen from is taken down with the sheet before it can say that it was closed.
      arrange({ asking: null });
      showStart(true);
    },
  },
];
