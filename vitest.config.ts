import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/property-seed.ts'],
    // Two cores are what the smallest build machine has; property tests are slow when they fight for them.
    maxWorkers: 2,
    testTimeout: 30_000,
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts'],
      // Entry points: they listen, write a file or print, and are run as processes, not imported.
      exclude: ['src/main.ts', 'src/demo/main.ts', 'src/http/write-openapi.ts', '**/*.d.ts'],
      reporter: ['text-summary', 'json-summary'],
      thresholds: { lines: 85, branches: 80 },
    },
  },
});
