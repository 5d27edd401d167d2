/** The figures the lessons work with: those of the running plant, or the example yard's while none answers. */
import { useEffect, useState } from 'react';
import type { Figures } from '../../machines/mix/figures.ts';
import { EXAMPLE } from './example.ts';

export type LessonFigures = Figures & { readonly mix: NonNullable<Figures['mix']> };

export type Found = {
  readonly figures: LessonFigures;
  /** Whose figures these are, in words. */
  readonly whose: string;
};

/** A plant that makes no cutback is shown with the example's mix, and told so. */
const withMix = (figures: Figures): Found =>
  figures.mix === null
    ? {
        figures: { ...figures, mix: EXAMPLE.mix },
        whose: `${figures.plantName}; this shift makes no cutback mix, so the mix is an example`,
      }
    : { figures: { ...figures, mix: figures.mix }, whose: `${figures.plantName}, ${figures.mix.name}` };

const EXAMPLE_FOUND: Found = {
  figures: EXAMPLE,
  whose: 'an example yard, since the server did not tell this plant’s own',
};

/** Null while they are being read. */
export function useFigures(): Found | null {
  const [found, setFound] = useState<Found | null>(null);
  useEffect(() => {
    const gone = new AbortController();
    fetch('/api/figures', { signal: gone.signal })
      .then(async (response) => {
        if (!response.ok) throw new Error(`answered ${response.status}`);
        const { figures } = (await response.json()) as { figures: Figures };
        setFound(withMix(figures));
      })
      .catch(() => {
        if (!gone.signal.aborted) setFound(EXAMPLE_FOUND);
      });
    return () => gone.abort();
  }, []);
  return found;
}
