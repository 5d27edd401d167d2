/** Refusals: always with reasons, kept on record, and never enough of them to drown the ribbon. */
import { describe, expect, it } from 'vitest';
import { viewOf } from '../../machines/world/world.ts';
import { seatedYard } from './yard.ts';

describe('a refused command', () => {
  it('hammered on is refused and recorded each time, but marked once', () => {
    const yard = seatedYard('emulsion-day');
    for (let i = 0; i < 40; i += 1) yard.refused({ do: 'restart' });
    expect(yard.told('commandRefused')).toHaveLength(40);
    const view = viewOf(yard.world);
    expect(view.ribbon.marks.filter((mark) => mark.mark === 'refusal')).toHaveLength(1);
    expect(view.refusals).toHaveLength(20);
    yard.run(11).refused({ do: 'restart' });
    expect(viewOf(yard.world).ribbon.marks.filter((mark) => mark.mark === 'refusal')).toHaveLength(2);
  });

  it('leaves the plant as it was', () => {
    const yard = seatedYard('emulsion-day');
    const before = yard.line;
    yard.refused({ do: 'lightBurner' });
    expect(yard.line.outputs).toEqual(before.outputs);
    expect(yard.value('burner')).toBe('off');
  });
});
