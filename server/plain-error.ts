/** An error a person can act on: its message is one line that says what is wrong and what to do. */
export class PlainError extends Error {
  override name = 'PlainError';
}

/** Message of whatever was thrown, on one line. */
export const messageOf = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).replace(/\s*\n\s*/g, ' ');

/** Error code of a system or SQLite error ("EACCES", "SQLITE_FULL"), or ''. */
export const codeOf = (error: unknown): string => {
  const code = (error as { code?: unknown } | null)?.code;
  return typeof code === 'string' ? code : '';
};
