/** A number with its name and unit; what is typed half is left alone until it is a number in range. */
import { useEffect, useId, useState } from 'react';

const written = (value: number): string => String(Math.round(value * 1e6) / 1e6);

export function NumberField({
  label,
  unit,
  value,
  onChange,
  min = 0,
  max = 100_000,
  step = 'any',
  hint,
}: {
  readonly label: string;
  readonly unit: string;
  readonly value: number;
  readonly onChange: (value: number) => void;
  readonly min?: number;
  readonly max?: number;
  readonly step?: number | 'any';
  readonly hint?: string;
}) {
  const id = useId();
  const [text, setText] = useState(written(value));
  useEffect(() => {
    setText((typed) => (Number(typed) === value && typed.trim() !== '' ? typed : written(value)));
  }, [value]);
  const number = Number(text);
  const wrong = text.trim() === '' || !Number.isFinite(number) || number < min || number > max;
  return (
    <div className="field mx-number">
      <label htmlFor={id}>
        {label}
        {unit !== '' && <span className="soft"> {unit}</span>}
      </label>
      <input
        id={id}
        type="number"
        inputMode="decimal"
        className="num"
        value={text}
        min={min}
        max={max}
        step={step}
        aria-invalid={wrong}
        aria-describedby={wrong || hint !== undefined ? `${id}-hint` : undefined}
        onChange={(event) => {
          setText(event.target.value);
          const typed = Number(event.target.value);
          if (event.target.value.trim() !== '' && Number.isFinite(typed) && typed >= min && typed <= max)
            onChange(typed);
        }}
        onBlur={() => {
          if (wrong) setText(written(value));
        }}
      />
      {(wrong || hint !== undefined) && (
        <span id={`${id}-hint`} className={wrong ? 'warn-words' : 'soft mx-hint'}>
          {wrong ? `A number from ${min} to ${max}.` : hint}
        </span>
      )}
    </div>
  );
}
