/** A progress bar on a terminal; nothing at all where there is none. */

const WIDTH = 30;

export type Progress = { readonly show: (share: number) => void; readonly clear: () => void };

export const createProgress = (out: NodeJS.WriteStream, label: string): Progress => {
  if (!out.isTTY) return { show: () => undefined, clear: () => undefined };
  let shown = false;
  return {
    show: (share) => {
      const full = Math.round(share * WIDTH);
      const bar = '█'.repeat(full) + '░'.repeat(WIDTH - full);
      out.write(`\r${bar} ${String(Math.round(share * 100)).padStart(3)} % ${label}`);
      shown = true;
    },
    clear: () => {
      if (shown) out.write('\r\x1b[K');
      shown = false;
    },
  };
};
