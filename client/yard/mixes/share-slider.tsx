/** A bin's share as a slider with its name and value, for blending by hand. */
import { useId } from 'react';

export function ShareSlider({
  label,
  value,
  said,
  onChange,
}: {
  readonly label: string;
  readonly value: number;
  readonly said: string;
  readonly onChange: (pct: number) => void;
}) {
  const id = useId();
  return (
    <div className="mx-slider">
      <label htmlFor={id}>{label}</label>
      <output htmlFor={id} className="num">
        {said}
      </output>
      <input
        id={id}
        type="range"
        min={0}
        max={100}
        step={0.5}
        value={value}
        aria-valuetext={said}
        onChange={(event) => onChange(Number(event.target.value))}
      />
    </div>
  );
}
