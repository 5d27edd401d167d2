/** A slider with its name and its value in words. */
import { useId } from 'react';

export function Slider({
  label,
  value,
  min,
  max,
  step,
  said,
  onChange,
}: {
  readonly label: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** The value as people say it, "84 °C". */
  readonly said: string;
  readonly onChange: (value: number) => void;
}) {
  const id = useId();
  return (
    <div className="slider">
      <label htmlFor={id}>{label}</label>
      <output htmlFor={id} className="num">
        {said}
      </output>
      <input
        id={id}
        type="range"
        min={min}
        max={max}
        step={step}
        value={value}
        aria-valuetext={said}
        onChange={(event) => onChange(Number(event.target.value))}
      />
    </div>
  );
}
