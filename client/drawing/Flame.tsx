/** A flame lying on its side or standing; drawn only when a scanner sees one. */
type Props = { readonly x: number; readonly y: number; readonly size: number; readonly lying?: boolean };

export const Flame = ({ x, y, size, lying = false }: Props) => (
  <g transform={`translate(${x} ${y})${lying ? ' rotate(90)' : ''} scale(${size / 20})`} className="pd-flame">
    <path d="M0 -20C4 -12 9 -9 8 -1C7.500 5 3.500 8 0 8C-3.500 8 -7.500 5 -8 -1C-8.500 -6 -4 -8 -3.500 -13C-1.500 -11 -1 -9 -1 -7C1 -10 1.500 -15 0 -20Z" />
    <path
      d="M0 -4C2 -1 4 0 3.500 3C3 6 1.500 7 0 7C-1.500 7 -3.500 5.500 -3.500 3C-3.500 0 -1 -1 0 -4Z"
      className="pd-flame-core"
    />
  </g>
);
