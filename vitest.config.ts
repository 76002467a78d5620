import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: { conditions: ['source', 'node', 'import', 'default'] },
  ssr: { resolve: { conditions: ['source', 'node', 'import', 'default'] } },
  test: {
    include: ['src/**/*.test.ts', 'tests/program/**/*.test.ts', 'tests/simulator/**/*.test.ts'],
    globalSetup: ['tests/build-first.ts'],
    // Nothing is timed by tests: these only end what hangs, on a busy machine too.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    pool: 'forks',
    // Vitest would leave one of two cores to itself.
    maxWorkers: 2,
  },
});
