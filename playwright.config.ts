// First: what the page writes names the state of its source, and so must what tests compare it with.
import './engine/cli/named.ts';
import { defineConfig } from '@playwright/test';

/** Another, where something else has this one. */
const address = `http://localhost:${process.env['BROWSER_TEST_PORT'] ?? 4173}`;

export default defineConfig({
  testDir: 'tests/browser',
  testMatch: '**/*.spec.ts',
  outputDir: 'tests/browser/results',
  workers: 1,
  retries: 0,
  timeout: 25_000,
  use: {
    baseURL: address,
    // What it keeps would answer in place of the server, and each test would fetch it all.
    serviceWorkers: 'block',
    viewport: { width: 1440, height: 900 },
    launchOptions: {
      executablePath: process.env['CHROMIUM_PATH'] ?? '/usr/bin/chromium',
      args: [
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    },
  },
  webServer: { command: `npx vite preview --port ${new URL(address).port} --strictPort`, url: address, reuseExistingServer: false },
});
