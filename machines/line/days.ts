/** Dates as YYYY-MM-DD and as day numbers, without a clock: proleptic Gregorian calendar, day 0 is 1970-01-01. */

const YEARS_400_DAYS = 146_097;

/** Day number of a date. The year is taken to begin in March, so that the leap day is its last. */
export const dayNumber = (date: string): number => {
  const [y, month, day] = date.split('-').map(Number) as [number, number, number];
  const year = month <= 2 ? y - 1 : y;
  const era = Math.floor(year / 400);
  const yearOfEra = year - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * YEARS_400_DAYS + dayOfEra - 719_468;
};

const two = (n: number): string => String(n).padStart(2, '0');

/** Date of a day number. */
export const dateOfDay = (number: number): string => {
  const z = number + 719_468;
  const era = Math.floor(z / YEARS_400_DAYS);
  const dayOfEra = z - era * YEARS_400_DAYS;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1;
  const month = monthFromMarch + (monthFromMarch < 10 ? 3 : -9);
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
};

/** The date so many days after another. */
export const daysAfter = (date: string, days: number): string => dateOfDay(dayNumber(date) + days);
