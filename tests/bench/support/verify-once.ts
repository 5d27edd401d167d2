/** Verifies one export and prints the verdict and the most memory the process had. */
import { verifyFile } from '../../../server/verify/verify-file.ts';

const verdict = await verifyFile(process.argv[2] ?? '');
// maxRSS is in kilobytes on Linux, the only place this is measured.
console.log(
  JSON.stringify({
    result: verdict.result,
    entries: verdict.entries,
    peakBytes: process.resourceUsage().maxRSS * 1024,
  }),
);
process.exitCode = verdict.result === 'intact' ? 0 : 1;
