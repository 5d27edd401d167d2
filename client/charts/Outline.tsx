/** The same chart as nested lists of words, for who cannot or would rather not read a drawing. */
import type { Arrow, Box, ChartGraph } from './graph.ts';

type Props = { readonly graph: ChartGraph; readonly paths: ReadonlySet<string> };

const titleOf = (box: Box, path: string): string => {
  if (box.path === path) return box.title;
  for (const child of box.children) {
    const found = titleOf(child, path);
    if (found !== '') return found;
  }
  return '';
};

const State = ({
  box,
  arrows,
  root,
  paths,
}: {
  readonly box: Box;
  readonly arrows: readonly Arrow[];
  readonly root: Box;
  readonly paths: ReadonlySet<string>;
}) => (
  <li>
    <span className={paths.has(box.path) ? 'sc-here' : undefined}>
      {box.title}
      {paths.has(box.path) ? ' ● active' : ''}
    </span>
    {arrows.some((arrow) => arrow.from === box.path) && (
      <ul>
        {arrows
          .filter((arrow) => arrow.from === box.path)
          .map((arrow) => (
            <li key={arrow.id} className="sc-move">
              {arrow.labels.join(', or ')} → {titleOf(root, arrow.to)}
            </li>
          ))}
      </ul>
    )}
    {box.children.length > 0 && (
      <ul>
        {box.children.map((child) => (
          <State key={child.path} box={child} arrows={arrows} root={root} paths={paths} />
        ))}
      </ul>
    )}
  </li>
);

/** Beside the drawing there is room for it; under a drawing it would push everything else away. */
const hasRoom = () => window.matchMedia('(min-width: 821px)').matches;

export const Outline = ({ graph, paths }: Props) => (
  <details className="sc-outline" open={hasRoom()}>
    <summary>The chart in words</summary>
    <ul>
      <State box={graph.root} arrows={graph.arrows} root={graph.root} paths={paths} />
    </ul>
  </details>
);
