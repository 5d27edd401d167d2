/** Arithmetic on the plant's local times, YYYY-MM-DDTHH:MM[:SS], which know no zone and no summer time. */

const SHAPE = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2}))?$/;

const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
const daysIn = (year: number, month: number): number =>
  month === 2 ? (isLeap(year) ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;

/** Days since 1 March of year 0, of a date in the Gregorian calendar. */
const dayNumber = (year: number, month: number, day: number): number => {
  const y = month > 2 ? year : year - 1;
  const m = month > 2 ? month - 3 : month + 9;
  return (
    365 * y +
    Math.floor(y / 4) -
    Math.floor(y / 100) +
    Math.floor(y / 400) +
    Math.floor((153 * m + 2) / 5) +
    day -
    1
  );
};

/** Seconds since a fixed day long ago, or null when the text is no time that exists. */
export const secondsOf = (local: string): number | null => {
  const found = SHAPE.exec(local);
  if (found === null) return null;
  const [year, month, day, hour, minute, second] = found.slice(1).map((part) => Number(part ?? 0)) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  if (month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) return null;
  if (hour > 23 || minute > 59 || second > 59) return null;
  return dayNumber(year, month, day) * 86_400 + hour * 3600 + minute * 60 + second;
};

/** Minutes from one local time to another; null when either is no time. */
export const minutesBetween = (from: string, to: string): number | null => {
  const [start, end] = [secondsOf(from), secondsOf(to)];
  return start === null || end === null ? null : (end - start) / 60;
};

/** A local time in words for a message: 14:05 on 2026-05-12. */
export const spokenTime = (local: string): string => `${local.slice(11, 16)} on ${local.slice(0, 10)}`;
