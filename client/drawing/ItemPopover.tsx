/** The small card that opens on an item of equipment: readings, what is wrong, what it is asked to do. */
import { useEffect, useId, useRef } from 'react';
import type { LineView } from '../../machines/line/view.types.ts';
import { askedOf, readingsOf } from './facts.ts';
import { HEIGHT, type Item, WIDTH } from './items.ts';
import type { Note } from './notes.ts';

type Props = {
  readonly item: Item;
  readonly view: LineView;
  readonly notes: readonly Note[];
  readonly onClose: () => void;
};

/** Puts the card beside the item on the side with more room, as shares of the drawing. */
const placeOf = ({ box }: Item) => {
  const opensLeft = box.x + box.w / 2 > WIDTH / 2;
  const opensUp = box.y + box.h / 2 > HEIGHT * 0.5;
  const side = opensLeft
    ? { right: `${(100 * (WIDTH - Math.max(box.x, WIDTH * 0.4))) / WIDTH}%` }
    : { left: `${(100 * Math.min(box.x + box.w, WIDTH * 0.6)) / WIDTH}%` };
  const level = opensUp
    ? { bottom: `${(100 * (HEIGHT - box.y - box.h)) / HEIGHT}%` }
    : { top: `${(100 * box.y) / HEIGHT}%` };
  return { ...side, ...level };
};

export const ItemPopover = ({ item, view, notes, onClose }: Props) => {
  const card = useRef<HTMLDivElement>(null);
  const titleId = useId();
  useEffect(() => {
    card.current?.focus();
    const onPress = (event: PointerEvent) => {
      const target = event.target as Element | null;
      if (target?.closest('[data-drawing-item]') != null) return;
      if (card.current !== null && !card.current.contains(target)) onClose();
    };
    document.addEventListener('pointerdown', onPress);
    return () => document.removeEventListener('pointerdown', onPress);
  }, [onClose]);
  return (
    <div
      ref={card}
      className="pd-card"
      role="dialog"
      aria-labelledby={titleId}
      tabIndex={-1}
      style={placeOf(item)}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        onClose();
      }}
    >
      <div className="pd-card-head">
        <h3 id={titleId}>{item.name}</h3>
        <button type="button" className="pd-card-close" onClick={onClose} aria-label="Close">
          ✕
        </button>
      </div>
      {notes.map((note) => (
        <p key={note.words} className={`pd-card-note pd-card-${note.level}`}>
          {note.level === 'trip' ? '■' : '▲'} {note.words}
        </p>
      ))}
      <dl>
        {readingsOf(item, view).map((row) => (
          <div key={row.label}>
            <dt>{row.label}</dt>
            <dd>{row.value}</dd>
          </div>
        ))}
      </dl>
      <h4>Asked to</h4>
      <ul>
        {askedOf(item.id, view).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  );
};
