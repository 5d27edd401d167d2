/** Why something could not be fetched, as a person reads it: a browser's own words name nothing a person can see to. */

/** A fetch that never reached the server: Chromium, Firefox and Safari say it each in their way. */
const NOT_REACHED = /failed to fetch|networkerror|load failed|network error/i;

/** Without a full stop of its own; words the server or this program wrote stay as they are. */
export const troubleOf = (error: unknown): string => {
  const words = error instanceof Error ? error.message : String(error);
  return error instanceof TypeError && NOT_REACHED.test(words)
    ? 'The server does not answer: see whether the program still runs'
    : words;
};
