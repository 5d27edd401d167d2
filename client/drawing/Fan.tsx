/** A fan: a wheel with three blades that turns when the fan runs. */
type Props = { readonly x: number; readonly y: number; readonly r: number; readonly isOn: boolean };

export const Fan = ({ x, y, r, isOn }: Props) => (
  <g transform={`translate(${x} ${y})`}>
    <circle r={r} className={`pd-shell${isOn ? ' pd-shell-on' : ''}`} />
    <g className={isOn ? 'pd-turn' : undefined}>
      {[0, 120, 240].map((angle) => (
        <path
          key={angle}
          d={`M0 0Q${r * 0.5} ${-r * 0.35} ${r * 0.25} ${-r * 0.8}Q${-r * 0.1} ${-r * 0.5} 0 0Z`}
          transform={`rotate(${angle})`}
          className={isOn ? 'pd-blade-on' : 'pd-blade'}
        />
      ))}
    </g>
  </g>
);
