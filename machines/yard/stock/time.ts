/** The plant's local clock as plain text: seconds and days between two times, without any real clock. */

const DAYS_BEFORE = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334] as const;
const leap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

/** Days since 1 January of year 1 (proleptic Gregorian). */
export const dayNumber = (at: string): number => {
  const year = Number(at.slice(0, 4));
  const month = Number(at.slice(5, 7));
  const before = year - 1;
  const leaps = Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400);
  const thisLeap = month > 2 && leap(year) ? 1 : 0;
  return 365 * before + leaps + (DAYS_BEFORE[month - 1] ?? 0) + thisLeap + Number(at.slice(8, 10));
};

const secondOfDay = (at: string): number =>
  Number(at.slice(11, 13) || 0) * 3600 + Number(at.slice(14, 16) || 0) * 60 + Number(at.slice(17, 19) || 0);

export const secondsBetween = (from: string, to: string): number =>
  (dayNumber(to) - dayNumber(from)) * 86_400 + secondOfDay(to) - secondOfDay(from);

/** Days with their parts; a date alone counts from midnight. */
export const daysBetween = (from: string, to: string): number => secondsBetween(from, to) / 86_400;

const two = (n: number): string => String(n).padStart(2, '0');

/** The date so many days on, YYYY-MM-DD. */
export const daysOn = (at: string, days: number): string => {
  const wanted = dayNumber(at) + days;
  let year = Number(at.slice(0, 4)) + Math.floor(days / 366);
  while (dayNumber(`${String(year + 1).padStart(4, '0')}-01-01`) <= wanted) year += 1;
  const yyyy = String(year).padStart(4, '0');
  let month = 12;
  while (month > 1 && dayNumber(`${yyyy}-${two(month)}-01`) > wanted) month -= 1;
  return `${yyyy}-${two(month)}-${two(wanted - dayNumber(`${yyyy}-${two(month)}-01`) + 1)}`;
};

export const keepsUntilOf = (at: string, keepsDays: number | null): string | null =>
  keepsDays === null ? null : daysOn(at, keepsDays);
