/** A picture of a report on screen: the same shapes as on paper. */
import { memo } from 'react';
import type { Picture, Shape, Tone } from '../../machines/reports/picture.ts';

const fill = (tone: Tone): string => `tone-fill-${tone}`;
const stroke = (tone: Tone): string => `tone-stroke-${tone}`;

const MARKS = {
  triangle: (x: number, y: number, r: number) =>
    `M${x} ${y - r}L${x + r} ${y + r * 0.8}L${x - r} ${y + r * 0.8}z`,
  diamond: (x: number, y: number, r: number) => `M${x} ${y - r}L${x + r} ${y}L${x} ${y + r}L${x - r} ${y}z`,
} as const;

function Drawn({ shape }: { readonly shape: Shape }) {
  switch (shape.is) {
    case 'rect':
      return (
        <rect
          x={shape.x}
          y={shape.y}
          width={shape.w}
          height={shape.h}
          className={shape.bare === true ? stroke(shape.tone) : fill(shape.tone)}
          strokeWidth={0.6}
        />
      );
    case 'line':
      return (
        <polyline
          points={shape.points.map(([x, y]) => `${x},${y}`).join(' ')}
          className={stroke(shape.tone)}
          strokeWidth={shape.width}
          strokeDasharray={shape.dash?.join(' ')}
        />
      );
    case 'mark':
      if (shape.form === 'dot')
        return <circle cx={shape.x} cy={shape.y} r={shape.r} className={fill(shape.tone)} />;
      if (shape.form === 'ring')
        return (
          <circle
            cx={shape.x}
            cy={shape.y}
            r={shape.r - 0.4}
            className={stroke(shape.tone)}
            strokeWidth={1.1}
          />
        );
      return <path d={MARKS[shape.form](shape.x, shape.y, shape.r)} className={fill(shape.tone)} />;
    case 'text':
      return (
        <text
          x={shape.x}
          y={shape.y}
          fontSize={shape.size}
          textAnchor={shape.anchor}
          fontWeight={shape.bold === true ? 650 : undefined}
          className={fill(shape.tone)}
        >
          {shape.text}
        </text>
      );
  }
}

export const ReportPicture = memo(function ReportPicture({ picture }: { readonly picture: Picture }) {
  return (
    <div className="report-picture">
      <svg viewBox={`0 0 ${picture.w} ${picture.h}`} role="img" aria-label={picture.alt}>
        {picture.shapes.map((shape, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no name and never change places
          <Drawn key={i} shape={shape} />
        ))}
      </svg>
    </div>
  );
});
