/** Holes written one by one at the console. */
import type { Basis } from '../../../machines/yard/patches/basis.ts';
import { takeOffOf } from '../../../machines/yard/patches/take-off.ts';
import { troubleWith } from '../../../machines/yard/patches/trouble.ts';
import { EMPTY_HOLE, HoleFields, type HoleText, holeOf } from './hole-fields.tsx';
import { layers, mass } from './words.ts';

function Figures({ text, basis }: { readonly text: HoleText; readonly basis: Basis }) {
  if (`${text.lengthM}${text.widthM}${text.depthMm}` === '')
    return <span className="soft">Write its size to see what it takes.</span>;
  const hole = holeOf(text);
  const wrong = troubleWith(hole);
  if (wrong.length > 0) return <span className="warn-words">{wrong[0]?.message}</span>;
  const found = takeOffOf(hole, basis);
  return (
    <span className="num">
      {mass(found.mixKg)} of mix in {layers(found.layersMm)} mm
      {found.crusherRunKg > 0 ? `, ${mass(found.crusherRunKg)} crusher run` : ''}
    </span>
  );
}

export function TypedRows({
  holes,
  basis,
  onChange,
}: {
  readonly holes: readonly HoleText[];
  readonly basis: Basis;
  readonly onChange: (holes: readonly HoleText[]) => void;
}) {
  const last = holes.at(-1);
  return (
    <div className="stack">
      {holes.map((text, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place in the list
        <fieldset key={i} className="yp-typed">
          <legend className="num">Hole {i + 1}</legend>
          <HoleFields
            text={text}
            onChange={(next) => onChange(holes.map((one, at) => (at === i ? next : one)))}
          />
          <div className="yp-head">
            <Figures text={text} basis={basis} />
            {holes.length > 1 && (
              <button
                type="button"
                className="button quiet"
                onClick={() => onChange(holes.filter((_, at) => at !== i))}
              >
                Leave out hole {i + 1}
              </button>
            )}
          </div>
        </fieldset>
      ))}
      <div className="row">
        <button
          type="button"
          className="button"
          onClick={() =>
            onChange([
              ...holes,
              {
                ...EMPTY_HOLE,
                route: last?.route ?? '',
                compactedBy: last?.compactedBy ?? 'hand rammer',
                surface: last?.surface ?? 'bituminous',
              },
            ])
          }
        >
          Another hole
        </button>
      </div>
    </div>
  );
}
