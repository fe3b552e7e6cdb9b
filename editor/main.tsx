import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import '@xyflow/react/dist/style.css';
import './ui/tokens.css';
import './ui/layout.css';
import './ui/commands.css';
import './ui/sizing.css';
import './ui/variants.css';
import './ui/revisions.css';
import { App } from './App.tsx';
import { startTheme } from './panels/theme.ts';

const root = document.getElementById('root');
if (!root) throw new Error('index.html has no element with the id "root"');
startTheme();
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
