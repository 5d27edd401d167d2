/** The plant drawn along the path of the material: grey is normal, colour with a mark and words means look here. */
import { useCallback, useId, useMemo, useRef, useState } from 'react';
import type { LineView } from '../../machines/line/view.types.ts';
import { Bays } from './Bays.tsx';
import { BinderBucket } from './BinderBucket.tsx';
import { ColdBins } from './ColdBins.tsx';
import { Dryer } from './Dryer.tsx';
import './drawing.css';
import { describe } from './facts.ts';
import { familyInUse } from './family.ts';
import { HoldingBin } from './HoldingBin.tsx';
import { Hood } from './Hood.tsx';
import { ItemPopover } from './ItemPopover.tsx';
import { HEIGHT, type Item, type ItemId, itemsOf, WIDTH } from './items.ts';
import { Liquids } from './Liquids.tsx';
import { allNotes, type Notes } from './notes.ts';
import { OilHeater } from './OilHeater.tsx';
import { PugMill } from './PugMill.tsx';
import { Tank } from './Tank.tsx';
import { ValueTable } from './ValueTable.tsx';
import { Weather } from './Weather.tsx';
import { WeighHopper } from './WeighHopper.tsx';

const EMULSION_Y = 258;
const CUTBACK_Y = 376;
const COIL_DOWN = 41;

const share = (part: number, whole: number) => `${(100 * part) / whole}%`;

const boxStyle = ({ box }: Item) => ({
  left: share(box.x, WIDTH),
  top: share(box.y, HEIGHT),
  width: share(box.w, WIDTH),
  height: share(box.h, HEIGHT),
});

const Picture = ({ view, notes }: { readonly view: LineView; readonly notes: Notes }) => {
  const titleId = useId();
  const descriptionId = useId();
  const family = familyInUse(view);
  return (
    <svg
      className="pd-svg"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-labelledby={titleId}
      aria-describedby={descriptionId}
    >
      <title id={titleId}>The plant</title>
      <desc id={descriptionId}>{describe(view)}</desc>
      <Weather view={view} />
      <ColdBins view={view} notes={notes} />
      <WeighHopper view={view} note={notes.hopper?.[0]} family={family} />
      <Dryer view={view} note={notes.dryer?.[0]} family={family} />
      <HoldingBin view={view} note={notes.holding?.[0]} family={family} />
      <OilHeater view={view} note={notes.oil?.[0]} coilYs={[EMULSION_Y + COIL_DOWN, CUTBACK_Y + COIL_DOWN]} />
      <Tank view={view} id="emulsion" y={EMULSION_Y} note={notes.emulsion?.[0]} />
      <Tank view={view} id="cutback" y={CUTBACK_Y} note={notes.cutback?.[0]} />
      <BinderBucket view={view} note={notes.bucket?.[0]} valveNote={notes.valve?.[0]} family={family} />
      <Liquids view={view} note={notes.liquids?.[0]} />
      <Hood view={view} note={notes.hood?.[0]} />
      <PugMill view={view} note={notes.mill?.[0]} />
      <Bays view={view} />
    </svg>
  );
};

export const PlantDrawing = ({ view }: { readonly view: LineView }) => {
  const [openId, setOpenId] = useState<ItemId | null>(null);
  const buttons = useRef(new Map<ItemId, HTMLButtonElement>());
  const items = useMemo(() => itemsOf(view.plant.bins), [view.plant.bins]);
  const notes = useMemo(() => allNotes(items, view), [items, view]);
  const open = items.find((item) => item.id === openId);
  const close = useCallback(() => {
    if (openId !== null) buttons.current.get(openId)?.focus();
    setOpenId(null);
  }, [openId]);
  return (
    <div className="pd-frame">
      <div className="pd-drawing">
        <Picture view={view} notes={notes} />
        {items.map((item) => (
          <button
            key={item.id}
            type="button"
            data-drawing-item={item.id}
            className="pd-press"
            style={boxStyle(item)}
            aria-label={item.name}
            aria-haspopup="dialog"
            aria-expanded={item.id === openId}
            ref={(element) => {
              if (element === null) buttons.current.delete(item.id);
              else buttons.current.set(item.id, element);
            }}
            onClick={() => setOpenId(item.id === openId ? null : item.id)}
          />
        ))}
        {open !== undefined && (
          <ItemPopover key={open.id} item={open} view={view} notes={notes[open.id] ?? []} onClose={close} />
        )}
      </div>
      <ValueTable view={view} items={items} notes={notes} />
    </div>
  );
};
