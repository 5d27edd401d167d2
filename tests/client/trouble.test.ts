/** What a person reads when something could not be fetched. */
import { describe, expect, it } from 'vitest';
import { troubleOf } from '../../client/live/trouble.ts';

describe('trouble with fetching', () => {
  // The words of each browser are from memory.
  it.each(['Failed to fetch', 'NetworkError when attempting to fetch resource.', 'Load failed'])(
    'says what to see to where the browser says %s',
    (words) => {
      expect(troubleOf(new TypeError(words))).toBe(
        'The server does not answer: see whether the program still runs',
      );
    },
  );

  it('leaves words of the server, and of a fault in this program, as they are', () => {
    expect(troubleOf(new Error('there is no shift 99.'))).toBe('there is no shift 99.');
    expect(troubleOf(new TypeError('x is not iterable'))).toBe('x is not iterable');
    expect(troubleOf('gone')).toBe('gone');
  });
});
