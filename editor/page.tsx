import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App, begin } from './App.tsx';
import { startTheme } from './panels/theme.ts';

const root = document.getElementById('root');
if (!root) throw new Error('index.html has no element with the id "root"');
startTheme();
void begin().finally(() =>
  createRoot(root).render(
    <StrictMode>
      <App />
    </StrictMode>,
  ),
);
