/** Outside air and rain, in the corner where a person looks for them. */
import type { LineView } from '../../machines/line/view.types.ts';
import { celsius, figure } from './figures.ts';
import { Words } from './Words.tsx';

export const Weather = ({ view }: { readonly view: LineView }) => {
  const { ambientC, rainMmH } = view.plant.readings;
  const rain = rainMmH > 0 ? `rain ${figure(rainMmH, 1)} mm/h` : 'dry';
  return <Words x={736} y={18} text={`outside ${celsius(ambientC)} · ${rain}`} max={240} anchor="end" />;
};
