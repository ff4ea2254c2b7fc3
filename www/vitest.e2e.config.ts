import { defineConfig } from 'vitest/config';

/** What looks at how long the page is held up or what it holds needs the machine for itself. */
const ALONE = ['cancel', 'faults_many', 'keeping_smooth'].map((name) => `e2e/${name}.e2e.ts`);

const shared = {
  environment: 'node',
  globalSetup: 'e2e/serve.ts',
  testTimeout: 120_000,
  hookTimeout: 60_000,
  // Pointers and pages are driven from outside: on a busy machine a double tap can come as two. What fails
  // is tried once more; the report marks it, and what fails twice has failed.
  retry: 1,
} as const;

// Each file has a browser of its own: two at a time, and then the rest one after another.
export default defineConfig({
  test: {
    projects: [
      { test: { ...shared, name: 'together', include: ['e2e/*.e2e.ts'], exclude: ALONE, maxWorkers: 2, sequence: { groupOrder: 0 } } },
      { test: { ...shared, name: 'alone', include: ALONE, fileParallelism: false, sequence: { groupOrder: 1 } } },
    ],
  },
});
