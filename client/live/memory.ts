/** What this browser remembers between visits; a browser that forbids it just forgets. */

export function recall(key: string): string | null {
  try {
    return localStorage.getItem(`patchyard.${key}`);
  } catch {
    return null;
  }
}

export function remember(key: string, value: string): void {
  try {
    localStorage.setItem(`patchyard.${key}`, value);
  } catch {
    // Private windows and full disks: the console works, it only forgets.
  }
}
