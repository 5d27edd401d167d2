/** The usual cautions before solvent and flame are used: read, acknowledged, and recorded under a name. */
import { useEffect, useRef } from 'react';
import { whyNot } from '../live/may.ts';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { useStandpoint } from '../live/use-standpoint.ts';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';

export function CautionsCard() {
  const cautions = useLive((live) => live.view?.now.cautions ?? null);
  const at = useStandpoint();
  const asked = useCommand();
  const heading = useRef<HTMLHeadingElement>(null);
  const shown = cautions !== null;
  useEffect(() => {
    if (!shown) return;
    heading.current?.focus({ preventScroll: true });
    heading.current?.closest('section')?.scrollIntoView({ block: 'nearest' });
  }, [shown]);
  if (cautions === null) return null;
  const because = whyNot('acknowledgeCautions', at);
  return (
    // It covers the drawing but is not modal: hold and emergency stop stay in reach.
    <section
      className="cautions"
      role="alertdialog"
      aria-labelledby="cautions-title"
      aria-describedby="cautions-lines"
    >
      <h2 id="cautions-title" ref={heading} tabIndex={-1}>
        <Mark shape="triangle" /> {cautions.title}
      </h2>
      <ul id="cautions-lines" className="bullets">
        {cautions.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <Refusal because={asked.refusal} onClose={asked.clear} />
      <button
        type="button"
        className="button primary act"
        data-barred={because.length > 0}
        aria-busy={asked.waiting}
        onClick={() =>
          because.length > 0
            ? asked.explain(because)
            : void asked.send({ do: 'acknowledgeCautions' }, 'Cautions acknowledged.')
        }
      >
        I have read these and will keep to them
      </button>
    </section>
  );
}
