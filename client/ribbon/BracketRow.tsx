/** Lots and drying campaigns as brackets with their labels. */
import { type Bracket, layLabels } from './brackets.ts';
import { type Scale, xOf } from './scale.ts';

type Props = {
  readonly brackets: readonly Bracket[];
  readonly scale: Scale;
  readonly y: number;
  readonly sidePx: number;
  readonly sizePx: number;
};

export const BracketRow = ({ brackets, scale, y, sidePx, sizePx }: Props) => {
  const spans = brackets.map((bracket) => ({
    fromX: xOf(scale, bracket.fromMs),
    toX: xOf(scale, bracket.toMs),
    texts: bracket.texts,
  }));
  const labels = layLabels(spans, 0, scale.widthPx + sidePx, sizePx);
  return (
    <g>
      {brackets.map((bracket, index) => {
        const span = spans[index];
        const label = labels[index] ?? null;
        if (span === undefined || span.toX < -sidePx || span.fromX > scale.widthPx + sidePx) return null;
        const fromX = Math.max(span.fromX + 0.5, -sidePx - 4);
        const toX = Math.max(fromX + 1, Math.min(span.toX - 1.5, scale.widthPx + sidePx + 4));
        const end = bracket.isOpen ? '' : `M${toX} ${y - 4}v8`;
        return (
          <g key={bracket.id}>
            <path
              d={`M${fromX} ${y - 4}v8M${fromX} ${y}H${toX}${end}`}
              className={`rb-bracket rb-${bracket.kind}`}
            />
            {label !== null && (
              <text
                x={label.x}
                y={y + 19}
                fontSize={sizePx}
                className={bracket.kind === 'lot' ? 'rb-strong' : 'rb-label'}
              >
                {label.text}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
};
