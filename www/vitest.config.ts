import { defineConfig } from 'vitest/config';

export default defineConfig({
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: { include: ['test/**/*.test.{ts,tsx}'], environment: 'node', setupFiles: ['test/setup.ts'], testTimeout: 60_000, maxWorkers: 2 },
});
