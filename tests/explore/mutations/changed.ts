/** Changes one thing in the true data of the charts, runs the true code over it, and puts it back. */

/** `key` of `target` has another value while `run` runs. */
export const withChanged = <T extends object, K extends keyof T, R>(
  target: T,
  key: K,
  value: unknown,
  run: () => R,
): R => {
  const open = target as { [key in K]: unknown };
  const before = open[key];
  open[key] = value;
  try {
    return run();
  } finally {
    open[key] = before;
  }
};

/** `entry` is missing from `list` while `run` runs. */
export const withDropped = <T, R>(list: readonly T[], entry: T, run: () => R): R => {
  const open = list as T[];
  const before = [...open];
  open.splice(0, open.length, ...before.filter((one) => one !== entry));
  try {
    return run();
  } finally {
    open.splice(0, open.length, ...before);
  }
};
