/** The box that says what to trace: type a part of a name or ticket, choose from what is on record. */
import { type KeyboardEvent, useEffect, useId, useRef, useState } from 'react';
import type { Suggestion, TraceFrom } from '../../../machines/yard/trace/traced.types.ts';
import { KIND_WORDS } from './asked.ts';
import { useGot } from './use-got.ts';
import { nodeName } from './words.ts';

const WAIT_MS = 150;

/** The text as it was a moment ago, so that not every letter asks the server. */
const useSettled = (text: string): string => {
  const [settled, setSettled] = useState(text);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(text), WAIT_MS);
    return () => clearTimeout(timer);
  }, [text]);
  return settled;
};

const nameOf = ({ kind, id }: Suggestion): string =>
  kind === 'operator' || kind === 'scale' ? id : nodeName({ kind, id });

export function Search({
  label,
  onChoose,
  kinds,
}: {
  readonly label: string;
  readonly onChoose: (from: TraceFrom) => void;
  /** Only these are offered; left out: all. */
  readonly kinds?: readonly TraceFrom['kind'][];
}) {
  const id = useId();
  const box = useRef<HTMLInputElement>(null);
  const [text, setText] = useState('');
  const [open, setOpen] = useState(false);
  const [at, setAt] = useState(0);
  const settled = useSettled(text.trim());
  const got = useGot<readonly Suggestion[]>(
    open ? `/api/trace/suggest?text=${encodeURIComponent(settled)}` : null,
  );
  const list = (got.value ?? []).filter((one) => kinds === undefined || kinds.includes(one.kind));
  const active = list[Math.min(at, list.length - 1)];

  const choose = (one: Suggestion): void => {
    setOpen(false);
    setText('');
    onChoose({ kind: one.kind, id: one.id });
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') setOpen(false);
    if (event.key === 'Enter' && open && active !== undefined) {
      event.preventDefault();
      choose(active);
    }
    if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
    event.preventDefault();
    setOpen(true);
    const step = event.key === 'ArrowDown' ? 1 : -1;
    setAt((now) => Math.max(0, Math.min(list.length - 1, (open ? now : -step) + step)));
  };

  return (
    <search
      className="tr-search"
      onBlur={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget)) setOpen(false);
      }}
    >
      <label htmlFor={`${id}-box`}>{label}</label>
      <input
        id={`${id}-box`}
        ref={box}
        type="search"
        role="combobox"
        autoComplete="off"
        spellCheck={false}
        placeholder="Ticket, lot, load, patch, person, scale …"
        aria-expanded={open}
        aria-controls={`${id}-list`}
        aria-activedescendant={open && active !== undefined ? `${id}-${list.indexOf(active)}` : undefined}
        value={text}
        onChange={(event) => {
          setText(event.target.value);
          setAt(0);
          setOpen(true);
        }}
        onFocus={() => setOpen(true)}
        onClick={() => setOpen(true)}
        onKeyDown={onKeyDown}
      />
      {open && (
        <div className="tr-suggest">
          <div id={`${id}-list`} role="listbox" aria-label="On record">
            {list.map((one, i) => (
              <div
                key={`${one.kind} ${one.id}`}
                id={`${id}-${i}`}
                role="option"
                aria-selected={one === active}
                tabIndex={-1}
                onMouseEnter={() => setAt(i)}
                onMouseDown={(event) => event.preventDefault()}
                onClick={() => choose(one)}
                onKeyDown={onKeyDown}
              >
                <span className="tr-kind">{KIND_WORDS[one.kind]}</span>
                <span className="tr-id">{nameOf(one)}</span>
                <span className="soft">{one.words}</span>
              </div>
            ))}
          </div>
          {list.length === 0 && (
            <p className="soft tr-none" role="status">
              {got.because?.join(' ') ??
                (got.loading
                  ? 'Looking…'
                  : text === ''
                    ? 'Nothing has moved in this yard yet.'
                    : `Nothing on record is called “${text}”.`)}
            </p>
          )}
        </div>
      )}
    </search>
  );
}
