/** A file chosen on another page, on its way to the replay. */

let pending: File | null = null;

export const handOn = (file: File): void => {
  pending = file;
};

/** The file that was handed on, once. */
export const takeHandedOn = (): File | null => {
  const file = pending;
  pending = null;
  return file;
};
