import '@xyflow/react/dist/style.css';
import './ui/tokens.css';
import './ui/layout.css';
import './ui/start.css';
import './ui/commands.css';
import './ui/sizing.css';
import './ui/variants.css';
import './ui/revisions.css';
import { browserStorage } from './files/browserStorage.ts';

/**
 * What takes longest is asked for first, all of it at once: the page, what is kept in this browser and, where something is, the sheet to
 * show it on. One after another they would add up.
 */
void import('./page.tsx');
void somethingKept().then((there) => {
  if (there) void import('./Workspace.tsx');
});

async function somethingKept(): Promise<boolean> {
  try {
    return (await browserStorage.list('')).length > 0;
  } catch {
    // Whoever opens what is kept says so.
    return false;
  }
}
