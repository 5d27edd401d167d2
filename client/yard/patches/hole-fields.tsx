/** The fields of one hole, as text while they are being written. */
import { useId } from 'react';
import type { CompactedBy, Measured, Surface } from '../../../machines/yard/patches/patch.types.ts';

import './new-list.css';

export type HoleText = {
  readonly place: string;
  readonly route: string;
  readonly lengthM: string;
  readonly widthM: string;
  readonly depthMm: string;
  readonly baseReached: boolean;
  readonly compactedBy: CompactedBy;
  readonly surface: Surface;
};

export const EMPTY_HOLE: HoleText = {
  place: '',
  route: '',
  lengthM: '',
  widthM: '',
  depthMm: '',
  baseReached: false,
  compactedBy: 'hand rammer',
  surface: 'bituminous',
};

export const textOf = (hole: Measured): HoleText => ({
  place: hole.place,
  route: hole.route,
  baseReached: hole.baseReached,
  compactedBy: hole.compactedBy,
  surface: hole.surface,
  lengthM: String(hole.lengthM),
  widthM: String(hole.widthM),
  depthMm: String(hole.depthMm),
});

/** A typed number with a point or a comma; NaN when it is none. Typed numbers carry no groups of thousands. */
const numberOf = (text: string): number => {
  const bare = text.trim().replace(',', '.');
  return /^[-+]?\d*\.?\d+$/.test(bare) ? Number(bare) : Number.NaN;
};

export const holeOf = (text: HoleText): Measured => ({
  place: text.place.trim(),
  route: text.route.trim(),
  baseReached: text.baseReached,
  compactedBy: text.compactedBy,
  surface: text.surface,
  lengthM: numberOf(text.lengthM),
  widthM: numberOf(text.widthM),
  depthMm: numberOf(text.depthMm),
});

export function HoleFields({
  text,
  onChange,
}: {
  readonly text: HoleText;
  readonly onChange: (next: HoleText) => void;
}) {
  const id = useId();
  const set = (change: Partial<HoleText>) => onChange({ ...text, ...change });
  const input = (key: 'place' | 'route' | 'lengthM' | 'widthM' | 'depthMm', label: string, most: number) => (
    <div className="field" key={key}>
      <label htmlFor={`${id}-${key}`}>{label}</label>
      <input
        id={`${id}-${key}`}
        type="text"
        inputMode={key === 'place' || key === 'route' ? 'text' : 'decimal'}
        maxLength={most}
        value={text[key]}
        onChange={(event) => set({ [key]: event.target.value })}
      />
    </div>
  );
  return (
    <div className="yp-hole">
      {input('place', 'Place', 120)}
      {input('route', 'Route', 60)}
      {input('lengthM', 'Length, m', 12)}
      {input('widthM', 'Width, m', 12)}
      {input('depthMm', 'Depth, mm', 12)}
      <div className="field">
        <label htmlFor={`${id}-base`}>Granular base reached</label>
        <select
          id={`${id}-base`}
          value={text.baseReached ? 'yes' : 'no'}
          onChange={(event) => set({ baseReached: event.target.value === 'yes' })}
        >
          <option value="no">no</option>
          <option value="yes">yes</option>
        </select>
      </div>
      <div className="field">
        <label htmlFor={`${id}-by`}>Compacted by</label>
        <select
          id={`${id}-by`}
          value={text.compactedBy}
          onChange={(event) => set({ compactedBy: event.target.value as CompactedBy })}
        >
          <option value="hand rammer">hand rammer</option>
          <option value="roller">roller</option>
        </select>
      </div>
      <div className="field">
        <label htmlFor={`${id}-surface`}>Road around it</label>
        <select
          id={`${id}-surface`}
          value={text.surface}
          onChange={(event) => set({ surface: event.target.value as Surface })}
        >
          <option value="bituminous">bituminous</option>
          <option value="concrete">cement concrete</option>
        </select>
      </div>
    </div>
  );
}
