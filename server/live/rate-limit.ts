/** A bucket of tokens a console: so many commands a second, with a little room for a burst. */
const PER_SECOND = 20;
const BURST = 20;
/** Consoles remembered; the longest silent is forgotten first. */
const CONSOLES = 1000;

export type RateLimit = {
  /** Takes a token; false when there is none. */
  readonly allow: (console: string) => boolean;
};

export const TOO_MANY = `Too many commands from this console: at most ${PER_SECOND} a second. Wait a moment.`;

export const createRateLimit = (monoMs: () => number): RateLimit => {
  const buckets = new Map<string, { tokens: number; atMs: number }>();
  return {
    allow: (console) => {
      const now = monoMs();
      const old = buckets.get(console);
      const tokens = Math.min(
        BURST,
        (old?.tokens ?? BURST) + ((now - (old?.atMs ?? now)) / 1000) * PER_SECOND,
      );
      buckets.delete(console);
      buckets.set(console, { tokens: tokens >= 1 ? tokens - 1 : tokens, atMs: now });
      if (buckets.size > CONSOLES) buckets.delete(buckets.keys().next().value as string);
      return tokens >= 1;
    },
  };
};
