#!/usr/bin/env node
try {
  await import('../dist/cli/main.js');
} catch (error) {
  // The program itself answers for its own faults; only one that is not whole gets here.
  console.error(
    'Dyewright is not built, or not built whole.\nRun “npm run build” in its folder, then try again.',
  );
  if (process.env.DYEWRIGHT_DEBUG === '1') console.error(error);
  process.exitCode = 1;
}
