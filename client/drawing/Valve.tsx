/** A valve as the trade draws it: two triangles, filled when open, empty when shut. */
type Props = {
  readonly x: number;
  readonly y: number;
  readonly isOpen: boolean;
  readonly level?: 'warn' | 'trip' | null;
  readonly size?: number;
  readonly upright?: boolean;
};

export const Valve = ({ x, y, isOpen, level = null, size = 10, upright = false }: Props) => {
  const h = size * 0.7;
  const d = `M${-size} ${-h}L${size} ${h}V${-h}L${-size} ${h}Z`;
  return (
    <path
      d={d}
      transform={`translate(${x} ${y})${upright ? ' rotate(90)' : ''}`}
      className={`pd-valve${isOpen ? ' pd-valve-open' : ''}${level === null ? '' : ` pd-line-${level}`}`}
    />
  );
};
