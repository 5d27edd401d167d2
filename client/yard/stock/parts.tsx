/** Parts the stock's pages share: waiting, fields, and a dialog that asks the book one thing. */
import { type FormEvent, type InputHTMLAttributes, type ReactNode, useEffect, useId } from 'react';
import { BookWaiting } from '../../parts/book-waiting.tsx';
import { Dialog } from '../../parts/dialog.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import type { StockHere } from './use-stock.ts';
import './stock.css';

/** What stands in place of the book before its first answer, when it cannot be had, or before any shift. */
export function StockWaiting({ book }: { readonly book: StockHere }) {
  if (book.view === null || book.error !== null)
    return <BookWaiting what="the stock’s book" error={book.error} onAgain={book.again} />;
  return (
    <p className="card empty">
      Nothing is known of this yard yet: its tanks, bins and bays come with the first shift. Open one on the
      Line page.
    </p>
  );
}

type FieldProps = {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly hint?: string;
  readonly wide?: boolean;
};

/** A labelled line to fill in, with what it means beneath. */
function InputField({
  label,
  value,
  onChange,
  hint,
  wide,
  ...input
}: FieldProps &
  Pick<InputHTMLAttributes<HTMLInputElement>, 'type' | 'maxLength' | 'inputMode' | 'className'>) {
  const id = useId();
  return (
    <div className={wide === true ? 'field sk-wide' : 'field'}>
      <label htmlFor={id}>{label}</label>
      <input
        {...input}
        id={id}
        value={value}
        aria-describedby={hint === undefined ? undefined : `${id}-h`}
        onChange={(event) => onChange(event.target.value)}
      />
      {hint !== undefined && (
        <span id={`${id}-h`} className="soft sk-hint">
          {hint}
        </span>
      )}
    </div>
  );
}

export const TextField = ({ max = 80, ...field }: FieldProps & { readonly max?: number }) => (
  <InputField {...field} type="text" maxLength={max} />
);

/** A day, as YYYY-MM-DD; the browser shows it as its user writes days. */
export const DateField = (field: FieldProps) => <InputField {...field} type="date" />;

export const NumberField = (field: FieldProps) => (
  <InputField {...field} type="text" inputMode="decimal" maxLength={12} className="num" />
);

export function SelectField({
  label,
  value,
  onChange,
  choices,
}: Omit<FieldProps, 'hint'> & { readonly choices: readonly (readonly [value: string, words: string])[] }) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.target.value)}>
        {value === '' && (
          <option value="" disabled>
            choose
          </option>
        )}
        {choices.map(([one, words]) => (
          <option key={one} value={one}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}

export function ReasonField({
  value,
  onChange,
  label = 'Reason, kept in the record',
}: Partial<FieldProps> & {
  readonly value: string;
  readonly onChange: (value: string) => void;
}) {
  return <TextField label={label} value={value} onChange={onChange} max={300} wide />;
}

/** A form in a dialog whose button puts one command to the book; it closes when that was done. */
export function AskDialog({
  title,
  go,
  danger = false,
  wide = false,
  book,
  onGo,
  onClose,
  children,
}: {
  readonly title: string;
  readonly go: string;
  readonly danger?: boolean;
  readonly wide?: boolean;
  readonly book: StockHere;
  /** True when it was done. */
  readonly onGo: () => Promise<boolean>;
  readonly onClose: () => void;
  readonly children: ReactNode;
}) {
  const { clear } = book.asked;
  // What another dialog was refused for has nothing to do with this one.
  useEffect(clear, [clear]);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (await onGo()) onClose();
  };
  return (
    <Dialog title={title} onClose={onClose} wide={wide}>
      <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
        {children}
        <Refusal because={book.asked.refusal} onClose={clear} />
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button
            type="submit"
            className={danger ? 'button primary danger' : 'button primary'}
            aria-busy={book.asked.waiting}
          >
            {go}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

/** A button that opens something this person may not do says why instead of being grey without a word. */
export function MayButton({
  book,
  what,
  onClick,
  children,
  primary = false,
}: {
  readonly book: StockHere;
  readonly what: Parameters<StockHere['whyNot']>[0];
  readonly onClick: () => void;
  readonly children: ReactNode;
  readonly primary?: boolean;
}) {
  const why = book.whyNot(what);
  return (
    <button
      type="button"
      className={primary ? 'button primary' : 'button'}
      data-barred={why !== null}
      title={why ?? undefined}
      onClick={() => (why === null ? onClick() : book.asked.explain([why]))}
    >
      {children}
    </button>
  );
}

/** Explains what is missing when a number is none; true when all are there. */
export function needNumbers(
  book: StockHere,
  wanted: readonly (readonly [value: number, words: string])[],
): boolean {
  const missing = wanted.filter(([value]) => !Number.isFinite(value)).map(([, words]) => words);
  if (missing.length > 0) book.asked.explain(missing);
  return missing.length === 0;
}

/** A table that may be wider than the page: it scrolls by itself, by keyboard too. */
export function Scroll({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by keyboard
    <section className="sk-scroll" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
