/** The mass balance of the plant: what came in and what left, kg. */
export type Books = {
  /** Drawn from bins, tanks, water main and anti-strip store. */
  readonly takenKg: number;
  readonly waterEvaporatedKg: number;
  readonly solventEvaporatedKg: number;
  readonly runOffKg: number;
  /** By bay; place 0 is the waste skip. */
  readonly laidKg: readonly number[];
};

/** Books with nothing in them, for bays numbered from 1 to `bays`. */
export const openBooks = (bays: number): Books => ({
  takenKg: 0,
  waterEvaporatedKg: 0,
  solventEvaporatedKg: 0,
  runOffKg: 0,
  laidKg: new Array<number>(bays + 1).fill(0),
});

/** Mix laid in a bay; anything but a bay of this plant is the waste skip. */
const laid = (laidKg: readonly number[], bay: number, kg: number): readonly number[] => {
  const next = laidKg.slice();
  const place = bay > 0 && bay < next.length && Number.isInteger(bay) ? bay : 0;
  next[place] = (next[place] ?? 0) + kg;
  return next;
};

/**
 * The books after one step: taken, evaporated, run off and laid, all in kg; the same object when nothing
 * moved.
 */
export const booked = (
  books: Books,
  takenKg: number,
  waterKg: number,
  solventKg: number,
  runOffKg: number,
  bay: number,
  laidKg: number,
): Books =>
  takenKg === 0 && waterKg === 0 && solventKg === 0 && runOffKg === 0 && laidKg === 0
    ? books
    : {
        takenKg: books.takenKg + takenKg,
        waterEvaporatedKg: books.waterEvaporatedKg + waterKg,
        solventEvaporatedKg: books.solventEvaporatedKg + solventKg,
        runOffKg: books.runOffKg + runOffKg,
        laidKg: laidKg === 0 ? books.laidKg : laid(books.laidKg, bay, laidKg),
      };
