/** The flow as one picture: columns from deliveries to patches, widths by mass; point at or step to a box to follow it. */
import { type KeyboardEvent, useMemo, useRef, useState } from 'react';
import type { Traced } from '../../../machines/yard/trace/traced.types.ts';
import { useSize } from '../../ribbon/use-size.ts';
import { type Box, layFlow, threadOf } from './flow-layout.ts';
import { massWords, NODE_WORDS, nodeName } from './words.ts';

/** Width the picture is drawn for when it is too narrow to read: it then scrolls sideways. */
const LEAST_W = 640;
const ROOM = 380;
const NAME_LETTERS = 19;

const short = (text: string): string =>
  text.length > NAME_LETTERS ? `${text.slice(0, NAME_LETTERS - 1)}…` : text;

const boxName = ({ nodes }: Box): string => {
  const [first] = nodes;
  if (first === undefined) return '';
  if (nodes.length === 1) return nodeName(first);
  return first.kind === 'batch' ? `${nodes.length} batches` : `${nodes.length} smaller`;
};
const boxWords = (box: Box): string => {
  const [first] = box.nodes;
  if (first === undefined) return '';
  if (box.nodes.length > 1) {
    const which = box.key.startsWith('batches ')
      ? `batches of lot ${box.key.slice(8)}`
      : `smaller, ${NODE_WORDS[first.kind]}`;
    return `${box.nodes.length} ${which}: ${massWords(box.grams)} of what is traced`;
  }
  const affected = first.affectedGrams > 0 ? `, ${massWords(first.affectedGrams)} of mix still there` : '';
  return `${NODE_WORDS[first.kind]} ${nodeName(first)}${first.words === '' ? '' : ` (${first.words})`}: ${massWords(box.grams)} of what is traced${affected}`;
};
const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The box an arrow key leads to: up and down within the column, left and right to the nearest one. */
const stepFrom = (boxes: readonly Box[], box: Box, key: string): Box | undefined => {
  const column = boxes.filter(({ column: c }) => c === box.column);
  if (key === 'ArrowDown') return column[column.indexOf(box) + 1];
  if (key === 'ArrowUp') return column[column.indexOf(box) - 1];
  const side = key === 'ArrowRight' ? 1 : key === 'ArrowLeft' ? -1 : 0;
  if (side === 0) return undefined;
  const columns = [...new Set(boxes.map(({ column: c }) => c))].sort((a, b) => a - b);
  const next = columns[columns.indexOf(box.column) + side];
  const middle = box.y + box.h / 2;
  const far = ({ y, h }: Box) => Math.abs(y + h / 2 - middle);
  return boxes.filter(({ column: c }) => c === next).sort((a, b) => far(a) - far(b))[0];
};

export function FlowPicture({ traced }: { readonly traced: Traced }) {
  const ref = useRef<HTMLDivElement>(null);
  const { w } = useSize(ref);
  const width = Math.max(LEAST_W, w);
  const picture = useMemo(() => layFlow(traced, width, ROOM), [traced, width]);
  const [pointed, setPointed] = useState<string | null>(null);
  const [fixed, setFixed] = useState<string | null>(null);
  const [focus, setFocus] = useState<string | null>(null);
  const followed = pointed ?? fixed;
  const thread = useMemo(
    () => (followed === null ? null : threadOf(picture.bands, followed)),
    [picture, followed],
  );
  const { boxes, bands, columns, height } = picture;
  const shown = boxes.find(({ key }) => key === followed);
  const tabbed = boxes.some(({ key }) => key === focus) ? focus : (boxes[0]?.key ?? null);
  const state = (key: string): string => (thread === null ? '' : thread.has(key) ? ' on' : ' off');

  const onKeyDown = (event: KeyboardEvent, box: Box): void => {
    if (event.key === 'Escape') setFixed(null);
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      setFixed((now) => (now === box.key ? null : box.key));
    }
    const next = stepFrom(boxes, box, event.key);
    if (next === undefined) return;
    event.preventDefault();
    setFocus(next.key);
    document.getElementById(`tr-box-${boxes.indexOf(next)}`)?.focus();
  };

  return (
    <section className="card stack tr-flow" aria-labelledby="tr-flow-head">
      <div className="tr-head">
        <h2 id="tr-flow-head">The flow</h2>
        <span className="soft">
          Widths by mass of what is traced. Point at a box to follow it, tap to hold it; arrow keys step.
        </span>
      </div>
      <div ref={ref} className="tr-scroll">
        {w > 0 && (
          <svg
            className="tr-svg"
            width={width}
            height={height}
            viewBox={`0 0 ${width} ${height}`}
            onMouseLeave={() => setPointed(null)}
          >
            <title>Flow of mass from deliveries to patches</title>
            {columns.map(({ words, x, count }) => (
              <text key={words} className="tr-column" x={x} y={16}>
                {words} <tspan className="tr-count">{count}</tspan>
              </text>
            ))}
            <g>
              {bands.map((band) => (
                <path
                  key={band.key}
                  className={`tr-band${state(band.key)}`}
                  d={band.path}
                  strokeWidth={band.width}
                />
              ))}
            </g>
            {boxes.map((box, i) => (
              // biome-ignore lint/a11y/useSemanticElements: a button of HTML cannot stand in a drawing
              <g
                key={box.key}
                id={`tr-box-${i}`}
                role="button"
                tabIndex={box.key === tabbed ? 0 : -1}
                aria-pressed={fixed === box.key}
                aria-label={`${short(boxName(box))}: ${boxWords(box)}`}
                className={`tr-node${state(box.key)}`}
                onMouseEnter={() => setPointed(box.key)}
                onFocus={() => {
                  setFocus(box.key);
                  setPointed(box.key);
                }}
                onBlur={() => setPointed(null)}
                onClick={() => setFixed((now) => (now === box.key ? null : box.key))}
                onKeyDown={(event) => onKeyDown(event, box)}
              >
                <rect className="tr-hit" x={box.x - 2} y={box.y - 3} width={128} height={box.h + 6} />
                <rect className="tr-box" x={box.x} y={box.y} width={box.w} height={box.h} rx={3} />
                {box.h >= 9 || boxes.length < 60 || thread?.has(box.key) === true ? (
                  <text className="tr-name" x={box.x + box.w + 5} y={box.y + box.h / 2 + 4}>
                    {short(boxName(box))}
                  </text>
                ) : null}
              </g>
            ))}
          </svg>
        )}
      </div>
      <p className="tr-told" aria-live="polite">
        {shown === undefined ? <span className="soft">Nothing is followed.</span> : sentence(boxWords(shown))}
      </p>
    </section>
  );
}
