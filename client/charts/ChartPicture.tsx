/** A chart drawn: nested boxes first, then arrows, then nothing else; active states are lit. */
import { memo } from 'react';
import { ChartArrow } from './ChartArrow.tsx';
import { ChartBox } from './ChartBox.tsx';
import { nodeId, startId } from './elk-graph.ts';
import { type Box, boxesOf, type ChartGraph } from './graph.ts';
import type { ChartLayout } from './layout.ts';

type Props = {
  readonly graph: ChartGraph;
  readonly layout: ChartLayout;
  readonly paths: ReadonlySet<string>;
};

const depthOf = (box: Box) => (box.path === '' ? 0 : box.path.split('.').length);

export const ChartPicture = memo(({ graph, layout, paths }: Props) => {
  const boxes = boxesOf(graph.root);
  const starts = boxes.filter((box) => box.begins !== null);
  return (
    <g>
      {boxes.map((box) => {
        const at = layout.boxes.get(nodeId(box.path));
        return at === undefined ? null : (
          <ChartBox key={box.path} box={box} at={at} isActive={paths.has(box.path)} depth={depthOf(box)} />
        );
      })}
      {starts.map((box) => {
        const at = layout.boxes.get(startId(box.path));
        const line = layout.arrows.get(`${startId(box.path)}→${box.begins}`);
        return at === undefined || line === undefined ? null : (
          <g key={box.path}>
            <circle cx={at.x + at.w / 2} cy={at.y + at.h / 2} r={at.w / 2} className="sc-start" />
            <ChartArrow points={line.points} label={null} words={[]} isNext={false} />
          </g>
        );
      })}
      {graph.arrows.map((arrow) => {
        const line = layout.arrows.get(arrow.id);
        return line === undefined ? null : (
          <ChartArrow
            key={arrow.id}
            points={line.points}
            label={line.label}
            words={arrow.labels}
            isNext={arrow.from !== '' && paths.has(arrow.from)}
          />
        );
      })}
    </g>
  );
});
ChartPicture.displayName = 'ChartPicture';
