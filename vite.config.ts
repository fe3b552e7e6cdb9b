import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { ahead } from './editor/build/ahead.ts';
import { offline } from './editor/build/offline.ts';
import { contentPolicy } from './editor/build/policy.ts';
import { buildId } from './engine/cli/buildId.ts';

/** jsPDF carries three optional packages for turning pages into pictures; nothing here uses them. */
const nothing = fileURLToPath(new URL('./editor/files/nothing.ts', import.meta.url));

export default defineConfig({
  // Relative addresses: the site works from any folder.
  base: './',
  plugins: [react(), contentPolicy(), ahead(), offline()],
  // What is written says which state of the source wrote it.
  define: { 'globalThis.COPPERLINE_BUILD': JSON.stringify(buildId()) },
  resolve: { alias: { html2canvas: nothing, canvg: nothing, dompurify: nothing } },
  // A worker that fetches its parts when they are needed.
  worker: { format: 'es' },
  build: { manifest: true, chunkSizeWarningLimit: 900 },
  server: { port: 5173 },
  preview: { port: 5173 },
});
