/** Hands a text to the browser as a file. */
export function save(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }));
  link.download = name;
  link.click();
  // The browser has taken the file by the time the next task runs.
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
