/** A worksheet being filled in: readings, what they give so far, what is wrong at which field, the draft kept over a reload. */
import { useEffect, useMemo, useState } from 'react';
import { fieldsOf, type Sheet, type SheetContext } from '../../../machines/lab/worksheets/index.ts';
import { type Draft, draftOf, dropDraft, keepDraft, type Readings } from './drafts.ts';
import { soFar } from './preview.ts';
import { stillWanted, wholeTime } from './typing.ts';

const NONE: Readings = {};

/** `key` names the draft; null keeps none. */
export function useSheet(sheet: Sheet, context: SheetContext, key: string | null, first: Readings = NONE) {
  const [draft] = useState<Draft | null>(() => (key === null ? null : draftOf(key)));
  const [readings, setReadings] = useState<Readings>(draft?.readings ?? first);
  const [simulated, setSimulated] = useState(draft?.simulated ?? false);
  const [touched, setTouched] = useState(draft !== null);
  const [tried, setTried] = useState(false);

  // A time still being typed is read as it will be when the field is left.
  const fields = useMemo(() => fieldsOf(sheet, readings, context), [sheet, readings, context]);
  const whole = useMemo(
    () =>
      Object.fromEntries(
        fields
          .map((field): [string, string] => {
            const text = (readings[field.key] ?? '').trim();
            return [field.key, field.kind === 'time' && text !== '' ? wholeTime(text, context.nowAt) : text];
          })
          .filter(([, text]) => text !== ''),
      ),
    [fields, readings, context.nowAt],
  );
  const worked = useMemo(() => sheet.workOut(whole, context), [sheet, whole, context]);
  const preview = useMemo(
    () => (worked.ok ? null : soFar(sheet, fields, whole, context)),
    [worked, sheet, fields, whole, context],
  );
  const wanted = stillWanted(fields, readings);
  const problems = useMemo(() => {
    if (worked.ok) return {};
    const found: { [field: string]: string } = {};
    for (const { field, message } of worked.because) {
      if (field === null || found[field] !== undefined) continue;
      // An empty field is not wrong until somebody tries to enter the sheet.
      if (!tried && (readings[field] ?? '').trim() === '') continue;
      found[field] = message;
    }
    return found;
  }, [worked, readings, tried]);

  useEffect(() => {
    if (key !== null && touched) keepDraft(key, { readings, simulated, savedAt: new Date().toISOString() });
  }, [key, touched, readings, simulated]);

  return {
    fields,
    readings,
    whole,
    worked,
    /** What there is so far while the sheet is not whole. */
    preview,
    wanted,
    problems,
    simulated,
    /** Readings of an earlier visit were found and are shown. */
    fromDraft: draft !== null,
    isDraft: touched,
    change: (field: string, text: string) => {
      setTouched(true);
      setReadings((before) => ({ ...before, [field]: text }));
    },
    fill: (all: Readings, fromBench: boolean) => {
      setTouched(true);
      setSimulated(fromBench);
      setReadings(all);
    },
    showAll: () => setTried(true),
    forget: () => {
      if (key !== null) dropDraft(key);
      setTouched(false);
      setReadings(first);
      setSimulated(false);
      setTried(false);
    },
  };
}
