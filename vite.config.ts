import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { ahead } from './editor/build/ahead.ts';
import { leftOut } from './editor/build/leftOut.ts';
import { offline } from './editor/build/offline.ts';
import { contentPolicy } from './editor/build/policy.ts';
import { threads } from './editor/build/threads.ts';
import { buildId } from './engine/cli/buildId.ts';

export default defineConfig({
  // Relative addresses: the site works from any folder.
  base: './',
  plugins: [react(), contentPolicy(), threads(), leftOut(), ahead(), offline()],
  // What is written says which state of the source wrote it.
  define: { 'globalThis.COPPERLINE_BUILD': JSON.stringify(buildId()) },
  build: { manifest: true, chunkSizeWarningLimit: 900 },
  server: { port: 5173 },
  preview: { port: 5173 },
});
