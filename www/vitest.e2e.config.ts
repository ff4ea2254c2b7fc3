import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** What looks at how long the page is held up or what it holds needs the machine for itself. */
const ALONE = ['cancel', 'faults_many', 'keeping_smooth'].map((name) => `e2e/${name}.e2e.ts`);

/** Short files that take long: begun last, one of them would keep one processor busy and the other waiting. */
const LONG = ['wander', 'kills', 'single', 'plan_access', 'faults_damaged'].map((name) => `/${name}.e2e.ts`);

class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const long = ({ moduleId }: TestSpecification) => LONG.some((name) => moduleId.endsWith(name));
    return [...sorted.filter(long), ...sorted.filter((file) => !long(file))];
  }
}

const shared = {
  environment: 'node',
  globalSetup: 'e2e/serve.ts',
  testTimeout: 120_000,
  hookTimeout: 60_000,
  // Each file opens and closes a browser of its own; the driver need not be read anew for it.
  isolate: false,
  // Pointers and pages are driven from outside: on a busy machine a double tap can come as two. What fails
  // is tried once more; the report marks it, and what fails twice has failed.
  retry: 1,
} as const;

// Each file has a browser of its own: two at a time, and then the rest one after another.
export default defineConfig({
  test: {
    sequence: { sequencer: LongFirst },
    projects: [
      { test: { ...shared, name: 'together', include: ['e2e/*.e2e.ts'], exclude: ALONE, maxWorkers: 2, sequence: { groupOrder: 0 } } },
      { test: { ...shared, name: 'alone', include: ALONE, fileParallelism: false, sequence: { groupOrder: 1 } } },
    ],
  },
});
