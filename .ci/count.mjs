// Adds up the reports that vitest leaves in each room, so that a run served from the cache counts too.
import { existsSync, readFileSync, readdirSync } from 'node:fs';

const rooms = ['packages', 'apps'].flatMap((top) => readdirSync(top).map((room) => `${top}/${room}`)).concat('test');
let passed = 0;
let failed = 0;
let unopened = 0;
for (const room of rooms) {
  const file = `${room}/.vitest/report.json`;
  if (!existsSync(file)) continue;
  const report = JSON.parse(readFileSync(file, 'utf8'));
  passed += report.numPassedTests;
  sayFailures(report, room);
  // A file that fails to load has no failed test of its own, yet the run failed.
  // Where no browser starts, its tests skip and say so: that is no pass.
  for (const { assertionResults } of report.testResults)
    unopened += assertionResults.filter(
      (t) => t.status !== 'passed' && t.fullName.includes('skipped: none starts'),
    ).length;
  failed += Math.max(report.numFailedTests, report.success ? 0 : 1);
}
if (unopened > 0) {
  console.error(`${unopened} tests want a browser, and none started on this machine; their names say why.`);
  process.exitCode = 1;
}
console.log(`${passed} passed, ${failed} failed`);

/** Prints what failed, and why, so that the end of a log says it without the rest. */
function sayFailures({ testResults }, room) {
  for (const { name, message, assertionResults } of testResults) {
    if (message) console.log(`${room}: ${name} did not load: ${message.slice(0, 600)}`);
    for (const { status, fullName, failureMessages } of assertionResults)
      if (status === 'failed') console.log(`${room}: ${fullName}\n  ${failureMessages.join('\n').slice(0, 600)}`);
  }
}
