/** Batch numbers as a person writes them: 12–18, 20. */

export function batchRanges(batches: readonly number[]): string {
  const sorted = [...batches].sort((a, b) => a - b);
  const runs: { from: number; to: number }[] = [];
  for (const n of sorted) {
    const last = runs.at(-1);
    if (last !== undefined && n <= last.to + 1) last.to = n;
    else runs.push({ from: n, to: n });
  }
  return runs.map(({ from, to }) => (from === to ? `${from}` : `${from}–${to}`)).join(', ');
}
