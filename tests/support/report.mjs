// One report under all parts: what failed and why, a line a part, and the sum as the very last line.

const shorten = (text) =>
  text
    .split('\n')
    .map((line) => line.trimEnd())
    .filter((line) => line !== '' && !/^\s+at .*node_modules|STACK_TRACE_ERROR/.test(line))
    .slice(0, 6)
    .map((line) => `      ${line.slice(0, 200)}`)
    .join('\n');

/** Prints the report; returns the exit code: 0 only when something ran and nothing failed. */
export function printReport(results, seconds) {
  const failures = results.flatMap((result) => result.failures);
  const passed = results.reduce((sum, result) => sum + result.passed, 0);
  if (failures.length > 0) console.log('\n── what failed ──');
  for (const { name, why } of failures) {
    console.log(`  ✗ ${name}`);
    if (why) console.log(shorten(why) || '      its own words stand in the output above');
  }
  console.log('\n── all parts ──');
  for (const result of results)
    console.log(
      `  ${result.failures.length === 0 ? '✓' : '✗'} ${result.part.padEnd(12)}` +
        `${String(result.passed).padStart(5)} passed ${String(result.failures.length).padStart(4)} failed` +
        `${result.seconds.toFixed(1).padStart(8)} s`,
    );
  console.log(`  ${seconds.toFixed(0)} s in all\n`);
  console.log(`${passed} passed, ${failures.length} failed`);
  return passed > 0 && failures.length === 0 ? 0 : 1;
}
