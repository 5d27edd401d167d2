/** Numbers as they are written on screens. */
export const one = (value: number): string => value.toFixed(1);
