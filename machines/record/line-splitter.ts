/** Cuts a stream of bytes into lines, whatever the pieces it comes in. */

/** A longer line is no entry: the longest honest one is a few thousand bytes. */
export const LINE_LIMIT_BYTES = 4 * 1024 * 1024;
const LINE_FEED = 10;

export type LineSplitter = {
  /** Gives each line that is now whole, without its line feed; the bytes are only good until it returns. */
  readonly add: (bytes: Uint8Array, onLine: (line: Uint8Array) => void) => void;
  /** Bytes of a last line without a line feed; 0 when the stream ended as it should. */
  readonly left: () => number;
};

/** Throws RangeError when a line is longer than the limit. */
export const lineSplitter = (): LineSplitter => {
  let rest = new Uint8Array(0);
  const tooLong = (bytes: number): void => {
    if (bytes > LINE_LIMIT_BYTES) throw new RangeError(`a line is longer than ${LINE_LIMIT_BYTES} bytes`);
  };
  return {
    add: (bytes, onLine) => {
      let from = 0;
      for (let feed = bytes.indexOf(LINE_FEED); feed >= 0; feed = bytes.indexOf(LINE_FEED, from)) {
        tooLong(rest.length + feed - from);
        if (rest.length === 0) onLine(bytes.subarray(from, feed));
        else {
          const line = new Uint8Array(rest.length + feed - from);
          line.set(rest);
          line.set(bytes.subarray(from, feed), rest.length);
          rest = new Uint8Array(0);
          onLine(line);
        }
        from = feed + 1;
      }
      if (from === bytes.length) return;
      tooLong(rest.length + bytes.length - from);
      const joined = new Uint8Array(rest.length + bytes.length - from);
      joined.set(rest);
      joined.set(bytes.subarray(from), rest.length);
      rest = joined;
    },
    left: () => rest.length,
  };
};
