// @ts-check
// Holds the import rules (.dependency-cruiser.cjs) and proves that they bite: the fixture breaks each of the
// rules named below, and a checker that reports none of them has gone blind.
import { spawnSync } from 'node:child_process';

const mustBeSeen = [
  'craft-looks-nowhere-up',
  'craft-has-no-node',
  'shop-knows-no-door',
  'page-sees-contract-and-craft',
  'folders-have-one-door',
];

const real = cruise('src', 'err');
process.stdout.write(real.stdout);
process.stderr.write(real.stderr);

const fixture = cruise('tests/import-rules/fixture/src', 'json');
/** @type {{ summary: { violations: { rule: { name: string } }[] } }} */
const report = JSON.parse(fixture.stdout);
const seen = new Set(report.summary.violations.map((violation) => violation.rule.name));
const blind = mustBeSeen.filter((name) => !seen.has(name));
if (blind.length > 0) console.error(`imports: the checker no longer sees breaches of ${blind.join(', ')}`);
else console.log(`imports: the illegal fixture is refused by all ${mustBeSeen.length} rules it breaks`);

process.exit(real.status === 0 && blind.length === 0 ? 0 : 1);

/** @param {string} folder @param {string} outputType */
function cruise(folder, outputType) {
  return spawnSync(
    process.execPath,
    [
      'node_modules/dependency-cruiser/bin/dependency-cruise.mjs',
      '--config',
      '.dependency-cruiser.cjs',
      '--output-type',
      outputType,
      folder,
    ],
    { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 },
  );
}
