// Progress lines on stderr, so that stdout stays free for what a command answers.

export function say(text) {
  process.stderr.write(`patchyard: ${text}\n`);
}

/** Runs `work` between "text …" and the seconds it took. */
export async function saying(text, work) {
  const startedMs = performance.now();
  say(`${text} …`);
  const result = await work();
  say(`${text}: done in ${((performance.now() - startedMs) / 1000).toFixed(1)} s`);
  return result;
}

/** A failure whose message alone tells a person what to do; its stack is of no use to them. */
export class PlainError extends Error {}

/** For the end of a command: a plain message for a plain failure, the whole stack for anything else. */
export function failWith(error) {
  if (error instanceof PlainError) say(error.message);
  else console.error(error);
  process.exit(1);
}
