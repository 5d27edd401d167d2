/** Numbers kept in plain columns: a shift has more than a million changes of readings. */

type Column = Int32Array | Float64Array | Uint16Array;

/** A column that grows by doubling; `values` is as long as it has room, `length` as long as it is filled. */
export class Growing<C extends Column> {
  values: C;
  length = 0;
  #make: (length: number) => C;

  constructor(make: (length: number) => C, room = 64) {
    this.#make = make;
    this.values = make(room);
  }

  push(value: number): void {
    if (this.length === this.values.length) {
      const wider = this.#make(this.values.length * 2);
      wider.set(this.values);
      this.values = wider;
    }
    this.values[this.length] = value;
    this.length += 1;
  }

  /** Value at an index that is filled. */
  at(index: number): number {
    return this.values[index] ?? Number.NaN;
  }
}

export const int32s = (room?: number): Growing<Int32Array> =>
  new Growing((length) => new Int32Array(length), room);
export const uint16s = (room?: number): Growing<Uint16Array> =>
  new Growing((length) => new Uint16Array(length), room);
export const float64s = (room?: number): Growing<Float64Array> =>
  new Growing((length) => new Float64Array(length), room);

/** How many of a rising column's values are at most `limit`: the index after the last of them. */
export const countUpTo = (column: Growing<Int32Array>, limit: number): number => {
  let low = 0;
  let high = column.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (column.at(middle) <= limit) low = middle + 1;
    else high = middle;
  }
  return low;
};
