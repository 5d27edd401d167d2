/** Photographs kept with a worksheet, as small pictures that open whole. */
import './photos.css';

export type KeptPhoto = {
  readonly sha256: string;
  readonly words: string;
  readonly by: string;
  readonly at: string;
};

export function PhotoList({ photos }: { readonly photos: readonly KeptPhoto[] }) {
  if (photos.length === 0) return null;
  return (
    <ul className="photo-list" aria-label="Photographs">
      {photos.map(({ sha256, words, by, at }) => (
        <li key={sha256}>
          <a href={`/api/photos/${sha256}`} target="_blank" rel="noreferrer">
            <img
              src={`/api/photos/${sha256}`}
              alt={words === '' ? `Photograph by ${by}` : words}
              loading="lazy"
            />
          </a>
          <span>
            {words === '' ? 'No words' : words}
            <span className="soft">
              {' '}
              · {by}, {at.replace('T', ' ').slice(0, 16)} ·{' '}
              <span className="num">{sha256.slice(0, 12)}…</span>
            </span>
          </span>
        </li>
      ))}
    </ul>
  );
}
