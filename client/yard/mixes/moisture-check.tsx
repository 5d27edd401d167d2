/** The lab's newest moisture tests against what the line weighs for, and the button that corrects the line. */
import type { BinFigures } from '../../../machines/yard/mixes/bins.ts';
import { whyNot } from '../../live/may.ts';
import { useCommand } from '../../live/use-command.ts';
import { useStandpoint } from '../../live/use-standpoint.ts';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { figure } from './words.ts';

export function MoistureCheck({ bins }: { readonly bins: readonly BinFigures[] }) {
  const asked = useCommand();
  const at = useStandpoint();
  const newer = bins.filter((bin) => bin.moisturePct !== bin.lineMoisturePct);
  if (newer.length === 0) return <Refusal because={asked.refusal} onClose={asked.clear} />;
  const why = whyNot('setMoisture', at);
  const correct = async () => {
    if (why.length > 0) return asked.explain(why);
    for (const bin of newer) {
      const done = await asked.send(
        {
          do: 'setMoisture',
          bin: bin.bin,
          pct: bin.moisturePct,
          source: bin.moistureSource.slice(0, 60),
        },
        `The line weighs ${bin.name} for ${figure(bin.moisturePct, 1)} % moisture.`,
      );
      if (!done) return;
    }
  };
  return (
    <div className="mx-newer stack">
      <p>
        <Mark shape="triangle" /> The line weighs for an older moisture:{' '}
        {newer
          .map(
            (bin) =>
              `${bin.name} ${figure(bin.lineMoisturePct, 1)} % in place of ${figure(bin.moisturePct, 1)} %`,
          )
          .join('; ')}
        .
      </p>
      <Refusal because={asked.refusal} onClose={asked.clear} />
      <div className="row">
        <button
          type="button"
          className="button"
          data-barred={why.length > 0}
          aria-busy={asked.waiting}
          onClick={() => void correct()}
        >
          Correct the line by the new tests
        </button>
        <span className="soft">Batches weighed from then on are corrected; one under way is not.</span>
      </div>
    </div>
  );
}
