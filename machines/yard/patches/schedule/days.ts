/** Calendar days of the plan as 'YYYY-MM-DD', counted without a clock. */
import type { PatchesState } from '../state.ts';

const DAYS_BEFORE_MONTH = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

/** Days since 0001-01-01 (Gregorian), which was a Monday. */
export const dayNumber = (date: string): number => {
  const [year = 1, month = 1, day = 1] = date.split('-').map(Number);
  const y = year - 1;
  const leapDay = month > 2 && isLeap(year) ? 1 : 0;
  return (
    y * 365 +
    Math.floor(y / 4) -
    Math.floor(y / 100) +
    Math.floor(y / 400) +
    (DAYS_BEFORE_MONTH[month - 1] ?? 0) +
    leapDay +
    day -
    1
  );
};

/** 0 is Monday. */
export const weekdayOf = (date: string): number => dayNumber(date) % 7;

const lastOfMonth = (year: number, month: number): number =>
  month === 2 && isLeap(year) ? 29 : ([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 31);
const two = (n: number): string => String(n).padStart(2, '0');

/** The day `days` after a date. */
export const addDays = (date: string, days: number): string => {
  let [year = 1, month = 1, day = 1] = date.split('-').map(Number);
  for (let left = days; left > 0; left -= 1) {
    day += 1;
    if (day > lastOfMonth(year, month)) {
      day = 1;
      month += 1;
    }
    if (month > 12) {
      month = 1;
      year += 1;
    }
  }
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
};

export const daysBetween = (from: string, to: string): number => dayNumber(to) - dayNumber(from);

/** Working hours of a day: as set for it, else as usual on that day of the week. */
export const hoursOn = (week: PatchesState['week'], date: string): number =>
  week.days[date] ?? week.hours[weekdayOf(date)] ?? 0;
