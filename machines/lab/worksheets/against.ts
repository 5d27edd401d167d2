/** How a result lies to the limits of a grade or a specification, in words. */
import { propertyNamed } from './properties.ts';
import { plain, roundedTo } from './rounding.ts';
import type { GradeLimit, Result } from './sheet.types.ts';

/** One sentence for each limit that speaks of the result, rounded to the limit's digits first (ASTM E29, from memory). */
export const againstLimits = (result: Result, limits: readonly GradeLimit[]): readonly string[] =>
  limits
    .filter(({ property }) => property === result.property)
    .map(({ from, to, source, decimals }) => {
      const known = propertyNamed(result.property);
      const { label } = known;
      const value = roundedTo(result.value, decimals ?? known.decimals);
      const by = source === undefined ? '' : ` (${source})`;
      const unit = result.unit === '' ? '' : ` ${result.unit}`;
      if (from !== undefined && value < from)
        return `${label}: ${result.reported} is below the least, ${plain(from)}${unit}${by}`;
      if (to !== undefined && value > to)
        return `${label}: ${result.reported} is above the most, ${plain(to)}${unit}${by}`;
      return `${label}: ${result.reported} is within its limits${by}`;
    });
