/** What the tones and marks of the ribbon mean; only those that occur in this shift. */
import { memo } from 'react';
import type { RibbonBlock, RibbonMark } from '../../machines/line/view.types.ts';
import { TONES, toneOf } from './blocks.ts';
import { GLYPHS } from './marks.ts';

type Props = { readonly blocks: readonly RibbonBlock[]; readonly marks: readonly RibbonMark[] };

export const Legend = memo(({ blocks, marks }: Props) => {
  const tones = new Set(blocks.map((block) => toneOf(block.step)));
  const kinds = new Set(marks.map((mark) => mark.mark));
  return (
    <div className="rb-legend">
      {TONES.filter((tone) => tones.has(tone)).map((tone) => (
        <span key={tone}>
          <i className={`rb-swatch rb-${tone}`} />
          {tone === 'hold' ? 'held' : tone}
        </span>
      ))}
      {GLYPHS.filter(([kind]) => kinds.has(kind)).map(([kind, glyph]) => (
        <span key={kind} className="rb-legend-mark">
          <i className={`rb-glyph rb-glyph-${kind}`}>{glyph}</i>
          {kind}
        </span>
      ))}
    </div>
  );
});
Legend.displayName = 'Legend';
