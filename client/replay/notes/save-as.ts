/** Gives the person a file, made in the browser. */

const LET_GO_AFTER_MS = 10_000;

export const saveAs = (name: string, text: string, type: string): void => {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), LET_GO_AFTER_MS);
};
