/** The layout of a chart when it is ready: null while it is worked out, 'failed' when it cannot be. */
import { useEffect, useState } from 'react';
import { laidOut } from './engine.ts';
import type { ChartGraph } from './graph.ts';
import type { ChartLayout } from './layout.ts';

export const useLayout = (graph: ChartGraph): ChartLayout | 'failed' | null => {
  const [found, setFound] = useState<{ graph: ChartGraph; layout: ChartLayout | 'failed' } | null>(null);
  useEffect(() => {
    let isWanted = true;
    laidOut(graph).then(
      (layout) => isWanted && setFound({ graph, layout }),
      () => isWanted && setFound({ graph, layout: 'failed' }),
    );
    return () => {
      isWanted = false;
    };
  }, [graph]);
  return found?.graph === graph ? found.layout : null;
};
