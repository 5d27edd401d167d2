/** Days on the plant's calendar, which knows no zone. */

const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
const daysIn = (year: number, month: number): number =>
  month === 2 ? (isLeap(year) ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;

/** The date so many days (0 or more) after another, YYYY-MM-DD. */
export const daysAfter = (date: string, days: number): string => {
  let [year = 0, month = 1, day = 1] = date.slice(0, 10).split('-').map(Number);
  let left = days;
  while (left > 0) {
    const toEnd = daysIn(year, month) - day;
    if (left <= toEnd) {
      day += left;
      break;
    }
    left -= toEnd + 1;
    day = 1;
    month += 1;
    if (month > 12) {
      month = 1;
      year += 1;
    }
  }
  const two = (n: number) => String(n).padStart(2, '0');
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
};
