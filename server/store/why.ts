/** What stands in the way of opening or reading a record, in one line a person can act on. */
import { codeOf, messageOf, PlainError } from '../plain-error.ts';

const DAMAGED = ['SQLITE_CORRUPT', 'SQLITE_NOTADB', 'SQLITE_IOERR_SHORT_READ'];
const ANOTHER = 'name another folder with --data';

export const isDamage = (error: unknown): boolean => DAMAGED.some((code) => codeOf(error).startsWith(code));

/** A PlainError for whatever was thrown on opening `file` for writing; one that is plain already stays. */
export const cannotOpen = (file: string, error: unknown): PlainError => {
  if (error instanceof PlainError) return error;
  const code = codeOf(error);
  if (isDamage(error))
    return new PlainError(
      `The record ${file} is damaged (${code}): keep its folder as it is for whoever looks into it, and ${ANOTHER}.`,
    );
  if (code === 'SQLITE_FULL')
    return new PlainError(`The record ${file} cannot be opened: the disk is full. Make room, or ${ANOTHER}.`);
  return new PlainError(
    `The record ${file} cannot be opened (${code || messageOf(error)}): check who may write it and its folder, or ${ANOTHER}.`,
  );
};

/** The same for reading only. */
export const cannotRead = (file: string, error: unknown): PlainError =>
  error instanceof PlainError
    ? error
    : isDamage(error)
      ? new PlainError(
          `The record ${file} is damaged: its file is no longer a whole database (${codeOf(error)}).`,
        )
      : new PlainError(
          `The record ${file} cannot be read where it lies (${codeOf(error) || messageOf(error)}): copy its folder to where you may write, and verify the copy.`,
        );
